/**
 * Codes in a picture: QR (the bag's code alone) by zxing-wasm, whose program is served by the shop's own machine and
 * fetched when somebody scans for the first time. What is no bag code is passed over, never guessed at.
 */
import wasmUrl from 'zxing-wasm/reader/zxing_reader.wasm?url';
import type { BagCode } from '../../domain/bag-code.ts';
import { bagIn } from './bag-in.ts';

type Reader = typeof import('zxing-wasm/reader');
let loaded: Promise<Reader> | null = null;

function reader(): Promise<Reader> {
  loaded ??= import('zxing-wasm/reader').then((m) => {
    m.prepareZXingModule({
      overrides: { locateFile: (path: string, prefix: string) => (path.endsWith('.wasm') ? wasmUrl : prefix + path) },
    });
    return m;
  });
  loaded.catch(() => {
    loaded = null;
  });
  return loaded;
}

/** Fetches the reader ahead, while the camera is still starting. */
export function warmReader(): void {
  void reader().catch(() => undefined);
}

export async function bagsIn(picture: Blob | ImageData): Promise<readonly BagCode[]> {
  const { readBarcodes } = await reader();
  const found = await readBarcodes(picture, { formats: ['QRCode'], tryHarder: true, maxNumberOfSymbols: 8 });
  return [...new Set(found.flatMap((f) => bagIn(f.text) ?? []))];
}
