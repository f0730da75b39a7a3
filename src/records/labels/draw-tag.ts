/**
 * A tag: one word, in a box with a hatched edge, as large as the stock allows; then what it hangs on and why. The word is
 * never told by colour alone, since roll printers have one ink and some eyes see no red.
 */
import { type Label, onOneLine, TAG_ASKS, TAG_WORD, type TagKind } from './label.ts';
import { clamp, HAND_WORD, type LabelSize, words } from './marks.ts';
import type { Box, Mark, MarkColour } from './print-document.ts';

const LEAST_TAG = 24;
/** What bites, and what must be done first, is not to be cut: on smaller stock it would be. */
const LEAST_FOR_HAZARD = 40;

export function drawTag(label: Label, kind: TagKind, size: LabelSize): readonly Mark[] | null {
  const least = kind === 'hazard' ? LEAST_FOR_HAZARD : LEAST_TAG;
  if (size.w < 40 || size.h < 24 || Math.min(size.w, size.h) < least) return null;
  return size.w >= 1.2 * size.h ? across(label, kind, size) : upright(label, kind, size);
}

/** Only what can hurt, harm or be lost is in the signal colour. */
function colourOf(kind: TagKind): MarkColour {
  return kind === 'do-not-clean' || kind === 'quarantine' ? 'ink' : 'signal';
}

function upright(label: Label, kind: TagKind, size: LabelSize): readonly Mark[] {
  const pad = clamp(0.06 * size.w, 2.4, 6);
  const w = size.w - 2 * pad;
  const top = size.hole ? 14.5 : pad;
  const bar = clamp(0.035 * size.h, 2.6, 6);
  const word = clamp(0.44 * w, 14, 0.24 * size.h);
  const banner = { x: pad, y: top, w, h: word + 2 * bar };
  const foot = clamp(0.1 * size.h, 9, 14);
  const qr = clamp(0.5 * w, 14, 0.26 * size.h);
  const textTop = banner.y + banner.h + 2.6;
  const lowTop = size.h - pad - foot - qr;
  return [
    ...(size.hole ? [{ kind: 'hole' as const, x: size.w / 2 - 5, y: 2.5, w: 10, h: 10 }] : []),
    ...bannerMarks(label, kind, banner, bar),
    ...reason(label, { x: pad, y: textTop, w, h: lowTop - textTop - 1 }),
    ...lowRow(label, { x: pad, y: lowTop, w, h: qr }, qr, saidBy(label)),
    ...askMarks(label, kind, { x: pad, y: size.h - pad - foot, w, h: foot }, []),
  ];
}

function across(label: Label, kind: TagKind, size: LabelSize): readonly Mark[] {
  const pad = clamp(0.06 * size.h, 1.4, 4);
  const left = size.hole ? 13 : pad;
  const inside = size.w - left - pad;
  const foot = clamp(0.16 * size.h, 5.2, 11);
  const body = size.h - 2 * pad - foot - 0.8;
  const banner = { x: left, y: pad, w: 0.44 * inside, h: body };
  const bar = clamp(0.12 * body, 1.8, 5);
  const x = left + banner.w + 2;
  const w = size.w - pad - x;
  const qr = Math.min(Math.max(0.52 * body, 12), 0.56 * w, 34);
  return [
    ...(size.hole ? [{ kind: 'hole' as const, x: 1.5, y: size.h / 2 - 5, w: 10, h: 10 }] : []),
    ...bannerMarks(label, kind, banner, bar),
    ...reason(label, { x, y: pad + 0.6, w, h: body - qr - 1.4 }),
    ...lowRow(label, { x, y: pad + body - qr, w, h: qr }, qr, []),
    ...askMarks(label, kind, { x: left, y: size.h - pad - foot, w: inside, h: foot }, saidBy(label)),
  ];
}

function bannerMarks(label: Label, kind: TagKind, box: Box, bar: number): readonly Mark[] {
  const colour = colourOf(kind);
  const inner = { x: box.x + 1.8, y: box.y + bar + 1, w: box.w - 3.6, h: box.h - 2 * bar - 2 };
  const word = (label.word ?? TAG_WORD[kind]).toUpperCase();
  return [
    { kind: 'hatch', colour, x: box.x, y: box.y, w: box.w, h: bar },
    { kind: 'hatch', colour, x: box.x, y: box.y + box.h - bar, w: box.w, h: bar },
    { kind: 'frame', colour, line: clamp(0.012 * box.w, 0.5, 1.2), ...box },
    words(word, inner, inner.h, {
      weight: 700,
      colour,
      across: 'center',
      down: 'horizon',
      wraps: /\s/.test(word),
      least: 2.4,
    }),
  ];
}

