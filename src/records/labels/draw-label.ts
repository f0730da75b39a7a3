/**
 * One label as marks. Two designs: a sticker (what is this, where does it belong) and a tag (one word that must be seen
 * across the bay). Each stands across on wide stock and upright on tall stock.
 *
 *   wide sticker                     upright sticker or tag
 *   +--------------------------+    +-------------+   The code has first claim on the room: numerals of 6 mm or more, which
 *   | ##  B105C            ▶   |    |      o      |   are read at one metre by tired eyes (common practice, no source).
 *   | ##  Mooring hatch hinge  |    |    B105C    |   Where that has no room, the label is refused rather than printed
 *   | QX-OLA · C4   STARBOARD  |    | ▶       ##  |   small.
 *   +--------------------------+    +-------------+
 */
import { failed, ok, type Result } from '../../domain/result.ts';
import { drawTag } from './draw-tag.ts';
import { isTag, type Label, onOneLine } from './label.ts';
import { labelProblem } from './label-problems.ts';
import {
  clamp,
  codeMark,
  codeRoom,
  codeWidthAt,
  footMarks,
  HAND_WORD,
  type LabelSize,
  MARK_LEAST,
  words,
} from './marks.ts';
import type { Box, Mark } from './print-document.ts';

const WIDE = 1.2;
/** Under these nothing that must be on a label is legible. */
const LEAST_SIDE = 12;
/** Modules of 0.4 mm for a code of our series. */
const LEAST_QR = 12;

export function drawLabel(label: Label, size: LabelSize): Result<readonly Mark[]> {
  if (Math.min(size.w, size.h) >= LEAST_SIDE) {
    const marks = isTag(label.kind)
      ? drawTag(label, label.kind, size)
      : size.w >= WIDE * size.h
        ? wideSticker(label, size)
        : tallSticker(label, size);
    if (marks !== null) return ok(marks.filter((m) => m.w > 0 && m.h > 0));
  }
  const wants = label.kind === 'hazard' ? 'the whole of the warning' : 'the code at 6 mm and the QR code';
  const found = `${onOneLine(label.id, 40)} on a label of ${size.w} x ${size.h} mm`;
  return failed(labelProblem('LABEL_TOO_SMALL', `${found}: no room for ${wants}`, 'form'));
}

function wideSticker(label: Label, size: LabelSize): readonly Mark[] | null {
  const pad = clamp(0.06 * size.h, 1.2, 3);
  const foot = clamp(0.11 * size.h, 2.2, 5);
  const body = size.h - 2 * pad - foot - 0.8;
  const left = size.hole ? 12 : 0;
  // A longer code takes room from the QR code, down to what a telephone still reads.
  const widest = size.w - left - pad - 0.4 - codeWidthAt(label.id, MARK_LEAST);
  const qr = Math.min(body + pad, 0.4 * (size.w - left), 46, Math.max(widest, LEAST_QR));
  const x = left + qr + 0.4;
  const room = size.w - pad - x;
  const handSide = label.hand === undefined ? 0 : clamp(0.4 * body, 6, 16);
  const beside = codeRoom(label.id, room - handSide - 1.5) >= MARK_LEAST || label.hand === undefined;
  const codeWidth = beside ? room - (handSide === 0 ? 0 : handSide + 1.5) : room;
  const codeHeight = clamp(0.44 * body, MARK_LEAST + 0.4, 24);
  const code = codeMark(label, { x, y: pad + 0.4, w: codeWidth, h: codeHeight });
  if (code === null || qr < LEAST_QR) return null;
  const nameTop = pad + 0.4 + codeHeight + 1.8;
  const nameRoom = { x, y: nameTop, w: room, h: size.h - pad - foot - 1.4 - nameTop };
  const handBox: Box = beside
    ? { x: size.w - pad - handSide, y: pad, w: handSide, h: Math.min(handSide, codeHeight + 0.8) }
    : { x, y: nameTop - 0.6, w: handSide, h: Math.min(handSide, nameRoom.h + 0.6) };
  const name = beside ? nameRoom : { ...nameRoom, x: x + handSide + 1.5, w: room - handSide - 1.5 };
  return [
    ...(size.hole ? [holeAt({ x: 1, y: size.h / 2 - 5, w: 10, h: 10 })] : []),
    { kind: 'qr', text: label.id, x: left, y: Math.max(0, (size.h - foot - pad - qr) / 2), w: qr, h: qr },
    code,
    ...(label.hand === undefined ? [] : [{ kind: 'hand' as const, hand: label.hand, ...handBox }]),
    ...nameMarks(label, name),
    ...footMarks(label, { x: left + pad, y: size.h - pad - foot, w: size.w - left - 2 * pad, h: foot }),
  ];
}

