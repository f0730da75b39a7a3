/**
 * Points on a sheet and points under the pointer. A pin is kept in parts of the width and height of the whole sheet (the
 * drawing's own view box, or the photograph), so it stays where it is when the drawing is cropped, moved or scaled.
 *
 * The window shows a crop of the sheet as large as fits, centred, then moved and scaled by `View`.
 */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box extends Point {
  readonly width: number;
  readonly height: number;
}

/** What a sheet is, once it is on the screen. */
export interface SheetShown {
  readonly whole: Box;
  /** The part of it in the window when nothing is moved. */
  readonly crop: Box;
  /** Where each drawing line sits, in parts of the whole; several where it is drawn several times. */
  readonly places: ReadonlyMap<string, readonly Point[]>;
}

export interface Placing {
  readonly shown: SheetShown;
  readonly window: { readonly width: number; readonly height: number };
  readonly view: Point & { readonly scale: number };
}

function fitted({ shown, window }: Placing): Point & { readonly by: number } {
  const by = Math.min(window.width / shown.crop.width, window.height / shown.crop.height);
  return { by, x: (window.width - shown.crop.width * by) / 2, y: (window.height - shown.crop.height * by) / 2 };
}

export function toWindow(at: Point, p: Placing): Point {
  const { whole, crop } = p.shown;
  const fit = fitted(p);
  return {
    x: p.view.x + p.view.scale * (fit.x + (whole.x + at.x * whole.width - crop.x) * fit.by),
    y: p.view.y + p.view.scale * (fit.y + (whole.y + at.y * whole.height - crop.y) * fit.by),
  };
}

/** The other way; never outside the sheet. */
export function toSheet(at: Point, p: Placing): Point {
  const { whole, crop } = p.shown;
  const fit = fitted(p);
  const x = ((at.x - p.view.x) / p.view.scale - fit.x) / fit.by + crop.x;
  const y = ((at.y - p.view.y) / p.view.scale - fit.y) / fit.by + crop.y;
  return { x: unit((x - whole.x) / whole.width), y: unit((y - whole.y) / whole.height) };
}

/** Four decimals: a tenth of a millimetre on a sheet of a metre. */
function unit(n: number): number {
  return Math.round(Math.min(1, Math.max(0, n)) * 10_000) / 10_000;
}

/** The place of the nth thing drawn as this line; the last one when it is drawn fewer times. */
export function placeAt(shown: SheetShown, line: string, nth: number): Point | undefined {
  const all = shown.places.get(line);
  return all?.[Math.min(nth, all.length - 1)];
}

/** The nearest of some points in the window, within reach of a thumb. */
export function nearest<T extends { readonly at: Point }>(all: readonly T[], to: Point, reach: number): T | null {
  let best: T | null = null;
  let least = reach;
  for (const one of all) {
    const far = Math.hypot(one.at.x - to.x, one.at.y - to.y);
    if (far <= least) {
      best = one;
      least = far;
    }
  }
  return best;
}
