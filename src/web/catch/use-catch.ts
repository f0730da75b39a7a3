/** Everything the capture screen knows and does, for its views: the camera, the strip, the code, the place, the gestures. */
import { useCallback, useRef, useState } from 'react';
import type { BagCode } from '../../domain/bag-code.ts';
import type { Command } from '../../journal/commands.ts';
import { deviceId } from '../state/keep.ts';
import { type OpenJob, useOpenJob } from '../state/use-job.tsx';
import { type Screen, useScreen } from '../state/use-screen.ts';
import { afterBag, type Carried, carriedKept, choosePart, keepCarried, subjectOf } from './carried.ts';
import { bagIt, nameIt, nothingHere, ownJoints, photographs, type Shot, takeBack } from './gestures.ts';
import { type Camera, useCamera } from './use-camera.ts';
import { type Code, useCode } from './use-code.ts';
import { type Shots, useShots } from './use-shots.ts';

export type Asking =
  | { readonly kind: 'aspect'; readonly aspect: string }
  | { readonly kind: 'stuck'; readonly subject: string; readonly saved: boolean }
  | {
      readonly kind:
        | 'place'
        | 'about'
        | 'more'
        | 'goes-with'
        | 'first'
        | 'stopped'
        | 'damage'
        | 'measure'
        | 'voice'
        | 'new-part'
        | 'scan'
        | 'roll';
    };

export interface CatchView {
  readonly open: OpenJob;
  readonly screen: Screen;
  readonly camera: Camera;
  readonly shots: Shots;
  readonly code: Code;
  /** The bag that was just saved and is asked about; null: shooting. */
  readonly bag: string | null;
  /** Shooting more of a bag that is saved already. */
  readonly adding: string | null;
  readonly carried: Carried;
  /** The parts that the present bag, or the next one, is of. */
  readonly parts: readonly string[];
  /** What a note outside the as-found questions is about. */
  readonly subject: string;
  /** What an as-found answer is about: a joint of the part, the part, or the bag. */
  readonly found: string;
  readonly foundChoices: readonly string[];
  readonly askAbout: (subject: string) => void;
  readonly asking: Asking | null;
  readonly ask: (asking: Asking | null) => void;
  readonly said: string;
  readonly canUndo: boolean;
  readonly acts: {
    readonly shoot: () => void;
    readonly file: (files: FileList | null) => void;
    readonly bagIt: () => void;
    readonly next: () => void;
    readonly addPhoto: () => void;
    readonly undo: () => void;
    readonly nothing: () => void;
    readonly stuck: () => void;
    readonly carry: (carried: Carried) => void;
    /** A part is named: for the present bag when there is one, else for the next. */
    readonly name: (part: string) => void;
    /** Records together with the photographs of the strip, where any are loose. */
    readonly withShots: (make: (shots: readonly Shot[]) => readonly Command[], said: string) => void;
    readonly record: (said: string, ...commands: readonly Command[]) => void;
  };
}

