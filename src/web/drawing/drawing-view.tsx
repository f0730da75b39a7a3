/**
 * One of the job's drawing sheets, alive: parts light with the list, and a tap on a part chooses it.
 *
 * Each sheet lives in a shadow root of its own: its style classes and ids stay inside, the colour variables of the page
 * reach in. Its style is adopted as a sheet, not written into the page, so a strict content policy holds.
 * Not chosen: an <img>, which cannot be lit, or one React component per drawing, which nobody could draw.
 */
import { useEffect, useRef, useState } from 'react';
import type { View } from '../graph/use-pan.ts';
import { lineOfPart } from '../words/names.ts';
import type { Box, Point, SheetShown } from './placing.ts';

export interface DrawingMarks {
  /** Drawing lines (`10-03`) by what is said of them. */
  readonly on: ReadonlySet<string>;
  readonly lit: ReadonlySet<string>;
  readonly harm: ReadonlySet<string>;
  /** In the plan: full ink. Empty: everything is. */
  readonly wanted: ReadonlySet<string>;
  readonly gone: ReadonlySet<string>;
}

export interface DrawingViewProps {
  readonly url: string;
  readonly label: string;
  readonly marks: DrawingMarks;
  /** Moved and scaled by whoever holds the window. */
  readonly view?: View;
  /** On the contact sheet: no lettering that nobody could read. */
  readonly small?: boolean;
  readonly onHover?: (line: string | null) => void;
  readonly onChoose?: (line: string) => void;
  /** Where everything is, once the sheet is drawn: for pins laid over it. */
  readonly onShown?: (shown: SheetShown) => void;
}

const LIVE_STYLE = `
  :host{display:block} svg{width:100%;height:100%;display:block}
  [data-part]{cursor:pointer;transition:opacity .12s}
  [data-part]:hover .p,[data-part]:hover .pf,[data-part].is-lit .p,[data-part].is-lit .pf{fill:var(--wash)}
  [data-part]:hover .o,[data-part].is-lit .o{stroke-width:2.9}
  [data-part].is-on .p,[data-part].is-on .pf{fill:var(--wash)}
  [data-part].is-on .o{stroke-width:3.4} [data-part].is-on .e{stroke-width:1.8}
  [data-part].is-harm .o,[data-part].is-harm .e{stroke:var(--signal)}
  [data-part].is-harm .p,[data-part].is-harm .pf{fill:var(--signal-wash)}
  [data-part].is-gone .o,[data-part].is-gone .e,[data-part].is-gone .wb{stroke:var(--ink-2);stroke-dasharray:5 3.5}
  svg.has-plan [data-part]{opacity:.42}
  svg.has-plan [data-part]:is(.is-wanted,.is-on,.is-lit,.is-harm,:hover){opacity:1}
  .heading{display:none}
  .nt,.t2{font-size:16px;font-weight:500} .st{font-size:16px}
  svg.is-small :is(.nt,.t2,.st){display:none}
  .balloon{cursor:pointer}
  .balloon circle:not(.dot){r:23px} .balloon .bn{font-size:27px;font-weight:600;transform:translateY(3px)}
  svg.has-plan .balloon{opacity:.5} svg.has-plan .balloon:is(.is-wanted,.is-on,.is-lit,.is-harm){opacity:1}
  .balloon.is-lit circle:not(.dot){fill:var(--wash);stroke-width:2.4}
  .balloon.is-harm circle:not(.dot){stroke:var(--signal);stroke-width:2.4} .balloon.is-harm text{fill:var(--signal)}
  .balloon.is-on circle:not(.dot){fill:var(--ink)} .balloon.is-on text{fill:var(--paper)}
  .balloon.is-on.is-harm circle:not(.dot){fill:var(--signal)}
  @media (prefers-reduced-motion: reduce){[data-part]{transition:none}}
`;

const loaded = new Map<string, Promise<string>>();

function load(url: string): Promise<string> {
  const had = loaded.get(url);
  if (had) return had;
  const coming = fetch(url).then((r) => (r.ok ? r.text() : Promise.reject(new Error(`${r.status}`))));
  loaded.set(url, coming);
  coming.catch(() => loaded.delete(url));
  return coming;
}

