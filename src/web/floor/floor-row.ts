/** One row of the floor: a shape and a word, what it is, who said so and when, and what one tap does. Pure. */
import { nameOf, type Said, type State } from '../../journal/state.ts';
import type { JobView } from '../state/job-view.ts';
import { dayWords, hourOf } from '../words/figures.ts';

export type FloorShape = 'open' | 'hazard' | 'tag' | 'stuck' | 'inside' | 'away' | 'next' | 'came';

export interface FloorRow {
  readonly id: string;
  readonly shape: FloorShape;
  /** The word that stands with the shape. */
  readonly word: string;
  readonly title: string;
  readonly why: string;
  /** Where a tap leads. */
  readonly href: string;
  readonly photo: string | null;
  /** The part it is about, for the drawing. */
  readonly part: string | null;
  /** One tap that ends it, where there is one. */
  readonly ends?: { readonly kind: 'stop' | 'tag' | 'stuck'; readonly entry: string; readonly word: string };
}

export function saidBy(state: State, said: Said): string {
  return `${nameOf(state, said.by)}, ${dayWords(said.at).replace(/ \d{4}$/, '')} ${hourOf(said.at)}`;
}

export function partOf(job: JobView, subject: string): string | null {
  const bare = subject.replace(/^remove:/, '');
  if (job.names.find(bare) !== undefined) return bare;
  return job.names.partsOf(subject)[0] ?? null;
}

export function titleOf(job: JobView, state: State, subject: string): string {
  const bare = subject.replace(/^remove:/, '');
  if (job.names.find(bare) !== undefined) return job.names.part(bare);
  return (
    job.names.attachment(subject)?.name ?? state.lots.get(subject)?.what ?? state.bags.get(subject)?.code ?? subject
  );
}

export const partHref = (part: string | null, subject: string) => `/part?part=${encodeURIComponent(part ?? subject)}`;

export function photoOf(state: State, ids: readonly (string | null | undefined)[]): string | null {
  for (const id of ids) {
    const hash = id == null ? undefined : state.photos.get(id)?.at(-1)?.hash;
    if (hash !== undefined) return hash;
  }
  return null;
}
