/** Setting a pin: where it is held, of what, and the entries it becomes. Nothing is recorded until it is saved. */
import { useState } from 'react';
import { recording } from '../../journal/commands.ts';
import type { Point } from '../drawing/placing.ts';
import { useOpenJob } from '../state/use-job.tsx';

export interface Setting {
  readonly subject: string | null;
  readonly at: Point;
  readonly isNothing: boolean;
}

export interface PinInHand {
  readonly setting: Setting | null;
  /** Saved without a subject: asks what sits there. */
  readonly asks: boolean;
  readonly begin: (subject: string | null, at: Point | null, isNothing: boolean) => void;
  readonly move: (to: Point) => void;
  readonly save: () => void;
  readonly saveAs: (subject: string) => void;
  readonly leave: () => void;
}

const MIDDLE: Point = { x: 0.5, y: 0.5 };

export function usePin(sheet: string | null, onSaved: (subject: string) => void): PinInHand {
  const { record } = useOpenJob();
  const [setting, setSetting] = useState<Setting | null>(null);
  const [asks, setAsks] = useState(false);
  const leave = () => {
    setSetting(null);
    setAsks(false);
  };
  const saveAs = (subject: string) => {
    if (setting === null || sheet === null) return;
    const pin = { sheet, x: setting.at.x, y: setting.at.y };
    record(
      recording('pin-set', { subject, pin }),
      ...(setting.isNothing ? [recording('nothing-here', { subject })] : []),
    );
    leave();
    onSaved(subject);
  };
  return {
    setting,
    asks,
    begin: (subject, at, isNothing) => setSetting({ subject, at: at ?? MIDDLE, isNothing }),
    move: (at) => setSetting((was) => (was === null ? null : { ...was, at })),
    save: () => {
      if (setting === null) return;
      if (setting.subject === null) setAsks(true);
      else saveAs(setting.subject);
    },
    saveAs,
    leave,
  };
}
