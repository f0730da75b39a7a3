/**
 * Tail unit and water rudder, assembly 06. INVENTED.
 *
 *   stern post ── fin ── rudder (three hinges, horn, two cables)
 *   fin ── trim screw and nut ── tailplane halves (two struts each) ── elevators ── torque tube (two cables)
 *   stern post ── water rudder post ── blade, geared by a link to the steering horn of the tail-wheel (10-j22)
 *
 * Cannot be lifted whole; each surface comes off by itself. The tailplane can be trimmed: let go at the front it falls
 * on the hand that drew the pin, so the trim is run down and the tailplane propped first.
 */
import {
  all,
  at,
  block,
  caution,
  done,
  type Fragment,
  fasteners,
  guard,
  join,
  joint,
  look,
  off,
  operation,
  part,
  released,
  releasedAll,
  storedEnergy,
} from './author.ts';
import { gate, RIGGING, ROOT, SLACKEN_ELEVATOR, SLACKEN_RUDDER } from './names.ts';

const TRIM_DOWN = 'run-trim-down-and-prop';
const PROP = { l: 'prop-tailplane-l', r: 'prop-tailplane-r' } as const;

function tailplaneSide(end: 'l' | 'r'): Fragment {
  const [word, plane, strut, elevator, y] =
    end === 'l'
      ? (['port', '06-05', '06-07', '06-09', -1.1] as const)
      : (['starboard', '06-06', '06-08', '06-10', 1.1] as const);
  const planeJ = plane.replace('-', '-j');
  const elevatorJ = elevator.replace('-', '-j');
  return join(
    part(plane, { massKg: 6.4, minutes: 6, at: at(8.05, y, 1.2), hold: done(PROP[end]) }),
    part(elevator, { massKg: 3.6, minutes: 4, at: at(8.5, y, 1.2) }),
    fasteners(strut, {
      release: `Undo both ends of the ${word} tailplane strut`,
      joins: [plane, ROOT],
      kind: 'bolted',
      minutes: 9,
      joint: { disturbs: [RIGGING.elevator], needs: done(PROP[end]) },
      part: { massKg: 0.7, minutes: 1, at: at(8.0, y * 0.6, 0.9) },
    }),
    joint(planeJ, `Undo the rear spar bolts of the ${word} tailplane at the fin`, [plane, '06-01'], 'bolted', 12, {
      needs: all(done(PROP[end]), releasedAll(`${elevatorJ}`)),
      disturbs: [RIGGING.elevator],
    }),
    joint(
      `${planeJ}t`,
      `Draw the front pin of the ${word} tailplane from the trim nut`,
      [plane, '06-13'],
      'pinned',
      6,
      {
        hazards: [
          storedEnergy(done(TRIM_DOWN), 'The tailplane falls at its front edge: run the trim down and prop it first'),
        ],
        disturbs: [RIGGING.trim],
      },
    ),
    joint(`${planeJ}f`, `Take the root fillet off the ${word} tailplane`, [plane, ROOT], 'bolted', 8),
    joint(elevatorJ, `Draw the two hinge pins of the ${word} elevator`, [elevator, plane], 'pinned', 10),
    joint(`${elevatorJ}t`, `Undo the ${word} elevator from the torque tube`, [elevator, '06-11'], 'bolted', 8, {
      disturbs: [RIGGING.elevator],
    }),
    operation(PROP[end], `Prop the ${word} tailplane on the padded trestle`, 6, { on: plane }),
    block('06-01', plane, 'twists the fin post'),
    guard([`${strut}.1`, `${strut}.2`], 'the tailplane drops when both its struts are off', {
      any: [off(plane), done(PROP[end])],
    }),
    look(`look-tailplane-spar-${end}`, `Front spar of the ${word} tailplane`, {
      on: plane,
      visible: released(`${planeJ}f`),
    }),
  );
}

