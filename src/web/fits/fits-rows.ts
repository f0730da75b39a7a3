/** From the planner's answer to sentences: what fits now, and what each would lock out or hide. Nothing is decided here. */
import type { Hand } from '../../domain/rig/rig-types.ts';
import type { FitsAnswer, FitsEntry } from '../../planning/answers.ts';
import type { Wire } from '../graph/graph-model.ts';
import type { JobView } from '../state/job-view.ts';
import { placeOf } from '../state/place-of.ts';
import { listWords } from '../words/figures.ts';
import { assemblyOf, handOf, lowerFirst, shortName } from '../words/names.ts';

export interface FitsRow {
  readonly id: string;
  readonly name: string;
  readonly place: string;
  readonly hand: Hand | null;
  /** Others that are the same but for their number; empty when there are none. */
  readonly alike: readonly string[];
  readonly entry: FitsEntry;
  readonly harmful: boolean;
  /** "Then the rivets of panel 9 cannot be reached, and ..." in pieces: strong words are set in ink. */
  readonly says: readonly { readonly text: string; readonly strong: boolean }[];
  readonly state: readonly [string, string];
  readonly lastSight: readonly string[];
}

export function fitsRows(job: JobView, answer: FitsAnswer): readonly FitsRow[] {
  const turn = new Map((answer.order ?? []).map((a, at) => [a, at]));
  const seenBefore = new Map<string, string[]>();
  for (const [look, action] of Object.entries(answer.lastSeen)) {
    (seenBefore.get(action) ?? seenBefore.set(action, []).get(action)!).push(look);
  }
  const rows = answer.next
    .filter((e) => e.fits)
    .map((entry): FitsRow => {
      const harmful = entry.roots.length > 0 || entry.hides.length > 0;
      return {
        id: entry.action,
        name: job.names.refit(entry.action),
        place: placeOf(job, entry.action),
        hand: handOf(job.names, entry.action) ?? null,
        entry,
        alike: [],
        harmful,
        says: harmful ? harmSays(job, entry) : plainSays(job, entry),
        state: harmful ? ['not yet', afterWords(job, entry)] : stateWords(job, entry, turn),
        lastSight: harmful ? [] : (seenBefore.get(entry.action) ?? []).filter((l) => !job.signed.has(l)),
      };
    });
  const late = 1e9;
  const sorted = rows.sort(
    (a, b) =>
      a.place.localeCompare(b.place) || (turn.get(a.id) ?? late) - (turn.get(b.id) ?? late) || a.id.localeCompare(b.id),
  );
  return together(sorted);
}

const ONE_OF = /, \d+ of \d+(?=,|$)/;

/** Six bolts alike are one row, "6 alike"; each tap is one of them. */
function together(rows: readonly FitsRow[]): readonly FitsRow[] {
  const groups = new Map<string, FitsRow[]>();
  for (const row of rows) {
    const key = ONE_OF.test(row.name)
      ? [
          row.place,
          row.name.replace(ONE_OF, ''),
          row.harmful,
          row.state[0],
          row.entry.roots.length,
          row.entry.hides.join(),
        ].join('|')
      : row.id;
    (groups.get(key) ?? groups.set(key, []).get(key)!).push(row);
  }
  return [...groups.values()].flatMap((same) => {
    const [first] = same;
    if (first === undefined || same.length === 1) return same;
    const state: FitsRow['state'] = first.harmful
      ? first.state
      : [`${first.state[0]}, ${same.length} alike`, first.state[1]];
    return [{ ...first, name: first.name.replace(ONE_OF, ''), alike: same.map((r) => r.id), state }];
  });
}

