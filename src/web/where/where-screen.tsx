/**
 * Where it sat: the place by station, height and side. A drawing or a photograph with pins, the last that came off
 * pulsing; a pin opens what sat there. A job without drawings begins with a photograph of one's own, one tap away.
 */
import { useCallback, useMemo, useRef, useState } from 'react';
import { recording } from '../../journal/commands.ts';
import type { DrawingMarks } from '../drawing/drawing-view.tsx';
import type { SheetShown } from '../drawing/placing.ts';
import { FindBox } from '../off/find-box.tsx';
import type { ScreenProps } from '../off/off-screen.tsx';
import { RecordedHere, useTakeBack } from '../part/take-back.tsx';
import { JobSheet } from '../sheet/job-sheet.tsx';
import { Refused } from '../sheet/refused.tsx';
import { farWords, Pick } from '../sheet/title-block.tsx';
import { useKeys } from '../sheet/use-roving.ts';
import { WordsLeaf } from '../sheet/words-leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { type Screen, useScreen } from '../state/use-screen.ts';
import { lineOfPart } from '../words/names.ts';
import { PickPicture, useAddSheet } from './add-sheet.tsx';
import { Board } from './board.tsx';
import { marksOn, nameOfSubject, partsByLine, partsOfSubject, placeOn } from './marks.ts';
import { firstSheet, sheetOfSubject, whereSheets } from './sheets.ts';
import { usePhone } from './use-phone.ts';
import { usePin } from './use-pin.ts';
import { WhereCard } from './where-card.tsx';
import { StationLeaf, WhatSitsLeaf } from './where-leaves.tsx';
import { WhereList } from './where-list.tsx';
import '../look/where.css';

const KEYS = [
  ['↑ ↓', 'pin'],
  ['Enter', 'open'],
  ['p', 'set a pin'],
  ['n', 'nothing here'],
  ['a', 'add a sheet'],
  ['u', 'undo'],
  ['[ ]', 'sheet'],
  ['/', 'find'],
] as const;

const NONE: ReadonlySet<string> = new Set();
const REACH = { desk: 18, phone: 40 } as const;

