import { fc } from '../../property.ts';
import { describe, expect, it } from 'vitest';
import { DEMO_JOB } from '../../../src/core/job/demo-job.ts';
import type { Job } from '../../../src/core/job/job.ts';
import { type CalendarEvent, writeCalendar } from '../../../src/core/days/ics-write.ts';
import { jobCalendar } from '../../../src/core/days/job-calendar.ts';

const STAMP = Date.UTC(2027, 0, 1);
const EVENT: CalendarEvent = {
  uid: 'read-1@quillwind',
  startMilliseconds: Date.UTC(1997, 6, 14, 17),
  endMilliseconds: Date.UTC(1997, 6, 15, 4),
  title: 'Bastille Day Party',
  place: '',
  notes: '',
  tentative: false,
  alarmSeconds: null,
  latitudeDegrees: null,
  longitudeDegrees: null,
};

/** Unfolded as a reader does: RFC 5545, 3.1. */
const unfolded = (text: string): string[] =>
  text
    .replace(/\r\n[ \t]/g, '')
    .split('\r\n')
    .filter((line) => line !== '');
const unescaped = (text: string): string => text.replace(/\\([\\;,nN])/g, (_, character: string) => (character.toLowerCase() === 'n' ? '\n' : character));

describe('a calendar file', () => {
  it('has the lines of the example in RFC 5545, section 4', () => {
    const lines = unfolded(writeCalendar([EVENT], STAMP));
    for (const line of [
      'BEGIN:VCALENDAR',
      'VERSION:2.0',
      'BEGIN:VEVENT',
      'DTSTART:19970714T170000Z',
      'DTEND:19970715T040000Z',
      'SUMMARY:Bastille Day Party',
      'END:VEVENT',
      'END:VCALENDAR',
    ])
      expect(lines).toContain(line);
  });

  it('folds at 75 octets, parts no character, and gives any text back', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (title) => {
        const clean = title.replace(/\p{Cc}/gu, '');
        const text = writeCalendar([{ ...EVENT, title: clean, notes: `a;b,c\\d\n${clean}` }], STAMP);
        for (const line of text.split('\r\n')) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
        const lines = unfolded(text);
        expect(unescaped(lines.find((line) => line.startsWith('SUMMARY:'))!.slice(8))).toBe(clean);
        expect(unescaped(lines.find((line) => line.startsWith('DESCRIPTION:'))!.slice(12))).toBe(`a;b,c\\d\n${clean}`);
      }),
    );
  });

  it('holds the hours that were entered and no other', () => {
    const job: Job = {
      ...DEMO_JOB,
      booking: {
        ...DEMO_JOB.booking,
        callTime: '2027-06-19T10:00:00Z',
        reportTime: '2027-06-19T15:00:00Z',
        spareTimes: ['2027-06-20T17:30:00Z'],
        deadlineTime: null,
      },
    };
    const lines = unfolded(writeCalendar(jobCalendar(job, 320), STAMP));
    const starts = lines.filter((line) => line.startsWith('DTSTART:'));
    expect(starts).toEqual(['DTSTART:20270619T100000Z', 'DTSTART:20270619T150000Z', 'DTSTART:20270619T172440Z', 'DTSTART:20270620T172440Z']);
    expect(lines.filter((line) => line === 'STATUS:TENTATIVE')).toHaveLength(1);
    expect(new Set(lines.filter((line) => line.startsWith('UID:'))).size).toBe(4);
    const unsaid = jobCalendar({ ...DEMO_JOB, notEntered: ['readTime', 'site.latitudeDegrees'] }, 320);
    expect(unsaid).toEqual([]);
  });
});
