/**
 * Find anything: one field over parts, bags, lots, shelves, notes, as-found words, photographs and people. What is found
 * stands in groups, each row leads to its view. The words looked for are in the address.
 */
import { useEffect, useMemo, useRef } from 'react';
import { useLocation } from 'wouter';
import { readBagCode } from '../../domain/bag-code.ts';
import { sheetFor, sheetsOfJob } from '../drawing/catalogue.ts';
import { DrawingView } from '../drawing/drawing-view.tsx';
import type { ScreenProps } from '../off/off-screen.tsx';
import { Photo } from '../photo/photo.tsx';
import { HandMark } from '../sheet/hand-mark.tsx';
import { JobSheet } from '../sheet/job-sheet.tsx';
import { useKeys, useRoving } from '../sheet/use-roving.ts';
import { assemblyOfPart } from '../state/place-of.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { useScreen, withJob } from '../state/use-screen.ts';
import { count } from '../words/figures.ts';
import { lineOfPart } from '../words/names.ts';
import { FindMark } from './find-mark.tsx';
import { FIND_KINDS, type FindDoc, type FindKind } from './index-of.ts';
import { useFindIndex } from './use-find.ts';
import '../look/find.css';

const SHEET = 'Find anything';
const KEYS = [
  ['/', 'field'],
  ['↑ ↓', 'row'],
  ['Enter', 'open'],
] as const;
const KIND_WORD: Readonly<Record<FindKind, string>> = {
  part: 'Parts',
  bag: 'Bags',
  lot: 'Counted lots',
  place: 'Shelves and places',
  note: 'Notes',
  found: 'As found',
  photo: 'Photographs',
  sound: 'Voice notes',
  person: 'People',
};
/** So many of a kind before the rest is only counted. */
const SHOWN = 25;

export function FindScreen({ theme, onTheme, jobs }: ScreenProps) {
  const { snapshot } = useOpenJob();
  const screen = useScreen();
  const [, go] = useLocation();
  const field = useRef<HTMLInputElement>(null);
  const index = useFindIndex(snapshot.state);
  const text = screen.get('q') ?? '';
  const found = useMemo(() => index?.find(text, 400) ?? [], [index, text]);
  const groups = useMemo(() => grouped(found), [found]);
  const rows = groups.flatMap((g) => g.docs);
  const wanted = screen.get('at');
  const chosen = rows.find((d) => d.id === wanted) ?? rows[0] ?? null;
  const open = (id: string) => {
    const doc = rows.find((d) => d.id === id);
    if (doc !== undefined) go(withJob(doc.href, screen.search));
  };
  const roving = useRoving(
    'What was found',
    rows.map((d) => d.id),
    chosen?.id ?? null,
    (id) => screen.set({ at: id }),
    open,
  );
  // One tap opens it; the arrow keys only choose.
  const rowProps = (id: string) => ({ ...roving.rowProps(id), onClick: () => open(id) });
  useKeys({ '/': () => field.current?.focus() });
  useEffect(() => field.current?.focus(), []);

  return (
    <JobSheet
      view="find"
      other={'Picture'}
      ofJob={['at']}
      keys={KEYS}
      theme={theme}
      onTheme={onTheme}
      jobs={jobs}
      list={
        <div className="finding">
          <h1 className="out-of-sight">{SHEET}</h1>
          <input
            ref={field}
            type="search"
            className="find-field"
            aria-label="Find anything"
            placeholder="number, bag, name, word of a note"
            value={text}
            autoComplete="off"
            spellCheck={false}
            onChange={(e) => screen.set({ q: e.target.value === '' ? null : e.target.value, at: null })}
            onKeyDown={(e) => {
              if (e.key === 'Enter' && chosen !== null) open(chosen.id);
              if (e.key === 'ArrowDown') document.querySelector<HTMLElement>('.found-rows [tabindex="0"]')?.focus();
            }}
          />
          <p className="quiet" role="status">
            {sayFound(index === null, text, found.length, index?.size ?? 0)}
          </p>
          <div className="found-rows" {...roving.listProps}>
            {groups.map((g) => (
              // biome-ignore lint/a11y/useSemanticElements: a group of options inside a listbox
              <div key={g.kind} role="group" aria-label={KIND_WORD[g.kind]}>
                <p className="kind" aria-hidden="true">
                  {KIND_WORD[g.kind]} <span className="num">{g.all}</span>
                </p>
                {g.docs.map((d) => (
                  <div key={d.id} className="found-row" {...rowProps(d.id)}>
                    <Thumb doc={d} />
                    <span>
                      <b>
                        <Hand id={d.id} /> {d.title}
                      </b>
                      <small>{d.more}</small>
                    </span>
                  </div>
                ))}
                {g.all > g.docs.length && <p className="quiet">and {g.all - g.docs.length} more; say it closer</p>}
              </div>
            ))}
          </div>
        </div>
      }
      draw={<Large doc={chosen} />}
    />
  );
}