export function WhereScreen({ theme, onTheme, jobs }: ScreenProps) {
  const { job, snapshot, record } = useOpenJob();
  const { state } = snapshot;
  const back = useTakeBack();
  const screen = useScreen();
  const phone = usePhone();
  const sheets = useMemo(() => whereSheets(state, job), [state, job]);
  const chosen = screen.get('at') ?? screen.get('part');
  const begunWith = useRef(chosen);
  const sheet =
    sheets.find((s) => s.id === screen.get('sheet')) ??
    (chosen === null ? undefined : sheetOfSubject(state, job, sheets, chosen)) ??
    firstSheet(state, job, sheets);
  const [seen, setSeen] = useState<{ readonly sheet: string; readonly shown: SheetShown } | null>(null);
  const onShown = useCallback((id: string, shown: SheetShown) => setSeen({ sheet: id, shown }), []);
  const shown = seen !== null && seen.sheet === sheet?.id ? seen.shown : null;
  const marks = useMemo(
    () => (sheet === undefined ? [] : marksOn(state, job, sheet.id, shown)),
    [state, job, sheet, shown],
  );
  const [lit, setLit] = useState<string | null>(null);
  const [over, setOver] = useState<string | null>(null);
  const [asking, setAsking] = useState<'name' | 'station' | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const files = useRef<HTMLInputElement>(null);
  const addSheet = useAddSheet();

  const choose = (subject: string | null) => screen.set({ at: subject, part: null, sheet: sheet?.id ?? null });
  const find = (subject: string) => {
    const on = sheetOfSubject(state, job, sheets, subject) ?? sheet;
    screen.set({ at: subject, part: null, sheet: on?.id ?? null, show: null }, true);
  };
  const pin = usePin(sheet?.id ?? null, choose);
  const chosenAt = shown === null || chosen === null || !sheet ? null : placeOn(state, job, sheet.id, shown, chosen);
  const begin = (isNothing: boolean) => {
    if (sheet === undefined) return;
    if (isNothing && chosen !== null) return record(recording('nothing-here', { subject: chosen }));
    screen.set({ show: null });
    pin.begin(chosen, chosenAt, isNothing);
  };
  const add = (file: File) => {
    void addSheet(file).then(
      (id) => {
        screen.set({ sheet: id, at: null, part: null, show: null }, true);
        setAsking('name');
      },
      () => undefined,
    );
  };
  const turn = (by: number) => {
    const at = sheets.findIndex((s) => s.id === sheet?.id);
    const next = sheets[(at + by + sheets.length) % sheets.length];
    if (next) screen.set({ sheet: next.id, at: null, part: null });
  };
  const leaveOne = () => (pin.setting === null ? choose(null) : pin.leave());
  useKeys({
    '/': () => field.current?.focus(),
    u: back.act,
    p: () => begin(false),
    n: () => begin(true),
    a: () => files.current?.click(),
    '[': () => turn(-1),
    ']': () => turn(1),
    Escape: leaveOne,
  });

  const drawn = useMemo(
    (): DrawingMarks => ({
      on: new Set(chosen === null ? [] : partsOfSubject(job, chosen).map(lineOfPart)),
      lit: new Set(lit === null ? [] : partsOfSubject(job, lit).map(lineOfPart)),
      harm: NONE,
      wanted: NONE,
      gone: new Set([...job.done.keys()].filter((a) => a.startsWith('remove:')).map((a) => lineOfPart(a.slice(7)))),
    }),
    [job, chosen, lit],
  );
  const pinNow = [...state.pins.values()].findLast((p) => p.subject === chosen && p.pin.sheet === sheet?.id);
  const aside =
    chosen === null ? (
      <WhereList marks={marks} lit={lit} onLit={setLit} onChoose={choose} />
    ) : (
      <>
        <WhereCard
          state={state}
          job={job}
          search={screen.search}
          subject={chosen}
          mark={marks.find((m) => m.subject === chosen) ?? null}
          isPlaced={chosenAt !== null || shown === null}
          takesFocus={begunWith.current !== chosen}
          onBack={() => choose(null)}
        />
        {pinNow && (
          <button type="button" className="link station-key" onClick={() => setAsking('station')}>
            {pinNow.station === undefined ? 'Note station and height' : 'Change station and height'}
          </button>
        )}
      </>
    );
  const board = sheet && (
    <Board
      sheet={sheet}
      shown={shown}
      onShown={onShown}
      marks={marks}
      drawn={drawn}
      chosen={chosen}
      chosenAt={chosenAt}
      lit={lit}
      setting={pin.setting?.at ?? null}
      reach={phone ? REACH.phone : REACH.desk}
      onChoose={choose}
      onLine={(line) => choose(partsByLine(job).get(line)?.[0] ?? line)}
      onOver={setOver}
      onMove={pin.move}
      onSave={pin.save}
      onLeave={pin.leave}
    />
  );
  const overPart = over === null ? null : (partsByLine(job).get(over)?.[0] ?? null);
  const caption =
    pin.setting !== null
      ? `Tap where it sat, or move the pin with the arrow keys (Shift: farther). Enter saves.`
      : overPart !== null
        ? `${nameOfSubject(state, job, overPart)} · ${over}`
        : sheet?.kind === 'drawing'
          ? 'as designed, not as found · dashed: off'
          : (sheet?.name ?? '');
  const empty = (
    <div className="first-sheet">
      <h1>No drawing yet</h1>
      <p>
        A photograph of the place is as good: take one, or take in a drawing of your own, and set pins where things sat.
      </p>
      <PickPicture className="key go" onPicture={add}>
        Add a photograph or drawing
      </PickPicture>
    </div>
  );
  const setKeys = (
    <>
      <button type="button" className="key go" onClick={pin.save}>
        Save the pin
      </button>
      <button type="button" className="key" onClick={pin.leave}>
        Leave it
      </button>
    </>
  );
  // On a phone the sheet stands in the page's main part; beside a list it is its own.
  const isSheet = screen.get('show') !== 'list';
  const listHalf = (
    <>
      <div className="wanted">
        <h1>Where did it sit?</h1>
        {job.find.length > 0 && (
          <FindBox job={job} field={field} label="Find where it sat" placeholder="number, name, bag" onFind={find} />
        )}
      </div>
      <div className="aside">{sheet ? aside : !phone && empty}</div>
      {!phone && (
        <>
          <RecordedHere back={back} />
          {sheet && (
            <div className="acts where-acts">
              {pin.setting !== null ? (
                setKeys
              ) : (
                <>
                  <button type="button" className="key go" onClick={() => begin(false)}>
                    Set a pin
                  </button>
                  <button type="button" className="key" onClick={() => begin(true)}>
                    Nothing here
                  </button>
                  <PickPicture className="key" field={files} onPicture={add}>
                    Add a sheet
                  </PickPicture>
                </>
              )}
            </div>
          )}
        </>
      )}
    </>
  );
  const sheetHalf = (
    <>
      {phone && chosen === null && <h1 className="out-of-sight">Where it sat: {sheet?.name ?? 'no drawing yet'}</h1>}
      <div className="over where-over">
        {sheet ? (
          <Pick
            label="Sheet"
            value={sheet.id}
            choices={sheets.map((s) => ({
              id: s.id,
              name: s.name,
              more: s.kind === 'own' ? 'added here' : null,
            }))}
            onChange={(id) => screen.set({ sheet: id, at: null, part: null })}
          />
        ) : (
          <h2 className="eyebrow">No drawing yet</h2>
        )}
        {sheet?.kind === 'own' && (
          <button type="button" className="link" onClick={() => setAsking('name')}>
            Name it
          </button>
        )}
      </div>
      <div className="canvas where-canvas">
        {board ?? (phone ? empty : null)}
        {sheet && <p className="caption">{caption}</p>}
      </div>
      {phone && sheet && <div className="aside under-board">{pin.setting === null && aside}</div>}
      {phone && sheet && (
        <div className={pin.setting === null ? 'bottom' : 'bottom two'}>
          {pin.setting !== null ? (
            setKeys
          ) : (
            <>
              <button type="button" className="key" onClick={() => begin(true)}>
                Nothing here
              </button>
              <button type="button" className="key go" onClick={() => begin(false)}>
                Set a pin
              </button>
              <PickPicture className="key" field={files} onPicture={add}>
                Add a sheet
              </PickPicture>
            </>
          )}
        </div>
      )}
    </>
  );
  return (
    <>
      <JobSheet
        view="where"
        name={chosen === null ? 'Where it sat' : `Where it sat: ${nameOfSubject(state, job, chosen)}`}
        under={sheet?.name ?? farWords(job)}
        undo={back}
        showDraw={false}
        phoneScreen={drawingFirst(screen)}
        ofJob={['at', 'part', 'sheet']}
        keys={KEYS}
        theme={theme}
        onTheme={onTheme}
        jobs={jobs}
        list={phone && isSheet ? <div className="draw-in-list">{sheetHalf}</div> : listHalf}
        draw={phone ? null : sheetHalf}
      />
      {pin.asks && (
        <WhatSitsLeaf isNothing={pin.setting?.isNothing === true} onLeave={pin.leave} onSubject={pin.saveAs} />
      )}
      {asking === 'name' && sheet?.kind === 'own' && (
        <WordsLeaf
          title="What does this sheet show?"
          lede={`It is kept as “${sheet.name}”.`}
          label="Name of the sheet"
          go="Name it"
          onLeave={() => setAsking(null)}
          onWords={(name) => record(recording('sheet-added', { sheet: sheet.id, name, photo: sheet.photo }))}
        />
      )}
      {asking === 'station' && chosen !== null && pinNow && (
        <StationLeaf
          name={nameOfSubject(state, job, chosen)}
          station={pinNow.station ?? ''}
          height={pinNow.height ?? ''}
          onLeave={() => setAsking(null)}
          onSave={(station, height) => {
            record(
              recording('pin-set', {
                subject: chosen,
                pin: pinNow.pin,
                ...(station !== '' && { station }),
                ...(height !== '' && { height }),
                ...(pinNow.note !== undefined && { note: pinNow.note }),
              }),
            );
            setAsking(null);
          }}
        />
      )}
      <Refused />
      <p className="out-of-sight" role="status">
        {pin.setting !== null ? caption : chosen === null ? '' : nameOfSubject(state, job, chosen)}
      </p>
    </>
  );
}

/** On a phone the drawing comes first here; elsewhere the list does. */
function drawingFirst(screen: Screen): Screen {
  return {
    ...screen,
    get: (key) => (key === 'show' ? (screen.get('show') === 'list' ? null : 'drawing') : screen.get(key)),
    set: (change, push) =>
      screen.set('show' in change ? { ...change, show: change.show === 'drawing' ? null : 'list' } : change, push),
  };
}
