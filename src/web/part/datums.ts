/** Datum readings before the strip and after: means, and what changed. Pure; a difference only where both have one unit. */
import type { DataOf } from '../../journal/kinds/kinds.ts';
import type { Noted, State } from '../../journal/state.ts';
import { cellNumber, round } from './figures.ts';

export type DatumRead = Noted<DataOf<'datum-read'>>;

export interface DatumRow {
  readonly datum: string;
  readonly sort: DatumRead['sort'];
  readonly before: DatumRead | null;
  readonly after: DatumRead | null;
  /** "−3 mm", "not to be compared"; null while one of them is missing. */
  readonly change: string | null;
}

export function datumRows(state: State): readonly DatumRow[] {
  return [...state.datums].map(([datum, all]) => {
    const before = all.findLast((d) => d.when === 'before') ?? null;
    const after = all.findLast((d) => d.when === 'after') ?? null;
    return { datum, sort: all[0]?.sort ?? 'other', before, after, change: changeWords(before, after) };
  });
}

export function readingsWords(d: DatumRead | null): string {
  return d === null ? '' : d.readings.map((r) => r.text).join(' · ');
}

/** The mean of repeats, with the unit they share; null when they have none in common. */
export function meanOf(d: DatumRead): { readonly value: number; readonly unit: string } | null {
  const read = d.readings.map((r) => ({ value: cellNumber(r.text), unit: unitOf(r.text) }));
  const unit = read[0]?.unit ?? '';
  if (read.some((r) => r.value === null || r.unit !== unit)) return null;
  return { value: read.reduce((sum, r) => sum + (r.value ?? 0), 0) / read.length, unit };
}

function unitOf(text: string): string {
  return text.replace(/^\s*[+\-−]?(?:\d{1,3}(?:[ \u2009\u202f]\d{3})+|\d+)(?:[.,]\d+)?\s*/, '').trim();
}

export function changeWords(before: DatumRead | null, after: DatumRead | null): string | null {
  if (before === null || after === null) return null;
  const a = meanOf(before);
  const b = meanOf(after);
  if (a === null || b === null || a.unit !== b.unit) return 'not to be compared';
  const change = round(Number((b.value - a.value).toFixed(6)));
  const sign = change > 0 ? '+' : change < 0 ? '−' : '±';
  return `${sign}${Math.abs(change)} ${a.unit}`.trim();
}
