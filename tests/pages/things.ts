// What a page is made of, from its text alone: the kinds of its elements, and how long the words and texts in each kind of element are.

export interface Things {
  /** Elements and classes from the body down, with `text` where there is some. */
  readonly kinds: ReadonlySet<string>;
  /** By element and class, the longest word and the longest text, in characters. */
  readonly lengths: ReadonlyMap<string, number>;
}

const empty = new Set(["area", "base", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr"]);

/** `html` is well-formed: each element that is not empty is closed. */
export function thingsIn(html: string): Things {
  const kinds = new Set<string>();
  const lengths = new Map<string, number>();
  const path: { readonly own: string; readonly whole: string }[] = [];
  const body = html.slice(html.indexOf("<body"));
  for (const [, closing, tag = "", attributes = "", text] of body.matchAll(/<(\/?)([a-z][a-z0-9]*)((?:[^>"]|"[^"]*")*)>|([^<]+)/gi)) {
    const inside = path.at(-1);
    if (text !== undefined) {
      if (text.trim() === "" || inside === undefined) continue;
      kinds.add(`${inside.whole} text`);
      const read = text.trim().replace(/&[^;]+;/g, "x");
      note(`${inside.own} word`, Math.max(...read.split(/\s+/).map((it) => it.length)));
      note(`${inside.own} text`, read.length);
    } else if (closing === "/") path.pop();
    else {
      // A number in a class is a width.
      const own = `${tag}.${(/class="([^"]*)"/.exec(attributes)?.[1] ?? "").replace(/\d+/g, "0")}`;
      const whole = `${inside?.whole ?? ""}>${own}`;
      kinds.add(whole);
      if (!empty.has(tag) && !attributes.endsWith("/")) path.push({ own, whole });
    }
  }
  return { kinds, lengths };

  function note(what: string, length: number): void {
    if (length > (lengths.get(what) ?? 0)) lengths.set(what, length);
  }
}
