// Fitted again though it was condemned.
import type { ConditionKind, Entry } from "../../../grammar/tree.ts";
import { headOf, wordsOf } from "../../model/read-with.ts";
import { isSamePlace } from "../../model/same-place.ts";
import { addsMetal, givesSize } from "../../story/worked-in.ts";
import { isNowhere } from "../../model/files.ts";
import { isConceded } from "../../story/conceded.ts";
import { decidedAt, findingsOf } from "../../story/decisions.ts";
import { type Cure, allSince, backFromWork, renewedAsFound, repairedAsFound, servesFor } from "../../story/put-right.ts";
import { type Against, against, failed, isAgainst, workOrdered } from "../failures.ts";
import { curedReport } from "../found.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "../../story/story.ts";
import type { Verdict } from "../../story/verdict.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import { type JobRule, type Related, newColumn } from "../rule.ts";
import { agreeing, called, calledAt, few } from "../wording.ts";
import { limitWords, verdictValue } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "part-condemned",
  group: "Parts",
  severity: "error; information under a concession that may be given; warning that holds where a critical one was repaired instead",
  safety: true,
  title:
    "Fitted again after it was condemned: found cracked, broken, bent, stripped, sheared, past wear, or decided `renew`, and not repaired; at release, decided and not done",
  why: "The old part lies on the bench beside the new one, and they look alike. Fit the new one and write `new`, or write what was repaired.",
  wrong: `part arm "Steering arm"
  critical "steering"
finding arm
  is bent
  decision renew
step refit "Arm back"
  remove arm
  fit arm
#     ^^^ error part-condemned (fix)
  done
`,
  right: `part arm "Steering arm"
  critical "steering"
finding arm
  is bent
  decision renew
step refit "Arm back"
  remove arm
  fit arm new
  done
`,
  fixed: `part arm "Steering arm"
  critical "steering"
finding arm
  is bent
  decision renew
step refit "Arm back"
  remove arm
  fit arm new
  note "___"
  done
`,
  scope: "job",
  *check(context) {
    const { story, report } = context;
    const said = new Map<object, Map<string, Back>>();
    let n = 0;
    for (const cell of [...story.parts, ...story.fasteners]) {
      // A line that can't be read may have said that it is a new one.
      if (cell.unsure) continue;
      for (const it of cell.history as (PartMoment | FastenerMoment)[]) {
        if (it.action === undefined || it.isNew || (it.verb !== "fit" && it.verb !== "tighten")) continue;
        if (it.phase === "planned" && workOrdered(story, cell)) continue;
        // For now is for now; what was in for now and is done up for good goes back with that.
        if (it.forNow) continue;
        const back = it.verb === "tighten" ? [...it.moved, ...it.before.lots.filter((lot) => lot.forNow && !lot.standsIn)] : it.moved;
        for (const lot of back) {
          if (++n % someAtOnce === 0) yield;
          const { findings, worn } = against(context, cell, lot, it.seq);
          if (findings.length === 0 && (worn === undefined || (it.phase === "planned" && isLeftToOthers(story, cell, worn)))) continue;
          const things = said.get(it.action) ?? new Map<string, Back>();
          said.set(it.action, things);
          const one = things.get(cell.thing.name) ?? {
            cell,
            it,
            places: [],
            reasons: new Set<string>(),
            related: new Map<Entry, Related>(),
            conceded: true,
            cures: [],
          };
          things.set(cell.thing.name, one);
          one.places.push(cell.place);
          // Taken off again for another, or mended where it is: a wheel is trued as it is laced, a bush is bored in its eye.
          one.cures.push(allSince(cell, it.seq, (now, at) => !isAgainst(against(context, cell, now, at + 1))));
          for (const { found, text } of findings) {
            one.reasons.add(text);
            one.related.set(found.entry, { where: found.where, message: "Found here." });
          }
          if (worn !== undefined) {
            one.reasons.add(`past its limit of wear (${verdictValue(worn)}, ${limitWords(worn)})`);
            one.related.set(worn.where.entry, { where: worn.where, message: "Measured here." });
          }
          // A line may go back on a concession at one place and without one at the other.
          one.conceded &&= findings.length > 0 && !cell.thing.critical && isConceded(story, cell.thing.name, cell.place);
        }
      }
    }
    for (const things of said.values()) {
      if (++n % someAtOnce === 0) yield;
      for (const { cell, it, places, reasons, related, conceded, cures } of things.values()) {
        report({
          related: [...related.values()],
          ...curedReport(
            context,
            it.where,
            conceded ? "information" : "error",
            `${calledAt(cell.thing, [...new Set(places)])} ${agreeing(cell.thing, "goes")} back as it was: ${few([...reasons], [...reasons].join().length > 70 ? 1 : 2)}. Fit a new one and write \`new\`, or write how it was repaired.`,
            cures,
            it.verb === "fit" && it.action !== undefined
              ? [{ title: "Write `new`", edits: [{ where: { ...it.where, at: newColumn(it.action) }, text: " new" }] }]
              : [],
          ),
        });
      }
    }
    if (story.release === undefined) return;
    const asked = new Set<object>();
    for (const cell of [...story.parts, ...story.fasteners]) {
      if (++n % someAtOnce === 0) yield;
      const { instead } =
        cell.thing.critical && !cell.unsure ? (cell.now.lots.map((lot) => against(context, cell, lot, end)).find((it) => it.instead) ?? none) : none;
      if (instead !== undefined && !asked.has(instead.repair.entry)) {
        asked.add(instead.repair.entry);
        report({
          where: instead.repair.file === story.job.path ? instead.repair : instead.found.where,
          severity: "warning",
          open: true,
          message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} decided \`${instead.found.decision?.detail.decision ?? "renew"}\` (line ${context.line(instead.found.where)}), and the old one is in, repaired. Fit the new one, or write a finding with \`decision repair\`.`,
          related: [{ where: instead.found.where, message: "Decided here." }],
        });
      }
      for (const { found, count } of decidedAt(story, cell.thing.name, cell.place, cell.total)) {
        const { decision } = found;
        if (decision === undefined || count === 0 || cell.now.on === 0 || carriedOut(story, cell, found)) continue;
        const what = decision.detail.decision === "repair" ? "repaired" : decision.detail.decision === "make" ? "made new" : "renewed";
        report({
          where: decision.where,
          severity: "error",
          message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} to be ${what}, and nothing says that it was. Do it and write it, or decide otherwise and say why.`,
          related: [{ where: found.where, message: "Found here." }],
        });
      }
    }
  },
};

const none: Pick<Against, "instead"> = { instead: undefined };
const end = Number.POSITIVE_INFINITY;

/** What goes back as it was by one line. */
interface Back {
  readonly cell: PartCell | FastenerCell;
  readonly it: PartMoment | FastenerMoment;
  readonly places: string[];
  readonly reasons: Set<string>;
  readonly related: Map<Entry, Related>;
  conceded: boolean;
  readonly cures: (Cure | undefined)[];
}

/** What was decided has been done, here or elsewhere; or another rule, another sheet or a concession speaks of it. */
function carriedOut(story: Story, cell: PartCell | FastenerCell, found: Found): boolean {
  const decided = found.decision?.detail.decision;
  if (decided !== "renew" && decided !== "exchange" && decided !== "make" && decided !== "repair") return true;
  if (found.entry.details.some((it) => it.kind === "see" && !(it.path !== undefined && isNowhere(story.job.workspace, found.file, it.path.value)))) return true;
  if (found.conditions.some(({ condition }) => failed.has(condition.kind))) return true;
  // What is scored as well as leaking is not done with when the leak is.
  const others = found.conditions.filter(({ condition }) => leftToOthers.has(condition.kind));
  if (others.length > 0 && others.length === found.conditions.length && !isMetalWork(found, cell)) return true;
  // As long as nothing was done to it the other rule speaks, and one matter is said once.
  const history = cell.history as readonly (PartMoment | FastenerMoment)[];
  if (others.some(({ condition }) => untouched.has(condition.kind)) && !history.some((it) => it.seq > found.seq && it.phase === "done")) return true;
  if (isConceded(story, cell.thing.name, cell.place)) return true;
  const cure = renewedAsFound(cell, found) ?? repairedAsFound(cell, found);
  if (isMetalWork(found, cell) && isMendedBeside(story, cell, found)) return true;
  // A look that is good does not say that the work was done.
  return (cure !== undefined && !cure.planned) || backFromWork(story, cell, found.day, servesFor(found));
}

/** A fit of several, of which others are to be renewed or repaired: what it reads then is for the final reading to say. */
function isLeftToOthers(story: Story, cell: PartCell | FastenerCell, { limit, place, seq }: Verdict): boolean {
  const others = (found: Found) => found.thing.name !== cell.thing.name || (found.count !== undefined && found.count < cell.total);
  return limit.of.some(({ text }) =>
    (findingsOf(story).get(text) ?? []).some(
      (found) => found.seq > seq && others(found) && found.places.some((it) => isSamePlace(it, place)) && toBeMended.has(found.decision?.detail.decision ?? ""),
    ),
  );
}

const toBeMended: ReadonlySet<string> = new Set(["renew", "make", "exchange", "repair"]);

/** Loose, and new metal or another fit decided on: doing up what holds it is not that. */
function isMetalWork({ conditions, decision }: Found, cell: PartCell | FastenerCell): boolean {
  const how = decision?.detail.how?.value ?? "";
  return (
    cell.kind === "part" &&
    cell.thing.critical &&
    decision?.detail.decision === "repair" &&
    conditions.some(({ condition }) => condition.kind === "loose") &&
    (addsMetal(how) || givesSize(how) || fixes.test(how))
  );
}

const fixes = /\b(peen\w*|rivet\w*|weld\w*|braz\w*|bush\w*|sleev\w*|dowel\w*|stak\w*)\b/iu;

/** The new bush, or the piece that was worked on, has a name of its own that the decision speaks of; or a new one is in behind it, or before it. */
function isMendedBeside(story: Story, { thing, place }: PartCell | FastenerCell, { seq, decision }: Found): boolean {
  const words = wordsOf(decision?.detail.how?.value ?? "");
  const anew = (it: PartMoment | FastenerMoment) => it.phase === "done" && it.seq > seq && (it.verb === "repair" || (it.verb === "fit" && it.isNew));
  return [...story.parts, ...story.fasteners].some((cell) => {
    if (cell.thing === thing || !isSamePlace(cell.place, place)) return false;
    const isNamed = words.includes(headOf(cell.thing) ?? "") || wordsOf(cell.thing.name).some((it) => words.includes(it));
    const isBeside = cell.kind === "part" && [...cell.thing.behind, ...cell.thing.matchedWith].some(({ text }) => text === thing.name);
    return (isNamed || isBeside) && (cell.history as readonly (PartMoment | FastenerMoment)[]).some(anew);
  });
}

/** No other piece puts these right. */
const untouched: ReadonlySet<ConditionKind> = new Set(["dry", "blocked", "loose", "unlocked", "reversed", "wrong", "missing"]);

/** Found so, it stays flagged by a rule of its own until it is put right. */
const leftToOthers: ReadonlySet<ConditionKind> = new Set([
  "missing",
  "extra",
  "wrong",
  "reversed",
  "swapped",
  "leaking",
  "contaminated",
  "dry",
  "blocked",
  "loose",
  "unlocked",
  "undrilled",
]);
