/** What was found on a part and on its joints, ready to be shown: one block a joint, stacks apart, four answers in words. */
import { aspectName, foundWords } from '../../domain/as-found/aspects.ts';
import { type FactRecord, factsOf, nameOf, type State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import { dayWords } from '../words/figures.ts';
import { upperFirst } from '../words/names.ts';

export interface FoundRow {
  readonly aspect: string;
  readonly name: string;
  readonly words: string;
  /** A value; the other answers are set apart. */
  readonly isValue: boolean;
  /** Who said it, when, with what. */
  readonly source: string;
  /** Said before and not so any more, newest first. */
  readonly earlier: readonly string[];
}

export interface FoundBlock {
  readonly subject: string;
  readonly title: string;
  readonly rows: readonly FoundRow[];
  /** The washer stack as written, when one was noted. */
  readonly stack: string | null;
  readonly isDone: boolean;
}

/** The joints that hold a part, in the order of the rig. */
export function jointsOf(job: JobView, part: string): readonly string[] {
  return job.rig.attachments.filter((a) => a.joins.includes(part)).map((a) => a.id);
}

export function foundOf(state: State, job: JobView, subject: string): FoundBlock {
  const facts = factsOf(state, subject);
  let stack: string | null = null;
  const rows = [...facts].flatMap(([aspect, said]): FoundRow[] => {
    const now = said.at(-1);
    if (now === undefined) return [];
    if (aspect === 'washer-stack' && now.value.is === 'value') stack = now.value.text;
    return [
      {
        aspect,
        name: upperFirst(aspectName(aspect)),
        words: foundWords(aspect, now.value),
        isValue: now.value.is === 'value',
        source: sourceWords(state, now),
        earlier: said
          .slice(0, -1)
          .reverse()
          .map((f) => `${foundWords(aspect, f.value)} (${sourceWords(state, f)})`),
      },
    ];
  });
  const isJoint = job.names.attachment(subject) !== undefined;
  return {
    subject,
    title: isJoint ? job.names.strip(subject) : 'The part itself',
    rows,
    stack,
    isDone: job.done.has(subject),
  };
}

function sourceWords(state: State, f: FactRecord): string {
  return [nameOf(state, f.said.by), dayWords(f.said.at), f.tool, f.note].filter((w) => w !== undefined).join(' · ');
}

/** The part's own block, where it has one, then its joints; a joint with nothing said stands there too: it is owed. */
export function foundBlocks(state: State, job: JobView, subject: string): readonly FoundBlock[] {
  const isJoint = job.names.attachment(subject) !== undefined;
  const joints = isJoint ? [] : jointsOf(job, subject);
  const own = foundOf(state, job, subject);
  return [...(own.rows.length > 0 || isJoint ? [own] : []), ...joints.map((j) => foundOf(state, job, j))];
}
