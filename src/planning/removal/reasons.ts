/**
 * Why each step of a plan is there, in words: what it frees, clears, holds or makes possible. Few reasons say more than
 * many, so those of one kind are put together and more than three names become a count.
 */
import type { Link, PlanLinks } from './links.ts';
import { isChange, type Move } from './permit.ts';
import type { Question } from './question.ts';
import { moveIds } from './ways.ts';
import { list, sentence, type Words } from './words.ts';

const MOST_NAMES = 3;

export function reasonsFor(q: Question, moves: readonly Move[], links: PlanLinks, words: Words): string[][] {
  const ids = moveIds(q, moves);
  const perStep: Map<string, string[]>[] = moves.map(() => new Map());
  for (const link of links.links) {
    const { form, name } = phrase(q, moves, ids, link, words);
    const forms = perStep[link.from]!;
    const names = forms.get(form) ?? [];
    if (name !== null && !names.includes(name)) names.push(name);
    forms.set(form, names);
  }
  return perStep.map((forms) => [...forms].map(([form, names]) => sentence(form.replace('#', named(names)))));
}

function named(names: readonly string[]): string {
  if (names.length <= MOST_NAMES) return list(names, 'and');
  return `${names.slice(0, MOST_NAMES - 1).join(', ')} and ${names.length - MOST_NAMES + 1} more`;
}

/** A sentence with # for the names of what it is for. */
function phrase(
  q: Question,
  moves: readonly Move[],
  ids: readonly string[],
  link: Link,
  words: Words,
): { readonly form: string; readonly name: string | null } {
  const { model } = q;
  const { rig } = model;
  if (link.rule === 'goal') return { form: 'this is what was asked for', name: null };
  const action = ids[link.to]!;
  const target = isChange(moves[link.to]!) ? -1 : q.acts[moves[link.to]!]!;
  const part = target >= 0 ? model.partOf(target) : -1;
  const thing = part >= 0 ? words.thing(model.places.ids[part]!) : words.doing(action);
  switch (link.rule) {
    case 'attachment': {
      const inner = model.joins(link.source).filter((e) => model.places.isInside(e, part));
      const outer = model.joins(link.source).filter((e) => !model.places.isInside(e, part));
      const name = (list_: readonly number[]): string =>
        list(
          list_.map((e) => words.thing(model.places.ids[e]!)),
          'and',
        );
      const at = inner.includes(part) ? name([part]) : `${thing} (${name(inner)})`;
      return { form: `holds # to ${name(outer)}`, name: at };
    }
    case 'block': {
      const b = rig.blocks[link.source]!;
      const harm = b.harm === undefined ? '' : ` (if forced: ${b.harm})`;
      return { form: `clears the way of #: ${words.thing(b.by)} stands in it${harm}`, name: thing };
    }
    case 'hanging':
      return { form: `${words.thing(model.places.ids[link.source]!)} hangs on #`, name: thing };
    case 'hazard': {
      const hazards =
        target < model.joints ? rig.attachments[target]!.hazards : rig.operations[model.operationOf(target)]!.hazards;
      const kind = hazards?.[link.source]?.kind.replaceAll('-', ' ') ?? 'hazard';
      return { form: `clears the ${kind} before #`, name: words.doing(action) };
    }
    case 'hold': {
      const of = model.holds[link.source]!.of;
      return { form: 'holds # before its last joint goes', name: words.thing(model.places.ids[of]!) };
    }
    case 'guard': {
      const harm = rig.guards[link.source]!.harm;
      return { form: `goes before #${harm === undefined ? '' : `, else ${harm}`}`, name: words.doing(action) };
    }
    case 'rests':
      return { form: 'before it, the aircraft rests on what # takes away', name: words.doing(action) };
    case 'change':
      return { form: 'makes # possible', name: words.doing(action) };
    case 'part':
      return { form: 'needed for #', name: words.doing(action) };
    default:
      return link.rule satisfies never;
  }
}
