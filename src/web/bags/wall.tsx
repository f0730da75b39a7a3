/**
 * The shop's own wall as a photograph with its shelves drawn over it; the shelf of the chosen bag is framed in ink and the
 * others step back. A tap on a shelf shows what lies there, or puts the chosen bag there. In marking, a box is drawn by
 * dragging or by arrow keys (with Shift its size), and Enter keeps it.
 */
import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from 'react';
import type { State } from '../../journal/state.ts';
import { Photo } from '../photo/photo.tsx';

export type Box = readonly [number, number, number, number];

export interface WallsProps {
  readonly state: State;
  readonly lit: string | null;
  readonly onPlace: (place: string) => void;
  /** Marking a new place: the photograph it is on and the box so far. */
  readonly marking: { readonly photo: string; readonly box: Box } | null;
  readonly onMark: (photo: string, box: Box) => void;
  readonly onKeep: () => void;
}

export function Walls({ state, lit, onPlace, marking, onMark, onKeep }: WallsProps) {
  const photos = [...new Set([...state.places.values()].flatMap((p) => (p.wall === undefined ? [] : [p.wall.photo])))];
  if (marking !== null && !photos.includes(marking.photo)) photos.push(marking.photo);
  if (photos.length === 0)
    return (
      <p className="wall-none">
        No wall yet. Photograph the shelves once (Add a place), and draw a box round each shelf: then every bag lights
        up where it lies.
      </p>
    );
  const litPhoto = lit === null ? undefined : state.places.get(lit)?.wall?.photo;
  const order = [...photos].sort((a, b) => Number(b === litPhoto) - Number(a === litPhoto));
  return (
    <div className="walls">
      {order.map((photo) => (
        <Wall key={photo} {...{ photo, state, lit, onPlace, marking, onMark, onKeep }} />
      ))}
    </div>
  );
}

function Wall({ photo, state, lit, onPlace, marking, onMark, onKeep }: WallsProps & { readonly photo: string }) {
  const frame = useRef<HTMLDivElement>(null);
  const [from, setFrom] = useState<readonly [number, number] | null>(null);
  const isMarking = marking?.photo === photo;
  useEffect(() => {
    if (!isMarking) return;
    // After the leaf that asked for the name has given the focus back.
    const timer = setTimeout(() => frame.current?.focus(), FOCUS_MS);
    return () => clearTimeout(timer);
  }, [isMarking]);
  const places = [...state.places.values()].filter((p) => p.wall?.photo === photo);
  const pointAt = (e: PointerEvent): readonly [number, number] => {
    const r = frame.current?.getBoundingClientRect();
    return r === undefined ? [0, 0] : [within((e.clientX - r.left) / r.width), within((e.clientY - r.top) / r.height)];
  };
  const drag = isMarking
    ? {
        onPointerDown: (e: PointerEvent) => {
          e.currentTarget.setPointerCapture(e.pointerId);
          setFrom(pointAt(e));
        },
        onPointerMove: (e: PointerEvent) => {
          if (from !== null) onMark(photo, boxOf(from, pointAt(e)));
        },
        onPointerUp: () => setFrom(null),
        onKeyDown: (e: KeyboardEvent) => {
          if (e.key === 'Enter') return onKeep();
          const next = nudged(marking.box, e.key, e.shiftKey);
          if (next === null) return;
          e.preventDefault();
          onMark(photo, next);
        },
      }
    : {};
  return (
    <div
      ref={frame}
      className={isMarking ? 'wall marking' : lit === null ? 'wall' : 'wall has-lit'}
      {...(isMarking && { tabIndex: 0, role: 'application', 'aria-label': 'Draw a box round the shelf' })}
      {...drag}
    >
      <Photo hash={photo} size="print" alt="The shop’s wall" />
      {places.map((p) => (
        <button
          type="button"
          key={p.place}
          className={shelfClass(p.place === lit, p.wall?.box[0] ?? 0)}
          style={styleOf(p.wall?.box as Box)}
          aria-label={`${p.name ?? p.place}${p.place === lit ? ', here it lies' : ''}`}
          tabIndex={isMarking ? -1 : 0}
          onClick={() => onPlace(p.place)}
        >
          <span>{p.place === lit ? (p.name ?? p.place) : ''}</span>
        </button>
      ))}
      {isMarking && <div className="shelf lit new" style={styleOf(marking.box)} />}
    </div>
  );
}

/** The name of the lit shelf stays on the photograph. */
function shelfClass(isLit: boolean, left: number): string {
  if (!isLit) return 'shelf';
  return left > 0.6 ? 'shelf lit to-left' : 'shelf lit';
}

const STEP = 0.01;
const FOCUS_MS = 120;

export function nudged([x, y, w, h]: Box, key: string, isSize: boolean): Box | null {
  const dx = key === 'ArrowRight' ? STEP : key === 'ArrowLeft' ? -STEP : 0;
  const dy = key === 'ArrowDown' ? STEP : key === 'ArrowUp' ? -STEP : 0;
  if (dx === 0 && dy === 0) return null;
  if (isSize) return [x, y, clampTo(w + dx, STEP, 1 - x), clampTo(h + dy, STEP, 1 - y)];
  return [clampTo(x + dx, 0, 1 - w), clampTo(y + dy, 0, 1 - h), w, h];
}

export function boxOf(a: readonly [number, number], b: readonly [number, number]): Box {
  const [x, y] = [Math.min(a[0], b[0]), Math.min(a[1], b[1])];
  return [x, y, Math.max(Math.abs(a[0] - b[0]), 0.005), Math.max(Math.abs(a[1] - b[1]), 0.005)];
}

function clampTo(v: number, low: number, high: number): number {
  return Number(Math.min(Math.max(v, low), high).toFixed(4));
}

function within(v: number): number {
  return clampTo(v, 0, 1);
}

function styleOf([x, y, w, h]: Box): Record<string, string> {
  const part = (n: number) => `${(n * 100).toFixed(2)}%`;
  return { left: part(x), top: part(y), width: part(w), height: part(h) };
}