function tallSticker(label: Label, size: LabelSize): readonly Mark[] | null {
  const pad = clamp(0.06 * size.w, 1.4, 4);
  const foot = clamp(0.05 * size.h, 2.4, 5);
  const top = size.hole ? 15 : pad;
  const w = size.w - 2 * pad;
  const codeHeight = clamp(0.14 * size.h, MARK_LEAST + 0.4, 30);
  const code = codeMark(label, { x: pad, y: top + 1.8, w, h: codeHeight }, 'center');
  const footTop = size.h - pad - foot;
  const qr = Math.min(0.56 * w, 0.36 * size.h, 50);
  const rowTop = footTop - 0.8 - qr;
  const nameTop = top + 1.8 + codeHeight + 2.4;
  if (code === null || qr < LEAST_QR || rowTop < nameTop - 2.4) return null;
  const handSide = Math.min(w - qr - 2, 0.72 * qr);
  const handTop = rowTop + (qr - handSide) / 2 - 1.6;
  const across = label.hand === undefined ? pad + (w - qr) / 2 : size.w - pad * 0.4 - qr;
  return [
    ...(size.hole ? [holeAt({ x: size.w / 2 - 5, y: 3, w: 10, h: 10 })] : []),
    { kind: 'fill', colour: 'ink', x: pad, y: top - 0.6, w, h: 0.5 },
    code,
    ...nameMarks(label, { x: pad, y: nameTop, w, h: rowTop - nameTop - 1 }, 'center'),
    ...(label.hand === undefined
      ? []
      : [
          { kind: 'hand' as const, hand: label.hand, x: pad, y: handTop, w: handSide, h: handSide },
          words(HAND_WORD[label.hand], { x: pad - 1, y: handTop + handSide + 1.2, w: handSide + 2, h: 2.2 }, 2.2, {
            across: 'center',
            weight: 600,
          }),
        ]),
    { kind: 'qr', text: label.id, x: across, y: rowTop, w: qr, h: qr },
    ...footMarks({ ...label, hand: undefined }, { x: pad, y: footTop, w, h: foot }),
  ];
}

function nameMarks(label: Label, box: Box, across: 'left' | 'center' = 'left'): readonly Mark[] {
  if (label.kind === 'blank') return writingLines(box);
  if (box.h < 1.6 || label.name === undefined) return [];
  const more = [label.says, label.when].filter((t) => t !== undefined).join(' · ');
  const lower = more === '' || box.h < 5.5 ? 0 : clamp(0.3 * box.h, 1.7, 3);
  const most = clamp(0.1 * (box.w + box.h), 2, 4.4);
  const name = words(label.name, { ...box, h: box.h - (lower === 0 ? 0 : lower + 1.4) }, most, {
    wraps: true,
    across,
    down: across === 'center' ? 'horizon' : 'top',
    weight: 600,
  });
  if (lower === 0) return [name];
  return [name, words(more, { ...box, y: box.y + box.h - lower, h: lower }, lower, { across, colour: 'second' })];
}

/** A label of a roll says nothing yet: lines to write on until it is scanned. */
function writingLines(box: Box): readonly Mark[] {
  const count = clamp(Math.floor(box.h / 6), 1, 3);
  const apart = box.h / count;
  return Array.from({ length: count }, (_, i) => {
    return { kind: 'fill', colour: 'second', x: box.x, y: box.y + (i + 1) * apart - 1, w: box.w, h: 0.15 };
  });
}

function holeAt(box: Box): Mark {
  return { kind: 'hole', ...box };
}
