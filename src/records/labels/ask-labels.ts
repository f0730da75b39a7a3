/** What is asked for, by the words that both the command line and the address use: a kind and ids. */
import { failed, ok, type Result } from '../../domain/result.ts';
import type { StateData } from '../../journal/state.ts';
import { hazardLabels } from './hazard-labels.ts';
import {
  bagLabel,
  hungLabels,
  jarLabel,
  openLabels,
  partLabel,
  placeLabel,
  rollEnd,
  rollLabels,
} from './job-labels.ts';
import type { Label, TagKind } from './label.ts';
import { type FormWords, readForm } from './label-form.ts';
import { labelProblem } from './label-problems.ts';
import { MOST_LABELS, placeLabels } from './place-labels.ts';
import type { PrintDocument } from './print-document.ts';

export const LABEL_WORDS = [
  'bag',
  'jar',
  'part',
  'place',
  'tags',
  'open',
  'do-not-clean',
  'quarantine',
  'hazard',
  'roll',
] as const;
export type LabelWord = (typeof LABEL_WORDS)[number];

export interface LabelsAsked {
  readonly what: string;
  /** None: all there are. Bags, jars and parts are named. */
  readonly ids?: readonly string[];
  /** Of a roll: numbers or codes. */
  readonly from?: string;
  readonly to?: string;
  readonly start?: number;
  readonly madeAt: string;
}

/** Everything between a request and the document that goes to the printer. */
export function labelDocument(state: StateData, asked: LabelsAsked, form: FormWords): Result<PrintDocument> {
  const read = readForm(form);
  if (!read.ok) return read;
  const labels = labelsAsked(state, asked);
  if (!labels.ok) return labels;
  const title = `Witnessmark labels ${state.job?.registration ?? state.job?.name ?? ''}`.trim();
  return placeLabels(labels.value, read.value, {
    title,
    madeAt: asked.madeAt,
    ...(asked.start !== undefined && { start: asked.start }),
  });
}

export function labelsAsked(state: StateData, asked: LabelsAsked): Result<readonly Label[]> {
  const ids = asked.ids ?? [];
  const what = asked.what as LabelWord;
  switch (what) {
    case 'bag':
      return each(ids, (id) => bagLabel(state, id));
    case 'jar':
      return each(ids, (id) => jarLabel(state, id));
    case 'part':
      return each(ids, (id) => partLabel(state, id));
    case 'place':
      return each(ids.length > 0 ? ids : [...state.places.keys()], (id) => placeLabel(state, id));
    case 'tags':
      return chosen([...openLabels(state), ...hungLabels(state)], ids);
    case 'open':
      return chosen([...openLabels(state), ...hungOf(state, 'open')], ids);
    case 'do-not-clean':
    case 'quarantine':
      return chosen(hungOf(state, what), ids);
    case 'hazard':
      return chosen([...hungOf(state, 'hazard'), ...hazardLabels(state)], ids);
    case 'roll':
      return roll(state, asked);
    default:
      what satisfies never;
      return failed(labelProblem('LABEL_KIND_UNKNOWN', `"${String(what).slice(0, 60)}" is no kind of label`, 'what'));
  }
}

function hungOf(state: StateData, kind: TagKind): readonly Label[] {
  return hungLabels(state).filter((l) => l.kind === kind);
}

function each(ids: readonly string[], make: (id: string) => Result<Label>): Result<readonly Label[]> {
  const labels: Label[] = [];
  for (const id of ids) {
    const label = make(id);
    if (!label.ok) return label;
    labels.push(label.value);
  }
  return ok(labels);
}

/** Tags by the thing they hang on. */
function chosen(labels: readonly Label[], ids: readonly string[]): Result<readonly Label[]> {
  if (ids.length === 0) return ok(labels);
  const missing = ids.find((id) => !labels.some((l) => l.id === id));
  if (missing !== undefined)
    return failed(labelProblem('LABEL_SUBJECT_UNKNOWN', `no such tag is open on "${missing.slice(0, 120)}"`, 'ids'));
  return ok(labels.filter((l) => ids.includes(l.id)));
}

function roll(state: StateData, asked: LabelsAsked): Result<readonly Label[]> {
  const first = rollEnd(asked.from ?? '');
  const last = rollEnd(asked.to ?? asked.from ?? '');
  if (!first.ok) return first;
  if (!last.ok) return last;
  const [from, to] = [first.value, last.value];
  if (to < from) return failed(labelProblem('LABELS_NONE', `${from} to ${to} is no row of bag numbers`, 'from, to'));
  if (to - from >= MOST_LABELS)
    return failed(labelProblem('LABELS_TOO_MANY', `${to - from + 1} labels, at most ${MOST_LABELS}`, 'to'));
  return rollLabels(state, from, to);
}
