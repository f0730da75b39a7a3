/** A measurement: as written with its unit, as often as it was taken, with what. SI stands beside in grey, never instead. */
import { useState } from 'react';
import { KINDS } from '../../domain/quantity/kinds.ts';
import { convert } from '../../domain/quantity/quantity.ts';
import { formatQuantity } from '../../domain/quantity/quantity-print.ts';
import { parseQuantity } from '../../domain/quantity/quantity-read.ts';
import { recording } from '../../journal/commands.ts';
import type { DataOf } from '../../journal/kinds/kinds.ts';
import { Leaf } from '../sheet/leaf.tsx';
import type { AskedView } from './aspect-leaf.tsx';

type Reading = DataOf<'measured'>['readings'][number];

interface MeasureLeafProps {
  readonly view: AskedView;
  readonly onLeave: () => void;
}

const WHAT = ['diameter', 'bore', 'length', 'thickness', 'gap', 'angle'] as const;
const WITH = ['calliper', 'micrometer', 'rule', 'feeler gauge', 'dial gauge', 'tape'] as const;

export function MeasureLeaf({ view, onLeave }: MeasureLeafProps) {
  const [what, setWhat] = useState<string>(WHAT[0]);
  const [instrument, setInstrument] = useState('');
  const [text, setText] = useState('');
  const [readings, setReadings] = useState<readonly string[]>([]);
  const all = text.trim() === '' ? readings : [...readings, text.trim()];
  const again = () => {
    setReadings(all);
    setText('');
  };
  const save = () => {
    view.acts.record(
      `Measured: ${what} ${all.join(', ')}`,
      recording('measured', {
        subject: view.subject,
        aspect: what,
        readings: all.map(readingOf),
        ...(instrument === '' ? {} : { instrument }),
      }),
    );
    onLeave();
  };
  return (
    <Leaf title="Measure" onLeave={onLeave}>
      <Chips label="What" choices={WHAT} now={what} onChoose={setWhat} />
      <form
        onSubmit={(e) => {
          e.preventDefault();
          if (all.length > 0) save();
        }}
      >
        <label className="cell-name" htmlFor="measure-text">
          As it reads, with its unit
        </label>
        <div className="find">
          <div className="field">
            <input
              id="measure-text"
              className="num"
              autoComplete="off"
              value={text}
              onChange={(e) => setText(e.target.value)}
              placeholder="12.42 mm, or 3/8 in"
            />
            <button type="button" className="key" disabled={text.trim() === ''} onClick={again}>
              And again
            </button>
          </div>
        </div>
        <p className="si-line quiet" role="status">
          {siLine(text)}
        </p>
        {readings.length > 0 && (
          <p className="lede">
            Before: <span className="num">{readings.join(' · ')}</span>
          </p>
        )}
        <Chips label="With what; may stay open" choices={WITH} now={instrument} onChoose={setInstrument} />
        <div className="keys-line across">
          <button type="submit" className="key go" disabled={all.length === 0}>
            Keep {all.length > 1 ? `${all.length} readings` : 'it'}
          </button>
          <button type="button" className="key" onClick={onLeave}>
            Leave it
          </button>
        </div>
      </form>
    </Leaf>
  );
}

/** A text that is no quantity is kept all the same: it is what somebody wrote. */
export function readingOf(text: string): Reading {
  const read = parseQuantity(text);
  if (!read.ok) return { text };
  const { kind, si, plusMinus } = read.value;
  return { text, si: { value: si, unit: KINDS[kind].unit, ...(plusMinus === undefined ? {} : { plusMinus }) } };
}

function siLine(text: string): string {
  if (text.trim() === '') return 'SI is shown here';
  const read = parseQuantity(text);
  if (!read.ok) return `kept as written; ${read.problem.message}`;
  const shown = convert(read.value, read.value.kind === 'length' ? 'mm' : KINDS[read.value.kind].unit);
  return shown.ok ? formatQuantity(shown.value) : formatQuantity(read.value);
}

interface ChipsProps {
  readonly label: string;
  readonly choices: readonly string[];
  readonly now: string;
  readonly onChoose: (word: string) => void;
}

function Chips({ label, choices, now, onChoose }: ChipsProps) {
  return (
    <>
      <h3>{label}</h3>
      <ul className="pictures" aria-label={label}>
        {choices.map((c) => (
          <li key={c}>
            <button type="button" className="key picture" aria-pressed={now === c} onClick={() => onChoose(c)}>
              <span>{c}</span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
