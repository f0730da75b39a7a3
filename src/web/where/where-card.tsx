/** What sat there: hand, station and height, the stack in order, as-found values, photographs, bag and where it is. */
import { useEffect, useRef } from 'react';
import { Link } from 'wouter';
import type { State } from '../../journal/state.ts';
import { foundBlocks } from '../part/as-found.ts';
import { FoundList } from '../part/found-list.tsx';
import { whereaboutsOf } from '../part/whereabouts.ts';
import { Photo } from '../photo/photo.tsx';
import { HAND_PATH, HAND_WORD } from '../sheet/hand-mark.tsx';
import type { JobView } from '../state/job-view.ts';
import { handOfSubject, MARK_WORD, type Mark, nameOfSubject, partsOfSubject } from './marks.ts';
import { MarkShape } from './pin-layer.tsx';

export interface WhereCardProps {
  readonly state: State;
  readonly job: JobView;
  readonly search: string;
  readonly subject: string;
  readonly mark: Mark | null;
  /** Not on this sheet: says so, and how to put it there. */
  readonly isPlaced: boolean;
  /** Chosen just now: what follows is read from here. */
  readonly takesFocus: boolean;
  readonly onBack: () => void;
}

const MOST_BLOCKS = 6;

export function WhereCard({ state, job, search, subject, mark, isPlaced, takesFocus, onBack }: WhereCardProps) {
  const back = useRef<HTMLButtonElement>(null);
  // The card takes the focus of the row it came from, so that Escape and Tab carry on from here.
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each subject
  useEffect(() => {
    if (takesFocus && document.activeElement === document.body) back.current?.focus({ preventScroll: true });
  }, [subject]);
  const part = partsOfSubject(job, state.bags.get(subject)?.of[0] ?? subject)[0] ?? subject;
  const isPart = job.names.find(part) !== undefined;
  const where = whereaboutsOf(state, job, subject);
  const blocks = foundBlocks(state, job, state.bags.get(subject)?.of[0] ?? subject);
  const said = blocks.filter((b) => b.rows.length > 0);
  const hand = handOfSubject(state, job, subject);
  const isOff = job.done.has(`remove:${part}`);
  return (
    <article className="where-card" aria-label={nameOfSubject(state, job, subject)}>
      <button ref={back} type="button" className="link" onClick={onBack}>
        All that is on this sheet
      </button>
      <header>
        <div>
          <h1>{nameOfSubject(state, job, subject)}</h1>
          <p className="id">{placeWords(state, subject, part)}</p>
        </div>
        {hand !== undefined && (
          <svg className="big-hand" viewBox="0 0 16 16" role="img" aria-label={HAND_WORD[hand]}>
            <path d={HAND_PATH[hand]} />
          </svg>
        )}
      </header>
      <p className={mark?.kind === 'stop' || mark?.kind === 'damage' ? 'state sig' : 'state'}>
        {mark !== null && <MarkShape kind={mark.kind} />}
        <b>{mark === null ? (isOff ? 'off' : isPart ? 'on the aircraft' : 'noted') : MARK_WORD[mark.kind]}</b>
        {mark !== null && mark.kind !== 'bag' && <span>{mark.under}</span>}
        {mark?.isLast === true && <span className="last-word">the last that came off</span>}
      </p>
      {(where.code !== null || where.words !== null) && (
        <p className="bag-line">
          {where.code !== null && (
            <Link href={`/bags${withJob(search)}bag=${where.code}`} className="code">
              {where.code}
            </Link>
          )}
          <span>{where.words ?? 'place not noted'}</span>
        </p>
      )}
      {!isPlaced && <p className="owed">Not on this sheet yet. Set a pin to say where it sat.</p>}
      {said.slice(0, MOST_BLOCKS).map((b) => (
        <FoundList key={b.subject} block={b} />
      ))}
      {blocks.length > said.length && (
        <p className="owed">
          {said.length === 0
            ? 'As found: nothing noted yet.'
            : `Of ${blocks.length - said.length} more joints nothing is noted.`}
        </p>
      )}
      <PhotoStrip state={state} subjects={[subject, part]} />
      <nav className="card-links" aria-label="More of it">
        {isPart && (
          <Link className="key" href={`/part${withJob(search)}part=${encodeURIComponent(part)}`}>
            One part
          </Link>
        )}
        {isPart && !isOff && (
          <Link className="key" href={`/off${withJob(search)}goal=${encodeURIComponent(part)}`}>
            Getting it off
          </Link>
        )}
      </nav>
    </article>
  );
}

export function withJob(search: string): string {
  return search === '' ? '?' : `${search}&`;
}

/** Number, station, height: as written by whoever set the pin, else by the list of positions. */
export function placeWords(state: State, subject: string, part: string): string {
  const pin = [...state.pins.values()].findLast((p) => p.subject === subject || p.subject === part);
  const position = state.positions.get(part);
  const station = pin?.station ?? position?.station;
  return [
    subject === part ? part : `${subject} · ${part}`,
    station === undefined ? null : `station ${station.replace(/^station /i, '')}`,
    pin?.height === undefined ? null : `height ${pin.height}`,
    pin?.note,
  ]
    .filter((w) => w !== null && w !== undefined)
    .join(' · ');
}

export function PhotoStrip({ state, subjects }: { readonly state: State; readonly subjects: readonly string[] }) {
  const photos = [...new Set(subjects)].flatMap((s) => state.photos.get(s) ?? []);
  const seen = [...new Map(photos.map((p) => [p.hash, p])).values()].reverse().slice(0, 6);
  if (seen.length === 0) return null;
  return (
    <ul className="photo-strip" aria-label="Photographs">
      {seen.map((p) => (
        <li key={p.hash}>
          <Photo hash={p.hash} size="thumb" alt={p.caption ?? 'photograph'} />
        </li>
      ))}
    </ul>
  );
}
