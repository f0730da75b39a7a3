/** The sheet of this view. */
import type { ScreenProps } from '../off/off-screen.tsx';

export function FloorScreen(_p: ScreenProps) {
  return null;
}
