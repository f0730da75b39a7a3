/** How this device stands to the shop's machine, in words for the heading: what waits, for how long, and why. */
import type { Problem } from '../../domain/problem.ts';
import type { JobSnapshot } from './job-store.ts';
import type { Lasting } from './persist.ts';

type Told = Pick<
  JobSnapshot,
  'awaySince' | 'pending' | 'photosWaiting' | 'soundsWaiting' | 'problem' | 'deviceProblem'
>;

/** `isKept` false: a plain page of the shop's network, which the browser does not keep for work without it. */
export function networkWords(
  s: Told,
  now: number,
  isKept = true,
  lasting: Lasting = 'lasting',
): { readonly words: string; readonly away: boolean } {
  const waiting = [
    ...(isKept ? [] : ['connected capture only']),
    ...(s.pending === 0 ? [] : [`${s.pending} to send`]),
    ...(s.photosWaiting === 0 ? [] : [`${many(s.photosWaiting, 'photograph')} not yet copied to the office`]),
    ...(s.soundsWaiting === 0 ? [] : [`${many(s.soundsWaiting, 'sound')} not yet copied to the office`]),
    ...(lasting === 'while-there-is-room' && s.photosWaiting + s.soundsWaiting > 0
      ? ['this browser keeps them only while the device has room']
      : []),
  ];
  const said = (head: string): string => [head, ...waiting].join(' · ');
  if (s.deviceProblem !== null) return { words: said(whole(s.deviceProblem)), away: true };
  if (s.problem !== null) return { words: said(`kept here, not taken in: ${whole(s.problem)}`), away: true };
  if (s.awaySince === null) return { words: said('here'), away: false };
  const minutes = Math.floor((now - s.awaySince) / 60_000);
  return { words: said(sinceWords(minutes)), away: true };
}

function sinceWords(minutes: number): string {
  if (minutes < 1) return 'away just now';
  return minutes < 90 ? `away ${minutes} min` : `away ${Math.round(minutes / 60)} h`;
}

function many(n: number, what: string): string {
  return `${n} ${what}${n === 1 ? '' : 's'}`;
}

function whole(problem: Problem): string {
  const message = /[.!?]$/.test(problem.message) ? problem.message : `${problem.message}.`;
  return `${message} ${problem.remedy}`;
}