export function useCatch(): CatchView {
  const open = useOpenJob();
  const { job, snapshot, person, record } = open;
  const screen = useScreen();
  const bag = screen.get('bag');
  const adding = screen.get('more');
  const [carried, setCarried] = useState<Carried>(() => carriedKept(job.id));
  const [asking, setAsking] = useState<Asking | null>(null);
  const [said, setSaid] = useState('');
  const camera = useCamera(bag === null && asking?.kind !== 'scan');
  const shots = useShots(job.id, open.keepPhoto);
  const code = useCode(job.id, open.nextBag, (c) => snapshot.state.bags.has(c));
  const busy = useRef(false);

  const carry = useCallback(
    (next: Carried) => {
      setCarried(next);
      keepCarried(job.id, next);
    },
    [job.id],
  );
  const bagParts = bag === null ? null : (snapshot.state.bags.get(bag)?.of ?? []);
  const parts = bagParts ?? carried.parts;
  const subject = bag === null ? subjectOf(carried) : (parts[0] ?? bag);

  const [about, askAbout] = useState<string | null>(null);
  const foundChoices = [...ownJoints(job, parts), ...parts, ...(bag === null ? [] : [bag])];
  const found = about !== null && foundChoices.includes(about) ? about : (foundChoices[0] ?? subject);

  /** "Saved" is said when it is. */
  const recordShots = (taken: readonly Shot[], commands: readonly Command[], words: string) => {
    const recorded = record(...commands);
    shots.settle(taken, recorded);
    void recorded.then((became) => became === 'kept' && setSaid(words));
  };
  const bagNow = async () => {
    if (busy.current) return;
    busy.current = true;
    const taken = await shots.take();
    busy.current = false;
    if (adding !== null) {
      const of = [adding, ...(snapshot.state.bags.get(adding)?.of ?? [])];
      recordShots(taken, photographs(taken, of), `${adding}: photographs added`);
      return screen.set({ bag: adding, more: null });
    }
    if (code.code === null) {
      shots.giveBack(taken);
      return setAsking({ kind: 'roll' });
    }
    recordShots(taken, bagIt(code.code, carried, taken), `${code.code} saved`);
    code.use();
    carry(afterBag(carried));
    screen.set({ bag: code.code, show: null }, true);
  };
  const withShots: CatchView['acts']['withShots'] = (make, words) => {
    void shots.take().then((taken) => recordShots(taken, make(taken), words));
  };
  const back = takeBack(snapshot.state, person, deviceId());
  const undo = () => {
    if (shots.leftOut !== null) {
      setSaid('The photograph is back');
      return shots.giveBack([shots.leftOut]);
    }
    if (back === null) return open.undo();
    record(...back.commands);
    setSaid('Taken back');
    if (back.shots.length > 0) shots.giveBack(back.shots);
    if (back.bag !== null) {
      code.set(back.bag as BagCode);
      if (bag === back.bag) screen.set({ bag: null });
    }
  };
  const name = (part: string) => {
    if (bag === null) return carry(choosePart(job, carried, part));
    record(nameIt(bag, [part], job.names.hand(part) ?? null));
    const group = choosePart(job, { ...carried, parts: [] }, part);
    carry({ ...group, parts: [] });
    setSaid(`${bag}: ${job.names.part(part)}`);
  };
  const acts: CatchView['acts'] = {
    shoot: () => void camera.shoot().then((blob) => blob !== null && shots.add(blob)),
    file: (files) => {
      for (const f of files ?? []) shots.add(f);
    },
    bagIt: () => void bagNow(),
    next: () => screen.set({ bag: null, more: null, show: null }),
    addPhoto: () => bag !== null && screen.set({ bag: null, more: bag }),
    undo,
    nothing: () => withShots((taken) => nothingHere(subject, taken), 'Nothing here: saved'),
    stuck: () => {
      const part = parts[0] ?? (carried.group !== null && job.names.find(carried.group) ? carried.group : null);
      if (part === null)
        withShots(
          (taken) => [
            { kind: 'record', entry: 'stopped-here', data: { subject, state: 'stuck', ...photoOf(taken) } },
            ...photographs(taken, [subject]),
          ],
          'Stuck: saved',
        );
      else
        withShots(
          (taken) => [{ kind: 'record', entry: 'stuck', data: { part } }, ...photographs(taken, [part])],
          'Stuck: saved',
        );
      setAsking({ kind: 'stuck', subject: part ?? subject, saved: part !== null });
    },
    carry,
    name,
    withShots,
    record: (words, ...commands) => {
      record(...commands);
      setSaid(words);
    },
  };
  return {
    ...{ open, screen, camera, shots, code, bag, adding, carried, parts, subject, asking, said, acts },
    ...{ found, foundChoices, askAbout },
    ask: setAsking,
    canUndo: shots.leftOut !== null || back !== null || job.last !== null,
  };
}

function photoOf(taken: readonly Shot[]): { readonly photo?: string } {
  const hash = taken[0]?.hash;
  return hash === undefined ? {} : { photo: hash };
}
