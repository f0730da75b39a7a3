/**
 * What the next person who meets the type may have: joints, blocks, hazards, operations and their reasons, each with
 * where it comes from. People's names, findings, photographs, notes and this aircraft's facts stay here. The other way
 * round, what others say is taken in as "told" until it is seen on this aircraft.
 */
import { problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import { checkRig } from '../domain/rig/rig-check.ts';
import type { Rig } from '../domain/rig/rig-types.ts';
import { blockKey, guardKey, type State } from '../journal/state.ts';

/** Where a statement comes from, without naming a person. */
function sourceOf(state: State, key: string, known: string | undefined): string {
  const standing = state.standing.get(key);
  const what = state.job?.registration ?? 'this aircraft';
  if (known !== undefined) return known;
  if (standing?.word === 'told') return `told by others${standing.source ? `: ${standing.source}` : ''}`;
  if (standing?.word === 'expected') return 'expected from the other side, not seen';
  return `recorded on ${what}`;
}

/** The knowledge of the type in this job, as a rig that can be read without it. */
export function typeKnowledge(state: State): Result<Rig> {
  const rig = state.rig;
  const from = (key: string, known?: string) => ({ source: sourceOf(state, key, known) });
  const without = <T extends object, K extends keyof T>(thing: T, ...keys: K[]): Omit<T, K> => {
    const copy = { ...thing };
    for (const key of keys) delete copy[key];
    return copy;
  };
  return checkRig({
    ...rig,
    parts: rig.parts.map((p) => ({ ...without(p, 'note'), ...from(p.id, p.source) })),
    attachments: rig.attachments.map((a) => ({
      ...without(a, 'note', 'asFound', 'asDecided'),
      ...from(a.id, a.source),
    })),
    operations: rig.operations.map((o) => ({ ...without(o, 'note'), ...from(o.id, o.source) })),
    blocks: rig.blocks.map((b) => ({ ...b, ...from(blockKey(b), b.source) })),
    guards: rig.guards.map((g) => ({ ...g, ...from(guardKey(g), g.source) })),
    setups: rig.setups.map((s) => ({ ...without(s, 'note'), ...from(s.id, s.source) })),
    facts: rig.facts.map((f) => ({ ...without(f, 'note', 'given'), ...from(f.id, f.source) })),
    looks: rig.looks.map((l) => ({ ...without(l, 'note'), ...from(l.id, l.source) })),
  });
}

/** What others say of the type, checked against what is known here before it is recorded as told. */
export function takeInKnowledge(
  state: State,
  told: Rig,
  source: string,
): Result<{ readonly kind: 'rig-taken-in'; readonly data: object }> {
  if (state.rig.parts.length > 0 && told.root !== state.rigRoot) {
    return failed(
      problem(
        'OTHER_ROOT',
        `the file hangs on "${told.root}", this job on "${state.rigRoot}"`,
        'Rename the root in the file, so that both speak of the same thing.',
        'root',
      ),
    );
  }
  return ok({ kind: 'rig-taken-in', data: { rig: told, standing: 'told', source } });
}
