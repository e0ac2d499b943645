// Makes what is shown into what is to be shown, touching only what differs: what stays keeps its focus, its selection and its place on the screen.
// Invariant: afterwards the old tree equals the new one; nothing is run, nothing is read as markup here.

/** Rows are known again by `data-row`; all else by its kind and its place among its like. */
export function morph(old: Element, next: Element): void {
  sameAttributes(old, next);
  const known = rowsOf(old);
  const kept = new Set<Node>();
  const wanted = rowsOf(next);
  // A row that goes is taken away first, so that those behind it stay where they are and keep the focus.
  for (const [name, row] of known) if (!wanted.has(name)) row.remove();
  let at: ChildNode | null = old.firstChild;
  for (const want of [...next.childNodes]) {
    const have = matching(want, at, known, kept);
    if (have === undefined) {
      old.insertBefore(want, at);
      continue;
    }
    kept.add(have);
    if (have === at) at = at.nextSibling;
    else old.insertBefore(have, at);
    if (have.isEqualNode(want)) continue;
    if (have instanceof Element && want instanceof Element) morph(have, want);
    else have.nodeValue = want.nodeValue;
  }
  while (at !== null) {
    const gone: ChildNode = at;
    at = at.nextSibling;
    gone.remove();
  }
}

/** The node that is to become `want`: the row of its name, else the next of its kind that is no row. */
function matching(want: Node, at: ChildNode | null, known: ReadonlyMap<string, ChildNode>, kept: ReadonlySet<Node>): ChildNode | undefined {
  const row = rowName(want);
  if (row !== undefined) {
    const have = known.get(`${want.nodeName} ${row}`);
    return have === undefined || kept.has(have) ? undefined : have;
  }
  for (let it = at; it !== null; it = it.nextSibling) {
    if (rowName(it) !== undefined) continue;
    return it.nodeName === want.nodeName ? it : undefined;
  }
  return undefined;
}

function rowsOf(parent: Element): Map<string, ChildNode> {
  const known = new Map<string, ChildNode>();
  for (const it of parent.childNodes) {
    const row = rowName(it);
    if (row !== undefined && !known.has(`${it.nodeName} ${row}`)) known.set(`${it.nodeName} ${row}`, it);
  }
  return known;
}

function rowName(node: Node): string | undefined {
  return node instanceof Element ? (node.getAttribute("data-row") ?? undefined) : undefined;
}

function sameAttributes(old: Element, next: Element): void {
  for (const { name } of [...old.attributes]) if (!next.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of next.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
}
