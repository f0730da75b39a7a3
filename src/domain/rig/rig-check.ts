/**
 * From unknown JSON to a `Rig` one can plan with, or one Problem with its place. Checks in the order in which a person
 * would mend them: ids, what they refer to, assemblies, joints, blocks, setups, hazards, and needs that wait for
 * themselves. Mutual waiting between two things is not refused: real rigs have it, and `why-not` explains it.
 */
import { type Problem, problem } from '../problem.ts';
import { failed, ok, type Result } from '../result.ts';
import { changeMinutes, parseRemove, parseSet, RigMeaning, type World } from './rig-meaning.ts';
import { RIG_PROBLEMS, type RigProblemCode } from './rig-problems.ts';
import { readNeed, readRigShape } from './rig-read.ts';
import { type ActionId, GATED_HAZARDS, type Hazard, type Need, type Rig, type Situation } from './rig-types.ts';

class Refused extends Error {
  constructor(readonly problem: Problem) {
    super(problem.message);
  }
}

function refuse(code: RigProblemCode, message: string, where: string): never {
  throw new Refused(problem(code, message, RIG_PROBLEMS[code].remedy, where));
}

function catching<T>(run: () => T): Result<T> {
  try {
    return ok(run());
  } catch (e) {
    if (e instanceof Refused) return failed(e.problem);
    throw e;
  }
}

export function readRig(value: unknown): Result<Rig> {
  const shape = readRigShape(value);
  return shape.ok ? checkRig(shape.value) : shape;
}

/** Checks a rig of the right shape, as the journal builds it. */
export function checkRig(rig: Rig): Result<Rig> {
  return catching(() => {
    const names = new RigNames(rig);
    checkParts(rig, names);
    checkAttachments(rig, names);
    checkOthers(rig, names);
    checkSetups(rig, names);
    checkOwnDoing(rig);
    return rig;
  });
}

/** A goal, or any need written by hand, against a rig. */
export function readGoal(rig: Rig, value: unknown, where = 'goal'): Result<Need> {
  const need = readNeed(value, where);
  if (!need.ok) return need;
  return catching(() => {
    new RigNames(rig).need(need.value, where);
    return need.value;
  });
}

/** `__proto__` would be lost as a key of a table. */
function isUsable(id: string): boolean {
  return id !== '' && !/[:=]/.test(id) && id !== '__proto__';
}

type Sort = 'part' | 'attachment' | 'operation' | 'setup' | 'fact' | 'look';

/** The one name space, and the check of what a name refers to. */
class RigNames {
  private readonly sorts = new Map<string, Sort>();
  private readonly states: ReadonlyMap<string, ReadonlySet<string>>;

  constructor(rig: Rig) {
    this.declare(rig.parts, 'part', 'parts');
    if (!this.sorts.has(rig.root)) this.sorts.set(rig.root, 'part');
    this.declare(rig.attachments, 'attachment', 'attachments');
    this.declare(rig.operations, 'operation', 'operations');
    this.declare(rig.setups, 'setup', 'setups');
    this.declare(rig.facts, 'fact', 'facts');
    this.declare(rig.looks, 'look', 'looks');
    this.states = new Map(rig.setups.map((s) => [s.id, new Set(s.states)]));
  }

  private declare(things: readonly { readonly id: string }[], sort: Sort, list: string): void {
    things.forEach((thing, i) => {
      const where = `${list}[${i}].id`;
      if (thing.id === '' || /[:=]/.test(thing.id))
        refuse('RIG_ID', `the id "${thing.id}" is empty or holds ":" or "="`, where);
      const other = this.sorts.get(thing.id);
      if (other) refuse('RIG_ID', `the id "${thing.id}" is already the id of a ${other}`, where);
      this.sorts.set(thing.id, sort);
    });
  }

  is(id: string, sort: Sort): boolean {
    return this.sorts.get(id) === sort;
  }

