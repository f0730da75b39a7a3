/** Figures as they are read at arm's length: hours and minutes, kilograms with doubt, dates in words. */

/** 72 -> "1:12". */
export function clock(minutes: number): string {
  const whole = Math.round(minutes);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** "72 min" is read aloud as words; "1:12" is not. */
export function clockWords(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  const parts = [hours > 0 ? count(hours, 'hour') : '', rest > 0 || hours === 0 ? count(rest, 'minute') : ''];
  return parts.filter((p) => p !== '').join(' ');
}

export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** "51 ± 9 kg". */
export function kilograms(kg: number, plusMinus: number): string {
  const doubt = Math.round(plusMinus);
  return doubt > 0 ? `${Math.round(kg)} ± ${doubt} kg` : `${Math.round(kg)} kg`;
}

/** "Tue 18 November 2025", from an ISO text; the day as written, not as this machine's zone would have it. */
export function dayWords(iso: string): string {
  const day = new Date(`${iso.slice(0, 10)}T12:00:00Z`);
  if (Number.isNaN(day.getTime())) return iso;
  const short = new Intl.DateTimeFormat('en-GB', { weekday: 'short', timeZone: 'UTC' }).format(day);
  const long = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });
  return `${short} ${long.format(day)}`;
}

/** "09:14", the hour as written by whoever recorded it. */
export function hourOf(iso: string): string {
  return iso.slice(11, 16);
}

/** "a, b and c". */
export function listWords(words: readonly string[], last = 'and'): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

/** The first few, the rest counted: "a, b and 3 more". */
export function fewWords(words: readonly string[], most: number): string {
  if (words.length <= most) return listWords(words);
  return `${words.slice(0, most).join(', ')} and ${words.length - most} more`;
}
