/** Packets written out by hand after RFC 1035 section 4.1 and RFC 6762. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerTo } from './name-answer.ts';

const NAME = '0b7769746e6573736d61726b056c6f63616c00'; // 11 "witnessmark" 5 "local" 0
const query = (hex: string): Buffer => Buffer.from(hex.replace(/\s/g, ''), 'hex');
const one = (type: string, id = '0000'): Buffer => query(`${id} 0000 0001 0000 0000 0000 ${NAME} ${type} 0001`);
const ask = (q: Buffer, legacy = false) =>
  answerTo(q, 'witnessmark.local', ['192.168.7.20'], legacy)?.toString('hex') ?? null;
const NSEC_DATA = `${NAME}000140`;

describe('the shop’s name', () => {
  it('is answered to all, with its address and that there is no other kind', () => {
    const expected = query(`0000 8400 0000 0002 0000 0000
      ${NAME} 0001 8001 00000078 0004 c0a80714
      ${NAME} 002f 8001 00000078 0016 ${NSEC_DATA}`).toString('hex');
    expect(ask(one('0001'))).toBe(expected);
    expect(ask(one('001c'))).toBe(expected);
    expect(ask(one('00ff'))).toBe(expected);
  });

  it('is answered to one who does not speak multicast, with the question, briefly (RFC 6762 6.7)', () => {
    expect(ask(one('0001', 'beef'), true)).toBe(
      query(`beef 8400 0001 0002 0000 0000 ${NAME} 0001 0001
        ${NAME} 0001 0001 0000000a 0004 c0a80714
        ${NAME} 002f 0001 0000000a 0016 ${NSEC_DATA}`).toString('hex'),
    );
  });

  it('is found among several questions, also shortened and in capitals', () => {
    // "shop.local", then "WITNESSMARK" and a pointer to the "local" at octet 17.
    const q = query(
      '0000 0000 0002 0000 0000 0000 0473686f70 056c6f63616c00 0001 0001 0b5749544e4553534d41524b c011 0001 0001',
    );
    expect(ask(q)).not.toBeNull();
  });

  it.each([
    ['another name', query('0000 0000 0001 0000 0000 0000 0473686f70056c6f63616c00 0001 0001')],
    ['another kind', one('0010')],
    ['an answer, not a question', query(`0000 8400 0001 0000 0000 0000 ${NAME} 0001 0001`)],
    ['a pointer to itself', query('0000 0000 0001 0000 0000 0000 c00c 0001 0001')],
    ['cut short', one('0001').subarray(0, 25)],
    ['nothing', Buffer.alloc(0)],
  ])('is not given to %s', (_what, q) => expect(ask(q)).toBeNull());

  it('whatever comes in, nothing is thrown', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 80 }), (b) => void ask(Buffer.from(b))));
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 60 }),
        (b) => void ask(Buffer.concat([query('0000 0000 0002 0000 0000 0000'), b])),
      ),
    );
  });
});
