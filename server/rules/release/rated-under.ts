// Something critical that may carry less than the machine's own plate says.
import { type Job, placesOf } from "../../model/job.ts";
import type { Part, Thing } from "../../model/things.ts";
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
      if (part.kind !== "part" || !part.critical || part.rated === undefined) continue;
      const bearsAll = isTheOneRope(job, part, machine);
      if (shares.test(`${part.name} ${part.title ?? ""}`) && !bearsAll) continue;
      // The plate of what tows says what it weighs itself.
      if (towsItself && towGear.test(`${part.name.replaceAll("-", " ")} ${part.title ?? ""}`)) continue;
      const one = forceOf(part.rated);
      const count = placesOf(job, part).length * (part.perPlace ?? 1);
      if (one === undefined || one.mul(count).compare(all) >= 0) continue;
      const line = part.lines.findLast((it) => it.detail.kind === "rated");
      report({
        where: line === undefined ? where(part.file, part.entry, 0, part.at) : where(line.file, line.entry, line.detail.row, part.rated.at),
        severity: "warning",
        ...(bearsAll || isInLine(`${part.name.replaceAll("-", " ")} ${part.title ?? ""}`) ? { open: true } : {}),
        message: `${called(part)} may carry ${count > 1 ? `${count} x ` : ""}${quantityText(part.rated)}, and the machine ${quantityText(plate.load)}. Fit one that is rated for it, or correct the figure.`,
      });
    }
  },
};

/**
 * The one rope or chain of what hauls or lifts, where nothing in the sheet speaks of falls or of sheaves: all of the pull is on that. Common practice: one that is reeved in falls has
 * a block.
 */
function isTheOneRope(job: Job, part: Part, machine: string): boolean {
  const words = (it: Thing) => `${it.name.replaceAll("-", " ")} ${"title" in it ? (it.title ?? "") : ""}`;
  if (!hauls.test(machine) || !oneRope.test(words(part)) || ofLess.test(words(part)) || placesOf(job, part).length * (part.perPlace ?? 1) !== 1) return false;
  const plate = part.lines.flatMap(({ detail }) => (detail.kind === "rated" ? [detail.source?.value ?? ""] : []));
  return ![machine, ...plate, ...[...job.things.values()].filter((it) => !it.implied).map(words)].some((it) => reeved.test(it));
}

const hauls = /(^|[^\p{L}])(winch(es)?|capstan|windlass|hoists?|cranes?|davits?|derricks?|gin|whim|crab)($|[^\p{L}])/iu;
const oneRope = /(^|[^\p{L}])(ropes?|wires?|chains?|cables?|slings?)$|(^|[^\p{L}])(wire rope|rope|load chain|hoist(ing)? (chain|rope|wire))($|[^\p{L}])/iu;
/** What another load hangs on, or none. */
const ofLess = /(^|[^\p{L}])(safety|brake|hand|tag|trip|guy|topping|luff\w*|slew\w*|balance|control|governor|drive|roller|lashing)($|[^\p{L}])/iu;
const reeved =
  /(^|[^\p{L}])(sheaves?|pulleys?|(hook|pulley|bottom|sheave|snatch|rope|head|jib|top|fall|running)[- ]blocks?|falls?|parts? of (rope|line)|reev\w*|rove|purchase|bridle|compensat\w*)($|[^\p{L}])/iu;

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
