/**
 * The line drawings on the buttons: what a hand would sketch on a bag. One size (48 by 34), one line weight, ink only, so
 * that they read in sun and at night. Own drawings; the words beside each say the same, so they are hidden from readers.
 */
import type { ReactNode } from 'react';

export function Picture({ of }: { readonly of: string }) {
  const drawn = drawing(of);
  if (drawn === null) return null;
  return (
    <svg className="pic-mark" viewBox="0 0 48 34" aria-hidden="true">
      {drawn}
    </svg>
  );
}

export function isDrawn(of: string): boolean {
  return drawing(of) !== null;
}

function drawing(of: string): ReactNode {
  if (of.startsWith('clock-')) return <Clock hour={Number(of.slice(6))} />;
  return DRAWN[of] ?? null;
}

/** A bolt with its head at the top, nut below, turned about the middle. */
function Bolt({ turn, x = 24 }: { readonly turn: number; readonly x?: number }) {
  return (
    <g transform={`translate(${x} 17) rotate(${turn})`}>
      <path d="M-8-13h16v7H-8ZM-3-13v7M3-13v7" />
      <path d="M-3-6v19M3-6v19M-3 13h6" />
      <path d="M-3 5l6-2M-3 9l6-2" strokeWidth="1" />
    </g>
  );
}

const AXIS = <path d="M8 1v32" strokeDasharray="7 2 1.5 2" strokeWidth="0.9" />;
const ARROW_RIGHT = <path d="M37 17h8M42 14l3 3-3 3" />;
const ARROW_LEFT = <path d="M11 17H3M6 14l-3 3 3 3" />;
const NUT = 'M14 12h20v13H14ZM20 12v13M28 12v13';

function Clock({ hour }: { readonly hour: number }) {
  const angle = (hour / 12) * 2 * Math.PI;
  const x = 24 + 10.5 * Math.sin(angle);
  const y = 17 - 10.5 * Math.cos(angle);
  const ticks = Array.from({ length: 12 }, (_, i) => {
    const a = (i / 12) * 2 * Math.PI;
    return `M${24 + 13 * Math.sin(a)} ${17 - 13 * Math.cos(a)}L${24 + 15 * Math.sin(a)} ${17 - 15 * Math.cos(a)}`;
  });
  return (
    <>
      <path d={ticks.join('')} strokeWidth="1" />
      <circle cx="24" cy="17" r="2" fill="currentColor" />
      <path d={`M24 17L${x} ${y}`} strokeWidth="2.4" />
    </>
  );
}

/** Threads as they show on a screw that stands upright: a right-hand one rises to the right. */
function Thread({ hand }: { readonly hand: 'right' | 'left' }) {
  const rise = hand === 'right' ? 5 : -5;
  const lines = [6, 12, 18, 24, 30].map((y) => `M15 ${y + rise / 2}L33 ${y - rise / 2}`);
  return <path d={`M15 1v32M33 1v32${lines.join('')}`} />;
}

/** Thread form in section: flank angle 60, 55 or 47.5 degrees, or square. */
function Form({ angle }: { readonly angle: number }) {
  const pitch = 10;
  const high = pitch / 2 / Math.tan((angle / 360) * Math.PI);
  const line = [4, 14, 24, 34].map((x) => `L${x + pitch / 2} ${25 - high * 1.35}L${x + pitch} 25`);
  return (
    <>
      <path d={`M4 25${line.join('')}`} />
      <path d="M4 30h40" strokeWidth="0.9" />
    </>
  );
}