  want(id: string, sort: Sort, where: string): void {
    if (this.is(id, sort)) return;
    const other = this.sorts.get(id);
    refuse('RIG_UNKNOWN_ID', other ? `"${id}" is a ${other}, not a ${sort}` : `no ${sort} has the id "${id}"`, where);
  }

  state(setup: string, state: string, where: string): void {
    if (!this.states.get(setup)?.has(state))
      refuse('RIG_UNKNOWN_ID', `the setup "${setup}" has no state "${state}"`, where);
  }

  need(need: Need | undefined, where: string): void {
    if (need === undefined) return;
    if ('all' in need) need.all.forEach((n, i) => this.need(n, `${where}.all[${i}]`));
    else if ('any' in need) need.any.forEach((n, i) => this.need(n, `${where}.any[${i}]`));
    else if ('released' in need) this.want(need.released, 'attachment', `${where}.released`);
    else if ('off' in need) this.want(need.off, 'part', `${where}.off`);
    else if ('apart' in need) this.want(need.apart, 'part', `${where}.apart`);
    else if ('done' in need) this.want(need.done, 'operation', `${where}.done`);
    else if ('fact' in need) this.want(need.fact, 'fact', `${where}.fact`);
    else {
      this.want(need.setup, 'setup', `${where}.setup`);
      need.in.forEach((s, i) => this.state(need.setup, s, `${where}.in[${i}]`));
    }
  }
}

function checkParts(rig: Rig, names: RigNames): void {
  const within = new Map(rig.parts.map((p) => [p.id, p.within]));
  rig.parts.forEach((p, i) => {
    const where = `parts[${i}]`;
    if (p.within !== undefined) {
      names.want(p.within, 'part', `${where}.within`);
      if (p.id === rig.root) refuse('RIG_WITHIN', 'the root is within nothing', `${where}.within`);
      if (p.within === rig.root) refuse('RIG_WITHIN', `"${p.id}" names the root in within`, `${where}.within`);
      const seen = new Set([p.id]);
      for (let at = p.within as string | undefined; at !== undefined; at = within.get(at)) {
        if (seen.has(at)) refuse('RIG_WITHIN', `within loops through "${at}"`, `${where}.within`);
        seen.add(at);
      }
    }
    names.need(p.needs, `${where}.needs`);
    names.need(p.hold, `${where}.hold`);
  });
}

function checkHazards(hazards: readonly Hazard[] | undefined, names: RigNames, where: string): void {
  hazards?.forEach((h, i) => {
    names.need(h.clearedBy, `${where}.hazards[${i}].clearedBy`);
    if (h.clearedBy === undefined && (GATED_HAZARDS as readonly string[]).includes(h.kind)) {
      refuse('RIG_HAZARD', `${h.kind} without clearedBy`, `${where}.hazards[${i}]`);
    }
  });
}

function checkAttachments(rig: Rig, names: RigNames): void {
  rig.attachments.forEach((a, i) => {
    const where = `attachments[${i}]`;
    a.joins.forEach((end, k) => {
      names.want(end, 'part', `${where}.joins[${k}]`);
    });
    if (new Set(a.joins).size < 2)
      refuse('RIG_JOINT_ENDS', `"${a.id}" has fewer than two different ends`, `${where}.joins`);
    names.need(a.needs, `${where}.needs`);
    names.need(a.refit, `${where}.refit`);
    checkHazards(a.hazards, names, where);
  });
}