function grouped(found: readonly FindDoc[]): readonly { kind: FindKind; all: number; docs: readonly FindDoc[] }[] {
  const best = new Map<FindKind, number>();
  found.forEach((d, at) => {
    if (!best.has(d.kind)) best.set(d.kind, at);
  });
  return FIND_KINDS.filter((k) => best.has(k))
    .sort((a, b) => (best.get(a) ?? 0) - (best.get(b) ?? 0))
    .map((kind) => {
      const all = found.filter((d) => d.kind === kind);
      return { kind, all: all.length, docs: all.slice(0, SHOWN) };
    });
}

function sayFound(isMaking: boolean, text: string, found: number, size: number): string {
  if (isMaking) return 'Looking through the record …';
  if (text.trim() === '') return `${count(size, 'thing')} can be found. A letter or two may be wrong.`;
  if (found > 0) return `${count(found, 'hit')} among ${size}`;
  if (text.trim().length === 1) return 'A second letter, and it is looked for.';
  const code = readBagCode(text);
  if (!code.ok && code.problem.code === 'BAG_CODE_LETTER') return `${code.problem.message}. ${code.problem.remedy}`;
  return 'Nothing is called that. Try a number (10-03), a bag (B105C), or fewer letters.';
}

function Hand({ id }: { readonly id: string }) {
  const { job } = useOpenJob();
  const hand = id.startsWith('part ') ? job.names.hand(id.slice(5)) : undefined;
  return hand === undefined ? null : <HandMark hand={hand} />;
}

function Thumb({ doc }: { readonly doc: FindDoc }) {
  if (doc.hash === null) return <FindMark kind={doc.kind} />;
  return <Photo hash={doc.hash} size="thumb" alt="" className="thumb" />;
}

function Large({ doc }: { readonly doc: FindDoc | null }) {
  if (doc === null) return <p className="find-none">What you find is shown here.</p>;
  return (
    <div className="find-large">
      {doc.hash !== null && <Photo hash={doc.hash} size="print" alt={doc.title} />}
      <h2>{doc.title}</h2>
      <p>{doc.more}</p>
      {(doc.kind === 'note' || doc.kind === 'sound') && <p>{doc.text}</p>}
      {doc.kind === 'part' && <OnSheet part={doc.id.slice(5)} />}
    </div>
  );
}

const NONE: ReadonlySet<string> = new Set();

/** The part lit on the sheet that shows it. */
function OnSheet({ part }: { readonly part: string }) {
  const { job } = useOpenJob();
  const sheet = sheetFor(sheetsOfJob(job.invented), assemblyOfPart(job, part));
  const line = lineOfPart(part);
  const marks = useMemo(
    () => ({ on: new Set([line]), lit: NONE, harm: NONE, wanted: new Set([line]), gone: NONE }),
    [line],
  );
  if (sheet === undefined) return null;
  return (
    <div className="plate">
      <DrawingView url={sheet.url} label={sheet.name} marks={marks} />
    </div>
  );
}
