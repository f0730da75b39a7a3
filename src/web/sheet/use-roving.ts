/**
 * One list of choices for keyboard, pointer and screen reader: a listbox with a roving tab stop. Arrow keys, Home and
 * End move; the choice follows. Enter is handed on, since in both screens it is the one tap ("did it", "fitted").
 */
import { type KeyboardEvent, useCallback, useEffect, useRef } from 'react';

export interface Roving {
  readonly listProps: {
    readonly role: 'listbox';
    readonly 'aria-label': string;
    readonly onKeyDown: (e: KeyboardEvent<HTMLElement>) => void;
  };
  readonly rowProps: (id: string) => {
    readonly role: 'option';
    readonly 'aria-selected': boolean;
    readonly tabIndex: number;
    readonly 'data-row': string;
    readonly onClick: () => void;
  };
}

export function useRoving(
  label: string,
  ids: readonly string[],
  selected: string | null,
  onSelect: (id: string) => void,
  onEnter: (id: string) => void,
): Roving {
  const hadFocus = useRef(false);
  const stop = selected !== null && ids.includes(selected) ? selected : (ids[0] ?? null);

  // The choice may move by itself (after "did it"): focus goes with it when it was in the list.
  useEffect(() => {
    if (!hadFocus.current || stop === null) return;
    const row = document.querySelector<HTMLElement>(`[data-row="${CSS.escape(stop)}"]`);
    if (row && document.activeElement !== row && document.activeElement?.closest('[role="listbox"],body') !== null) {
      if (document.activeElement === document.body || document.activeElement?.getAttribute('role') === 'option')
        row.focus();
    }
  }, [stop]);

  const onKeyDown = useCallback(
    (e: KeyboardEvent<HTMLElement>) => {
      const at = ids.indexOf(stop ?? '');
      const to = moved(e.key, at, ids.length);
      if (e.key === 'Enter' && stop !== null) {
        e.preventDefault();
        onEnter(stop);
      } else if (e.key === ' ' && stop !== null) {
        e.preventDefault();
        onSelect(stop);
      } else if (to !== null && ids[to] !== undefined) {
        e.preventDefault();
        const id = ids[to];
        onSelect(id);
        e.currentTarget.querySelector<HTMLElement>(`[data-row="${CSS.escape(id)}"]`)?.focus();
      }
    },
    [ids, stop, onEnter, onSelect],
  );

  useEffect(() => {
    const note = () => {
      hadFocus.current = document.activeElement?.getAttribute('role') === 'option';
    };
    document.addEventListener('focusin', note);
    return () => document.removeEventListener('focusin', note);
  }, []);

  return {
    listProps: { role: 'listbox', 'aria-label': label, onKeyDown },
    rowProps: (id) => ({
      role: 'option',
      'aria-selected': id === selected,
      tabIndex: id === stop ? 0 : -1,
      'data-row': id,
      onClick: () => onSelect(id),
    }),
  };
}

function moved(key: string, at: number, length: number): number | null {
  if (key === 'ArrowDown') return Math.min(length - 1, at + 1);
  if (key === 'ArrowUp') return Math.max(0, at - 1);
  if (key === 'Home') return 0;
  if (key === 'End') return length - 1;
  return null;
}

/** Single-letter keys of a screen; never while somebody types or a slip is open. */
export function useKeys(keys: Readonly<Record<string, () => void>>): void {
  const latest = useRef(keys);
  latest.current = keys;
  useEffect(() => {
    const press = (e: globalThis.KeyboardEvent) => {
      if (e.ctrlKey || e.metaKey || e.altKey || e.defaultPrevented) return;
      const at = e.target;
      if (
        at instanceof HTMLElement &&
        (at.closest('input,textarea,[role="dialog"],[role="menu"]') || at.isContentEditable)
      )
        return;
      const act = latest.current[e.key];
      if (!act) return;
      e.preventDefault();
      act();
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, []);
}
