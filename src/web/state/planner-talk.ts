/** What the page and its planner worker say to each other. Plain data only; the rig travels once per change. */
import type { Result } from '../../domain/result.ts';
import type { ActionId, Need, Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { FitsAnswer, OffAnswer, WhyNotAnswer } from '../../planning/answers.ts';
import type { Wire } from '../graph/graph-model.ts';

export type Ask =
  | { readonly kind: 'off'; readonly goal: Need; readonly marginPercent: number }
  | { readonly kind: 'why-not'; readonly action: ActionId }
  | { readonly kind: 'fits' }
  | { readonly kind: 'fits-one'; readonly action: ActionId };

export interface OffReply {
  readonly kind: 'off';
  readonly answer: OffAnswer;
  readonly wires: readonly Wire[];
  /** Done steps that belong to the picture: what the steps rest on, in recorded order. */
  readonly doneShown: readonly ActionId[];
}
export interface WhyNotReply {
  readonly kind: 'why-not';
  readonly answer: WhyNotAnswer;
}
export interface FitsReply {
  readonly kind: 'fits';
  readonly answer: FitsAnswer;
}
export type Reply = OffReply | WhyNotReply | FitsReply;

export interface ToPlanner {
  readonly id: number;
  readonly rigKey: string;
  /** Only when the worker does not have it yet. */
  readonly rig?: Rig;
  readonly situation: Situation;
  readonly ask: Ask;
}

/** Bounds while a plan is being looked for, in the rig's minutes. */
export interface Progress {
  readonly lower: number;
  readonly upper: number | null;
}

export type FromPlanner =
  | { readonly id: number; readonly progress: Progress }
  | { readonly id: number; readonly result: Result<Reply> };
