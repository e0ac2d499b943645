// What follows from an object alone is worked out once, and kept for as long as the object is.
// Invariant: an answer hangs on nothing but its object, which doesn't change.
import { type Slices, runThrough } from "../../grammar/slices.ts";

/** Worked out when it is first asked for, and once. */
export function once<V extends object | undefined>(make: () => V): () => V {
  let made: { readonly value: V } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** The same function, asked once of each object. */
export function memo<K extends object, V>(make: (of: K) => V): (of: K) => V {
  const known = new WeakMap<K, V>();
  return (of) => {
    const before = known.get(of);
    if (before !== undefined || known.has(of)) return before as V;
    const made = make(of);
    known.set(of, made);
    return made;
  };
}

/** The same of a text: what a line says in words is asked again at every key. So many texts are kept, and when there are more it begins anew. */
export function memoText<V>(make: (text: string) => V): (text: string) => V {
  const known = new Map<string, V>();
  return (text) => {
    const before = known.get(text);
    if (before !== undefined || known.has(text)) return before as V;
    const made = make(text);
    if (known.size >= mostTexts) known.clear();
    if (text.length <= longestText) known.set(text, made);
    return made;
  };
}

const mostTexts = 4_000;
const longestText = 1_000;

/** The same of what is worked out in slices: `whole` in one go, `sliced` for who has others to serve meanwhile. */
export function memoSliced<K extends object, V>(make: (of: K) => Slices<V>): Sliced<K, V> {
  return slicedOnce(make, new WeakMap<K, V>());
}

/** The same by names, kept for as long as what asks is. */
export function namedSliced<V>(make: (of: string) => Slices<V>): Sliced<string, V> {
  return slicedOnce(make, new Map<string, V>());
}

export interface Sliced<K, V> {
  whole(of: K): V;
  sliced(of: K): Slices<V>;
}

function slicedOnce<K, V>(make: (of: K) => Slices<V>, known: { has(of: K): boolean; get(of: K): V | undefined; set(of: K, made: V): unknown }): Sliced<K, V> {
  function* sliced(of: K): Slices<V> {
    if (!known.has(of)) {
      const made = yield* make(of);
      // Whoever asked meanwhile has been given theirs, and it stays the one.
      if (!known.has(of)) known.set(of, made);
    }
    return known.get(of) as V;
  }
  return { whole: (of) => (known.has(of) ? (known.get(of) as V) : runThrough(sliced(of))), sliced };
}
