/**
 * A text as a QR code: for each row the runs of dark modules, as (first, length). Error correction M at least, and better
 * where it makes the code no larger: a smeared label is then still read.
 */
import qrcode from 'qrcode';

/** Light modules around the code that readers need (ISO/IEC 18004: four). */
export const QUIET = 4;

export function qrRuns(text: string): readonly (readonly (readonly [number, number])[])[] {
  const { size, data } = bestCode(text).modules;
  return Array.from({ length: size }, (_, y) => {
    const runs: [number, number][] = [];
    for (let x = 0; x < size; x += 1) {
      if (data[y * size + x] === 0) continue;
      const last = runs.at(-1);
      if (last !== undefined && last[0] + last[1] === x) last[1] += 1;
      else runs.push([x, 1]);
    }
    return runs;
  });
}

function bestCode(text: string): qrcode.QRCode {
  const plain = qrcode.create(text, { errorCorrectionLevel: 'M' });
  for (const level of ['H', 'Q'] as const) {
    const stronger = qrcode.create(text, { errorCorrectionLevel: level });
    if (stronger.version === plain.version) return stronger;
  }
  return plain;
}
