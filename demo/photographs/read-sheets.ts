/**
 * The drawing sheets as data: the size, the words of their look, each part as its own group of marks, and the dots of the
 * balloons. Read from the text; the sheets are our own and written in one manner (a part is a `<g data-part>`), so a
 * counter of groups is enough and no XML library is needed.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface Sheet {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  /** `<style>` and `<defs>`, with the colours written out. */
  readonly look: string;
  /** Everything that is drawn, without balloons, letters and leaders. */
  readonly drawn: string;
  /** Line -> its groups, each whole: a part may be drawn more than once on a sheet. */
  readonly parts: ReadonlyMap<string, readonly string[]>;
  readonly dots: ReadonlyMap<string, readonly [x: number, y: number]>;
}

/** The colours of a pencil drawing on warm paper. */
const COLOURS: Readonly<Record<string, string>> = {
  paper: '#F4EFE2',
  ink: '#2B2B2E',
  'ink-2': '#5B5C60',
  hair: '#B9AF98',
  signal: '#A93418',
};

export function readSheets(folder: string): readonly Sheet[] {
  return readdirSync(folder)
    .filter((f) => f.endsWith('.svg'))
    .sort((a, b) => Number(GENERAL.has(a)) - Number(GENERAL.has(b)) || a.localeCompare(b))
    .map((f) => readSheet(f.replace('.svg', ''), readFileSync(join(folder, f), 'utf8')));
}

/** Views of the whole aircraft: used where no sheet of its own draws the part. */
const GENERAL = new Set(['side.svg', 'plan.svg', 'front.svg']);

export function readSheet(id: string, source: string): Sheet {
  const text = source
    .replace(/var\(--([a-z0-9-]+)(?:,[^)]*)?\)/g, (_, name: string) => COLOURS[name] ?? COLOURS.ink ?? '')
    .replace(/<!--[\s\S]*?-->/g, '');
  const [, w = '1600', h = '1000'] = /viewBox="0 0 (\d+) (\d+)"/.exec(text) ?? [];
  const look = [...text.matchAll(/<(style|defs)>[\s\S]*?<\/\1>/g)].map((m) => m[0]).join('');
  const body = text
    .replace(/<(style|defs|title|desc)[^>]*>[\s\S]*?<\/\1>/g, '')
    .replace(/<text[\s\S]*?<\/text>/g, '')
    .replace(/<svg[^>]*>|<\/svg>/g, '')
    .replace(/<rect class="sheet"[^>]*\/>/g, '');
  const dots = new Map<string, readonly [number, number]>();
  for (const [start, end] of groups(body, /<g class="balloon" data-for="([^"]+)"[^>]*>/g)) {
    const marks = body.slice(start, end);
    const line = /data-for="([^"]+)"/.exec(marks)?.[1] ?? '';
    const dot = /class="dot" cx="([\d.-]+)" cy="([\d.-]+)"/.exec(marks);
    if (dot !== null && !dots.has(line)) dots.set(line, [Number(dot[1]), Number(dot[2])]);
  }
  const bare = without(
    body,
    groups(body, /<g id="[a-z-]*balloons"[^>]*>|<g class="balloon"[^>]*>|<g class="heading"[^>]*>|<g id="axes"[^>]*>/g),
  );
  const parts = new Map<string, readonly string[]>();
  for (const [start, end] of groups(bare, /<g [^>]*data-part="[^"]+"[^>]*>/g)) {
    const marks = bare.slice(start, end);
    const line = (/data-part="([^"]+)"/.exec(marks)?.[1] ?? '').split('.')[0] ?? '';
    parts.set(line, [...(parts.get(line) ?? []), marks]);
  }
  return { id, width: Number(w), height: Number(h), look, drawn: bare, parts, dots };
}

/** From where each group begins to behind where it ends; groups inside a found one are not given again. */
function groups(text: string, open: RegExp): readonly (readonly [number, number])[] {
  const found: [number, number][] = [];
  for (const m of text.matchAll(open)) {
    const start = m.index;
    if (start < (found.at(-1)?.[1] ?? 0)) continue;
    const tag = /<g[\s>]|<\/g>/g;
    tag.lastIndex = start;
    let deep = 0;
    for (let t = tag.exec(text); t !== null; t = tag.exec(text)) {
      deep += t[0] === '</g>' ? -1 : 1;
      if (deep > 0) continue;
      found.push([start, tag.lastIndex]);
      break;
    }
  }
  return found;
}

function without(text: string, ranges: readonly (readonly [number, number])[]): string {
  let at = 0;
  let kept = '';
  for (const [start, end] of ranges) {
    kept += text.slice(at, start);
    at = end;
  }
  return kept + text.slice(at);
}
