/**
 * From a plan to the rows of the list: done rows, steps in order, and a gate before the first step that clears it.
 *
 * A gate stands where its clearing begins (the press), not where the danger is (the nut): a mechanic reads from top to
 * bottom and must meet the question before the spanner. Hazards that the same steps clear share one gate. Nothing is
 * decided here; every word comes from the rig or the planner.
 */
import type { Hazard, Need, Rig } from '../../domain/rig/rig-types.ts';
import type { OffAnswer, PointLoad, Step } from '../../planning/answers.ts';
import { atoms, type Wire } from '../graph/graph-model.ts';
import type { DoneMark, JobView } from '../state/job-view.ts';
import { kilograms, listWords } from '../words/figures.ts';
import { lowerFirst, shortName } from '../words/names.ts';

/** The least loaded point of support after a step, where the step changed it. */
export interface Load {
  readonly words: string;
  readonly short: string;
}

export interface StepRow {
  readonly kind: 'step';
  readonly id: string;
  readonly n: number;
  readonly step: Step;
  readonly why: string;
  readonly load: Load | null;
  readonly cautions: readonly string[];
  /** Nothing that is still to do comes before it. */
  readonly open: boolean;
  readonly isNew: boolean;
}

export interface GateRow {
  readonly kind: 'gate';
  readonly id: string;
  readonly title: string;
  readonly why: string;
  readonly instead: string | null;
  /** The steps that need it. */
  readonly holds: readonly string[];
  readonly clearing: readonly string[];
  readonly facts: readonly string[];
  readonly passed: boolean;
}

export interface DoneRow {
  readonly kind: 'done';
  readonly id: string;
  readonly mark: DoneMark;
}

export interface TipRow {
  readonly kind: 'tips';
  readonly id: string;
  readonly text: string;
}

export type OffRow = StepRow | GateRow | DoneRow | TipRow;

const GATE_TITLE: Readonly<Record<string, string>> = {
  'stored-energy': 'Stored energy: hold it before it is let go',
  pressure: 'Under pressure: let it out first',
};

export interface RowsInput {
  readonly job: JobView;
  readonly answer: OffAnswer;
  readonly wires: readonly Wire[];
  readonly doneShown: readonly string[];
  /** Actions of the plan before the last change; null when nothing changed but what was done. */
  readonly before: ReadonlySet<string> | null;
}

export function offRows({ job, answer, wires, doneShown, before }: RowsInput): readonly OffRow[] {
  const left = new Set(answer.steps.map((s) => s.action));
  const gates = gatesOf(job, answer.steps);
  const rows: OffRow[] = doneShown.flatMap((action) => {
    const mark = job.done.get(action);
    return mark ? [{ kind: 'done' as const, id: action, mark }] : [];
  });
  let load = '';
  for (const [at, step] of answer.steps.entries()) {
    const carries = leastLoad(job.rig, step.loads);
    const isNews = carries !== null && carries.words !== load;
    load = carries?.words ?? load;
    rows.push(...gates.filter((g) => g.before === step.action).map((g) => g.row));
    if (answer.tipsAt?.step === step.action)
      rows.push({ kind: 'tips', id: `tips:${step.action}`, text: answer.tipsAt.text });
    rows.push({
      kind: 'step',
      id: step.action,
      n: at + 1,
      step,
      why: whyLine(job.rig, step),
      load: isNews ? carries : null,
      cautions: step.hazards.filter((h) => h.asksForWord).map((h) => h.text),
      open: !wires.some((w) => w.to === step.action && left.has(w.from)),
      isNew: before !== null && !before.has(step.action),
    });
  }
  return rows;
}

interface PlacedGate {
  readonly before: string;
  readonly row: GateRow;
}

function gatesOf(job: JobView, steps: readonly Step[]): readonly PlacedGate[] {
  const gates = new Map<string, PlacedGate>();
  for (const [at, step] of steps.entries()) {
    for (const hazard of hazardsOf(job.rig, step.action)) {
      if (hazard.clearedBy === undefined) continue;
      const wanted = new Set(atoms(hazard.clearedBy).flatMap(clearingAction));
      const clearing = steps
        .slice(0, at)
        .filter((s) => wanted.has(s.action))
        .map((s) => s.action);
      const passed = clearing.length === 0;
      const key = `${hazard.kind} ${clearing.join()} ${passed ? step.action : ''}`;
      const had = gates.get(key);
      const holds = [...(had?.row.holds ?? []), step.action];
      const row = gateRow(job, hazard, { id: had?.row.id ?? `gate:${step.action}`, clearing, holds, passed, steps });
      gates.set(key, { before: had?.before ?? clearing[0] ?? step.action, row });
    }
  }
  return [...gates.values()];
}

