/**
 * The page kept on this device (docs/adr/0013): a service worker that the build writes holds every file of the page, so it
 * opens without network. It never touches /api. A newer page waits until a person says so: nobody's half-filled field is
 * taken away by an update. Browsers allow this only on locked pages and on the machine itself.
 */
type Listener = () => void;

let waiting: ServiceWorker | null = null;
const listeners = new Set<Listener>();

/** False on a plain page of the shop's network: it works while connected, and says so. */
export function canBeKept(): boolean {
  return 'serviceWorker' in navigator && window.isSecureContext;
}

export function isNewerHere(): boolean {
  return waiting !== null;
}

export function onNewer(listener: Listener): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

const LOOK_AGAIN_MS = 30 * 60_000;

export async function keepPage(): Promise<void> {
  if (!canBeKept()) return;
  const registration = await navigator.serviceWorker.register('/sw.js', { scope: '/' }).catch(() => null);
  if (registration === null) return;
  const look = (worker: ServiceWorker | null): void => {
    worker?.addEventListener('statechange', () => found(registration));
    found(registration);
  };
  look(registration.waiting ?? registration.installing);
  registration.addEventListener('updatefound', () => look(registration.installing));
  // A page on a tablet stays open for weeks.
  setInterval(() => void registration.update().catch(() => undefined), LOOK_AGAIN_MS);
}

/** One that waits beside one that works is newer; the very first one is just the page. */
function found(registration: ServiceWorkerRegistration): void {
  const newer = registration.active === null ? null : registration.waiting;
  if (newer === waiting) return;
  waiting = newer;
  for (const listener of listeners) listener();
}

/** Everything recorded is kept already and the screen is in the address, so loading anew loses nothing. */
export function takeNewer(): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => window.location.reload(), { once: true });
  waiting?.postMessage({ type: 'SKIP_WAITING' });
}
