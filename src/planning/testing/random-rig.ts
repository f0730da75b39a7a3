/**
 * Random rigs for property tests: assemblies, hanging parts, blocks, nested needs, setups with points, guards, holds,
 * hazards, facts, losses, disturbances and looks. Things have a hidden order and their needs mostly look at what comes
 * before, so that most goals can be reached; a fifth looks anywhere, so that circles and dead ends occur too.
 *
 * A rig is a plain function of (seed, shape): a failure is named by its seed, and fast-check shrinks the sizes. Not
 * chosen: arbitraries for every field, whose shrinking mostly gives rigs that `checkRig` refuses.
 */
import fc from 'fast-check';
import { checkRig } from '../../domain/rig/rig-check.ts';
import { RigMeaning } from '../../domain/rig/rig-meaning.ts';
import type {
  ActionId,
  Attachment,
  Block,
  Guard,
  Look,
  Need,
  Operation,
  Part,
  Rig,
  Setup,
  Situation,
} from '../../domain/rig/rig-types.ts';

export interface RigShape {
  /** Parts without the root. */
  readonly parts: number;
  /** Joints beside the one that each part has towards an earlier one. */
  readonly extraJoints: number;
  readonly operations: number;
  readonly blocks: number;
  readonly setups: number;
  readonly guards: number;
  readonly holds: number;
  readonly facts: number;
  readonly looks: number;
  /** Share of things with a need, 0 to 1. */
  readonly needs: number;
  /** Also losses and disturbed settings. */
  readonly losses: boolean;
  /** Also `refit` conditions and operations of one direction only. */
  readonly refit: boolean;
}

export const PLAIN_SHAPE: RigShape = {
  parts: 4,
  extraJoints: 2,
  operations: 1,
  blocks: 1,
  setups: 0,
  guards: 0,
  holds: 0,
  facts: 1,
  looks: 0,
  needs: 0.4,
  losses: true,
  refit: false,
};

/** mulberry32, from memory: any generator does that gives the same rig for the same seed. */
export class Dice {
  constructor(private state: number) {}
  next(): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }
  below(n: number): number {
    return Math.floor(this.next() * n);
  }
  chance(p: number): boolean {
    return this.next() < p;
  }
  pick<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }
  some<T>(list: readonly T[], n: number): T[] {
    const rest = [...list];
    const out: T[] = [];
    while (out.length < n && rest.length > 0) out.push(rest.splice(this.below(rest.length), 1)[0]!);
    return out;
  }
}

/** A rig that `checkRig` accepts. */
export function makeRandomRig(seed: number, shape: Partial<RigShape> = {}): Rig {
  const full = { ...PLAIN_SHAPE, ...shape };
  for (let attempt = 0; ; attempt++) {
    const rig = new Maker(new Dice(seed * 101 + attempt), attempt > 60 ? { ...full, needs: 0 } : full).rig();
    if (checkRig(rig).ok) return rig;
    if (attempt > 200) throw new Error(`internal: no random rig from seed ${seed}; report it`);
  }
}

/** Sizes up to those of `shape`; they shrink. */
export function randomRig(shape: Partial<RigShape> = {}): fc.Arbitrary<Rig> {
  const most = { ...PLAIN_SHAPE, ...shape };
  return fc
    .record({
      seed: fc.nat(1_000_000),
      parts: fc.integer({ min: 1, max: most.parts }),
      extraJoints: fc.nat(most.extraJoints),
      operations: fc.nat(most.operations),
      blocks: fc.nat(most.blocks),
      setups: fc.nat(most.setups),
      guards: fc.nat(most.guards),
      holds: fc.nat(most.holds),
      facts: fc.nat(most.facts),
      looks: fc.nat(most.looks),
    })
    .map(({ seed, ...sizes }) => makeRandomRig(seed, { ...most, ...sizes }));
}

/** Some of what can be done from the complete aircraft, in a legal order; `forced` actions may break the rules. */
export function makeRandomSituation(rig: Rig, seed: number, steps: number, forced = 0): Situation {
  const dice = new Dice(seed);
  const meaning = new RigMeaning(rig);
  const facts = rig.facts.filter(() => dice.chance(0.3)).map((f) => f.id);
  const done: ActionId[] = [];
  let world = meaning.start({ done: [], facts });
  for (let k = 0; k < steps; k++) {
    const open = everyAction(rig).filter((a) => !world.done.has(a));
    const legal = open.filter((a) => meaning.allowed(a, world));
    const from = k < forced ? open.filter((a) => !a.startsWith('set:')) : legal;
    if (from.length === 0) break;
    const action = dice.pick(from);
    done.push(action);
    world = meaning.after(world, action);
  }
  return { done, facts };
}

