/** Answers of the planner as text for people: aligned, verb first, the reason in one grey line. */
import type { Rig } from '../domain/rig/rig-types.ts';
import type { FitsAnswer, OffAnswer, PointLoad, TipsAnswer, Unmet, Way, WhyNotAnswer } from '../planning/answers.ts';
import { colours, columns, hours, type Io } from './io.ts';
import type { Names } from './names.ts';

type Colours = ReturnType<typeof colours>;

function ways(c: Colours, names: Names, list: readonly Way[], title: string): string {
  if (list.length === 0) return '';
  const rows = list.map(
    (w) => `  ${hours(w.cost).padStart(8)}  ${w.actions.map((a) => names.action(a)).join(' · ')}\n`,
  );
  return `${c.dim(title)}\n${rows.join('')}`;
}

function load(l: PointLoad): string {
  return `${l.point} ${l.kg.toFixed(0)} ± ${l.plusMinus.toFixed(0)} kg`;
}

export function sayOff(io: Io, names: Names, rig: Rig, a: OffAnswer): string {
  const c = colours(io);
  if (a.steps.length === 0) return 'Nothing to undo: it is so already.\n';
  const proof = a.proven ? 'the least there is, proved' : `at least ${hours(a.lowerBound)}; not proved to be the least`;
  const parts = [`${c.bold(`${a.steps.length} steps, ${hours(a.cost)}`)}  ${c.dim(proof)}\n`];
  if (a.irreversible > 0) parts.push(c.red(`${a.irreversible} cannot be undone again\n`));
  if (a.disturbed > 0) parts.push(`${a.disturbed} settings are disturbed and must be made again\n`);
  const wide = String(a.steps.length).length;
  a.steps.forEach((s, i) => {
    parts.push(`${String(i + 1).padStart(wide + 1)}  ${c.bold(s.name)}  ${c.dim(`${s.action} · ${s.minutes} min`)}\n`);
    for (const h of s.hazards)
      parts.push(`${' '.repeat(wide + 3)}${c.red(h.asksForWord ? `CAUTION ${h.text}` : `GATE ${h.text}`)}\n`);
    for (const why of s.why) parts.push(`${' '.repeat(wide + 3)}${c.dim(why)}\n`);
    const tips = a.tipsAt !== null && a.tipsAt.step === s.action;
    if (tips) parts.push(`${' '.repeat(wide + 3)}${c.red(a.tipsAt.text)}\n`);
    if (s.loads.length > 0 && (s.kind === 'remove' || s.kind === 'set')) {
      parts.push(`${' '.repeat(wide + 3)}${c.dim(`then ${s.loads.map(load).join(', ')}`)}\n`);
    }
  });
  if (a.tipsAt !== null && a.tipsAt.step === null) parts.push(c.red(`${a.tipsAt.text}\n`));
  if (a.waitsFor.length > 0)
    parts.push(
      `${c.dim('would be less, or another way, once this is known')}\n${a.waitsFor.map((f) => `  ${names.thing(f)}  ${c.dim(f)}\n`).join('')}`,
    );
  parts.push(ways(c, names, a.nextWays, 'other ways'));
  if (rig.invented) parts.push(c.dim('Invented example.\n'));
  parts.push(c.dim('It advises; local codes, the maker’s data and licensed people decide.\n'));
  return parts.join('');
}

function unmet(c: Colours, list: readonly Unmet[]): string {
  return list.map((u) => `  ${u.text}  ${c.dim(u.kind)}\n`).join('');
}

export function sayWhyNot(io: Io, names: Names, a: WhyNotAnswer): string {
  const c = colours(io);
  if (a.allowed) return `${c.bold(names.action(a.action))} may be done now.\n`;
  const parts = [`${c.bold(names.action(a.action))} may not be done yet.\n`, unmet(c, a.unmet)];
  if (a.harm.length > 0) parts.push(c.red(`If it is forced: ${a.harm.join('; ')}.\n`));
  if (a.cheapestWay === null) parts.push('No way leads there with what is known.\n');
  else parts.push(ways(c, names, [a.cheapestWay], 'the least that allows it'));
  parts.push(ways(c, names, a.nextWays, 'other ways'));
  return parts.join('');
}

export function sayFitsAnswer(
  io: Io,
  names: Names,
  a: FitsAnswer,
  sentence: (entry: FitsAnswer['next'][number]) => string,
): string {
  const c = colours(io);
  const harm = a.next.filter((n) => n.locksOut.length > 0 || n.hides.length > 0).length;
  const parts = [
    c.bold(`${a.next.filter((n) => n.fits).length} fit now`),
    harm > 0 ? `, ${c.red(`${harm} would lock out or hide something`)}` : '',
    '\n',
  ];
  for (const n of a.next) {
    const says = sentence(n);
    parts.push(`  ${c.bold(names.action(n.action))}  ${c.dim(n.action)}\n`);
    if (n.inTheWay && n.inTheWay.length > 0) parts.push(unmet(c, n.inTheWay));
    if (n.locksOut.length > 0 || n.hides.length > 0) parts.push(`    ${c.red(says)}\n`);
  }
  if (a.order === null) parts.push(`No full order: ${a.reason ?? 'not known'}\n`);
  else if (a.order.length > 0) {
    parts.push(c.dim('an order that locks nothing out\n'));
    const seen = new Map<string, string[]>();
    for (const [look, before] of Object.entries(a.lastSeen)) seen.set(before, [...(seen.get(before) ?? []), look]);
    a.order.forEach((x, i) => {
      for (const look of seen.get(x) ?? []) parts.push(`        ${c.red(`look first: ${names.thing(look)}`)}\n`);
      parts.push(`  ${String(i + 1).padStart(4)}  ${names.action(x)}  ${c.dim(x)}\n`);
    });
  }
  return parts.join('');
}

export function sayTips(io: Io, names: Names, a: TipsAnswer): string {
  const c = colours(io);
  const points = a.steps[0]?.loads.map((l) => l.point) ?? [];
  if (points.length === 0) return 'No support points are known for how it stands now; nothing is said about tipping.\n';
  const rows = [
    ['', ...points, 'least'],
    ...a.steps.map((s) => [
      s.action === null ? 'as it stands' : names.action(s.action),
      ...points.map((p) => {
        const l = s.loads.find((x) => x.point === p);
        return l ? `${l.kg.toFixed(1)} ± ${l.plusMinus.toFixed(1)}` : '—';
      }),
      s.least === null ? '' : `${s.least.point}${s.underMargin ? '  UNDER THE MARGIN' : ''}`,
    ]),
  ];
  const table = columns(
    rows,
    points.map((_, i) => i + 1),
  );
  return `${table}${a.restrain.map((r) => `${c.red(r)}\n`).join('')}${c.dim('kg; doubt at about 95 %. Local codes, the maker’s data and licensed people decide how it is stood.\n')}`;
}
