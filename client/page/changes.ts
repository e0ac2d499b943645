// What has changed in a report since the marks began: rows that are new, rows that say something else, rows that are gone.
// Invariant: a row is told by its name, never by its line: a line typed above changes no row.

/** What each row said, by its name. */
export type Said = ReadonlyMap<string, { readonly text: string; readonly title: string }>;

export interface Changes {
  readonly changed: number;
  readonly fresh: number;
  /** What the rows that are gone were called. */
  readonly gone: readonly string[];
}

/** Reads the rows of a page; of several with one name each counts. */
export function saidBy(root: ParentNode): Said {
  const said = new Map<string, { text: string; title: string }>();
  for (const [name, row] of rowsIn(root)) said.set(name, { text: textOf(row), title: titleOf(row) });
  return said;
}

/** Puts a word on each row of `root` that is not as it was, and says what there was of it. */
export function markChanges(root: ParentNode, before: Said): Changes {
  let changed = 0;
  let fresh = 0;
  const here = new Set<string>();
  for (const [name, row] of rowsIn(root)) {
    here.add(name);
    const was = before.get(name);
    if (was?.text === textOf(row)) continue;
    if (was === undefined) fresh += 1;
    else changed += 1;
    putMark(row, was === undefined ? "+ new" : "\u2260 changed");
  }
  return { changed, fresh, gone: [...before].filter(([name]) => !here.has(name)).map(([, { title }]) => title) };
}

/** A word at the end of a row's first cell, or of the row itself. */
export function putMark(row: Element, words: string, kind = "changed"): void {
  const mark = row.ownerDocument.createElement("span");
  mark.className = `page-mark ${kind}`;
  mark.textContent = words;
  const home = row.querySelector("td:not(.box)") ?? row;
  home.append(" ", mark);
  row.classList.add(`is-${kind}`);
}

function* rowsIn(root: ParentNode): Generator<[string, Element]> {
  const seen = new Map<string, number>();
  for (const row of root.querySelectorAll("[data-row]")) {
    const name = row.getAttribute("data-row") as string;
    const n = seen.get(name) ?? 0;
    seen.set(name, n + 1);
    yield [n === 0 ? name : `${name} (${n + 1})`, row];
  }
}

/** Without the lines that it leads to, which move as the sheet is typed, and without marks. */
function textOf(row: Element): string {
  const walk = row.ownerDocument.createTreeWalker(row, NodeFilter.SHOW_TEXT);
  let text = "";
  for (let node = walk.nextNode(); node !== null; node = walk.nextNode()) if (node.parentElement?.closest(".at, .page-mark") === null) text += node.nodeValue;
  // A message may name a line in its words.
  return text
    .replace(/\blines? \d+/g, "line")
    .replace(/\s+/g, " ")
    .trim();
}

function titleOf(row: Element): string {
  const text = (row.querySelector(".item")?.textContent ?? textOf(row)).trim();
  return text.length <= 60 ? text : `${text.slice(0, 59)}\u2026`;
}
