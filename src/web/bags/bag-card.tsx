/** One bag: its code large, what is in it and how many, where it is, its photographs, and what can be done with it. */
import { Link } from 'wouter';
import { contentsOf, openDifferences, openTags, setOf } from '../../journal/custody.ts';
import type { State } from '../../journal/state.ts';
import { nameOf } from '../../journal/state.ts';
import { nameIn } from '../find/index-of.ts';
import { Photo } from '../photo/photo.tsx';
import { HandMark } from '../sheet/hand-mark.tsx';
import { dayWords, hourOf } from '../words/figures.ts';
import { whereWords } from '../words/where-words.ts';
import type { Asking } from './bag-acts.ts';
import { BagMark } from './bag-shape.tsx';
import { bagRow } from './bags-rows.ts';

interface Props {
  readonly state: State;
  readonly code: string;
  readonly search: string;
  readonly onAsk: (asking: Asking) => void;
  readonly onTagOff: (tag: string) => void;
  readonly onBack: () => void;
}

export function BagCard({ state, code, search, onAsk, onTagOff, onBack }: Props) {
  const bag = state.bags.get(code);
  if (bag === undefined) return null;
  const row = bagRow(state, bag);
  const photos = [code, ...bag.of].flatMap((id) => state.photos.get(id) ?? []);
  const hashes = [...new Set(photos.map((p) => p.hash))];
  const notes = [code, ...bag.of].flatMap((id) => state.notes.get(id) ?? []);
  return (
    <article className="bag-card" aria-label={`Bag ${code}`}>
      <button type="button" className="link" onClick={onBack}>
        All bags
      </button>
      <h1 className="code">
        {code} <HandMark hand={row.hand} />
      </h1>
      <p className="where">
        <BagMark shape={row.shape} /> <b>{whereWords(state, bag.where)}</b>
        {row.clash && <span className="sig"> Two people opened a bag of this code. Give one of them a new one.</span>}
      </p>
      <Inside state={state} code={code} search={search} onAsk={onAsk} />
      <Tags state={state} subjects={[code, ...bag.of]} onTagOff={onTagOff} />
      {hashes.length > 0 && (
        <div className="bag-photos">
          {hashes.slice(0, 8).map((h) => (
            <Photo key={h} hash={h} size="thumb" alt={`Photograph of ${code}`} />
          ))}
          {hashes.length > 8 && <span>and {hashes.length - 8} more</span>}
        </div>
      )}
      {bag.note !== undefined && <p>{bag.note}</p>}
      {notes.slice(-3).map((n) => (
        <p key={n.said.entry} className="quiet">
          {n.text}
        </p>
      ))}
      <p className="quiet">
        Opened by {nameOf(state, bag.opened.by)}, {dayWords(bag.opened.at)} {hourOf(bag.opened.at)}
      </p>
      <div className="bag-keys">
        <button
          type="button"
          className="key go"
          onClick={() => onAsk({ kind: 'move', what: code, name: `Bag ${code}` })}
        >
          Put it away
        </button>
        <button type="button" className="key" onClick={() => onAsk({ kind: 'labels', bags: [code] })}>
          Label
        </button>
        <button type="button" className="key" onClick={() => onAsk({ kind: 'tag', subject: code })}>
          Hang a tag
        </button>
        <button type="button" className="key" onClick={() => onAsk({ kind: 'goes', subject: bag.of[0] ?? code })}>
          Goes with
        </button>
      </div>
    </article>
  );
}

function Inside({ state, code, search, onAsk }: Pick<Props, 'state' | 'code' | 'search' | 'onAsk'>) {
  const bag = state.bags.get(code);
  const inside = contentsOf(state, code);
  const told = new Set(inside.flatMap((t) => [t, state.pieces.get(t)?.position, state.lots.get(t)?.of]));
  const cameFrom = (bag?.of ?? []).filter((id) => !told.has(id));
  if (inside.length + cameFrom.length === 0) return <p className="quiet">Nobody said what is in it yet.</p>;
  const join = search === '' ? '?' : `${search}&`;
  return (
    <ul className="bag-inside">
      {inside.map((thing) => {
        const lot = state.lotCounts.get(thing);
        const about = state.pieces.get(thing)?.position ?? state.lots.get(thing)?.of ?? thing;
        const differs = openDifferences(state).find((d) => d.lot === thing);
        return (
          <li key={thing}>
            <span>
              <Link href={`/part${join}part=${encodeURIComponent(about)}`}>{nameIn(state, thing)}</Link>
              {lot !== undefined && <b className="num"> {lot.count === null ? 'not counted' : `× ${lot.count}`}</b>}
              <SetWords state={state} thing={thing} />
            </span>
            {differs !== undefined && (
              <button
                type="button"
                className="key sig"
                onClick={() => onAsk({ kind: 'explain', difference: differs.id })}
              >
                {differs.was} noted, {differs.is} counted
              </button>
            )}
            <span className="thing-keys">
              {lot !== undefined && (
                <>
                  <button type="button" className="key" onClick={() => onAsk({ kind: 'count', thing })}>
                    Count
                  </button>
                  <button type="button" className="key" onClick={() => onAsk({ kind: 'split', thing })}>
                    Split
                  </button>
                </>
              )}
              <button
                type="button"
                className="key"
                onClick={() => onAsk({ kind: 'move', what: thing, name: nameIn(state, thing) })}
              >
                Move
              </button>
              <button type="button" className="key" onClick={() => onAsk({ kind: 'rob', thing })}>
                Rob
              </button>
            </span>
          </li>
        );
      })}
      {cameFrom.map((id) => (
        <li key={id} className="quiet">
          <span>from {nameIn(state, id)}</span>
        </li>
      ))}
    </ul>
  );
}

function SetWords({ state, thing }: { readonly state: State; readonly thing: string }) {
  const others = setOf(state, thing);
  if (others.length === 0) return null;
  return <small>goes with {others.map((o) => nameIn(state, o)).join(', ')}</small>;
}

interface TagsProps {
  readonly state: State;
  readonly subjects: readonly string[];
  readonly onTagOff: (tag: string) => void;
}

function Tags({ state, subjects, onTagOff }: TagsProps) {
  const tags = openTags(state).filter((t) => subjects.includes(t.subject));
  return tags.map((t) => (
    <p key={t.id} className="bag-tag">
      <b>{t.tag.replaceAll('-', ' ').toUpperCase()}</b> {t.says}
      <button type="button" className="link" onClick={() => onTagOff(t.id)}>
        Take it off
      </button>
    </p>
  ));
}
