/**
 * What things are called on the screen: parts by what they are, steps by what is done, drawing lines by their number.
 *
 * In a rig a joint is named by what releases it ("Draw the steering shear pin"). Going back, the same joint is named by
 * what makes it again; the verb follows from the kind of joint. Where a name does not begin with a verb of taking
 * apart, it is left as it is.
 */
import type { ActionId, Attachment, AttachmentKind, Hand, Part, Rig } from '../../domain/rig/rig-types.ts';

export interface Names {
  readonly part: (id: string) => string;
  readonly hand: (id: string) => Hand | undefined;
  /** Verb first, taking apart. */
  readonly strip: (action: ActionId) => string;
  /** Verb first, putting back. */
  readonly refit: (action: ActionId) => string;
  /** What an action is about, as a thing in a sentence: "the rivets of panel 9". */
  readonly thing: (action: ActionId) => string;
  readonly look: (id: string) => string;
  readonly fact: (id: string) => string;
  /** The parts an action is about: for lighting drawing and list. */
  readonly partsOf: (action: ActionId) => readonly string[];
  readonly attachment: (id: string) => Attachment | undefined;
  readonly find: (id: string) => Part | undefined;
}

const MAKE_AGAIN: Readonly<Record<AttachmentKind, string>> = {
  bolted: 'Bolt up',
  studs: 'Nut up',
  pinned: 'Pin',
  threaded: 'Screw on',
  riveted: 'Rivet',
  welded: 'Weld',
  bonded: 'Bond',
  pressed: 'Press in',
  splined: 'Slide on',
  meshed: 'Mesh',
  clamped: 'Clamp',
  line: 'Connect',
  cable: 'Connect',
  lashed: 'Lash',
  other: 'Make',
};

/** Verbs that names of joints begin with: taken off where the joint is made again, or spoken of as a thing. */
const UNDOING =
  /^(Back off|Break|Cut|Disconnect|Draw|Drift|Drill out|Drive|Ease|Lift|Mark|Open|Part|Press out|Press|Pull|Release|Screw|Slacken|Slide|Slip|Take|Turn|Unbolt|Undo|Unhook|Unlash|Unlace|Unpin|Unscrew|Unsolder|Untie|Wind) /;
/** "and screw the end out", "split pin out", and the little word at the end that only goes with the verb. */
const GOES_WITH_IT = [/ and [^,]+(?=,|$)/, /, [a-z ]+ out(?=,|$)/, / (out|off|back|away|down)(?=,|$)/];

export function namesOf(rig: Rig): Names {
  const parts = new Map(rig.parts.map((p) => [p.id, p]));
  const joints = new Map(rig.attachments.map((a) => [a.id, a]));
  const operations = new Map(rig.operations.map((o) => [o.id, o]));
  const setups = new Map(rig.setups.map((s) => [s.id, s]));
  const looks = new Map(rig.looks.map((l) => [l.id, l]));
  const facts = new Map(rig.facts.map((f) => [f.id, f]));
  const part = (id: string) => parts.get(id)?.name ?? id;

  const setName = (action: ActionId) => {
    const [id = '', state = ''] = action.slice(4).split('=');
    return `${setups.get(id)?.name ?? id}: ${state}`;
  };
  const strip = (action: ActionId) => {
    if (action.startsWith('remove:')) return `Lift out the ${lowerFirst(part(action.slice(7)))}`;
    if (action.startsWith('set:')) return setName(action);
    const joint = joints.get(action);
    if (joint) return stripName(joint);
    return operations.get(action)?.name ?? action;
  };
  const refit = (action: ActionId) => {
    if (action.startsWith('remove:')) return part(action.slice(7));
    if (action.startsWith('set:')) return setName(action);
    const joint = joints.get(action);
    if (joint) return refitName(joint);
    return operations.get(action)?.name ?? action;
  };
  const thing = (action: ActionId) => {
    const joint = joints.get(action);
    return joint ? thingOf(joint) : lowerFirst(refit(action));
  };
  const partsOf = (action: ActionId) => {
    if (action.startsWith('remove:')) return [action.slice(7)];
    const joint = joints.get(action);
    if (joint) return namedFastener(joint) ?? joint.joins;
    const on = operations.get(action)?.on;
    return on === undefined ? [] : [on];
  };
  return {
    part,
    strip,
    refit,
    thing,
    partsOf,
    hand: (id) => parts.get(id)?.hand,
    look: (id) => looks.get(id)?.name ?? id,
    fact: (id) => facts.get(id)?.name ?? id,
    attachment: (id) => joints.get(id),
    find: (id) => parts.get(id),
  };
}

/** A joint of three ends names its fastener first: that is what the hand is on. */
function namedFastener(joint: Attachment): readonly string[] | null {
  return joint.joins.length > 2 ? joint.joins.slice(0, 1) : null;
}

/** A joint is named by what the mechanic does; one without a name by what it is and joins. */
export function stripName(joint: Attachment): string {
  return (
    joint.name ??
    `Undo ${joint.kind === undefined || joint.kind === 'other' ? 'joint' : `${joint.kind} joint`} ${joint.id}`
  );
}

export function refitName(joint: Attachment): string {
  const rest = thingOf(joint);
  return UNDOING.test(joint.name ?? '') ? `${MAKE_AGAIN[joint.kind ?? 'other']} ${rest}` : (joint.name ?? joint.id);
}

function thingOf(joint: Attachment): string {
  const name = joint.name ?? joint.id;
  if (!UNDOING.test(name)) return lowerFirst(name);
  return GOES_WITH_IT.reduce((rest, words) => rest.replace(words, ''), name.replace(UNDOING, ''));
}

/** The hand of an action: that of its first part that has one. */
export function handOf(names: Names, action: ActionId): Hand | undefined {
  return names
    .partsOf(action)
    .map(names.hand)
    .find((hand) => hand !== undefined);
}

/** `02-07.3` stands on the drawing as `02-07`. */
export function lineOfPart(part: string): string {
  return part.split('.')[0] ?? part;
}

/** The two digits a part number begins with; null for parts that are not in the parts list. */
export function assemblyOf(part: string): string | null {
  return /^(\d\d)-/.exec(part)?.[1] ?? null;
}

export function lowerFirst(text: string): string {
  return /^[A-Z][a-z ]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

export function upperFirst(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** People call each other so on the floor; the title block has the whole name. */
export function firstName(name: string): string {
  return name.split(' ')[0] ?? name;
}

/** Without what follows a comma, unless that is a number: "Back off the retaining nut". */
export function shortName(name: string): string {
  return name.split(/, (?!\d)/)[0] ?? name;
}
