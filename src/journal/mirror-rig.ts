/**
 * The other side of an assembly, as expected. Copies parts, joints, operations, blocks, guards and looks of one hand to the
 * other; flips hands, thread hands where marked, and the side of places. A joint that is its own image is not copied;
 * centre things whose needs name this side gain the same need of the other. As-found details are never copied, and neither is
 * a person's word: a fact that clears a hazard gets an image of its own, not given. Mirroring twice equals mirroring once.
 *
 * Works on the rig as stated (not on what earlier mirrorings gained), so that a second run finds the same.
 * Ids: a hand in the id is swapped (`leg-r` -> `leg-l`), otherwise `-l` or `-r` is added.
 */
import type { Attachment, Figure, Hand, Hazard, Look, Need, Operation, Part, Place } from '../domain/rig/rig-types.ts';
import type { RigPiece } from './kinds/shared-shapes.ts';
import { isWithin } from './make-state.ts';
import type { StateData } from './state.ts';

export interface Gain {
  readonly what: 'part' | 'attachment' | 'operation' | 'look';
  readonly id: string;
  readonly value: Need;
}

export interface MirrorImage {
  readonly rig: RigPiece;
  readonly gains: readonly Gain[];
  /** Joints not copied because an end on this side has no image. */
  readonly leftOut: readonly string[];
}

type Side = 'L' | 'R';

const SWAPS: Readonly<Record<string, string>> = {
  l: 'r',
  r: 'l',
  left: 'right',
  right: 'left',
  port: 'starboard',
  starboard: 'port',
};
const HAND_IN_ID = /(^|[-_.])(left|right|port|starboard|l|r)(?=$|[-_.])/gi;
const HAND_IN_NAME = /\b(left|right|port|starboard)\b/gi;

function swapWord(word: string): string {
  const swapped = SWAPS[word.toLowerCase()] ?? word;
  if (word === word.toUpperCase()) return swapped.toUpperCase();
  return word[0] === word[0]?.toUpperCase() ? swapped[0]?.toUpperCase() + swapped.slice(1) : swapped;
}

export function swapHandInId(id: string): string {
  return id.replace(HAND_IN_ID, (_all, before: string, word: string) => before + swapWord(word));
}

export function mirrorRig(d: StateData, assembly: string, from: Side, to: Side): MirrorImage | null {
  const mirror = new Mirror(d, assembly, from, to);
  return mirror.parts.length === 0 ? null : mirror.image();
}

class Mirror {
  readonly parts: readonly Part[];
  private readonly ids = new Map<string, string>();
  private readonly facts = new Set<string>();
  private readonly leftOut: string[] = [];

  constructor(
    private readonly d: StateData,
    assembly: string,
    private readonly from: Side,
    private readonly to: Side,
  ) {
    const inside = [...d.rigParts.values()].filter((p) => isWithin(d, p.id, assembly));
    const handed = inside.some((p) => this.handOf(p) === 'L' || this.handOf(p) === 'R');
    this.parts = handed ? inside.filter((p) => this.handOf(p) === from) : inside.filter((p) => this.handOf(p) === null);
    for (const p of this.parts) this.ids.set(p.id, this.imageId(p.id));
  }

  /** Its own hand, or that of the assembly it sits in. */
  private handOf(p: Part): Hand | null {
    const seen = new Set<string>();
    for (
      let at: Part | undefined = p;
      at !== undefined && !seen.has(at.id);
      at = this.d.rigParts.get(at.within ?? '')
    ) {
      if (at.hand !== undefined) return at.hand;
      seen.add(at.id);
    }
    return null;
  }

  private imageId(id: string): string {
    const swapped = swapHandInId(id);
    if (swapped === id) return `${id}-${this.to.toLowerCase()}`;
    const stripped = id.replace(new RegExp(`-${this.from.toLowerCase()}$`), '');
    const plain = this.d.rigParts.get(stripped);
    return !this.d.standing.has(swapped) && stripped !== id && plain !== undefined && this.handOf(plain) === this.to
      ? stripped
      : swapped;
  }