/** A goal that is mostly one part off or apart, sometimes several things. */
export function makeRandomGoal(rig: Rig, seed: number): Need {
  const dice = new Dice(seed);
  const parts = rig.parts.filter((p) => p.id !== rig.root).map((p) => p.id);
  const one = (): Need => (dice.chance(0.6) ? { apart: dice.pick(parts) } : { off: dice.pick(parts) });
  if (dice.chance(0.6)) return one();
  if (rig.attachments.length > 0 && dice.chance(0.3))
    return { all: [one(), { released: dice.pick(rig.attachments).id }] };
  if (rig.setups.length > 0 && dice.chance(0.5)) {
    const setup = dice.pick(rig.setups);
    return { all: [one(), { setup: setup.id, in: [dice.pick(setup.states)] }] };
  }
  return dice.chance(0.5) ? { all: [one(), one()] } : { any: [one(), one()] };
}

/** Every action that taking apart offers: releases, removals, operations but those of the refit, changes of state. */
export function everyAction(rig: Rig): readonly ActionId[] {
  return [
    ...rig.attachments.map((a) => a.id),
    ...rig.parts.filter((p) => p.id !== rig.root).map((p) => `remove:${p.id}`),
    ...rig.operations.filter((o) => o.only !== 'refit').map((o) => o.id),
    ...rig.setups.flatMap((s) => s.states.map((state) => `set:${s.id}=${state}`)),
  ];
}

class Maker {
  private readonly partIds: string[];
  private readonly jointIds: string[] = [];
  private readonly operationIds: string[];
  private readonly factIds: string[];
  private readonly setupStates: { readonly id: string; readonly states: readonly string[] }[];

  constructor(
    private readonly dice: Dice,
    private readonly shape: RigShape,
  ) {
    const ids = (letter: string, n: number): string[] => Array.from({ length: n }, (_, i) => `${letter}${i + 1}`);
    this.partIds = ids('p', shape.parts);
    this.operationIds = ids('o', shape.operations);
    this.factIds = ids('f', shape.facts);
    this.setupStates = ids('s', shape.setups).map((id) => ({
      id,
      states: dice.chance(0.6) ? ['a', 'b'] : ['a', 'b', 'c'],
    }));
  }

  rig(): Rig {
    const within = this.within();
    const attachments = this.attachments();
    const holders = new Set(this.dice.some(this.partIds, this.shape.holds));
    const parts = this.partIds.map((id, i): Part => {
      const needs = this.maybeNeed(i, 0.5);
      const hold = holders.has(id) ? this.need(this.partIds.length, 1) : undefined;
      const holder = within.get(id);
      return {
        id,
        minutes: this.dice.below(10),
        ...(holder !== undefined && { within: holder }),
        ...(needs && { needs }),
        ...(hold && { hold }),
      };
    });
    return {
      format: 'witnessmark-rig/1',
      root: 'r',
      parts,
      attachments,
      operations: this.operationIds.map((id) => this.operation(id)),
      blocks: this.blocks(within),
      guards: Array.from({ length: this.shape.guards }, () => this.guard()),
      setups: this.setupStates.map((s) => this.setup(s.id, s.states)),
      facts: this.factIds.map((id) => ({ id, ...(this.dice.chance(0.3) && { given: true }) })),
      looks: Array.from({ length: this.shape.looks }, (_, i) => this.look(`l${i + 1}`)),
    };
  }

  /** A later part may hold an earlier one: assemblies come off last in the hidden order. */
  private within(): Map<string, string> {
    const within = new Map<string, string>();
    this.partIds.forEach((id, i) => {
      if (i + 1 < this.partIds.length && this.dice.chance(0.35))
        within.set(id, this.partIds[i + 1 + this.dice.below(this.partIds.length - i - 1)]!);
    });
    return within;
  }

  private attachments(): Attachment[] {
    const ends: string[][] = [];
    this.partIds.forEach((id, i) => {
      const later = this.partIds.slice(i + 1);
      if (this.dice.chance(0.9))
        ends.push([id, later.length > 0 && this.dice.chance(0.6) ? this.dice.pick(later) : 'r']);
    });
    for (let k = 0; k < this.shape.extraJoints; k++)
      ends.push(this.dice.some([...this.partIds, 'r'], this.dice.chance(0.15) ? 3 : 2));
    return ends
      .filter((e) => e.length > 1)
      .map((joins, k): Attachment => {
        this.jointIds.push(`j${k + 1}`);
        const needs = this.maybeNeed(k, 0.8);
        const refit = this.shape.refit ? this.maybeNeed(k, 0.3) : undefined;
        const clearedBy = this.dice.chance(0.1) ? this.maybeNeed(k, 1) : undefined;
        return {
          id: `j${k + 1}`,
          joins,
          minutes: this.dice.below(12),
          ...(needs && { needs }),
          ...(refit && { refit }),
          ...(clearedBy && { hazards: [{ kind: 'stored-energy', clearedBy }] }),
          ...(this.shape.losses && this.dice.chance(0.15) && { loss: 'irreversible' as const }),
          ...(this.shape.losses &&
            this.dice.chance(0.2) && { disturbs: this.dice.some(['rig', 'trim'], 1 + this.dice.below(2)) }),
        };
      });
  }

