/** Right half of Getting it off: the tags, or the job's drawing sheets with the plan lit on them. */
import { useCallback, useMemo, useState } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { sheetFor, sheetsOfJob } from '../drawing/catalogue.ts';
import { type DrawingMarks, DrawingView } from '../drawing/drawing-view.tsx';
import { TagGraph, type TagText } from '../graph/tag-graph.tsx';
import type { JobView } from '../state/job-view.ts';
import { useOpenJob } from '../state/use-job.tsx';
import type { Screen } from '../state/use-screen.ts';
import { hourOf } from '../words/figures.ts';
import { assemblyOf, handOf, lineOfPart, lowerFirst, upperFirst } from '../words/names.ts';
import type { GateRow, OffRow } from './off-rows.ts';
import type { OffView } from './off-screen.tsx';

export function OffDrawing({ view, screen }: { readonly view: OffView; readonly screen: Screen }) {
  const { job } = useOpenJob();
  const hasPlan = view.goalPart !== null && view.rows.length > 0;
  const isDrawing = !hasPlan || screen.get('view') === 'drawing';
  const sheets = sheetsOfJob(job.invented);
  return (
    <>
      <div className="over">
        <div>
          <h2 className="eyebrow">{isDrawing ? (hasPlan ? 'Where it sits' : 'Tap what you want off') : 'What holds it, from the outside in'}</h2>
          {!isDrawing && <p>solid: must come first · dash-dot: in the way, with its harm · struck through: done</p>}
        </div>
        {hasPlan && sheets.length > 0 && (
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
        {isDrawing ? <OffPlate view={view} screen={screen} /> : <OffTags view={view} />}
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
  return <TagGraph tags={tags} wires={wires} lit={gateOf(lit)} selected={gateOf(selected)} onHover={setLit} onSelect={select} />;
}

export function tagsOf(job: JobView, rows: readonly OffRow[]): readonly TagText[] {
  const gates = rows.filter((r): r is GateRow => r.kind === 'gate' && !r.passed);
  const steps = rows.filter((r) => r.kind === 'step' || r.kind === 'done');
  return steps.map((row, at): TagText => {
    const hand = handOf(job.names, row.id);
    const isGoal = at === steps.length - 1;
    if (row.kind === 'done') return { id: row.id, title: tagTitle(job, row.id), under: `done ${hourOf(row.mark.at)} · ${row.mark.by}`, hand, state: 'done' };
    const gate = gates.find((g) => g.clearing.includes(row.id));
    const number = job.names.partsOf(row.id)[0];
    const minutes = row.kind === 'step' ? `${row.step.minutes} min` : '';
    const under = isGoal ? `${number ?? ''} · what you want off` : [number, minutes].filter((w) => w !== undefined && w !== '').join(' · ');
    const title = gate ? `Gate: ${lowerFirst(tagTitle(job, row.id))}` : tagTitle(job, row.id);
    const state = gate ? 'gate' : isGoal ? 'goal' : 'todo';
    return { id: row.id, title, under, hand, state, ...(gate?.instead ? { aside: gate.instead } : {}) };
  });
}

/** A tag says what it hangs on; the list says what to do. */
function tagTitle(job: JobView, action: string): string {
  if (action.startsWith('remove:')) return job.names.part(action.slice(7));
  const name = job.names.strip(action);
  return name.split(/, (?!\d)/)[0] ?? name;
}

function OffPlate({ view, screen }: { readonly view: OffView; readonly screen: Screen }) {
  const { job } = useOpenJob();
  const sheets = sheetsOfJob(job.invented);
  const { rows, lit, selected, goalPart } = view;
  const focus = selected === null ? [] : job.names.partsOf(actionAt(rows, selected));
  const assembly = goalPart === null ? null : (assemblyOf(goalPart) ?? assemblyOf(focus[0] ?? ''));
  const sheet = sheets.find((s) => s.id === screen.get('sheet')) ?? sheetFor(sheets, assembly);
  const [hover, setHover] = useState<string | null>(null);
  const marks = useMemo((): DrawingMarks => marksOf(job, rows, lit, selected, goalPart), [job, rows, lit, selected, goalPart]);

  const choose = useCallback(
    (line: string) => {
      if (goalPart === null) {
        const part = job.find.find((f) => lineOfPart(f.id) === line);
        if (part) view.choose(part.id);
        return;
      }
      const row = rows.find((r) => job.names.partsOf(actionAt(rows, r.id)).some((p) => lineOfPart(p) === line));
      if (row) view.select(row.id);
    },
    [goalPart, rows, job, view],
  );
  const over = useCallback(
    (line: string | null) => {
      setHover(line);
      const row = line === null ? undefined : rows.find((r) => job.names.partsOf(actionAt(rows, r.id)).some((p) => lineOfPart(p) === line));
      view.setLit(row?.id ?? null);
    },
    [rows, job, view],
  );
  if (sheet === undefined) return <p className="plate quiet">This job has no drawing yet. The tags say what holds what.</p>;
  const named = hover ?? (focus[0] === undefined ? null : lineOfPart(focus[0]));
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
        {sheets.map((s) => <ToggleButton key={s.id} id={s.id}>{s.name}</ToggleButton>)}
      </ToggleButtonGroup>
      <div className="art">
        <DrawingView url={sheet.url} label={`Drawing: ${sheet.name}. Invented example. The list says the same in words.`} marks={marks} onHover={over} onChoose={choose} />
      </div>
      <p className="caption">{named === null ? 'Units as designed, not as found.' : <PartCaption line={named} />}</p>
    </div>
  );
}

function PartCaption({ line }: { readonly line: string }) {
  const { job } = useOpenJob();
  const item = job.find.find((f) => lineOfPart(f.id) === line);
  if (item === undefined) return <>{line}: not in this job’s list of what holds what.</>;
  return <><b>{upperFirst(item.name)}</b> · {line}{item.bag === null ? '' : ` · ${item.bag}`}{job.done.has(`remove:${item.id}`) ? ' · off' : ''}</>;
}

function actionAt(rows: readonly OffRow[], id: string): string {
  const row = rows.find((r) => r.id === id);
  return row?.kind === 'gate' ? (row.clearing[0] ?? row.holds[0] ?? id) : id;
}

function marksOf(job: JobView, rows: readonly OffRow[], lit: string | null, selected: string | null, goal: string | null): DrawingMarks {
  const lines = (ids: readonly string[]) => new Set(ids.flatMap((id) => job.names.partsOf(actionAt(rows, id))).map(lineOfPart));
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

/** Before anything is wanted: assemblies to start from, with how much of each is off. */
export function NothingWanted({ view }: { readonly view: OffView }) {
  const { job } = useOpenJob();
  const units = job.rig.parts.filter((p) => job.rig.parts.some((q) => q.within === p.id));
  const shown = units.filter((u) => u.within === undefined);
  return (
    <div className="rows">
      <div className="place"><span>Or a whole unit</span><span>how much of it is off</span></div>
      <div className="asm">
        {shown.map((u) => {
          const inside = job.rig.parts.filter((p) => p.within === u.id || job.names.find(p.within ?? '')?.within === u.id);
          const off = inside.filter((p) => job.done.has(`remove:${p.id}`)).length;
          return (
            <button type="button" className="fold" key={u.id} onClick={() => view.choose(u.id, 'off')}>
              <span>{u.name ?? u.id}</span>
              <span className="num">{job.done.has(`remove:${u.id}`) ? 'off' : `${off}/${inside.length}`}</span>
            </button>
          );
        })}
      </div>
    </div>
  );
}
