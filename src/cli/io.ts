/**
 * What a command may touch: the two streams and whether they are a terminal. Given in, so that tests run commands in
 * the same process and read what a person would have read.
 */
import pc from 'picocolors';
import type { Problem } from '../domain/problem.ts';

export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly isTerminal: boolean;
  readonly stdin: () => string;
}

/** Ends a command: the reader can mend it. */
export class Told extends Error {
  constructor(readonly problem: Problem) {
    super(problem.message);
  }
}

export function tell(problem: Problem): never {
  throw new Told(problem);
}

export function colours(io: Io): ReturnType<typeof pc.createColors> {
  return pc.createColors(io.isTerminal);
}

export function sayProblem(io: Io, problem: Problem, json: boolean): void {
  if (json) {
    io.err(`${JSON.stringify(problem)}\n`);
    return;
  }
  const c = colours(io);
  io.err(`${c.bold(problem.message)}${problem.where ? `  ${c.dim(`at ${problem.where}`)}` : ''}\n`);
  io.err(`${problem.remedy}\n${c.dim(problem.code)}\n`);
}

/** `1:12 h` from 72. */
export function hours(minutes: number): string {
  return minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')} h`;
}

/** Columns aligned by the longest cell; the last column runs free. */
export function columns(rows: readonly (readonly string[])[], rightAligned: readonly number[] = []): string {
  const widths: number[] = [];
  for (const row of rows) row.forEach((cell, i) => (widths[i] = Math.max(widths[i] ?? 0, cell.length)));
  return rows
    .map((row) =>
      row
        .map((cell, i) => {
          if (i === row.length - 1 && !rightAligned.includes(i)) return cell;
          return rightAligned.includes(i) ? cell.padStart(widths[i] ?? 0) : cell.padEnd(widths[i] ?? 0);
        })
        .join('  ')
        .trimEnd(),
    )
    .map((line) => `${line}\n`)
    .join('');
}
