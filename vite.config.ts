import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { offlinePage } from './tools/offline-build.ts';

/** The web page. `npm run build` leaves it in dist/web, where the server looks for it. */
export default defineConfig(({ command }) => {
  // A build started from a test run would otherwise carry the libraries' development halves.
  if (command === 'build') process.env.NODE_ENV = 'production';
  const shop = `http://localhost:${process.env.WITNESSMARK_PORT ?? '4377'}`;
  return {
    root: 'src/web',
    base: '/',
    plugins: [react(), offlinePage()],
    build: { outDir: '../../dist/web', emptyOutDir: true, target: 'es2022', assetsInlineLimit: 0, manifest: true },
    worker: { format: 'es' },
    // The shop's machine records only for its own page: while developing, this page speaks as that one.
    server: { proxy: { '/api': { target: shop, changeOrigin: true, headers: { origin: shop } } } },
  };
});
