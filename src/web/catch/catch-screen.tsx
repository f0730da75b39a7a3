/**
 * Catch it: a photograph, a bag, saved; asked afterwards. The heart of the floor, so everything here bends to dirty hands:
 * the camera is there before the job, one gesture saves, every question can be left, and undo is always in sight.
 */
import { useEffect } from 'react';
import { useLocation } from 'wouter';
import type { ScreenProps } from '../off/off-screen.tsx';
import { JobSheet } from '../sheet/job-sheet.tsx';
import { farWords } from '../sheet/title-block.tsx';
import { useKeys } from '../sheet/use-roving.ts';
import { AskView } from './ask-view.tsx';
import { CatchDrawing } from './catch-drawing.tsx';
import { CatchLeaves } from './catch-leaves.tsx';
import { ShootView } from './shoot-view.tsx';
import { useCatch } from './use-catch.ts';
import { useShutterKeys } from './use-shutter-keys.ts';
import '../look/catch.css';

const KEYS = [
  ['Enter', 'shutter'],
  ['b', 'bag it'],
  ['n', 'next bag'],
  ['p', 'place'],
  ['s', 'stuck'],
  ['u', 'undo'],
] as const;

const UNKNOWN_BAG_MS = 4_000;

export function CatchScreen({ theme, onTheme, jobs }: ScreenProps) {
  const view = useCatch();
  const { open, screen, bag, acts, ask } = view;
  const { job } = open;
  const [, go] = useLocation();
  useShutterKeys(bag === null && view.asking === null, acts.shoot);
  useKeys({
    b: () => bag === null && acts.bagIt(),
    n: acts.next,
    p: () => ask({ kind: 'place' }),
    s: acts.stuck,
    u: acts.undo,
  });
  useEffect(() => {
    // A bag that is not known here, in an address from somewhere else: the camera is what is wanted then. Just after the
    // page was opened the copy kept on the device may be a moment older than the bag.
    if (bag === null || !open.snapshot.ready || open.snapshot.state.bags.has(bag)) return;
    const timer = setTimeout(() => screen.set({ bag: null }), UNKNOWN_BAG_MS);
    return () => clearTimeout(timer);
  }, [bag, open.snapshot, screen]);
  const openBag = (code: string) => {
    const search = screen.search === '' ? '?' : `${screen.search}&`;
    go(`/bags${search}bag=${code}`);
  };
  const title = bag === null ? 'Catch it' : `Bag ${bag}`;
  return (
    <>
      <JobSheet
        view="catch"
        name={title}
        heading={title}
        under={open.snapshot.ready ? farWords(job) : 'reading the job'}
        undo={{ act: acts.undo, can: view.canUndo }}
        ofJob={['bag', 'more']}
        keys={KEYS}
        theme={theme}
        onTheme={onTheme}
        jobs={jobs}
        list={
          <>
            {bag === null ? <ShootView view={view} /> : <AskView view={view} bag={bag} />}
            <div className="desk-undo">
              <span role="status">{view.said}</span>
              <button type="button" className="link" disabled={!view.canUndo} onClick={acts.undo}>
                Undo
              </button>
            </div>
          </>
        }
        draw={<CatchDrawing view={view} />}
      />
      <CatchLeaves view={view} onBag={openBag} />
    </>
  );
}
