/** The whole job's levels, diagonals and droop: before the strip, after, and what changed between. */
import { useState } from 'react';
import { recording } from '../../journal/commands.ts';
import { DATUM_SORTS } from '../../journal/kinds/capture-kinds.ts';
import type { DataOf } from '../../journal/kinds/kinds.ts';
import { nameOf, type State } from '../../journal/state.ts';
import { readingOf } from '../catch/measure-leaf.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { dayWords } from '../words/figures.ts';
import { upperFirst } from '../words/names.ts';
import { type DatumRead, datumRows, readingsWords } from './datums.ts';
import { Field } from './thickness-leaf.tsx';

export function DatumTable({ state }: { readonly state: State }) {
  const rows = datumRows(state);
  if (rows.length === 0)
    return (
      <p className="nothing-yet">
        No level, diagonal or droop has been read yet. The aircraft is whole only once: take two readings of each before
        anything comes off, and read them again when it is back.
      </p>
    );
  return (
    <div className="wide-table">
      <table className="datums">
        <thead>
          <tr>
            <th scope="col">datum</th>
            <th scope="col">before</th>
            <th scope="col">after</th>
            <th scope="col">change</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((r) => (
            <tr key={r.datum}>
              <th scope="row">
                {r.datum}
                <small>{r.sort}</small>
              </th>
              <Reading state={state} read={r.before} />
              <Reading state={state} read={r.after} />
              <td className="total">{r.change ?? '–'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Reading({ state, read }: { readonly state: State; readonly read: DatumRead | null }) {
  if (read === null) return <td className="quiet">not read</td>;
  return (
    <td>
      {readingsWords(read)}
      <small>
        {[nameOf(state, read.said.by), dayWords(read.said.at), read.instrument, read.note]
          .filter((w) => w !== undefined)
          .join(' · ')}
      </small>
    </td>
  );
}

type Sort = DataOf<'datum-read'>['sort'];

export function DatumLeaf({ onLeave }: { readonly onLeave: () => void }) {
  const { record, snapshot } = useOpenJob();
  const [datum, setDatum] = useState('');
  const known = snapshot.state.datums.get(datum.trim());
  const [chosen, setSort] = useState<Sort>('level');
  const sort = known?.[0]?.sort ?? chosen;
  const [when, setWhen] = useState<'before' | 'after'>('before');
  const [first, setFirst] = useState('');
  const [second, setSecond] = useState('');
  const [instrument, setInstrument] = useState('');
  const texts = [first, second].map((t) => t.trim()).filter((t) => t !== '');
  const save = () => {
    record(
      recording('datum-read', {
        datum: datum.trim(),
        sort,
        when,
        readings: texts.map(readingOf),
        ...(instrument.trim() !== '' && { instrument: instrument.trim() }),
      }),
    );
    onLeave();
  };
  return (
    <Leaf title="Read a datum" onLeave={onLeave}>
      <form
        className="few-fields one"
        onSubmit={(e) => {
          e.preventDefault();
          if (datum.trim() !== '' && texts.length > 0) save();
        }}
      >
        <Field label="Which" value={datum} onText={setDatum} hint="level, port, C4 to C9" />
        <Choice label="Sort" all={DATUM_SORTS} now={sort} onChoose={setSort} />
        <Choice label="When" all={['before', 'after'] as const} now={when} onChoose={setWhen} />
        <div className="few-fields">
          <Field label="First reading, with its unit" value={first} onText={setFirst} hint="412 mm" />
          <Field label="Second reading" value={second} onText={setSecond} hint="413 mm" />
          <Field label="With what" value={instrument} onText={setInstrument} hint="water level" />
        </div>
        <div className="keys-line">
          <button type="submit" className="key go" disabled={datum.trim() === '' || texts.length === 0}>
            Keep it
          </button>
          <button type="button" className="key" onClick={onLeave}>
            Leave it
          </button>
        </div>
      </form>
    </Leaf>
  );
}

export function Choice<T extends string>({
  label,
  all,
  now,
  onChoose,
}: {
  readonly label: string;
  readonly all: readonly T[];
  readonly now: T | null;
  readonly onChoose: (one: T) => void;
}) {
  return (
    <fieldset className="choice-line">
      <legend className="cell-name">{label}</legend>
      {all.map((one) => (
        <button key={one} type="button" className="key" aria-pressed={one === now} onClick={() => onChoose(one)}>
          {upperFirst(one.replaceAll('-', ' '))}
        </button>
      ))}
    </fieldset>
  );
}
