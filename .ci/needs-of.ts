// Which bits of words a text must have for a pattern to take it: read from the pattern, which is of the plain kind that the lists of ways are written in.

/** Of a pattern's source, in small letters: every text that it takes has one of them. None where one of its alternatives needs none. */
export function needsOf(source: string): readonly string[] {
  const needs: string[] = [];
  for (let at = 0; at <= source.length; ) {
    const one = alternative(source, at);
    if (one.needs.length === 0) return [];
    needs.push(...one.needs);
    at = one.end + 1;
  }
  // Of “the rest” its longest word is enough, and of that its beginning: so they are few, and short.
  const each = [...new Set(needs.map(beginningOfTheLongest))].sort();
  // Where “drip” is looked for, “dripping” is found.
  return each.filter((it) => !each.some((other) => other !== it && it.includes(other)));
}

/**
 * One alternative, from where it begins to the `|`, the `)` or the end behind it. A text that it takes has one of the bits of words in `needs`: of the runs of letters, and of the groups,
 * that may not be left out, those of which the shortest is longest.
 */
function alternative(source: string, from: number): { readonly end: number; readonly needs: readonly string[] } {
  let needs: readonly string[] = [];
  let letters = "";
  let at = from;
  const offer = (them: readonly string[]) => {
    if (worthOf(them) > worthOf(needs)) needs = them;
  };
  const endRun = () => {
    if (letters !== "") offer([letters]);
    letters = "";
  };
  for (; at < source.length && source[at] !== "|" && source[at] !== ")"; ) {
    const char = source[at] as string;
    let end = at + 1;
    let letter: string | undefined;
    let group: readonly string[] = [];
    let hasWidth = true;
    if (char === "\\") {
      const next = source[at + 1] as string;
      end = /[pPux]/u.test(next) ? afterLongEscape(source, at) : at + 2;
      hasWidth = next !== "b" && next !== "B";
      if (!/[\p{L}\d]/u.test(next)) letter = next;
    } else if (char === "^" || char === "$") hasWidth = false;
    else if (char === "[") end = afterClass(source, at);
    else if (char === "(") {
      const inside = groupAt(source, at);
      end = inside.end;
      // What must or must not stand beside takes nothing itself.
      hasWidth = !inside.isBeside;
      if (hasWidth) group = inside.needs;
    } else if (char !== ".") letter = char.toLowerCase();
    const counted = afterCount(source, end);
    const mayBeLeftOut = source[end] === "*" || source[end] === "?" || (source[end] === "{" && source[end + 1] === "0");
    if (letter !== undefined && counted === end) letters += letter;
    else if (hasWidth) {
      endRun();
      if (!mayBeLeftOut) offer(letter === undefined ? group : [letter]);
    }
    at = counted;
  }
  endRun();
  return { end: at, needs };
}

/** A group: where it ends, and what it needs, which is what each of its alternatives does. */
function groupAt(source: string, at: number): { readonly end: number; readonly isBeside: boolean; readonly needs: readonly string[] } {
  const [opening] = /^\((?:\?(?:[:=!]|<[=!]|<\w+>))?/u.exec(source.slice(at, at + 40)) as RegExpExecArray;
  const needs: string[] = [];
  let isEach = true;
  let end = at + opening.length - 1;
  do {
    const one = alternative(source, end + 1);
    if (one.needs.length === 0) isEach = false;
    needs.push(...one.needs);
    end = one.end;
  } while (source[end] === "|");
  return { end: end + 1, isBeside: /[=!]$/u.test(opening), needs: isEach ? needs : [] };
}

function beginningOfTheLongest(bit: string): string {
  return bit
    .trim()
    .split(" ")
    .reduce((longest, word) => (word.length > longest.length ? word : longest), "")
    .slice(0, 5);
}

function afterLongEscape(source: string, at: number): number {
  const [found] = /^\\(?:[pP]\{[^}]*\}|u\{[^}]*\}|u[\da-fA-F]{4}|x[\da-fA-F]{2})/u.exec(source.slice(at, at + 60)) ?? ["  "];
  return at + found.length;
}

function afterClass(source: string, at: number): number {
  let end = at + 1;
  while (source[end] !== "]") end += source[end] === "\\" ? 2 : 1;
  return end + 1;
}

/** Behind the `?`, `*`, `+` or `{…}`, lazy or not, that may stand behind an atom. */
function afterCount(source: string, at: number): number {
  const char = source[at];
  if (char !== "?" && char !== "*" && char !== "+" && char !== "{") return at;
  const end = char === "{" ? source.indexOf("}", at) + 1 : at + 1;
  return source[end] === "?" ? end + 1 : end;
}

/** The longer the shortest of them, the fewer texts have one; one letter tells next to nothing. */
function worthOf(bits: readonly string[]): number {
  let shortest = bits.length === 0 ? 0 : 6;
  for (const it of bits) shortest = Math.min(shortest, it.trim().length);
  return shortest === 0 ? 0 : shortest - bits.length / 1000;
}
