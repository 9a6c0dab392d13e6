import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { fileNameFrom, handOverFile } from '../../app/hand-over-file.ts';
import { calibratedSmoke } from '../../core/sky/smoke-calibration.ts';
import type { Job } from '../../core/job/job.ts';
import { jobAir } from '../../core/job/job-air.ts';
import type { Trail } from '../../core/sky/trail.ts';
import { makeFilm } from './crowd-film.ts';
import { crowdMoment, crowdSun, paintCrowd, skyColours, smokeDirections } from './crowd-moment.ts';
import { useDebrief } from './debrief-context.ts';
import { EXPORT_FORMATS, exportFiles, type ExportFormat, tracksToExport } from './export-files.ts';
import type { FlownScene } from './flown-scene.ts';

const LABELS: Readonly<Record<ExportFormat, string>> = { gpx: 'GPX', igc: 'IGC', kml: 'KML', geojson: 'GeoJSON', csv: 'CSV' };
const FILM_SECONDS = 12;
const FILM_SIZE = { widthPixels: 1280, heightPixels: 720 };
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
  const film = useSignal<{ readonly share: number; readonly stop: AbortController } | null>(null);
  const fault = useSignal('');
  const title = job?.name ?? 'Quillwind';
  const give = async (format: ExportFormat): Promise<void> => {
    for (const file of exportFiles(tracksToExport(desk.ships.peek(), desk.tracks.peek()), format, title)) await handOverFile(file);
  };
  const makeAndGive = async (): Promise<void> => {
    if (scene === null || job === null) return;
    const from = scene.firstSmokeMilliseconds ?? scene.fromMilliseconds;
    const to = (scene.lastSmokeMilliseconds ?? scene.toMilliseconds) + STANDING_MILLISECONDS;
    const air = jobAir(job);
    const smoke = calibratedSmoke(desk.calibration.peek()).likely;
    const held = [from, to].flatMap((at) => smokeDirections(trails, crowdMoment(scene, air, smoke, at)));
    const colours = skyColours();
    const stop = new AbortController();
    film.value = { share: 0, stop };
    fault.value = '';
    try {
      const made = await makeFilm({
        ...FILM_SIZE,
        seconds: FILM_SECONDS,
        stop: stop.signal,
        onProgress: (share) => (film.value = { share, stop }),
        paint: (context, share) => {
          const at = from + share * (to - from);
          paintCrowd(context, trails, crowdMoment(scene, air, smoke, at), crowdSun(job, at), held, FILM_SIZE, colours);
        },
      });
      await handOverFile({ name: fileNameFrom(`${title} as the crowd saw it`, made.extension), type: made.type, content: made.content });
    } catch (error) {
      if (!stop.signal.aborted) fault.value = `The film could not be made: ${error instanceof Error ? error.message : String(error)}.`;
    } finally {
      film.value = null;
    }
  };
  const making = film.value;
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
        {making === null ? (
          <button type="button" disabled={scene === null || job === null || trails.length === 0} onClick={() => void makeAndGive()}>
            Film of the crowd{'\u2019'}s view
          </button>
        ) : (
          <>
            <span role="status">Filming: {Math.floor(making.share * 100)} %</span>
            <button type="button" class="plain" onClick={() => making.stop.abort()}>
              Stop
            </button>
          </>
        )}
        <button type="button" disabled={scene === null || job === null} onClick={() => print()}>
          Print the client{'\u2019'}s report
        </button>
      </div>
      {fault.value !== '' && (
        <p class="small" role="alert">
          {fault.value}
        </p>
      )}
    </div>
  );
}
