/**
 * Names in archives and folders, for showing only: nothing is ever opened or written under such a name. What would lead
 * out of a folder is taken off, what cannot be read or would turn the writing is marked, and both are said.
 */
import type { Problem } from '../domain/problem.ts';
import { intakeProblem } from './intake-problems.ts';

export interface ShownName {
  readonly shown: string;
  readonly notice: Problem | null;
}

/** The bytes of a name: UTF-8 where they are that, otherwise each byte by itself, so that it can at least be told apart. */
export function readName(bytes: Uint8Array): { readonly text: string; readonly readable: boolean } {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), readable: true };
  } catch {
    return { text: Buffer.from(bytes).toString('latin1'), readable: false };
  }
}

const HIDDEN = /[\p{Cc}\p{Cf}\p{Co}\p{Cs}\u2028\u2029]/gu;

export function showName(text: string, readable = true): ShownName {
  const odd: string[] = [];
  if (!readable) odd.push('is not UTF-8');
  let name = text;
  if (HIDDEN.test(name)) odd.push('holds characters that are not shown');
  name = name.replace(HIDDEN, '·');
  if (name.includes('\\')) odd.push('holds backslashes');
  name = name.replaceAll('\\', '/');
  if (/^[A-Za-z]:/.test(name)) odd.push('begins with a drive');
  name = name.replace(/^[A-Za-z]:/, '');
  if (name.startsWith('/')) odd.push('begins at the top of the disk');
  const steps = name.split('/');
  if (steps.includes('..')) odd.push('climbs out of its folder');
  const kept = steps.filter((s) => s !== '' && s !== '.' && s !== '..').join('/');
  const shown = kept.length > 200 ? `…${kept.slice(-199)}` : kept;
  const notice = odd.length === 0 ? null : intakeProblem('ZIP_NAME', `the name "${shown}" ${odd.join(', ')}`, shown);
  return { shown: shown === '' ? '(no name)' : shown, notice };
}

/** Lists that systems leave beside photographs. They are counted, not reported one by one. */
export function isLeftover(shown: string): boolean {
  return /(^|\/)(__MACOSX\/|\.[^/]+$|\.[^/]+\/|Thumbs\.db$|desktop\.ini$)/i.test(shown);
}
