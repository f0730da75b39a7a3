/**
 * Words for writing a rig by hand: each function gives a small `Fragment` of plain data, `join` lays them together.
 *
 * A fragment file reads like a mechanic's list: parts, then what holds them, then what is in the way. Chosen over one
 * large literal (names of 549 positions would be typed twice) and over a class that collects (order of calls would
 * matter). Nothing is derived here but names and the positions of a line; whatever holds is written.
 *
 *   join(part('10-03', { minutes: 2 }), joint('10-j07', 'Back off ...', ['10-07', '10-01'], 'threaded', 10))
 *
 * Names: an attachment, an operation and a setup state are named by what is done ("Draw the steering shear pin"), a
 * part by what it is. Ids hold no ':' and no '='. Attachments are `10-j07`, of positions `02-j07.3`.
 */
import type {
  Attachment,
  AttachmentKind,
  Block,
  Fact,
  Figure,
  Guard,
  Hazard,
  Look,
  Need,
  Operation,
  Part,
  Place,
  Rig,
  Setup,
} from '../../src/domain/rig/rig-types.ts';
import { RIG_FORMAT } from '../../src/domain/rig/rig-types.ts';
import { line, lineOf, positionName, positionsOf } from '../parts.ts';

export interface Fragment {
  readonly parts?: readonly Part[];
  readonly attachments?: readonly Attachment[];
  readonly operations?: readonly Operation[];
  readonly blocks?: readonly Block[];
  readonly guards?: readonly Guard[];
  readonly setups?: readonly Setup[];
  readonly facts?: readonly Fact[];
  readonly looks?: readonly Look[];
}

// Needs ---------------------------------------------------------------------------------------------------------------
export const all = (...needs: readonly Need[]): Need => ({ all: needs });
export const any = (...needs: readonly Need[]): Need => ({ any: needs });
export const released = (attachment: string): Need => ({ released: attachment });
export const off = (part: string): Need => ({ off: part });
export const apart = (part: string): Need => ({ apart: part });
export const done = (operation: string): Need => ({ done: operation });
export const fact = (id: string): Need => ({ fact: id });
export const stands = (setup: string, ...states: readonly string[]): Need => ({ setup, in: states });
/** All of these attachments released: `releasedAll('02-j07.1', ...)`. */
export const releasedAll = (...ids: readonly string[]): Need => all(...ids.map(released));

// Hazards and places --------------------------------------------------------------------------------------------------
export const storedEnergy = (clearedBy: Need, note: string): Hazard => ({ kind: 'stored-energy', clearedBy, note });
export const pressure = (clearedBy: Need, note: string): Hazard => ({ kind: 'pressure', clearedBy, note });
/** A hazard nothing in the rig clears: shown, and a person gives their word each time. */
export const caution = (kind: string, note: string): Hazard => ({ kind, note });

/** Metres aft, to the right, above the datum. */
export const at = (x: Figure, y = 0, z = 0): Place => ({ x, y, z });
export const mirrored = (place: Place): Place => ({ ...place, y: place.y === undefined ? 0 : negative(place.y) });

function negative(figure: Figure): Figure {
  return typeof figure === 'number' ? 0 - figure : { ...figure, value: 0 - figure.value };
}

// Parts ---------------------------------------------------------------------------------------------------------------
export type PartExtra = Omit<Partial<Part>, 'id'>;

/** One position of the parts list (`10-03`, `02-07.3`), named and handed by its line. */
export function part(position: string, extra: PartExtra = {}): Fragment {
  return { parts: [{ id: position, name: positionName(position), hand: lineOf(position).hand, ...extra }] };
}

/** Every position of a line with the same figures; `massKg` is of one. */
export function positions(
  lineId: string,
  extra: PartExtra | ((position: string, n: number) => PartExtra) = {},
): Fragment {
  const make = (p: string, i: number) => part(p, typeof extra === 'function' ? extra(p, i + 1) : extra);
  return join(...positionsOf(line(lineId)).map(make));
}

/** An assembly that can be lifted whole; it is no position of the parts list. */
export function unit(id: string, name: string, extra: PartExtra = {}): Fragment {
  return { parts: [{ id, name, ...extra }] };
}

// Attachments ---------------------------------------------------------------------------------------------------------
export type JointExtra = Omit<Partial<Attachment>, 'id' | 'name' | 'joins' | 'kind' | 'minutes'>;

