/** Dial readings round a shaft: the table as written, what each station shows in all, and each round drawn much enlarged. */
import { useState } from 'react';
import { recording } from '../../journal/commands.ts';
import type { DataOf } from '../../journal/kinds/kinds.ts';
import { type Noted, nameOf, type State } from '../../journal/state.ts';
import { Leaf } from '../sheet/leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { dayWords } from '../words/figures.ts';
import { cellNumber, spreadOf, totalReadings } from './figures.ts';
import { cellsToKeep, TableEntry } from './table-entry.tsx';
import { Field } from './thickness-leaf.tsx';

export type Dial = Noted<DataOf<'dial-noted'>>;

export function DialView({ state, dial }: { readonly state: State; readonly dial: Dial }) {
  const totals = totalReadings(dial.readings);
  const worst = Math.max(...totals.map((t) => t ?? 0));
  const spread = spreadOf(dial.readings);
  return (
    <figure className="dial">
      <div className="wide-table">
        <table>
          <caption>Dial readings, one unit is {dial.unit}</caption>
          <thead>
            <tr>
              <th scope="col">station</th>
              {dial.angles.map((a) => (
                <th key={a} scope="col">
                  {a}°
                </th>
              ))}
              <th scope="col">in all</th>
              <th scope="col">round, enlarged</th>
            </tr>
          </thead>
          <tbody>
            {dial.stations.map((station, r) => (
              <tr key={station} className={totals[r] === worst && worst > 0 ? 'most' : undefined}>
                <th scope="row">{station}</th>
                {dial.angles.map((a, c) => (
                  <td key={a}>{dial.readings[r]?.[c] ?? <i>not measured</i>}</td>
                ))}
                <td className="total">{totals[r] ?? '–'}</td>
                <td className="round">
                  <Round
                    angles={dial.angles}
                    line={dial.readings[r] ?? []}
                    least={spread?.least ?? 0}
                    most={spread?.most ?? 0}
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <figcaption>
        <span>
          {[
            `${nameOf(state, dial.said.by)}, ${dayWords(dial.said.at)}`,
            dial.instrument,
            dial.supports && `on ${dial.supports.join(', ')}`,
            dial.note,
            'in all: the largest less the smallest',
          ]
            .filter((w) => w !== undefined)
            .join(' · ')}
        </span>
      </figcaption>
    </figure>
  );
}

/** Readings on a ring of their own: zero angle at the top, the mean circle thin, all stations on one scale. */
function Round({
  angles,
  line,
  least,
  most,
}: {
  readonly angles: readonly number[];
  readonly line: readonly (string | null)[];
  readonly least: number;
  readonly most: number;
}) {
  const reach = most - least;
  const points = angles.flatMap((angle, i) => {
    const value = cellNumber(line[i] ?? null);
    if (value === null) return [];
    const r = 9 + (reach === 0 ? 0.5 : (value - least) / reach) * 8;
    const turn = (angle / 180) * Math.PI;
    return [`${(r * Math.sin(turn)).toFixed(2)} ${(-r * Math.cos(turn)).toFixed(2)}`];
  });
  return (
    <svg viewBox="-20 -20 40 40" aria-hidden="true">
      <circle r="13" className="thin" />
      <path d="M-19 0H19M0-19V19" className="axis" />
      {points.length > 1 && <path d={`M${points.join('L')}Z`} className="line" />}
    </svg>
  );
}

const EIGHT = [0, 45, 90, 135, 180, 225, 270, 315] as const;

export function DialLeaf({ subject, onLeave }: { readonly subject: string; readonly onLeave: () => void }) {
  const { record } = useOpenJob();
  const [stations, setStations] = useState<readonly string[]>(['1', '2', '3']);
  const [angles, setAngles] = useState<readonly string[]>(EIGHT.map(String));
  const [cells, setCells] = useState<readonly (readonly string[])[]>([1, 2, 3].map(() => EIGHT.map(() => '')));
  const [unit, setUnit] = useState('0.01 mm');
  const [supports, setSupports] = useState('');
  const [instrument, setInstrument] = useState('');
  const rows = cells.map((_, r) => stations[r] ?? String(r + 1));
  const columns = (cells[0] ?? []).map((_, c) => angles[c] ?? '');
  const asNumbers = columns.map((c) => cellNumber(c));
  const isEmpty = cells.every((line) => line.every((c) => c.trim() === ''));
  const hasAngles = asNumbers.every((a) => a !== null) && asNumbers.length > 1;
  const save = () => {
    record(
      recording('dial-noted', {
        subject,
        stations: rows.map((s, r) => (s.trim() === '' ? String(r + 1) : s.trim())),
        angles: asNumbers.map((a) => a ?? 0),
        unit: unit.trim() === '' ? 'not noted' : unit.trim(),
        readings: cellsToKeep(cells),
        ...(supports.trim() !== '' && { supports: supports.split(',').map((s) => s.trim()) }),
        ...(instrument.trim() !== '' && { instrument: instrument.trim() }),
      }),
    );
    onLeave();
  };
  const named = (all: readonly string[], at: number, name: string, size: number) =>
    Array.from({ length: size }, (_, i) => (i === at ? name : (all[i] ?? '')));
  return (
    <Leaf title="Dial readings round a shaft" onLeave={onLeave}>
      <p className="lede">Rows are stations along the shaft, columns are angles. Type, or paste a block.</p>
      <TableEntry
        label="Dial readings"
        cells={cells}
        onCells={setCells}
        rowName={(r) => rows[r] ?? ''}
        columnName={(c) => columns[c] ?? ''}
        onRowName={(r, name) => setStations(named(rows, r, name, rows.length))}
        onColumnName={(c, name) => setAngles(named(columns, c, name, columns.length))}
      />
      <div className="few-fields">
        <Field label="One unit is" value={unit} onText={setUnit} />
        <Field label="Resting on" value={supports} onText={setSupports} hint="station 1, station 3" />
        <Field label="With what" value={instrument} onText={setInstrument} hint="dial gauge" />
      </div>
      {!hasAngles && <p className="owed">Every column needs its angle in degrees.</p>}
      <div className="keys-line">
        <button type="button" className="key go" disabled={isEmpty || !hasAngles} onClick={save}>
          Keep the readings
        </button>
        <button type="button" className="key" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </Leaf>
  );
}
