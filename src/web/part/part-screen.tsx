/**
 * One part: the card that lies beside it on the bench. Photograph, hand, bag, state and the next thing owed on the left;
 * what was found, the figures and the history on the right. It prints as A5.
 */
import { useRef, useState } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { useLocation } from 'wouter';
import { recording } from '../../journal/commands.ts';
import { ContactSheet } from '../drawing/contact-sheet.tsx';
import { FindBox } from '../off/find-box.tsx';
import type { ScreenProps } from '../off/off-screen.tsx';
import { JobSheet } from '../sheet/job-sheet.tsx';
import { Refused } from '../sheet/refused.tsx';
import { farWords } from '../sheet/title-block.tsx';
import { useKeys } from '../sheet/use-roving.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { useScreen } from '../state/use-screen.ts';
import { PickPicture } from '../where/add-sheet.tsx';
import { nameOfSubject } from '../where/marks.ts';
import { usePhone } from '../where/use-phone.ts';
import { withJob } from '../where/where-card.tsx';
import { DatumTable } from './datum-page.tsx';
import { PartCard } from './part-card.tsx';
import type { Owed } from './part-facts.ts';
import { type PartAsking, PartLeaves } from './part-leaves.tsx';
import { AsFound, Figures, History, RECORD_TABS, type RecordTab } from './part-record.tsx';
import { RecordedHere, useTakeBack } from './take-back.tsx';
import '../look/catch.css';
import '../look/where.css';
import '../look/part.css';

const KEYS = [
  ['m', 'measure'],
  ['n', 'note'],
  ['f', 'photograph'],
  ['t', 'tag'],
  ['1 2 3', 'leaf'],
  ['l', 'levels'],
  ['u', 'undo'],
  ['/', 'find'],
] as const;

