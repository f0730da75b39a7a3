/**
 * One door to the planner for server, command line and any program that speaks HTTP: a question as plain data, its
 * answer in the contract's shape. Reads and checks what comes from outside; the planner itself trusts its rig.
 */
import type { Problem } from '../domain/problem.ts';
import { problem } from '../domain/problem.ts';
import { failed, ok, type Result } from '../domain/result.ts';
import { checkSituation, readAction, readGoal } from '../domain/rig/rig-check.ts';
import type { ActionId, Need, Rig, Situation } from '../domain/rig/rig-types.ts';
import type { FitsAnswer, OffAnswer, TipsAnswer, WhyNotAnswer } from '../planning/answers.ts';
import { planFits } from '../planning/refit/plan-fits.ts';
import { planOff } from '../planning/removal/plan-off.ts';
import { whyNot } from '../planning/removal/why-not.ts';
import { planTips } from '../planning/support/plan-tips.ts';

export type Question =
  | { readonly kind: 'off'; readonly goal: unknown; readonly nodeBudget?: number; readonly nextWays?: number }
  | { readonly kind: 'why-not'; readonly action: string; readonly nodeBudget?: number; readonly nextWays?: number }
  | { readonly kind: 'fits'; readonly action?: string }
  | { readonly kind: 'tips'; readonly goal?: unknown; readonly along?: readonly string[] };

export type Answer =
  | ({ readonly kind: 'off' } & { readonly answer: OffAnswer })
  | ({ readonly kind: 'why-not' } & { readonly answer: WhyNotAnswer })
  | ({ readonly kind: 'fits' } & { readonly answer: FitsAnswer })
  | ({ readonly kind: 'tips' } & { readonly answer: TipsAnswer });

export interface Watching {
  readonly marginPercent?: number;
  readonly onProgress?: (p: { readonly lower: number; readonly upper: number | null; readonly nodes: number }) => void;
  readonly shouldStop?: () => boolean;
}

/** `rig` has been read by `readRig` or made by the journal. */
export function ask(rig: Rig, situation: Situation, question: Question, watching: Watching = {}): Result<Answer> {
  const checked = checkSituation(rig, situation);
  if (!checked.ok) return checked;
  switch (question.kind) {
    case 'off':
      return withGoal(rig, question.goal, (goal) => {
        const { kind: _kind, goal: _goal, ...limits } = question;
        return as('off', planOff(rig, situation, goal, { ...limits, ...watching }));
      });
    case 'why-not':
      return withAction(rig, question.action, (action) => {
        const { kind: _kind, action: _action, ...limits } = question;
        return as('why-not', whyNot(rig, situation, action, { ...limits, ...watching }));
      });
    case 'fits': {
      if (question.action === undefined) return as('fits', planFits(rig, situation));
      return withAction(rig, question.action, (action) => as('fits', planFits(rig, situation, { action })));
    }
    case 'tips':
      return askTips(rig, situation, question, watching);
    default:
      return question satisfies never;
  }
}

function as<K extends Answer['kind']>(kind: K, answer: Result<Extract<Answer, { kind: K }>['answer']>): Result<Answer> {
  return answer.ok ? ok({ kind, answer: answer.value } as Answer) : answer;
}

function withGoal(rig: Rig, goal: unknown, then: (goal: Need) => Result<Answer>): Result<Answer> {
  const read = readGoal(rig, goal);
  return read.ok ? then(read.value) : read;
}

function withAction(rig: Rig, action: string, then: (action: ActionId) => Result<Answer>): Result<Answer> {
  const read = readAction(rig, action);
  return read.ok ? then(read.value) : read;
}

function askTips(
  rig: Rig,
  situation: Situation,
  question: Extract<Question, { kind: 'tips' }>,
  watching: Watching,
): Result<Answer> {
  const margin = watching.marginPercent === undefined ? {} : { marginPercent: watching.marginPercent };
  if (question.goal === undefined) {
    for (const action of question.along ?? []) {
      const read = readAction(rig, action, 'along');
      if (!read.ok) return read;
    }
    return as('tips', planTips(rig, situation, { ...margin, ...(question.along && { along: question.along }) }));
  }
  return withGoal(rig, question.goal, (goal) => {
    const way = planOff(rig, situation, goal, { nextWays: 0, ...watching });
    if (!way.ok) return way;
    return as('tips', planTips(rig, situation, { ...margin, along: way.value.steps.map((s) => s.action) }));
  });
}

const KINDS = ['off', 'why-not', 'fits', 'tips'] as const;

/** A question from an address: `goal` is JSON text. */
export function readQuestion(kind: string, from: Readonly<Record<string, unknown>>): Result<Question> {
  const text = (key: string): string | undefined =>
    typeof from[key] === 'string' && from[key] !== '' ? from[key] : undefined;
  if (!(KINDS as readonly string[]).includes(kind)) return failed(askProblem(`"${kind}" is no question`, 'kind'));
  const goal = text('goal');
  const parsed = goal === undefined ? ok(undefined) : parse(goal);
  if (!parsed.ok) return parsed;
  const action = text('action');
  if (kind === 'off')
    return goal === undefined ? failed(askProblem('the goal is missing', 'goal')) : ok({ kind, goal: parsed.value });
  if (kind === 'why-not')
    return action === undefined ? failed(askProblem('the action is missing', 'action')) : ok({ kind, action });
  if (kind === 'fits') return ok({ kind, ...(action !== undefined && { action }) });
  return ok({ kind: 'tips', ...(goal !== undefined && { goal: parsed.value }) });
}

function parse(goal: string): Result<unknown> {
  try {
    return ok(JSON.parse(goal) as unknown);
  } catch {
    return failed(askProblem('the goal is not JSON', 'goal'));
  }
}

function askProblem(message: string, where: string): Problem {
  return problem('QUESTION_UNREADABLE', message, 'Ask off with a goal, why-not with an action, fits, or tips.', where);
}
