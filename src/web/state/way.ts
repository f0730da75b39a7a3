/**
 * How this page reaches the shop's machine. What a page keeps belongs to the address it was installed from, but the
 * machine may answer at another one tomorrow (docs/adr/0010): so the address it syncs with is a setting apart from the
 * page's own. There a cookie is not sent; the token from pairing is. Kept in localStorage, where it can be read before
 * the first request.
 */
const TOKEN_KEY = 'witnessmark-token';
const ADDRESS_KEY = 'witnessmark-sync-address';
const OTHERS_KEY = 'witnessmark-other-addresses';

export interface Way {
  /** Empty: the page's own address. Otherwise an origin, `https://witnessmark.local:4379`. */
  readonly address: string;
  readonly token: string | null;
}

export function wayNow(): Way {
  return { address: localStorage.getItem(ADDRESS_KEY) ?? '', token: localStorage.getItem(TOKEN_KEY) };
}

export function keepToken(token: string): void {
  localStorage.setItem(TOKEN_KEY, token);
}

/** The address of the shop to sync with; empty for the page's own. Gives false for what is no such address. */
export function keepAddress(text: string): boolean {
  const address = originOf(text);
  if (address === null) return false;
  if (address === '' || address === window.location.origin) localStorage.removeItem(ADDRESS_KEY);
  else localStorage.setItem(ADDRESS_KEY, address);
  return true;
}

function originOf(text: string): string | null {
  if (text.trim() === '') return '';
  try {
    const url = new URL(text.includes('://') ? text : `https://${text}`);
    return url.protocol === 'https:' || url.protocol === 'http:' ? url.origin : null;
  } catch {
    return null;
  }
}

/**
 * The shop does not answer where we ask: the next place it is known by, in a circle that holds the page's own. False where
 * there is none, or no token to be known by there.
 */
export function tryNextAddress(): boolean {
  const { address, token } = wayNow();
  const all = ['', ...otherAddresses().filter((a) => a !== window.location.origin)];
  if (token === null || all.length < 2 || window.location.protocol !== 'https:') return false;
  return keepAddress(all[(all.indexOf(address) + 1) % all.length] ?? '');
}

/** Where else the shop said it can be reached, from its last answer. */
export function keepOtherAddresses(addresses: readonly string[]): void {
  localStorage.setItem(OTHERS_KEY, JSON.stringify(addresses));
}

export function otherAddresses(): readonly string[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(OTHERS_KEY) ?? '[]');
    return Array.isArray(kept) ? kept.filter((a): a is string => typeof a === 'string') : [];
  } catch {
    return [];
  }
}
