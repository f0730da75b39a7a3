/**
 * One question of the page answered: the planner's own words, and for a plan the wires of its drawing. Pure, so that
 * the worker is only a letterbox.
 */
import { ask as askPlanner, type Question, type Watching } from '../../app/ask.ts';
import { ok, type Result } from '../../domain/result.ts';
import type { ActionId, Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { OffAnswer } from '../../planning/answers.ts';
import { restingOn, wiresBetween } from '../graph/graph-model.ts';
import type { Ask, OffReply, Progress, Reply } from './planner-talk.ts';

/** Other ways shown beside the least one. */
const NEXT_WAYS = 2;
/** Done steps drawn with a plan; older ones would only push the steps away. */
const MOST_DONE = 6;

export function answerAsk(rig: Rig, situation: Situation, ask: Ask, tell: (p: Progress) => void): Result<Reply> {
  const watching: Watching = {
    onProgress: (p) => tell({ lower: p.lower, upper: p.upper }),
    ...(ask.kind === 'off' && { marginPercent: ask.marginPercent }),
  };
  const answered = askPlanner(rig, situation, questionOf(ask), watching);
  if (!answered.ok) return answered;
  switch (answered.value.kind) {
    case 'off':
      return ok(drawn(rig, situation, answered.value.answer));
    case 'why-not':
      return ok({ kind: 'why-not', answer: answered.value.answer });
    case 'fits':
      return ok({ kind: 'fits', answer: answered.value.answer });
    default:
      throw new Error(`internal: the page never asks for ${answered.value.kind}; report it`);
  }
}

function questionOf(ask: Ask): Question {
  switch (ask.kind) {
    case 'off':
      return { kind: 'off', goal: ask.goal, nextWays: NEXT_WAYS };
    case 'why-not':
      return { kind: 'why-not', action: ask.action };
    case 'fits':
      return { kind: 'fits' };
    case 'fits-one':
      return { kind: 'fits', action: ask.action };
    default:
      return ask satisfies never;
  }
}

function drawn(rig: Rig, situation: Situation, answer: OffAnswer): OffReply {
  const steps = answer.steps.map((s) => s.action);
  const doneShown = lastOnes(restingOn(rig, steps, situation.done));
  return { kind: 'off', answer, doneShown, wires: wiresBetween(rig, [...doneShown, ...steps]) };
}

function lastOnes(done: readonly ActionId[]): readonly ActionId[] {
  return done.slice(-MOST_DONE);
}
