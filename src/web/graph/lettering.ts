/** Widths of lettering in the page's own faces, measured, so that a hand mark stands right after the name. */
let brush: CanvasRenderingContext2D | null = null;
const kept = new Map<string, number>();

export function widthOf(words: string, font: string): number {
  const key = `${font}|${words}`;
  const had = kept.get(key);
  if (had !== undefined) return had;
  brush ??= document.createElement('canvas').getContext('2d');
  if (brush === null) return words.length * 7;
  brush.font = font;
  const width = brush.measureText(words).width;
  if (document.fonts.status === 'loaded') kept.set(key, width);
  return width;
}

/** As many words as fit, then an ellipsis. */
export function fitting(words: string, font: string, room: number): string {
  if (widthOf(words, font) <= room) return words;
  let short = words;
  while (short.length > 1 && widthOf(`${short}…`, font) > room) short = short.slice(0, -1);
  return `${short.trimEnd()}…`;
}

/** Lines of at most `room`, broken at spaces. */
export function linesOf(words: string, font: string, room: number): readonly string[] {
  const lines: string[] = [''];
  for (const word of words.split(' ')) {
    const at = lines.length - 1;
    const longer = `${lines[at]} ${word}`.trim();
    if (widthOf(longer, font) <= room) lines[at] = longer;
    else lines.push(word);
  }
  return lines.filter((l) => l !== '');
}
