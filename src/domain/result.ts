/**
 * A value or a Problem. Every function of the core that can meet bad input returns one of these two; `throw` is kept
 * for our own mistakes. Not chosen: exceptions, which a caller can forget.
 */
import type { Problem } from './problem.ts';

export type Result<T, P = Problem> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: P };

export function ok<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

export function failed<P>(problem: P): { readonly ok: false; readonly problem: P } {
  return { ok: false, problem };
}

/** For places where a Problem can only be our own mistake (tests, embedded data). */
export function must<T>(result: Result<T>): T {
  if (result.ok) return result.value;
  const p = result.problem;
  throw new Error(`internal: ${p.code} ${p.message}${p.where ? ` (${p.where})` : ''}; report it`);
}
