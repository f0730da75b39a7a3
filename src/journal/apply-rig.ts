/**
 * What statements about the rig do to the state. Standing decides between statements of unequal weight: what was seen
 * here ("ours") is not displaced by what others told or what the other side lets expect; that is set aside and shown.
 */
import type { Need } from '../domain/rig/rig-types.ts';
import type { Entry } from './entry.ts';
import type { DataOf } from './kinds/kinds.ts';
import {
  RIG_ELEMENT_KINDS,
  RIG_LISTS,
  type RigElementKind,
  type RigPiece,
  rigElementFault,
  type StandingWord,
} from './kinds/shared-shapes.ts';
import { blockKey, guardKey, type Standing } from './state.ts';
import { saidOf, type Work } from './work.ts';

const MAPS = {
  part: 'rigParts',
  attachment: 'rigAttachments',
  operation: 'rigOperations',
  block: 'rigBlocks',
  guard: 'rigGuards',
  setup: 'rigSetups',
  fact: 'rigFacts',
  look: 'rigLooks',
} as const satisfies Record<RigElementKind, string>;

const WEIGHT: Readonly<Record<StandingWord, number>> = { ours: 2, told: 1, expected: 0 };

/** The key of an element: its id; for blocks and guards, which have none, what they are between. */
export function elementKey(what: RigElementKind, element: object): string {
  if (what === 'block') return blockKey(element as { part: string; by: string });
  if (what === 'guard') return guardKey(element as { notTogether: readonly string[] });
  return (element as { id: string }).id;
}

function elementMap(w: Work, what: RigElementKind): Map<string, object> {
  return w.map(MAPS[what]) as Map<string, object>;
}

function put(w: Work, what: RigElementKind, key: string, element: object, standing: Standing): void {
  const now = w.d.standing.get(key);
  if (now !== undefined && WEIGHT[standing.word] < WEIGHT[now.word]) {
    w.list('setAside').push({
      key,
      why: `${standing.word} does not displace what is ${now.word}`,
      said: standing.said,
    });
    return;
  }
  elementMap(w, what).set(key, element);
  w.map('standing').set(key, standing);
}

/** Two blocks between the same parts in one file are two blocks. */
function putAll(w: Work, rig: RigPiece, standing: Standing): void {
  for (const what of RIG_ELEMENT_KINDS) {
    const seen = new Map<string, number>();
    for (const element of rig[RIG_LISTS[what]] ?? []) {
      const key = elementKey(what, element);
      const times = (seen.get(key) ?? 0) + 1;
      seen.set(key, times);
      put(w, what, times === 1 ? key : `${key}#${times}`, element, standing);
    }
  }
  w.reopeners.clear();
}

function standingOf(e: Entry, word: StandingWord, d: { readonly source?: string; readonly reason?: string }): Standing {
  return {
    word,
    said: saidOf(e),
    ...(d.source !== undefined && { source: d.source }),
    ...(d.reason !== undefined && { reason: d.reason }),
  };
}

function rigStated(w: Work, e: Entry, d: DataOf<'rig-stated'>): void {
  w.reopeners.clear();
  const map = elementMap(w, d.what);
  if (d.aspect === undefined && d.value === null) {
    map.delete(d.id);
    if (d.what === 'block') w.map('stuckBlocks').delete(d.id);
    w.map('standing').delete(d.id);
    return;
  }
  const named = d.what === 'block' || d.what === 'guard' ? {} : { id: d.id };
  const before = map.get(d.id) ?? named;
  const next = d.aspect === undefined ? { ...(d.value as object), ...named } : withAspect(before, d.aspect, d.value);
  const fault = rigElementFault(d.what, next);
  if (fault !== null) {
    w.list('unreadable').push({ entry: e, why: fault });
    return;
  }
  map.set(d.id, next);
  w.map('standing').set(d.id, standingOf(e, d.standing ?? 'ours', d));
}

function withAspect(before: object, aspect: string, value: unknown): object {
  const { [aspect]: _old, ...rest } = before as Record<string, unknown>;
  return value === null ? rest : { ...rest, [aspect]: value };
}

function gainKey(what: string, id: string): string {
  return what === 'part' ? `remove:${id}` : id;
}

export const APPLY_RIG = {
  'rig-taken-in': (w: Work, e: Entry, d: DataOf<'rig-taken-in'>) => {
    if (d.rig.root !== undefined) w.d.rigRoot = d.rig.root;
    if (d.rig.name !== undefined) w.d.rigName = d.rig.name;
    if (d.rig.invented !== undefined) w.d.rigInvented = d.rig.invented;
    putAll(w, d.rig, standingOf(e, d.standing, d));
  },
  'rig-stated': rigStated,
  mirrored: (w: Work, e: Entry, d: DataOf<'mirrored'>) => {
    putAll(w, d.rig, standingOf(e, 'expected', { source: `mirrored from ${d.from} (${d.assembly})` }));
    for (const gain of d.gains ?? []) w.push('gainedNeeds', gainKey(gain.what, gain.id), gain.value as unknown as Need);
  },
  'seen-on-this-side': (w: Work, e: Entry, d: DataOf<'seen-on-this-side'>) => {
    const now = w.d.standing.get(d.subject);
    if (now === undefined) return;
    w.map('standing').set(d.subject, standingOf(e, 'ours', now.source === undefined ? {} : { source: now.source }));
  },
  stuck: (w: Work, e: Entry, d: DataOf<'stuck'>) => {
    w.push('stuck', d.action ?? d.part ?? 'job', { ...d, said: saidOf(e) });
    if (d.part === undefined || d.by === undefined) return;
    const block = { part: d.part, by: d.by, source: `stuck (${e.by})`, ...(d.harm !== undefined && { harm: d.harm }) };
    const key = blockKey(block);
    w.map('stuckBlocks').set(key, block);
    if (!w.d.standing.has(key)) w.map('standing').set(key, standingOf(e, 'ours', { reason: d.note ?? 'it was stuck' }));
  },
  'came-off-first': (w: Work, e: Entry, d: DataOf<'came-off-first'>) => {
    w.push('cameOffFirst', d.before, { action: d.action, said: saidOf(e) });
  },
} as const;
