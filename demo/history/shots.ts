/**
 * What was photographed, said before a pixel exists. INVENTED; every picture is drawn for the demonstration.
 *
 * A `photo-taken` entry names its picture by the hash of the file, and the file holds the time. So the history is told
 * twice: once to learn which shots were taken and when, then, with the pictures made, to record them. A shot takes no
 * time, so both tellings give the same times.
 */
import type { PhotoInfo } from '../../src/journal/ports.ts';
import type { WallId } from './places.ts';

/** What is on the picture. */
export type Picture =
  /** A part on the bench beside its bag card; the shut bag where no sheet draws the part. */
  | { readonly show: 'part'; readonly line: string; readonly count: number }
  /** Where it sits, before it is touched: a piece of the sheet around it. */
  | { readonly show: 'in-place'; readonly line: string }
  /** Up to four on a tray, each with its card. */
  | { readonly show: 'tray'; readonly lines: readonly (readonly [line: string, count: number])[] }
  | { readonly show: 'wall'; readonly wall: WallId; readonly bags: Readonly<Record<string, readonly string[]>> }
  /** One of the eight sides of the walk round, 1 from the bow, clockwise seen from above. */
  | { readonly show: 'round'; readonly side: number }
  | { readonly show: 'keel' }
  | { readonly show: 'tear' };

export type Camera = keyof typeof CAMERAS;
/** Invented cameras. One writes no zone, and nobody set it back in October. */
export const CAMERAS = {
  'shared-tablet': { make: 'Sandling', model: 'T4', zone: true, fast: 0 },
  'joss-tablet': { make: 'Sandling', model: 'T2', zone: true, fast: 0 },
  'rosalind-phone': { make: 'Orrery', model: 'P7', zone: true, fast: 0 },
  'bench-laptop': { make: 'Bantock', model: 'Field 35', zone: false, fast: 60 },
} as const;

export interface Shot {
  readonly id: string;
  readonly picture: Picture;
  readonly of: readonly string[];
  readonly caption: string;
  readonly camera: Camera;
  /** As the camera writes it: `2025:11:17 09:20:00` and its zone, where it has one. */
  readonly time: string;
  readonly zone: string | null;
}

export type Pictures = ReadonlyMap<string, PhotoInfo>;
export const NO_PICTURES: Pictures = new Map();
export const DRAWN = 'drawn for the demonstration';

/** The camera's text for an entry's time, with what its clock is wrong by. */
export function cameraTime(at: string, camera: Camera): { readonly time: string; readonly zone: string | null } {
  const { zone, fast } = CAMERAS[camera];
  const offset = at.slice(19);
  // A clock that was left on summer time runs an hour ahead of the shop's in winter.
  const wrong = offset === '+00:00' ? fast : 0;
  const ms = Date.parse(`${at.slice(0, 19)}Z`) + wrong * 60_000;
  const text = new Date(ms).toISOString();
  return { time: `${text.slice(0, 10).replaceAll('-', ':')} ${text.slice(11, 19)}`, zone: zone ? offset : null };
}

export function isCamera(device: string): device is Camera {
  return Object.hasOwn(CAMERAS, device);
}
