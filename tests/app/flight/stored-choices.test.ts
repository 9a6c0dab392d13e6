import { describe, expect, it } from 'vitest';
import { flightEventFromRow } from '../../../src/app/flight/flight-event-from-row.ts';
import type { SourceChoice } from '../../../src/app/flight/flight-choices.ts';
import { sourceFromText, sourceTextFor } from '../../../src/app/flight/stored-source.ts';
import { NO_SWITCH, switchSettingsFrom } from '../../../src/app/flight/switch-settings.ts';

describe('sourceFromText', () => {
  const rehearsal: SourceChoice = { kind: 'rehearsal', windFromDegrees: 96, windKnots: 22, skill: 'tired', flownBy: 'hands', speed: 5, seed: 12 };

  it('reads back what a flight can be gone on with', () => {
    expect(sourceFromText(sourceTextFor({ kind: 'device' }, 'One'))).toEqual({ kind: 'device' });
    expect(sourceFromText(sourceTextFor(rehearsal, 'One'))).toEqual(rehearsal);
    const port: SourceChoice = { kind: 'device', receiver: { kind: 'port', baudRate: 4800 } };
    expect(sourceFromText(sourceTextFor(port, 'One'))).toEqual(port);
    // As flights of an earlier version have it.
    expect(sourceFromText('{"kind":"device","serialBaudRate":4800}')).toEqual(port);
    // A radio is no text: after a kill the browser is asked for it.
    const radio: SourceChoice = { kind: 'device', receiver: { kind: 'bluetooth', device: new EventTarget() } };
    expect(sourceFromText(sourceTextFor(radio, 'One'))).toEqual({ kind: 'device', receiver: { kind: 'bluetooth', device: null } });
  });

  it('does not go on with a recording, nor with what it does not understand', () => {
    expect(sourceFromText(sourceTextFor({ kind: 'recorded', name: 'Tuesday', fixes: [], speed: 1 }, 'One'))).toBeNull();
    expect(sourceTextFor({ kind: 'recorded', name: 'Tuesday', fixes: [], speed: 1 }, 'One')).not.toContain('fixes');
    for (const text of [
      '',
      '{',
      'null',
      '[]',
      '{"kind":"satellite"}',
      JSON.stringify({ ...rehearsal, skill: 'ace' }),
      JSON.stringify({ ...rehearsal, windKnots: null }),
    ]) {
      expect(sourceFromText(text), text).toBeNull();
    }
  });
});

describe('switchSettingsFrom', () => {
  it('reads a wiring and takes anything else for none', () => {
    expect(switchSettingsFrom({ wiring: { kind: 'key', code: 'F9' }, action: 'while-pressed' })).toEqual({
      wiring: { kind: 'key', code: 'F9' },
      action: 'while-pressed',
    });
    expect(switchSettingsFrom({ wiring: { kind: 'gamepad', button: 3 } })).toEqual({ wiring: { kind: 'gamepad', button: 3 }, action: 'each-press' });
    for (const stored of [null, 7, {}, { wiring: { kind: 'key' } }, { wiring: { kind: 'gamepad', button: 1.5 } }])
      expect(switchSettingsFrom(stored).wiring).toBeNull();
    expect(switchSettingsFrom(undefined)).toEqual(NO_SWITCH);
  });
});

describe('flightEventFromRow', () => {
  const at = { atSeconds: 1, wallMilliseconds: 2 };

  it('passes on what it knows, unchanged', () => {
    const event = { ...at, kind: 'fixesLost', reason: 'hidden' };
    expect(flightEventFromRow(event)).toBe(event);
    expect(flightEventFromRow({ ...at, kind: 'clockAdvanced' })).not.toBeNull();
  });

  it('is null for anything else', () => {
    const others = [
      null,
      'held',
      [],
      { kind: 'held' },
      { ...at },
      { ...at, kind: 'toString' },
      { ...at, kind: 'fixesLost', reason: 'rain' },
      { ...at, kind: 'fixReceived', fix: {} },
      { ...at, kind: 'flightStarted', setup: { jobId: 'x' } },
      { ...at, atSeconds: '1', kind: 'held' },
    ];
    for (const other of others) expect(flightEventFromRow(other), JSON.stringify(other)).toBeNull();
  });
});
