/**
 * Voice notes of the invented shop. No voice was recorded: each file is a few soft tones made by arithmetic, as long as
 * the words would take, and its entry says so. The bytes are the same each time, so the hash is known beforehand.
 */

import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { recording } from '../../src/journal/commands.ts';
import type { By, Recorder } from './act.ts';

const RATE = 8000;
const HEADER = 44;

/** A mono WAV file of 8 kHz, 8 bits: tones that rise and fall about as often as somebody speaks. */
export function toneFile(seconds: number, base: number): Uint8Array {
  const count = seconds * RATE;
  const bytes = new Uint8Array(HEADER + count);
  const view = new DataView(bytes.buffer);
  const word = (at: number, text: string) =>
    bytes.set(
      [...text].map((c) => c.charCodeAt(0)),
      at,
    );
  word(0, 'RIFF');
  view.setUint32(4, HEADER - 8 + count, true);
  word(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, RATE, true);
  view.setUint32(28, RATE, true);
  view.setUint16(32, 1, true);
  view.setUint16(34, 8, true);
  word(36, 'data');
  view.setUint32(40, count, true);
  for (let i = 0; i < count; i += 1) {
    const t = i / RATE;
    const beat = (t * 2.5) % 1;
    const loud = Math.min(1, beat * 12) * Math.max(0, 1 - beat * 1.4);
    const pitch = base * [1, 1.125, 0.94, 1.06, 0.84][Math.floor(t * 2.5) % 5]!;
    bytes[HEADER + i] = Math.round(128 + 34 * loud * Math.sin(2 * Math.PI * pitch * t));
  }
  return bytes;
}

/** Records a voice note with what was said, written down by a person. */
export function keepSound(r: Recorder, by: By, id: string, of: readonly string[], seconds: number, said: string): void {
  const file = toneFile(seconds, 150 + (id.length % 4) * 12);
  const sound = { id, hash: bytesToHex(sha256(file)), file };
  r.sound(sound);
  r.record(
    by,
    recording('sound-kept', {
      hash: sound.hash,
      mime: 'audio/wav',
      bytes: file.length,
      seconds,
      of: [...of],
      transcript: { text: `${said} (a tone made for the demonstration stands for the voice)`, machine: false },
    }),
    1,
  );
}
