/**
 * The drawn graph: wire-on tags, solid wires for what must come first, dash-dot wires for what is in the way (with the
 * harm of forcing it). Drag, wheel or arrow keys move the sheet; plus and minus change the scale; 0 fits it.
 */
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { ActionId, Hand } from '../../domain/rig/rig-types.ts';
import { HAND_PATH } from '../sheet/hand-mark.tsx';
import { placeTags, TAG, type TagSheet, wirePath } from './graph-layout.ts';
import type { Wire } from './graph-model.ts';
import { fitting, linesOf, widthOf } from './lettering.ts';
import { type Size, usePan, type View } from './use-pan.ts';
import { ZoomKeys } from './zoom-keys.tsx';

export interface TagText {
  readonly id: ActionId;
  readonly title: string;
  readonly under: string;
  readonly hand: Hand | undefined;
  readonly state: 'done' | 'todo' | 'gate' | 'goal';
  /** Words below the tag: another way to pass a gate. */
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

const TITLE_FONT = '600 17px "Barlow Condensed"';
const GOAL_FONT = '600 20px "Barlow Condensed"';
const UNDER_FONT = '400 12.5px B612';
const ASIDE_FONT = '500 14px "Barlow Condensed"';

export function TagGraph({ tags, wires, lit, selected, onHover, onSelect }: TagGraphProps) {
  const window = useRef<SVGSVGElement>(null);
  const lettered = useFontsReady();
  const shape = tags.map((t) => `${t.id}${t.state === 'goal' ? '!' : ''}${t.aside ? '+' : ''}`).join('|');
  // biome-ignore lint/correctness/useExhaustiveDependencies: the layout depends on ids, states and wires only
  const sheet = useMemo(
    () => placeTags(tags.map((t) => ({ id: t.id, isGoal: t.state === 'goal', hasAside: t.aside !== undefined })), wires),
    [shape, wires],
  );
  const fitIn = useCallback((size: Size) => fitView(sheet, size), [sheet]);
  const pan = usePan(window, fitIn);
  const { show } = pan;
  useEffect(() => {
    const at = sheet.tags.find((t) => t.id === selected);
    if (at) show(at.x, at.y, TAG.width, at.height);
  }, [selected, sheet, show]);
  const text = new Map(tags.map((t) => [t.id, t]));
  const choose = (id: ActionId) => {
    if (!pan.wasDrag()) onSelect(id);
  };
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the sheet is moved by the arrow keys */}
      <svg
        ref={window}
        className={pan.dragging ? 'tags dragging' : 'tags'}
        role="group"
        aria-label="What holds what, drawn as tags. Arrow keys move the sheet, plus and minus change its size, 0 fits it. The list says the same in words."
        tabIndex={0}
        onPointerLeave={() => onHover(null)}
        {...pan.handlers}
      >
        <g transform={`translate(${pan.view.x} ${pan.view.y}) scale(${pan.view.scale})`} aria-hidden="true" data-lettered={lettered}>
          {sheet.wires.map((w) => (
            <WireLine key={w.wires.map((x) => x.from + x.to).join()} wires={w.wires} d={wirePath(w.points)} lit={lit} on={selected} text={text} at={w.points[Math.floor(w.points.length / 2)]} />
          ))}
          {sheet.tags.map((at) => {
            const tag = text.get(at.id);
            return tag && <Tag key={at.id} tag={tag} x={at.x} y={at.y} height={at.height} strung={at.strung} lit={lit === at.id} on={selected === at.id} onHover={onHover} onChoose={choose} />;
          })}
        </g>
      </svg>
      <ZoomKeys pan={pan} />
    </>
  );
}

