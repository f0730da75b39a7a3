/**
 * A table's own entry. Ids and states are free words, and some of them ("constructor", "toString") are also names that
 * every object inherits: a plain `table[key]` would find those. Not chosen: maps, since the file is plain data.
 */
export function own<T>(table: Readonly<Record<string, T>> | undefined, key: string): T | undefined {
  return table !== undefined && Object.hasOwn(table, key) ? table[key] : undefined;
}
