/**
 * The lettering of prints: that of the screen (B612 for codes and numbers, Barlow Condensed for words), and DejaVu for
 * every other script. Only these are used, never a font of the machine, so that a print is the same on all machines.
 *
 * In the built program the fonts lie in dist/fonts, where the build puts them (`tools/build.mjs`); from the source
 * they are taken from the packages. Looked for once.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sfntOfWoff } from './woff.ts';

/** Name of the file in dist/fonts, and where it is in the packages. The same list stands in `tools/build.mjs`. */
export const LETTERING: readonly (readonly [file: string, source: string])[] = [
  ['b612-400.woff', '@fontsource/b612/files/b612-latin-400-normal.woff'],
  ['b612-700.woff', '@fontsource/b612/files/b612-latin-700-normal.woff'],
  ['barlow-500.woff', '@fontsource/barlow-condensed/files/barlow-condensed-latin-500-normal.woff'],
  ['barlow-600.woff', '@fontsource/barlow-condensed/files/barlow-condensed-latin-600-normal.woff'],
  ['barlow-700.woff', '@fontsource/barlow-condensed/files/barlow-condensed-latin-700-normal.woff'],
];
const OTHER_SCRIPTS = ['ttf/DejaVuSans.ttf', 'ttf/DejaVuSansCondensed.ttf', 'ttf/DejaVuSansCondensed-Bold.ttf'];

const here = dirname(fileURLToPath(import.meta.url));

let kept: readonly Buffer[] | null = null;

export function printFonts(): readonly Buffer[] {
  kept ??= [...LETTERING.map(([file, source]) => sfntOfWoff(readFileSync(pathOf(file, source)))), ...dejavu()];
  return kept;
}

/** Chunks of the bundle lie in dist/chunks, its entry in dist. */
function pathOf(file: string, source: string): string {
  const built = [join(here, 'fonts', file), join(here, '..', 'fonts', file)].find((p) => existsSync(p));
  return built ?? resolved(source);
}

function resolved(path: string): string {
  const require = createRequire(import.meta.url);
  const [scope = '', name = ''] = path.split('/');
  const pack = scope.startsWith('@') ? `${scope}/${name}` : scope;
  return join(dirname(require.resolve(`${pack}/package.json`)), path.slice(pack.length + 1));
}

function dejavu(): Buffer[] {
  return OTHER_SCRIPTS.map((f) => readFileSync(resolved(`dejavu-fonts-ttf/${f}`)));
}
