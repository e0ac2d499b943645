// One of a matched set or a pair renewed without the other.
import type { Job } from "../../model/job.ts";
import { isAt, ordersOf } from "../../model/orders.ts";
import { kindOfMachine } from "../../trade/kind-of-machine.ts";
import { findingsOf } from "../../story/decisions.ts";
import { type Cure, backFromWork, repairedAsFound } from "../../story/put-right.ts";
import { type Lot, countOf } from "../../story/lots.ts";
import type { PartCell, PartMoment } from "../../story/story.ts";
import { partedInSpite } from "../all-or-none.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";
import { shortened } from "../test-words.ts";
import { agreeing, called, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "set-split",
  group: "Parts",
  severity:
    "error on a critical set, else warning; information while the others are off and the job is under way; hint when the others follow; told too of what an answer or a reason says is renewed together or not at all",
  safety: true,
  title: "One of a matched set renewed or moved without the others; one of a pair",
  why: "A crown wheel and pinion are lapped together, and a bearing's cup wears to its cone. One new half beside one old half runs on the wrong places from the first turn.",
  wrong: `part cup "Bearing cup"
  matched with cone
part cone "Bearing cone"
  matched with cup
step refit "Bearing in"
  fit cone new
#     ^^^^ warning set-split
  done
`,
  right: `part cup "Bearing cup"
  matched with cone
part cone "Bearing cone"
  matched with cup
step refit "Bearing in"
  fit cup new
  fit cone new
  done
`,
  scope: "job",
  check(context) {
    const { job, story, report } = context;
    const mates = matches(job);
    const named = job.sheet?.details.find((it) => it.kind === "machine");
    const kind = kindOfMachine(`${named?.kind === "machine" ? (named.text?.value ?? "") : ""} ${job.sheet?.title?.value ?? ""}`, "");
    const isOnWheels = !kind.lifts && !kind.driven && !kind.boat;
    for (const cell of story.parts) {
      const names = mates.get(cell.thing.name);
      if (names === undefined && !cell.thing.inPairs) continue;
      for (const it of cell.history) {
        if (it.verb !== "fit" || (!it.isNew && (it.from === undefined || it.from === cell.place))) continue;
        const lacking: { cell: PartCell; cure: Cure | undefined }[] = [];
        for (const name of names ?? []) for (const mate of matesAt(story.cells(name), cell.place)) add(mate);
        if (cell.thing.inPairs && it.isNew) for (const other of pairOf(cell)) add(other);
        if (cell.thing.inPairs && it.isNew && cell.total > 1) {
          // Old beside new at one place: by the end, or by what is planned.
          const mixed = (lots: readonly Lot[]) => lots.some((lot) => lot.isNew) && lots.some((lot) => !lot.isNew);
          const end = it.phase === "done" ? cell.now : cell.then;
          if (mixed(end.lots)) {
            const whole =
              it.phase === "done" ? cell.history.find((next) => next.phase === "planned" && next.after.on > 0 && !mixed(next.after.lots)) : undefined;
            if (!lacking.some((other) => other.cell === cell)) lacking.push({ cell, cure: whole === undefined ? undefined : { moment: whole, planned: true } });
          }
        }
        function add(mate: PartCell): void {
          if (it.isNew && isWorkedTo(mate)) return;
          const same = mate.history.find((other) => followed(it, other));
          if (same === undefined || (same.phase === "planned" && it.phase === "done"))
            lacking.push({ cell: mate, cure: same === undefined ? undefined : { moment: same, planned: true } });
          else if (it.isNew && it.phase === "done" && isRenewedLess(mate, cell)) lacking.push({ cell: mate, cure: undefined });
        }
        const left = lacking.filter((other) => other.cure === undefined || it.phase === "done");
        if (left.length === 0) continue;
        const critical = cell.thing.critical || left.some((other) => other.cell.thing.critical);
        const others = listed(left.map((other) => midSentence(other.cell.thing, other.cell.place)));
        const done = it.isNew ? "renewed" : "moved";
        // Nothing runs with an old one yet: its fellows are off, and what goes on for them is still to be seen.
        if (it.phase === "done" && story.release === undefined && left.every((other) => other.cell !== cell && isOff(other.cell))) {
          report({
            where: it.where,
            severity: "information",
            open: true,
            message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} ${done}. What is ${it.isNew ? "renewed" : "kept"} together with it is still off: ${others}.`,
          });
          continue;
        }
        report(
          curedReport(
            context,
            it.where,
            critical ? "error" : "warning",
            `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} ${done} without its fellow: ${others}. They are ${it.isNew ? "renewed" : "kept"} together.`,
            left.map((other) => other.cure),
          ),
        );
      }
    }

    if (story.release !== undefined)
      for (const { where, text, fresh, old } of partedInSpite(story))
        report({
          where,
          severity: fresh.thing.critical || old.thing.critical ? "error" : "warning",
          open: true,
          message: `“${shortened(text)}”: the ${midSentence(fresh.thing, fresh.place)} ${agreeing(fresh.thing, "is")} new, and the ${midSentence(old.thing, old.place)} ${agreeing(old.thing, "is")} not. Renew them together; or write a finding of the old one that says why it stays (\`because\`).`,
        });
    // A new lining on one side is as a new shoe is.
    for (const cell of story.parts) {
      const relined = cell.thing.inPairs && !cell.unsure ? cell.history.findLast(isRelined) : undefined;
      if (relined === undefined) continue;
      const left = pairOf(cell).filter(
        (other) =>
          !other.history.some((it) => isRelined(it) || (it.verb === "fit" && it.isNew)) &&
          !backFromWork(story, other, undefined, (work) => relining.test(work)),
      );
      if (left.length > 0)
        report({
          where: relined.where,
          severity: cell.thing.critical ? "error" : "warning",
          message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} relined without its fellow: ${listed(left.map((it) => midSentence(it.thing, it.place)))}. They are renewed together.`,
        });
    }

    function pairOf(cell: PartCell): PartCell[] {
      const places = cell.thing.placeKind === undefined ? [] : (story.job.placeKinds.get(cell.thing.placeKind.text) ?? []);
      // Two at one shaft are a pair by themselves; across a vehicle left goes with right. The drums of a winch are no axle, whatever they are called.
      const across = places.some((place) => place.split("-").some((word) => sides.has(word))) && !(cell.thing.placeKind?.text === "drum" && !isOnWheels);
      if (cell.total === 2 && !across) return [];
      return places.filter((place) => place !== cell.place).map((place) => (story.cell(cell.thing.name, place) as PartCell | undefined) ?? fresh(cell, place));
    }

    /** Bored, lapped, scraped to its new fellow in this job, here or outside: they match again. */
    function isWorkedTo(mate: PartCell): boolean {
      if (mate.history.some((it) => it.verb === "repair" && it.phase === "done" && workedTo.test(it.action?.text?.value ?? ""))) return true;
      const orders = ordersOf(job).work.get(mate.thing.name) ?? [];
      if (orders.some(({ detail, status }) => status?.status === "received" && isAt(detail, mate.place) && workedTo.test(detail.text?.value ?? "")))
        return true;
      return (findingsOf(story).get(mate.thing.name) ?? []).some(
        (found) =>
          found.places.includes(mate.place) &&
          found.decision?.detail.decision === "repair" &&
          workedTo.test(found.decision.detail.how?.value ?? "") &&
          (backFromWork(story, mate, found.day) || repairedAsFound(mate, found)?.planned === false),
      );
    }

    function matesAt(cells: readonly { kind: string; place: string }[], place: string): PartCell[] {
      const parts = cells.filter((it) => it.kind === "part") as PartCell[];
      const here = parts.filter((it) => it.place === place);
      return here.length > 0 ? here : parts;
    }
  },
};

/** “Bush bored to the new pin”, “reamed to suit”, “lapped together”. */
const workedTo =
  /\b(bored|bush(ed)?|reamed?|honed?|lapped|lap|scraped?|ground|bedded|fitted|matched|turned|sized|machined|broached|blued)\b[^,;.]*\b(to (suit|match|fit|size of|((the|its|a) )?new)|with (the|its) new|together)\b/i;

/** Words of places that lie across from one another. */
const sides: ReadonlySet<string> = new Set([
  "left",
  "right",
  "near",
  "off",
  "nearside",
  "offside",
  "port",
  "starboard",
  "l",
  "r",
  "ns",
  "os",
  "nsf",
  "osf",
  "nsr",
  "osr",
  "fl",
  "fr",
  "rl",
  "rr",
  "lf",
  "rf",
  "lr",
]);

const relining = /\b(re-?lin(ed|ing|e|es)|new (linings?|facings?)|linings? renewed)\b/iu;
const isRelined = ({ verb, phase, action }: PartMoment): boolean => verb === "repair" && phase === "done" && relining.test(action?.text?.value ?? "");

function isOff(cell: PartCell): boolean {
  return cell.history.length > 0 && cell.now.on === 0;
}

/** Fewer new ones are in than of its fellow, each counted against how many there are to be: four new pistons on one new pin and three old ones. */
function isRenewedLess(mate: PartCell, { thing, total, now }: PartCell): boolean {
  const fresh = ({ lots }: PartCell["now"]) => countOf(lots.filter((lot) => lot.isNew));
  if (thing.perPlace === undefined || mate.thing.perPlace === undefined || now.on < total || mate.now.on < mate.total) return false;
  return fresh(mate.now) * total < fresh(now) * mate.total;
}

/** A part that nobody touched has a state all the same: as it was. */
function fresh(cell: PartCell, place: string): PartCell {
  return { ...cell, place, history: [] };
}

function followed(it: PartMoment, other: PartMoment): boolean {
  return other.verb === "fit" && (it.isNew ? other.isNew : other.from === it.from);
}

/** Each part's matches, said on either side. */
function matches(job: Job): Map<string, Set<string>> {
  const mates = new Map<string, Set<string>>();
  const put = (a: string, b: string) => {
    const set = mates.get(a) ?? new Set();
    mates.set(a, set.add(b));
  };
  for (const thing of job.things.values()) {
    if (thing.kind !== "part") continue;
    for (const name of thing.matchedWith) {
      put(thing.name, name.text);
      put(name.text, thing.name);
    }
  }
  return mates;
}
