import { MemoryJournal } from './memory-journal.ts';
import { journalAcceptance } from './testing/journal-acceptance.ts';
import { countingClock } from './testing/recorder.ts';

journalAcceptance('memory', () => ({ journal: new MemoryJournal(countingClock()), close: () => {} }));
