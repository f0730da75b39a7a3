/** One drawing sheet at work: which sheet, the drawing itself under a window that moves, and what the pointer is on. */
import { useCallback, useRef, useState } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { usePan, windowProps } from '../graph/use-pan.ts';
import { ZoomKeys } from '../graph/zoom-keys.tsx';
import { HandMark } from '../sheet/hand-mark.tsx';
import type { JobView } from '../state/job-view.ts';
import type { Screen } from '../state/use-screen.ts';
import { lineOfPart, upperFirst } from '../words/names.ts';
import { sheetFor, sheetsOfJob } from './catalogue.ts';
import { type DrawingMarks, DrawingView } from './drawing-view.tsx';

export interface PlateProps {
  readonly job: JobView;
  readonly screen: Screen;
  readonly assembly: string | null;
  readonly marks: DrawingMarks;
  /** The line to name while the pointer is nowhere. */
  readonly named: string | null;
  readonly quiet: string;
  readonly onOver: (line: string | null) => void;
  readonly onChoose: (line: string) => void;
}

const WHOLE = () => ({ x: 0, y: 0, scale: 1 });

export function Plate({ job, screen, assembly, marks, named, quiet, onOver, onChoose }: PlateProps) {
  const window = useRef<HTMLDivElement>(null);
  const pan = usePan(window, WHOLE);
  const sheets = sheetsOfJob(job.invented);
  const sheet = sheets.find((s) => s.id === screen.get('sheet')) ?? sheetFor(sheets, assembly);
  const [hover, setHover] = useState<string | null>(null);
  const over = useCallback(
    (line: string | null) => {
      setHover(line);
      onOver(line);
    },
    [onOver],
  );
  const { wasDrag } = pan;
  const choose = (line: string) => {
    if (!wasDrag()) onChoose(line);
  };
  if (sheet === undefined)
    return <p className="plate quiet">This job has no drawing yet. The tags say what holds what.</p>;
  return (
    <div className="plate">
      <ToggleButtonGroup
        className="way sheets"
        aria-label="Drawing sheet"
        selectionMode="single"
        disallowEmptySelection
        selectedKeys={[sheet.id]}
        onSelectionChange={(keys) => screen.set({ sheet: String([...keys][0]) })}
      >
        {sheets.map((s) => (
          <ToggleButton key={s.id} id={s.id}>
            {s.name}
          </ToggleButton>
        ))}
      </ToggleButtonGroup>
      <div
        ref={window}
        className={pan.dragging ? 'art dragging' : 'art'}
        {...windowProps('Drawing. Arrow keys move it, plus and minus change its size, 0 fits it.')}
        {...pan.handlers}
      >
        <DrawingView
          url={sheet.url}
          label={`${sheet.name}, invented example. The list says the same in words.`}
          marks={marks}
          view={pan.view}
          onHover={over}
          onChoose={choose}
        />
      </div>
      <ZoomKeys pan={pan} />
      <p className="caption">
        <Caption job={job} line={hover ?? named} quiet={quiet} />
      </p>
    </div>
  );
}

export function Caption({
  job,
  line,
  quiet,
}: {
  readonly job: JobView;
  readonly line: string | null;
  readonly quiet: string;
}) {
  const item = line === null ? undefined : job.find.find((f) => lineOfPart(f.id) === line);
  if (item === undefined) return <>{line === null ? quiet : `${line}: not in this job’s list of what holds what`}</>;
  const isOff = job.done.has(`remove:${item.id}`);
  return (
    <>
      <b>{upperFirst(item.name)}</b> <HandMark hand={job.names.hand(item.id)} />{' '}
      {[line, item.bag, isOff ? 'off' : null].filter((w) => w != null).join(' · ')}
    </>
  );
}
