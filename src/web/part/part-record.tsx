/** The right half in three leaves: what was found at each joint, the figures, and the history in order of time. */
import { ASPECTS } from '../../domain/as-found/aspects.ts';
import type { State } from '../../journal/state.ts';
import { nameOf } from '../../journal/state.ts';
import { Picture } from '../catch/pictures/picture.tsx';
import type { JobView } from '../state/job-view.ts';
import { PhotoStrip } from '../where/where-card.tsx';
import { dayWords } from '../words/figures.ts';
import { upperFirst } from '../words/names.ts';
import { foundBlocks } from './as-found.ts';
import { DialView } from './dial.tsx';
import { FoundList } from './found-list.tsx';
import { historyOf, subjectsOf } from './part-facts.ts';
import { Sounds } from './sound.tsx';
import { ThicknessView } from './thickness-view.tsx';

export const RECORD_TABS = [
  { id: 'found', name: 'As found' },
  { id: 'figures', name: 'Figures' },
  { id: 'history', name: 'History' },
] as const;
export type RecordTab = (typeof RECORD_TABS)[number]['id'];

interface HalfProps {
  readonly state: State;
  readonly job: JobView;
  readonly part: string;
}

export function AsFound({
  state,
  job,
  part,
  onAsk,
}: HalfProps & { readonly onAsk: (subject: string, aspect: string) => void }) {
  const about = subjectsOf(state, job, part);
  const blocks = foundBlocks(state, job, part);
  const joints = blocks.some((b) => b.subject !== part)
    ? blocks
    : [...blocks, { subject: part, title: 'The part itself', rows: [], stack: null, isDone: false }];
  return (
    <>
      {joints.map((b) => (
        <FoundList key={b.subject} block={b}>
          <details className="ask-more">
            <summary>Note what was found</summary>
            <ul className="pictures">
              {ASPECTS.map((a) => (
                <li key={a.id}>
                  <button type="button" className="key picture" onClick={() => onAsk(b.subject, a.id)}>
                    <Picture of={a.picture} />
                    <span>{a.short}</span>
                  </button>
                </li>
              ))}
            </ul>
          </details>
        </FoundList>
      ))}
      <Notes state={state} about={about} />
      <Sounds state={state} sounds={[...about].flatMap((s) => state.sounds.get(s) ?? [])} />
      <PhotoStrip state={state} subjects={[...about]} />
    </>
  );
}

function Notes({ state, about }: { readonly state: State; readonly about: ReadonlySet<string> }) {
  const notes = [...about].flatMap((s) => state.notes.get(s) ?? []).sort((a, b) => b.said.at.localeCompare(a.said.at));
  if (notes.length === 0) return null;
  return (
    <section className="notes">
      <h2>Notes</h2>
      {notes.map((n) => (
        <p key={n.said.entry}>
          {n.text}
          <small>
            {nameOf(state, n.said.by)}, {dayWords(n.said.at)}
          </small>
        </p>
      ))}
    </section>
  );
}

export interface FigureActs {
  readonly measure: () => void;
  readonly thickness: () => void;
  readonly dial: () => void;
  readonly datums: () => void;
}

export function Figures({ state, job, part, acts }: HalfProps & { readonly acts: FigureActs }) {
  const about = [...subjectsOf(state, job, part)];
  const measured = about.flatMap((s) => state.measurements.get(s) ?? []);
  const grids = about.flatMap((s) => state.thicknesses.get(s) ?? []).reverse();
  const dials = about.flatMap((s) => state.dials.get(s) ?? []).reverse();
  return (
    <>
      <div className="figure-keys">
        <button type="button" className="key" onClick={acts.measure}>
          Measure
        </button>
        <button type="button" className="key" onClick={acts.thickness}>
          Thickness grid
        </button>
        <button type="button" className="key" onClick={acts.dial}>
          Dial readings
        </button>
        <button type="button" className="key" onClick={acts.datums}>
          Levels of the job
        </button>
      </div>
      {measured.length + grids.length + dials.length === 0 && (
        <p className="nothing-yet">Nothing has been measured on it yet.</p>
      )}
      {measured.length > 0 && (
        <div className="wide-table">
          <table className="measured">
            <thead>
              <tr>
                <th scope="col">what</th>
                <th scope="col">readings, as written</th>
                <th scope="col">with what</th>
              </tr>
            </thead>
            <tbody>
              {measured.map((m) => (
                <tr key={m.said.entry}>
                  <th scope="row">{upperFirst(m.aspect.replaceAll('-', ' '))}</th>
                  <td className="figure-cell">
                    {m.readings.map((r) => r.text).join(' · ')}
                    <small>
                      {m.readings
                        .map((r) => siWords(r.si))
                        .filter((w) => w !== '')
                        .join(' · ')}
                    </small>
                  </td>
                  <td>
                    {m.instrument ?? 'not noted'}
                    <small>
                      {nameOf(state, m.said.by)}, {dayWords(m.said.at)}
                      {m.temperature === undefined ? '' : ` · ${m.temperature}`}
                      {m.note === undefined ? '' : ` · ${m.note}`}
                    </small>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {grids.map((g) => (
        <ThicknessView key={g.said.entry} state={state} grid={g} />
      ))}
      {dials.map((d) => (
        <DialView key={d.said.entry} state={state} dial={d} />
      ))}
    </>
  );
}

function siWords(si: { readonly value: number; readonly unit: string } | undefined): string {
  if (si === undefined) return '';
  return si.unit === 'm'
    ? `${Number((si.value * 1000).toPrecision(6))} mm`
    : `${Number(si.value.toPrecision(6))} ${si.unit}`;
}

export function History({ state, job, part }: HalfProps) {
  const rows = historyOf(state, job, subjectsOf(state, job, part));
  if (rows.length === 0) return <p className="nothing-yet">Nothing has been recorded of it yet.</p>;
  return (
    <ol className="history">
      {rows.map((r) => (
        <li key={r.entry} className={r.gone === null ? undefined : 'gone'}>
          <p className="t">{r.what}</p>
          {r.more !== '' && <p>{r.more}</p>}
          <p className="quiet">
            {r.when} · {r.who} · {r.device}
            {r.pending && ' · saved here'}
            {r.gone !== null && <b> · {r.gone}</b>}
          </p>
        </li>
      ))}
    </ol>
  );
}
