/**
 * One page at a time: two pages of this origin on one device do not both send. Web Locks where the browser has them (they
 * are let go when a page dies); without them both send, which is harmless, since everything sent has an id or a hash.
 */
export async function inTurn<T>(name: string, act: () => Promise<T>): Promise<T> {
  const locks = (globalThis.navigator as Partial<Navigator> | undefined)?.locks;
  return locks === undefined ? act() : ((await locks.request(name, act)) as T);
}
