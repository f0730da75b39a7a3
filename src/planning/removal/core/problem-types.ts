/**
 * The words of the exact solver: a problem, its answer, and the proof that travels with the answer.
 *
 * A problem is "cheapest executable set of actions": each action has clauses (AND), each clause is an OR-list of actions
 * of which one must have been done before. Doing more never closes a door. In the literature this is optimal delete-free
 * planning; planning code calls it the removal question. Costs are integers, so a bound above `cost - 1` proves `cost`.
 *
 * The proof is written for a reader who trusts nothing: it holds cuts ("without one of these, that can never be done"),
 * each with the set of actions that block each other in a circle or upwards, and integer prices on the cuts. Prices give
 * a bound by plain arithmetic (Lagrange), so the reader needs no linear programming and no floating point.
 */
export interface CoreProblem {
  /** per action, a finite integer >= 0; all of them together at most 2^50 */
  readonly cost: ArrayLike<number>;
  /** clauses[a] = AND of OR-lists of actions that must have been done before a; an empty OR-list = a can never be done */
  readonly clauses: readonly (readonly (readonly number[])[])[];
  /** all of these, and one of each target clause */
  readonly targets: readonly number[];
  readonly targetClauses?: readonly (readonly number[])[];
  readonly banned?: readonly number[];
  /** already done, free, no conditions */
  readonly done?: readonly number[];
}

export interface CoreProgress {
  /** proved for the whole problem so far */
  readonly lower: number;
  /** null until every part has a plan */
  readonly upper: number | null;
  readonly nodes: number;
}

export interface CoreOptions {
  /** most linear programs to look at in the branching part; the bound stays honest when it runs out */
  readonly nodeBudget?: number;
  readonly onProgress?: (p: CoreProgress) => void;
  readonly shouldStop?: () => boolean;
}

export type CoreAnswer =
  | {
      readonly kind: 'optimal';
      readonly cost: number;
      readonly lowerBound: number;
      /** in an executable order, without what was already done */
      readonly set: readonly number[];
      readonly certificate: Certificate;
    }
  | {
      readonly kind: 'gap';
      readonly cost: number | null;
      readonly lowerBound: number;
      readonly set: readonly number[] | null;
      readonly certificate: Certificate;
    }
  | { readonly kind: 'impossible'; readonly unreachable: readonly number[] };

/** The owner of cuts that speak of the goal itself (all targets, one of each target clause). */
export const GOAL = -1;

/**
 * "`of` can never be done without one of `any`." Why: every action w in {of} + within has a clause whose alternatives
 * all lie in {of} + within + any (or are banned), so the first of them to be done would need one of `any` before it.
 */
export interface Cut {
  readonly of: number;
  readonly any: readonly number[];
  readonly within: readonly number[];
}

/** Prices price[k] / scale on cuts[cut[k]]; whole numbers, never negative. */
export interface Prices {
  readonly scale: number;
  readonly cut: readonly number[];
  readonly price: readonly number[];
}

/**
 * A proof that a bound holds. Rounds come first: each either proves the bound, or rules actions in or out (every
 * solution cheaper than the bound has or lacks them). Then at most one of: a split in parts whose bounds add up, or a
 * branch on one action.
 */
export interface ProofNode {
  readonly rounds: readonly Prices[];
  readonly split?: readonly ProofPart[];
  readonly branch?: { readonly on: number; readonly without: ProofNode; readonly with: ProofNode };
}

/** "The chosen ones of `actions` cost at least `bound` in every solution." Parts of one split share no action. */
export interface ProofPart {
  readonly actions: readonly number[];
  readonly bound: number;
  readonly proof: ProofNode;
}

export interface Certificate {
  readonly cuts: readonly Cut[];
  readonly proof: ProofNode;
}
