/** A state from a few entries, admitted as facts are; for tests of what the screens make of it. */
import type { Entry } from '../../journal/entry.ts';
import { fold } from '../../journal/fold.ts';
import { type DataOf, fullKind, type KindName } from '../../journal/kinds/kinds.ts';
import type { State } from '../../journal/state.ts';

export type Said = { [K in KindName]: readonly [K, DataOf<K>] }[KindName];

export function recorded(...said: readonly Said[]): State {
  const entries = said.map(([kind, data], i) => {
    const at = `2026-01-05T08:${String(i).padStart(2, '0')}:00+00:00`;
    const id = `01KE0000000000000000000${String(i).padStart(3, '0')}`;
    const head = { id, at, by: 'nadia', device: 'test', kind: fullKind(kind), data };
    return { ...head, seq: i + 1, recordedAt: at, digest: '', hash: String(i) } as unknown as Entry;
  });
  return fold(entries);
}
