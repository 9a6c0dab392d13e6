import { describe, expect, test } from 'vitest';
import { artworkFromPathData } from '../../../src/core/artwork/artwork.ts';
import { pathDataFromSvg } from '../../../src/core/artwork/svg-paths.ts';
import { processorMilliseconds } from '../../processor-time.ts';

const svg = (inside: string): string => `<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">${inside}</svg>`;

describe('lines of an SVG file', () => {
  test('shapes become path data, inner transforms applied before outer ones', () => {
    const read = pathDataFromSvg(
      svg('<g transform="translate(10 0)"><g transform="scale(2)"><line x1="1" y1="1" x2="2" y2="3" transform="translate(5,0)"/></g></g><path d="m1 1h2"/>'),
    );
    expect(read).toMatchObject({ ok: true, pathData: 'M22 2L24 6M1 1H3', middleLines: 0, passedOver: [] });
  });

  test('circle, ellipse, rect, polyline and polygon are drawn', () => {
    const read = pathDataFromSvg(
      svg(
        '<circle cx="5" cy="5" r="5"/><ellipse cx="0" cy="0" rx="2" ry="1"/><rect x="0" y="0" width="4" height="2" rx="1"/><rect width="4" height="3"/><polyline points="0,0 1,1 2,0"/><polygon points="0 0 1 1 2 0"/>',
      ),
    );
    if (!read.ok) throw new Error(read.reason);
    expect(read.pathData.match(/M/g)).toHaveLength(6);
    expect(read.pathData).toContain('M0 0H4V3H0Z');
    const artwork = artworkFromPathData(read.pathData, { depthMetres: 9000, turnRadiusMetres: 293, mostStrayMetres: 0 });
    // Circle and ellipse, a rounded rectangle, four sides, two lines, three lines.
    expect(artwork.ok && artwork.artwork.strokes.length + artwork.artwork.unflyable.length).toBeGreaterThanOrEqual(12);
  });

  test('what is defined but not drawn stays out, what is no line is named', () => {
    const read = pathDataFromSvg(svg('<defs><path d="M0 0H9"/></defs><text x="1">hi</text><image href="x.png"/><path d="M0 0V9"/>'));
    expect(read).toMatchObject({ ok: true, pathData: 'M0 0V9', passedOver: ['text', 'image'] });
  });
});

describe('filled shapes drawn like a thick line', () => {
  const BAR = 'M0 0H100V10H0Z';
  const middles = (inside: string): number | string => {
    const read = pathDataFromSvg(svg(inside));
    return read.ok ? read.middleLines : read.reason;
  };

  test('are taken by their middle line, and stay beside it by their edge', () => {
    const read = pathDataFromSvg(svg(`<path d="${BAR}"/>`));
    expect(read).toMatchObject({ ok: true, middleLines: 1, edgeData: 'M0 0H100V10H0Z' });
    expect(read.ok && artworkFromPathData(read.pathData, { depthMetres: 1000, turnRadiusMetres: 293 })).toMatchObject({ ok: false });
  });

  test.each([
    [`<path d="${BAR}" fill="#123"/>`, 1],
    [`<path d="${BAR}" style="fill: red; stroke: none"/>`, 1],
    ['<rect width="100" height="8"/>', 1],
    // Painted as lines, none, open, or no line at all.
    [`<path d="${BAR}" fill="none"/>`, 0],
    [`<path d="${BAR}" stroke="black"/>`, 0],
    [`<g style="fill:none;stroke:#000"><path d="${BAR}"/></g>`, 0],
    [`<g fill="none"><path d="${BAR}" style="fill:#000"/></g>`, 1],
    ['<path d="M0 0H100V10H0"/>', 0],
    ['<circle r="10"/>', 0],
    ['<rect width="100" height="90"/>', 0],
  ])('%s: %i', (inside, count) => expect(middles(inside)).toBe(count));

  test('are looked for in sixty shapes, within the time a drawing may take', () => {
    const before = processorMilliseconds();
    expect(middles(`<path d="${BAR}"/>`.repeat(90))).toBe(60);
    // What ends the reading is at two seconds; a hung search would be far beyond.
    expect(processorMilliseconds() - before).toBeLessThan(20_000);
  });
});

describe('hostile and broken files are refused with the reason', () => {
  test.each([
    [null, 'The file is not text.'],
    [
      `<!DOCTYPE svg [<!ENTITY a "b">]>${svg('<path d="M0 0H1"/>')}`,
      'The file declares a document type or an entity and is not opened. Save the drawing as plain SVG.',
    ],
    ['<svg><path d="M0 0H1"', 'Line 1: the file is damaged or broken off.'],
    ['<gpx></gpx>', 'The file is XML but not SVG: its outermost element is not svg.'],
    [svg(''), 'The drawing has no lines.'],
    [svg('<text>hi</text>'), 'The drawing has no lines, only text. Turn them into paths first.'],
    [' '.repeat(4_000_001), 'The file is 4.0 MB; drawings of up to 4 MB can be read.'],
    [svg('<g>'.repeat(200) + '<path d="M0 0H1"/>' + '</g>'.repeat(200)), 'The file cannot be read as XML.'],
  ])('%.40s', (text, reason) => expect(pathDataFromSvg(text)).toEqual({ ok: false, reason }));

  test('only numbers and command letters come out', () => {
    const read = pathDataFromSvg(svg('<path d="M0 0H1&lt;script&gt;"/><script>alert(1)</script><path onclick="x()" d="M1 1V2"/>'));
    expect(read.ok && read.pathData).toMatch(/^[MLHVCSQTAZ0-9eE .-]*$/);
  });
});
