/**
 * What is sent goes to a file of its own first, so that memory does not grow with the number and size of what is being
 * sent at once, and a sender that stalls holds nothing but disk. The name is ours; nothing of the sender's is in it.
 */

import { createWriteStream } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { failed, ok, type Result } from '../domain/result.ts';
import { intakeProblem } from './intake-problems.ts';
import { diskProblem } from './store-problems.ts';

export interface UploadFile {
  readonly path: string;
  readonly bytes: number;
  readonly read: () => Promise<Uint8Array>;
  readonly discard: () => Promise<void>;
}

class Overflow extends Error {}

/** `UPLOAD_TOO_LARGE`, `UPLOAD_CUT`, or what the disk says. Whatever goes wrong, nothing is left lying. */
export async function keepUpload(from: NodeJS.ReadableStream, most: number): Promise<Result<UploadFile>> {
  const folder = await mkdtemp(join(tmpdir(), 'witnessmark-upload-'));
  const path = join(folder, 'body');
  const discard = () => rm(folder, { recursive: true, force: true });
  let bytes = 0;
  const count = new Transform({
    transform(chunk: Buffer, _encoding, done) {
      bytes += chunk.length;
      if (bytes > most) done(new Overflow());
      else done(null, chunk);
    },
  });
  try {
    await pipeline(from, count, createWriteStream(path, { mode: 0o600 }));
  } catch (thrown) {
    await discard();
    if (thrown instanceof Overflow) return failed(uploadTooLarge(most));
    const code = typeof thrown === 'object' && thrown !== null && 'code' in thrown ? String(thrown.code) : '';
    if (code === 'ENOSPC' || code === 'EDQUOT') return failed(diskProblem(thrown, 'taking in what was sent'));
    return failed(intakeProblem('UPLOAD_CUT', `the connection ended after ${bytes} bytes`));
  }
  return ok({ path, bytes, read: () => readFile(path), discard });
}

export function uploadTooLarge(most: number) {
  return intakeProblem('UPLOAD_TOO_LARGE', `more than ${Math.floor(most / 1048576)} MB were sent at once`);
}
