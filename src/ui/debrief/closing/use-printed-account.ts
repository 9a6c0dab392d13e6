import { type ReadonlySignal, useSignal } from '@preact/signals';
import { nextPicture } from '../../../app/debrief/next-picture.ts';
import { readLogbook } from '../../../app/debrief/logbook-shelf.ts';
import { type Account, accountOf } from '../../../core/days/account.ts';
import type { Job } from '../../../core/job/job.ts';
import { useApplication } from '../../application-context.ts';

/** The job's account on paper: which sheet prints, and the printing of the account. */
export interface PrintedAccount {
  readonly account: ReadonlySignal<Account | null>;
  readonly paper: ReadonlySignal<'report' | 'account'>;
  print(): Promise<void>;
}

/** @param stored the job as it is stored; null where it no longer is, and nothing is printed */
export function usePrintedAccount(stored: Job | null): PrintedAccount {
  const { database } = useApplication();
  const account = useSignal<Account | null>(null);
  const paper = useSignal<'report' | 'account'>('report');
  return {
    account,
    paper,
    async print() {
      if (stored === null) return;
      const { lines } = await readLogbook(database);
      account.value = accountOf(
        stored,
        lines.flatMap(({ entry }) => (entry === null ? [] : [entry])),
      );
      paper.value = 'account';
      // Laid out before the printer is asked; the report is what prints by itself.
      await nextPicture();
      print();
      paper.value = 'report';
    },
  };
}