function checkOthers(rig: Rig, names: RigNames): void {
  rig.operations.forEach((o, i) => {
    const where = `operations[${i}]`;
    if (o.on !== undefined) names.want(o.on, 'part', `${where}.on`);
    names.need(o.needs, `${where}.needs`);
    checkHazards(o.hazards, names, where);
  });
  const structure = new RigMeaning(rig).structure;
  rig.blocks.forEach((b, i) => {
    const where = `blocks[${i}]`;
    names.want(b.part, 'part', `${where}.part`);
    names.want(b.by, 'part', `${where}.by`);
    names.need(b.unless, `${where}.unless`);
    if (b.unless === undefined && (b.part === rig.root || b.by === rig.root)) {
      refuse('RIG_BLOCK', 'a block by or of the root says nothing of what clears it', where);
    }
    if (structure.isInside(b.part, b.by) || structure.isInside(b.by, b.part)) {
      refuse('RIG_BLOCK', `"${b.part}" and "${b.by}" sit one inside the other`, where);
    }
  });
  rig.guards.forEach((g, i) => {
    g.notTogether.forEach((p, k) => {
      names.want(p, 'part', `guards[${i}].notTogether[${k}]`);
    });
    if (g.notTogether.length === 0) refuse('RIG_SHAPE', 'a guard that names no part', `guards[${i}].notTogether`);
    names.need(g.unless, `guards[${i}].unless`);
  });
  rig.looks.forEach((l, i) => {
    if (l.on !== undefined) names.want(l.on, 'part', `looks[${i}].on`);
    names.need(l.visible, `looks[${i}].visible`);
    l.whenFitted?.forEach((j, k) => {
      names.want(j, 'attachment', `looks[${i}].whenFitted[${k}]`);
    });
  });
}

function checkSetups(rig: Rig, names: RigNames): void {
  rig.setups.forEach((s, i) => {
    const where = `setups[${i}]`;
    if (new Set(s.states).size !== s.states.length) refuse('RIG_SHAPE', 'a state stands twice', `${where}.states`);
    s.states.forEach((state, k) => {
      if (!isUsable(state) || state.includes('>'))
        refuse('RIG_ID', `the state "${state}" is empty or holds ">" or "="`, `${where}.states[${k}]`);
    });
    names.state(s.id, s.initial, `${where}.initial`);
    if (typeof s.minutes === 'object') {
      for (const key of Object.keys(s.minutes)) {
        const [from, to, more] = key.split('>');
        names.state(s.id, from ?? '', `${where}.minutes.${key}`);
        names.state(s.id, to ?? '', `${where}.minutes.${key}`);
        if (more !== undefined) refuse('RIG_SHAPE', `"${key}" names more than two states`, `${where}.minutes`);
      }
    }
    for (const [state, points] of Object.entries(s.points ?? {})) {
      names.state(s.id, state, `${where}.points.${state}`);
      points.forEach((pt, k) => {
        names.want(pt.on, 'part', `${where}.points.${state}[${k}].on`);
        pt.through?.forEach((j, m) => {
          names.want(j, 'attachment', `${where}.points.${state}[${k}].through[${m}]`);
        });
      });
    }
    for (const state of Object.keys(s.loads ?? {})) names.state(s.id, state, `${where}.loads.${state}`);
    for (const [state, need] of Object.entries(s.changeNeeds ?? {})) {
      names.state(s.id, state, `${where}.changeNeeds.${state}`);
      names.need(need, `${where}.changeNeeds.${state}`);
    }
  });
}

/**
 * A need that holds once everything is done, but not while its own action (and the removals that its joint forbids by
 * itself) is still to do, waits for itself. Setups count as met, facts as given.
 */
