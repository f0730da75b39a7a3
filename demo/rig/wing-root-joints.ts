/**
 * What holds a wing panel to the aircraft: lift struts from the pylon feet, two pins at the root, shims to port. INVENTED.
 *
 * Front pin before rear pin: the panel hinges on the rear pin when it is folded back. A pin or a strut bolt is drawn only
 * while the panel is carried by its trestle or its sling. Three shims to port, none to starboard (trap X-12): the
 * starboard line has no position, so the pin joint says "looked, nothing here".
 */
import {
  all,
  any,
  at,
  block,
  done,
  type Fragment,
  join,
  joint,
  operation,
  part,
  positions,
  released,
} from './author.ts';
import { RIGGING, UNITS } from './names.ts';
import { FRONT_SPAR, jointId as j, PORT_PYLON, type PylonSide, REAR_SPAR, STARBOARD_PYLON } from './pylon-sides.ts';

const wing = { disturbs: [RIGGING.wing] };

function wingJoints(s: PylonSide, pins: string): Fragment {
  const supported = any(done(`trestle-wing-${s.end}`), done(`sling-wing-${s.end}`));
  const strut = (n: 1 | 2) => `${s.lift}.${n}`;
  const lift = ([1, 2] as const).map((n) => {
    const where = n === 1 ? 'front' : 'rear';
    return join(
      part(strut(n), { massKg: 3.1, minutes: 5, at: at(n === 1 ? 2.95 : 3.5, s.y * 1.6, 1.7) }),
      joint(
        j(strut(n), 'a'),
        `Draw the upper bolt of the ${where} lift strut, ${s.word}`,
        [strut(n), n === 1 ? s.wingFront : s.wingRear],
        'bolted',
        12,
        { ...wing, loss: 'consumable', needs: supported },
      ),
      joint(
        j(strut(n), 'b'),
        `Draw the lower bolt of the ${where} lift strut, ${s.word}`,
        [strut(n), `${s.feet}.${n}`],
        'bolted',
        12,
        {
          ...wing,
          loss: 'consumable',
          needs: supported,
          ...(s.end === 'r' &&
            n === 1 && { asFound: { note: 'dent 30 mm, feather barb in the paint (E-23); ES-4 says rear (Q-17)' } }),
        },
      ),
    );
  });
  const pin = (n: 1 | 2) => `${pins}.${n}`;
  const shims = (n: 1 | 2) => (s.end === 'r' ? [] : n === 1 ? ['03-18.1', '03-18.2'] : ['03-18.3']);
  const drawn = ([1, 2] as const).map((n) => {
    const where = n === 1 ? 'front' : 'rear';
    const first = n === 1 ? [] : [released(j(pin(1))), any(done(`fold-wing-${s.end}`), done(`sling-wing-${s.end}`))];
    return join(
      part(pin(n), { massKg: 0.4, minutes: 0, at: at(n === 1 ? 2.9 : 3.6, s.y * 0.75, 2.4) }),
      joint(
        j(pin(n), 's'),
        `Take the split pin out of the ${where} wing pin, ${s.word}`,
        [pin(n), n === 1 ? FRONT_SPAR : REAR_SPAR],
        'pinned',
        2,
        { loss: 'consumable', needs: released(`${(n === 1 ? s.wingFront : s.wingRear).replace('-', '-j')}f`) },
      ),
      joint(
        j(pin(n)),
        `Drift the ${where} wing pin out, ${s.word}`,
        [pin(n), n === 1 ? FRONT_SPAR : REAR_SPAR, n === 1 ? s.wingFront : s.wingRear, ...shims(n)],
        'pinned',
        n === 1 ? 15 : 20,
        {
          ...wing,
          needs: all(released(j(pin(n), 's')), supported, ...first),
          asFound: {
            shims: s.end === 'r' ? 'none fitted; looked, nothing here (03-19)' : n === 1 ? '2 × 0.5' : '1 × 0.2',
          },
          note:
            n === 1
              ? 'Front before rear: the panel hinges on the rear pin'
              : 'Drawn while spread without a sling, the panel twists on one lug and stretches it',
        },
      ),
    );
  });
  return join(...lift, ...drawn);
}

const shims = join(
  positions('03-18', (_p, n) => ({
    massKg: 0.01,
    minutes: 1,
    at: at(n < 3 ? 2.9 : 3.6, -0.75, 2.4),
    needs: done('count-shims-l'),
  })),
  operation('count-shims-l', 'Count and measure the port shims, lug by lug, and bag each stack', 6, {
    only: 'strip',
    needs: any(released('03-j16.1'), released('03-j16.2')),
    note: 'Two of 0.5 at the front lug, one of 0.2 at the rear; starboard has none (03-19)',
  }),
  block('03-18.1', UNITS.wingL, 'pinches and scores the shim between the lugs'),
  block('03-18.2', UNITS.wingL, 'pinches and scores the shim between the lugs'),
  block('03-18.3', UNITS.wingL, 'pinches and scores the shim between the lugs'),
);

export const wingRootJoints = join(wingJoints(PORT_PYLON, '03-16'), wingJoints(STARBOARD_PYLON, '03-17'), shims);
