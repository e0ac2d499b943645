// Fitted or tightened for now, and not undone or finished.
import type { Thing } from "../../model/things.ts";
import type { FastenerMoment, PartMoment } from "../../walk/story.ts";
import type { JobRule } from "../rule.ts";
import { calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "still-for-now",
  group: "Parts",
  severity: "hint; error at release",
  safety: true,
  title: "Fitted or tightened `for now`, and not undone or finished",
  why: "A trial assembly is right while it is one. Left in, it is an old seal, a dry thread or a nut nipped up by hand that nobody remembers.",
  wrong: `fastener cap-bolt "Cap bolt"
step trial "Trial"
  tighten cap-bolt for now "to blue the bearing"
#                  ^^^^^^^ hint still-for-now
  done
`,
  right: `fastener cap-bolt "Cap bolt"
step trial "Trial"
  tighten cap-bolt for now "to blue the bearing"
  done
step apart "Apart again"
  undo cap-bolt
  done
`,
  scope: "job",
  reach: "names",
  check({ story, report }) {
    // One line that leaves a thing for now at several places is said once.
    const lines = new Map<object, { thing: Thing; it: PartMoment | FastenerMoment; places: string[] }[]>();
    for (const cell of [...story.parts, ...story.fasteners]) {
      if (!cell.now.forNow) continue;
      const it = (cell.history as (PartMoment | FastenerMoment)[]).findLast((moment) => moment.forNow && moment.phase === "done");
      if (it === undefined) continue;
      const line = it.action ?? it;
      const things = lines.get(line) ?? [];
      lines.set(line, things);
      const known = things.find((other) => other.thing === cell.thing);
      if (known === undefined) things.push({ thing: cell.thing, it, places: [cell.place] });
      else known.places.push(cell.place);
    }
    for (const { thing, it, places } of [...lines.values()].flat()) {
      const why = it.action?.forNow === undefined ? "" : ` (${it.action.forNow.value})`;
      report({
        where: { ...it.where, at: it.action?.forNowAt ?? it.where.at },
        severity: story.release === undefined ? "hint" : "error",
        message: `${calledAt(thing, places)} is ${it.verb === "fit" ? "in" : "tightened"} for now${why}. Undo it or finish it before the machine is released.`,
      });
    }
  },
};
