/**
 * One refit, step by step, by the rules and nothing else: may this step be taken, and what is so after it. Orders are
 * laid with it, searched with it and checked with it, so no order leaves this folder that it has not walked.
 */
import type { ActionId } from '../../domain/rig/rig-types.ts';
import { fitsNow } from './fit-check.ts';
import { LookWatch } from './hides.ts';
import type { Moment } from './moment.ts';
import { type Change, changeId, changesTo, mayEnter } from './reach.ts';

export type Move =
  | { readonly kind: 'back'; readonly action: number }
  | { readonly kind: 'make'; readonly action: number }
  | { readonly kind: 'set'; readonly change: Change; readonly from: Int32Array };

export class Walk {
  readonly moves: Move[] = [];
  private left: number;
  /** Looks that must still be signed with their joints made. */
  private readonly waiting: Set<number>;

  private readonly watch: LookWatch;

  constructor(readonly moment: Moment) {
    this.watch = new LookWatch(moment);
    const { model, recorded, world } = moment;
    this.left = recorded.order.filter((a) => world.done[a] === 1 && recorded.stays[a] === 0).length;
    this.waiting = new Set(model.looks.flatMap((l, i) => (l.joints.length > 0 && moment.isOpen(l) ? [i] : [])));
    this.sign();
  }

  get isOver(): boolean {
    return this.left === 0 && this.waiting.size === 0;
  }

  get unsigned(): ReadonlySet<number> {
    return this.waiting;
  }

  /** Signs what can be signed; gives what it signed, so that a search can take it back. */
  private sign(): readonly number[] {
    const { model, world } = this.moment;
    const now = [...this.waiting].filter((l) => {
      const look = model.looks[l]!;
      return look.joints.every((j) => world.done[j] === 0) && world.holds(look.visible);
    });
    for (const l of now) this.waiting.delete(l);
    return now;
  }

  isForced(x: number): boolean {
    return this.moment.recorded.forced[x] === 1;
  }

  fits(x: number): boolean {
    return fitsNow(this.moment.world, x, this.isForced(x));
  }

  /** Fits, locks nothing out, and hides no look that waits for its joints. */
  mayTake(x: number): boolean {
    if (!this.fits(x) || this.moment.lockedOutBy(x).actions.length > 0) return false;
    return !this.watch.hides(x, this.waiting);
  }

  /** Puts x back if it may be put back now. */
  tryBack(x: number): boolean {
    if (this.waiting.size > 0) {
      if (!this.mayTake(x)) return false;
      this.apply({ kind: 'back', action: x });
      return true;
    }
    if (!this.fits(x) || !this.moment.takeFreely(x)) return false;
    this.moves.push({ kind: 'back', action: x });
    this.left--;
    return true;
  }

  apply(move: Move): readonly number[] {
    const { moment } = this;
    this.moves.push(move);
    switch (move.kind) {
      case 'back':
        moment.take(move.action);
        this.watch.taken(move.action);
        this.left--;
        break;
      case 'make':
        moment.make(move.action);
        this.watch.forget();
        break;
      case 'set': {
        const states = move.from.slice();
        states[move.change.setup] = move.change.state;
        moment.standAs(states);
        this.watch.forget();
        break;
      }
      default:
        return move satisfies never;
    }
    return this.sign();
  }

  undo(signed: readonly number[]): void {
    const { moment } = this;
    const move = this.moves.pop()!;
    this.watch.forget();
    for (const l of signed) this.waiting.add(l);
    switch (move.kind) {
      case 'back':
        moment.give(move.action);
        this.left++;
        break;
      case 'make':
        moment.make(move.action, false);
        break;
      case 'set':
        moment.standAs(move.from);
        break;
      default:
        move satisfies never;
    }
  }

  /** May the state be changed so: allowed as it stands, and nothing locked out by it. */
  mayChange(change: Change): boolean {
    return mayEnter(this.moment.world, change, true) && this.moment.lockedOutByChange(change).actions.length === 0;
  }

  /** Changes the state, by the fewest changes, until `suits` holds. */
  changeUntil(suits: () => boolean): boolean {
    const { moment } = this;
    const changes = changesTo(moment.world, suits);
    if (changes === null) return false;
    for (const change of changes) {
      if (!this.mayChange(change)) return false;
      this.apply({ kind: 'set', change, from: moment.world.states.slice() });
    }
    return true;
  }

