import type { VNode } from 'preact';
import { shipDifferences } from '../../../app/kept/kept-things.ts';
import type { JobShip } from '../../../core/job/job.ts';
import { withEntered } from '../../../core/job/not-entered.ts';
import { KeptChoice } from '../../fields/KeptChoice.tsx';
import { useDesk } from '../desk-context.ts';

const WORDS: Partial<Record<keyof JobShip, string>> = {
  trueAirspeedKnots: 'airspeed',
  writingBankDegrees: 'writing bank',
  turningBankDegrees: 'turning bank',
  maximumBankDegrees: 'greatest bank',
  rollRateDegreesPerSecond: 'roll',
  smokeOilPoundsPerMinute: 'oil burnt',
  fuelGallonsPerHour: 'fuel burnt',
  fuelReserveMinutes: 'reserve',
  valveOnSeconds: 'valve opening',
  valveOffSeconds: 'valve closing',
  reactionSeconds: 'hand',
  balance: 'weight and balance',
  climbFeetPerMinute: 'climb',
};

/** The ship as it is kept: taken into the job as a copy, kept from here, and said when the kept one has changed since. */
export function KeptShipChoice({ shipIndex }: { readonly shipIndex: number }): VNode | null {
  const { editor, kept } = useDesk();
  const ship = editor.job.value.ships[shipIndex];
  if (ship === undefined) return null;
  const { ships } = kept.kept.value;
  const its = ships.find(({ id }) => id === ship.keptId);
  const differs = its === undefined ? [] : shipDifferences(ship, its.ship);
  const put = (name: string, next: JobShip): void =>
    editor.edit(name, (job) => {
      const entered = withEntered(
        { ...job, ships: job.ships.map((each, index) => (index === shipIndex ? next : each)) },
        ...job.notEntered.filter((path) => path.startsWith('ships.') && job.ships.length === 1),
      );
      return entered;
    });
  const takeKept = (id: string): void => {
    const found = ships.find((each) => each.id === id);
    if (found !== undefined) put(`${found.ship.name}, kept ship`, found.ship);
  };
  return (
    <div class="kept-ship">
      <KeptChoice
        label="Kept ships"
        items={ships.map(({ id, ship: each }) => ({ id, name: each.name }))}
        onTake={takeKept}
        onForget={(id) => void kept.forget('ships', id)}
        onKeep={
          editor.job.value.notEntered.some((path) => path.startsWith('ships.'))
            ? null
            : () => void kept.keepShip(ship).then((keptId) => put(`${ship.name} kept`, { ...ship, keptId }))
        }
        keepWord={its === undefined ? 'Keep this ship' : 'Keep it as it is here'}
      />
      {differs.length > 0 && its !== undefined && (
        <p class="notice caution" data-kept-differs={differs.length}>
          <span>
            The kept {its.ship.name} has changed since: {differs.map((key) => WORDS[key] ?? key).join(', ')}.{' '}
          </span>
          <button
            type="button"
            onClick={() =>
              put(`${its.ship.name}, as kept`, {
                ...its.ship,
                name: ship.name,
                smokeOilPounds: ship.smokeOilPounds,
                fuelGallons: ship.fuelGallons,
                otherFlyingMinutes: ship.otherFlyingMinutes,
              })
            }
          >
            Take it as kept
          </button>
        </p>
      )}
      {kept.fault.value !== null && <p class="fault">Not kept. {kept.fault.value}</p>}
    </div>
  );
}
