/**
 * The drawn graph: wire-on tags, solid wires for what must come first, dash-dot wires for what is in the way (with the
 * harm of forcing it). Drag, wheel or arrow keys move the sheet; + and - change the scale; 0 fits it.
 */
import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from 'react';
import type { ActionId, Hand } from '../../domain/rig/rig-types.ts';
import { HAND_PATH } from '../sheet/hand-mark.tsx';
import { placeTags, TAG, type TagSheet, wirePath } from './graph-layout.ts';
import type { Wire } from './graph-model.ts';

export interface TagText {
  readonly id: ActionId;
  readonly title: string;
  readonly under: string;
  readonly hand: Hand | undefined;
  readonly state: 'done' | 'todo' | 'gate' | 'goal';
  /** Words beside the tag: another way to pass a gate. */
  readonly aside?: string;
}

export interface TagGraphProps {
  readonly tags: readonly TagText[];
  readonly wires: readonly Wire[];
  readonly lit: ActionId | null;
  readonly selected: ActionId | null;
  readonly onHover: (id: ActionId | null) => void;
  readonly onSelect: (id: ActionId) => void;
}

interface View {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

const LEAST_SCALE = 0.34;

export function TagGraph({ tags, wires, lit, selected, onHover, onSelect }: TagGraphProps) {
  const shape = tags.map((t) => t.id).join('|');
  // biome-ignore lint/correctness/useExhaustiveDependencies: the layout depends on the ids and wires only
  const sheet = useMemo(() => placeTags(tags.map((t) => t.id), wires), [shape, wires]);
  const svg = useRef<SVGSVGElement>(null);
  const [size, setSize] = useState({ width: 600, height: 600 });
  const [view, setView] = useState<View>({ x: 0, y: 0, scale: 1 });
  const drag = useRef<{ x: number; y: number; moved: boolean } | null>(null);
  const [dragging, setDragging] = useState(false);

  useEffect(() => {
    const host = svg.current;
    if (!host) return;
    const watch = new ResizeObserver(([box]) => box && setSize({ width: box.contentRect.width, height: box.contentRect.height }));
    watch.observe(host);
    return () => watch.disconnect();
  }, []);
  useEffect(() => setView(fit(sheet, size)), [sheet, size]);
  useEffect(() => {
    const at = sheet.tags.find((t) => t.id === selected);
    if (at) setView((v) => inSight(v, size, at.x, at.y, TAG.width, at.height));
  }, [selected, sheet, size]);

  // The wheel must be able to stop the page from scrolling, which React's own listener cannot.
  useEffect(() => {
    const host = svg.current;
    if (!host) return;
    const wheel = (e: WheelEvent) => {
      e.preventDefault();
      if (e.ctrlKey) setView((v) => scaled(v, e.deltaY < 0 ? 1.1 : 1 / 1.1, e.offsetX, e.offsetY));
      else setView((v) => ({ ...v, x: v.x - e.deltaX, y: v.y - e.deltaY }));
    };
    host.addEventListener('wheel', wheel, { passive: false });
    return () => host.removeEventListener('wheel', wheel);
  }, []);

  const down = (e: PointerEvent<SVGSVGElement>) => {
    drag.current = { x: e.clientX, y: e.clientY, moved: false };
  };
  const move = (e: PointerEvent<SVGSVGElement>) => {
    const from = drag.current;
    if (!from || e.buttons === 0) return;
    const dx = e.clientX - from.x;
    const dy = e.clientY - from.y;
    if (!from.moved && Math.hypot(dx, dy) < 5) return;
    if (!from.moved) {
      e.currentTarget.setPointerCapture(e.pointerId);
      setDragging(true);
    }
    drag.current = { x: e.clientX, y: e.clientY, moved: true };
    setView((v) => ({ ...v, x: v.x + dx, y: v.y + dy }));
  };
  const up = () => {
    setDragging(false);
    setTimeout(() => {
      drag.current = null;
    });
  };
  const keys = (e: KeyboardEvent<SVGSVGElement>) => {
    const step = 60;
    const by: Record<string, (v: View) => View> = {
      ArrowLeft: (v) => ({ ...v, x: v.x + step }), ArrowRight: (v) => ({ ...v, x: v.x - step }),
      ArrowUp: (v) => ({ ...v, y: v.y + step }), ArrowDown: (v) => ({ ...v, y: v.y - step }),
      '+': (v) => scaled(v, 1.2, size.width / 2, size.height / 2), '-': (v) => scaled(v, 1 / 1.2, size.width / 2, size.height / 2),
      '0': () => fit(sheet, size),
    };
    const change = by[e.key];
    if (!change) return;
    e.preventDefault();
    setView(change);
  };
  const choose = (id: ActionId) => {
    if (!drag.current?.moved) onSelect(id);
  };
  const text = new Map(tags.map((t) => [t.id, t]));

  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the sheet is moved by the arrow keys */}
      <svg
        ref={svg}
        className={dragging ? 'tags dragging' : 'tags'}
        role="group"
        aria-label="What holds it, drawn as tags. Arrow keys move the sheet, plus and minus change its size, 0 fits it. The list says the same in words."
        tabIndex={0}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerCancel={up}
        onPointerLeave={() => onHover(null)}
        onKeyDown={keys}
      >
        <g transform={`translate(${view.x} ${view.y}) scale(${view.scale})`} aria-hidden="true">
          {sheet.wires.map((w) => (
            <WireLine key={w.wires.map((x) => x.from + x.to).join()} wires={w.wires} d={wirePath(w.points)} lit={lit ?? selected} text={text} at={w.points[Math.floor(w.points.length / 2)]} />
          ))}
          {sheet.tags.map((at) => {
            const tag = text.get(at.id);
            return tag && <Tag key={at.id} tag={tag} x={at.x} y={at.y} height={at.height} strung={at.strung} lit={lit === at.id} on={selected === at.id} onHover={onHover} onChoose={choose} />;
          })}
        </g>
      </svg>
      <div className="zoom">
        <button type="button" aria-label="Smaller" onClick={() => setView((v) => scaled(v, 1 / 1.25, size.width / 2, size.height / 2))}>−</button>
        <button type="button" onClick={() => setView(fit(sheet, size))}>Fit</button>
        <button type="button" aria-label="Larger" onClick={() => setView((v) => scaled(v, 1.25, size.width / 2, size.height / 2))}>+</button>
      </div>
    </>
  );
}

