import type { VNode } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import './debrief.css';
import '../fields/fields.css';
import '../drawing/pictures.css';
import '../drawing/player.css';
import '../sky/sky.css';
import { createDebriefDesk } from '../../app/debrief/debrief-desk.ts';
import { useApplication } from '../application-context.ts';
import { DebriefContext } from './debrief-context.ts';
import { DebriefDeskView } from './DebriefDeskView.tsx';
import { WithUnits } from '../fields/WithUnits.tsx';
import { createFlightPlayer, type FlightSpan } from './flight-player.ts';
import { OpeningStored } from '../words/OpeningStored.tsx';

/** The Debrief screen of one job. */
export function DebriefScreen({ jobId }: { readonly jobId: string }): VNode {
  const { database, jobs, planner, handedOver } = useApplication();
  const parts = useMemo(() => {
    const desk = createDebriefDesk({ database, jobs, jobId, planner });
    const limits: { span: FlightSpan | null } = { span: null };
    const player = createFlightPlayer(
      () => limits.span,
      () => matchMedia('(prefers-reduced-motion: reduce)').matches,
    );
    return { desk, player, limits };
  }, [database, jobs, jobId]);
  useEffect(() => {
    // Tracks that are stored already must have been read before more are put beside them.
    return parts.desk.flights.subscribe((flights) => {
      const files = handedOver.peek();
      if (flights.kind === 'loading' || files.length === 0) return;
      handedOver.value = [];
      void parts.desk.importTracks(files);
    });
  }, [parts]);
  useEffect(
    () => () => {
      parts.player.dispose();
      parts.desk.dispose();
    },
    [parts],
  );
  // Whose flights these are stands above them: nothing is shown that would then jump.
  if (jobs.state.value.kind === 'loading') {
    return <OpeningStored />;
  }
  return (
    <DebriefContext.Provider value={parts}>
      <WithUnits>
        <DebriefDeskView onSpan={(span) => (parts.limits.span = span)} />
      </WithUnits>
    </DebriefContext.Provider>
  );
}