/** "It would fit. Then the rivets of panel 9 cannot be reached, and the inner lug, not yet seen, is hidden." */
function harmSays(job: JobView, e: FitsEntry): FitsRow['says'] {
  const isPart = (a: string) => a.startsWith('remove:');
  const parts = e.roots.filter(isPart).map(job.names.thing);
  const joints = e.roots.filter((r) => !isPart(r)).map(job.names.thing);
  const looks = e.hides.map((l) => lowerFirst(job.names.look(l)));
  const more = e.locksOut.length - e.roots.length;
  const behind = more > 0 ? ` (and ${more} more behind)` : '';
  const clauses = [
    { words: joints, after: ` cannot be reached${parts.length === 0 ? behind : ''}` },
    { words: parts, after: ` cannot go in${behind}` },
    { words: looks, after: `, not yet seen, ${looks.length === 1 ? 'is' : 'are'} hidden` },
  ].filter((c) => c.words.length > 0);
  const says = clauses.flatMap((c, at) => [
    { text: at === 0 ? 'It would fit. Then ' : at === clauses.length - 1 ? ', and ' : ', ', strong: false },
    { text: few(c.words), strong: true },
    { text: c.after, strong: false },
  ]);
  return [...says, { text: '.', strong: false }];
}

/** "the lug bolt, 5 of 6" and "the lug bolt, 6 of 6" are "the lug bolt (2 of them)". */
function condensed(words: readonly string[]): readonly string[] {
  const counts = new Map<string, readonly string[]>();
  for (const word of words) {
    const base = word.replace(ONE_OF, '');
    counts.set(base, [...(counts.get(base) ?? []), word]);
  }
  return [...counts].map(([base, same]) =>
    same.length === 1 ? (same[0] ?? base) : `${base} (${same.length} of them)`,
  );
}

function few(each: readonly string[]): string {
  const words = condensed(each);
  return words.length <= 3 ? listWords(words) : `${words.slice(0, 2).join(', ')} and ${words.length - 2} more`;
}

function afterWords(job: JobView, e: FitsEntry): string {
  const [first] = e.roots;
  if (first === undefined) return e.hides.length === 1 ? 'until it is seen' : `until ${e.hides.length} looks are done`;
  const rest = e.roots.length + e.hides.length - 1;
  return `after ${shortName(job.names.thing(first)).replace(ONE_OF, '')}${rest > 0 ? ` and ${rest} more` : ''}`;
}

function plainSays(job: JobView, e: FitsEntry): FitsRow['says'] {
  const joint = job.names.attachment(e.action);
  const part = e.action.startsWith('remove:') ? job.names.find(e.action.slice(7)) : undefined;
  const decided = joint?.asDecided === undefined ? null : asText('decided', joint.asDecided);
  const found = joint?.asFound === undefined ? null : asText('found', joint.asFound);
  const words = [idWords(job, e.action), decided ?? found, joint?.note ?? part?.note ?? null].filter(
    (w): w is string => w !== null && w !== '',
  );
  return [{ text: words.join(' · '), strong: false }];
}

/** Number and bag, as they stand on the tag. */
function idWords(job: JobView, action: string): string {
  const part = job.names.partsOf(action)[0];
  if (part === undefined || assemblyOf(part) === null) return '';
  const bag = job.find.find((f) => f.id === part)?.bag;
  return bag == null ? part : `${part} · ${bag}`;
}

function asText(word: string, record: Readonly<Record<string, unknown>>): string {
  const parts = Object.entries(record).map(([key, value]) =>
    key === 'note' ? String(value) : key === 'present' && value === false ? 'none' : `${key} ${String(value)}`,
  );
  return `${word}: ${parts.join(', ')}`;
}

function stateWords(job: JobView, e: FitsEntry, turn: ReadonlyMap<string, number>): FitsRow['state'] {
  if (job.done.get(e.action)?.trial) return ['trial', 'in place; comes out again'];
  return ['fits', turn.get(e.action) === 0 ? 'first in the order' : ''];
}

/** What goes in before what, among what fits now: for the tags. */
export function fitsWires(rows: readonly FitsRow[]): {
  readonly shown: readonly string[];
  readonly wires: readonly Wire[];
} {
  const wires = rows.flatMap((r) => [
    ...r.entry.roots.map((from): Wire => ({ from, to: r.id, way: 'first' })),
    ...r.entry.hides.map((look): Wire => ({ from: `look:${look}`, to: r.id, way: 'gate' })),
  ]);
  const shown = new Set([...wires.flatMap((w) => [w.from, w.to]), ...rows.map((r) => r.id)]);
  return { shown: [...shown], wires };
}
