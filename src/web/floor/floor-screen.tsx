/**
 * Floor today: what was left half done heads the next shift; then what can hurt, the next things free to be done here,
 * what is not where it should be, and what others recorded. One column, big; the place of work beside it at the desk.
 */
import { useMemo, useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { EntryId } from '../../domain/ids.ts';
import { recording } from '../../journal/commands.ts';
import { Recorded } from '../off/off-keys.tsx';
import type { ScreenProps } from '../off/off-screen.tsx';
import { Photo } from '../photo/photo.tsx';
import { JobSheet } from '../sheet/job-sheet.tsx';
import { Refused } from '../sheet/refused.tsx';
import { useKeys } from '../sheet/use-roving.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { useScreen, withJob } from '../state/use-screen.ts';
import { count, dayWords } from '../words/figures.ts';
import { FloorDrawing } from './floor-drawing.tsx';
import { type FloorGroup, type FloorRow, floorGroups } from './floor-rows.ts';
import { FloorMark } from './floor-shape.tsx';
import '../look/floor.css';

const _SHEET = 'Floor today';
const KEYS = [
  ['Tab', 'next row'],
  ['Enter', 'open'],
  ['c', 'catch it'],
  ['/', 'find'],
  ['u', 'undo'],
] as const;
/** A long group is counted after so many. */
const FIRST: Readonly<Record<FloorGroup['id'], number>> = { open: 20, hurt: 4, next: 3, astray: 4, came: 4 };

export function FloorScreen({ theme, onTheme, jobs }: ScreenProps) {
  const { job, snapshot, person, network, undo } = useOpenJob();
  const screen = useScreen();
  const [, go] = useLocation();
  const [lit, setLit] = useState<string | null>(null);
  const { state, photosWaiting: photos, soundsWaiting: sounds } = snapshot;
  const groups = useMemo(
    () => floorGroups(state, job, person, { photos, sounds }),
    [state, job, person, photos, sounds],
  );
  useKeys({
    u: undo,
    '/': () => go(`/find${screen.search}`),
    c: () => go(`/catch${screen.search}`),
  });
  const half = groups.find((g) => g.id === 'open')?.rows.length ?? 0;
  return (
    <JobSheet
      view="floor"
      count={half === 0 ? undefined : String(half)}
      ofJob={[]}
      keys={KEYS}
      theme={theme}
      onTheme={onTheme}
      jobs={jobs}
      list={
        <>
          <header className="floor-head">
            <h1>{half === 0 ? 'Nothing left half done' : `${count(half, 'thing')} left half done`}</h1>
            <p>{[dayWords(job.day), network.away ? network.words : ''].filter((w) => w !== '').join(' · ')}</p>
          </header>
          <div className="floor-list">
            {groups.map((g) => (
              <Group key={g.id} group={g} search={screen.search} onLit={setLit} />
            ))}
          </div>
          <Refused />
          <Recorded />
          <nav className="floor-keys" aria-label="Go on">
            <Link href={`/find${screen.search}`} className="key">
              Find
            </Link>
            <Link href={`/catch${screen.search}`} className="key go">
              Catch it
            </Link>
            <Link href={`/bags${screen.search}`} className="key">
              Bags
            </Link>
          </nav>
        </>
      }
      draw={<FloorDrawing job={job} lit={lit} groups={groups} />}
    />
  );
}

interface GroupProps {
  readonly group: FloorGroup;
  readonly search: string;
  readonly onLit: (part: string | null) => void;
}

function Group({ group, search, onLit }: GroupProps) {
  const [whole, setWhole] = useState(false);
  const shown = whole ? group.rows : group.rows.slice(0, FIRST[group.id]);
  const rest = group.rows.length - shown.length;
  return (
    <section className={`floor-group ${group.id}`} aria-label={group.name}>
      <h2>
        {group.name} {group.rows.length > 0 && <span className="num">{group.rows.length}</span>}
      </h2>
      {group.rows.length === 0 && <p className="quiet">{group.none}</p>}
      {shown.map((r) => (
        <Row key={r.id} row={r} search={search} onLit={onLit} />
      ))}
      {rest > 0 && (
        <button type="button" className="link more" onClick={() => setWhole(true)}>
          and {rest} more
        </button>
      )}
    </section>
  );
}

interface RowProps {
  readonly row: FloorRow;
  readonly search: string;
  readonly onLit: (part: string | null) => void;
}

function Row({ row, search, onLit }: RowProps) {
  const { record } = useOpenJob();
  const end = () => {
    if (row.ends?.kind === 'stop') record(recording('stop-cleared', { stop: row.ends.entry as EntryId }));
    if (row.ends?.kind === 'stuck') record(recording('freed', { stuck: row.ends.entry as EntryId }));
  };
  const body = (
    <>
      <FloorMark shape={row.shape} />
      <span>
        <span className="word">{row.word}</span>
        <b>{row.title}</b>
        <small>{row.why}</small>
      </span>
      {row.photo !== null && <Photo hash={row.photo} size="thumb" alt="" className="thumb" />}
    </>
  );
  return (
    <div className={`floor-row ${row.shape}`}>
      {row.href === '' ? (
        <div className="body">{body}</div>
      ) : (
        <Link
          href={withJob(row.href, search)}
          className="body"
          onPointerEnter={() => onLit(row.part)}
          onPointerLeave={() => onLit(null)}
          onFocus={() => onLit(row.part)}
          onBlur={() => onLit(null)}
        >
          {body}
        </Link>
      )}
      {row.ends !== undefined && (
        <button type="button" className="key" onClick={end}>
          {row.ends.word}
        </button>
      )}
    </div>
  );
}
