/** Day, night, or as the machine says; kept on this device. */
import { useEffect, useState } from 'react';

export const THEMES = ['auto', 'day', 'night'] as const;
export type Theme = (typeof THEMES)[number];

const KEY = 'witnessmark-theme';
const dark = () => window.matchMedia('(prefers-color-scheme: dark)');

export function useTheme(): readonly [Theme, (theme: Theme) => void] {
  const [theme, setTheme] = useState<Theme>(readTheme);
  useEffect(() => {
    const query = dark();
    const show = () => showTheme(theme === 'night' || (theme === 'auto' && query.matches));
    show();
    query.addEventListener('change', show);
    return () => query.removeEventListener('change', show);
  }, [theme]);
  const choose = (next: Theme) => {
    localStorage.setItem(KEY, next);
    setTheme(next);
  };
  return [theme, choose];
}

export function readTheme(): Theme {
  const kept = localStorage.getItem(KEY);
  return THEMES.find((t) => t === kept) ?? 'auto';
}

export function showTheme(night: boolean): void {
  document.documentElement.dataset.theme = night ? 'night' : 'day';
  document.querySelector('meta[name="theme-color"]')?.setAttribute('content', night ? '#0F1E2C' : '#F6F3EA');
}

/** Before the first paint, so that the page does not flash. */
export function startTheme(): void {
  const theme = readTheme();
  showTheme(theme === 'night' || (theme === 'auto' && dark().matches));
}
