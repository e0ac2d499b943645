// Where in a long list in order a thing is, by halving it.

/** How many at the beginning of a list are so, where none is so behind the first that is not. */
export function countAhead<T>(list: ArrayLike<T>, isSo: (it: T) => boolean): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isSo(list[middle] as T)) low = middle + 1;
    else high = middle;
  }
  return low;
}
