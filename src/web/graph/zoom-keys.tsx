/** Smaller, fit, larger: for hands that do not pinch. */
import type { Pan } from './use-pan.ts';

export function ZoomKeys({ pan }: { readonly pan: Pan }) {
  return (
    <div className="zoom">
      <button type="button" aria-label="Smaller" onClick={() => pan.zoom(1 / 1.3)}>
        −
      </button>
      <button type="button" onClick={pan.fit}>
        Fit
      </button>
      <button type="button" aria-label="Larger" onClick={() => pan.zoom(1.3)}>
        +
      </button>
    </div>
  );
}
