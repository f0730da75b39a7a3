/**
 * Asks the browser once to keep what is here even when the device gets short of room. Asked after the first photograph:
 * browsers grant it sooner to a page that is used, and a person then knows what it is about.
 */
const KEY = 'witnessmark-persist';

export type Lasting = 'lasting' | 'while-there-is-room' | 'not-asked';

export async function askToPersist(): Promise<void> {
  if (lasting() === 'lasting') return;
  const storage = (navigator as Partial<Navigator>).storage;
  if (storage?.persist === undefined) return;
  const granted = await storage.persist().catch(() => false);
  localStorage.setItem(KEY, granted ? 'lasting' : 'while-there-is-room');
}

export function lasting(): Lasting {
  const kept = localStorage.getItem(KEY);
  return kept === 'lasting' || kept === 'while-there-is-room' ? kept : 'not-asked';
}
