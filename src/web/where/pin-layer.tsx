/**
 * Pins over a sheet, always as large as a finger can tell apart, however far the sheet is scaled. Each sort has a shape of
 * its own; colour says nothing that shape does not. The list beside it says the same in words, so this layer is hidden
 * from readers and takes no taps: the board picks the nearest.
 */
import { type Placing, type Point, toWindow } from '../drawing/placing.ts';
import type { Mark, MarkKind } from './marks.ts';

export interface PinLayerProps {
  readonly marks: readonly Mark[];
  readonly placing: Placing;
  readonly chosen: string | null;
  /** Where the chosen thing is drawn, when it has no mark of its own. */
  readonly chosenAt: Point | null;
  readonly lit: string | null;
  /** The pin that is being set. */
  readonly setting: Point | null;
}

/** Below this a window is a phone's, and pins are drawn smaller so that neighbours stay apart. */
const SMALL = 500;

export function PinLayer({ marks, placing, chosen, chosenAt, lit, setting }: PinLayerProps) {
  const placed = marks.map((mark) => ({ mark, at: toWindow(mark.at, placing) }));
  const top = placed.find((p) => p.mark.subject === chosen);
  const rest = placed.filter((p) => p !== top);
  const last = placed.find((p) => p.mark.isLast);
  const ring = top?.at ?? (chosenAt === null ? null : toWindow(chosenAt, placing));
  const size = placing.window.width < SMALL ? 0.76 : 1;
  return (
    <svg className={setting === null ? 'pins' : 'pins is-setting'} aria-hidden="true">
      {last && <LastRing at={last.at} />}
      {[...rest].reverse().map(({ mark, at }) => (
        <g key={mark.subject} transform={`translate(${at.x} ${at.y}) scale(${size})`}>
          <PinShape kind={mark.kind} />
          {mark.subject === lit && <circle r="15" className="lit" />}
        </g>
      ))}
      {last && last !== top && (
        <PinLabel at={last.at} text={last.mark.code ?? 'last off'} width={placing.window.width} />
      )}
      {ring && setting === null && (
        <g transform={`translate(${ring.x} ${ring.y})`}>
          {top && <PinShape kind={top.mark.kind} />}
          <circle r="17" className="chosen" />
          <path d="M-24 0h7M17 0h7M0-24v7M0 17v7" className="chosen" />
        </g>
      )}
      {top && setting === null && (
        <PinLabel at={top.at} text={top.mark.code ?? top.mark.name} width={placing.window.width} strong />
      )}
      {setting !== null && <Crosshair at={toWindow(setting, placing)} />}
    </svg>
  );
}

function LastRing({ at }: { readonly at: Point }) {
  return (
    <g transform={`translate(${at.x} ${at.y})`}>
      <circle r="20" className="last" />
      <circle r="20" className="last still" />
    </g>
  );
}

function PinLabel({
  at,
  text,
  width,
  strong = false,
}: {
  readonly at: Point;
  readonly text: string;
  readonly width: number;
  readonly strong?: boolean;
}) {
  const isRight = at.x > width * 0.62;
  return (
    <text
      x={at.x + (isRight ? -28 : 28)}
      y={at.y + 5}
      textAnchor={isRight ? 'end' : 'start'}
      className={strong ? 'label strong' : 'label'}
    >
      {text.length > 30 ? `${text.slice(0, 29)}…` : text}
    </text>
  );
}

function Crosshair({ at }: { readonly at: Point }) {
  return (
    <g transform={`translate(${at.x} ${at.y})`} className="cross">
      <circle r="20" />
      <path d="M-34 0H-6M6 0H34M0-34V-6M0 6V34" />
      <circle r="1.8" className="full" />
    </g>
  );
}

/** The same shapes in the list: one 32 × 32 mark. */
export function MarkShape({ kind }: { readonly kind: MarkKind }) {
  return (
    <svg className="mark-shape" viewBox="-16 -16 32 32" aria-hidden="true">
      <PinShape kind={kind} />
    </svg>
  );
}

function PinShape({ kind }: { readonly kind: MarkKind }) {
  switch (kind) {
    case 'pin':
      return (
        <>
          <circle r="7.5" className="ground" />
          <circle r="4.5" className="full" />
        </>
      );
    case 'bag':
      return (
        <>
          <path d="M-11-7H5L11-1.5V7H-11Z" className="shape" transform="rotate(-14)" />
          <circle cx="5.4" cy="-1.6" r="1.9" className="hole" transform="rotate(-14)" />
        </>
      );
    case 'nothing':
      return (
        <>
          <circle r="8.5" className="ground wide" />
          <circle r="8.5" className="line" />
          <path d="M-13.5 0H13.5" className="line" />
        </>
      );
    case 'off':
      return (
        <>
          <circle r="5.5" className="ground wide" />
          <circle r="5.5" className="line dashed" />
        </>
      );
    case 'stop':
      return (
        <>
          <path d="M-8.5-8.5H8.5V8.5H-8.5Z" className="sig-box" />
          <path d="M-4.5-4.5 4.5 4.5" className="sig-line" />
        </>
      );
    case 'damage':
      return (
        <>
          <path d="M-11 7-3.5-5 3 5 11-7" className="halo" />
          <path d="M-11 7-3.5-5 3 5 11-7" className="sig-line" />
        </>
      );
    default:
      return kind satisfies never;
  }
}
