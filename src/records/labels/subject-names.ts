/** What a thing is called, which hand it is and where it sits, from whatever the job knows of it. */
import type { StateData } from '../../journal/state.ts';
import type { HandWord } from './print-document.ts';

/** True when anything at all is recorded under this id. */
export function isKnown(state: StateData, id: string): boolean {
  const plain = bare(id);
  return (
    [
      state.rigParts,
      state.rigAttachments,
      state.rigOperations,
      state.rigLooks,
      state.positions,
      state.pieces,
      state.lots,
      state.lines,
      state.bags,
      state.held,
    ] as readonly ReadonlyMap<string, unknown>[]
  ).some((list) => list.has(plain));
}

export function nameOfSubject(state: StateData, id: string): string | undefined {
  const plain = bare(id);
  const position = state.positions.get(plain);
  const piece = state.pieces.get(plain);
  return (
    state.rigParts.get(plain)?.name ??
    state.rigAttachments.get(plain)?.name ??
    state.rigOperations.get(plain)?.name ??
    state.rigLooks.get(plain)?.name ??
    position?.name ??
    piece?.name ??
    state.lots.get(plain)?.what ??
    state.lines.get(plain)?.name ??
    lineName(state, piece?.line ?? position?.line) ??
    (piece?.position === undefined ? undefined : nameOfSubject(state, piece.position))
  );
}

function lineName(state: StateData, line: string | undefined): string | undefined {
  return line === undefined ? undefined : state.lines.get(line)?.name;
}

export function handOfSubject(state: StateData, id: string): HandWord | undefined {
  const plain = bare(id);
  const piece = state.pieces.get(plain);
  const position = state.positions.get(piece?.position ?? plain);
  const direct = state.rigParts.get(plain)?.hand ?? piece?.hand ?? position?.hand;
  if (direct !== undefined) return direct;
  if (position?.rig !== undefined && state.rigParts.has(position.rig)) return handOfSubject(state, position.rig);
  return handOfJoint(state, plain);
}

/** A joint is of the hand that its parts agree on; parts of no hand have no say. */
function handOfJoint(state: StateData, id: string): HandWord | undefined {
  const operation = state.rigOperations.get(id)?.on;
  const ends = state.rigAttachments.get(id)?.joins ?? (operation === undefined ? [] : [operation]);
  const hands = new Set(ends.flatMap((end) => state.rigParts.get(end)?.hand ?? []));
  hands.delete('C');
  if (hands.size === 1) return [...hands][0];
  return hands.size === 0 && ends.some((end) => state.rigParts.get(end)?.hand === 'C') ? 'C' : undefined;
}

/** The station as somebody wrote it: at the position, or beside a pin. */
export function stationOfSubject(state: StateData, id: string): string | undefined {
  const plain = bare(id);
  const at = state.pieces.get(plain)?.position ?? plain;
  const position = state.positions.get(at) ?? positionOfRig(state, at);
  if (position?.station !== undefined && position.station !== '') return position.station;
  for (const pin of state.pins.values()) if (pin.subject === plain && pin.station !== undefined) return pin.station;
  return undefined;
}

const byRig = new WeakMap<object, ReadonlyMap<string, string>>();

function positionOfRig(state: StateData, rig: string) {
  let index = byRig.get(state.positions);
  if (index === undefined) {
    index = new Map([...state.positions.values()].flatMap((p) => (p.rig === undefined ? [] : [[p.rig, p.position]])));
    byRig.set(state.positions, index);
  }
  const found = index.get(rig);
  return found === undefined ? undefined : state.positions.get(found);
}

function bare(id: string): string {
  return id.startsWith('remove:') ? id.slice('remove:'.length) : id;
}