interface TagProps {
  readonly tag: TagText;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly strung: boolean;
  readonly lit: boolean;
  readonly on: boolean;
  readonly onHover: (id: ActionId | null) => void;
  readonly onChoose: (id: ActionId) => void;
}

function Tag({ tag, x, y, height, strung, lit, on, onHover, onChoose }: TagProps) {
  const h = height;
  const cls = `tag ${tag.state}${lit ? ' lit' : ''}${on ? ' on' : ''}`;
  const room = tag.state === 'goal' ? 21 : 25;
  const title = shorten(tag.title, tag.hand ? room - 2 : room);
  const right = 30 + estimate(title, tag.state === 'goal' ? 20 : 17);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents lint/a11y/noStaticElementInteractions: the list is the keyboard's way to the same choice
    <g className={cls} transform={`translate(${x} ${y})`} onPointerEnter={() => onHover(tag.id)} onPointerLeave={() => onHover(null)} onClick={() => onChoose(tag.id)}>
      <title>{tag.title}</title>
      {strung && <path className="wire" d={`M15 -${TAG.pitch - h / 2 - 5}V${h / 2 - 5}`} />}
      <path className="body" d={`M14 0H${TAG.width}V${h}H14L0 ${h - 15}V15Z`} />
      {on && <path className="bar" d={`M${TAG.width - 5} 0h5v${h}h-5Z`} />}
      <circle className="hole" cx="15" cy={h / 2} r="5" />
      <text className="tx" x="30" y={h / 2 - 4}>{title}</text>
      {tag.hand && <path className="hm" d={HAND_PATH[tag.hand]} transform={`translate(${right + 7} ${h / 2 - 17}) scale(.9)`} />}
      <text className="ts" x="30" y={h / 2 + 16}>{shorten(tag.under, 28)}</text>
      {tag.aside && <Aside words={tag.aside} x={TAG.width + 12} y={h / 2 - 6} />}
    </g>
  );
}

