/**
 * What a planning command is about: a rig file, or a job whose rig and situation come from its journal. The options add
 * to what is so: further steps done, states, facts, signatures.
 */
import { existsSync, statSync } from 'node:fs';
import type { Command } from 'commander';
import { readRig } from '../domain/rig/rig-check.ts';
import type { Rig, Situation } from '../domain/rig/rig-types.ts';
import { isJobFolder, openJob } from '../store/index.ts';
import { tell } from './io.ts';
import { cliProblem, parseIds, parseJson, parsePairs, readText } from './parse.ts';

export interface SubjectOptions {
  readonly done?: string;
  readonly setup?: readonly string[];
  readonly fact?: readonly string[];
  readonly signed?: readonly string[];
  readonly made?: readonly string[];
}

export interface Subject {
  readonly rig: Rig;
  readonly situation: Situation;
  readonly marginPercent?: number;
  readonly ids: (text: string, where: string) => readonly string[];
}

const collect = (value: string, before: readonly string[] | undefined): readonly string[] => [...(before ?? []), value];

export function subjectOptions(command: Command): Command {
  return command
    .option('--done <actions>', 'what is done, in recorded order: \'["j1","remove:p1"]\' or j1,remove:p1')
    .option('--setup <id=state>', 'how it stands now (repeat as needed)', collect)
    .option('--fact <id>', 'what a person has settled (repeat)', collect)
    .option('--signed <look>', 'a look that is signed (repeat)', collect)
    .option('--made <operation>', 'a refit-only operation that is made (repeat)', collect);
}

function idsOf(list: readonly string[] | undefined, where: string): readonly string[] {
  return (list ?? []).flatMap((text) => parseIds(text, where));
}

export async function loadSubject(path: string, o: SubjectOptions): Promise<Subject> {
  const base = load(path);
  const s = base.situation;
  return {
    ...base,
    ids: parseIds,
    situation: {
      ...s,
      done: [...s.done, ...parseIds(o.done, '--done')],
      setups: { ...s.setups, ...parsePairs(o.setup, '--setup') },
      facts: [...(s.facts ?? []), ...idsOf(o.fact, '--fact')],
      signed: [...(s.signed ?? []), ...idsOf(o.signed, '--signed')],
      made: [...(s.made ?? []), ...idsOf(o.made, '--made')],
    },
  };
}

function load(path: string): { rig: Rig; situation: Situation; marginPercent?: number } {
  if (!existsSync(path)) tell(cliProblem('NO_SUCH_FILE', `"${path}" is not there`));
  if (!statSync(path).isDirectory()) {
    const rig = readRig(parseJson(readText(path), path));
    return rig.ok ? { rig: rig.value, situation: { done: [] } } : tell(rig.problem);
  }
  if (!isJobFolder(path)) tell(cliProblem('NO_JOB_HERE', `"${path}" holds no job`));
  const job = openJob(path, { readOnly: true });
  if (!job.ok) return tell(job.problem);
  const { rig, situation, marginPercent } = job.value.state;
  job.value.close();
  return { rig, situation, marginPercent };
}
