// Something critical that may carry less than the machine's own plate says.
import { placesOf } from "../../model/job.ts";
import { quantityText } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import { forceOf } from "../proof-loads.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "rated-under",
  group: "Release",
  severity: "warning; open at release of what all of the load hangs on or pulls at",
  safety: false,
  title: "A critical part is `rated` for less than the machine is, all pieces of it together",
  why: "What came may be the smaller size, and bolts on just as well. All that there are of a part are taken together; what hangs in several falls of a rope carries its share only, and of that nothing is said.",
  wrong: `sheet "Trailer"
  machine "Invented trailer"
  rated 7000 lb "Plate"
part coupler "Coupler"
  rated 5000 lb "Stamped on the one that came"
#       ^^^^^^^ warning rated-under
  critical "the trailer"
`,
  right: `sheet "Trailer"
  machine "Invented trailer"
  rated 7000 lb "Plate"
part coupler "Coupler"
  rated 7000 lb "Stamped on the one that came"
  critical "the trailer"
`,
  scope: "job",
  check({ job, report }) {
    const plate = job.sheet?.details.findLast((it) => it.kind === "rated");
    if (plate?.kind !== "rated" || plate.load === undefined) return;
    const all = forceOf(plate.load);
    if (all === undefined) return;
    const machine = job.sheet?.details.findLast((it) => it.kind === "machine")?.text?.value ?? "";
    const towsItself = tows.test(machine) && !isTowed.test(machine);
    for (const part of job.things.values()) {
      if (part.kind !== "part" || !part.critical || part.rated === undefined || shares.test(`${part.name} ${part.title ?? ""}`)) continue;
      // The plate of what tows says what it weighs itself.
      if (towsItself && towGear.test(`${part.name.replaceAll("-", " ")} ${part.title ?? ""}`)) continue;
      const one = forceOf(part.rated);
      const count = placesOf(job, part).length * (part.perPlace ?? 1);
      if (one === undefined || one.mul(count).compare(all) >= 0) continue;
      const line = part.lines.findLast((it) => it.detail.kind === "rated");
      report({
        where: line === undefined ? where(part.file, part.entry, 0, part.at) : where(line.file, line.entry, line.detail.row, part.rated.at),
        severity: "warning",
        ...(isInLine(`${part.name.replaceAll("-", " ")} ${part.title ?? ""}`) ? { open: true } : {}),
        message: `${called(part)} may carry ${count > 1 ? `${count} x ` : ""}${quantityText(part.rated)}, and the machine ${quantityText(plate.load)}. Fit one that is rated for it, or correct the figure.`,
      });
    }
  },
};

/** What may hang in several falls, or of which each carries a share by its place. */
const shares = /(^|[^\p{L}])(ropes?|wires?|chains?|slings?|falls?|sheaves?|sheave|pulleys?|blocks?|straps?)($|[^\p{L}])/iu;

/** All of it hangs on this, or pulls at it: there is no other beside it. A second hook that is made for less is not meant. */
function isInLine(words: string): boolean {
  return inLine.test(words) && !/(^|[^\p{L}])(aux(iliary)?|second|fly|whip|spare|breakaway|extension|reach|outreach|radius)($|[^\p{L}])/iu.test(words);
}

const tows = /(^|[^\p{L}])(van|car|lorry|truck|tractor|pick-?up|camper|saloon|estate|tourer|bus|coach|locomotive)($|[^\p{L}])/iu;
const isTowed = /(^|[^\p{L}])(\p{L}*trailer|caravan|cart|dray|horse ?box|semi)($|[^\p{L}])/iu;
const towGear = /(^|[^\p{L}])(couplers?|couplings?|tow(ing)?[- ]?(hitch|ball|bar|hook|eye|pin|jaw)|hitch|ball hitch|draw[- ]?bar|fifth wheel)($|[^\p{L}])/iu;

const inLine =
  /(^|[^\p{L}])(hooks?|couplers?|couplings?|tow[- ]?hitch|hitch|tow[- ]?ball|ball hitch|draw[- ]?bar|tow[- ]?bar|lifting eye|shackle|swivel|jib|boom|carriage|king ?post|fifth wheel)($|[^\p{L}])/iu;
