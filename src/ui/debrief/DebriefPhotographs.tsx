import type { VNode } from 'preact';
import type { PhotographDesk } from '../../app/photographs/photograph-desk.ts';
import type { SpreadingSeen } from '../../core/photograph/spreading.ts';
import { PhotographPanel } from '../photographs/PhotographPanel.tsx';
import { useDebrief } from './debrief-context.ts';

/** Until smoke was measured once. */
const ASSUMED_SPREADING = 10;

/** The photographs of the open flight; what they tell of the smoke is a lesson of a real flight. */
export function DebriefPhotographs({ desk, timeZone, name }: { readonly desk: PhotographDesk; readonly timeZone: string; readonly name: string }): VNode {
  const { desk: debrief } = useDebrief();
  const opened = debrief.state.value;
  const real = opened.kind === 'open' && opened.flight.kind === 'flight';
  const carry = ({ horizontalSquareMetresPerSecond, sigmaSquareMetresPerSecond, count }: SpreadingSeen): void => {
    void debrief.carry({
      kind: 'spreading',
      suggested: { value: horizontalSquareMetresPerSecond, sigma: sigmaSquareMetresPerSecond, count },
      current: debrief.calibration.peek()?.horizontalSquareMetresPerSecond ?? ASSUMED_SPREADING,
      from: 'photographs',
    });
  };
  return <PhotographPanel desk={desk} timeZone={timeZone} name={name} onSpreading={real ? carry : null} />;
}
