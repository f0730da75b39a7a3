/** What would happen, row by row: new, changed (before and after), here already, refused and why. */

import type { PartsAnswer } from '../../app/parts-table-answer.ts';
import { PARTS_COLUMNS } from '../../app/parts-table-columns.ts';
import { count } from '../words/figures.ts';
import type { PhotosAnswer } from './take-in-client.ts';

/** As many rows as a person reads; the rest is counted. */
const SHOWN = 200;

interface PhotosProps {
  readonly answer: PhotosAnswer;
  readonly onDo: () => void;
}

const PILE_WORD = { new: 'new', 'here-already': 'here already', 'same-as': 'the same picture', refused: 'refused' };

export function PhotosPreview({ answer, onDo }: PhotosProps) {
  const { counts } = answer;
  return (
    <>
      <h2>
        {count(counts.new, 'new photograph')}, {counts['here-already']} here already, {counts.refused} refused
      </h2>
      {answer.zoneNotWritten > 0 && (
        <p className="quiet">
          {count(answer.zoneNotWritten, 'picture')} without a time zone: the time is kept as written.
        </p>
      )}
      <DoKey n={counts.new} words="Take them in" onDo={onDo} />
      <div className="scroll-x">
        <table>
          <thead>
            <tr>
              <th>File</th>
              <th>What</th>
              <th>Taken</th>
              <th>Of</th>
            </tr>
          </thead>
          <tbody>
            {answer.rows.slice(0, SHOWN).map((r) => (
              <tr key={r.file} className={r.what}>
                <td>{r.file}</td>
                <td className="word">{PILE_WORD[r.what]}</td>
                <td>{r.taken.words}</td>
                <td>
                  {r.problem === null
                    ? `${r.of.join(', ')} ${r.ofBecause}`
                    : `${r.problem.message}. ${r.problem.remedy}`}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <More all={answer.rows.length} />
    </>
  );
}

interface PartsProps {
  readonly answer: PartsAnswer;
  readonly onMap: (map: Readonly<Record<string, string>>) => void;
  readonly onDo: (skip: boolean) => void;
}

export function PartsPreview({ answer, onMap, onDo }: PartsProps) {
  const { counts, problem } = answer;
  return (
    <>
      <h2>
        {count(counts.new, 'new line')}, {counts.changed} changed, {counts.unchanged} unchanged, {counts.refused}{' '}
        refused
      </h2>
      <fieldset className="columns">
        <legend>Which of their columns is which</legend>
        {PARTS_COLUMNS.map((ours) => {
          const found = answer.columns.find((c) => c.ours === ours);
          return (
            <label key={ours}>
              {ours}
              <select value={found?.theirs ?? ''} onChange={(e) => onMap({ [ours]: e.target.value })}>
                <option value="">none</option>
                {answer.headers.map((h) => (
                  <option key={h} value={h}>
                    {h}
                  </option>
                ))}
              </select>
              <small>{found === undefined ? '' : found.how === 'guessed' ? 'guessed' : 'as you said'}</small>
            </label>
          );
        })}
      </fieldset>
      {problem !== null && (
        <p className="sig-line" role="alert">
          {problem.message}. {problem.remedy}
        </p>
      )}
      {answer.notes.map((n) => (
        <p key={n} className="quiet">
          {n}
        </p>
      ))}
      {counts.refused > 0 ? (
        <DoKey
          n={counts.new + counts.changed}
          words="Take in the rest, leave the refused rows"
          onDo={() => onDo(true)}
        />
      ) : (
        <DoKey n={counts.new + counts.changed} words="Take it in" onDo={() => onDo(false)} />
      )}
      <div className="scroll-x">
        <table>
          <thead>
            <tr>
              <th>Row</th>
              <th>What</th>
              <th>Line</th>
              <th>Before and after</th>
            </tr>
          </thead>
          <tbody>
            {answer.rows.slice(0, SHOWN).map((r) => (
              <tr key={r.row} className={r.what}>
                <td>{r.row}</td>
                <td className="word">{r.what}</td>
                <td>
                  {r.id} {r.name}
                </td>
                <td>{rowWords(r)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <More all={answer.rows.length} />
    </>
  );
}

function rowWords(r: PartsAnswer['rows'][number]): string {
  if (r.problem !== null) return `${r.problem.message}. ${r.problem.remedy}`;
  return [
    ...r.changes.map((c) => `${c.what}: ${c.before} → ${c.after}`),
    ...(r.positionsAdded.length === 0 ? [] : [`${count(r.positionsAdded.length, 'position')} more`]),
    ...r.notes,
  ].join('; ');
}

function DoKey({ n, words, onDo }: { readonly n: number; readonly words: string; readonly onDo: () => void }) {
  return (
    <p>
      <button type="button" className="key go" disabled={n === 0} onClick={onDo}>
        {n === 0 ? 'Nothing to take in' : words}
      </button>
    </p>
  );
}

function More({ all }: { readonly all: number }) {
  return all > SHOWN ? <p className="quiet">and {all - SHOWN} more rows, not shown</p> : null;
}
