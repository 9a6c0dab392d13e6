import { expect, it } from 'vitest';
import { sortFiles } from '../../../src/app/jobs/sort-files.ts';

it('knows backups and recorded flights by what is in them, whatever they are called', async () => {
  const files = [
    new File(['{"format":"quillwind-backup","version":1}\n'], 'a.json'),
    new File(['<?xml version="1.0"?>\n<gpx version="1.1" creator="x">'], 'b.txt'),
    new File(['AXXX001\r\nHFDTE190627\r\n'], 'c'),
    new File(['{"format":"quillwind-job"}'], 'd.gpx'),
    new File([''], 'e.igc'),
  ];
  const { backups, tracks, jobs } = await sortFiles(files);
  expect([backups, tracks, jobs].map((each) => each.map(({ name }) => name))).toEqual([['a.json'], ['b.txt', 'c'], ['d.gpx', 'e.igc']]);
});
