// Where the rows of a long list stand, by what stands in them: numbers and no texts, so that a list of a hundred thousand rows is little more than its text.

/** Whole numbers, one behind the other: four bytes each. */
export function growing(): { put(value: number): number; at(place: number): number; size(): number } {
  let values = new Int32Array(1024);
  let size = 0;
  return {
    put(value) {
      if (size === values.length) {
        const more = new Int32Array(size * 2);
        more.set(values);
        values = more;
      }
      values[size] = value;
      size += 1;
      return size - 1;
    },
    at: (place) => values[place] as number,
    size: () => size,
  };
}

export interface Index {
  /** A text that is there, and at which place. */
  put(text: string | undefined, place: number): void;
  /** Where it may be, in the order put in; others with the same hash are among them. */
  places(text: string): number[];
}

/** Holds no text: chains of places by the hash of what stands there. */
export function indexOfTexts(): Index {
  const heads = new Int32Array(2 ** 16).fill(-1);
  const places = growing();
  const next = growing();
  return {
    put(text, place) {
      if (text === undefined) return;
      const slot = hashOf(text) & (heads.length - 1);
      next.put(heads[slot] as number);
      heads[slot] = places.put(place);
    },
    places(text) {
      const out: number[] = [];
      for (let at = heads[hashOf(text) & (heads.length - 1)] as number; at >= 0; at = next.at(at)) out.push(places.at(at));
      return out.reverse();
    },
  };
}

/** FNV-1a over the text's 16-bit units, with its halves folded together. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash ^ (hash >>> 16)) >>> 0;
}
