/** Leaves that ask for a part: what touches what is stuck, what had to come off first, of what nothing is there. */
import { useMemo, useRef, useState } from 'react';
import { recording } from '../../journal/commands.ts';
import { sheetFor, sheetsOfJob } from '../drawing/catalogue.ts';
import { type DrawingMarks, DrawingView } from '../drawing/drawing-view.tsx';
import { Leaf } from '../sheet/leaf.tsx';
import { touched } from '../state/acts.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { assemblyOf, lineOfPart, lowerFirst } from '../words/names.ts';
import { FindBox } from './find-box.tsx';
import { nearParts } from './near-parts.ts';

const GENTLY = [
  'a hidden pin or keeper?',
  'soak, and wait',
  'warmth, where the metal allows',
  'along its axis only',
  'ask the lead',
];

export interface OneAction {
  readonly action: string;
  readonly onLeave: () => void;
}

/** Recorded before anything is asked; then what touches it, chosen from what is near or found by name. */
export function StuckLeaf({ action, onLeave }: OneAction) {
  const { job, record } = useOpenJob();
  const field = useRef<HTMLInputElement>(null);
  const near = useMemo(() => nearParts(job, action), [job, action]);
  const choose = (by: string) => {
    record(touched(action, by));
    onLeave();
  };
  return (
    <Leaf title="Stop. Do not force it." onLeave={onLeave}>
      <p className="lede">
        “{job.names.strip(action)}” is recorded as stuck. Something is still holding, or in the way. It may be under
        load.
      </p>
      <h3>What touches it?</h3>
      <div className="choices">
        {near.map((part) => (
          <button type="button" key={part} className="key" onClick={() => choose(part)}>
            {job.names.part(part)}
            <small>{part}</small>
          </button>
        ))}
      </div>
      <TouchDrawing action={action} near={near} onChoose={choose} />
      <FindBox
        job={job}
        field={field}
        label="Find what touches it"
        placeholder="or find it: number, name, bag"
        onFind={choose}
      />
      <h3>Then, gently, in this order</h3>
      <p>{GENTLY.join(' · ')}</p>
      <div className="keys-line">
        <button type="button" className="key" onClick={onLeave}>
          Not known yet
        </button>
      </div>
    </Leaf>
  );
}

interface TouchDrawingProps {
  readonly action: string;
  readonly near: readonly string[];
  readonly onChoose: (part: string) => void;
}

/** The same question on the drawing, where the stuck part is on a sheet: what is stuck in ink, what is near in full. */
function TouchDrawing({ action, near, onChoose }: TouchDrawingProps) {
  const { job } = useOpenJob();
  const [hover, setHover] = useState<string | null>(null);
  const own = job.names.partsOf(action);
  const assembly = assemblyOf(own[0] ?? '');
  const sheet = sheetFor(sheetsOfJob(job.invented), assembly);
  const ownLines = new Set(own.map(lineOfPart));
  const marks = useMemo((): DrawingMarks => {
    const none: ReadonlySet<string> = new Set();
    const lines = new Set(job.names.partsOf(action).map(lineOfPart));
    return {
      on: lines,
      wanted: new Set(near.map(lineOfPart)),
      lit: hover === null ? none : new Set([hover]),
      harm: none,
      gone: none,
    };
  }, [job, action, near, hover]);
  if (sheet === undefined || assembly === null || !sheet.assemblies.includes(assembly)) return null;
  const choose = (line: string) => {
    const part = near.find((p) => lineOfPart(p) === line) ?? job.find.find((f) => lineOfPart(f.id) === line)?.id;
    if (part !== undefined && !ownLines.has(line)) onChoose(part);
  };
  const named = job.find.find((f) => lineOfPart(f.id) === hover)?.name;
  return (
    <figure className="touch">
      <div className="art">
        <DrawingView
          url={sheet.url}
          label={`${sheet.name}, invented example`}
          marks={marks}
          onHover={setHover}
          onChoose={choose}
        />
      </div>
      <figcaption>{named ?? 'or tap it on the drawing'}</figcaption>
    </figure>
  );
}

export function FirstLeaf({ action, onLeave }: OneAction) {
  const { job, record } = useOpenJob();
  const field = useRef<HTMLInputElement>(null);
  const choose = (part: string) => {
    const first = `remove:${part}`;
    const done = job.done.has(first) ? [] : [{ kind: 'something-else', action: first } as const];
    record(...done, recording('came-off-first', { action: first, before: action }));
    onLeave();
  };
  return (
    <Leaf title="What had to come off first?" onLeave={onLeave}>
      <p className="lede">
        Before: {lowerFirst(job.names.strip(action))}. It is recorded as off, and the order is kept for the next time.
      </p>
      <div className="choices">
        {nearParts(job, action).map((part) => (
          <button type="button" key={part} className="key" onClick={() => choose(part)}>
            {job.names.part(part)}
            <small>{part}</small>
          </button>
        ))}
      </div>
      <FindBox
        job={job}
        field={field}
        label="Find what came off first"
        placeholder="or find it: number, name, bag"
        onFind={choose}
      />
    </Leaf>
  );
}

export function NothingLeaf({ action, onLeave }: OneAction) {
  const { job, record } = useOpenJob();
  const subjects = [...new Set([action, ...job.names.partsOf(action)])];
  return (
    <Leaf title="Looked: nothing here" onLeave={onLeave}>
      <p className="lede">“None is fitted” is not the same as “not looked”. Of what?</p>
      <div className="choices">
        {subjects.map((subject) => (
          <button
            type="button"
            key={subject}
            className="key"
            onClick={() => {
              record(recording('nothing-here', { subject }));
              onLeave();
            }}
          >
            {subject === action ? job.names.strip(subject) : job.names.part(subject)}
          </button>
        ))}
      </div>
    </Leaf>
  );
}
