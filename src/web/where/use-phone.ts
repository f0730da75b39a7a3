/** One column or two: decides where a card is drawn, so that nothing stands on the page twice. */
import { useSyncExternalStore } from 'react';

const ONE_COLUMN = '(max-width: 759px)';

export function usePhone(): boolean {
  return useSyncExternalStore(
    (changed) => {
      const query = window.matchMedia(ONE_COLUMN);
      query.addEventListener('change', changed);
      return () => query.removeEventListener('change', changed);
    },
    () => window.matchMedia(ONE_COLUMN).matches,
  );
}
