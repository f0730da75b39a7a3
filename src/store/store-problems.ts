/** Every Problem the disk gives: what it means and what can be done. `docs/errors.md` is made from this list. */
import { type Problem, type ProblemList, problem } from '../domain/problem.ts';

export const STORE_PROBLEMS = {
  JOB_NOT_FOUND: {
    meaning: 'The folder holds no job (no journal.db).',
    remedy: 'Check the path, or make a new job there.',
  },
  JOB_EXISTS: {
    meaning: 'There is a job, or something else, in that place already.',
    remedy: 'Choose another name; nothing was changed.',
  },
  SHOP_NOT_FOUND: {
    meaning: 'The folder holds no shop (no shop.db).',
    remedy: 'Check the path, or make a new shop there.',
  },
  JOURNAL_DAMAGED: {
    meaning: 'The journal file cannot be read as a database.',
    remedy: 'Keep the folder as it is and restore the last backup beside it.',
  },
  JOURNAL_READ_ONLY: {
    meaning: 'The journal is open for reading only; the entry was not recorded.',
    remedy: 'See the Problem that was given at opening.',
  },
  JOURNAL_BUSY: {
    meaning: 'Another program holds the journal for longer than five seconds; the entry was not recorded.',
    remedy: 'Record it again; if it stays so, close the other program.',
  },
  HEAD_MARK_DIFFERS: {
    meaning: 'The entry that was last acknowledged is not the one in the journal at that place.',
    remedy: 'The folder was mixed with another copy. Keep it as it is, and compare with the last backup.',
  },
  DISK_FULL: {
    meaning: 'The disk is full; the last entry was not recorded, all earlier ones are whole.',
    remedy: 'Make room, then record it again.',
  },
  DISK_TROUBLE: {
    meaning: 'The disk did not do what it was asked; what was asked was not done.',
    remedy: 'Check the disk and its cable, then do it again.',
  },
  PHOTO_KIND: {
    meaning: 'The content is not a photograph that is taken in (JPEG, PNG, WebP, AVIF).',
    remedy: 'Save it as JPEG and add it again.',
  },
  PHOTO_MIXED: {
    meaning: 'The file is a photograph and something else at once (a document, an archive, a page).',
    remedy: 'Open it in a picture program, save it as JPEG, and add that.',
  },
  PHOTO_TOO_LARGE: {
    meaning: 'The photograph has more bytes or pixels than are taken in.',
    remedy: 'Save it smaller and add it again; keep the original elsewhere.',
  },
  PHOTO_CUT: {
    meaning: 'The photograph ends too early or cannot be decoded.',
    remedy: 'Copy it from the camera again.',
  },
  SOUND_KIND: {
    meaning: 'The content is not a sound that is kept (WebM, Ogg, MP4, WAV, MP3), or is something else too.',
    remedy: 'Record it again in the page.',
  },
  SOUND_TOO_LARGE: {
    meaning: 'The sound has more bytes than are kept.',
    remedy: 'Record it in shorter pieces.',
  },
  SOUND_NOT_FOUND: {
    meaning: 'No sound with this hash is in the job.',
    remedy: 'It may still be on the device that recorded it; otherwise copy it back from a backup.',
  },
  SOUND_CHANGED: {
    meaning: 'The bytes of a sound on disk are not those that were recorded.',
    remedy: 'Copy it back from a backup.',
  },
  PHOTO_NOT_FOUND: {
    meaning: 'No photograph with this hash is in the job.',
    remedy: 'Run verify to see which ones are missing; copy them back from a backup.',
  },
  BACKUP_NOT_WHOLE: {
    meaning: 'The backup does not hold what its list says, or its journal does not verify.',
    remedy: 'Make the backup again; keep the one before it.',
  },
  BACKUP_EXISTS: {
    meaning: 'There is a file of that name already.',
    remedy: 'Choose another name; nothing was changed.',
  },
  EXPORT_UNREADABLE: {
    meaning: 'A line of the exported file is not an entry.',
    remedy: 'Export it again; nothing was taken in.',
  },
  LAN_NAME: {
    meaning:
      'The name does not end in .local, .home.arpa or .internal, so the shop’s own authority may not vouch for it.',
    remedy: 'Choose a name like witnessmark.local: small letters, digits and hyphens, with one of the three endings.',
  },
  PAIRING_CODE_UNKNOWN: {
    meaning: 'The pairing code is mistyped, was used already, or is older than ten minutes.',
    remedy:
      'Compare it with the screen of the shop’s machine; when it is old, make a new one there with `witnessmark pair`.',
  },
  DEVICE_NAME: {
    meaning: 'A device that is paired has no name, or one that is too long.',
    remedy: 'Give it a short name that people will know it by, like "Floor tablet".',
  },
  DEVICE_NOT_FOUND: {
    meaning: 'No device of that id is paired with the shop.',
    remedy: 'List them with `witnessmark devices SHOP` and take the id from there.',
  },
} as const satisfies ProblemList;

export type StoreProblemCode = keyof typeof STORE_PROBLEMS;

export function storeProblem(code: StoreProblemCode, message: string, remedy?: string, where?: string): Problem {
  return problem(code, message, remedy ?? STORE_PROBLEMS[code].remedy, where);
}

/** A failed call of the system or of SQLite as a Problem; anything else is our own mistake and is thrown on. */
export function diskProblem(thrown: unknown, doing: string): Problem {
  const code = typeof thrown === 'object' && thrown !== null && 'code' in thrown ? String(thrown.code) : '';
  const detail = thrown instanceof Error ? thrown.message : String(thrown);
  if (code === 'SQLITE_FULL' || code === 'ENOSPC' || code === 'EDQUOT')
    return storeProblem('DISK_FULL', `the disk is full (${doing})`);
  if (code.startsWith('SQLITE_BUSY') || code === 'SQLITE_LOCKED')
    return storeProblem('JOURNAL_BUSY', `another program holds the journal (${doing})`);
  if (code.startsWith('SQLITE_READONLY') || code === 'EROFS')
    return storeProblem('JOURNAL_READ_ONLY', `the place cannot be written to (${doing})`);
  if (
    code.startsWith('SQLITE_CORRUPT') ||
    code === 'SQLITE_NOTADB' ||
    code === 'SQLITE_FORMAT' ||
    code === 'SQLITE_ERROR' ||
    code === 'SQLITE_SCHEMA'
  ) {
    return storeProblem('JOURNAL_DAMAGED', `the journal cannot be read as a database (${doing}: ${detail})`);
  }
  if (code.startsWith('SQLITE_') || /^E[A-Z]+$/.test(code)) return storeProblem('DISK_TROUBLE', `${doing}: ${detail}`);
  throw thrown;
}
