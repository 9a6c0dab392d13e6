import { expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { withoutOffice, withOfficeOf } from '../../../src/core/job/office-part.ts';
import { writeJob } from '../../../src/core/job/write-job.ts';

const JOB: Job = {
  ...DEMO_JOB,
  booking: {
    ...DEMO_JOB.booking,
    client: 'Club of the lake',
    contact: 'the harbour, 555 0142',
    feeAmount: 1234,
    feeCurrency: 'USD',
    callTime: '2027-06-19T10:00:00Z',
    permissions: [{ name: 'Waiver', state: 'asked', number: '7', saidBy: '' }],
    outcomes: [{ atTime: '2027-06-18T10:00:00Z', kind: 'dud', cause: 'low cloud', calledBy: 'Lead', costAmount: 80 }],
  },
};

it('gives other ships and the ground no client, no fee, no telephone and no account', () => {
  const text = writeJob(withoutOffice(JOB));
  for (const secret of ['Club of the lake', '555 0142', '1234', 'low cloud']) expect(text).not.toContain(secret);
  for (const kept of ['2027-06-19T10:00:00Z', 'Waiver']) expect(text).toContain(kept);
});

it('keeps the office of this device when the same job comes back', () => {
  expect(withOfficeOf(withoutOffice(JOB), JOB.booking)).toEqual(JOB);
});
