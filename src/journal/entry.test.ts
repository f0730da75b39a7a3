import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EntryId } from '../domain/ids.ts';
import { canonicalText, sha256Hex, utf8 } from './digest.ts';
import {
  accept,
  chainText,
  draftEntry,
  EMPTY_HEAD,
  type EntryDraft,
  isTimeWithOffset,
  isVouched,
  linkFault,
  NO_HASH,
  parseBody,
  readDraft,
  readStored,
  splitKind,
} from './entry.ts';
import { MemoryJournal } from './memory-journal.ts';
import { chain, countingClock, draftOf, idAt, stampAt } from './testing/recorder.ts';

describe('digest', () => {
  // FIPS 180-4 examples (NIST, "Secure Hash Standard" example values): one block, two blocks, empty message. From memory.
  it.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ])('SHA-256 of %j', (text, hash) => {
    expect(sha256Hex(text)).toBe(hash);
  });

  it('agrees with the hash of the machine for any text', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.string()), (text) => {
        expect(Buffer.from(utf8(text))).toEqual(Buffer.from(text, 'utf8'));
        expect(sha256Hex(text)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'));
      }),
    );
    expect(Buffer.from(utf8('a\ud800b'))).toEqual(Buffer.from('a\ud800b', 'utf8'));
  });

  // RFC 8785 section 3.2.2 and 3.2.3, the sample object and its canonical form (from memory of the RFC).
  it('writes the sample of RFC 8785', () => {
    const sample = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],' +
        '"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    );
    expect(canonicalText(sample)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });
});

describe('entry', () => {
  const draft = draftOf(1, 'note', { text: 'Zwölf Scheiben — „3/8 in“' });

  it('[J4] the digest is the SHA-256 of exactly the stored bytes, which are the RFC 8785 form', () => {
    expect(createHash('sha256').update(draft.body, 'utf8').digest('hex')).toBe(draft.digest);
    expect(draft.body).toBe(canonicalText(JSON.parse(draft.body)));
    expect(Object.keys(JSON.parse(draft.body) as object)).toEqual(['at', 'by', 'data', 'device', 'id', 'kind']);
  });

  it('[J4] the order in which fields were written does not matter', () => {
    const a = draftEntry(stampAt(1), 'note.v1', { text: 'x', subject: 'job' });
    const b = draftEntry(stampAt(1), 'note.v1', { subject: 'job', text: 'x' });
    expect(a.digest).toBe(b.digest);
  });

  it('the text that is hashed for the chain is the RFC 8785 form', () => {
    fc.assert(
      fc.property(fc.nat(), fc.option(fc.string()), (seq, signature) => {
        const digest = sha256Hex('d');
        const recordedAt = '2026-01-05T08:00:00.123+01:00';
        expect(chainText(digest, NO_HASH, recordedAt, seq, signature)).toBe(
          canonicalText({ digest, prev: NO_HASH, recordedAt, seq, signature }),
        );
      }),
    );
  });

  it('[J5] any change of an accepted entry is seen', () => {
    const [first, second] = chain([draft, draftOf(2, 'note', { text: 'b' })]);
    if (first === undefined || second === undefined) throw new Error('two entries');
    expect(linkFault(first, EMPTY_HEAD)).toBeNull();
    expect(linkFault(second, first)).toBeNull();
    const changes = [
      { body: first.body.replace('Zwölf', 'Zwolf') },
      { digest: sha256Hex('x') },
      { recordedAt: '2027-01-01T00:00:00Z' },
      { signature: 'somebody' },
      { prev: sha256Hex('x') },
      { hash: sha256Hex('x') },
      { seq: 2 },
    ];
    for (const change of changes)
      expect(linkFault({ ...first, ...change }, EMPTY_HEAD), JSON.stringify(change)).not.toBeNull();
    expect(linkFault(second, EMPTY_HEAD)).toContain('entry 1 is missing');
  });

  it('comes back from its bytes', () => {
    const read = readDraft(draft.body, draft.digest);
    expect(read).toEqual({ ok: true, value: draft });
    const stored = accept(draft, EMPTY_HEAD, '2026-01-05T08:00:00Z');
    expect(readStored(stored)).toMatchObject({
      ok: true,
      value: { id: draft.id, seq: 1, kind: 'note.v1', data: draft.data },
    });
  });

  it('was checked when made or read: the object itself, frozen, and no copy of it', () => {
    const read = readDraft(draft.body, draft.digest);
    for (const made of [draft, ...(read.ok ? [read.value] : [])]) {
      expect(isVouched(made)).toBe(true);
      expect(() => Object.assign(made, { body: '{}' })).toThrow(TypeError);
      expect(isVouched({ ...made })).toBe(false);
      expect(isVouched({ ...made, body: '{}' })).toBe(false);
      expect(isVouched(structuredClone(made) as EntryDraft)).toBe(false);
    }
    expect(read.ok).toBe(true);
  });

  it.each([
    ['id', draftEntry({ ...stampAt(1), id: 'x' as EntryId }, 'note.v1', {})],
    ['at', draftEntry({ ...stampAt(1), at: 'today' }, 'note.v1', {})],
    ['by', draftEntry({ ...stampAt(1), by: '' }, 'note.v1', {})],
    ['kind', draftEntry(stampAt(1), 'note', {})],
    ['data', draftEntry(stampAt(1), 'note.v1', undefined)],
  ])('is not taken as checked without a proper %s, and is refused by a journal', async (_what, made) => {
    expect(isVouched(made)).toBe(false);
    expect(await new MemoryJournal(countingClock()).append(null, [made])).toMatchObject({
      ok: false,
      problem: { code: 'ENTRY_UNREADABLE' },
    });
  });

  it('refuses a text that is not that of the digest', () => {
    const read = readDraft(`${draft.body} `, draft.digest);
    expect(read).toMatchObject({ ok: false, problem: { code: 'DIGEST_DIFFERS' } });
  });

  it.each([
    ['not json', '{"id":'],
    ['no object', '"text"'],
    ['id', JSON.stringify({ ...JSON.parse(draft.body), id: 'x' })],
    ['at', JSON.stringify({ ...JSON.parse(draft.body), at: '2026-01-05 08:00' })],
    ['by', JSON.stringify({ ...JSON.parse(draft.body), by: '' })],
    ['device', JSON.stringify({ ...JSON.parse(draft.body), device: 1 })],
    ['kind', JSON.stringify({ ...JSON.parse(draft.body), kind: 'note' })],
    ['corrects', JSON.stringify({ ...JSON.parse(draft.body), corrects: 'x' })],
  ])('a body with no proper head (%s) is one Problem', (_what, body) => {
    expect(parseBody(body)).toMatchObject({ ok: false, problem: { code: 'ENTRY_UNREADABLE' } });
  });

  it('tells name and version of a kind', () => {
    expect(splitKind('came-off-first.v12')).toEqual({ name: 'came-off-first', version: 12 });
  });

  // ISO 8601 / RFC 3339 section 5.8, examples; a time without offset is not taken.
  it.each([
    ['1985-04-12T23:20:50.52Z', true],
    ['1996-12-19T16:39:57-08:00', true],
    ['1996-12-19T16:39:57', false],
    ['1996-13-19T16:39:57Z', false],
  ])('%s has an offset: %s', (text, is) => {
    expect(isTimeWithOffset(text)).toBe(is);
  });

  it('an id of an act with several entries counts up', () => {
    expect(idAt(1) < idAt(2)).toBe(true);
  });
});