export function DrawingView({ url, label, marks, view, small = false, onHover, onChoose, onShown }: DrawingViewProps) {
  const host = useRef<HTMLDivElement>(null);
  const [svg, setSvg] = useState<SVGSVGElement | null>(null);
  const [missing, setMissing] = useState(false);

  useEffect(() => {
    let current = true;
    setMissing(false);
    load(url).then(
      (text) => current && host.current && setSvg(show(host.current, text, label)),
      () => current && setMissing(true),
    );
    return () => {
      current = false;
    };
  }, [url, label]);

  useEffect(() => {
    if (svg) mark(svg, marks, small);
  }, [svg, marks, small]);

  useEffect(() => {
    if (svg && onShown) onShown(shownOf(svg));
  }, [svg, onShown]);

  useEffect(() => {
    if (!svg) return;
    const over = (e: Event) => onHover?.(lineAt(e.target));
    const out = () => onHover?.(null);
    const choose = (e: Event) => {
      const line = lineAt(e.target);
      if (line !== null) onChoose?.(line);
    };
    svg.addEventListener('pointerover', over);
    svg.addEventListener('pointerleave', out);
    svg.addEventListener('click', choose);
    return () => {
      svg.removeEventListener('pointerover', over);
      svg.removeEventListener('pointerleave', out);
      svg.removeEventListener('click', choose);
    };
  }, [svg, onHover, onChoose]);

  return (
    <>
      <div
        ref={host}
        className="host"
        style={view && { transform: `translate(${view.x}px, ${view.y}px) scale(${view.scale})` }}
      />
      {missing && <p className="quiet">The drawing could not be fetched. The list says the same.</p>}
    </>
  );
}

function show(host: HTMLDivElement, text: string, label: string): SVGSVGElement | null {
  const root = host.shadowRoot ?? host.attachShadow({ mode: 'open' });
  const parsed = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
  if (!(parsed instanceof SVGSVGElement)) return null;
  const style = parsed.querySelector('style');
  const own = new CSSStyleSheet();
  own.replaceSync(style?.textContent ?? '');
  style?.remove();
  const live = new CSSStyleSheet();
  live.replaceSync(LIVE_STYLE);
  root.adoptedStyleSheets = [own, live];
  parsed.removeAttribute('aria-labelledby');
  parsed.setAttribute('role', 'img');
  parsed.setAttribute('aria-label', label);
  parsed.querySelector('.sheet')?.remove();
  root.replaceChildren(parsed);
  parsed.dataset.whole = parsed.getAttribute('viewBox') ?? '';
  crop(parsed);
  return parsed;
}

function boxOf(text: string): Box {
  const [x = 0, y = 0, width = 1, height = 1] = text.split(/[ ,]+/).map(Number);
  return { x, y, width, height };
}

/** A line's balloon points at it with a dot; where it is drawn several times, each drawing has a place of its own. */
function shownOf(svg: SVGSVGElement): SheetShown {
  const whole = boxOf(svg.dataset.whole ?? '0 0 1 1');
  const inverse = svg.getScreenCTM()?.inverse();
  const places = new Map<string, Point[]>();
  const add = (line: string, shape: SVGGraphicsElement) => {
    const own = shape.getScreenCTM();
    if (!inverse || !own) return;
    const box = shape.getBBox();
    const at = new DOMPoint(box.x + box.width / 2, box.y + box.height / 2).matrixTransform(inverse.multiply(own));
    const place = { x: (at.x - whole.x) / whole.width, y: (at.y - whole.y) / whole.height };
    places.set(line, [...(places.get(line) ?? []), place]);
  };
  for (const group of svg.querySelectorAll<SVGGraphicsElement>('[data-part]'))
    add(lineOfPart(group.getAttribute('data-part') ?? ''), group);
  for (const dot of svg.querySelectorAll<SVGGraphicsElement>('[data-for] .dot')) {
    const line = lineOfPart(dot.closest('[data-for]')?.getAttribute('data-for') ?? '');
    if ((places.get(line)?.length ?? 0) > 1) continue;
    places.delete(line);
    add(line, dot);
  }
  return { whole, crop: boxOf(svg.getAttribute('viewBox') ?? '0 0 1 1'), places };
}

/** Without its heading a sheet has empty corners: the window goes round what is drawn. */
function crop(svg: SVGSVGElement): void {
  const box = svg.getBBox();
  const edge = 14;
  if (box.width > 0)
    svg.setAttribute('viewBox', [box.x - edge, box.y - edge, box.width + 2 * edge, box.height + 2 * edge].join(' '));
}

function lineAt(target: EventTarget | null): string | null {
  if (!(target instanceof Element)) return null;
  const group = target.closest('[data-part],[data-for]');
  return group?.getAttribute('data-part') ?? group?.getAttribute('data-for') ?? null;
}

function mark(svg: SVGSVGElement, marks: DrawingMarks, small: boolean): void {
  svg.classList.toggle('is-small', small);
  svg.classList.toggle('has-plan', marks.wanted.size > 0);
  for (const group of svg.querySelectorAll('[data-part],[data-for]')) {
    const line = lineOfPart(group.getAttribute('data-part') ?? group.getAttribute('data-for') ?? '');
    group.classList.toggle('is-on', marks.on.has(line));
    group.classList.toggle('is-lit', marks.lit.has(line));
    group.classList.toggle('is-harm', marks.harm.has(line));
    group.classList.toggle('is-wanted', marks.wanted.has(line));
    group.classList.toggle('is-gone', marks.gone.has(line));
  }
}
