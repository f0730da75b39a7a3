/**
 * The answers of the planner, word for word as the commands print them (`--json`). Browser, server and command line
 * use the same shapes; there is no clock in them (`ms` is added by the caller that asks for timing).
 */
import type { ActionId, Need } from '../domain/rig/rig-types.ts';

export type ActionKind = 'release' | 'remove' | 'operation' | 'set';

/** Load on one point of support, kilograms, with its half-width at about 95 %. */
export interface PointLoad {
  readonly point: string;
  readonly kg: number;
  readonly plusMinus: number;
}

export interface StepHazard {
  readonly kind: string;
  readonly text: string;
  /** True where nothing in the rig can clear it: a person gives their word each time. */
  readonly asksForWord: boolean;
}

export interface Step {
  readonly action: ActionId;
  readonly kind: ActionKind;
  readonly name: string;
  readonly minutes: number;
  readonly why: readonly string[];
  readonly hazards: readonly StepHazard[];
  readonly loads: readonly PointLoad[];
}

export interface Way {
  readonly cost: number;
  readonly actions: readonly ActionId[];
}

export interface Tipping {
  readonly step: ActionId | null;
  readonly point: string;
  readonly kg: number;
  readonly plusMinus: number;
  readonly marginKg: number;
  readonly text: string;
}

export interface OffAnswer {
  readonly cost: number;
  readonly irreversible: number;
  readonly disturbed: number;
  readonly proven: boolean;
  readonly lowerBound: number;
  readonly steps: readonly Step[];
  readonly unavoidable: readonly ActionId[];
  readonly nextWays: readonly Way[];
  readonly waitsFor: readonly string[];
  readonly tipsAt: Tipping | null;
}

export const UNMET_KINDS = [
  'attachment',
  'block',
  'hanging',
  'part',
  'guard',
  'hold',
  'hazard',
  'setup',
  'fact',
  'circular',
] as const;
export type UnmetKind = (typeof UNMET_KINDS)[number];

export interface Unmet {
  readonly need: Need;
  readonly kind: UnmetKind;
  readonly text: string;
}

export interface WhyNotAnswer {
  readonly action: ActionId;
  readonly allowed: boolean;
  readonly unmet: readonly Unmet[];
  /** Null when no way leads there. */
  readonly cheapestWay: Way | null;
  readonly nextWays: readonly Way[];
  readonly unavoidable: readonly ActionId[];
  readonly harm: readonly string[];
}

export interface FitsEntry {
  readonly action: ActionId;
  readonly fits: boolean;
  readonly locksOut: readonly ActionId[];
  readonly roots: readonly ActionId[];
  readonly hides: readonly string[];
  /** Only when it does not fit. */
  readonly inTheWay?: readonly Unmet[];
}

export interface FitsAnswer {
  readonly next: readonly FitsEntry[];
  readonly order: readonly ActionId[] | null;
  readonly reason?: string;
  readonly lastSeen: Readonly<Record<string, ActionId>>;
}

export interface TipsStep {
  readonly action: ActionId | null;
  readonly loads: readonly PointLoad[];
  readonly least: PointLoad | null;
  readonly underMargin: boolean;
}

export interface TipsAnswer {
  readonly steps: readonly TipsStep[];
  readonly restrain: readonly string[];
}
