/**
 * Bags and shelves: look for it, and the wall shows where it lies. Bags stand in the list as they stand on the shelves;
 * the chosen one opens as a card. What is short, doubled or owed stands above, in words.
 */
import { useMemo, useRef, useState } from 'react';
import type { EntryId } from '../../domain/ids.ts';
import { recording } from '../../journal/commands.ts';
import { openDifferences, openTransfers, overdrawn, stillInside } from '../../journal/custody.ts';
import { Recorded } from '../off/off-keys.tsx';
import type { ScreenProps } from '../off/off-screen.tsx';
import { JobSheet } from '../sheet/job-sheet.tsx';
import { Refused } from '../sheet/refused.tsx';
import { useKeys } from '../sheet/use-roving.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { useScreen } from '../state/use-screen.ts';
import { count } from '../words/figures.ts';
import { type Asking, move } from './bag-acts.ts';
import { BagCard } from './bag-card.tsx';
import { BagLeaves } from './bag-leaves.tsx';
import { BagsList } from './bags-list.tsx';
import { bagLines, noBagWords } from './bags-rows.ts';
import { Matters } from './matters.tsx';
import { useMarking } from './use-marking.ts';
import { Walls } from './wall.tsx';
import '../look/find.css';
import '../look/bags.css';

const SHEET = 'Bags and shelves';
const KEYS = [
  ['/', 'field'],
  ['↑ ↓', 'bag'],
  ['m', 'put away'],
  ['l', 'label'],
  ['s', 'scan'],
  ['u', 'undo'],
] as const;

export function BagsScreen({ theme, onTheme, jobs }: ScreenProps) {
  const { snapshot, record, undo } = useOpenJob();
  const { state } = snapshot;
  const screen = useScreen();
  const field = useRef<HTMLInputElement>(null);
  const [asking, setAsking] = useState<Asking | null>(null);
  const marking = useMarking();
  const text = screen.get('q') ?? '';
  const place = screen.get('place');
  const who = screen.get('who');
  const show = screen.get('show');
  const loose = show === 'loose';
  const lines = useMemo(() => bagLines(state, { text, place, who, loose }), [state, text, place, who, loose]);
  const chosen = screen.get('bag');
  const bag = chosen === null ? undefined : state.bags.get(chosen);
  const only = lines.filter((l) => l.is === 'bag');
  const codes = only.flatMap((l) => (l.is === 'bag' ? [l.code] : []));
  const litBag = bag ?? (only.length === 1 && only[0]?.is === 'bag' ? state.bags.get(only[0].code) : undefined);
  const lit = litBag?.where.is === 'held' ? (litBag.where.place ?? null) : place;
  const choose = (code: string) => screen.set({ bag: code, show: null });
  const onPlace = (id: string) => {
    if (asking?.kind === 'move') {
      record(move(asking.what, { place: id }));
      setAsking(null);
    } else screen.set({ place: place === id ? null : id, bag: null, q: null, show: null });
  };
  const put = () => bag !== undefined && setAsking({ kind: 'move', what: bag.code, name: `Bag ${bag.code}` });
  const label = () => bag !== undefined && setAsking({ kind: 'labels', bags: [bag.code] });
  const leaveBag = () => screen.set({ bag: null, place: null });
  useKeys({
    '/': () => field.current?.focus(),
    m: put,
    l: label,
    s: () => setAsking({ kind: 'scan' }),
    u: undo,
    Escape: leaveBag,
  });
  const matters =
    openDifferences(state).length + overdrawn(state).length + openTransfers(state).length + stillInside(state).length;

  return (
    <>
      <JobSheet
        view="bags"
        other={'Wall'}
        count={matters === 0 ? undefined : String(matters)}
        ofJob={['bag', 'place']}
        keys={KEYS}
        theme={theme}
        onTheme={onTheme}
        jobs={jobs}
        list={
          <>
            {bag === undefined ? (
              <div className="bags">
                <h1 className="out-of-sight">{SHEET}</h1>
                <div className="bags-find">
                  <input
                    ref={field}
                    type="search"
                    className="find-field"
                    aria-label="Find a bag"
                    placeholder="bag, number or name"
                    value={text}
                    autoComplete="off"
                    spellCheck={false}
                    onChange={(e) =>
                      screen.set({ q: e.target.value === '' ? null : e.target.value, place: null, who: null })
                    }
                    onKeyDown={(e) => {
                      const first = only[0];
                      if (e.key === 'Enter' && first?.is === 'bag') choose(first.code);
                    }}
                  />
                  <button type="button" className="key" onClick={() => setAsking({ kind: 'scan' })}>
                    Scan
                  </button>
                </div>
                <p className="quiet" role="status">
                  {only.length === 0 ? noBagWords(text) : `${count(only.length, 'bag')}${placeSaid(state, place)}`}
                  {(place !== null || who !== null || loose) && (
                    <button
                      type="button"
                      className="link"
                      onClick={() => screen.set({ place: null, who: null, show: null })}
                    >
                      all bags
                    </button>
                  )}
                  {place !== null && only.length > 0 && (
                    <button type="button" className="link" onClick={() => setAsking({ kind: 'labels', bags: codes })}>
                      their labels
                    </button>
                  )}
                </p>
                <Matters state={state} jobs={jobs} isOpen={show === 'counts' || show === 'owed'} onAsk={setAsking} />
                <BagsList lines={lines} chosen={chosen} onChoose={choose} />
              </div>
            ) : (
              <BagCard
                state={state}
                code={bag.code}
                search={screen.search}
                onAsk={setAsking}
                onTagOff={(tag) => record(recording('tag-taken-off', { tag: tag as EntryId }))}
                onBack={() => screen.set({ bag: null })}
              />
            )}
            <Refused />
            <Recorded />
          </>
        }
        draw={
          <div className="wall-half">
            <div className="over">
              <div>
                <h2 className="eyebrow">The wall</h2>
                <p>{marking.words ?? 'framed: where it lies · tap a shelf to see what lies there'}</p>
              </div>
              <div className="wall-keys">
                {marking.now !== null ? (
                  <button type="button" className="key go" onClick={marking.keep}>
                    Keep the box
                  </button>
                ) : (
                  <button type="button" className="key" onClick={() => setAsking({ kind: 'place' })}>
                    Add a place
                  </button>
                )}
                <button type="button" className="key" onClick={() => setAsking({ kind: 'inside', zone: null })}>
                  Tools in and out
                </button>
                <button type="button" className="key" onClick={() => setAsking({ kind: 'roll' })}>
                  New roll
                </button>
              </div>
            </div>
            <Walls
              state={state}
              lit={lit}
              onPlace={onPlace}
              marking={marking.now}
              onMark={marking.mark}
              onKeep={marking.keep}
            />
            {marking.input}
          </div>
        }
      />
      <BagLeaves
        asking={asking}
        jobs={jobs}
        onLeave={() => setAsking(null)}
        onBag={(code) => {
          setAsking(null);
          choose(code);
        }}
        onPlaceNamed={(name) => marking.begin(name)}
      />
    </>
  );
}

function placeSaid(state: ReturnType<typeof useOpenJob>['snapshot']['state'], place: string | null): string {
  return place === null ? '' : ` on ${state.places.get(place)?.name ?? place} · `;
}
