/**
 * From the fold's maps to a `State`: the rig and the situation are put together on first use and kept. When a later state
 * shares the maps they were made from, it shares them too (same object), so a planner's index survives a note or a photograph.
 */
import type {
  ActionId,
  Attachment,
  Block,
  Look,
  Need,
  Operation,
  Part,
  Rig,
  Situation,
} from '../domain/rig/rig-types.ts';
import { RIG_FORMAT } from '../domain/rig/rig-types.ts';
import { NO_CUSTODY } from './custody-state.ts';
import { EMPTY_HEAD } from './entry.ts';
import { type State, type StateData, type Stop, signatureNow } from './state.ts';

const RIG_FIELDS = [
  'rigRoot',
  'rigName',
  'rigInvented',
  'rigParts',
  'rigAttachments',
  'rigOperations',
  'rigBlocks',
  'rigGuards',
  'rigSetups',
  'rigFacts',
  'rigLooks',
  'stuckBlocks',
  'cameOffFirst',
  'gainedNeeds',
  'factsWithdrawn',
] as const satisfies readonly (keyof StateData)[];
const SITUATION_FIELDS = [
  'done',
  'setupStates',
  'rigSetups',
  'settled',
  'signatures',
  'made',
] as const satisfies readonly (keyof StateData)[];

interface Memo {
  rig?: Rig;
  situation?: Situation;
  openStops?: readonly Stop[];
}

const memos = new WeakMap<State, Memo>();

export function makeState(data: StateData, before?: State): State {
  const memo: Memo = {};
  const old = before === undefined ? undefined : memos.get(before);
  if (before !== undefined && old !== undefined) {
    if (old.rig !== undefined && RIG_FIELDS.every((f) => data[f] === before[f])) memo.rig = old.rig;
    if (old.situation !== undefined && SITUATION_FIELDS.every((f) => data[f] === before[f]))
      memo.situation = old.situation;
    if (old.openStops !== undefined && data.stops === before.stops) memo.openStops = old.openStops;
  }
  const state: State = {
    ...data,
    get rig() {
      return (memo.rig ??= rigOf(data));
    },
    get situation() {
      return (memo.situation ??= situationOf(data));
    },
    get openStops() {
      return (memo.openStops ??= [...data.stops.values()].filter((s) => s.cleared === undefined));
    },
  };
  memos.set(state, memo);
  return state;
}

function situationOf(d: StateData): Situation {
  const setups: Record<string, string> = {};
  for (const [id, state] of d.setupStates) if (d.rigSetups.get(id)?.initial !== state) setups[id] = state;
  return {
    done: [...d.done.values()].map((row) => row.action),
    setups,
    facts: [...d.settled.keys()],
    signed: [...d.signatures.keys()].filter((look) => signatureNow(d, look) !== null),
    made: [...d.made.keys()],
  };
}

function rigOf(d: StateData): Rig {
  const gained = gainedNeeds(d);
  const withNeeds = <T extends Part | Attachment | Operation>(key: string, element: T): T => {
    const more = gained.get(key);
    return more === undefined ? element : { ...element, needs: bothNeeds(element.needs, more) };
  };
  return {
    format: RIG_FORMAT,
    ...(d.rigName !== null && { name: d.rigName }),
    ...(d.rigInvented && { invented: true }),
    root: d.rigRoot,
    parts: [...d.rigParts.values()].map((p) => withNeeds(`remove:${p.id}`, p)),
    attachments: [...d.rigAttachments.values()].map((a) => withNeeds(a.id, a)),
    operations: [...d.rigOperations.values()].map((o) => withNeeds(o.id, o)),
    blocks: [...d.rigBlocks.values(), ...stuckBlocks(d)],
    guards: [...d.rigGuards.values()],
    setups: [...d.rigSetups.values()],
    facts: [...d.rigFacts.values()].map((f) =>
      f.given === true && d.factsWithdrawn.has(f.id) ? { ...f, given: false } : f,
    ),
    looks: [...d.rigLooks.values()].map((l): Look => {
      const more = gained.get(l.id);
      return more === undefined ? l : { ...l, visible: bothNeeds(l.visible, more) };
    }),
  };
}

