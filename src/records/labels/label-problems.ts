/** Every Problem of labels and tags: what it means and what can be done. `docs/errors.md` is made from this list. */
import { type Problem, type ProblemList, problem } from '../../domain/problem.ts';

export const LABEL_PROBLEMS = {
  FORM_UNKNOWN: {
    meaning: 'No label form has this name, and it is no size.',
    remedy: 'Take one of the names, or a size as width x height in millimetres, for example 62x29.',
  },
  FORM_SIZE: {
    meaning: 'A measure of a label form is no number of millimetres that can be printed.',
    remedy: 'Measure the stock and give millimetres, for example 63.5x33.9; gaps and margins may be 0, sizes may not.',
  },
  FORM_DOES_NOT_FIT: {
    meaning: 'The labels with their gaps and margins are larger than the sheet.',
    remedy: 'Measure one label, the gap and the margin again; width and height, columns and rows may be swapped.',
  },
  LABEL_TOO_SMALL: {
    meaning: 'What must stand on the label (code at 6 mm, QR code, the words of a hazard) has no room on it.',
    remedy:
      'Take a larger label: a code under 6 mm is not read from one metre; hazard tags need 40 mm on their short side.',
  },
  LABEL_START: {
    meaning: 'The first free label named is not on the sheet.',
    remedy: 'Count from 1 at the upper left, along the row; a roll always begins at 1.',
  },
  LABELS_TOO_MANY: {
    meaning: 'More labels are asked for than one print takes.',
    remedy: 'Print them in several lots.',
  },
  LABELS_NONE: {
    meaning: 'There is nothing to print.',
    remedy: 'Name at least one id, or choose another kind of label.',
  },
  LABEL_KIND_UNKNOWN: {
    meaning: 'There is no label of that kind.',
    remedy: 'Choose bag, jar, part, place, tags, open, do-not-clean, quarantine, hazard or roll.',
  },
  LABEL_SUBJECT_UNKNOWN: {
    meaning: 'The job knows nothing of the id for which a label is wanted.',
    remedy: 'Take the id as it is shown on the screen; a bag that is still empty is printed as part of a roll.',
  },
  BAGS_NOT_SET_ASIDE: {
    meaning: 'The numbers for a roll were not set aside in this job, so another roll might carry them too.',
    remedy: 'Set numbers aside first (labels JOB --roll 100), then print exactly those.',
  },
} as const satisfies ProblemList;

export type LabelProblemCode = keyof typeof LABEL_PROBLEMS;

export function labelProblem(code: LabelProblemCode, message: string, where?: string): Problem {
  return problem(code, message, LABEL_PROBLEMS[code].remedy, where);
}
