/** Right half of Getting it off: the tags, or the job's drawing sheets with the plan lit on them. */
import { useCallback, useMemo } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { sheetsOfJob } from '../drawing/catalogue.ts';
import { ContactSheet } from '../drawing/contact-sheet.tsx';
import type { DrawingMarks } from '../drawing/drawing-view.tsx';
import { Plate } from '../drawing/plate.tsx';
import { TagGraph, type TagText } from '../graph/tag-graph.tsx';
import type { JobView } from '../state/job-view.ts';
import { assemblyOfPart } from '../state/place-of.ts';
import { useOpenJob } from '../state/use-job.tsx';
import type { Screen } from '../state/use-screen.ts';
import { hourOf } from '../words/figures.ts';
import { firstName, handOf, lineOfPart, lowerFirst, shortName } from '../words/names.ts';
import type { GateRow, OffRow } from './off-rows.ts';
import type { OffView } from './off-screen.tsx';

export function OffDrawing({ view, screen }: { readonly view: OffView; readonly screen: Screen }) {
  const { job } = useOpenJob();
  const hasPlan = view.goalPart !== null && view.rows.length > 0;
  const isDrawing = screen.get('view') === 'drawing' || (!hasPlan && !view.plan.working);
  const hasSheets = sheetsOfJob(job.invented).length > 0;
  return (
    <>
      <div className="over">
        <div>
          <h2 className="eyebrow">
            {isDrawing
              ? hasPlan
                ? 'Where it sits'
                : hasSheets
                  ? 'Or tap it on a drawing'
                  : 'No drawing yet'
              : 'What holds it, from the outside in'}
          </h2>
          {!isDrawing && <p>solid: must come first · dash-dot: in the way, with its harm · struck through: done</p>}
        </div>
        {hasPlan && hasSheets && (
          <ToggleButtonGroup
            className="tabs"
            aria-label="Drawn as"
            selectionMode="single"
            disallowEmptySelection
            selectedKeys={[isDrawing ? 'drawing' : 'tags']}
            onSelectionChange={(keys) => screen.set({ view: keys.has('drawing') ? 'drawing' : null })}
          >
            <ToggleButton id="tags">Tags</ToggleButton>
            <ToggleButton id="drawing">Drawing</ToggleButton>
          </ToggleButtonGroup>
        )}
      </div>
      <div className="canvas">
        {view.goalPart === null ? (
          <ContactSheet job={job} onChoose={(part) => view.choose(part)} />
        ) : isDrawing ? (
          <OffPlate view={view} screen={screen} />
        ) : (
          <OffTags view={view} />
        )}
      </div>
    </>
  );
}

function OffTags({ view }: { readonly view: OffView }) {
  const { job } = useOpenJob();
  const { rows, plan, lit, selected, setLit, select } = view;
  const tags = useMemo(() => tagsOf(job, rows), [job, rows]);
  const wires = plan.reply?.wires ?? [];
  const gateOf = (id: string | null) => {
    const row = rows.find((r) => r.id === id);
    return row?.kind === 'gate' ? (row.clearing[0] ?? row.holds[0] ?? null) : id;
  };
  return (
    <TagGraph
      tags={tags}
      wires={wires}
      lit={gateOf(lit)}
      selected={gateOf(selected)}
      onHover={setLit}
      onSelect={select}
    />
  );
}

export function tagsOf(job: JobView, rows: readonly OffRow[]): readonly TagText[] {
  const gates = rows.filter((r): r is GateRow => r.kind === 'gate' && !r.passed);
  const steps = rows.filter((r) => r.kind === 'step' || r.kind === 'done');
  return steps.map((row, at): TagText => {
    const hand = handOf(job.names, row.id);
    const isGoal = at === steps.length - 1;
    if (row.kind === 'done')
      return {
        id: row.id,
        title: tagTitle(job, row.id),
        under: `done ${hourOf(row.mark.at)} · ${firstName(row.mark.by)}`,
        hand,
        state: 'done',
      };
    const gate = gates.find((g) => g.clearing.includes(row.id));
    const number = job.names.partsOf(row.id)[0];
    const minutes = row.kind === 'step' ? `${row.step.minutes} min` : '';
    const under = isGoal
      ? `${number ?? ''} · what you want off`
      : [number, minutes].filter((w) => w !== undefined && w !== '').join(' · ');
    const title = gate ? `Gate: ${lowerFirst(tagTitle(job, row.id))}` : tagTitle(job, row.id);
    const state = gate ? 'gate' : isGoal ? 'goal' : 'todo';
    return { id: row.id, title, under, hand, state, ...(gate?.instead ? { aside: gate.instead } : {}) };
  });
}