export function PartScreen({ theme, onTheme, jobs }: ScreenProps) {
  const { job, snapshot, record, keepPhoto } = useOpenJob();
  const { state } = snapshot;
  const back = useTakeBack();
  const screen = useScreen();
  const phone = usePhone();
  const [, go] = useLocation();
  const [asking, setAsking] = useState<PartAsking | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const files = useRef<HTMLInputElement>(null);
  const isDatums = screen.get('datums') !== null;
  const part = isDatums ? null : screen.get('part');
  const tab: RecordTab = RECORD_TABS.find((t) => t.id === screen.get('leaf'))?.id ?? 'found';

  const choose = (id: string) => screen.set({ part: id, datums: null, leaf: null, show: null }, true);
  const datums = () => screen.set({ datums: isDatums ? null : '1', show: null }, true);
  const turn = (to: RecordTab) => screen.set({ leaf: to === 'found' ? null : to, ...(phone && { show: 'drawing' }) });
  const ask = (kind: 'measure' | 'note' | 'tag') => () => part !== null && setAsking({ kind });
  const shoot = (file: File) => {
    if (part === null) return;
    void keepPhoto(file).then(
      (photo) => record(recording('photo-taken', { ...photo, of: [part] })),
      () => undefined,
    );
  };
  const owed = (o: Owed) => {
    if (part === null) return;
    if (o.kind === 'stop') record(recording('stop-cleared', { stop: o.id }));
    else if (o.kind === 'stuck') go(`/off${withJob(screen.search)}goal=${encodeURIComponent(part)}`);
    else if (o.kind === 'bag') go(`/catch${withJob(screen.search)}part=${encodeURIComponent(part)}`);
    else if (o.kind === 'photo') files.current?.click();
    else if (o.kind === 'found') turn('found');
    else if (o.kind === 'fact') setAsking({ kind: 'fact', fact: o.id });
  };
  useKeys({
    '/': () => field.current?.focus(),
    u: back.act,
    m: ask('measure'),
    n: ask('note'),
    t: ask('tag'),
    f: () => files.current?.click(),
    l: datums,
    p: () => window.print(),
    '1': () => turn('found'),
    '2': () => turn('figures'),
    '3': () => turn('history'),
  });
  const find = <FindBox job={job} field={field} label="Find a part" placeholder="number, name, bag" onFind={choose} />;
  const leaf =
    part === null ? null : tab === 'found' ? (
      <AsFound
        state={state}
        job={job}
        part={part}
        onAsk={(subject, aspect) => setAsking({ kind: 'aspect', subject, aspect })}
      />
    ) : tab === 'figures' ? (
      <Figures
        state={state}
        job={job}
        part={part}
        acts={{
          measure: ask('measure'),
          thickness: () => setAsking({ kind: 'thickness' }),
          dial: () => setAsking({ kind: 'dial' }),
          datums,
        }}
      />
    ) : (
      <History state={state} job={job} part={part} />
    );
  const name = isDatums ? 'Levels, diagonals, droop' : part === null ? 'One part' : nameOfSubject(state, job, part);
  // On a phone the record stands in the page's main part; beside the card it is its own.
  const isRecord = screen.get('show') === 'drawing';
  const cardHalf =
    part === null ? (
      <>
        <div className="wanted">
          <h1>{isDatums ? 'Levels, diagonals, droop' : 'Which part?'}</h1>
          {!isDatums && find}
        </div>
        <div className="aside">
          {isDatums ? (
            <p className="quiet">
              Read before anything comes off, and again when it is back. What changed stands in the last column.
            </p>
          ) : (
            <button type="button" className="key" onClick={datums}>
              Levels, diagonals, droop of the whole job
            </button>
          )}
          {isDatums && phone && (
            // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls takes the keyboard
            <section tabIndex={0} aria-label="Datum readings">
              <DatumTable state={state} />
            </section>
          )}
        </div>
        {isDatums && (
          <div className="acts two-keys">
            <button type="button" className="key go" onClick={() => setAsking({ kind: 'datum' })}>
              Read a datum
            </button>
            <button type="button" className="key" onClick={datums}>
              Back to the part
            </button>
          </div>
        )}
        {isDatums && phone && (
          <div className="bottom two">
            <button type="button" className="key go" onClick={() => setAsking({ kind: 'datum' })}>
              Read a datum
            </button>
            <button type="button" className="key" onClick={datums}>
              Back
            </button>
          </div>
        )}
      </>
    ) : (
      <>
        <div className="aside part-aside">
          {!phone && find}
          <PartCard
            state={state}
            job={job}
            search={screen.search}
            part={part}
            onOwed={owed}
            onTagOff={(tag) => record(recording('tag-taken-off', { tag }))}
          />
        </div>
        {!phone && <RecordedHere back={back} />}
        <div className={phone ? 'bottom' : 'acts part-acts'}>
          <button type="button" className="key" onClick={ask('note')}>
            Note
          </button>
          <PickPicture className={phone ? 'key go' : 'key'} field={files} onPicture={shoot}>
            Photograph
          </PickPicture>
          <button type="button" className={phone ? 'key' : 'key go'} onClick={ask('measure')}>
            Measure
          </button>
          {!phone && (
            <button type="button" className="key" onClick={ask('tag')}>
              Tag
            </button>
          )}
        </div>
      </>
    );
  const recordHalf =
    part === null ? (
      isDatums ? (
        !phone && (
          // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls takes the keyboard
          <section className="record-half" tabIndex={0} aria-label="Datum readings of the job">
            <DatumTable state={state} />
          </section>
        )
      ) : (
        <>
          {phone && <h1 className="out-of-sight">Which part?</h1>}
          <div className="over">
            <h2 className="eyebrow">Or tap it on a drawing</h2>
          </div>
          <div className="canvas">
            <ContactSheet job={job} onChoose={choose} />
          </div>
        </>
      )
    ) : (
      <>
        {phone && <h1 className="out-of-sight">{name}: record</h1>}
        <div className="over record-over">
          <ToggleButtonGroup
            className="tabs"
            aria-label="Leaf of the record"
            selectionMode="single"
            disallowEmptySelection
            selectedKeys={[tab]}
            onSelectionChange={(keys) => {
              const next = RECORD_TABS.find((t) => keys.has(t.id));
              if (next) turn(next.id);
            }}
          >
            {RECORD_TABS.map((t) => (
              <ToggleButton key={t.id} id={t.id}>
                {t.name}
              </ToggleButton>
            ))}
          </ToggleButtonGroup>
          <div className="record-keys">
            {phone && (
              <button type="button" className="link" onClick={ask('tag')}>
                Tag
              </button>
            )}
            <button type="button" className="link" onClick={() => window.print()}>
              Print
            </button>
          </div>
        </div>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls takes the keyboard */}
        <section className="record-half" tabIndex={0} aria-label="Record of the part">
          {leaf}
        </section>
      </>
    );
  return (
    <>
      <JobSheet
        view="part"
        name={part === null ? name : `One part: ${name}`}
        heading={isDatums ? 'Levels of the job' : 'One part'}
        under={part === null ? farWords(job) : name}
        other={'Record'}
        undo={back}
        showDraw={false}
        ofJob={['part', 'datums']}
        keys={KEYS}
        theme={theme}
        onTheme={onTheme}
        jobs={jobs}
        list={phone && isRecord ? <div className="draw-in-list">{recordHalf}</div> : cardHalf}
        draw={phone ? null : recordHalf}
      />
      {(part !== null || isDatums) && (
        <PartLeaves part={part ?? 'job'} asking={asking} onLeave={() => setAsking(null)} />
      )}
      <Refused />
    </>
  );
}
