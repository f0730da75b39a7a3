/** Right half of What fits next: the drawing with what is in, what is next and what would be hidden; or the tags. */
import { useCallback, useMemo } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { sheetsOfJob } from '../drawing/catalogue.ts';
import type { DrawingMarks } from '../drawing/drawing-view.tsx';
import { Plate } from '../drawing/plate.tsx';
import { TagGraph, type TagText } from '../graph/tag-graph.tsx';
import type { JobView } from '../state/job-view.ts';
import { useOpenJob } from '../state/use-job.tsx';
import type { Screen } from '../state/use-screen.ts';
import { handOf, lineOfPart } from '../words/names.ts';
import { type FitsRow, fitsWires } from './fits-rows.ts';
import type { FitsView } from './fits-screen.tsx';

export function FitsDrawing({ view, screen }: { readonly view: FitsView; readonly screen: Screen }) {
  const { job } = useOpenJob();
  const sheets = sheetsOfJob(job.invented);
  const isTags = screen.get('view') === 'tags' || sheets.length === 0;
  return (
    <>
      <div className="over">
        <div>
          <h2 className="eyebrow">
            {isTags ? 'What goes in before what' : 'What is in, what is next, what stays in sight'}
          </h2>
          {isTags && <p>a wire leads to what has to wait for it · red: a look that would be hidden</p>}
        </div>
        {sheets.length > 0 && (
          <ToggleButtonGroup
            className="tabs"
            aria-label="Drawn as"
            selectionMode="single"
            disallowEmptySelection
            selectedKeys={[isTags ? 'tags' : 'drawing']}
            onSelectionChange={(keys) => screen.set({ view: keys.has('tags') ? 'tags' : null })}
          >
            <ToggleButton id="drawing">Drawing</ToggleButton>
            <ToggleButton id="tags">Tags</ToggleButton>
          </ToggleButtonGroup>
        )}
      </div>
      <div className="canvas">{isTags ? <FitsTags view={view} /> : <FitsPlate view={view} screen={screen} />}</div>
    </>
  );
}

const MOST_TAGS = 40;

function FitsTags({ view }: { readonly view: FitsView }) {
  const { job } = useOpenJob();
  const { rows, lit, selected, setLit, select } = view;
  const { tags, wires } = useMemo(() => {
    const order = [...rows].sort((a, b) => Number(b.harmful) - Number(a.harmful)).slice(0, MOST_TAGS);
    const drawn = fitsWires(order);
    return { tags: drawn.shown.map((id) => tagOf(job, id, rows)), wires: drawn.wires };
  }, [job, rows]);
  if (tags.length === 0) return <p className="plate quiet">Nothing fits here now.</p>;
  return <TagGraph tags={tags} wires={wires} lit={lit} selected={selected} onHover={setLit} onSelect={select} />;
}

function tagOf(job: JobView, id: string, rows: readonly FitsRow[]): TagText {
  if (id.startsWith('look:'))
    return { id, title: job.names.look(id.slice(5)), under: 'to be seen first', hand: undefined, state: 'gate' };
  const row = rows.find((r) => r.id === id);
  const number = job.names.partsOf(id)[0] ?? '';
  const under =
    row === undefined ? `${number} · must go in first` : row.harmful ? `${number} · not yet` : `${number} · fits now`;
  return { id, title: job.names.refit(id), under, hand: handOf(job.names, id), state: row?.harmful ? 'gate' : 'todo' };
}

function FitsPlate({ view, screen }: { readonly view: FitsView; readonly screen: Screen }) {
  const { job } = useOpenJob();
  const { rows, all, row, lit } = view;
  const place = view.place !== 'all' ? view.place : (row?.place ?? '02');
  const marks = useMemo(() => marksOf(job, all, row, all.find((r) => r.id === lit) ?? null), [job, all, row, lit]);
  const at = useCallback(
    (line: string | null) => rows.find((r) => job.names.partsOf(r.id).some((p) => lineOfPart(p) === line)),
    [rows, job],
  );
  const over = useCallback((line: string | null) => view.setLit(at(line)?.id ?? null), [at, view]);
  const choose = useCallback(
    (line: string) => {
      const hit = at(line);
      if (hit) view.select(hit.id);
    },
    [at, view],
  );
  return (
    <Plate
      job={job}
      screen={screen}
      assembly={place}
      marks={marks}
      named={row === null ? null : lineOfPart(job.names.partsOf(row.id)[0] ?? '')}
      quiet="dashed: still off · bold: chosen · red: would be locked out or hidden"
      onOver={over}
      onChoose={choose}
    />
  );
}

function marksOf(job: JobView, all: readonly FitsRow[], row: FitsRow | null, lit: FitsRow | null): DrawingMarks {
  const lines = (actions: readonly string[]) => new Set(actions.flatMap((a) => job.names.partsOf(a)).map(lineOfPart));
  const harmed =
    row === null
      ? []
      : [
          ...row.entry.roots.flatMap((r) => job.names.partsOf(r)),
          ...row.entry.hides.flatMap((l) => job.rig.looks.find((k) => k.id === l)?.on ?? []),
        ];
  return {
    on: lines(row === null ? [] : [row.id]),
    lit: lines(lit === null ? [] : [lit.id]),
    harm: new Set(harmed.map(lineOfPart)),
    wanted: lines(all.map((r) => r.id)),
    gone: new Set([...job.done.keys()].filter((a) => a.startsWith('remove:')).map((a) => lineOfPart(a.slice(7)))),
  };
}
