import { describe, expect, it } from 'vitest';
import type { DeskShip } from '../../../src/app/debrief/desk-types.ts';
import { exportFiles, tracksToExport } from '../../../src/ui/debrief/closing/export-files.ts';
import { flownScene, lineUntil, sceneTrails } from '../../../src/ui/debrief/flown-scene.ts';
import { logbookCsv } from '../../../src/ui/debrief/closing/logbook-csv.ts';
import { acrossWords, lateWords, longWords, shapeWords } from '../../../src/ui/debrief/score-words.ts';
import { flyWord, worldFor } from '../../core/debrief/flown-word.ts';
import { unitText } from '../../../src/core/text/unit-text.ts';
import { OWN_UNITS } from '../../../src/core/units/unit-kinds.ts';

const flown = flyWord('I', worldFor(61), { marked: true });
const ship: DeskShip = { key: 'a', name: 'Lead', kind: 'flight', log: flown.log, seen: [], debrief: flown.debrief };

describe('a scene to draw', () => {
  const scene = flownScene([ship, { ...ship, key: 'b', name: 'Two' }])!;

  it('lays the flown text over the planned one, and puts every ship into the first one\u2019s air', () => {
    const [lead, two] = scene.ships;
    expect(lead!.smoke).toHaveLength(flown.debrief.intervals.length);
    expect([...two!.air.airEastMetres]).toEqual([...lead!.air.airEastMetres]);
    const stroke = flown.setup.strokes[0]!.path.start;
    const [x, y] = lead!.smoke[0]!.xy;
    expect(Math.hypot(x! - stroke.airEastMetres, y! - stroke.airNorthMetres)).toBeLessThan(80);
  });

  it('finds the place reached on a line at any time, and nothing before it begins', () => {
    const line = { xy: Float64Array.of(0, 0, 10, 20, 30, 40), atMilliseconds: Float64Array.of(1000, 2000, 4000) };
    expect(lineUntil(line, 999)).toBeNull();
    expect(lineUntil(line, 1500)).toEqual({ count: 1, x: 5, y: 10 });
    expect(lineUntil(line, 3000)).toEqual({ count: 2, x: 20, y: 30 });
    expect(lineUntil(line, 9000)).toEqual({ count: 3, x: 30, y: 40 });
  });

  it('puts the smoke back where it was when the sky is drawn', () => {
    const [trail] = sceneTrails(scene, 0.006);
    const { airEastMetres } = flown.debrief.air!;
    const seconds = trail!.points[0]!.laidAtSeconds + flown.debrief.datumSeconds;
    const index = flown.debrief.air!.atSeconds.findIndex((at) => at >= seconds);
    expect(Math.abs(trail!.points[0]!.airEastMetres - airEastMetres[index]!)).toBeLessThan(60);
  });

  it('is none where nothing flew', () => {
    expect(flownScene([])).toBeNull();
    expect(flownScene([{ ...ship, log: { ...flown.log, wind: null } }])).toBeNull();
  });
});

describe('files to give away', () => {
  const tracks = tracksToExport([ship], []);

  it('have a name, a type and content for each format; IGC one for each ship', () => {
    for (const format of ['gpx', 'kml', 'geojson', 'csv'] as const) {
      const files = exportFiles([...tracks, ...tracks], format, 'L\u00e4ke Ondine');
      expect(files).toHaveLength(1);
      expect(files[0]!.name).toBe(`lake-ondine.${format}`);
      const { content } = files[0]!;
      expect(typeof content === 'string' ? content.length : 0).toBeGreaterThan(1000);
    }
    expect(exportFiles([...tracks, ...tracks], 'igc', 'x').map(({ name }) => name)).toEqual(['x-lead.igc', 'x-lead.igc']);
  });
});

describe('words', () => {
  it('say late and early, long and short, left and right', () => {
    expect([lateWords(0.51), lateWords(-1.24), lateWords(0.01), lateWords(null)]).toEqual(['0.5 s late', '1.2 s early', 'on time', '\u2013']);
    expect([longWords(0.5), longWords(-0.5), longWords(0)]).toEqual(['0.5 s long', '0.5 s short', 'on the end']);
    const score = flown.debrief.strokeScores[0]!;
    expect(acrossWords({ ...score, crossTrackRmsMetres: 10, crossTrackMeanMetres: -9 }, unitText())).toBe('33 ft, left');
    expect(acrossWords({ ...score, crossTrackRmsMetres: 10, crossTrackMeanMetres: 2 }, unitText({ ...OWN_UNITS, height: 'm' }))).toBe('10 m');
    expect(acrossWords({ ...score, crossTrackRmsMetres: null, crossTrackMeanMetres: null }, unitText())).toBe('no smoke');
    const letter = flown.debrief.letterScores[0]!;
    expect([0.005, 0.02, 0.04, 0.2].map((shapeErrorHeights) => shapeWords({ ...letter, shapeErrorHeights, coverage: 1 }))).toEqual([
      'clean',
      'good',
      'shaky',
      'bent',
    ]);
    expect(shapeWords({ ...letter, shapeErrorHeights: 0.005, coverage: 0.3 })).toBe('broken');
  });

  it('write a logbook that a spreadsheet reads and does not run', () => {
    const flight = {
      id: 'f',
      jobId: 'j',
      name: '=1+1, "x"',
      kind: 'flight' as const,
      startedAtMilliseconds: 0,
      endedAtMilliseconds: 1,
      jobFileText: '',
      setupText: '',
    };
    const lines = logbookCsv([{ flight, entry: null }]).split('\r\n');
    expect(lines[0]).toBe('started_utc,job,text,kind,ship,hours,smoke_minutes,oil_pounds,strokes_flown,strokes_planned,complete,read');
    expect(lines[1]).toBe(`1970-01-01T00:00:00Z,"'=1+1, ""x""",,flight,,,,,,,,`);
  });
});
