/** A thickness grid as it is taken down: size of a square, the figures typed or pasted, laid on a photograph by corners. */
import { type KeyboardEvent, type MouseEvent, useState } from 'react';
import { recording } from '../../journal/commands.ts';
import { Photo } from '../photo/photo.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { useOpenJob } from '../state/use-job.tsx';
import { columnName } from './figures.ts';
import { cellsToKeep, TableEntry } from './table-entry.tsx';

interface ThicknessLeafProps {
  readonly subject: string;
  /** Photographs of the part, newest first. */
  readonly photos: readonly string[];
  readonly onLeave: () => void;
}

type Pair = readonly [number, number];
const START: readonly Pair[] = [
  [0.15, 0.15],
  [0.85, 0.15],
  [0.85, 0.85],
  [0.15, 0.85],
];
const CORNER_WORD = ['upper left', 'upper right', 'lower right', 'lower left'] as const;

export function ThicknessLeaf({ subject, photos, onLeave }: ThicknessLeafProps) {
  const { record } = useOpenJob();
  const [cells, setCells] = useState<readonly (readonly string[])[]>([
    ['', '', '', '', ''],
    ['', '', '', '', ''],
    ['', '', '', '', ''],
  ]);
  const [step, setStep] = useState('20 mm');
  const [nominal, setNominal] = useState('');
  const [instrument, setInstrument] = useState('');
  const [photo, setPhoto] = useState<string | null>(photos[0] ?? null);
  const [corners, setCorners] = useState<readonly Pair[]>(START);
  const isEmpty = cells.every((line) => line.every((c) => c.trim() === ''));
  const save = () => {
    record(
      recording('thickness-noted', {
        subject,
        step: step.trim() === '' ? 'not noted' : step.trim(),
        unit: 'mm',
        readings: cellsToKeep(cells),
        ...(photo !== null && { photo, corners: corners.map(([x, y]): [number, number] => [x, y]) }),
        ...(nominal.trim() !== '' && { nominal: nominal.trim() }),
        ...(instrument.trim() !== '' && { instrument: instrument.trim() }),
      }),
    );
    onLeave();
  };
  return (
    <Leaf title="Thickness, square by square" onLeave={onLeave}>
      <p className="lede">Type, or paste a block from a spreadsheet. An empty square was not measured.</p>
      <TableEntry
        label="Thickness in mm"
        cells={cells}
        onCells={setCells}
        rowName={(r) => String(r + 1)}
        columnName={columnName}
      />
      <div className="few-fields">
        <Field label="Side of a square" value={step} onText={setStep} />
        <Field label="Nominal, in mm" value={nominal} onText={setNominal} hint="2.0" />
        <Field label="With what" value={instrument} onText={setInstrument} hint="ultrasonic gauge" />
      </div>
      {photos.length > 0 && (
        <>
          <h3>Laid on a photograph</h3>
          <div className="pick-photo">
            {photos.slice(0, 6).map((hash, i) => (
              <button
                key={hash}
                type="button"
                aria-pressed={hash === photo}
                aria-label={`Photograph ${i + 1}`}
                onClick={() => setPhoto(hash === photo ? null : hash)}
              >
                <Photo hash={hash} size="thumb" alt="" />
              </button>
            ))}
          </div>
          {photo !== null && <CornerPick photo={photo} corners={corners} onCorners={setCorners} />}
        </>
      )}
      <div className="keys-line">
        <button type="button" className="key go" disabled={isEmpty} onClick={save}>
          Keep the grid
        </button>
        <button type="button" className="key" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </Leaf>
  );
}

export function Field({
  label,
  value,
  onText,
  hint = '',
}: {
  readonly label: string;
  readonly value: string;
  readonly onText: (text: string) => void;
  readonly hint?: string;
}) {
  return (
    <label>
      <span className="cell-name">{label}</span>
      <input value={value} placeholder={hint} maxLength={200} onChange={(e) => onText(e.target.value)} />
    </label>
  );
}

const MOVES: Readonly<Record<string, Pair>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The corner in hand goes where the photograph is tapped, then the next one is; arrow keys move the focused one. */
function CornerPick({
  photo,
  corners,
  onCorners,
}: {
  readonly photo: string;
  readonly corners: readonly Pair[];
  readonly onCorners: (corners: readonly Pair[]) => void;
}) {
  const { snapshot } = useOpenJob();
  const size = snapshot.state.photosByHash.get(photo);
  const [hand, setHand] = useState(0);
  const put = (at: number, to: Pair) => onCorners(corners.map((c, i) => (i === at ? to : c)));
  const tap = (e: MouseEvent<HTMLElement>) => {
    if (e.target instanceof HTMLButtonElement) return;
    const box = e.currentTarget.getBoundingClientRect();
    put(hand, [unit((e.clientX - box.left) / box.width), unit((e.clientY - box.top) / box.height)]);
    setHand((hand + 1) % 4);
  };
  const keys = (e: KeyboardEvent, i: number) => {
    const move = MOVES[e.key];
    const at = corners[i];
    if (!move || !at) return;
    e.preventDefault();
    const far = e.shiftKey ? 0.05 : 0.005;
    put(i, [unit(at[0] + move[0] * far), unit(at[1] + move[1] * far)]);
  };
  return (
    <>
      <p className="quiet">
        Tap the {CORNER_WORD[hand]} corner of the grid. Or choose a corner with Tab and move it with the arrow keys.
      </p>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the corners in it take the keys */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the corners in it take the keys */}
      <div className="corner-pick" onClick={tap} style={{ aspectRatio: `${size?.width ?? 4} / ${size?.height ?? 3}` }}>
        <Photo hash={photo} size="print" alt="The part, with the corners of the grid" />
        <svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true">
          <path d={`M${corners.map((c) => c.join(' ')).join('L')}Z`} vectorEffect="non-scaling-stroke" />
        </svg>
        {CORNER_WORD.map((word, i) => (
          <button
            key={word}
            type="button"
            aria-label={`Corner ${word}`}
            className={i === hand ? 'corner in-hand' : 'corner'}
            style={{ left: `${(corners[i]?.[0] ?? 0) * 100}%`, top: `${(corners[i]?.[1] ?? 0) * 100}%` }}
            onFocus={() => setHand(i)}
            onKeyDown={(e) => keys(e, i)}
          />
        ))}
      </div>
    </>
  );
}

function unit(n: number): number {
  return Math.round(Math.min(1, Math.max(0, n)) * 1000) / 1000;
}
