/** The sheet of this view. */
import type { ScreenProps } from '../off/off-screen.tsx';

export function WhereScreen(_p: ScreenProps) {
  return null;
}
