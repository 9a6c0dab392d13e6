import type { VNode } from 'preact';
import { handOverFile } from '../../../app/hand-over-file.ts';
import { calibratedSmoke } from '../../../core/sky/smoke-calibration.ts';
import type { Job } from '../../../core/job/job.ts';
import { jobAir } from '../../../core/job/job-air.ts';
import type { Trail } from '../../../core/sky/trail.ts';
import { FilmKey, type FilmScene } from '../../sky/FilmKey.tsx';
import { crowdMoment, crowdSun } from '../crowd-moment.ts';
import { useDebrief } from '../debrief-context.ts';
import { EXPORT_FORMATS, exportFiles, type ExportFormat, tracksToExport } from './export-files.ts';
import type { FlownScene } from '../flown-scene.ts';

const LABELS: Readonly<Record<ExportFormat, string>> = { gpx: 'GPX', igc: 'IGC', kml: 'KML', geojson: 'GeoJSON', csv: 'CSV' };
/** The film ends when the word has stood for this long, or less when it was looked at for less. */
const STANDING_MILLISECONDS = 6 * 60_000;

export interface ExportsProps {
  readonly scene: FlownScene | null;
  readonly trails: readonly Trail[];
  readonly job: Job | null;
}

/** The flight given away: its tracks, a film of the crowd's view, a report on paper. */
export function Exports({ scene, trails, job }: ExportsProps): VNode {
  const { desk } = useDebrief();
  const opened = desk.state.value;
  const real = opened.kind === 'open' && opened.flight.kind === 'flight';
  const title = job?.name ?? 'Quillwind';
  const give = async (format: ExportFormat): Promise<void> => {
    for (const file of exportFiles(tracksToExport(desk.ships.peek(), desk.tracks.peek()), format, title)) await handOverFile(file);
  };
  const filmed = (of: FlownScene, ofJob: Job): FilmScene => {
    const air = jobAir(ofJob);
    const smoke = calibratedSmoke(desk.calibration.peek()).likely;
    return {
      trails,
      from: of.firstSmokeMilliseconds ?? of.fromMilliseconds,
      to: (of.lastSmokeMilliseconds ?? of.toMilliseconds) + STANDING_MILLISECONDS,
      momentAt: (at) => crowdMoment(of, air, smoke, at),
      sunAt: (at) => crowdSun(ofJob, at),
      caption: `${real ? '' : 'REHEARSAL, '}computed from the smoke that was laid`,
    };
  };
  return (
    <div class="exports">
      <div class="row">
        {EXPORT_FORMATS.map((format) => (
          <button key={format} type="button" disabled={desk.ships.value.length === 0} onClick={() => void give(format)}>
            {LABELS[format]}
          </button>
        ))}
      </div>
      <div class="row">
        <FilmKey
          scene={scene === null || job === null || trails.length === 0 ? null : () => filmed(scene, job)}
          label={'Film of the crowd\u2019s view'}
          title={`${title} as the crowd saw it`}
        />
        <button type="button" disabled={scene === null || job === null} onClick={() => print()}>
          Print the client{'\u2019'}s report
        </button>
      </div>
    </div>
  );
}
