/** Entry kinds: the job, its people and devices, the shop's margin. */
import { z } from 'zod';
import { anId, maybe, words } from './shared-shapes.ts';

/** `lead` and `inspector` may sign looks; anybody else needs the right stated. */
export const ROLES = [
  'lead',
  'metal',
  'wood-and-fabric',
  'engine',
  'apprentice',
  'volunteer',
  'inspector',
  'owner',
  'other',
] as const;
/** Acts of authority that a right can cover. Only `sign` is an entry kind today. */
export const RIGHTS = ['sign', 'decide', 'discard', 'ship'] as const;

export const jobOpenedV1 = z.strictObject({
  job: anId,
  name: words,
  registration: maybe(z.string()),
  type: maybe(z.string()),
  /** Another aircraft that gives parts to this one. */
  donor: maybe(z.boolean()),
  invented: maybe(z.boolean()),
  note: maybe(words),
});

/** Noting the same person again replaces what was said; earlier words stay in the log. */
export const personNotedV1 = z.strictObject({
  person: anId,
  name: words,
  initials: maybe(z.string().max(8)),
  role: maybe(z.enum(ROLES)),
  rights: maybe(z.array(z.enum(RIGHTS))),
  note: maybe(words),
});

export const deviceNotedV1 = z.strictObject({
  device: anId,
  name: words,
  /** Device clock minus the shop's clock, as found at sync. */
  clockAheadMs: maybe(z.number()),
  note: maybe(words),
});

/** The shop's tipping margin: per cent of the weight that must stay on every support. */
export const marginSetV1 = z.strictObject({ percent: z.number().min(0).max(50), why: maybe(words) });