  image(): MirrorImage {
    const joints = this.mirrorableJoints();
    const operations = [...this.d.rigOperations.values()].filter((o) => o.on !== undefined && this.ids.has(o.on));
    const looks = [...this.d.rigLooks.values()].filter((l) => l.on !== undefined && this.ids.has(l.on));
    for (const thing of [...joints, ...operations, ...looks]) this.ids.set(thing.id, this.imageId(thing.id));
    for (const h of [...joints, ...operations].flatMap((x) => x.hazards ?? []))
      if (h.clearedBy) this.noteFacts(h.clearedBy);
    const facts = [...this.facts].flatMap((f) => {
      const known = this.d.rigFacts.get(f);
      this.ids.set(f, this.imageId(f));
      return known === undefined ? [] : [{ ...this.renamed(known), given: false }];
    });
    const rig: RigPiece = {
      parts: this.parts.map((p) => this.part(p)),
      attachments: joints.map((j) => this.joint(j)),
      operations: operations.map((o) => this.operation(o)),
      blocks: this.between(
        [...this.d.rigBlocks.values()],
        (b) => [b.part, b.by],
        (b) => ({
          ...b,
          part: this.to_(b.part),
          by: this.to_(b.by),
          ...(b.unless !== undefined && { unless: this.need(b.unless) }),
        }),
      ),
      guards: this.between(
        [...this.d.rigGuards.values()],
        (g) => g.notTogether,
        (g) => ({
          ...g,
          notTogether: g.notTogether.map((p) => this.to_(p)),
          ...(g.unless !== undefined && { unless: this.need(g.unless) }),
        }),
      ),
      facts,
      looks: looks.map((l) => this.look(l)),
    };
    return { rig, gains: this.gains(), leftOut: this.leftOut };
  }

  /** The image of an id in something copied: copied too, or recorded on the other side already; otherwise itself. */
  private to_(id: string): string {
    const copied = this.ids.get(id);
    if (copied !== undefined) return copied;
    const other = swapHandInId(id);
    return other !== id && this.d.standing.has(other) ? other : id;
  }

  /** The image of an end: copied now, or this-side with an image that is recorded already, or a centre part. Null: has none. */
  private end(id: string): string | null {
    const copied = this.ids.get(id);
    if (copied !== undefined) return copied;
    const part = this.d.rigParts.get(id);
    const hand = part === undefined ? null : this.handOf(part);
    if (hand !== 'L' && hand !== 'R') return id;
    const other = swapHandInId(id);
    return this.d.rigParts.has(other) ? other : null;
  }

  private mirrorableJoints(): readonly Attachment[] {
    return [...this.d.rigAttachments.values()].filter((j) => {
      if (!j.joins.some((e) => this.ids.has(e))) return false;
      const ends = j.joins.map((e) => this.end(e));
      if (ends.some((e) => e === null)) this.leftOut.push(j.id);
      else return [...ends].sort().join(' ') !== [...j.joins].sort().join(' ');
      return false;
    });
  }

  private noteFacts(need: Need): void {
    if ('all' in need) for (const n of need.all) this.noteFacts(n);
    else if ('any' in need) for (const n of need.any) this.noteFacts(n);
    else if ('fact' in need) this.facts.add(need.fact);
  }

  private need(need: Need, to = (id: string): string => this.to_(id)): Need {
    if ('all' in need) return { all: need.all.map((n) => this.need(n, to)) };
    if ('any' in need) return { any: need.any.map((n) => this.need(n, to)) };
    if ('released' in need) return { released: to(need.released) };
    if ('off' in need) return { off: to(need.off) };
    if ('apart' in need) return { apart: to(need.apart) };
    if ('done' in need) return { done: to(need.done) };
    if ('fact' in need) return { fact: to(need.fact) };
    return need;
  }

  private renamed<T extends { readonly id: string; readonly name?: string }>(x: T): T {
    return {
      ...x,
      id: this.to_(x.id),
      ...(x.name !== undefined && { name: x.name.replace(HAND_IN_NAME, (w) => swapWord(w)) }),
    };
  }

  private hazards(list: readonly Hazard[] | undefined): { hazards?: readonly Hazard[] } {
    if (list === undefined) return {};
    return { hazards: list.map((h) => (h.clearedBy === undefined ? h : { ...h, clearedBy: this.need(h.clearedBy) })) };
  }

