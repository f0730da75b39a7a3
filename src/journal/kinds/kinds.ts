/**
 * The table of entry kinds: name, present version, shape. One row per kind; the fold has one function per row and does
 * not compile without it. A released shape is never edited: add a version, an upgrade and a fixture (CONTRIBUTING).
 */
import type { z } from 'zod';
import {
  datumReadV1,
  dialNotedV1,
  freedV1,
  measuredV1,
  pinSetV1,
  sheetAddedV1,
  soundKeptV1,
  thicknessNotedV1,
  triedV1,
} from './capture-kinds.ts';
import {
  baggedV1,
  bagsSetAsideV1,
  countedInsideV1,
  countedV1,
  differenceExplainedV1,
  goesWithV1,
  lotSplitV1,
  lotsJoinedV1,
  movedV1,
  placeNotedV1,
  robbedReturnedV1,
  robbedV1,
  taggedV1,
  tagTakenOffV1,
} from './custody-kinds.ts';
import { factSettledV1, factWithdrawnV1, lookReopenedV1, lookSignedV1 } from './fact-kinds.ts';
import { cameOffFirstV1, nothingHereV1, ourDamageV1, stopClearedV1, stoppedHereV1, stuckV1 } from './floor-kinds.ts';
import { entryWithdrawnV1, jointNotedV1, lossAcceptedV1, noteV1, photoTakenV1, readingNotedV1 } from './note-kinds.ts';
import { lotNotedV1, partLineNotedV1, pieceNotedV1, positionNotedV1 } from './parts-kinds.ts';
import { deviceNotedV1, jobOpenedV1, marginSetV1, personNotedV1 } from './people-kinds.ts';
import { contradictionSettledV1, mirroredV1, rigStatedV1, rigTakenInV1, seenOnThisSideV1 } from './rig-kinds.ts';
import { madeV1, setupChangedV1, stepDoneV2, stepRefittedV1, stepUndoneV1 } from './step-kinds.ts';

interface KindRow<S extends z.ZodType> {
  readonly version: number;
  readonly shape: S;
  readonly means: string;
}

function row<S extends z.ZodType>(version: number, shape: S, means: string): KindRow<S> {
  return { version, shape, means };
}

export const KINDS = {
  'job-opened': row(1, jobOpenedV1, 'the job begins'),
  'person-noted': row(1, personNotedV1, 'a person, role and rights'),
  'device-noted': row(1, deviceNotedV1, 'a device that records'),
  'margin-set': row(1, marginSetV1, 'the tipping margin of the shop'),
  'part-line-noted': row(1, partLineNotedV1, 'a line of a parts list'),
  'position-noted': row(1, positionNotedV1, 'a place where such a part sits'),
  'piece-noted': row(1, pieceNotedV1, 'a piece in the hand, its custodian and place'),
  'lot-noted': row(1, lotNotedV1, 'counted hardware in a bag'),
  'rig-taken-in': row(1, rigTakenInV1, 'a rig, or a piece of one, from a file'),
  'rig-stated': row(1, rigStatedV1, 'one statement about the rig'),
  mirrored: row(1, mirroredV1, 'the other side, as expected'),
  'seen-on-this-side': row(1, seenOnThisSideV1, 'expected or told, now seen here'),
  'contradiction-settled': row(1, contradictionSettledV1, 'a contradiction and how it ended'),
  'step-done': row(2, stepDoneV2, 'released, removed or operated'),
  'step-undone': row(1, stepUndoneV1, 'the record was wrong: it did not happen'),
  'step-refitted': row(1, stepRefittedV1, 'back on, and how far'),
  'setup-changed': row(1, setupChangedV1, 'the aircraft stands differently now'),
  made: row(1, madeV1, 'a refit-only operation'),
  'fact-settled': row(1, factSettledV1, 'a person settled a fact'),
  'fact-withdrawn': row(1, factWithdrawnV1, 'a fact does not hold any more'),
  'look-signed': row(1, lookSignedV1, 'looked, and answers for it'),
  'look-reopened': row(1, lookReopenedV1, 'to be looked at again'),
  'came-off-first': row(1, cameOffFirstV1, 'had to come off before another'),
  stuck: row(1, stuckV1, 'cannot come, and what is in the way'),
  'nothing-here': row(1, nothingHereV1, 'looked: nothing is here'),
  'stopped-here': row(1, stoppedHereV1, 'left half done'),
  'stop-cleared': row(1, stopClearedV1, 'half done no more'),
  'our-damage': row(1, ourDamageV1, 'damage we did'),
  'joint-noted': row(1, jointNotedV1, 'as-found details'),
  'reading-noted': row(1, readingNotedV1, 'a reading as written, and in SI'),
  'photo-taken': row(1, photoTakenV1, 'a photograph'),
  note: row(1, noteV1, 'words'),
  'entry-withdrawn': row(1, entryWithdrawnV1, 'takes an earlier entry back'),
  bagged: row(1, baggedV1, 'into this bag, as it came off'),
  moved: row(1, movedV1, 'a bag, piece or lot goes somewhere'),
  'lot-split': row(1, lotSplitV1, 'some of a lot are a lot of their own'),
  'lots-joined': row(1, lotsJoinedV1, 'two lots are one'),
  counted: row(1, countedV1, 'a lot counted again'),
  'difference-explained': row(1, differenceExplainedV1, 'what became of a difference'),
  robbed: row(1, robbedV1, 'from one aircraft of the shop to another'),
  'robbed-returned': row(1, robbedReturnedV1, 'back to the aircraft it came from'),
  'place-noted': row(1, placeNotedV1, 'a shelf, rack or corner of the shop'),
  'bags-set-aside': row(1, bagsSetAsideV1, 'bag numbers for a device or a roll'),
  'goes-with': row(1, goesWithV1, 'kept together as a set'),
  'counted-inside': row(1, countedInsideV1, 'tools and rags counted in or out'),
  tagged: row(1, taggedV1, 'a tag hangs on it'),
  'tag-taken-off': row(1, tagTakenOffV1, 'the tag is off'),
  'sound-kept': row(1, soundKeptV1, 'a voice note, kept as sound'),
  measured: row(1, measuredV1, 'measured, every repeat kept'),
  'thickness-noted': row(1, thicknessNotedV1, 'thickness, square by square'),
  'dial-noted': row(1, dialNotedV1, 'dial readings round a shaft'),
  'datum-read': row(1, datumReadV1, 'a datum before or after'),
  'sheet-added': row(1, sheetAddedV1, 'a drawing or photograph to set pins on'),
  'pin-set': row(1, pinSetV1, 'where it sits on a sheet'),
  tried: row(1, triedV1, 'what was tried on a stuck part'),
  freed: row(1, freedV1, 'stuck no more'),
  'loss-accepted': row(1, lossAcceptedV1, 'acknowledged entries are gone, and it was decided to carry on'),
} as const;

export type KindName = keyof typeof KINDS;
export type DataOf<K extends KindName> = z.infer<(typeof KINDS)[K]['shape']>;

export const KIND_NAMES = Object.keys(KINDS) as readonly KindName[];

export function isKindName(name: string): name is KindName {
  return Object.hasOwn(KINDS, name);
}

/** `name.vN` with the present version. */
export function fullKind(name: KindName): string {
  return `${name}.v${KINDS[name].version}`;
}

/** Names that were once used, or promised in a draft of the format. Never to be used again with another meaning. */
export const RETIRED_KINDS: Readonly<Record<string, string>> = {
  'hardware-noted': 'became lot-noted before the first release',
  'bag-noted': 'became lot-noted before the first release',
  'removal-recorded': 'became step-done before the first release',
};