/** Measured lettering must be measured again once the faces are there. */
function useFontsReady(): boolean {
  const [ready, setReady] = useState(document.fonts.status === 'loaded');
  useEffect(() => {
    let current = true;
    void document.fonts.ready.then(() => current && setReady(true));
    return () => {
      current = false;
    };
  }, []);
  return ready;
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

function Tag({ tag, x, y, height: h, strung, lit, on, onHover, onChoose }: TagProps) {
  const font = tag.state === 'goal' ? GOAL_FONT : TITLE_FONT;
  const title = fitting(tag.title, font, TAG.width - 44 - (tag.hand ? 20 : 0));
  const right = 30 + widthOf(title, font);
  const cls = `tag ${tag.state}${lit ? ' lit' : ''}${on ? ' on' : ''}`;
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents lint/a11y/noStaticElementInteractions: the list is the keyboard's way to the same choice
    <g className={cls} transform={`translate(${x} ${y})`} onPointerEnter={() => onHover(tag.id)} onPointerLeave={() => onHover(null)} onClick={() => onChoose(tag.id)}>
      <title>{tag.title}</title>
      {strung && <path className="wire" d={`M15 ${h / 2 - TAG.pitch + 5}V${h / 2 - 5}`} />}
      <path className="body" d={`M14 0H${TAG.width}V${h}H14L0 ${h - 15}V15Z`} />
      {on && <path className="bar" d={`M${TAG.width - 5} 0h5v${h}h-5Z`} />}
      <circle className="hole" cx="15" cy={h / 2} r="5" />
      <text className="tx" x="30" y={h / 2 - 4}>{title}</text>
      {tag.hand && <path className="hm" d={HAND_PATH[tag.hand]} transform={`translate(${right + 7} ${h / 2 - 17}) scale(.9)`} />}
      <text className="ts" x="30" y={h / 2 + 16}>{fitting(tag.under, UNDER_FONT, TAG.width - 40)}</text>
      {tag.aside && <Aside words={tag.aside} x={30} y={h + 18} room={TAG.width - 30} />}
    </g>
  );
}

interface AsideProps {
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly room: number;
  readonly harm?: boolean;
}

function Aside({ words, x, y, room, harm = false }: AsideProps) {
  return linesOf(words, ASIDE_FONT, room)
    .slice(0, 2)
    .map((line, i) => <text key={line} className={harm ? 'aside harm' : 'aside'} x={x} y={y + i * 16}>{line}</text>);
}

interface WireLineProps {
  readonly wires: readonly Wire[];
  readonly d: string;
  readonly lit: ActionId | null;
  readonly on: ActionId | null;
  readonly text: ReadonlyMap<ActionId, TagText>;
  readonly at: { readonly x: number; readonly y: number } | undefined;
}

function WireLine({ wires, d, lit, on, text, at }: WireLineProps) {
  const isBlock = wires.every((w) => w.way === 'block');
  const isLit = wires.some((w) => [w.from, w.to].some((end) => end === lit || end === on));
  const isSpent = wires.every((w) => text.get(w.from)?.state === 'done');
  const harm = wires.find((w) => w.harm !== undefined)?.harm;
  const cls = `wire${isBlock ? ' way-block' : ''}${isLit ? ' lit' : ''}${isSpent ? ' spent' : ''}${isLit && isBlock && !isSpent ? ' harm' : ''}`;
  return (
    <g>
      <path className={cls} d={d} />
      {isBlock && !isSpent && harm && at && <Aside words={harm} x={at.x + 10} y={at.y - 2} room={150} harm={isLit} />}
    </g>
  );
}

/** Readable before whole: a tag keeps two thirds of its size, and the sheet is moved instead. */
function fitView(sheet: TagSheet, size: Size): View {
  const across = (size.width - 12) / sheet.width;
  const whole = Math.min(1.02, across, (size.height - 12) / sheet.height);
  const scale = Math.max(whole, Math.min(0.7, Math.max(across, 0.45)));
  const tall = sheet.height * scale > size.height;
  return {
    scale,
    x: Math.max(4, (size.width - sheet.width * scale) / 2),
    y: tall ? 6 : Math.max(4, (size.height - sheet.height * scale) / 2.6),
  };
}