function checkOwnDoing(rig: Rig): void {
  const meaning = new RigMeaning(rig);
  const s = meaning.structure;
  const every = [
    ...rig.attachments.map((a) => a.id),
    ...rig.operations.map((o) => o.id),
    ...rig.parts.filter((p) => p.id !== rig.root).map((p) => `remove:${p.id}`),
  ];
  const all: World = { done: new Set(every), states: {}, facts: new Set(rig.facts.map((f) => f.id)) };
  const check = (need: Need | undefined, own: ActionId, places: readonly string[], where: string): void => {
    if (need === undefined) return;
    const met = withSetupsMet(need);
    const joins = s.attachments.get(own)?.joins;
    const undone = new Set([own]);
    for (const p of joins ? joins.flatMap((e) => s.chain(e)) : []) {
      if (joins?.some((e) => !s.isInside(e, p))) undone.add(`remove:${p}`);
    }
    const rest = new AllBut(all.done, undone);
    if (meaning.holds(met, places, all) && !meaning.holds(met, places, { ...all, done: rest })) {
      refuse('RIG_OWN_DOING', `the need of "${own}" holds only after "${own}" itself`, where);
    }
  };
  rig.parts.forEach((p, i) => {
    if (p.id !== rig.root) check(p.needs, `remove:${p.id}`, [p.id], `parts[${i}].needs`);
  });
  rig.attachments.forEach((a, i) => {
    check(a.needs, a.id, a.joins, `attachments[${i}].needs`);
    a.hazards?.forEach((h, k) => {
      check(h.clearedBy, a.id, a.joins, `attachments[${i}].hazards[${k}].clearedBy`);
    });
  });
  rig.operations.forEach((o, i) => {
    check(o.needs, o.id, [o.on ?? rig.root], `operations[${i}].needs`);
    o.hazards?.forEach((h, k) => {
      check(h.clearedBy, o.id, [o.on ?? rig.root], `operations[${i}].hazards[${k}].clearedBy`);
    });
  });
}

/** `all` without `but`, asked but never copied: a rig of 5,000 parts asks this for each of them. */
class AllBut extends Set<ActionId> {
  constructor(
    private readonly all: ReadonlySet<ActionId>,
    private readonly but: ReadonlySet<ActionId>,
  ) {
    super();
  }

  override has(action: ActionId): boolean {
    return !this.but.has(action) && this.all.has(action);
  }
}

function withSetupsMet(need: Need): Need {
  if ('all' in need) return { all: need.all.map(withSetupsMet) };
  if ('any' in need) return { any: need.any.map(withSetupsMet) };
  return 'setup' in need && need.in.length > 0 ? { all: [] } : need;
}

/** What is said to be so, against the rig: unknown actions, states, facts, looks. */
export function checkSituation(rig: Rig, situation: Situation): Result<Situation> {
  return catching(() => {
    const names = new RigNames(rig);
    const meaning = new RigMeaning(rig);
    situation.done.forEach((a, i) => {
      checkAction(rig, names, meaning, a, `done[${i}]`);
    });
    for (const [setup, state] of Object.entries(situation.setups ?? {})) {
      names.want(setup, 'setup', `setups.${setup}`);
      names.state(setup, state, `setups.${setup}`);
    }
    situation.facts?.forEach((f) => {
      names.want(f, 'fact', 'facts');
    });
    situation.signed?.forEach((l) => {
      names.want(l, 'look', 'signed');
    });
    situation.made?.forEach((o) => {
      names.want(o, 'operation', 'made');
      if (rig.operations.find((x) => x.id === o)?.only !== 'refit')
        refuse('RIG_ACTION', `"${o}" is not made only in the refit`, 'made');
    });
    return situation;
  });
}

/** That an action is one of this rig. */
export function readAction(rig: Rig, action: string, where = 'action'): Result<ActionId> {
  return catching(() => {
    checkAction(rig, new RigNames(rig), new RigMeaning(rig), action, where);
    return action;
  });
}

function checkAction(rig: Rig, names: RigNames, meaning: RigMeaning, action: string, where: string): void {
  const removed = parseRemove(action);
  const set = parseSet(action);
  if (removed !== null) {
    names.want(removed, 'part', where);
    if (removed === rig.root) refuse('RIG_ACTION', 'the root is never removed', where);
  } else if (set) {
    names.want(set.setup, 'setup', where);
    names.state(set.setup, set.state, where);
    const setup = rig.setups.find((s) => s.id === set.setup);
    const reached = setup?.states.some((from) => changeMinutes(setup, from, set.state) !== null);
    if (!reached && setup?.initial !== set.state) refuse('RIG_ACTION', `no change leads to "${set.state}"`, where);
  } else if (!meaning.structure.attachments.has(action) && !names.is(action, 'operation')) {
    refuse('RIG_ACTION', `"${action}" is no action of this rig`, where);
  }
}
