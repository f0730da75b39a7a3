/** Where work is going on: the sheet of that assembly, with what is half done and what comes next lit on it. */
import { useMemo } from 'react';
import { sheetFor, sheetsOfJob } from '../drawing/catalogue.ts';
import { type DrawingMarks, DrawingView } from '../drawing/drawing-view.tsx';
import type { JobView } from '../state/job-view.ts';
import { assemblyOfPart } from '../state/place-of.ts';
import { lineOfPart } from '../words/names.ts';
import type { FloorGroup } from './floor-rows.ts';

interface Props {
  readonly job: JobView;
  readonly lit: string | null;
  readonly groups: readonly FloorGroup[];
}

export function FloorDrawing({ job, lit, groups }: Props) {
  const partsIn = (id: FloorGroup['id']) =>
    groups.find((g) => g.id === id)?.rows.flatMap((r) => (r.part === null ? [] : [r.part])) ?? [];
  const half = partsIn('open');
  const next = partsIn('next');
  const about = lit ?? half[0] ?? next[0] ?? null;
  const sheets = sheetsOfJob(job.invented);
  const sheet = sheetFor(sheets, about === null ? null : assemblyOfPart(job, about));
  const marks = useMemo(
    (): DrawingMarks => ({
      on: new Set(next.map(lineOfPart)),
      lit: new Set(lit === null ? [] : [lineOfPart(lit)]),
      harm: new Set(half.map(lineOfPart)),
      wanted: new Set(),
      gone: new Set([...job.done.keys()].filter((a) => a.startsWith('remove:')).map((a) => lineOfPart(a.slice(7)))),
    }),
    [job, lit, half, next],
  );
  if (sheet === undefined) return <p className="find-none">No drawing yet. Add one under Where it sat.</p>;
  return (
    <div className="floor-drawing">
      <h2 className="eyebrow">{sheet.name}</h2>
      <p>red lead: left half done · heavy: free to be done next · dashed: off</p>
      <div className="plate">
        <DrawingView url={sheet.url} label={sheet.name} marks={marks} />
      </div>
    </div>
  );
}