  id(move: Move): ActionId {
    return move.kind === 'set' ? changeId(this.moment.model, move.change) : this.moment.model.ids[move.action]!;
  }

  steps(): readonly ActionId[] {
    return this.moves.map((m) => this.id(m));
  }
}

/**
 * Lays a sequence of actions out as a refit: changes of state where a step needs one, operations of the refit as late as
 * they can be made. Null where some step cannot be taken in this sequence.
 */
export function layOut(moment: Moment, sequence: readonly number[], makes: readonly number[]): Walk | null {
  const needed = makes.length === 0 ? [] : neededMakes(moment, sequence, makes);
  const walk = new Walk(moment.copy());
  for (const x of sequence) {
    for (const r of needed) if (isDue(walk, r, x, needed) && !makeNow(walk, r, needed)) return null;
    if (!walk.tryBack(x)) {
      const { world } = walk.moment;
      if (world.states.length === 0 || !walk.changeUntil(() => walk.fits(x)) || !walk.tryBack(x)) return null;
    }
    if (walk.unsigned.size > 0 && walk.moment.world.states.length > 0) seeBefore(walk);
  }
  return walk.isOver ? walk : null;
}

/** A look whose joints are made and that only a state hides is brought into view. */
function seeBefore(walk: Walk): void {
  const { model, world } = walk.moment;
  for (const l of walk.unsigned) {
    const look = model.looks[l]!;
    if (look.joints.every((j) => world.done[j] === 0)) walk.changeUntil(() => world.holds(look.visible));
  }
}

function makeNow(walk: Walk, r: number, needed: readonly number[]): boolean {
  const { world } = walk.moment;
  if (world.done[r] === 1) return true;
  if (!walk.fits(r)) {
    for (const first of needed) {
      if (first !== r && world.done[first] === 0 && walk.fits(first)) walk.apply({ kind: 'make', action: first });
    }
    if (!walk.fits(r) && !walk.changeUntil(() => walk.fits(r))) return false;
  }
  walk.apply({ kind: 'make', action: r });
  return true;
}

/** Must r be made before x goes back: because x needs it, or because x takes away what r needs. */
function isDue(walk: Walk, r: number, x: number, needed: readonly number[]): boolean {
  const { world } = walk.moment;
  if (world.done[r] === 1) return false;
  const rest = needed.filter((o) => o !== r && world.done[o] === 0);
  const with_ = <T>(made: readonly number[], ask: () => T): T => {
    for (const o of made) world.done[o] = 1;
    const answer = ask();
    for (const o of made) world.done[o] = 0;
    return answer;
  };
  if (with_([r, ...rest], () => walk.fits(x)) && !with_(rest, () => walk.fits(x))) return true;
  const canNow = with_(rest, () => walk.fits(r));
  world.done[x] = 0;
  const canThen = with_(rest, () => walk.fits(r));
  world.done[x] = 1;
  return canNow && !canThen;
}

/** Operations of the refit without which some step of the sequence does not fit, and what those need in turn. */
function neededMakes(moment: Moment, sequence: readonly number[], makes: readonly number[]): readonly number[] {
  const walk = new Walk(moment.copy());
  const { world, model } = walk.moment;
  const all = model.setups.map(({ setup }) => new Uint8Array(setup.states.length).fill(1));
  world.standAsAnyOf(all);
  const meets = (list: readonly number[], x: number): boolean => {
    for (const r of list) world.done[r] = 1;
    const fits = world.meets(x, 2) && world.brokenHolds(x).length === 0;
    for (const r of list) world.done[r] = 0;
    return fits;
  };
  const needed = new Set<number>();
  const want = (x: number): void => {
    let list: readonly number[] = makes.filter((r) => r !== x);
    if (meets([...needed], x) || !meets(list, x)) return;
    for (const r of makes) {
      const less = list.filter((o) => o !== r);
      if (!needed.has(r) && meets(less, x)) list = less;
    }
    for (const r of list) needed.add(r);
  };
  for (const x of sequence) {
    world.done[x] = 0;
    if (!walk.isForced(x)) want(x);
  }
  for (const x of sequence) world.done[x] = 1;
  for (const r of needed) {
    const others = [...needed].filter((o) => o !== r);
    if (!meets(others, r)) want(r);
  }
  return makes.filter((r) => needed.has(r));
}
