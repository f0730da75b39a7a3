/**
 * The planner's words. Calm, exact, verb first, with the names that the rig gives. One place, so that a translation or
 * a better word is one change.
 */
import { own } from '../../domain/rig/own.ts';
import { parseRemove, parseSet } from '../../domain/rig/rig-meaning.ts';
import type { ActionId, Attachment, Hazard, Need, Rig } from '../../domain/rig/rig-types.ts';
import type { StepHazard } from '../answers.ts';

/** How a joint without a name is undone; a joint's own name says what the mechanic does, verb first. */
const RELEASE: Readonly<Record<string, string>> = {
  riveted: 'Drill out',
  welded: 'Cut',
  bonded: 'Part',
  pressed: 'Press out',
  line: 'Disconnect',
  cable: 'Disconnect',
  lashed: 'Unlash',
};

const HAZARD: Readonly<Record<string, string>> = {
  'stored-energy': 'Stored energy',
  pressure: 'Pressure',
};

const CAUTION = "The maker's data, local codes and licensed people decide.";

export function list(words: readonly string[], last: 'and' | 'or'): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

export function sentence(text: string): string {
  return text === '' ? text : `${text[0]!.toUpperCase()}${text.slice(1)}`;
}

export class Words {
  private readonly names = new Map<string, string>();
  private readonly joints = new Map<string, Attachment>();
  private readonly operations: ReadonlySet<string>;

  constructor(readonly rig: Rig) {
    for (const things of [rig.parts, rig.operations, rig.setups, rig.facts])
      for (const x of things) this.names.set(x.id, x.name ?? x.id);
    this.operations = new Set(rig.operations.map((o) => o.id));
    for (const a of rig.attachments) {
      this.joints.set(a.id, a);
      this.names.set(a.id, a.name ?? this.ends(a.joins));
    }
  }

  thing(id: string): string {
    return this.names.get(id) ?? id;
  }

  ends(joins: readonly string[]): string {
    const [first, ...rest] = [...new Set(joins)].map((e) => this.thing(e));
    return rest.length === 0 ? (first ?? '') : `${first} from ${list(rest, 'and')}`;
  }

  /** The step as it is called in a plan. */
  step(action: ActionId): string {
    const part = parseRemove(action);
    if (part !== null) return `Lift out ${this.thing(part)}`;
    const set = parseSet(action);
    if (set) return `Change ${this.thing(set.setup)} to ${set.state}`;
    if (action.startsWith('fact:')) return `Settle: ${this.thing(action.slice(5))}`;
    if (this.operations.has(action)) return sentence(this.thing(action));
    const joint = this.joints.get(action);
    if (joint?.name !== undefined) return sentence(joint.name);
    return `${own(RELEASE, joint?.kind ?? '') ?? 'Release'} ${this.thing(action)}`;
  }

  /** A joint by its name, or by what it joins. */
  joint(id: string): string {
    const a = this.joints.get(id);
    if (a?.name !== undefined || !a) return this.thing(id);
    return `the ${a.kind === undefined || a.kind === 'other' ? '' : `${a.kind} `}joint ${id}`;
  }

  /** Inside a sentence. */
  doing(action: ActionId): string {
    return `“${this.step(action)}”`;
  }

  need(need: Need): string {
    if ('all' in need)
      return (
        list(
          need.all.map((n) => this.need(n)),
          'and',
        ) || 'nothing'
      );
    if ('any' in need)
      return (
        list(
          need.any.map((n) => this.need(n)),
          'or',
        ) || 'something that can never be so'
      );
    if ('released' in need) return `${this.doing(need.released)} done`;
    if ('off' in need) return `${this.thing(need.off)} off`;
    if ('apart' in need) return `${this.thing(need.apart)} lifted out`;
    if ('done' in need) return `“${this.thing(need.done)}” done`;
    if ('fact' in need) return `settled by a person: ${this.thing(need.fact)}`;
    return `${this.thing(need.setup)} at ${list(need.in, 'or')}`;
  }

  hazard(h: Hazard): StepHazard {
    const what = own(HAZARD, h.kind) ?? sentence(h.kind.replaceAll('-', ' '));
    const note = h.note === undefined ? '' : ` ${sentence(h.note)}${/[.!]$/.test(h.note) ? '' : '.'}`;
    const asksForWord = h.clearedBy === undefined;
    const clearing = asksForWord
      ? 'Nothing in the rig clears it: give your word before this step.'
      : `Not before: ${this.need(h.clearedBy!)}.`;
    return { kind: h.kind, text: `${what}. ${clearing}${note} ${CAUTION}`, asksForWord };
  }
}
