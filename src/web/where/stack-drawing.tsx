/**
 * The fastener stack as it was found: the bolt in section, what lay on it in order from the head to the nut, each piece
 * numbered and named below, so that it can be laid out on the bench in the same order.
 */
import { pieceShape, pieceWords, readStack, type StackPiece, stackWords } from '../../domain/as-found/washer-stack.ts';

const MIDDLE = 46;
const HEAD = 18;
const START = 40;
/** Pieces stand apart far enough for a number above each. */
const LEAST_APART = 17;

export interface PlacedPiece {
  readonly piece: StackPiece;
  /** From the head, beginning with 1: two like pieces differ only by it. */
  readonly number: number;
  readonly x: number;
  readonly wide: number;
  readonly half: number;
}

/** Where each piece stands along the bolt. */
export function layStack(stack: readonly StackPiece[]): {
  readonly pieces: readonly PlacedPiece[];
  readonly end: number;
} {
  let x = START;
  const pieces = stack.map((piece, before) => {
    const { wide, half } = pieceShape(piece);
    const own = wide * 1.15;
    const slot = Math.max(LEAST_APART, own + 4);
    const placed = { piece, number: before + 1, x: x + (slot - own) / 2, wide: own, half: half * 1.15 };
    x += slot;
    return placed;
  });
  return { pieces, end: x };
}

export function StackFigure({ text }: { readonly text: string }) {
  const stack = readStack(text);
  const { pieces, end } = layStack(stack);
  const width = Math.max(200, end + 30);
  return (
    <figure className="stack">
      <svg viewBox={`0 0 ${width} 84`} role="img" aria-label={`From the head: ${stackWords(stack)}`} style={{ width }}>
        <path d={`M2 ${MIDDLE}H${width - 2}`} className="axis" />
        <path d={`M${HEAD + 14} ${MIDDLE - 7}H${end + 14}l4 4v6l-4 4H${HEAD + 14}Z`} className="body" />
        <path d={`M12 ${MIDDLE - 16}h${HEAD + 2}v32h-${HEAD + 2}l-3-3v-26Z`} className="body" />
        <path d={`M12 ${MIDDLE - 6}h${HEAD + 2}M12 ${MIDDLE + 6}h${HEAD + 2}`} className="thin" />
        {pieces.map((p) => (
          <Piece key={p.number} placed={p} />
        ))}
        <path d={threads(end)} className="thin" />
      </svg>
      <ol>
        {pieces.map(({ piece, number }) => (
          <li key={number}>
            <span className="num">{number}</span> {pieceWords(piece)}
          </li>
        ))}
      </ol>
    </figure>
  );
}

function threads(end: number): string {
  return [4, 7, 10, 13].map((d) => `M${end + d - 1.5} ${MIDDLE - 6}l2.4 12`).join('');
}

function Piece({ placed }: { readonly placed: PlacedPiece }) {
  const { piece, number, x, wide, half } = placed;
  const { form } = pieceShape(piece);
  const box = `M${x} ${MIDDLE - half}h${wide}v${half * 2}h${-wide}Z`;
  return (
    <>
      <path d={box} className="body" />
      {form === 'hatched' && <path d={hatching(x, wide, half)} className="thin" />}
      {form === 'split' && <path d={`M${x} ${MIDDLE + 3}l${wide}-6`} className="thin" />}
      {form === 'tab' && <path d={`M${x + wide} ${MIDDLE - half}h7v4`} className="line" />}
      {(form === 'nut' || form === 'castle') && (
        <path d={`M${x} ${MIDDLE - 6}h${wide}M${x} ${MIDDLE + 6}h${wide}`} className="thin" />
      )}
      {form === 'castle' && (
        <path d={`M${x + wide - 5} ${MIDDLE - half}v5h5M${x + wide - 5} ${MIDDLE + half}v-5h5`} className="line" />
      )}
      <text x={x + wide / 2} y={12} textAnchor="middle">
        {number}
      </text>
      <path d={`M${x + wide / 2} 15V${MIDDLE - half - 1.5}`} className="thin lead" />
    </>
  );
}

/** Lines at 45 degrees within the box. */
function hatching(x: number, wide: number, half: number): string {
  const lines: string[] = [];
  for (let y = MIDDLE - half + 4; y < MIDDLE + half + wide; y += 5) {
    const fromX = Math.max(x, x + y - (MIDDLE + half));
    const toX = Math.min(x + wide, x + y - (MIDDLE - half));
    if (toX > fromX) lines.push(`M${fromX} ${y - (fromX - x)}L${toX} ${y - (toX - x)}`);
  }
  return lines.join('');
}
