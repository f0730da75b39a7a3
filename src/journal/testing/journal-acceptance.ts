/** One suite for every implementation of the journal port. */
import { describe, expect, it } from 'vitest';
import { must } from '../../domain/result.ts';
import { EMPTY_HEAD, linkFault, type StoredEntry } from '../entry.ts';
import type { Journal } from '../ports.ts';
import { readChain } from '../sync.ts';
import { draftOf } from './recorder.ts';

export function journalAcceptance(name: string, open: () => { journal: Journal; close: () => void }): void {
  const withJournal = async (run: (j: Journal) => Promise<void>): Promise<void> => {
    const { journal, close } = open();
    try {
      await run(journal);
    } finally {
      close();
    }
  };
  const note = (n: number, text = `note ${n}`): ReturnType<typeof draftOf> => draftOf(n, 'note', { text });

  describe(`journal port: ${name}`, () => {
    it('starts empty', () =>
      withJournal(async (j) => {
        expect(must(await j.head())).toEqual(EMPTY_HEAD);
        expect(must(await j.read(1))).toEqual([]);
      }));

    it('gives back exactly what was appended, chained, in order', () =>
      withJournal(async (j) => {
        const a = must(await j.append(0, [note(1), note(2)]));
        const b = must(await j.append(2, [note(3, 'Ölfilter „3/8″\n\u0000\ud83d\udee9')]));
        const all = must(await j.read(1));
        expect(all).toEqual([...a, ...b]);
        expect(all.map((s) => s.body)).toEqual(
          [note(1), note(2), note(3, 'Ölfilter „3/8″\n\u0000\ud83d\udee9')].map((d) => d.body),
        );
        expect(readChain(all, EMPTY_HEAD)).toMatchObject({ ok: true });
        expect(must(await j.head())).toEqual({ seq: 3, hash: all[2]?.hash });
      }));

    it('reads from a place, and no more than asked', () =>
      withJournal(async (j) => {
        must(
          await j.append(
            null,
            [1, 2, 3, 4, 5].map((n) => note(n)),
          ),
        );
        expect(must(await j.read(3)).map((s) => s.seq)).toEqual([3, 4, 5]);
        expect(must(await j.read(2, 2)).map((s) => s.seq)).toEqual([2, 3]);
        expect(must(await j.read(6))).toEqual([]);
      }));

    it('refuses to append after a place that is not the end, and changes nothing', () =>
      withJournal(async (j) => {
        must(await j.append(0, [note(1)]));
        expect(await j.append(0, [note(2)])).toMatchObject({ ok: false, problem: { code: 'JOURNAL_MOVED' } });
        expect(must(await j.head()).seq).toBe(1);
      }));

    it('appends wherever it ends when no place is named', () =>
      withJournal(async (j) => {
        must(await j.append(null, [note(1)]));
        must(await j.append(null, [note(2)]));
        expect(must(await j.head()).seq).toBe(2);
      }));

    it('sending twice does not double, also within one batch', () =>
      withJournal(async (j) => {
        const first = must(await j.append(null, [note(1), note(2)]));
        const again = must(await j.append(null, [note(2), note(3), note(3)]));
        expect(again.map((s) => s.seq)).toEqual([2, 3, 3]);
        expect(again[0]).toEqual(first[1]);
        expect(must(await j.head()).seq).toBe(3);
      }));

    it('refuses another entry under a known id, all or none', () =>
      withJournal(async (j) => {
        must(await j.append(null, [note(1)]));
        expect(await j.append(null, [note(2), note(1, 'other')])).toMatchObject({
          ok: false,
          problem: { code: 'ENTRY_ID_TAKEN' },
        });
        expect(must(await j.head()).seq).toBe(1);
      }));

    it('refuses a draft whose text is not that of its digest, or of its id', () =>
      withJournal(async (j) => {
        const d = note(1);
        expect(await j.append(null, [{ ...d, body: d.body.replace('note 1', 'note 2') }])).toMatchObject({
          ok: false,
          problem: { code: 'DIGEST_DIFFERS' },
        });
        expect(await j.append(null, [{ ...d, id: note(2).id }])).toMatchObject({
          ok: false,
          problem: { code: 'DIGEST_DIFFERS' },
        });
        expect(must(await j.head()).seq).toBe(0);
      }));

    it('calls followers with what was accepted, once, until they leave', () =>
      withJournal(async (j) => {
        const heard: StoredEntry[] = [];
        must(await j.append(null, [note(1)]));
        const leave = j.follow((entries) => heard.push(...entries));
        must(await j.append(null, [note(1), note(2), note(3)]));
        must(await j.append(null, [note(3)]));
        leave();
        must(await j.append(null, [note(4)]));
        expect(heard.map((s) => s.seq)).toEqual([2, 3]);
        let head = { seq: 1, hash: heard[0]?.prev ?? '' };
        for (const s of heard) {
          expect(linkFault(s, head)).toBeNull();
          head = s;
        }
      }));
  });
}
