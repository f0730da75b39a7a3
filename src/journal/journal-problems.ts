/** Every Problem the journal gives: what it means and what can be done. `docs/errors.md` is made from this list. */
import { type Problem, type ProblemList, problem } from '../domain/problem.ts';

export const JOURNAL_PROBLEMS = {
  ENTRY_ID_SHAPE: {
    meaning: 'A text given as an entry id does not have its shape.',
    remedy: 'Copy the id as it is shown beside the entry.',
  },
  ENTRY_UNREADABLE: {
    meaning: 'An entry has no proper head (id, at, by, device, kind, data), or is not JSON.',
    remedy: 'Make the entry with this program; when it came from a file, run verify.',
  },
  ENTRY_DATA: {
    meaning: 'The data of an entry do not fit its kind.',
    remedy: 'Mend the named field. The kinds and their fields are listed in the glossary of entry kinds.',
  },
  COMMAND_UNREADABLE: { meaning: 'A command does not have the shape of any command.', remedy: 'Mend the named field.' },
  DIGEST_DIFFERS: {
    meaning: 'The text of an entry and its digest do not belong together.',
    remedy: 'Send the entry again from the device that made it.',
  },
  ENTRY_ID_TAKEN: {
    meaning: 'Another entry with other content already has this id.',
    remedy: 'Keep both files, record the entry anew, and tell who looks after the program.',
  },
  JOURNAL_MOVED: { meaning: 'Others recorded in the meantime.', remedy: 'Read what came, look again, and record.' },
  JOURNAL_NEWER: {
    meaning: 'The journal was written by a newer version of the program. It can be read, not added to.',
    remedy: 'Use the newer version, or read only.',
  },
  CHAIN_BROKEN: {
    meaning: 'An entry is missing or was changed after it was recorded.',
    remedy: 'Run verify, keep the folder as it is, and restore the last backup beside it.',
  },
  TAIL_LOST: {
    meaning: 'Entries that were acknowledged are no longer in the journal.',
    remedy: 'Keep the folder as it is; restore the last backup beside it, or carry on with the loss noted.',
  },
  HEAD_MARK_MISSING: {
    meaning: 'The small file that names the last acknowledged entry is missing or unreadable.',
    remedy: 'Compare the last entries with the people; then open once to have it written anew.',
  },
  UNKNOWN_ID: {
    meaning: 'Nothing with this id is recorded.',
    remedy: 'Choose from what is recorded, or note it first.',
  },
  UNKNOWN_PERSON: { meaning: 'Nobody with this id is recorded in the job.', remedy: 'Note the person first.' },
  UNKNOWN_STATE: {
    meaning: 'The setup has no such state.',
    remedy: 'Choose one of its states, or add the state to the rig.',
  },
  NOTHING_TO_UNDO: {
    meaning: 'There is no entry of this person that can be taken back.',
    remedy: 'Open the entry itself and withdraw it.',
  },
  NOT_DONE: {
    meaning: 'The step is not recorded as done, so it cannot be taken back or refitted.',
    remedy: 'Record the step first, or choose another one.',
  },
  NOT_OPEN: { meaning: 'The stop is not open any more.', remedy: 'Nothing needs doing; it was cleared before.' },
  NOT_THAT_MANY: {
    meaning: 'More is to be taken or given back than there is.',
    remedy: 'Count what is there, record the count, and take what is there.',
  },
  TRANSFER_TAKEN: {
    meaning: 'A robbery with this id is recorded already.',
    remedy: 'Nothing needs doing if it is the same; otherwise record it under an id of its own.',
  },
  ALREADY_OPEN: { meaning: 'The job was opened before.', remedy: 'Correct the first entry instead.' },
  RIG_DOES_NOT_HOLD: {
    meaning: 'With this change the rig would contradict itself.',
    remedy: 'Mend the named place of the change.',
  },
  NOTHING_TO_MIRROR: {
    meaning: 'The assembly has nothing that could be mirrored to that side.',
    remedy: 'Choose the assembly of the recorded side.',
  },
} as const satisfies ProblemList;

export type JournalProblemCode = keyof typeof JOURNAL_PROBLEMS;

export function journalProblem(code: JournalProblemCode, message: string, remedy?: string, where?: string): Problem {
  return problem(code, message, remedy ?? JOURNAL_PROBLEMS[code].remedy, where);
}
