/**
 * The sheet at work: a drawing or a photograph under a window that moves, with its pins. A tap chooses the nearest pin
 * within reach of a thumb, else the part under it; while a pin is being set it moves the pin. Arrow keys move the sheet,
 * or the pin, whichever is in hand.
 */
import { type KeyboardEvent, type MouseEvent, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { type DrawingMarks, DrawingView } from '../drawing/drawing-view.tsx';
import { nearest, type Placing, type Point, type SheetShown, toSheet, toWindow } from '../drawing/placing.ts';
import { usePan, windowProps } from '../graph/use-pan.ts';
import { ZoomKeys } from '../graph/zoom-keys.tsx';
import { Photo } from '../photo/photo.tsx';
import type { Mark } from './marks.ts';
import { PinLayer } from './pin-layer.tsx';
import type { WhereSheet } from './sheets.ts';

export interface BoardProps {
  readonly sheet: WhereSheet;
  readonly shown: SheetShown | null;
  readonly onShown: (sheet: string, shown: SheetShown) => void;
  readonly marks: readonly Mark[];
  readonly drawn: DrawingMarks;
  readonly chosen: string | null;
  readonly chosenAt: Point | null;
  readonly lit: string | null;
  readonly setting: Point | null;
  readonly reach: number;
  readonly onChoose: (subject: string) => void;
  readonly onLine: (line: string) => void;
  readonly onOver: (line: string | null) => void;
  readonly onMove: (to: Point) => void;
  readonly onSave: () => void;
  readonly onLeave: () => void;
}

const WHOLE = () => ({ x: 0, y: 0, scale: 1 });
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
/** In parts of the sheet: fine, and with Shift ten times as far. */
const STEP = 0.004;

export function Board(p: BoardProps) {
  const window = useRef<HTMLDivElement>(null);
  const pan = usePan(window, WHOLE);
  const tapped = useRef<string | null>(null);
  const [over, setOver] = useState<string | null>(null);
  const { sheet, onShown, shown, setting, onOver } = p;
  const isSetting = setting !== null;

  useEffect(() => {
    if (sheet.kind !== 'own') return;
    const whole = { x: 0, y: 0, width: sheet.width, height: sheet.height };
    onShown(sheet.id, { whole, crop: whole, places: new Map() });
  }, [sheet, onShown]);
  useEffect(() => {
    if (isSetting) window.current?.focus();
  }, [isSetting]);

  const placing = useMemo(
    (): Placing | null => (shown === null ? null : { shown, window: pan.size, view: pan.view }),
    [shown, pan.size, pan.view],
  );
  const drawingShown = useCallback((s: SheetShown) => onShown(sheet.id, s), [onShown, sheet.id]);
  const line = useCallback((id: string) => {
    tapped.current = id;
  }, []);
  const hover = useCallback(
    (id: string | null) => {
      setOver(id);
      onOver(id);
    },
    [onOver],
  );

  const tap = (e: MouseEvent<HTMLDivElement>) => {
    const part = tapped.current;
    tapped.current = null;
    if (pan.wasDrag() || placing === null) return;
    const box = e.currentTarget.getBoundingClientRect();
    const at = { x: e.clientX - box.left, y: e.clientY - box.top };
    if (isSetting) return p.onMove(toSheet(at, placing));
    const pins = p.marks.map((mark) => ({ mark, at: toWindow(mark.at, placing) }));
    const hit = nearest(pins, at, p.reach);
    if (hit !== null) p.onChoose(hit.mark.subject);
    else if (part !== null) p.onLine(part);
  };
  const keys = (e: KeyboardEvent<HTMLDivElement>) => {
    if (setting === null) return pan.handlers.onKeyDown(e);
    const arrow = ARROWS[e.key];
    const far = e.shiftKey ? STEP * 10 : STEP;
    if (arrow) p.onMove({ x: clamp(setting.x + arrow[0] * far), y: clamp(setting.y + arrow[1] * far) });
    else if (e.key === 'Enter') p.onSave();
    else if (e.key === 'Escape') p.onLeave();
    else return;
    e.preventDefault();
    e.stopPropagation();
  };
  const says = isSetting
    ? 'A pin is in hand. Tap, or move it with the arrow keys; Enter saves it, Escape leaves it.'
    : 'The sheet with its pins. Arrow keys move it, plus and minus change its size, 0 fits it. The list says the same.';
  const className = ['art', pan.dragging ? 'dragging' : '', isSetting ? 'setting' : ''].filter(Boolean).join(' ');
  return (
    <div className="board">
      {/* biome-ignore lint/a11y/noStaticElementInteractions: it is a group with a label and takes the keys itself */}
      <div ref={window} className={className} {...windowProps(says)} {...pan.handlers} onKeyDown={keys} onClick={tap}>
        {sheet.kind === 'drawing' ? (
          <DrawingView
            key={sheet.id}
            url={sheet.drawing.url}
            label={`${sheet.name}, invented example, as designed`}
            marks={p.drawn}
            view={pan.view}
            onHover={hover}
            onChoose={line}
            onShown={drawingShown}
          />
        ) : (
          <div
            className="host photo"
            style={{ transform: `translate(${pan.view.x}px, ${pan.view.y}px) scale(${pan.view.scale})` }}
          >
            <Photo hash={sheet.photo} size="print" alt={sheet.name} />
          </div>
        )}
        {placing !== null && (
          <PinLayer
            marks={p.marks}
            placing={placing}
            chosen={p.chosen}
            chosenAt={p.chosenAt}
            lit={p.lit ?? over}
            setting={setting}
          />
        )}
      </div>
      <ZoomKeys pan={pan} />
    </div>
  );
}

function clamp(n: number): number {
  return Math.round(Math.min(1, Math.max(0, n)) * 10_000) / 10_000;
}
