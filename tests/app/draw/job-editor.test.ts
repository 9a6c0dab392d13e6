import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/core/job/job.ts';
import { createJobEditor, type JobEditor } from '../../../src/app/draw/job-editor.ts';

const stored = { id: 'a', text: 'HELLO', name: 'Regatta' } as Job;

function bench(store: (job: Job) => Promise<void>): { editor: JobEditor; tick: (milliseconds: number) => void } {
  let now = 0;
  let waiting: { at: number; call: () => void }[] = [];
  const editor = createJobEditor(stored, {
    save: async (job) => {
      await store(job);
      return job;
    },
    fault: ({ text }) => (text === '' ? 'no words' : null),
    nowMilliseconds: () => now,
    after(milliseconds, call) {
      const entry = { at: now + milliseconds, call };
      waiting.push(entry);
      return () => (waiting = waiting.filter((other) => other !== entry));
    },
  });
  return {
    editor,
    tick(milliseconds) {
      now += milliseconds;
      const due = waiting.filter(({ at }) => at <= now);
      waiting = waiting.filter(({ at }) => at > now);
      for (const { call } of due) call();
    },
  };
}

const typed =
  (text: string) =>
  (job: Job): Job => ({ ...job, text });

describe('editing a job', () => {
  it('saves the newest state once typing rests, and never an older one after it', async () => {
    const saved: string[] = [];
    let release: () => void = () => undefined;
    const { editor, tick } = bench(async ({ text }) => {
      await new Promise<void>((resolve) => (release = resolve));
      saved.push(text);
    });
    editor.edit('text', typed('A'));
    tick(300);
    editor.edit('text', typed('AB'));
    tick(300);
    expect(editor.saveState.value.kind).toBe('saving');
    tick(200);
    editor.edit('text', typed('ABC'));
    tick(500);
    release();
    await Promise.resolve();
    await new Promise((resolve) => setTimeout(resolve));
    expect(editor.saveState.value.kind).toBe('saving');
    release();
    await editor.flush();
    expect(saved).toEqual(['AB', 'ABC']);
    expect(editor.saveState.value.kind).toBe('saved');
  });

  it('saves within 0.6 s of the first key while typing goes on', async () => {
    const saved: string[] = [];
    const { editor, tick } = bench(async ({ text }) => void saved.push(text));
    for (let key = 1; key <= 30; key += 1) {
      editor.edit('text', typed('X'.repeat(key)));
      tick(100);
      await Promise.resolve();
      await new Promise((resolve) => setTimeout(resolve));
      // Six keys in 0.6 s: no more than these are ever on the page alone.
      expect((saved.at(-1) ?? '').length).toBeGreaterThanOrEqual(key - 6);
    }
    expect(saved.length).toBeGreaterThanOrEqual(4);
  });

  it('takes in what another tab stored, and undoes its own edits alone', async () => {
    const { editor } = bench(() => Promise.resolve());
    editor.edit('text', typed('OURS'));
    await editor.flush();
    editor.takeIn({ ...stored, text: 'OURS', name: 'Theirs' } as Job);
    expect(editor.job.value).toMatchObject({ text: 'OURS', name: 'Theirs' });
    expect(editor.unsaved()).toBeNull();
    editor.undo();
    expect(editor.job.value).toMatchObject({ text: 'HELLO', name: 'Theirs' });
    editor.redo();
    expect(editor.job.value).toMatchObject({ text: 'OURS', name: 'Theirs' });
  });

  it('says why a save failed, keeps the edit, and saves it with the next one', async () => {
    let broken = true;
    const saved: string[] = [];
    const { editor } = bench(async ({ text }) => {
      if (broken) throw new Error('the disk is full');
      saved.push(text);
    });
    editor.edit('text', typed('SOS'));
    await editor.flush();
    expect(editor.saveState.value).toEqual({ kind: 'failed', reason: 'the disk is full' });
    expect(editor.job.value.text).toBe('SOS');
    broken = false;
    await editor.flush();
    expect(saved).toEqual(['SOS']);
    expect(editor.saveState.value.kind).toBe('saved');
  });

  it('undoes a word typed in one go as one step, and redoes it', () => {
    const { editor, tick } = bench(() => Promise.resolve());
    for (const text of ['R', 'RO', 'ROSE']) {
      editor.edit('text', typed(text));
      tick(500);
    }
    tick(3000);
    editor.edit('text', typed('ROSES'));
    editor.edit('name', (job) => ({ ...job, name: 'Lake' }));
    expect(editor.undoName.value).toBe('name');
    editor.undo();
    editor.undo();
    expect(editor.job.value.text).toBe('ROSE');
    editor.undo();
    expect(editor.job.value).toBe(stored);
    expect(editor.undoName.value).toBeNull();
    editor.redo();
    expect(editor.job.value.text).toBe('ROSE');
    editor.edit('text', typed('ROSEN'));
    expect(editor.redoName.value).toBeNull();
  });

  it('never stores a job that could not be opened again, and catches up', async () => {
    const saved: string[] = [];
    const { editor } = bench(async ({ text }) => void saved.push(text));
    editor.edit('text', typed(''));
    await editor.flush();
    expect(editor.saveState.value).toEqual({ kind: 'held', reason: 'no words' });
    editor.edit('text', typed('O'));
    await editor.flush();
    expect(saved).toEqual(['O']);
    expect(editor.saveState.value.kind).toBe('saved');
  });

  it('takes an edit that changes nothing for none', () => {
    const { editor } = bench(() => Promise.resolve());
    editor.edit('text', (job) => job);
    expect(editor.undoName.value).toBeNull();
    expect(editor.saveState.value.kind).toBe('saved');
  });
});
