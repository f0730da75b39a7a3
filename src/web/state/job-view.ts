/** What the screens know of a job: a plain view made from the folded state, so that screens never reach into the fold. */
import type { ActionId, Rig, Situation } from '../../domain/rig/rig-types.ts';
import type { Names } from '../words/names.ts';

export interface DoneMark {
  readonly action: ActionId;
  readonly at: string;
  readonly by: string;
  readonly entry: string;
  /** Saved here, not yet taken in by the shop's machine. */
  readonly pending: boolean;
  readonly trial: boolean;
}

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly role: string | null;
}

/** Left half done; stays on top until somebody clears it. */
export interface OpenStop {
  readonly entry: string;
  readonly subject: string;
  readonly state: string;
  readonly at: string;
  readonly by: string;
}

export interface StuckMark {
  readonly entry: string;
  readonly action: ActionId | null;
  readonly part: string | null;
  readonly by: string | null;
  readonly at: string;
  readonly who: string;
}

export interface Recorded {
  readonly entry: string;
  readonly words: string;
  readonly at: string;
  readonly by: string;
  readonly pending: boolean;
}

export interface FindItem {
  readonly id: string;
  readonly name: string;
  readonly bag: string | null;
  /** Other words it may be looked for by. */
  readonly more: string;
}

export interface JobView {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  readonly rig: Rig;
  /** Changes whenever the rig itself does. */
  readonly rigKey: string;
  readonly situation: Situation;
  readonly names: Names;
  readonly day: string;
  readonly phase: 'strip' | 'refit';
  readonly positions: { readonly total: number; readonly off: number };
  readonly done: ReadonlyMap<ActionId, DoneMark>;
  readonly people: readonly Person[];
  readonly stops: readonly OpenStop[];
  readonly stuck: readonly StuckMark[];
  /** The newest entry of the person in hand that can be taken back. */
  readonly last: Recorded | null;
  readonly find: readonly FindItem[];
  readonly signed: ReadonlySet<string>;
  readonly marginPercent: number;
  /** The last step taken or put back, by anyone: where work is going on. */
  readonly lastDone: ActionId | null;
  /** Two digits of a part number to what that assembly is called. */
  readonly assemblies: ReadonlyMap<string, string>;
}
