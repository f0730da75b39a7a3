/** Labels onto sheets or rolls: which label lies where, by millimetres, beginning at the first free one of a used sheet. */
import { failed, ok, type Result } from '../../domain/result.ts';
import { drawLabel } from './draw-label.ts';
import type { Label } from './label.ts';
import type { LabelForm } from './label-form.ts';
import { labelProblem } from './label-problems.ts';
import type { PlacedLabel, PrintDocument } from './print-document.ts';

export const MOST_LABELS = 500;

export interface Placing {
  readonly title: string;
  readonly madeAt: string;
  /** First label to be used of the first sheet, from 1. */
  readonly start?: number;
}

export function placeLabels(labels: readonly Label[], form: LabelForm, o: Placing): Result<PrintDocument> {
  const onePage = form.columns * form.rows;
  const start = o.start ?? 1;
  if (labels.length === 0) return failed(labelProblem('LABELS_NONE', 'no label is to be printed'));
  if (labels.length > MOST_LABELS)
    return failed(labelProblem('LABELS_TOO_MANY', `${labels.length} labels are asked for, at most ${MOST_LABELS}`));
  if (!Number.isInteger(start) || start < 1 || start > onePage)
    return failed(labelProblem('LABEL_START', `label ${start} is not on a sheet of ${onePage}`, 'start'));
  const pages: PlacedLabel[][] = [];
  for (const [i, label] of labels.entries()) {
    const marks = drawLabel(label, { ...form.label, hole: form.hole });
    if (!marks.ok) return marks;
    const at = start - 1 + i;
    const page = (pages[Math.floor(at / onePage)] ??= []);
    page.push({ ...placeOf(form, at % onePage), marks: marks.value });
  }
  return ok({ title: o.title, page: form.page, ink: form.ink, pages, madeAt: o.madeAt });
}

function placeOf(form: LabelForm, at: number): Omit<PlacedLabel, 'marks'> {
  const column = at % form.columns;
  const row = Math.floor(at / form.columns);
  return {
    x: form.margin.x + column * (form.label.w + form.gap.x),
    y: form.margin.y + row * (form.label.h + form.gap.y),
    ...form.label,
  };
}
