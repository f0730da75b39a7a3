/**
 * Builds the program (one bundle for server and command line) and the page. Runs under plain Node 20, so it is
 * JavaScript. A build writes to a folder of its own and moves it into place, so that two at once cannot mix.
 */
import { copyFileSync, mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';
import { build as viteBuild } from 'vite';

const top = dirname(dirname(fileURLToPath(import.meta.url)));

export async function build() {
  const started = Date.now();
  process.stderr.write('building the program and the page ... ');
  mkdirSync(join(top, 'node_modules', '.cache'), { recursive: true });
  const out = mkdtempSync(join(top, 'node_modules', '.cache', 'witnessmark-build-'));
  const startedAt = new Date(started);
  await esbuild.build({
    entryPoints: { cli: join(top, 'src/cli/main.ts'), 'plan-worker': join(top, 'src/server/plan-worker.ts') },
    outdir: out,
    bundle: true,
    splitting: true,
    chunkNames: 'chunks/[name]-[hash]',
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    sourcemap: true,
    logLevel: 'warning',
    loader: { '.json': 'json', '.svg': 'text' },
  });
  await viteBuild({
    configFile: join(top, 'vite.config.ts'),
    build: { outDir: join(out, 'web'), emptyOutDir: true },
    logLevel: 'warn',
  });
  copyFonts(join(out, 'fonts'));
  writeFileSync(join(out, 'built'), `${startedAt.toISOString()}\n`);
  const dist = join(top, 'dist');
  rmSync(dist, { recursive: true, force: true });
  renameSync(out, dist);
  process.stderr.write(`done in ${((Date.now() - started) / 1000).toFixed(1)} s\n`);
}

/** The lettering of prints, for src/store/print/fonts.ts; its packages are not there when the program is installed. */
const LETTERING = {
  'b612-400.woff': '@fontsource/b612/files/b612-latin-400-normal.woff',
  'b612-700.woff': '@fontsource/b612/files/b612-latin-700-normal.woff',
  'barlow-500.woff': '@fontsource/barlow-condensed/files/barlow-condensed-latin-500-normal.woff',
  'barlow-600.woff': '@fontsource/barlow-condensed/files/barlow-condensed-latin-600-normal.woff',
  'barlow-700.woff': '@fontsource/barlow-condensed/files/barlow-condensed-latin-700-normal.woff',
};

function copyFonts(folder) {
  mkdirSync(folder, { recursive: true });
  for (const [file, source] of Object.entries(LETTERING))
    copyFileSync(join(top, 'node_modules', source), join(folder, file));
}

if (process.argv[1] && import.meta.url.endsWith(process.argv[1].split('/').pop())) await build();
