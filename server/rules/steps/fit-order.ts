// A fastener done up before what it holds is on; a part over one that is still off.
import type { JobRule } from "../rule.ts";
import { called, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "fit-order",
  group: "Order of work",
  severity: "error",
  safety: false,
  title: "A fastener done up before what it holds is on; a part over one that is still off",
  why: "It will all have to come apart again, and then a used pin or seal is tempting. What came off last goes on first.",
  wrong: `fastener cover-nut "Cover nut"
part cover "Cover"
  held by cover-nut
step strip "Cover off"
  undo cover-nut
  remove cover
  done
step refit "Nuts on"
  tighten cover-nut
#         ^^^^^^^^^ error fit-order
  done
`,
  right: `fastener cover-nut "Cover nut"
part cover "Cover"
  held by cover-nut
step strip "Cover off"
  undo cover-nut
  remove cover
  done
step refit "Cover on"
  fit cover
  tighten cover-nut
  done
`,
  scope: "job",
  check({ story, report }) {
    const said = new Map<object, Set<string>>();
    const once = (action: object | undefined, name: string): boolean => {
      if (action === undefined) return false;
      const names = said.get(action) ?? new Set();
      said.set(action, names);
      if (names.has(name)) return false;
      names.add(name);
      return true;
    };
    const discarded = (name: string) => story.findings.some((found) => found.thing.name === name && found.decision?.detail.decision === "discard");
    for (const cell of story.fasteners) {
      if (cell.unsure) continue;
      for (const it of cell.history) {
        if (it.verb !== "tighten" || it.before.on > 0) continue;
        const off = it.holdsOff.filter((part) => !discarded(part.thing.name));
        if (off.length === 0 || !once(it.action, cell.thing.name)) continue;
        report({ where: it.where, severity: "error", message: `${called(cell.thing, cell.place)} is done up while ${listed(off.map((part) => midSentence(part.thing, part.place)))} is still off. Fit that first.` });
      }
    }
    for (const cell of story.parts) {
      if (cell.unsure) continue;
      for (const it of cell.history) {
        if (it.verb !== "fit") continue;
        const off = it.overOff.filter((part) => !discarded(part.thing.name));
        if (off.length === 0 || !once(it.action, cell.thing.name)) continue;
        report({ where: it.where, severity: "error", message: `${called(cell.thing, cell.place)} goes on while ${listed(off.map((part) => midSentence(part.thing, part.place)))} behind it is still off. Fit that first.` });
      }
    }
  },
};
