/**
 * Labels of a job, from its state: bags, sample jars, parts, places, open stops, hung tags. Pure; who prints them where is
 * said elsewhere. An id of which the job knows nothing is a Problem, since a label for a mistyped id is worse than none.
 */
import { bagCode, bagNumber, readBagCode } from '../../domain/bag-code.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import { contentsOf, openTags } from '../../journal/custody.ts';
import type { Tag } from '../../journal/custody-state.ts';
import { nameOf, type StateData, type Stop } from '../../journal/state.ts';
import type { Label } from './label.ts';
import { labelProblem } from './label-problems.ts';
import type { HandWord } from './print-document.ts';
import { handOfSubject, isKnown, nameOfSubject, stationOfSubject } from './subject-names.ts';

/** A bag that was filled, as it is known now. */
export function bagLabel(state: StateData, code: string): Result<Label> {
  return filledBag(state, code, 'bag');
}

/** The same series on a jar for oil, scale or chips: what it is a sample of, and the day. */
export function jarLabel(state: StateData, code: string): Result<Label> {
  const label = filledBag(state, code, 'jar');
  if (!label.ok) return label;
  const opened = state.bags.get(label.value.id)?.opened;
  return ok({ ...label.value, says: 'Sample', ...(opened !== undefined && { when: dayOf(opened.at) }) });
}

function filledBag(state: StateData, text: string, kind: 'bag' | 'jar'): Result<Label> {
  const code = readBagCode(text);
  if (!code.ok) return failed(code.problem);
  const bag = state.bags.get(code.value);
  if (bag === undefined) return unknownSubject(code.value, 'nothing was put into bag');
  const from = [...new Set([...bag.of, ...contentsOf(state, bag.code)])];
  const names = [...new Set(from.flatMap((id) => nameOfSubject(state, id) ?? []))];
  const name = names.length > 0 ? names.join('; ') : (bag.note ?? from.join(', '));
  return ok({
    kind,
    id: bag.code,
    ...whose(state),
    ...some('name', name),
    ...some('hand', bag.hand ?? oneHand(from.map((id) => handOfSubject(state, id)))),
    ...some(
      'station',
      from.map((id) => stationOfSubject(state, id)).find((s) => s !== undefined),
    ),
  });
}

/** A wire-on tag for a part, piece, joint or position. */
export function partLabel(state: StateData, id: string): Result<Label> {
  if (!isKnown(state, id)) return unknownSubject(id, 'nothing is recorded of');
  const number = state.pieces.get(id)?.number;
  return ok({
    kind: 'part',
    id,
    ...about(state, id),
    ...some('says', number === undefined ? undefined : `No. ${number}`),
  });
}

const PLACE_WORD: Readonly<Record<string, string>> = {
  shelf: 'Shelf',
  rack: 'Rack',
  quarantine: 'Quarantine shelf',
  bench: 'Bench',
  box: 'Box',
  outside: 'Outside',
};

/** A shelf, rack or corner. It belongs to the shop, so no aircraft stands on it. */
export function placeLabel(state: StateData, id: string): Result<Label> {
  const place = state.places.get(id);
  if (place === undefined) return unknownSubject(id, 'no place is recorded as');
  const says = PLACE_WORD[place.kind ?? ''];
  return ok({
    kind: 'place',
    id,
    name: place.name ?? id,
    ...some('says', says),
    invented: state.job?.invented === true,
  });
}

/** Left half done. */
export function openLabel(state: StateData, stop: Stop): Label {
  const says = stop.note === undefined ? stop.state : `${stop.state.replace(/[.\s]+$/, '')}. ${stop.note}`;
  return { kind: 'open', id: stop.subject, ...about(state, stop.subject), says, ...saidIn(state, stop) };
}

/** OPEN tags of everything that was left half done, oldest first. */
export function openLabels(state: StateData): readonly Label[] {
  return [...state.stops.values()].filter((s) => s.cleared === undefined).map((s) => openLabel(state, s));
}

/** Tags that hang on things now. */
export function hungLabels(state: StateData): readonly Label[] {
  return openTags(state).map((tag) => hungLabel(state, tag));
}

export function hungLabel(state: StateData, tag: Tag): Label {
  const label: Label = { kind: tag.tag, id: tag.subject, ...about(state, tag.subject), ...saidIn(state, tag) };
  return tag.says === undefined ? label : { ...label, says: tag.says };
}

/** Empty labels of numbers that were set aside for a roll. */
export function rollLabels(state: StateData, from: number, to: number): Result<readonly Label[]> {
  for (let n = from; n <= to; n += 1) {
    if (state.bagsSetAside.some((d) => d.from <= n && n <= d.to)) continue;
    const message = `bag number ${n} was not set aside in this job`;
    return failed(labelProblem('BAGS_NOT_SET_ASIDE', message, 'from, to'));
  }
  const invented = state.job?.invented === true;
  const count = Math.max(0, to - from + 1);
  return ok(Array.from({ length: count }, (_, i) => ({ kind: 'blank', id: bagCode(from + i), invented })));
}

/** Where a roll begins and ends by its codes: `B201X-B300Y` or numbers. */
export function rollEnd(text: string): Result<number> {
  if (/^0*[1-9]\d{0,6}$/.test(text)) return ok(Number(text));
  const code = readBagCode(text);
  return code.ok ? ok(bagNumber(code.value)) : failed(code.problem);
}

function about(state: StateData, id: string): Omit<Label, 'kind' | 'id'> {
  return {
    ...whose(state),
    ...some('name', nameOfSubject(state, id)),
    ...some('hand', handOfSubject(state, id)),
    ...some('station', stationOfSubject(state, id)),
  };
}

export function whose(state: StateData): { readonly registration?: string; readonly invented: boolean } {
  const registration = state.job?.registration;
  return { ...(registration !== undefined && { registration }), invented: state.job?.invented === true };
}

function saidIn(state: StateData, o: { readonly said: { readonly by: string; readonly at: string } }) {
  return { who: nameOf(state, o.said.by), when: `${dayOf(o.said.at)}, ${o.said.at.slice(11, 16)}` };
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** `18 Nov 2025`: the day as written by who recorded it. */
function dayOf(iso: string): string {
  const month = MONTHS[Number(iso.slice(5, 7)) - 1];
  return month === undefined ? iso.slice(0, 10) : `${Number(iso.slice(8, 10))} ${month} ${iso.slice(0, 4)}`;
}

/** A bag with pieces of both sides has no hand. */
function oneHand(hands: readonly (HandWord | undefined)[]): HandWord | undefined {
  const said = new Set(hands.filter((h) => h !== undefined));
  return said.size === 1 ? [...said][0] : undefined;
}

export function some<K extends string, T>(key: K, value: T | undefined): { readonly [k in K]?: T } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [k in K]?: T });
}

function unknownSubject(id: string, message: string): Result<Label> {
  return failed(labelProblem('LABEL_SUBJECT_UNKNOWN', `${message} "${id.slice(0, 120)}"`, 'ids'));
}
