/** Every benchmark of the house, in the order of the page. */
import type { BenchRow } from './bench-row.ts';
import { benchFloor } from './floor.ts';
import { benchJournal } from './journal.ts';
import { benchPage } from './page.ts';
import { benchPlanningCore } from './planning-core.ts';
import { benchPlanningFits } from './planning-fits.ts';
import { benchPlanningOff } from './planning-off.ts';

export interface Bench {
  readonly id: string;
  readonly title: string;
  readonly run: (opts: { readonly quick: boolean }) => Promise<readonly BenchRow[]>;
}

export const BENCHES: readonly Bench[] = [
  { id: 'core', title: 'The least to undo: proved optimum against a general solver', run: benchPlanningCore },
  { id: 'off', title: 'Getting it off: rigs in our own format', run: benchPlanningOff },
  { id: 'fits', title: 'What fits next, and why not, after one change', run: benchPlanningFits },
  { id: 'journal', title: 'Journal', run: benchJournal },
  { id: 'page', title: 'Page', run: benchPage },
  { id: 'floor', title: 'The floor', run: benchFloor },
];
