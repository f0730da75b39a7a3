/** What a part is made of, as a wash of colour: the white of the drawing is taken for the bare material. */
import { PAPER } from './grounds.ts';

const TONES: readonly (readonly [material: RegExp, tone: string])[] = [
  [/walnut|mahogany/, '#C29A6C'],
  [/wood|ash|spruce|ply/, '#DFC598'],
  [/cotton|fabric/, '#E4DAC0'],
  [/bronze|brass/, '#DDC083'],
  [/copper/, '#D5A27F'],
  [/leather/, '#B08A62'],
  [/rubber/, '#9A958E'],
  [/fibre|bakelite|cork/, '#B8906A'],
  [/celluloid/, '#EADFAE'],
  [/acrylic|glass/, '#DCE7E5'],
  [/iron/, '#B6B8B8'],
  [/dural|alumin|light-alloy|magnesium|tinned/, '#DADCD6'],
  [/steel|wire|ball/, '#C3C8CB'],
];

export function toneOf(material: string): string {
  return TONES.find(([m]) => m.test(material.toLowerCase()))?.[1] ?? '#D6D3C8';
}

/** The same marks with their white in another tone. */
export function toned(marks: string, tone: string): string {
  return marks.replaceAll(PAPER, tone);
}