/** A tag says what it hangs on; the list says what to do. */
function tagTitle(job: JobView, action: string): string {
  if (action.startsWith('remove:')) return job.names.part(action.slice(7));
  return shortName(job.names.strip(action));
}

function OffPlate({ view, screen }: { readonly view: OffView; readonly screen: Screen }) {
  const { job } = useOpenJob();
  const { rows, lit, selected, goalPart } = view;
  const focus = selected === null ? [] : job.names.partsOf(actionAt(rows, selected));
  const marks = useMemo(
    (): DrawingMarks => marksOf(job, rows, lit, selected, goalPart),
    [job, rows, lit, selected, goalPart],
  );
  const rowAt = useCallback(
    (line: string | null) =>
      line === null
        ? undefined
        : rows.find((r) => job.names.partsOf(actionAt(rows, r.id)).some((p) => lineOfPart(p) === line)),
    [rows, job],
  );
  const choose = useCallback(
    (line: string) => {
      const row = rowAt(line);
      if (row) view.select(row.id);
      else {
        const part = job.find.find((f) => lineOfPart(f.id) === line);
        if (part) view.choose(part.id);
      }
    },
    [rowAt, job, view],
  );
  const over = useCallback((line: string | null) => view.setLit(rowAt(line)?.id ?? null), [rowAt, view]);
  const assembly = goalPart === null ? null : (assemblyOfPart(job, goalPart) ?? assemblyOfPart(job, focus[0] ?? ''));
  return (
    <Plate
      job={job}
      screen={screen}
      assembly={assembly}
      marks={marks}
      named={focus[0] === undefined ? null : lineOfPart(focus[0])}
      quiet="as designed, not as found · red: what the gate holds"
      onOver={over}
      onChoose={choose}
    />
  );
}

function actionAt(rows: readonly OffRow[], id: string): string {
  const row = rows.find((r) => r.id === id);
  return row?.kind === 'gate' ? (row.clearing[0] ?? row.holds[0] ?? id) : id;
}

function marksOf(
  job: JobView,
  rows: readonly OffRow[],
  lit: string | null,
  selected: string | null,
  goal: string | null,
): DrawingMarks {
  const lines = (ids: readonly string[]) =>
    new Set(ids.flatMap((id) => job.names.partsOf(actionAt(rows, id))).map(lineOfPart));
  const harm = rows.flatMap((r) => (r.kind === 'gate' && !r.passed ? r.holds : []));
  const gone = [...job.done.keys()].filter((a) => a.startsWith('remove:')).map((a) => lineOfPart(a.slice(7)));
  return {
    on: lines(selected === null ? [] : [selected]),
    lit: lines(lit === null ? [] : [lit]),
    harm: lines(harm),
    wanted: new Set([...lines(rows.map((r) => r.id)), ...(goal === null ? [] : [lineOfPart(goal)])]),
    gone: new Set(gone),
  };
}

/** Fewer parts than this are a part with its fittings, not a unit to start from. */
const UNIT_HOLDS = 4;

/** Before anything is wanted: assemblies to start from, with how much of each is off. */
export function NothingWanted({ view }: { readonly view: OffView }) {
  const { job } = useOpenJob();
  const inside = (id: string) =>
    job.rig.parts.filter((p) => p.within === id || job.names.find(p.within ?? '')?.within === id);
  const shown = job.rig.parts.filter((p) => p.within === undefined && inside(p.id).length >= UNIT_HOLDS);
  if (job.find.length === 0) {
    return (
      <p className="nothing-yet">
        Nobody has recorded yet what holds what in this job. It grows while taking apart; a rig file of the type can be
        taken in when a job is made (witnessmark new --rig FILE).
      </p>
    );
  }
  return (
    <div className="rows">
      <div className="place">
        <span>Or a whole unit</span>
        <span>how much of it is off</span>
      </div>
      <div className="asm">
        {shown.map((u) => {
          const own = inside(u.id);
          const off = own.filter((p) => job.done.has(`remove:${p.id}`)).length;
          return (
            <button type="button" className="fold" key={u.id} onClick={() => view.choose(u.id, 'off')}>
              <span>{u.name ?? u.id}</span>
              <span className="num">{job.done.has(`remove:${u.id}`) ? 'off' : `${off} of ${own.length}`}</span>
            </button>
          );
        })}
      </div>
    </div>
  );
}
