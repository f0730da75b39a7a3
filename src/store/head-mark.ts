/**
 * The head mark (docs/adr/0003): the last acknowledged (seq, hash), so that a cut tail of the database is seen. SQLite
 * drops a damaged end of its log without a word, since it cannot know that those frames were acknowledged; we can.
 *
 *   journal.head   slot 0 | slot 1      each 96 bytes: seq, hash, check; slot = seq mod 2, so a torn write leaves the other
 *
 * Written after the commit and before the acknowledgement, as one call from one buffer; synced at closing only. It may lag behind the database (then the
 * database must contain it); it is never ahead of what was acknowledged. The file never grows, so a full disk does not stop it.
 */
import * as fs from 'node:fs';
import { EMPTY_HEAD, type Head, isHash } from '../journal/entry.ts';
import { type Disk, REAL_DISK } from './disk.ts';
import { nodeSha256Hex } from './machine.ts';

const SLOT = 96;

function slotText(head: Head): string {
  const words = `${String(head.seq).padStart(12, '0')} ${head.hash}`;
  return `${words} ${nodeSha256Hex(words).slice(0, 16)} \n`;
}

function readSlot(text: string): Head | null {
  const [seq = '', hash = '', check = ''] = text.trimEnd().split(' ');
  if (!/^\d{12}$/.test(seq) || !isHash(hash)) return null;
  const head = { seq: Number(seq), hash };
  return slotText(head) === text && check !== '' ? head : null;
}

export interface MarkRead {
  /** Null: the file is missing or neither slot can be read. */
  readonly head: Head | null;
  /** How many of the two slots could not be read. */
  readonly unreadable: number;
}

export function readMark(path: string): MarkRead {
  let text: string;
  try {
    text = fs.readFileSync(path, 'latin1');
  } catch {
    return { head: null, unreadable: 2 };
  }
  const slots = [readSlot(text.slice(0, SLOT)), readSlot(text.slice(SLOT, 2 * SLOT))];
  const good = slots.filter((s) => s !== null);
  const head = good.reduce<Head | null>((best, s) => (best === null || s.seq > best.seq ? s : best), null);
  return { head, unreadable: 2 - good.length };
}

export class HeadMark {
  /** One for all writes: it is full each time, so nothing of the one before stays in it. */
  private readonly slot = Buffer.alloc(SLOT);

  private constructor(
    private readonly fd: number,
    private readonly disk: Disk,
  ) {}

  /** Both slots say `head`. */
  static create(path: string, head: Head = EMPTY_HEAD, disk: Disk = REAL_DISK): HeadMark {
    const mark = new HeadMark(disk.open(path, 'w+'), disk);
    disk.write(mark.fd, Buffer.from(slotText(head) + slotText(head), 'latin1'), 0);
    disk.sync(mark.fd);
    return mark;
  }

  static open(path: string, disk: Disk = REAL_DISK): HeadMark {
    return new HeadMark(disk.open(path, 'r+'), disk);
  }

  /** What a mark file says when both slots hold `head`. */
  static text(head: Head): string {
    return slotText(head) + slotText(head);
  }

  write(head: Head): void {
    this.slot.write(slotText(head), 'latin1');
    this.disk.write(this.fd, this.slot, (head.seq % 2) * SLOT);
  }

  close(): void {
    try {
      this.disk.sync(this.fd);
    } finally {
      this.disk.close(this.fd);
    }
  }
}
