/** Entry kinds: what only a person can settle, and looks signed. */
import { z } from 'zod';
import { aHash, anId, maybe, words } from './shared-shapes.ts';

export const factSettledV1 = z.strictObject({ fact: anId, note: maybe(words) });
export const factWithdrawnV1 = z.strictObject({ fact: anId, why: maybe(words) });

/**
 * An act of authority (docs/adr/0005). `says` is the plain sentence that is signed; `rests` the digests of the entries
 * behind it. Unsigned today: a name was picked, not proved.
 */
export const lookSignedV1 = z.strictObject({
  look: anId,
  says: words,
  rests: maybe(z.array(aHash)),
  second: maybe(anId),
});
export const lookReopenedV1 = z.strictObject({ look: anId, why: maybe(words) });
