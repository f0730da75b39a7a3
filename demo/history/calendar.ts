/** Days and hours of the invented shop. INVENTED. */
const DAY_MS = 86_400_000;
export const START_OF_WORK = 8 * 60 + 20;
export const END_OF_WORK = 17 * 60 + 40;

/** The shop keeps summer time until the last Sunday of October and from the last Sunday of March. */
function offsetOf(date: string): '+01:00' | '+00:00' {
  return date < '2025-10-26' || date >= '2026-03-29' ? '+01:00' : '+00:00';
}

/** A time of day as entries write it. */
export function at(date: string, minute: number): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${date}T${two(Math.floor(minute / 60))}:${two(minute % 60)}:00${offsetOf(date)}`;
}

export function nextWorkday(date: string): string {
  let ms = Date.parse(`${date}T12:00:00Z`);
  let day = date;
  do {
    ms += DAY_MS;
    day = new Date(ms).toISOString().slice(0, 10);
  } while ([0, 6].includes(new Date(ms).getUTCDay()));
  return day;
}