function Aside({ words, x, y, harm = false }: { readonly words: string; readonly x: number; readonly y: number; readonly harm?: boolean }) {
  const lines = broken(words, 26).slice(0, 3);
  return (
    <g className={harm ? 'aside harm' : 'aside'}>
      {lines.map((line, i) => (
        <text key={line} className={harm ? 'aside harm' : 'aside'} x={x} y={y + i * 16}>{line}</text>
      ))}
    </g>
  );
}

interface WireLineProps {
  readonly wires: readonly Wire[];
  readonly d: string;
  readonly lit: ActionId | null;
  readonly text: ReadonlyMap<ActionId, TagText>;
  readonly at: { readonly x: number; readonly y: number } | undefined;
}

function WireLine({ wires, d, lit, text, at }: WireLineProps) {
  const isBlock = wires.every((w) => w.way === 'block');
  const isLit = wires.some((w) => w.from === lit || w.to === lit);
  const isSpent = wires.every((w) => text.get(w.from)?.state === 'done');
  const harm = wires.find((w) => w.harm !== undefined)?.harm;
  const cls = `wire${isBlock ? ' way-block' : ''}${isLit ? ' lit' : ''}${isSpent ? ' spent' : ''}${isLit && isBlock ? ' harm' : ''}`;
  return (
    <g>
      <path className={cls} d={d} />
      {isBlock && isLit && harm && at && <Aside words={harm} x={at.x + 9} y={at.y - 4} harm />}
    </g>
  );
}

function fit(sheet: TagSheet, size: { readonly width: number; readonly height: number }): View {
  const scale = Math.max(LEAST_SCALE, Math.min(1.04, (size.width - 8) / sheet.width, (size.height - 8) / sheet.height));
  // Readable before whole: at the desk a tag keeps two thirds of its size, and the sheet is moved instead.
  const readable = Math.max(scale, Math.min(0.66, (size.width - 8) / sheet.width));
  return { scale: readable, x: Math.max(4, (size.width - sheet.width * readable) / 2), y: sheet.height * readable > size.height ? 4 : Math.max(4, (size.height - sheet.height * readable) / 2.4) };
}

function scaled(v: View, by: number, x: number, y: number): View {
  const scale = Math.min(2, Math.max(LEAST_SCALE, v.scale * by));
  const real = scale / v.scale;
  return { scale, x: x - (x - v.x) * real, y: y - (y - v.y) * real };
}

/** Moves as little as is needed to bring a tag into sight. */
function inSight(v: View, size: { readonly width: number; readonly height: number }, x: number, y: number, w: number, h: number): View {
  const pad = 26;
  const left = v.x + x * v.scale;
  const top = v.y + y * v.scale;
  const dx = left < pad ? pad - left : Math.min(0, size.width - pad - (left + w * v.scale));
  const dy = top < pad ? pad - top : Math.min(0, size.height - pad - (top + h * v.scale));
  return dx === 0 && dy === 0 ? v : { ...v, x: v.x + dx, y: v.y + dy };
}

function shorten(words: string, most: number): string {
  return words.length <= most ? words : `${words.slice(0, most - 1).trimEnd()}…`;
}

/** Width of a condensed line, near enough to set a hand mark after it. */
function estimate(words: string, px: number): number {
  return words.length * px * 0.405;
}

function broken(words: string, most: number): readonly string[] {
  const lines: string[] = [''];
  for (const word of words.split(' ')) {
    const at = lines.length - 1;
    if (`${lines[at]} ${word}`.length <= most) lines[at] = `${lines[at]} ${word}`.trim();
    else lines.push(word);
  }
  return lines.filter((l) => l !== '');
}
