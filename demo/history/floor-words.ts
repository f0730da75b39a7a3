/** Small acts of the floor that several parts of the story share. INVENTED. */
import { recording } from '../../src/journal/commands.ts';
import type { DataOf } from '../../src/journal/kinds/kinds.ts';
import type { By, Recorder } from './act.ts';
import { bagsOnWall } from './bagging.ts';
import { notePlaces, WALL_IDS, type WallId } from './places.ts';

export const mm = (text: string, value: number) => ({ text: `${text} mm`, si: { value: value / 1000, unit: 'm' } });
export const deg = (text: string, value: number) => ({
  text: `${text}°`,
  si: { value: (value * Math.PI) / 180, unit: 'rad' },
});

export function tag(r: Recorder, by: By, subject: string, word: DataOf<'tagged'>['tag'], says: string): void {
  r.record(by, recording('tagged', { subject, tag: word, says }), 0);
}

/** A new photograph of each wall, with the boxes of its shelves. */
export function wallNow(r: Recorder, by: By, when: string): void {
  const photos = new Map<WallId, string>();
  for (const wall of WALL_IDS) {
    const picture = { show: 'wall', wall, bags: bagsOnWall(r, wall) } as const;
    const hash = r.photo(by, `wall-${wall}-${when}`, picture, ['job'], `The ${wall} racks`);
    if (hash !== undefined) photos.set(wall, hash);
  }
  if (photos.size > 0) notePlaces(r, by, photos);
}

export function measured(
  r: Recorder,
  by: By,
  subject: string,
  aspect: string,
  texts: readonly string[],
  instrument: string,
  note: string,
): void {
  const readings = texts.map((t) => mm(t, Number(t)));
  r.record(by, recording('measured', { subject, aspect, readings, instrument, temperature: '14 °C', note }), 8);
}
