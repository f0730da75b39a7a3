/**
 * What a picture stands on: bench top, felt, slate floor, as pencil and wash. Drawn once for each kind and kept, since a
 * picture differs from the next only by what lies there.
 */
export const WIDE = 800;
export const HIGH = 600;

export const INK = '#2B2B2E';
export const PENCIL = '#6F6A60';
export const PAPER = '#F4EFE2';
export const CARD = '#FBF7EA';
export const KRAFT = '#C9A877';

/** A run of numbers between 0 and 1 that is the same each time. */
export function dice(seed: string): () => number {
  let h = 2166136261;
  for (const c of seed) h = Math.imul(h ^ (c.codePointAt(0) ?? 0), 16777619);
  return () => {
    h = Math.imul(h ^ (h >>> 15), 2246822507);
    h = Math.imul(h ^ (h >>> 13), 3266489909);
    h ^= h >>> 16;
    return (h >>> 0) / 4294967296;
  };
}

export const GROUNDS = ['oak', 'felt', 'slate'] as const;
export type Ground = (typeof GROUNDS)[number];

export function ground(kind: Ground, pixels: number): string {
  const [width, high] = [WIDE, HIGH];
  const draw = { oak, felt, slate }[kind];
  const light = `<defs><radialGradient id="gl" cx=".36" cy=".28" r="1"><stop offset="0" stop-color="#FFFDF4" stop-opacity=".55"/><stop offset=".5" stop-color="#FFFDF4" stop-opacity=".08"/><stop offset="1" stop-color="#2A241A" stop-opacity=".34"/></radialGradient></defs><rect width="${width}" height="${high}" fill="url(#gl)"/>`;
  return wrap(`${draw(width, high)}${light}`, pixels);
}

/** A drawing of 800 by 600 units, `pixels` wide. */
export function wrap(body: string, pixels: number): string {
  const high = (pixels * HIGH) / WIDE;
  return `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="${pixels}" height="${high}" viewBox="0 0 ${WIDE} ${HIGH}">${body}</svg>`;
}

/** Boards with grain: long pencil lines that swing round a knot here and there. */
function oak(w: number, h: number): string {
  const r = dice('oak');
  const boards: string[] = [];
  const tall = h / 3.2;
  for (let top = -20; top < h; top += tall) {
    const tone = ['#D9C6A3', '#D3BE98', '#DECDAC'][Math.floor(r() * 3)];
    boards.push(`<rect x="0" y="${top}" width="${w}" height="${tall}" fill="${tone}"/>`);
    for (let i = 0; i < 26; i += 1) {
      const y = top + r() * tall;
      const swing = (r() - 0.5) * 26;
      boards.push(
        `<path d="M${-20} ${y.toFixed(1)}C${(w * 0.3).toFixed(0)} ${(y + swing).toFixed(1)} ${(w * 0.6).toFixed(0)} ${(y - swing).toFixed(1)} ${w + 20} ${(y + swing * 0.4).toFixed(1)}" fill="none" stroke="#8A7149" stroke-opacity="${(0.1 + r() * 0.25).toFixed(2)}" stroke-width="${(0.5 + r() * 1.1).toFixed(1)}"/>`,
      );
    }
    boards.push(`<path d="M0 ${top}H${w}" stroke="#5B4A2E" stroke-width="2.2" stroke-opacity=".65"/>`);
  }
  return boards.join('');
}

/** Grey felt: short pencil strokes laid one way. */
function felt(w: number, h: number): string {
  const r = dice('felt');
  const strokes: string[] = [];
  for (let i = 0; i < 900; i += 1) {
    const x = r() * w;
    const y = r() * h;
    const long = 8 + r() * 22;
    strokes.push(`M${x.toFixed(0)} ${y.toFixed(0)}l${long.toFixed(0)} ${(-long * 0.7).toFixed(0)}`);
  }
  return `<rect width="${w}" height="${h}" fill="#BDBBAF"/><path d="${strokes.join('')}" fill="none" stroke="#7E7D74" stroke-opacity=".28" stroke-width="1"/>`;
}

/** Slate slabs. */
function slate(w: number, h: number): string {
  const r = dice('slate');
  const slabs: string[] = [`<rect width="${w}" height="${h}" fill="#A9AEAE"/>`];
  for (let i = 0; i < 140; i += 1) {
    const x = r() * w;
    const y = r() * h;
    slabs.push(
      `<path d="M${x.toFixed(0)} ${y.toFixed(0)}q${(20 + r() * 40).toFixed(0)} ${((r() - 0.5) * 10).toFixed(0)} ${(50 + r() * 90).toFixed(0)} ${((r() - 0.5) * 14).toFixed(0)}" fill="none" stroke="#6E7779" stroke-opacity="${(0.12 + r() * 0.2).toFixed(2)}" stroke-width="${(0.6 + r()).toFixed(1)}"/>`,
    );
  }
  slabs.push(
    `<path d="M0 ${h * 0.34}L${w} ${h * 0.3}M0 ${h * 0.82}L${w} ${h * 0.76}M${w * 0.3} 0L${w * 0.27} ${h * 0.32}M${w * 0.66} ${h * 0.31}L${w * 0.7} ${h * 0.78}M${w * 0.22} ${h * 0.81}L${w * 0.2} ${h}" fill="none" stroke="#5C6566" stroke-width="2" stroke-opacity=".55"/>`,
  );
  return slabs.join('');
}
