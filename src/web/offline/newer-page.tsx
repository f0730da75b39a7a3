/** "A newer page is here": one tap takes it, leaving it changes nothing. */
import { useState, useSyncExternalStore } from 'react';
import './offline.css';
import { isNewerHere, onNewer, takeNewer } from './page-worker.ts';

export function NewerPage() {
  const isHere = useSyncExternalStore(onNewer, isNewerHere);
  const [isLeft, setLeft] = useState(false);
  if (!isHere || isLeft) return null;
  return (
    <aside className="newer-page" aria-label="A newer page is here">
      <p>A newer page is here.</p>
      <button type="button" className="key go" onClick={takeNewer}>
        Take it
      </button>
      <button type="button" className="key" onClick={() => setLeft(true)}>
        Not now
      </button>
    </aside>
  );
}