interface GateInput {
  readonly id: string;
  readonly clearing: readonly string[];
  readonly holds: readonly string[];
  readonly passed: boolean;
  readonly steps: readonly Step[];
}

function gateRow(job: JobView, hazard: Hazard, at: GateInput): GateRow {
  const name = (action: string) => shortName(job.names.strip(action));
  const clearedBy = hazard.clearedBy ?? { all: [] };
  const unsettled = factsIn(clearedBy).filter((f) => !isSettled(job, f));
  const held = lowerFirst(name(at.holds[0] ?? ''));
  const rest = at.holds.length > 1 ? ` and ${at.holds.length - 1} more` : '';
  const done = [...atoms(clearedBy).flatMap(clearingAction)]
    .filter((a) => job.done.has(a))
    .map((a) => lowerFirst(job.names.strip(a)));
  const note = hazard.note === undefined ? '' : sentence(hazard.note);
  const unknown =
    unsettled.length > 0 && !at.passed
      ? `Nobody has settled: ${listWords(unsettled.map((f) => lowerFirst(job.names.fact(f))))}. `
      : '';
  const first = at.passed
    ? done.length > 0
      ? `Done: ${listWords(done)}.`
      : 'What clears it is there.'
    : `So first ${listWords(at.clearing.map((a) => lowerFirst(name(a))))}, before you ${held}${rest}.`;
  return {
    kind: 'gate',
    id: at.id,
    title: GATE_TITLE[hazard.kind] ?? `${hazard.kind}: clear it first`,
    why: `${note} ${unknown}${first}`.trim(),
    instead:
      unsettled.length > 0 && !at.passed
        ? `or settle it: ${listWords(unsettled.map((f) => lowerFirst(job.names.fact(f))))}`
        : null,
    holds: at.holds,
    clearing: at.clearing,
    facts: unsettled,
    passed: at.passed,
  };
}

export function hazardsOf(rig: Rig, action: string): readonly Hazard[] {
  return (
    rig.attachments.find((a) => a.id === action)?.hazards ?? rig.operations.find((o) => o.id === action)?.hazards ?? []
  );
}

function clearingAction(need: Need): readonly string[] {
  if ('done' in need) return [need.done];
  if ('released' in need) return [need.released];
  if ('apart' in need) return [`remove:${need.apart}`];
  if ('off' in need) return [`remove:${need.off}`];
  return [];
}

function factsIn(need: Need): readonly string[] {
  return atoms(need).flatMap((n) => ('fact' in n ? [n.fact] : []));
}

function isSettled(job: JobView, fact: string): boolean {
  return (job.situation.facts ?? []).includes(fact) || job.rig.facts.some((f) => f.id === fact && f.given === true);
}

/** One grey line: what was found there, else the planner's first reason; the others are one key away (why not). */
function whyLine(rig: Rig, step: Step): string {
  const found = foundNote(rig, step.action);
  return found ?? step.why[0] ?? '';
}

function foundNote(rig: Rig, action: string): string | null {
  const joint = rig.attachments.find((a) => a.id === action);
  const note = joint?.asFound?.note;
  if (typeof note === 'string') return `found: ${note}`;
  const own =
    joint?.note ??
    rig.operations.find((o) => o.id === action)?.note ??
    rig.parts.find((p) => `remove:${p.id}` === action)?.note;
  return own ?? null;
}

function leastLoad(rig: Rig, loads: readonly PointLoad[]): Load | null {
  const least = [...loads].sort((a, b) => a.kg - a.plusMinus - (b.kg - b.plusMinus))[0];
  if (least === undefined) return null;
  const kg = kilograms(least.kg, least.plusMinus);
  return { words: `after this, ${pointName(rig, least.point)} carries ${kg}`, short: kg };
}

export function pointName(rig: Rig, point: string): string {
  for (const setup of rig.setups) {
    for (const points of Object.values(setup.points ?? {})) {
      const hit = points.find((p) => p.id === point || p.on === point);
      if (hit) return hit.name ?? rig.parts.find((p) => p.id === hit.on)?.name ?? point;
    }
  }
  return point;
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
