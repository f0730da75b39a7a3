/** What others use of the journal, in one place. Inside the folder, files import each other directly. */

export { type Command, type CommandKind, readCommand, recording } from './commands.ts';
export { type Contradiction, contradictions, openContradictions } from './contradictions.ts';
export {
  type Balance,
  bagClashes,
  balances,
  contentsOf,
  highestBag,
  openDifferences,
  openStuck,
  openTags,
  openTransfers,
  overdrawn,
  type StillInside,
  setOf,
  stillInside,
  thingsOf,
  type Whereabouts,
  whereIs,
} from './custody.ts';
export {
  type Bag,
  type CustodyFault,
  type Difference,
  pinKey,
  type Tag,
  type Transfer,
  type Where,
} from './custody-state.ts';
export { decide, lastUndoable } from './decide.ts';
export {
  draftEntry,
  EMPTY_HEAD,
  type Entry,
  type EntryDraft,
  type Head,
  readDraft,
  readStored,
  type Stamp,
  type StoredEntry,
  splitKind,
} from './entry.ts';
export { fold } from './fold.ts';
export { dayOfJob } from './job-day.ts';
export { JOURNAL_PROBLEMS, journalProblem } from './journal-problems.ts';
export { type DataOf, fullKind, KIND_NAMES, KINDS, type KindName } from './kinds/kinds.ts';
export { type FoundValue, JOINT_ASPECTS } from './kinds/shared-shapes.ts';
export { REFIT_STAGES, type RefitStage } from './kinds/step-kinds.ts';
export { EMPTY_STATE } from './make-state.ts';
export { MemoryJournal } from './memory-journal.ts';
export type {
  Clock,
  Ids,
  Journal,
  Photographs,
  PhotoInfo,
  PhotoSize,
  SoundInfo,
  SoundMime,
  Sounds,
} from './ports.ts';
export {
  FOLD_VERSION,
  factNow,
  factsOf,
  isDone,
  nameOf,
  refitStage,
  type Said,
  type Signature,
  type State,
  type StepRecord,
  type Stop,
  signatureNow,
} from './state.ts';
export {
  addPending,
  EMPTY_COPY,
  type LocalCopy,
  overlay,
  packCopy,
  readChain,
  reconcile,
  takeIn,
  unpackCopy,
} from './sync.ts';
