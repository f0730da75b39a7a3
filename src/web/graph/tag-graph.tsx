/**
 * The drawn graph: wire-on tags, solid wires for what must come first, dash-dot wires for what is in the way (with the
 * harm of forcing it). Drag, wheel or arrow keys move the sheet; plus and minus change the scale; 0 fits it.
 */
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { ActionId, Hand } from '../../domain/rig/rig-types.ts';
import { HAND_PATH } from '../sheet/hand-mark.tsx';
import { columnsIn, type PlacedWire, type Point, placeTags, TAG, type TagSheet } from './graph-layout.ts';
import type { Wire } from './graph-model.ts';
import { fitting, linesOf, widthOf } from './lettering.ts';
import { type Size, usePan, type View, windowProps } from './use-pan.ts';
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

const WINDOW_LABEL =
  'What holds what, drawn as tags. Arrow keys move the sheet, plus and minus change its size, 0 fits it. The list says the same in words.';

export function TagGraph({ tags, wires, lit, selected, onHover, onSelect }: TagGraphProps) {
  const window = useRef<HTMLDivElement>(null);
  const [columns, setColumns] = useState(2);
  const lettered = useFontsReady();
  // biome-ignore lint/correctness/useExhaustiveDependencies: measured again once the faces are there
  const lettering = useMemo(() => new Map(tags.map((t) => [t.id, letter(t)])), [tags, lettered]);
  const sheet = useMemo(
    () =>
      placeTags(
        tags.map((t) => ({
          id: t.id,
          height: heightOf(t, lettering.get(t.id)),
          below: (lettering.get(t.id)?.aside.length ?? 0) * ASIDE_LINE,
        })),
        wires,
        columns,
      ),
    [tags, lettering, wires, columns],
  );
  const fitIn = useCallback((size: Size) => fitView(sheet, size), [sheet]);
  const pan = usePan(window, fitIn);
  const { show } = pan;
  useEffect(() => setColumns(columnsIn(pan.size.width)), [pan.size.width]);
  useEffect(() => {
    const at = sheet.tags.find((t) => t.id === selected);
    if (at) show(at.x, at.y, TAG.width, at.height);
  }, [selected, sheet, show]);
  const text = new Map(tags.map((t) => [t.id, t]));
  const tagAt = (e: { readonly target: EventTarget }) =>
    e.target instanceof Element ? (e.target.closest('[data-tag]')?.getAttribute('data-tag') ?? null) : null;
  const choose = (e: { readonly target: EventTarget }) => {
    const id = tagAt(e);
    if (id !== null && !pan.wasDrag()) onSelect(id);
  };
  return (
    <>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: it has the role of a group and its keys; the list is the way of the keyboard to the same choice */}
      <div
        ref={window}
        className={pan.dragging ? 'tags dragging' : 'tags'}
        {...windowProps(WINDOW_LABEL)}
        {...pan.handlers}
        onKeyDown={pan.handlers.onKeyDown}
        onClick={choose}
        onPointerOver={(e) => onHover(tagAt(e))}
        onPointerLeave={() => onHover(null)}
      >
        <svg aria-hidden="true">
          <g transform={`translate(${pan.view.x} ${pan.view.y}) scale(${pan.view.scale})`}>
            {sheet.wires.map((w) => (
              <WireLine
                key={w.wires.map((x) => x.from + x.to).join()}
                wire={w}
                sheet={sheet}
                lit={lit}
                on={selected}
                text={text}
              />
            ))}
            {sheet.tags.map((at) => {
              const tag = text.get(at.id);
              return (
                tag && (
                  <Tag
                    key={at.id}
                    tag={tag}
                    lettering={lettering.get(at.id)!}
                    x={at.x}
                    y={at.y}
                    height={at.height}
                    strung={at.strung}
                    lit={lit === at.id}
                    on={selected === at.id}
                  />
                )
              );
            })}
          </g>
        </svg>
      </div>
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

interface Lettering {
  readonly title: readonly string[];
  readonly under: string;
  readonly aside: readonly string[];
}

const LINE = 19;
const ASIDE_LINE = 16;

/** Titles of at most two lines; what is still too long ends in dots and is whole in the list. */
function letter(tag: TagText): Lettering {
  const font = tag.state === 'goal' ? GOAL_FONT : TITLE_FONT;
  const room = TAG.width - 42;
  const last = room - (tag.hand ? 20 : 0);
  const lines = linesOf(tag.title, font, room);
  const title =
    lines.length === 1
      ? [fitting(tag.title, font, last)]
      : [lines[0] ?? '', fitting(lines.slice(1).join(' '), font, last)];
  const asides = tag.aside === undefined ? [] : linesOf(tag.aside, ASIDE_FONT, TAG.width - 30);
  const aside =
    asides.length <= 3
      ? asides
      : [...asides.slice(0, 2), fitting(asides.slice(2).join(' '), ASIDE_FONT, TAG.width - 30)];
  return { title, under: fitting(tag.under, UNDER_FONT, TAG.width - 40), aside };
}

function heightOf(tag: TagText, lettering: Lettering | undefined): number {
  return (tag.state === 'goal' ? 68 : 58) + ((lettering?.title.length ?? 1) - 1) * LINE;
}

interface TagProps {
  readonly tag: TagText;
  readonly lettering: Lettering;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly strung: boolean;
  readonly lit: boolean;
  readonly on: boolean;
}

function Tag({ tag, lettering, x, y, height: h, strung, lit, on }: TagProps) {
  const font = tag.state === 'goal' ? GOAL_FONT : TITLE_FONT;
  const { title, under, aside } = lettering;
  const right = 30 + widthOf(title.at(-1) ?? '', font);
  const first = tag.state === 'goal' ? 29 : 25;
  const last = first + (title.length - 1) * LINE;
  const cls = `tag ${tag.state}${lit ? ' lit' : ''}${on ? ' on' : ''}`;
  return (
    <g className={cls} transform={`translate(${x} ${y})`} data-tag={tag.id}>
      <title>{tag.title}</title>
      {strung && <path className="wire" d={`M15 -${TAG.strung + 24}V${h / 2 - 5}`} />}
      <path className="body" d={`M14 0H${TAG.width}V${h}H14L0 ${h - 15}V15Z`} />
      {on && <path className="bar" d={`M${TAG.width - 5} 0h5v${h}h-5Z`} />}
      <circle className="hole" cx="15" cy={h / 2} r="5" />
      {title.map((line, i) => (
        <text className="tx" key={line} x="30" y={first + i * LINE}>
          {line}
        </text>
      ))}
      {tag.hand && (
        <path className="hm" d={HAND_PATH[tag.hand]} transform={`translate(${right + 7} ${last - 13}) scale(.9)`} />
      )}
      <text className="ts" x="30" y={last + 20}>
        {under}
      </text>
      {aside.map((line, i) => (
        <text className="aside" key={line} x="30" y={h + 16 + i * ASIDE_LINE}>
          {line}
        </text>
      ))}
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
    .map((line, i) => (
      <text key={line} className={harm ? 'aside harm' : 'aside'} x={x} y={y + i * 16}>
        {line}
      </text>
    ));
}

interface WireLineProps {
  readonly wire: PlacedWire;
  readonly sheet: TagSheet;
  readonly lit: ActionId | null;
  readonly on: ActionId | null;
  readonly text: ReadonlyMap<ActionId, TagText>;
}

const WORDS_ROOM = 176;

function WireLine({ wire, sheet, lit, on, text }: WireLineProps) {
  const { wires } = wire;
  const isBlock = wires.every((w) => w.way === 'block');
  const isLit = wires.some((w) => [w.from, w.to].some((end) => end === lit || end === on));
  const isSpent = wires.every((w) => text.get(w.from)?.state === 'done');
  const harm = wires.find((w) => w.harm !== undefined)?.harm;
  const cls = `wire${isBlock ? ' way-block' : ''}${isLit ? ' lit' : ''}${isSpent ? ' spent' : ''}${isLit && isBlock && !isSpent ? ' harm' : ''}`;
  const at = besides(wire.words, sheet.width);
  return (
    <g>
      <path className={cls} d={wire.d} />
      {isBlock && !isSpent && harm && <Aside words={harm} x={at.x} y={at.y} room={WORDS_ROOM} harm={isLit} />}
    </g>
  );
}

/** Words stand right of a wire, or left of it where the sheet ends. */
function besides(at: Point, width: number): Point {
  return at.x + 10 + WORDS_ROOM < width ? { x: at.x + 10, y: at.y } : { x: at.x - 10 - WORDS_ROOM, y: at.y };
}

/** Readable before whole: a tag keeps seven tenths of its size, and the sheet is moved instead. */
function fitView(sheet: TagSheet, size: Size): View {
  const across = Math.min(1.02, (size.width - 6) / sheet.width);
  const whole = Math.min(across, (size.height - 6) / sheet.height);
  const scale = Math.max(whole, Math.min(across, 0.72));
  const tall = sheet.height * scale > size.height;
  return {
    scale,
    x: Math.max(4, (size.width - sheet.width * scale) / 2),
    y: tall ? 6 : Math.max(4, (size.height - sheet.height * scale) / 2.6),
  };
}
