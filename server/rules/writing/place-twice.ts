// A place that stands twice in one list: the second was to be another.
import type { Detail, Entry, Name } from "../../../grammar/tree.ts";
import { where } from "../../model/where.ts";
import type { EntryRule } from "../rule.ts";

interface Placed extends Pick<Name, "text" | "at"> {
  /** Where it is not its list's. */
  readonly row?: number;
}

export const rule: EntryRule = {
  id: "place-twice",
  group: "Writing",
  severity: "error",
  safety: false,
  title: "One place named twice in a list",
  why: "Nobody looks at the left one twice and says so in one line: the second was to be another place, and of that one nothing is said.",
  wrong: `places side left, right
check rods-free "Rods free"
seen rods-free final good left, left
#                               ^^^^ error place-twice
`,
  right: `places side left, right
check rods-free "Rods free"
seen rods-free final good left, right
`,
  scope: "entry",
  check({ file, entry, report }) {
    for (const { row, places, isOfThreads } of listsIn(entry)) {
      const before = new Set<string>();
      for (const { text, at, row: ownRow } of places) {
        if (before.has(text))
          report({
            where: where(file, entry, ownRow ?? row, at),
            severity: "error",
            message: `\`${text}\` ${isOfThreads ? "has a thread already" : "stands twice in this list"}. Write the place that is meant, or take one of them out.`,
          });
        before.add(text);
      }
    }
  },
};

/** The lists of an entry; the threads of a fastener, each with its places, are one: of two at one place one is the other's. */
function listsIn(entry: Entry): readonly { readonly row: number; readonly places: readonly Placed[]; readonly isOfThreads?: true }[] {
  const own = "places" in entry ? [{ row: 0, places: entry.places }] : [];
  const details = entry.details as readonly Detail[];
  const lists = details.flatMap((it) => ("places" in it && it.places.length > 1 && it.kind !== "thread" ? [{ row: it.row, places: it.places }] : []));
  const threads = details.flatMap((it) => (it.kind === "thread" ? it.places.map(({ text, at }) => ({ text, at, row: it.row })) : []));
  return [...own, ...lists, { row: 0, places: threads, isOfThreads: true }];
}
