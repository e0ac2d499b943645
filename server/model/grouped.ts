// A list by what its members have in common, so that none is looked for by going through all.

import { type Slices, runThrough, someAtOnce } from "../../grammar/slices.ts";

/** The members by their key, in the order of the list. */
export function grouped<K, T>(list: readonly T[], keyOf: (it: T) => K): ReadonlyMap<K, readonly T[]> {
  return runThrough(grouping(list, keyOf));
}

/** The same in slices. */
export function* grouping<K, T>(list: readonly T[], keyOf: (it: T) => K): Slices<ReadonlyMap<K, readonly T[]>> {
  const groups = new Map<K, T[]>();
  for (const [i, it] of list.entries()) {
    putInto(groups, keyOf(it), it);
    if (i % someAtOnce === someAtOnce - 1) yield;
  }
  return groups;
}

/** Behind those that its key has already. The list grows as it stands: made anew for each of thousands it would grow as their square. */
export function putInto<K, T>(groups: Map<K, T[]>, key: K, it: T): void {
  const group = groups.get(key);
  if (group === undefined) groups.set(key, [it]);
  else group.push(it);
}
