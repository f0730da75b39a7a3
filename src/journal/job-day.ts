/**
 * The day a job stands on, for its list and its title: the day of the last entry. An invented job stands on the morning
 * after its story ends; once something is recorded from a page, on the day of that.
 */
import type { State } from './state.ts';

/** Noted by the program on its own clock: no day of work. */
const BY_ITSELF = /^(bags-set-aside|device-noted)\./;

/** ISO 8601, a day or a time; empty when nothing is recorded. */
export function dayOfJob(state: State): string {
  const last = state.log.findLast((e) => !BY_ITSELF.test(e.kind));
  if (last === undefined) return '';
  const isStory =
    (state.job?.invented ?? false) && !last.device.startsWith('web-') && Number(last.at.slice(11, 13)) >= 12;
  return isStory ? nextWorkday(last.at) : last.at;
}

function nextWorkday(iso: string): string {
  const day = new Date(`${iso.slice(0, 10)}T12:00:00Z`);
  do day.setUTCDate(day.getUTCDate() + 1);
  while (day.getUTCDay() === 0 || day.getUTCDay() === 6);
  return day.toISOString().slice(0, 10);
}
