/**
 * Keys that shoot without a look at the screen: Enter and Space when nothing else has the focus, the volume keys where the
 * browser hands them on, and the keys that small radio clickers send.
 */
import { useEffect, useRef } from 'react';

const ALWAYS: ReadonlySet<string> = new Set(['AudioVolumeUp', 'AudioVolumeDown', 'VolumeUp', 'VolumeDown', 'Camera']);
const UNFOCUSED: ReadonlySet<string> = new Set(['Enter', ' ', 'PageDown', 'PageUp']);

export function useShutterKeys(on: boolean, shoot: () => void): void {
  const latest = useRef(shoot);
  latest.current = shoot;
  useEffect(() => {
    if (!on) return;
    const press = (e: KeyboardEvent) => {
      if (e.repeat || e.defaultPrevented || e.ctrlKey || e.metaKey || e.altKey) return;
      const at = e.target;
      const isFree = !(
        at instanceof HTMLElement && at.closest('button,a,input,textarea,select,[tabindex],[role="dialog"]')
      );
      if (!ALWAYS.has(e.key) && !(isFree && UNFOCUSED.has(e.key))) return;
      e.preventDefault();
      latest.current();
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, [on]);
}