const rudder = join(
  part('06-01', { massKg: 6.2, minutes: 8, at: at(8.05, 0, 1.6) }),
  part('06-02', { massKg: 5, minutes: 5, at: at(8.7, 0, 1.5) }),
  part('06-04', { massKg: 0.5, minutes: 1, at: at(8.5, 0, 0.8) }),
  joint('06-j01a', 'Undo the front fitting of the fin', ['06-01', ROOT], 'bolted', 12),
  joint('06-j01b', 'Undo the fin from the stern post', ['06-01', '02-20'], 'bolted', 14),
  fasteners('06-03', {
    release: 'Draw the pin of the rudder hinge',
    joins: (_p, n) => (n === 3 ? ['06-02', '02-20'] : ['06-02', '06-01']),
    kind: 'pinned',
    minutes: 5,
    joint: { disturbs: [RIGGING.rudder] },
    part: { massKg: 0.3, minutes: 1, at: at(8.5, 0, 1.4) },
  }),
  joint('06-j04', 'Undo the cable horn from the rudder', ['06-04', '06-02'], 'bolted', 9),
  joint('06-j04a', 'Draw the port rudder cable pin at the horn', ['06-04', '12-10.1'], 'cable', 4, {
    needs: done(SLACKEN_RUDDER),
    disturbs: [RIGGING.rudder],
  }),
  joint('06-j04b', 'Draw the starboard rudder cable pin at the horn', ['06-04', '12-10.2'], 'cable', 4, {
    needs: done(SLACKEN_RUDDER),
    disturbs: [RIGGING.rudder],
  }),
  block('06-02', '06-11', 'tears the rudder fabric on the elevator horn', off('06-09')),
  block('06-01', '06-02', 'breaks the hinge brackets of the fin'),
);

const elevatorDrive = join(
  part('06-11', { massKg: 1.8, minutes: 3, at: at(8.4, 0, 1.2) }),
  part('06-12', { massKg: 0.9, minutes: 2, at: at(7.9, 0, 1.2) }),
  part('06-13', { massKg: 0.3, minutes: 1, at: at(7.9, 0, 1.2) }),
  joint('06-j11', 'Undo the bearing caps of the elevator torque tube', ['06-11', '06-01'], 'bolted', 12),
  joint('06-j11a', 'Draw the upper elevator cable pin', ['06-11', '12-09.1'], 'cable', 4, {
    needs: done(SLACKEN_ELEVATOR),
    disturbs: [RIGGING.elevator],
  }),
  joint('06-j11b', 'Draw the lower elevator cable pin', ['06-11', '12-09.2'], 'cable', 4, {
    needs: done(SLACKEN_ELEVATOR),
    disturbs: [RIGGING.elevator],
  }),
  joint('06-j12', 'Undo the trim screw bearing from the fin post', ['06-12', '06-01'], 'bolted', 10, {
    disturbs: [RIGGING.trim],
  }),
  joint('06-j13', 'Wind the trim nut off its screw', ['06-13', '06-12'], 'threaded', 6, {
    needs: releasedAll('06-j05t', '06-j06t'),
    asFound: { note: 'end play 0.45' },
  }),
  joint('06-j13k', 'Take the key and stop ring off the trim nut', ['06-13', '06-12'], 'other', 4),
  operation(TRIM_DOWN, 'Run the trim to its lower stop and prop the tailplane leading edge', 6, {
    on: '06-01',
    only: 'strip',
    hazards: [caution('falling', 'Two people: one holds the leading edge')],
  }),
);

const waterRudder = join(
  part('06-14', { massKg: 1.6, minutes: 2, at: at(7.740625, 0, -0.1) }),
  part('06-15', { massKg: 1.6, minutes: 4, at: at(7.740625, 0, 0.2) }),
  joint('06-j14', 'Undo the bolts of the water-rudder blade', ['06-14', '06-15'], 'bolted', 7),
  joint('06-j14c', 'Untie the lift cord at the blade', ['06-14', '06-16.2'], 'lashed', 2, { loss: 'consumable' }),
  joint('06-j15a', 'Undo the upper bearing of the water-rudder post', ['06-15', '02-20'], 'bolted', 8),
  joint('06-j15b', 'Undo the lower bearing of the water-rudder post', ['06-15', ROOT], 'bolted', 8),
  fasteners('06-16', {
    release: 'Undo the water-rudder lift cord pulley',
    joins: (_p, n) => (n === 1 ? [ROOT] : ['02-20']),
    kind: 'bolted',
    minutes: 5,
    part: { massKg: 0.2, minutes: 1, at: at(7.7, 0, 0.4) },
  }),
  block('06-15', '06-14', 'bends the post: the blade cannot pass the stern post'),
  block('06-15', '06-02', 'tears the lower bay of the rudder'),
);

const seen = join(
  look(gate(12), 'Gate 12: tail surfaces, hinges wired, struts locked', {
    on: '06-01',
    visible: all(),
    whenFitted: ['06-j01a', '06-j01b', '06-j03.1', '06-j03.2', '06-j03.3', '06-j05', '06-j06', '06-j09', '06-j10'],
  }),
  look('look-trim-screw', 'Trim screw and nut, play measured (Q-12)', {
    on: '06-12',
    visible: releasedAll('06-j05t', '06-j06t'),
  }),
  look('look-stern-post', 'Stern post behind the rudder', { on: '02-20', visible: off('06-02') }),
);

export const tailUnit = join(rudder, tailplaneSide('l'), tailplaneSide('r'), elevatorDrive, waterRudder, seen);
