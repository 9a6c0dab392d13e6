import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { heightLimit } from '../../../src/core/place/height-limit.ts';
import { parseOverlayText } from '../../../src/core/place/overlay.ts';

/** The polygon of the example in the KML reference of the Open Geospatial Consortium (12-007r2, 10.8.3.4.1), shortened, with made-up limits. */
const KML = `<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.3"><Document><name>Areas</name>
<Folder><Placemark><name>Sanctuary &amp; shore</name>
<ExtendedData><Data name="floor"><value>GND</value></Data><Data name="ceiling"><value>FL95</value></Data></ExtendedData>
<Polygon><outerBoundaryIs><LinearRing><coordinates>
 -122.366278,37.818844,30 -122.365248,37.819267,30 -122.365640,37.819861,30 -122.366669,37.819429,30 -122.366278,37.818844,30
</coordinates></LinearRing></outerBoundaryIs><innerBoundaryIs><LinearRing><coordinates>-122.366,37.819 -122.3658,37.8191 -122.3659,37.8192 -122.366,37.819</coordinates></LinearRing></innerBoundaryIs></Polygon></Placemark></Folder>
<Placemark><name>Mast</name><Point><altitudeMode>absolute</altitudeMode><coordinates>-122.36,37.82,310</coordinates></Point></Placemark>
<Placemark><name>Block</name><Polygon><extrude>1</extrude><altitudeMode>absolute</altitudeMode><outerBoundaryIs><LinearRing><coordinates>-122,37,1000 -121,37,1000 -121,38,1000 -122,37,1000</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark>
<Placemark><MultiGeometry><LineString><coordinates>-122,37 -121,38</coordinates></LineString><Point><coordinates>-122,37</coordinates></Point></MultiGeometry></Placemark>
</Document></kml>`;

describe('a KML overlay', () => {
  it('gives areas with their holes, floors and ceilings, obstacles with their tops, lines', () => {
    const read = parseOverlayText(KML);
    if (!read.ok) throw new Error(read.reason);
    const { areas, landmarks, lines } = read.overlay;
    expect(areas.map(({ name, floorFeet, ceilingFeet, heightsSaid }) => ({ name, floorFeet, ceilingFeet, heightsSaid }))).toEqual([
      { name: 'Sanctuary & shore', floorFeet: null, ceilingFeet: 10_500, heightsSaid: 'GND to FL95' },
      { name: 'Block', floorFeet: null, ceilingFeet: expect.closeTo(3280.84, 2), heightsSaid: '' },
    ]);
    expect(areas[0]?.polygons[0]?.map((ring) => ring.length / 2)).toEqual([5, 4]);
    expect(landmarks.map(({ name, topFeet }) => [name, topFeet === null ? null : Math.round(topFeet)])).toEqual([
      ['Mast', 1017],
      ['', null],
    ]);
    expect(lines).toHaveLength(1);
  });

  it('says in plain words what a wrong file is', () => {
    const reasonOf = (text: string): string => {
      const read = parseOverlayText(text);
      return read.ok ? '' : read.reason;
    };
    expect(reasonOf('PK\u0003\u0004...')).toMatch(/packed file/);
    expect(reasonOf('<?xml version="1.0"?><gpx version="1.1">')).toMatch(/recorded track/);
    expect(reasonOf('<html><body>')).toMatch(/web page/);
    expect(reasonOf('dear all')).toBe('it is neither GeoJSON nor KML');
    expect(reasonOf('{"type":"FeatureCollection","features":[')).toMatch(/cut off or damaged/);
    expect(reasonOf(KML.slice(0, 400))).toBe('the file is broken off');
    expect(reasonOf(KML.replace('</Folder>', '</Holder>'))).toMatch(/damaged at/);
    expect(reasonOf(KML.replace('FL95', 'quite high'))).toMatch(/\u201cquite high\u201d is no height/);
    expect(reasonOf(`<!DOCTYPE x [<!ENTITY a "b">]>${KML}`)).toMatch(/document type|no KML/);
    for (const text of ['<kml>', '<kml/>', '{', '[]', '\ufffd\ufffd', KML.replace('37.818844,30', 'north')])
      expect(reasonOf(text)).not.toMatch(/token|undefined|JSON at/i);
  });

  it('never throws on broken KML', () => {
    fc.assert(
      fc.property(fc.nat(KML.length - 1), fc.string({ maxLength: 4 }), (at, put) => {
        const read = parseOverlayText(KML.slice(0, at) + put + KML.slice(at + 1));
        if (!read.ok) expect(read.reason.length).toBeGreaterThan(8);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('a height as it is written', () => {
  it.each([
    ['2500 ft AMSL', 2500, 2500],
    ['600 m MSL', 1968.5, 1968.5],
    ['FL95', 8500, 10_500],
    ['GND', null, null],
    ['SFC', null, null],
    ['UNL', null, null],
    // Above the ground: never lower than that above the sea, where the ground is not under it; how much higher nobody has said.
    ['1000 ft AGL', 1000, null],
  ])('%s', (text, floor, ceiling) => {
    const [low, high] = [heightLimit(text, 'floor'), heightLimit(text, 'ceiling')];
    expect(low?.feet === null || low === null ? null : Math.round(low.feet * 10) / 10).toBe(floor);
    expect(high?.feet === null || high === null ? null : Math.round(high.feet * 10) / 10).toBe(ceiling);
    expect(low?.written).toBe(text);
  });

  it('is none where it cannot be read', () => {
    for (const text of ['high', 'FL', '12 furlongs', '-']) expect(heightLimit(text, 'floor')).toBeNull();
  });
});
