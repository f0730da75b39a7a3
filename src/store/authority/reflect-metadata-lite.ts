/**
 * The three calls of the reflect-metadata proposal that the certificate library's container asks for when it loads. Laid
 * under `Reflect` only where nothing is there yet. Not chosen: the polyfill package; 50 kB more of somebody else's code in
 * every start, for three maps.
 */
type Named = Map<unknown, unknown>;
interface MetadataCalls {
  getMetadata?: (name: unknown, target: object) => unknown;
  getOwnMetadata?: (name: unknown, target: object) => unknown;
  defineMetadata?: (name: unknown, value: unknown, target: object) => void;
}

export function layMetadataUnderReflect(): void {
  const reflect = Reflect as MetadataCalls;
  if (reflect.getMetadata !== undefined) return;
  const kept = new WeakMap<object, Named>();
  reflect.getOwnMetadata = (name, target) => kept.get(target)?.get(name);
  reflect.getMetadata = (name, target) => {
    for (let at: object | null = target; at !== null; at = Object.getPrototypeOf(at) as object | null) {
      const named = kept.get(at);
      if (named?.has(name)) return named.get(name);
    }
    return undefined;
  };
  reflect.defineMetadata = (name, value, target) => {
    const named: Named = kept.get(target) ?? new Map();
    kept.set(target, named.set(name, value));
  };
}
