/** The left half: the as-found photograph, the hand as a shape, bag and place, state, and the next thing owed. */
import { Link } from 'wouter';
import type { State } from '../../journal/state.ts';
import { Photo } from '../photo/photo.tsx';
import { HAND_PATH, HAND_WORD } from '../sheet/hand-mark.tsx';
import type { JobView } from '../state/job-view.ts';
import { handOfSubject, nameOfSubject } from '../where/marks.ts';
import { placeWords, withJob } from '../where/where-card.tsx';
import { type Owed, owedOf, partState, setMembers, subjectsOf, tagsOf } from './part-facts.ts';
import { whereaboutsOf } from './whereabouts.ts';

export interface PartCardProps {
  readonly state: State;
  readonly job: JobView;
  readonly search: string;
  readonly part: string;
  readonly onOwed: (owed: Owed) => void;
  readonly onTagOff: (tag: string) => void;
}

const OWED_KEY: Readonly<Record<Owed['kind'], string | null>> = {
  stop: 'It is done',
  stuck: 'Getting it off',
  tag: null,
  bag: 'Bag it',
  photo: 'Photograph it',
  found: 'Note it',
  fact: 'Settle it',
};

export function PartCard({ state, job, search, part, onOwed, onTagOff }: PartCardProps) {
  const about = subjectsOf(state, job, part);
  const hand = handOfSubject(state, job, part);
  const where = whereaboutsOf(state, job, part);
  const now = partState(state, job, part);
  const [next, ...more] = owedOf(state, job, part);
  const tags = tagsOf(state, about);
  const members = setMembers(state, about);
  const photos = photosOf(state, about);
  const first = photos.at(-1);
  return (
    <article className="part-card" aria-label={nameOfSubject(state, job, part)}>
      <header>
        <div>
          <h1>{nameOfSubject(state, job, part)}</h1>
          <p className="id">{placeWords(state, part, part)}</p>
        </div>
        {hand !== undefined && (
          <svg className="big-hand" viewBox="0 0 16 16" role="img" aria-label={HAND_WORD[hand]}>
            <path d={HAND_PATH[hand]} />
          </svg>
        )}
      </header>
      {tags.map((t) => (
        <p key={t.id} className="hung">
          <b>{t.tag.replaceAll('-', ' ')}</b>
          <span>{t.says ?? ''}</span>
          <button type="button" className="link" onClick={() => onTagOff(t.id)}>
            Take it off
          </button>
        </p>
      ))}
      <div className="part-photo">
        {first === undefined ? (
          <p className="no-photo">No photograph yet</p>
        ) : (
          <Photo hash={first} size="print" alt={`${nameOfSubject(state, job, part)}, as found`} />
        )}
      </div>
      <p className="state">
        <b>{now.words}</b>
        <span>{now.since}</span>
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
      <section className={next?.kind === 'stop' || next?.kind === 'stuck' ? 'next-owed sig' : 'next-owed'}>
        <h2 className="eyebrow">{next === undefined ? 'Owed' : 'Next thing owed'}</h2>
        {next === undefined ? (
          <p className="t">Nothing that is known of</p>
        ) : (
          <>
            <p className="t">{next.what}</p>
            <p className="quiet">
              {next.why}
              {more.length > 0 && ` · and ${more.length} more`}
            </p>
            {OWED_KEY[next.kind] !== null && (
              <button type="button" className="key" onClick={() => onOwed(next)}>
                {OWED_KEY[next.kind]}
              </button>
            )}
          </>
        )}
      </section>
      {members.length > 0 && (
        <section className="set-of">
          <h2 className="eyebrow">Kept together with</h2>
          <ul>
            {members.map((m) => (
              <li key={m}>
                <Link href={`/part${withJob(search)}part=${encodeURIComponent(m)}`}>
                  {nameOfSubject(state, job, m)}
                </Link>{' '}
                <span className="id">{m}</span>
              </li>
            ))}
          </ul>
        </section>
      )}
      <nav className="card-links" aria-label="Elsewhere">
        <Link className="key" href={`/where${withJob(search)}at=${encodeURIComponent(part)}`}>
          Where it sat
        </Link>
        {job.names.find(part) !== undefined && !job.done.has(`remove:${part}`) && (
          <Link className="key" href={`/off${withJob(search)}goal=${encodeURIComponent(part)}`}>
            Getting it off
          </Link>
        )}
      </nav>
    </article>
  );
}

/** Newest first; the last one is as found. */
export function photosOf(state: State, about: ReadonlySet<string>): readonly string[] {
  const all = [...about].flatMap((s) => state.photos.get(s) ?? []);
  all.sort((a, b) => a.said.at.localeCompare(b.said.at));
  return [...new Set(all.map((p) => p.hash))].reverse();
}
