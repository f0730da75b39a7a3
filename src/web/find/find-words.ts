/** Names, shortened words and addresses that every found thing needs. Pure. */
import type { State } from '../../journal/state.ts';

export const partHref = (id: string): string => `/part?part=${encodeURIComponent(id)}`;

export function nameIn(state: State, id: string): string {
  const position = state.positions.get(id);
  return (
    state.rigParts.get(id)?.name ??
    state.rigAttachments.get(id)?.name ??
    position?.name ??
    state.pieces.get(id)?.name ??
    state.lots.get(id)?.what ??
    state.lines.get(id)?.name ??
    (id === 'job' ? 'the job' : id)
  );
}

export function shortened(text: string): string {
  return text.length <= 110 ? text : `${text.slice(0, 107).trimEnd()} …`;
}

export function isText(w: string | null | undefined): w is string {
  return w != null && w !== '';
}
