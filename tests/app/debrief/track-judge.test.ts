import { describe, expect, it } from 'vitest';
import type { ImportedTrack } from '../../../src/app/debrief/imported-tracks.ts';
import { createTrackJudge } from '../../../src/app/debrief/track-judge.ts';
import { logFromTrack } from '../../../src/core/debrief/imported-log.ts';
import { exportedTrack } from '../../../src/core/debrief/exported-track.ts';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import { planJob } from '../../../src/core/plan/plan-job.ts';
import { flyWord, worldFor } from '../../core/debrief/flown-word.ts';

const { log, debrief } = flyWord('I', worldFor(51));
const planned = planJob(DEMO_JOB);
if (!planned.ok) throw new Error('the demo has a plan');
const { plan } = planned.value;
const stranger: ImportedTrack = { id: 'one', track: exportedTrack(log, debrief.intervals), shipIndex: null, seen: [] };
const ours: ImportedTrack = { ...stranger, id: 'two', shipIndex: 0 };

describe('imported tracks judged beside a flight', () => {
  it('smooths a stranger once, though the job is read again and planned', () => {
    const judge = createTrackJudge();
    const first = judge(stranger, DEMO_JOB, null);
    expect(judge(stranger, structuredClone(DEMO_JOB), null)).toBe(first);
    expect(judge(stranger, DEMO_JOB, plan)).toBe(first);
    expect(first.log).toEqual(logFromTrack(stranger.track, first.log.setup));
  });

  it("gives one of the job's own ships its strokes when the plan comes, without smoothing it again", () => {
    const judge = createTrackJudge();
    const before = judge(ours, DEMO_JOB, null);
    const after = judge(ours, DEMO_JOB, plan);
    expect(before.log.setup.strokes).toEqual([]);
    expect(after.log.setup.strokes.length).toBeGreaterThan(0);
    expect(after.log.track).toBe(before.log.track);
    expect(after.log).toEqual(logFromTrack(ours.track, after.log.setup));
  });

  it('smooths anew from another site or for another track, and judges anew for other marks of smoke', () => {
    const judge = createTrackJudge();
    const first = judge(stranger, DEMO_JOB, null);
    const marked = judge({ ...stranger, seen: [{ onSeconds: 10, offSeconds: 20 }] }, DEMO_JOB, null);
    expect(marked.log.track).toBe(first.log.track);
    expect(marked.debrief.intervals).toHaveLength(1);
    const elsewhere = judge(stranger, { ...DEMO_JOB, site: { ...DEMO_JOB.site, elevationFeet: DEMO_JOB.site.elevationFeet + 500 } }, null);
    expect(elsewhere.log).toEqual(logFromTrack(stranger.track, elsewhere.log.setup));
    expect(elsewhere.log.track.eastMetres).not.toEqual(first.log.track.eastMetres);
    const shorter = { ...stranger, track: { ...stranger.track, points: stranger.track.points.slice(0, 60) } };
    expect(judge(shorter, DEMO_JOB, null).log.track.atSeconds).toHaveLength(60);
  });
});
