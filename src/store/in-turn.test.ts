import { describe, expect, it } from 'vitest';
import { Gate } from './in-turn.ts';

describe('a gate of two places', () => {
  it('never has more than two inside, lets a heavy one in alone, and keeps the order', async () => {
    const gate = new Gate(2);
    const order: string[] = [];
    let inside = 0;
    let most = 0;
    const work = (name: string, weight: number) =>
      gate.inTurn(async () => {
        order.push(name);
        inside += weight;
        most = Math.max(most, inside);
        await new Promise((done) => setImmediate(done));
        inside -= weight;
        return name;
      }, weight);
    const names = await Promise.all(
      [work('a', 1), work('b', 1), work('heavy', 9), work('c', 1), work('d', 1)].map((p) => p),
    );
    expect(names).toEqual(['a', 'b', 'heavy', 'c', 'd']);
    expect(order).toEqual(['a', 'b', 'heavy', 'c', 'd']);
    expect(most).toBe(9);
    expect(gate.taken).toBe(0);
  });

  it('gives the place back when the work throws', async () => {
    const gate = new Gate(1);
    await expect(gate.inTurn(() => Promise.reject(new Error('x')))).rejects.toThrow('x');
    expect(await gate.inTurn(async () => 'next')).toBe('next');
  });
});
