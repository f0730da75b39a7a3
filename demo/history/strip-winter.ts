/**
 * 18 November 2025 to February 2026: the tail-wheel spring, then everything that is to come off. INVENTED.
 *
 * What stays on the aircraft stays for a reason: frames, keel, after planks and stringers are sound or are mended in place.
 */
import { recording } from '../../src/journal/commands.ts';
import { assembly, type By, lines, type Recorder } from './act.ts';
import type { Bagging } from './bagging.ts';
import { afterTheSpring, januaryAtTheBench, pipeFound, trunnionFreed } from './floor-winter.ts';
import { BENEDIKT, JOSS, MARIT, NADIA, PIM, ROSALIND } from './shop.ts';
import { isSeenFirst, writeEvidence } from './strip-autumn.ts';

function tailSpring(r: Recorder, bags: Bagging): void {
  r.on('2025-11-18', 9, 0).step(NADIA, 'set:support=stands', 'Stand under C19, tail tied');
  r.strip(NADIA, ['10-14', '10-20', 'fit-captive-press', '10-j07', 'let-spring-down', '10-03']);
  r.record(
    NADIA,
    recording('reading-noted', {
      subject: '10-03',
      aspect: 'free-length',
      text: '285 mm',
      si: { value: 0.285, unit: 'm', plusMinus: 0.001 },
      tool: 'steel rule',
      note: 'wire 8.5, mean diameter 57, 13 coils: a car spring (S-2)',
    }),
  );
  r.settle(
    NADIA,
    'spring-free-length-known',
    '285 mm, measured before it was bagged. The bolt gives 65 mm, it needs 80.',
  );
  r.on('2025-11-20').strip(NADIA, [
    '10-04',
    '10-07',
    '10-05',
    'ease-centring-spring-l',
    'ease-centring-spring-r',
    '10-16',
    '10-17',
    '10-12',
    '10-18',
    '10-19',
    '10-02',
    'deflate-tail-tyre',
    '10-15',
    '10-13',
    'trolley-under-tail-leg',
    '10-01',
    '10-10',
    '10-11',
    '10-09',
  ]);
  r.note(JOSS, '10-09', 'Trunnion block bent 1.8 mm; rear flange of C19 folded aft (E-08).');
  bags.now(NADIA);
  afterTheSpring(r);
  pipeFound(r);
}

function hatchAndTank(r: Recorder, bags: Bagging): void {
  r.on('2025-11-24');
  const stop = r.now.openStops[0];
  r.strip(PIM, ['01-22.1', '01-22.2', '01-21']);
  if (stop !== undefined) r.record(PIM, recording('stop-cleared', { stop: stop.id, note: 'Hatch is off' }));
  r.on('2025-11-25').strip(NADIA, ['take-weight-of-tank', '12-j17.1a', '12-j17.5a', '03-14', ...lines('03-15')]);
  r.strip(NADIA, ['vent-tank-bay', 'open-cabin-floor']);
  bags.now(NADIA);
}

function wings(r: Recorder, bags: Bagging): void {
  for (const [end, pins, lift, aileron, cables, lamp, date] of SIDES) {
    r.on(date).strip(BENEDIKT, [
      'slacken-aileron-cables',
      'open-centre-hand-hole',
      `hold-aileron-${end}`,
      ...lines(pins.hinge),
      aileron,
      `open-hand-hole-${end}`,
      ...lines(cables),
      lamp,
      `trestle-wing-${end}`,
      ...lines(lift),
      ...lines(pins.root),
      'count-shims-l',
      `fold-wing-${end}`,
      `wing-${end}`,
    ]);
    bags.now(BENEDIKT);
  }
}

/** Everything of these assemblies that is not to stay, with the operations it takes. */
function rest(r: Recorder, bags: Bagging, by: By, date: string, targets: readonly string[]): void {
  r.on(date).strip(by, targets);
  bags.now(by);
}

/** Three of the four things that were done by force are settled; how the leg itself came away is still asked. */
function settleForced(r: Recorder): void {
  r.on('2026-01-26', 11, 0);
  for (const step of r.now.steps.filter((x) => x.forced !== undefined && x.action !== 'remove:leg-r')) {
    r.record(
      MARIT,
      recording('contradiction-settled', {
        contradiction: step.said.entry,
        end: 'harm-was-done',
        note: 'About 2004, before our time; lug, panel 9, shaft and tube show it (E-09, E-13, E-20)',
      }),
    );
  }
}

const SIDES = [
  ['l', { hinge: '04-17', root: '03-16' }, '03-20', '04-13', '12-07', '12-22', '2025-12-01'],
  ['r', { hinge: '04-18', root: '03-17' }, '03-21', '04-14', '12-08', '12-23', '2025-12-04'],
] as const;

export function stripWinter(r: Recorder, bags: Bagging): void {
  tailSpring(r, bags);
  hatchAndTank(r, bags);
  wings(r, bags);
  rest(r, bags, MARIT, '2025-12-08', [
    'sling-centre',
    ...lines('03-20', '03-21'),
    'centre-section',
    ...lines('03-05', '03-06', '03-01', '03-02', '03-03', '03-04', '03-09', '03-10', '03-07', '03-08'),
  ]);
  rest(r, bags, ROSALIND, '2025-12-11', [
    'ease-ratchet-pawl',
    ...lines('09-06', '09-01', '09-02', '09-07', '09-08', '09-09', '09-10', '09-11', '09-12'),
    '09-24',
    '09-23',
    'gearbox',
    'ease-lock-spring-l',
    'ease-lock-spring-r',
    ...lines('09-27', '09-28', '09-25', '09-26'),
    ...lines('09-21', '09-22'),
  ]);
  rest(r, bags, JOSS, '2025-12-15', [
    ...lines('02-12', '02-11'),
    '09-11',
    '09-12',
    '09-j17',
    'pin-lock-hook-back-l',
    'trolley-under-leg-l',
    'swing-leg-l-35',
    '07-02',
    'let-gas-out-l',
    'leg-l',
    'tie-jack-l',
    'jack-l',
    'tie-jack-r',
    'jack-r',
  ]);
  trunnionFreed(r);
  rest(r, bags, JOSS, '2026-01-05', [...lines('02-07', '02-08', '02-03', '02-04', '02-05', '02-06', '02-09')]);
  rest(r, bags, NADIA, '2026-01-08', [
    ...lines('02-23', '02-22'),
    'open-mooring-hatch',
    ...lines('01-04', '01-05', '01-06', '01-03', '01-23'),
    ...lines('02-21'),
  ]);
  rest(r, bags, PIM, '2026-01-12', [...assembly('12'), ...lines('01-24', '01-18')]);
  rest(r, bags, JOSS, '2026-01-19', [
    'shore-hull-fore',
    ...lines('01-10', '01-15', '01-14', '01-08', '01-09', '01-01', '01-11', '01-12'),
  ]);
  rest(r, bags, NADIA, '2026-01-22', lines('03-18'));
  r.on('2026-01-23', 9, 0);
  writeEvidence(r, MARIT, (id) => !isSeenFirst(id));
  settleForced(r);
  januaryAtTheBench(r);
  r.note(
    MARIT,
    'job',
    'Strip complete for what comes off. Frames, keel, after planks and stringers stay and are mended in place.',
  );
}
