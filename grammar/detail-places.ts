// Which detail may stand under which entry, and the shape that it must have there.
// Six words have a shape for each entry (`safe`, `restore`, `recheck`, `set`, `bleed`, `critical`): they are read in any shape and checked here.
import { type Draft, fault } from "./line-nodes.ts";
import type { Span } from "./tree.ts";
import { type EntryKind, detailWords, entryWords } from "./words.ts";

export function belongs(kind: string, entry: EntryKind): boolean {
  return kind === "unread" || (kindsUnder.get(entry) as ReadonlySet<string>).has(kind);
}

const kindsUnder: ReadonlyMap<EntryKind, ReadonlySet<string>> = new Map(
  entryWords.map(({ word }) => {
    const kinds = new Set<string>(detailWords.filter((it) => it.under === "any" || it.under.includes(word)).map((it) => it.kind));
    if (word === "step") kinds.add("action");
    if (word === "measure") kinds.add("reading");
    return [word, kinds];
  }),
);

/** Gives a detail the shape that it has under this entry; one that can't have it gets a fault. */
export function fitShape(node: Draft, entry: EntryKind): void {
  const at = node.keyword as Span;
  // What seems to be missing may be what is left blank.
  const broken = node.fault !== undefined || node.blanks !== undefined;
  const say = (message: string) => {
    if (!broken) node.fault = fault(at, message);
  };
  switch (node.kind) {
    case "action":
      if (entry === "hazard" && node.verb === "safe")
        become(node, "safe-before", "names"), say("In a hazard, write what must wait until it is safe: safe before NAME…");
      if (entry === "hazard" && node.verb === "restore")
        become(node, "restore-after", "names"), say("In a hazard, write what must be back first: restore after NAME…");
      if (entry === "fluid" && node.verb === "bleed") become(node, "needs-bleed"), say("In a fluid, `bleed` is a line by itself.");
      return;
    case "safe-before":
    case "restore-after":
      if (entry === "step") {
        const verb = node.kind === "safe-before" ? "safe" : "restore";
        become(node, "action", "things", "places");
        node.verb = verb;
        say(`In a step, name the hazard: ${verb} HAZARD.`);
      }
      return;
    case "needs-bleed":
      if (entry === "step") {
        become(node, "action", "things", "places");
        node.verb = "bleed";
        say("Name the fluid after `bleed`: bleed FLUID.");
      }
      return;
    case "recheck":
    case "recheck-after": {
      const named = node.name !== undefined;
      if (entry === "release") {
        node.kind = "recheck";
        if (!named) say("Name what is to be tried again after `recheck`: recheck NAME after Q.");
      }
      if (entry === "fastener") {
        node.kind = "recheck-after";
        if (named || node.done !== undefined) say("Under a fastener the line is short: recheck after Q.");
      }
      return;
    }
    case "set":
      if (entry === "limit" && node.range === undefined) say("In a limit, write what it must be left at: set RANGE by NAME…");
      if (entry === "check" && node.range !== undefined) say("A check has no range: set by NAME…");
      return;
    default:
      return;
  }
}

function become(node: Draft, kind: string, ...lists: readonly string[]): void {
  const keep = { row: node.row, at: node.at, keyword: node.keyword, ...(node.fault === undefined ? {} : { fault: node.fault, written: node.written }) };
  for (const field of Object.keys(node)) delete node[field];
  Object.assign(node, { kind, ...keep });
  for (const list of lists) node[list] = [];
}