const DRAWN: Readonly<Record<string, ReactNode>> = {
  head: <path d="M3 17h6M9 8h9v18H9ZM9 14h9M9 20h9M18 12h21v10H18M27 12v10M31 12v10M35 12v10M42 17h4" />,
  'head-up': (
    <>
      <Bolt turn={0} />
      <path d="M41 27V8M38 11l3-3 3 3" />
    </>
  ),
  'head-down': (
    <>
      <Bolt turn={180} />
      <path d="M41 7v19M38 23l3 3 3-3" />
    </>
  ),
  'head-forward': (
    <>
      <Bolt turn={-90} x={29} />
      {ARROW_LEFT}
    </>
  ),
  'head-aft': (
    <>
      <Bolt turn={90} x={19} />
      {ARROW_RIGHT}
    </>
  ),
  'head-out': (
    <>
      {AXIS}
      <Bolt turn={90} x={29} />
    </>
  ),
  'head-in': (
    <>
      {AXIS}
      <Bolt turn={-90} x={29} />
    </>
  ),
  stack: <path d="M3 17h5M8 6v22h4V6ZM15 10v14h3V10ZM21 3v28h7V3ZM31 10v14h3V10ZM37 7h7v20h-7ZM37 14h7M37 21h7" />,
  shims: <path d="M6 9h36M6 13h36M6 17h36M4 21h40v7H4ZM10 28l6-7M20 28l6-7M30 28l6-7" />,
  thread: <Thread hand="right" />,
  'thread-right': <Thread hand="right" />,
  'thread-left': <Thread hand="left" />,
  'thread-form': <Form angle={60} />,
  'thread-60': <Form angle={60} />,
  'thread-55': <Form angle={55} />,
  'thread-47': <Form angle={47.5} />,
  'thread-square': <path d="M4 25V15h5v10h5V15h5v10h5V15h5v10h5V15h5v10h5M4 30h40" />,
  safety: <path d="M4 22c4-12 8 6 12-3s8-8 12 1 6 6 9 2M38 20a4 4 0 1 0 6-5 4 4 0 0 0-6 5" />,
  'split-pin': (
    <>
      <path d="M14 14v14h20V14M14 14h3v4h4v-4h6v4h4v-4h3M24 3v11M20 3v11M28 3v11M20 3h8" />
      <path d="M40 11a3.4 3.4 0 1 0 0 6H13c-6 0-7 3-8 7M13 15c-5-1-7-3-9-6" />
    </>
  ),
  wire: (
    <>
      <path d="M5 9l5-3 5 3v7l-5 3-5-3ZM33 18l5-3 5 3v7l-5 3-5-3Z" />
      <path d="M14 12c5-2 4 5 8 4s3 5 7 4 3 3 5 2M14 14c3 4 6-1 9 2s5 0 7 3" />
    </>
  ),
  tab: <path d="M15 8h18l4 9-4 9H15l-4-9ZM6 26h36v4H6ZM36 26V11l5-1v16" />,
  'spring-washer': (
    <path d="M9 17a15 9 0 1 0 30 0a15 9 0 1 0-30 0M16 17a8 4.5 0 1 0 16 0a8 4.5 0 1 0-16 0M32 10l4 4M35 8l4 4" />
  ),
  peen: <path d="M12 15h24v15H12ZM20 15v15M28 15v15M17 15c-1-6 2-10 7-10s8 4 7 10M17 8l-5-5M31 8l5-5M24 4V1" />,
  'lock-nut': <path d="M13 4h22v9H13ZM20 4v9M28 4v9M13 15h22v14H13ZM20 15v14M28 15v14M21 1v3M27 1v3M21 29v4M27 29v4" />,
  'stiff-nut': <path d="M13 15h22v15H13ZM20 15v15M28 15v15M17 15V7h14v8M17 11h14M21 7V3M27 7V3" />,
  'taper-pin': <path d="M8 9v16M40 9v16M8 9h32M8 25h32M21 1l1 32h4l1-32Z" />,
  clock: <Clock hour={2} />,
  showing: <path d={`${NUT}M20 12V3M28 12V3M20 3h8M20 6l8-2M20 10l8-2M8 25h32M20 25v8M28 25v8`} />,
  cable: <path d="M2 17h7M39 17h7M9 12h5v10H9ZM34 12h5v10h-5ZM14 14c6-3 14-3 20 0M14 20c6 3 14 3 20 0M20 17h8" />,
  spring: <path d="M3 17h4l3-11 6 22 6-22 6 22 6-22 6 22 3-11h3" />,
  dots: (
    <>
      <path d="M7 7h34v20H7ZM24 7v20" />
      <path d="M18 14h.1M18 20h.1M30 17h.1" strokeWidth="4" />
    </>
  ),
  scribe: <path d="M7 7h34v20H7ZM24 7v20M13 17h22" />,
  paint: (
    <>
      <path d="M7 7h34v20H7ZM24 7v20" />
      <path d="M14 14l20 6" strokeWidth="4.5" />
    </>
  ),
  pencil: <path d="M6 29l3-8L31 3l5 6L14 26ZM9 21l5 5M6 29h34" />,
  stamp: (
    <>
      <path d="M7 7h34v20H7Z" />
      <path d="M20 13l4-2v12M28 12h5l-3 11" />
    </>
  ),
  tie: <path d="M3 6c8-4 10 6 16 9M17 12l5-5h21v20H22l-5-5ZM22 17h.1M28 14h10M28 20h10" />,
  'mark-old': (
    <>
      <path d="M7 9h34v18H7ZM24 9v18" />
      <path d="M18 15h.1M18 21h.1M30 18h.1" strokeWidth="4" />
      <path d="M3 5l6-3" />
    </>
  ),
  'mark-ours': (
    <>
      <path d="M7 11h34v18H7ZM24 11v18" />
      <path d="M14 18l20 5" strokeWidth="4" />
      <path d="M37 8l6-6M35 10l2-2" />
    </>
  ),
};
