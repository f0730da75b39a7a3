/** `off`, `why-not`, `fits`, `tips`: the planner's questions about a rig file or a job. */
import type { Command } from 'commander';
import { ask, type Question } from '../../app/ask.ts';
import { sayFits } from '../../planning/refit/words.ts';
import { Bar } from '../bar.ts';
import { type Io, tell } from '../io.ts';
import { namesOf } from '../names.ts';
import { parseJson, parseNumber, parseWhole } from '../parse.ts';
import { sayFitsAnswer, sayOff, sayTips, sayWhyNot } from '../say-answers.ts';
import { loadSubject, type Subject, type SubjectOptions, subjectOptions } from '../subject.ts';

interface PlanningOptions extends SubjectOptions {
  readonly goal?: string;
  readonly action?: string;
  readonly along?: string;
  readonly budget?: string;
  readonly ways?: string;
  readonly margin?: string;
  readonly json?: true;
  readonly timing?: true;
}

const ABOUT = 'a rig file (*.rig.json) or a job folder';

export function planningCommands(program: Command, io: Io): void {
  const off = withCommon(
    program.command('off'),
    'the least that must be undone so that a goal holds, in order, with reasons',
  )
    .requiredOption(
      '--goal <need>',
      'what must hold, as a Need: {"apart":"p1"}, {"off":"p1"}, {"released":"j3"}, {"all":[…]}',
    )
    .option('--ways <n>', 'how many next ways to list', '2');
  off.addHelpText(
    'after',
    examples(
      'off',
      `--goal '{"apart":"10-03"}'`,
      `--goal '{"off":"tail-wheel"}' --fact spring-free-length-known`,
      `--goal '{"apart":"10-03"}' --done '["set:support=jacks"]' --json`,
    ),
  );
  off.action((subject: string, o: PlanningOptions) =>
    answer(io, subject, o, () => ({ kind: 'off', goal: parseJson(o.goal ?? '', '--goal'), ...limits(o) })),
  );

  const why = withCommon(
    program.command('why-not'),
    'why an action may not be done yet, at the root, and what leads there',
  )
    .requiredOption('--action <id>', 'j3, remove:p1 or set:support=jacks')
    .option('--ways <n>', 'how many next ways to list', '2');
  why.addHelpText('after', examples('why-not', '--action remove:10-03', `--action j3 --done '["j1","j2"]'`));
  why.action((subject: string, o: PlanningOptions) =>
    answer(io, subject, o, () => ({ kind: 'why-not', action: o.action ?? '', ...limits(o) })),
  );

  const fits = withCommon(
    program.command('fits'),
    'what fits next, what it would lock out or hide, and an order that does neither',
  ).option('--action <id>', 'only this one, also when it does not fit');
  fits.addHelpText(
    'after',
    examples('fits', `--done '["j1","remove:p1"]'`, `--done '["j1","remove:p1"]' --action remove:p1 --json`),
  );
  fits.action((subject: string, o: PlanningOptions) =>
    answer(io, subject, o, () => ({ kind: 'fits', ...(o.action !== undefined && { action: o.action }) })),
  );

  const tips = withCommon(program.command('tips'), 'loads on the supports, now or along the way to a goal')
    .option('--goal <need>', 'along the least way to this')
    .option('--along <actions>', 'along these actions, in this order');
  tips.addHelpText('after', examples('tips', '', `--goal '{"off":"tail-wheel"}'`));
  tips.action((subject: string, o: PlanningOptions) => answer(io, subject, o, (s) => tipsQuestion(o, s)));
}

function withCommon(command: Command, about: string): Command {
  return subjectOptions(command.description(about).argument('<rig|job>', ABOUT))
    .option('--margin <percent>', 'least share of the weight that must stay on every support')
    .option('--budget <nodes>', 'how far to search before both bounds are given')
    .option('--timing', 'add ms to the JSON')
    .option('--json', 'the answer as JSON');
}

function examples(command: string, ...tails: readonly string[]): string {
  return `\nExamples:\n${tails.map((t) => `  witnessmark ${command} demo/qx-ola.rig.json ${t}\n`).join('')}`;
}

function limits(o: PlanningOptions): { nodeBudget?: number; nextWays?: number } {
  const nodeBudget = parseWhole(o.budget, '--budget');
  const nextWays = parseWhole(o.ways, '--ways');
  return { ...(nodeBudget !== undefined && { nodeBudget }), ...(nextWays !== undefined && { nextWays }) };
}

function tipsQuestion(o: PlanningOptions, subject: Subject): Question {
  if (o.goal !== undefined) return { kind: 'tips', goal: parseJson(o.goal, '--goal') };
  return { kind: 'tips', ...(o.along !== undefined && { along: subject.ids(o.along, '--along') }) };
}

async function answer(io: Io, path: string, o: PlanningOptions, question: (s: Subject) => Question): Promise<void> {
  const subject = await loadSubject(path, o);
  const marginPercent = parseNumber(o.margin, '--margin') ?? subject.marginPercent;
  const bar = new Bar(io);
  const started = performance.now();
  const got = ask(subject.rig, subject.situation, question(subject), {
    ...(marginPercent !== undefined && { marginPercent }),
    onProgress: (p) => bar.show(p.lower, p.upper),
  });
  const ms = performance.now() - started;
  bar.clear();
  if (!got.ok) tell(got.problem);
  const a = got.value;
  if (o.json) {
    io.out(`${JSON.stringify(o.timing ? { ...a.answer, ms: Math.round(ms * 100) / 100 } : a.answer)}\n`);
    return;
  }
  const names = namesOf(subject.rig);
  switch (a.kind) {
    case 'off':
      return io.out(sayOff(io, names, subject.rig, a.answer));
    case 'why-not':
      return io.out(sayWhyNot(io, names, a.answer));
    case 'fits':
      return io.out(sayFitsAnswer(io, names, a.answer, (entry) => sayFits(subject.rig, entry)));
    case 'tips':
      return io.out(sayTips(io, names, a.answer));
    default:
      a satisfies never;
  }
}
