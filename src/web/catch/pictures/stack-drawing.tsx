/** The stack on its bolt as it was found: drawn in order from the head to the nut, the way a section would show it. */
import { pieceShape, type StackPiece } from '../../../domain/as-found/washer-stack.ts';

const MIDDLE = 34;
const HIGH = 68;
const GAP = 3;
const HEAD = 16;

interface StackDrawingProps {
  readonly stack: readonly StackPiece[];
  /** One piece alone, for the button that puts it on: no bolt, and hidden, since the word stands below. */
  readonly one?: boolean;
}

export function StackDrawing({ stack, one = false }: StackDrawingProps) {
  let x = HEAD + 12;
  const placed = stack.map((piece) => {
    const shape = pieceShape(piece);
    const at = x;
    x += shape.wide + GAP;
    return { key: `${at} ${piece.sort}`, shape, at };
  });
  if (one) {
    const middle = (HEAD + 12 + x - GAP) / 2;
    return (
      <svg className="stack-drawing pic-mark" viewBox={`${middle - 35} 8 70 52`} aria-hidden="true">
        <path d={`M${middle - 30} ${MIDDLE}h60`} className="axis" />
        {placed.map(({ key, shape, at }) => (
          <Piece key={key} shape={shape} at={at} />
        ))}
      </svg>
    );
  }
  const wide = Math.max(150, x + 20);
  return (
    <svg
      className="stack-drawing"
      viewBox={`0 0 ${wide} ${HIGH}`}
      role="img"
      aria-label={stack.length === 0 ? 'a bolt, nothing on it yet' : `${stack.length} on the bolt`}
    >
      <path d={`M2 ${MIDDLE}H${wide - 2}`} className="axis" />
      <path
        d={`M10 ${MIDDLE - 13}h${HEAD - 2}v26h-${HEAD - 2}ZM10 ${MIDDLE - 5}h${HEAD - 2}M10 ${MIDDLE + 5}h${HEAD - 2}`}
      />
      <path d={`M${HEAD + 8} ${MIDDLE - 6}H${wide - 14}l3 3v6l-3 3H${HEAD + 8}`} />
      {placed.map(({ key, shape, at }) => (
        <Piece key={key} shape={shape} at={at} />
      ))}
    </svg>
  );
}

function Piece({ shape, at }: { readonly shape: ReturnType<typeof pieceShape>; readonly at: number }) {
  const { half, wide, form } = shape;
  const top = MIDDLE - half;
  const box = `M${at} ${top}h${wide}v${half * 2}h-${wide}Z`;
  const within = (y: number) => `M${at} ${y}h${wide}`;
  switch (form) {
    case 'plain':
      return <path d={box} className="solid" />;
    case 'split':
      return <path d={`${box}M${at} ${MIDDLE + 2}l${wide}-4`} className="solid" />;
    case 'tab':
      return <path d={`${box}M${at + wide} ${top}h8`} className="solid" />;
    case 'hatched':
      return (
        <>
          <path d={box} className="solid" />
          <path d={hatching(at, top, wide, half * 2)} className="thin" />
        </>
      );
    case 'nut':
      return <path d={box + within(MIDDLE - 5) + within(MIDDLE + 5)} className="solid" />;
    case 'castle':
      return (
        <path
          d={`${box}${within(MIDDLE - 5)}${within(MIDDLE + 5)}M${at + wide - 7} ${top}v${half * 2}M${at + wide - 7} ${MIDDLE}h7`}
          className="solid"
        />
      );
    default:
      return form satisfies never;
  }
}

/** Cut metal: lines at 45 degrees, kept inside the piece. */
function hatching(x: number, y: number, wide: number, high: number): string {
  const lines: string[] = [];
  for (let d = 5; d < wide + high; d += 6) {
    const x0 = Math.max(0, d - high);
    const x1 = Math.min(wide, d);
    lines.push(`M${x + x0} ${y + (d - x0)}L${x + x1} ${y + (d - x1)}`);
  }
  return lines.join('');
}
