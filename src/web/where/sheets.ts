/** All sheets of a job: those that people added, newest first, and the drawings that come with it. */
import type { State } from '../../journal/state.ts';
import { type DrawingSheet, sheetFor, sheetsOfJob } from '../drawing/catalogue.ts';
import type { JobView } from '../state/job-view.ts';
import { assemblyOfPart } from '../state/place-of.ts';
import { lastOff, partsOfSubject } from './marks.ts';

export type WhereSheet =
  | { readonly kind: 'drawing'; readonly id: string; readonly name: string; readonly drawing: DrawingSheet }
  | {
      readonly kind: 'own';
      readonly id: string;
      readonly name: string;
      readonly photo: string;
      readonly width: number;
      readonly height: number;
    };

export function whereSheets(state: State, job: JobView): readonly WhereSheet[] {
  const own = [...state.sheets.values()].reverse().map((s): WhereSheet => {
    const photo = state.photosByHash.get(s.photo);
    return {
      kind: 'own',
      id: s.sheet,
      name: s.name,
      photo: s.photo,
      width: photo?.width ?? 4,
      height: photo?.height ?? 3,
    };
  });
  const drawn = sheetsOfJob(job.invented).map(
    (d): WhereSheet => ({ kind: 'drawing', id: d.id, name: d.name, drawing: d }),
  );
  return [...own, ...drawn];
}

/** The sheet that shows a subject: where somebody pinned it, else the drawing of its assembly. */
export function sheetOfSubject(
  state: State,
  job: JobView,
  sheets: readonly WhereSheet[],
  subject: string,
): WhereSheet | undefined {
  const pinned =
    [...state.pins.values()].findLast((p) => p.subject === subject)?.pin.sheet ?? state.bags.get(subject)?.pin?.sheet;
  const by = sheets.find((s) => s.id === pinned);
  if (by !== undefined) return by;
  const part = partsOfSubject(job, state.bags.get(subject)?.of[0] ?? subject)[0] ?? subject;
  const drawings = sheets.flatMap((s) => (s.kind === 'drawing' ? [s.drawing] : []));
  const assembly = assemblyOfPart(job, part);
  const drawing = assembly === null ? undefined : sheetFor(drawings, assembly);
  return sheets.find((s) => s.id === drawing?.id);
}

/** Before anything is chosen: the sheet where work went on last. */
export function firstSheet(state: State, job: JobView, sheets: readonly WhereSheet[]): WhereSheet | undefined {
  const last = lastOff(state);
  return (last === null ? undefined : sheetOfSubject(state, job, sheets, last)) ?? sheets[0];
}
