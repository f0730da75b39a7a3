/** Moving and scaling a sheet under a window: drag, wheel, arrow keys, plus, minus, 0. Shared by tags and drawings. */
import { type KeyboardEvent, type PointerEvent, type RefObject, useCallback, useEffect, useRef, useState } from 'react';

export interface View {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Pan {
  readonly view: View;
  readonly size: Size;
  readonly dragging: boolean;
  readonly handlers: {
    readonly onPointerDown: (e: PointerEvent) => void;
    readonly onPointerMove: (e: PointerEvent) => void;
    readonly onPointerUp: () => void;
    readonly onPointerCancel: () => void;
    readonly onKeyDown: (e: KeyboardEvent) => void;
  };
  /** True just after a drag, so that letting go is not a tap. */
  readonly wasDrag: () => boolean;
  readonly zoom: (by: number) => void;
  readonly fit: () => void;
  readonly show: (x: number, y: number, width: number, height: number) => void;
}

const LEAST = 0.3;
const MOST = 5;
const TAP_SLOP = 6;

/** A window that moves takes the focus, so that arrow keys reach it. */
export function windowProps(label: string) {
  return { role: 'group', tabIndex: 0, 'aria-label': label } as const;
}

export function usePan(window: RefObject<Element | null>, fitting: (size: Size) => View): Pan {
  const [size, setSize] = useState<Size>({ width: 600, height: 600 });
  const [view, setView] = useState<View>({ x: 0, y: 0, scale: 1 });
  const [dragging, setDragging] = useState(false);
  const from = useRef<{ x: number; y: number; moved: boolean } | null>(null);

  useEffect(() => {
    const host = window.current;
    if (!host) return;
    const watch = new ResizeObserver(
      ([box]) => box && setSize({ width: box.contentRect.width, height: box.contentRect.height }),
    );
    watch.observe(host);
    return () => watch.disconnect();
  }, [window]);
  useEffect(() => setView(fitting(size)), [fitting, size]);

  // React's own wheel listener cannot keep the page from scrolling.
  useEffect(() => {
    const host = window.current;
    if (!host) return;
    const wheel = (e: Event) => {
      if (!(e instanceof WheelEvent)) return;
      e.preventDefault();
      const box = host.getBoundingClientRect();
      if (e.ctrlKey)
        setView((v) => scaled(v, e.deltaY < 0 ? 1.12 : 1 / 1.12, e.clientX - box.left, e.clientY - box.top));
      else setView((v) => ({ ...v, x: v.x - e.deltaX, y: v.y - e.deltaY }));
    };
    host.addEventListener('wheel', wheel, { passive: false });
    return () => host.removeEventListener('wheel', wheel);
  }, [window]);

  const zoom = useCallback((by: number) => setView((v) => scaled(v, by, size.width / 2, size.height / 2)), [size]);
  const fit = useCallback(() => setView(fitting(size)), [fitting, size]);
  const show = useCallback(
    (x: number, y: number, width: number, height: number) => setView((v) => inSight(v, size, { x, y, width, height })),
    [size],
  );

  const onPointerDown = (e: PointerEvent) => {
    from.current = { x: e.clientX, y: e.clientY, moved: false };
  };
  const onPointerMove = (e: PointerEvent) => {
    const at = from.current;
    if (!at || e.buttons === 0) return;
    const dx = e.clientX - at.x;
    const dy = e.clientY - at.y;
    if (!at.moved) {
      if (Math.hypot(dx, dy) < TAP_SLOP) return;
      e.currentTarget.setPointerCapture(e.pointerId);
      setDragging(true);
    }
    from.current = { x: e.clientX, y: e.clientY, moved: true };
    setView((v) => ({ ...v, x: v.x + dx, y: v.y + dy }));
  };
  const onPointerUp = () => {
    setDragging(false);
    setTimeout(() => {
      from.current = null;
    });
  };
  const onKeyDown = (e: KeyboardEvent) => {
    const change = changeOf(e.key, size, fitting);
    if (!change) return;
    e.preventDefault();
    setView(change);
  };
  return {
    view,
    size,
    dragging,
    zoom,
    fit,
    show,
    handlers: { onPointerDown, onPointerMove, onPointerUp, onPointerCancel: onPointerUp, onKeyDown },
    wasDrag: () => from.current?.moved === true,
  };
}

const STEP = 60;
const MOVES: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [STEP, 0],
  ArrowRight: [-STEP, 0],
  ArrowUp: [0, STEP],
  ArrowDown: [0, -STEP],
};
const SCALES: Readonly<Record<string, number>> = { '+': 1.2, '=': 1.2, '-': 1 / 1.2 };

function changeOf(key: string, size: Size, fitting: (size: Size) => View): ((v: View) => View) | null {
  const move = MOVES[key];
  if (move) return (v) => ({ ...v, x: v.x + move[0], y: v.y + move[1] });
  const scale = SCALES[key];
  if (scale !== undefined) return (v) => scaled(v, scale, size.width / 2, size.height / 2);
  return key === '0' ? () => fitting(size) : null;
}

function scaled(v: View, by: number, x: number, y: number): View {
  const scale = Math.min(MOST, Math.max(LEAST, v.scale * by));
  const real = scale / v.scale;
  return { scale, x: x - (x - v.x) * real, y: y - (y - v.y) * real };
}

/** Moves as little as is needed to bring a box into sight. */
function inSight(v: View, size: Size, box: { readonly x: number; readonly y: number } & Size): View {
  const pad = 24;
  const left = v.x + box.x * v.scale;
  const top = v.y + box.y * v.scale;
  const dx = left < pad ? pad - left : Math.min(0, size.width - pad - (left + box.width * v.scale));
  const dy = top < pad ? pad - top : Math.min(0, size.height - pad - (top + box.height * v.scale));
  return dx === 0 && dy === 0 ? v : { ...v, x: v.x + dx, y: v.y + dy };
}