  private operation(id: string): Operation {
    const needs = this.maybeNeed(this.partIds.length, 0.6);
    const only = this.shape.refit
      ? this.dice.pick([undefined, undefined, 'strip' as const, 'refit' as const])
      : undefined;
    return {
      id,
      minutes: this.dice.below(8),
      ...(this.dice.chance(0.6) && { on: this.dice.pick(this.partIds) }),
      ...(needs && { needs }),
      ...(only && { only }),
    };
  }

  private blocks(within: ReadonlyMap<string, string>): Block[] {
    const chain = (p: string): string[] => {
      const up = within.get(p);
      return up === undefined ? [p] : [p, ...chain(up)];
    };
    const out: Block[] = [];
    for (let k = 0; k < this.shape.blocks && this.partIds.length > 1; k++) {
      const [by, part] = this.dice.some(this.partIds, 2) as [string, string];
      if (chain(by).includes(part) || chain(part).includes(by)) continue;
      const unless = this.dice.chance(0.4) ? this.need(this.partIds.length, 1) : undefined;
      out.push({ part, by, harm: `bends ${by}`, ...(unless && { unless }) });
    }
    return out;
  }

  private guard(): Guard {
    const unless = this.dice.chance(0.6) ? this.need(this.partIds.length, 1) : undefined;
    return {
      notTogether: this.dice.some(this.partIds, 1 + this.dice.below(3)),
      harm: 'sags',
      ...(unless && { unless }),
    };
  }

  private setup(id: string, states: readonly string[]): Setup {
    const points: Record<string, { on: string; through?: readonly string[] }[]> = {};
    const changeNeeds: Record<string, Need> = {};
    for (const state of states) {
      if (this.dice.chance(0.5))
        points[state] = [
          {
            on: this.dice.chance(0.8) ? this.dice.pick(this.partIds) : 'r',
            ...(this.jointIds.length > 0 && this.dice.chance(0.4) && { through: [this.dice.pick(this.jointIds)] }),
          },
        ];
      if (this.dice.chance(0.25)) changeNeeds[state] = this.need(this.partIds.length, 1);
    }
    const pairs = states.flatMap((a) => states.filter((b) => b !== a).map((b) => `${a}>${b}`));
    const table = Object.fromEntries(pairs.filter(() => this.dice.chance(0.7)).map((k) => [k, this.dice.below(6)]));
    const minutes = this.dice.chance(0.3) ? table : this.dice.below(4);
    return { id, states, initial: this.dice.pick(states), minutes, points, changeNeeds };
  }

  private look(id: string): Look {
    const visible = this.maybeNeed(this.partIds.length, 1);
    return {
      id,
      ...(this.dice.chance(0.6) && { on: this.dice.pick(this.partIds) }),
      ...(visible && { visible }),
      ...(this.jointIds.length > 0 && this.dice.chance(0.2) && { whenFitted: [this.dice.pick(this.jointIds)] }),
    };
  }

  private maybeNeed(rank: number, times: number): Need | undefined {
    return this.dice.chance(this.shape.needs * times) ? this.need(rank, 2) : undefined;
  }

  /** `rank`: what lies before it in the hidden order. */
  private need(rank: number, depth: number): Need {
    const { dice } = this;
    if (depth > 0 && dice.chance(0.35)) {
      const parts = Array.from({ length: 2 + dice.below(2) }, () => this.need(rank, depth - 1));
      return dice.chance(0.35) ? { all: parts } : { any: parts };
    }
    const before = <T>(list: readonly T[]): readonly T[] =>
      dice.chance(0.2) || rank < 1 ? list : list.slice(0, Math.max(1, Math.min(rank, list.length)));
    const roll = dice.next();
    if (roll < 0.25 && this.setupStates.length > 0) {
      const setup = dice.pick(this.setupStates);
      return { setup: setup.id, in: dice.some(setup.states, dice.chance(0.8) ? 1 : 2) };
    }
    if (roll < 0.32 && this.factIds.length > 0) return { fact: dice.pick(this.factIds) };
    if (roll < 0.5 && this.operationIds.length > 0) return { done: dice.pick(this.operationIds) };
    if (roll < 0.65 && this.jointIds.length > 0) return { released: dice.pick(before(this.jointIds)) };
    if (roll < 0.68) return dice.chance(0.5) ? { all: [] } : { any: [] };
    return dice.chance(0.7) ? { off: dice.pick(before(this.partIds)) } : { apart: dice.pick(before(this.partIds)) };
  }
}
