/**
 * A text as a QR code: its dark runs, row by row. Error correction M at least, and better where it makes the code no
 * larger: a smeared label is then still read.
 */
import qrcode from 'qrcode';

/** Light modules around the code that readers need (ISO/IEC 18004: four). */
const QUIET = 4;

export interface QrRuns {
  /** Modules along a side, quiet zone included. */
  readonly side: number;
  /** Dark modules: first column, row, how many. */
  readonly runs: readonly (readonly [x: number, y: number, n: number])[];
}

export function qrRuns(text: string): QrRuns {
  const { size, data } = bestCode(text).modules;
  const runs: [number, number, number][] = [];
  for (let y = 0; y < size; y += 1) {
    let from = -1;
    for (let x = 0; x <= size; x += 1) {
      const isDark = x < size && data[y * size + x] !== 0;
      if (isDark && from < 0) from = x;
      if (isDark || from < 0) continue;
      runs.push([from + QUIET, y + QUIET, x - from]);
      from = -1;
    }
  }
  return { side: size + 2 * QUIET, runs };
}

function bestCode(text: string): qrcode.QRCode {
  const plain = qrcode.create(text, { errorCorrectionLevel: 'M' });
  for (const level of ['H', 'Q'] as const) {
    const stronger = qrcode.create(text, { errorCorrectionLevel: level });
    if (stronger.version === plain.version) return stronger;
  }
  return plain;
}
