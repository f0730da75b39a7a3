/**
 * Reading unknown JSON field by field, with the place of what is wrong. A handful of readers that compose; the first
 * Problem ends the reading. Not chosen: a schema library here, since a rig wants one sentence with its place for every
 * fault, unknown keys refused, and the same code in the browser without its weight.
 */
import { type Problem, problem } from './problem.ts';

/** Thrown inside a reading and caught by `reading`; never leaves this file's callers. */
class Unreadable extends Error {
  constructor(readonly problem: Problem) {
    super(problem.message);
  }
}

export interface ReadCodes {
  readonly shape: string;
  readonly unknownKey: string;
}

export type Reader<T> = (value: unknown, where: string) => T;

export class JsonReader {
  constructor(
    private readonly codes: ReadCodes,
    private readonly remedy: string,
  ) {}

  fail(message: string, where: string, code = this.codes.shape, remedy = this.remedy): never {
    throw new Unreadable(problem(code, message, remedy, where));
  }

  /** Runs a reading; a fault inside becomes its Problem. */
  reading<T>(run: () => T): { ok: true; value: T } | { ok: false; problem: Problem } {
    try {
      return { ok: true, value: run() };
    } catch (e) {
      if (e instanceof Unreadable) return { ok: false, problem: e.problem };
      throw e;
    }
  }

  readonly text: Reader<string> = (v, where) =>
    typeof v === 'string' ? v : this.fail(`${say(v)} stands where a text is wanted`, where);

  readonly flag: Reader<boolean> = (v, where) =>
    typeof v === 'boolean' ? v : this.fail(`${say(v)} stands where true or false is wanted`, where);

  readonly number: Reader<number> = (v, where) =>
    typeof v === 'number' && Number.isFinite(v)
      ? v
      : this.fail(`${say(v)} stands where a finite number is wanted`, where);

  readonly wholeMinutes: Reader<number> = (v, where) =>
    Number.isSafeInteger(v) && (v as number) >= 0
      ? (v as number)
      : this.fail(`${say(v)} minutes: whole, finite and not negative is wanted`, where);

  oneOf<T extends string>(words: readonly T[]): Reader<T> {
    return (v, where) =>
      words.includes(v as T) ? (v as T) : this.fail(`${say(v)} is none of ${words.join(', ')}`, where);
  }

  list<T>(read: Reader<T>): Reader<readonly T[]> {
    return (v, where) =>
      Array.isArray(v)
        ? Array.from(v, (x, i) => read(x, `${where}[${i}]`))
        : this.fail(`${say(v)} stands where a list is wanted`, where);
  }

  /** An object used as a table: any key, every value read the same way. */
  table<T>(read: Reader<T>, checkKey?: (key: string, where: string) => void): Reader<Readonly<Record<string, T>>> {
    return (v, where) => {
      const entries = Object.entries(this.plain(v, where)).map(([key, value]): [string, T] => {
        checkKey?.(key, `${where}.${key}`);
        return [key, read(value, `${where}.${key}`)];
      });
      return Object.fromEntries(entries);
    };
  }

  plain(v: unknown, where: string): Record<string, unknown> {
    if (typeof v !== 'object' || v === null || Array.isArray(v))
      this.fail(`${say(v)} stands where an object is wanted`, where);
    return v as Record<string, unknown>;
  }

  /** An object with known keys only; `required` must be there. */
  object<T>(
    fields: { readonly [K in keyof T]-?: Reader<NonNullable<T[K]>> },
    required: readonly (keyof T & string)[],
  ): Reader<T> {
    return (v, where) => {
      const from = this.plain(v, where);
      const out: Record<string, unknown> = {};
      for (const key of Object.keys(from)) {
        if (!Object.hasOwn(fields, key))
          this.fail(`the field "${cut(key)}" is not known here`, join(where, key), this.codes.unknownKey);
        out[key] = fields[key as keyof T](from[key], join(where, key));
      }
      for (const key of required)
        if (!Object.hasOwn(from, key)) this.fail(`the field "${key}" is missing`, join(where, key));
      return out as T;
    };
  }
}

function join(where: string, key: string): string {
  return where === '' ? cut(key) : `${where}.${cut(key)}`;
}

function cut(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

export function say(v: unknown): string {
  if (v === undefined) return 'nothing';
  if (Array.isArray(v)) return 'a list';
  if (typeof v === 'object' && v !== null) return 'an object';
  return cut(typeof v === 'string' ? `"${v}"` : String(v));
}