/** One joint, named by what releases it. */
export function joint(
  id: string,
  name: string,
  joins: readonly string[],
  kind: AttachmentKind,
  minutes: number,
  extra: JointExtra = {},
): Fragment {
  return { attachments: [{ id, name, joins, kind, minutes, ...extra }] };
}

export interface Fastening {
  /** What the mechanic does, without the number: "Undo the lug bolt". */
  readonly release: string;
  /** What the fastener holds together besides itself. */
  readonly joins: readonly string[] | ((position: string, n: number) => readonly string[]);
  readonly kind: AttachmentKind;
  /** For one. */
  readonly minutes: number;
  readonly joint?: JointExtra | ((position: string, n: number) => JointExtra);
  readonly part?: PartExtra;
  /** Stem of the attachment ids; `02-07` gives `02-j07` by itself. */
  readonly stem?: string;
}

/** `02-07.3` is held by `02-j07.3`. */
export function jointOf(position: string): string {
  return position.replace(/^(\d\d)-(\d\d)/, '$1-j$2');
}

/** All attachments of a line's fasteners: `jointsOf('02-07')` is `02-j07.1` ... `02-j07.6`. */
export const jointsOf = (lineId: string): readonly string[] => positionsOf(line(lineId)).map(jointOf);

/**
 * Fasteners that are positions of the parts list (bolts, screws, pins, clips): one part and one joint each. The joint
 * has three ends or more: the fastener and what it holds together. Released means drawn; lifting it away costs nothing.
 */
export function fasteners(lineId: string, how: Fastening): Fragment {
  const list = positionsOf(line(lineId));
  return join(
    ...list.map((p, i) => {
      const n = i + 1;
      const ends = typeof how.joins === 'function' ? how.joins(p, n) : how.joins;
      const extra = typeof how.joint === 'function' ? how.joint(p, n) : (how.joint ?? {});
      const name = list.length === 1 ? how.release : `${how.release}, ${n} of ${list.length}`;
      const id = how.stem === undefined ? jointOf(p) : list.length === 1 ? how.stem : `${how.stem}.${n}`;
      return join(part(p, { minutes: 0, ...how.part }), joint(id, name, [p, ...ends], how.kind, how.minutes, extra));
    }),
  );
}

// The rest ------------------------------------------------------------------------------------------------------------
export function operation(
  id: string,
  name: string,
  minutes: number,
  extra: Omit<Partial<Operation>, 'id'> = {},
): Fragment {
  return { operations: [{ id, name, minutes, ...extra }] };
}

/** `by` is in the way of `part` until it is off or `unless` holds; `harm` is what forcing it does. */
export function block(partId: string, by: string, harm: string, unless?: Need, source?: string): Fragment {
  return {
    blocks: [
      {
        part: partId,
        by,
        harm,
        ...(unless === undefined ? {} : { unless }),
        ...(source === undefined ? {} : { source }),
      },
    ],
  };
}

export function guard(notTogether: readonly string[], harm: string, unless?: Need): Fragment {
  return { guards: [{ notTogether, harm, ...(unless === undefined ? {} : { unless }) }] };
}

export function setup(entry: Setup): Fragment {
  return { setups: [entry] };
}

/** A thing only a person can settle; false until somebody has. */
export function factOf(id: string, name: string, extra: Omit<Partial<Fact>, 'id' | 'name'> = {}): Fragment {
  return { facts: [{ id, name, given: false, ...extra }] };
}

export function look(id: string, name: string, extra: Omit<Partial<Look>, 'id' | 'name'> = {}): Fragment {
  return { looks: [{ id, name, ...extra }] };
}

export function join(...fragments: readonly Fragment[]): Required<Fragment> {
  return {
    parts: fragments.flatMap((f) => f.parts ?? []),
    attachments: fragments.flatMap((f) => f.attachments ?? []),
    operations: fragments.flatMap((f) => f.operations ?? []),
    blocks: fragments.flatMap((f) => f.blocks ?? []),
    guards: fragments.flatMap((f) => f.guards ?? []),
    setups: fragments.flatMap((f) => f.setups ?? []),
    facts: fragments.flatMap((f) => f.facts ?? []),
    looks: fragments.flatMap((f) => f.looks ?? []),
  };
}

export function rigOf(name: string, root: string, ...fragments: readonly Fragment[]): Rig {
  return { format: RIG_FORMAT, name, invented: true, root, ...join(...fragments) };
}
