/**
 * The bench on which the fold works: a state being built by private mutation. A map or list is copied the first time
 * this fold touches it and is then changed in place; the state it came from stays as it was. Copying 5,000 entries for each
 * of 100,000 would be minutes; persistent maps would be slower to read everywhere else for one writer's sake.
 */
import type { Entry } from './entry.ts';
import { makeState } from './make-state.ts';
import type { Said, State, StateData } from './state.ts';

type Mutable<T> = { -readonly [K in keyof T]: T[K] };
type MapKey = {
  [K in keyof StateData]: StateData[K] extends ReadonlyMap<string, unknown> ? K : never;
}[keyof StateData];
type ListKey = { [K in keyof StateData]: StateData[K] extends readonly unknown[] ? K : never }[keyof StateData];
type ValueOf<K extends MapKey> = StateData[K] extends ReadonlyMap<string, infer V> ? V : never;
type ItemOf<K extends ListKey> = StateData[K] extends readonly (infer V)[] ? V : never;
type GroupKey = { [K in MapKey]: ValueOf<K> extends readonly unknown[] ? K : never }[MapKey];
type MemberOf<K extends GroupKey> = ValueOf<K> extends readonly (infer V)[] ? V : never;

export class Work {
  readonly d: Mutable<StateData>;
  /** Maps and lists made by this fold, which it may change in place. */
  private readonly mine = new Set<unknown>();
  /** What re-opens a signed look, by look; made when first asked. */
  readonly reopeners = new Map<string, ReadonlySet<string>>();

  constructor(private readonly from: State) {
    const { rig: _r, situation: _s, openStops: _o, ...data } = describeData(from);
    this.d = data;
  }

  map<K extends MapKey>(key: K): Map<string, ValueOf<K>> {
    const now = this.d[key] as ReadonlyMap<string, ValueOf<K>>;
    if (this.mine.has(now)) return now as Map<string, ValueOf<K>>;
    const own = new Map(now);
    this.mine.add(own);
    this.d[key] = own as unknown as Mutable<StateData>[K];
    return own;
  }

  list<K extends ListKey>(key: K): ItemOf<K>[] {
    const now = this.d[key] as readonly ItemOf<K>[];
    if (this.mine.has(now)) return now as ItemOf<K>[];
    const own = [...now];
    this.mine.add(own);
    this.d[key] = own as unknown as Mutable<StateData>[K];
    return own;
  }

  /** Adds to the list kept under `id` in a map of lists. */
  push<K extends GroupKey>(key: K, id: string, item: MemberOf<K>): void {
    const map = this.map(key) as unknown as Map<string, MemberOf<K>[]>;
    const now = map.get(id);
    if (now !== undefined && this.mine.has(now)) {
      now.push(item);
      return;
    }
    const own = now === undefined ? [item] : [...now, item];
    this.mine.add(own);
    map.set(id, own);
  }

  finish(): State {
    return makeState(this.d, this.from);
  }
}

/** The data of a state without running its getters. */
function describeData(state: State): State {
  const plain: Record<string, unknown> = {};
  for (const [key, d] of Object.entries(Object.getOwnPropertyDescriptors(state)))
    if ('value' in d) plain[key] = d.value;
  return plain as unknown as State;
}

export function saidOf(e: Entry): Said {
  const said = { entry: e.id, seq: e.seq, at: e.at, by: e.by, device: e.device };
  return e.pending === true ? { ...said, pending: true } : said;
}
