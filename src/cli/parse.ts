/** Reading what stands on a command line: JSON, lists of ids, `id=state` pairs. One Problem each, with the option named. */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { problem } from '../domain/problem.ts';
import { CLI_PROBLEMS, type CliProblemCode } from './cli-problems.ts';
import { tell } from './io.ts';

export function cliProblem(code: CliProblemCode, message: string, where?: string) {
  return problem(code, message, CLI_PROBLEMS[code].remedy, where);
}

export function readText(path: string): string {
  if (!existsSync(path)) tell(cliProblem('NO_SUCH_FILE', `"${path}" is not there`));
  if (statSync(path).isDirectory()) tell(cliProblem('NO_SUCH_FILE', `"${path}" is a folder; a file is wanted`));
  return readFileSync(path, 'utf8');
}

export function parseJson(text: string, where: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch (e) {
    return tell(cliProblem('NOT_JSON', `${where} cannot be read: ${(e as Error).message}`, where));
  }
}

/** A list of ids: JSON (`["a","b"]`) or words with commas. */
export function parseIds(text: string | undefined, where: string): readonly string[] {
  if (text === undefined || text.trim() === '') return [];
  if (!text.trim().startsWith('[')) return text.split(',').map((x) => x.trim());
  const list = parseJson(text, where);
  if (!Array.isArray(list) || !list.every((x) => typeof x === 'string')) {
    tell(cliProblem('BAD_OPTION', `${where} wants a list of ids`, where));
  }
  return list as string[];
}

/** `support=jacks` pairs, as often as given. */
export function parsePairs(texts: readonly string[] | undefined, where: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    (texts ?? [])
      .flatMap((t) => t.split(','))
      .map((t): [string, string] => {
        const at = t.indexOf('=');
        if (at < 1) tell(cliProblem('BAD_OPTION', `"${t}" is no id=state pair`, where));
        return [t.slice(0, at).trim(), t.slice(at + 1).trim()];
      }),
  );
}

export function parseWhole(text: string | undefined, where: string): number | undefined {
  if (text === undefined) return undefined;
  const n = Number(text);
  if (!Number.isSafeInteger(n) || n < 0) tell(cliProblem('BAD_OPTION', `"${text}" is no whole number from 0`, where));
  return n;
}

export function parseNumber(text: string | undefined, where: string): number | undefined {
  if (text === undefined) return undefined;
  const n = Number(text);
  if (text.trim() === '' || !Number.isFinite(n)) tell(cliProblem('BAD_OPTION', `"${text}" is no number`, where));
  return n;
}