/** What it hangs on in strong letters, then why. */
function reason(label: Label, box: Box): readonly Mark[] {
  if (box.h < 2) return [];
  const most = clamp(0.075 * (box.w + box.h), 2, 7);
  if (label.says === undefined) return [words(label.name ?? label.id, box, most, { wraps: true, weight: 600 })];
  const gap = clamp(0.1 * box.h, 0.9, 2);
  const first = Math.min(box.h * 0.45, most * 3.2);
  const rest = { ...box, y: box.y + first + gap, h: box.h - first - gap };
  return [
    words(label.name ?? label.id, { ...box, h: first }, most, { wraps: true, weight: 700, least: 1.4 }),
    words(label.says, rest, 0.8 * most, { wraps: true, least: 1.1 }),
  ];
}

/** Hand, id, who and when at the left, from below upwards; the QR code at the right. */
function lowRow(label: Label, box: Box, qr: number, said: readonly string[]): readonly Mark[] {
  const w = box.w - qr;
  const small = clamp(0.1 * box.h, 1.5, 3);
  const line = small + 1.1;
  const idHeight = clamp(0.22 * box.h, 2.6, 9);
  const idTop = box.y + box.h - 0.8 - said.length * line - idHeight;
  // The shape leaves room for its word at the least size, about 0.7 of its height for a letter.
  const word = label.hand === undefined ? '' : HAND_WORD[label.hand];
  const room = Math.min(0.5 * box.h, 0.5 * w, w - 1 - 0.7 * 1.2 * word.length);
  const side = label.hand === undefined ? 0 : clamp(idTop - box.y - 2, 0, Math.max(4, room));
  const hand = { x: box.x, y: box.y + 0.6, w: side, h: side };
  return [
    ...(label.hand === undefined || side < 2
      ? []
      : [
          { kind: 'hand' as const, hand: label.hand, ...hand },
          words(word, { ...hand, x: box.x + side + 1, w: w - side - 1 }, small, {
            down: 'horizon',
            weight: 600,
            least: 1.2,
          }),
        ]),
    words(label.id, { x: box.x, y: idTop, w, h: idHeight }, 0.8 * idHeight, {
      face: 'num',
      weight: 700,
      wraps: true,
      down: 'horizon',
    }),
    ...said.map((text, i) =>
      words(text, { x: box.x, y: box.y + box.h - 0.8 - (said.length - i) * line + 1.1, w, h: small }, small, {
        colour: 'second',
        least: 1.1,
      }),
    ),
    { kind: 'qr', text: label.id, x: box.x + box.w - qr + 0.1 * qr, y: box.y, w: qr, h: qr },
  ];
}

function saidBy(label: Label): readonly string[] {
  return [label.who, label.when].filter((t): t is string => t !== undefined);
}

function askMarks(label: Label, kind: TagKind, box: Box, said: readonly string[]): readonly Mark[] {
  const small = clamp(0.24 * box.h, 1.3, 2.4);
  const last = { x: box.x, y: box.y + box.h - small, w: box.w, h: small };
  const whose = [label.registration, label.station, ...said].filter((t) => t !== undefined && t !== '').join(' · ');
  const marks: readonly Mark[] = [
    { kind: 'fill', colour: 'ink', x: box.x, y: box.y, w: box.w, h: 0.25 },
    words(TAG_ASKS[kind], { ...box, y: box.y + 1.2, h: box.h - small - 2.2 }, 1.3 * small, { wraps: true, least: 1.1 }),
    words(whose, { ...last, w: 0.64 * box.w }, small, { weight: 700, least: 1.1 }),
    ...(label.invented
      ? [
          words('Invented example', { ...last, x: box.x + 0.66 * box.w, w: 0.34 * box.w }, small, {
            across: 'right',
            least: 1.1,
          }),
        ]
      : []),
  ];
  return marks.filter((m) => m.kind !== 'text' || onOneLine(m.text) !== '');
}
