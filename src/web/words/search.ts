/** Search over part numbers, names and bags: every word must begin something; better beginnings come first. */
import type { FindItem } from '../state/job-view.ts';

export function searchParts(items: readonly FindItem[], text: string, most = 40): readonly FindItem[] {
  const words = plain(text)
    .split(' ')
    .filter((w) => w !== '');
  if (words.length === 0) return items.slice(0, most);
  const hits: { readonly item: FindItem; readonly score: number; readonly at: number }[] = [];
  for (const [at, item] of items.entries()) {
    const scores = words.map((w) => scoreOf(item, w));
    if (scores.every((s) => s > 0)) hits.push({ item, at, score: scores.reduce((a, b) => a + b, 0) });
  }
  return hits
    .sort((a, b) => b.score - a.score || a.item.name.length - b.item.name.length || a.at - b.at)
    .slice(0, most)
    .map((h) => h.item);
}

function scoreOf(item: FindItem, word: string): number {
  const id = plain(item.id);
  const bag = plain(item.bag ?? '');
  const name = plain(item.name);
  if (id === word || bag === word) return 12;
  if (id.startsWith(word) || bag.startsWith(word)) return 8;
  if (headOf(item.name) === word) return 7.5;
  if (name.startsWith(word)) return 7;
  if (` ${name}`.includes(` ${word}`)) return 5;
  if (name.includes(word)) return 2;
  if (` ${plain(item.more)}`.includes(` ${word}`)) return 1;
  return 0;
}

/** What the thing is: the last word before the first comma ("Main spring, port" is a spring). */
function headOf(name: string): string {
  return (
    plain(name.split(',')[0] ?? '')
      .split(' ')
      .at(-1) ?? ''
  );
}

/** Lower case without accents; punctuation to spaces, but the hyphen of a part number stays. */
export function plain(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9.-]+/g, ' ')
    .trim();
}
