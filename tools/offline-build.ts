/**
 * What the build adds so that the page can be kept on a device: the list of its files for the service worker, the
 * manifest, and the icons drawn from our own mark.
 */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import type { Plugin, PluginOption } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

const PAPER = '#F6F3EA';
const ICONS = [
  { file: 'icon-192.png', edge: 192, inset: 0.1, maskable: false },
  { file: 'icon-512.png', edge: 512, inset: 0.1, maskable: false },
  // What a phone cuts to its own shape keeps to the middle four fifths.
  { file: 'icon-maskable-512.png', edge: 512, inset: 0.22, maskable: true },
] as const;

/** The mark in PNG for phones that take no SVG, on paper, made anew with every build. */
function icons(): Plugin {
  return {
    name: 'witnessmark-icons',
    apply: 'build',
    async generateBundle() {
      const mark = await readFile(join(import.meta.dirname, '../src/web/public/mark.svg'));
      for (const { file, edge, inset } of ICONS) {
        const inner = Math.round(edge * (1 - 2 * inset));
        const drawn = await sharp(mark, { density: (72 * inner) / 32 })
          .resize(inner, inner)
          .png()
          .toBuffer();
        const sheet = sharp({ create: { width: edge, height: edge, channels: 4, background: PAPER } });
        const source = await sheet
          .composite([{ input: drawn, gravity: 'centre' }])
          .png({ compressionLevel: 9 })
          .toBuffer();
        this.emitFile({ type: 'asset', fileName: file, source });
      }
    },
  };
}

export function offlinePage(): PluginOption[] {
  return [
    icons(),
    VitePWA({
      strategies: 'generateSW',
      filename: 'sw.js',
      injectRegister: false,
      registerType: 'prompt',
      // The network's doors answer nothing without the device's cookie, the manifest neither.
      useCredentials: true,
      manifestFilename: 'witnessmark.webmanifest',
      manifest: {
        name: 'Witnessmark',
        short_name: 'Witnessmark',
        description: 'What holds what, what must come off first, and where every piece is.',
        id: '/',
        start_url: '/catch',
        scope: '/',
        display: 'standalone',
        orientation: 'any',
        background_color: PAPER,
        theme_color: PAPER,
        lang: 'en',
        icons: [
          { src: '/mark.svg', sizes: 'any', type: 'image/svg+xml' },
          ...ICONS.map(({ file, edge, maskable }) => ({
            src: `/${file}`,
            sizes: `${edge}x${edge}`,
            type: 'image/png',
            ...(maskable && { purpose: 'maskable' }),
          })),
        ],
      },
      workbox: {
        globPatterns: ['**/*.{js,css,html,svg,png,woff2,wasm,json}'],
        globIgnores: ['.vite/**'],
        maximumFileSizeToCacheInBytes: 8 * 1024 * 1024,
        navigateFallback: '/index.html',
        // The shop's entries, the pairing page and its certificate are asked of the machine itself, always.
        navigateFallbackDenylist: [/^\/api\//, /^\/pair/, /^\/ca\.crt/],
        inlineWorkboxRuntime: true,
        clientsClaim: true,
        skipWaiting: false,
        cleanupOutdatedCaches: true,
        sourcemap: false,
      },
    }),
  ];
}
