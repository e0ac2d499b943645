// A line that is too long to be read.
// Invariant: it has a fault, and what follows it is filed where it belongs.
import { tokensOf } from "./lexer.ts";
import { type Draft, spanOf } from "./line-nodes.ts";
import { type LineRead, whiteBefore } from "./line-read.ts";
import { detailShapes, headShapes, listsOf } from "./line-shapes.ts";
import { nameToken } from "./tokens.ts";

const blank: LineRead = { form: "blank" };

/** A line too long to be read is still known by its first word, so that what follows is filed where it belongs. */
export function readHuge(text: string): LineRead {
  const start = tokensOf(text.slice(0, 200));
  const first = start.tokens[0];
  if (first === undefined && (start.comment !== undefined || text.trim() === "" || text.trimStart().startsWith("#"))) return blank;
  const at = first === undefined ? { from: 0, to: 0 } : { from: first.startOffset, to: text.trimEnd().length };
  const keyword = first === undefined ? at : spanOf(first);
  const shape = first !== undefined && nameToken(first) ? (headShapes.get(first.image) ?? detailShapes.get(first.image)) : undefined;
  const node: Draft = {
    kind: shape?.kind ?? "unread",
    row: 0,
    at,
    keyword,
    fault: { at: keyword, message: "This line is too long to be read. Write it as several lines.", fixes: [] },
    written: text.slice(0, 400),
  };
  for (const list of listsOf.get(node.kind as string) ?? []) node[list] = [];
  if (node.kind === "action") node.verb = first?.image;
  if (node.kind === "renew") node.inPairs = false;
  return {
    form: shape !== undefined && headShapes.has(first?.image ?? "") ? "head" : "detail",
    word: first?.image ?? "",
    indent: whiteBefore(text, first),
    node,
  };
}
