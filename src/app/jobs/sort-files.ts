/** Which of the app's doors a file belongs to, by what is in it. */
export interface SortedFiles<Chosen> {
  readonly backups: readonly Chosen[];
  /** Recorded flights: they belong to a job's debrief. */
  readonly tracks: readonly Chosen[];
  /** Jobs, and whatever is none of the others: the reader of jobs says why not. */
  readonly jobs: readonly Chosen[];
}

const LOOKED_AT_BYTES = 4000;

/** Looks at the beginning of each file; a name's ending alone proves nothing. */
export async function sortFiles<Chosen extends Pick<File, 'name' | 'slice'>>(files: readonly Chosen[]): Promise<SortedFiles<Chosen>> {
  const kinds = await Promise.all(files.map(kindOf));
  const of = (kind: string): readonly Chosen[] => files.filter((_, index) => kinds[index] === kind);
  return { backups: of('backup'), tracks: of('track'), jobs: of('job') };
}

async function kindOf(file: Pick<File, 'name' | 'slice'>): Promise<'backup' | 'track' | 'job'> {
  const start = await file
    .slice(0, LOOKED_AT_BYTES)
    .text()
    .catch(() => '');
  if (/^\uFEFF?\{"format":"quillwind-backup"/.test(start)) return 'backup';
  if (/<gpx[\s>]/i.test(start)) return 'track';
  if (/^\$(?:G[A-Z]|BD)[A-Z]{3},/.test(start)) return 'track';
  // An IGC file begins with its recorder's A record and has its date early on (FAI IGC specification, A3).
  return /^A[A-Z0-9]{3}/.test(start) && /^HFDTE/m.test(start) ? 'track' : 'job';
}
