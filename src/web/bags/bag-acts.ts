/** What can be done with a bag, a lot or the wall, and the entries that record it. Pure but for chance ids. */
import { type Command, recording } from '../../journal/commands.ts';
import type { DataOf } from '../../journal/kinds/kinds.ts';

export type Asking =
  | { readonly kind: 'move'; readonly what: string; readonly name: string }
  | { readonly kind: 'split' | 'count' | 'join' | 'rob'; readonly thing: string }
  | { readonly kind: 'explain'; readonly difference: string }
  | { readonly kind: 'tag' | 'goes'; readonly subject: string }
  | { readonly kind: 'place' | 'roll' }
  | { readonly kind: 'inside'; readonly zone: string | null }
  | { readonly kind: 'labels'; readonly bags: readonly string[] }
  | { readonly kind: 'scan' };

export type Goal = DataOf<'moved'>['to'];

export function move(what: string, to: Goal): Command {
  return recording('moved', { what, to });
}

export const TAGS = [
  { tag: 'do-not-clean', word: 'DO NOT CLEAN', says: 'dirt, marks or paint still tell something' },
  { tag: 'quarantine', word: 'QUARANTINE', says: 'doubtful; not to be fitted' },
  { tag: 'hazard', word: 'HAZARD', says: 'can hurt' },
  { tag: 'open', word: 'OPEN', says: 'left half done' },
] as const satisfies readonly { tag: DataOf<'tagged'>['tag']; word: string; says: string }[];

/** What the shop prints on. */
export const LABEL_FORMS = [
  ['roll-62x29', 'Roll, 62 × 29 mm'],
  ['a4-24', 'A4 sheet, 24 labels'],
] as const;

/** Forms of labels that the shop's printer knows by name (src/records/labels). */
export function labelsHref(job: string, bags: readonly string[], form: string): string {
  const q = new URLSearchParams({ what: 'bag', ids: bags.join(','), form });
  return `/api/jobs/${encodeURIComponent(job)}/labels.pdf?${q}`;
}