  private part(p: Part): Part {
    return {
      ...this.renamed(p),
      ...(p.within !== undefined && { within: this.end(p.within) ?? p.within }),
      ...((p.hand === 'L' || p.hand === 'R' || p.hand === undefined) && { hand: this.to }),
      ...(p.at !== undefined && { at: flipped(p.at) }),
      ...(p.needs !== undefined && { needs: this.need(p.needs) }),
      ...(p.hold !== undefined && { hold: this.need(p.hold) }),
    };
  }

  private joint(j: Attachment): Attachment {
    const { asFound: _found, asDecided: _decided, ...rest } = this.renamed(j);
    return {
      ...rest,
      joins: j.joins.map((e) => this.end(e) ?? e),
      ...(j.needs !== undefined && { needs: this.need(j.needs) }),
      ...(j.refit !== undefined && { refit: this.need(j.refit) }),
      ...(j.threadHand !== undefined && {
        threadHand: j.threadHand === 'left' ? ('right' as const) : ('left' as const),
      }),
      ...this.hazards(j.hazards),
    };
  }

  private operation(o: Operation): Operation {
    return {
      ...this.renamed(o),
      ...(o.on !== undefined && { on: this.to_(o.on) }),
      ...(o.needs !== undefined && { needs: this.need(o.needs) }),
      ...this.hazards(o.hazards),
    };
  }

  private look(l: Look): Look {
    return {
      ...this.renamed(l),
      ...(l.on !== undefined && { on: this.to_(l.on) }),
      ...(l.visible !== undefined && { visible: this.need(l.visible) }),
      ...(l.whenFitted !== undefined && { whenFitted: l.whenFitted.map((j) => this.to_(j)) }),
    };
  }

  /** Blocks and guards: those that touch this side and are not their own image. */
  private between<T>(list: readonly T[], ends: (x: T) => readonly string[], map: (x: T) => T): readonly T[] {
    return list
      .filter((x) => ends(x).some((e) => this.ids.has(e)))
      .map(map)
      .filter(
        (x, _i) =>
          !list.some(
            (y) =>
              [...ends(y)].sort().join(' ') === [...ends(x)].sort().join(' ') && ends(y).some((e) => this.ids.has(e)),
          ),
      );
  }

  private gains(): readonly Gain[] {
    const gains: Gain[] = [];
    const gain = (what: Gain['what'], id: string, need: Need | undefined): void => {
      if (need === undefined || this.ids.has(id)) return;
      // Only what is copied now: a centre thing gains nothing for what another assembly brought.
      const image = this.need(need, (x) => this.ids.get(x) ?? x);
      const have = new Set(leaves(need));
      if (!leaves(image).every((leaf) => have.has(leaf))) gains.push({ what, id, value: image });
    };
    const centre = (id: string | undefined): boolean => {
      const part = id === undefined ? undefined : this.d.rigParts.get(id);
      const hand = part === undefined ? null : this.handOf(part);
      return hand === null || hand === 'C';
    };
    for (const p of this.d.rigParts.values()) if (centre(p.id)) gain('part', p.id, p.needs);
    for (const j of this.d.rigAttachments.values()) if (j.joins.every(centre)) gain('attachment', j.id, j.needs);
    for (const o of this.d.rigOperations.values()) if (centre(o.on)) gain('operation', o.id, o.needs);
    for (const l of this.d.rigLooks.values()) if (centre(l.on)) gain('look', l.id, l.visible);
    return gains;
  }
}

function leaves(need: Need): readonly string[] {
  if ('all' in need) return need.all.flatMap(leaves);
  if ('any' in need) return need.any.flatMap(leaves);
  return [JSON.stringify(need)];
}

function flipped(at: Place): Place {
  if (at.y === undefined) return at;
  return { ...at, y: flip(at.y) };
}

function flip(figure: Figure): Figure {
  if (typeof figure === 'number') return figure === 0 ? 0 : -figure;
  return { ...figure, value: figure.value === 0 ? 0 : -figure.value };
}
