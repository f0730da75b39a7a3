/**
 * A tar file, written as a stream and read back member by member: POSIX ustar (IEEE Std 1003.1, "pax", ustar interchange
 * format). Every system can open it, and it has no limit that a job meets. Regular files with short names only.
 */
import * as fs from 'node:fs';
import type { Disk } from './disk.ts';

const BLOCK = 512;
const NAME_SHAPE = /^[A-Za-z0-9._-]+(\/[A-Za-z0-9._-]+)*$/;

/** A name that stays inside the folder it is unpacked to. */
export function isPlainName(name: string): boolean {
  return name.length < 100 && NAME_SHAPE.test(name) && !name.split('/').some((p) => p === '..' || p === '.');
}

function octal(value: number, width: number): string {
  return `${value.toString(8).padStart(width - 1, '0')}\0`;
}

function header(name: string, bytes: number, seconds: number): Buffer {
  if (!isPlainName(name)) throw new Error(`internal: "${name}" cannot be the name of a member; report it`);
  const block = Buffer.alloc(BLOCK);
  block.write(name, 0, 'latin1');
  block.write(octal(0o644, 8), 100, 'latin1');
  block.write(octal(0, 8), 108, 'latin1');
  block.write(octal(0, 8), 116, 'latin1');
  block.write(octal(bytes, 12), 124, 'latin1');
  block.write(octal(seconds, 12), 136, 'latin1');
  block.write('        ', 148, 'latin1');
  block.write('0', 156, 'latin1');
  block.write('ustar\x0000', 257, 'latin1');
  let sum = 0;
  for (const byte of block) sum += byte;
  block.write(`${sum.toString(8).padStart(6, '0')}\0 `, 148, 'latin1');
  return block;
}

export class TarWriter {
  private written = 0;

  constructor(
    private readonly disk: Disk,
    private readonly fd: number,
    private readonly seconds: number,
  ) {}

  add(name: string, bytes: Uint8Array): void {
    const padding = (BLOCK - (bytes.length % BLOCK)) % BLOCK;
    const whole = Buffer.concat([header(name, bytes.length, this.seconds), bytes, Buffer.alloc(padding)]);
    this.disk.write(this.fd, whole, null);
    this.written += whole.length;
  }

  /** Two empty blocks end the archive. */
  end(): number {
    this.disk.write(this.fd, Buffer.alloc(2 * BLOCK), null);
    return this.written + 2 * BLOCK;
  }
}

export interface TarMember {
  readonly name: string;
  readonly bytes: Buffer;
}

/** Members in order. Ends with a thrown `TarFault` where the file is not whole. */
export function* readTar(path: string): Generator<TarMember> {
  const fd = fs.openSync(path, 'r');
  try {
    const size = fs.fstatSync(fd).size;
    for (let at = 0; ; ) {
      const block = readAt(fd, at, BLOCK);
      if (block.every((b) => b === 0)) return;
      const member = readHeader(block, at);
      if (at + BLOCK + member.bytes > size) throw new TarFault(`"${member.name}" is cut`);
      yield { name: member.name, bytes: readAt(fd, at + BLOCK, member.bytes) };
      at += BLOCK + Math.ceil(member.bytes / BLOCK) * BLOCK;
    }
  } finally {
    fs.closeSync(fd);
  }
}

export class TarFault extends Error {}

function readAt(fd: number, at: number, length: number): Buffer {
  const bytes = Buffer.alloc(length);
  let from = 0;
  while (from < length) {
    const got = fs.readSync(fd, bytes, from, length - from, at + from);
    if (got === 0) throw new TarFault(`the file ends at byte ${at + from}`);
    from += got;
  }
  return bytes;
}

function readHeader(block: Buffer, at: number): { name: string; bytes: number } {
  let sum = 0;
  for (let i = 0; i < BLOCK; i += 1) sum += i >= 148 && i < 156 ? 32 : (block[i] ?? 0);
  const stated = Number.parseInt(block.toString('latin1', 148, 156), 8);
  const name = block.toString('latin1', 0, 100).replace(/\0.*$/, '');
  if (sum !== stated) throw new TarFault(`the heading at byte ${at} does not add up`);
  const bytes = Number.parseInt(block.toString('latin1', 124, 136), 8);
  if (!isPlainName(name) || !Number.isSafeInteger(bytes))
    throw new TarFault(`the heading at byte ${at} names no plain file`);
  return { name, bytes };
}