function bothNeeds(need: Need | undefined, more: readonly Need[]): Need {
  if (need === undefined) return more.length === 1 && more[0] !== undefined ? more[0] : { all: more };
  return { all: [need, ...more] };
}

function gainedNeeds(d: StateData): ReadonlyMap<string, readonly Need[]> {
  const gained = new Map<string, Need[]>();
  const add = (key: string, need: Need | null): void => {
    if (need === null) return;
    const list = gained.get(key) ?? gained.set(key, []).get(key);
    if (!list?.some((n) => JSON.stringify(n) === JSON.stringify(need))) list?.push(need);
  };
  for (const [key, needs] of d.gainedNeeds) for (const n of needs) add(key, n);
  for (const [before, rows] of d.cameOffFirst) for (const row of rows) add(before, needOfAction(d, row.action));
  return gained;
}

/** What must hold once the action was done; null for an action the rig does not know. */
export function needOfAction(d: StateData, action: ActionId): Need | null {
  if (action.startsWith('remove:')) return d.rigParts.has(action.slice(7)) ? { off: action.slice(7) } : null;
  if (action.startsWith('set:')) {
    const at = action.indexOf('=');
    return d.rigSetups.has(action.slice(4, at)) ? { setup: action.slice(4, at), in: [action.slice(at + 1)] } : null;
  }
  if (d.rigAttachments.has(action)) return { released: action };
  return d.rigOperations.has(action) ? { done: action } : null;
}

/** Blocks from "stuck" that mean something: both known, neither inside the other, not by or of the root. */
function stuckBlocks(d: StateData): readonly Block[] {
  return [...d.stuckBlocks.entries()]
    .filter(([key, b]) => !d.rigBlocks.has(key) && blockMakesSense(d, b))
    .map(([, b]) => b);
}

export function blockMakesSense(d: StateData, b: Block): boolean {
  if (!d.rigParts.has(b.part) || !d.rigParts.has(b.by) || b.part === d.rigRoot || b.by === d.rigRoot) return false;
  return !isWithin(d, b.part, b.by) && !isWithin(d, b.by, b.part);
}

export function isWithin(d: StateData, part: string, assembly: string): boolean {
  const seen = new Set<string>();
  for (let at: string | undefined = part; at !== undefined && !seen.has(at); at = d.rigParts.get(at)?.within) {
    if (at === assembly) return true;
    seen.add(at);
  }
  return false;
}

export const EMPTY_STATE: State = makeState({
  head: EMPTY_HEAD,
  log: [],
  withdrawn: new Map(),
  unknown: [],
  newer: [],
  unreadable: [],
  job: null,
  marginPercent: 2,
  people: new Map(),
  devices: new Map(),
  lines: new Map(),
  positions: new Map(),
  pieces: new Map(),
  lots: new Map(),
  rigRoot: 'airframe',
  rigName: null,
  rigInvented: false,
  rigParts: new Map(),
  rigAttachments: new Map(),
  rigOperations: new Map(),
  rigBlocks: new Map(),
  rigGuards: new Map(),
  rigSetups: new Map(),
  rigFacts: new Map(),
  rigLooks: new Map(),
  stuckBlocks: new Map(),
  cameOffFirst: new Map(),
  gainedNeeds: new Map(),
  standing: new Map(),
  setAside: [],
  steps: [],
  done: new Map(),
  setupStates: new Map(),
  settled: new Map(),
  factsWithdrawn: new Map(),
  made: new Map(),
  refits: new Map(),
  signatures: new Map(),
  stops: new Map(),
  stuck: new Map(),
  nothingHere: new Map(),
  damages: [],
  photos: new Map(),
  photosByHash: new Map(),
  facts: new Map(),
  aspects: new Map(),
  notes: new Map(),
  contradictionsSettled: new Map(),
  losses: [],
  ...NO_CUSTODY,
});
