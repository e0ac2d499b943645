// The order in which jobs are listed.
import type { Standing } from "./standing.ts";

/** The unsafe ones first, then those with the most open. */
export function worstFirst<T extends { readonly path: string; readonly standing: Standing }>(jobs: readonly T[]): T[] {
  const open = ({ standing }: T) => standing.open ?? standing.unsafe.length;
  return [...jobs].sort((a, b) => b.standing.unsafe.length - a.standing.unsafe.length || open(b) - open(a) || (a.path < b.path ? -1 : 1));
}
