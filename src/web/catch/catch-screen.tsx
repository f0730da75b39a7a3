/** The sheet of this view. */
import type { ScreenProps } from '../off/off-screen.tsx';

export function CatchScreen(_p: ScreenProps) {
  return null;
}
