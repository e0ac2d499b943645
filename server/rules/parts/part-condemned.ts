// Fitted again though it was condemned.
import type { ConditionKind, Entry } from "../../../grammar/tree.ts";
import { decidedAt, findingsOf } from "../../story/decisions.ts";
import { backFromWork, renewedAsFound, repairedSince } from "../../story/put-right.ts";
import { condemning, decidedAway, failed, onlySoundOnes, pastWear, workOrdered, workedOnSince } from "../failures.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "../../story/story.ts";
import { type JobRule, type Related, newColumn } from "../rule.ts";
import { called, calledAt, listed } from "../wording.ts";
import { limitWords, verdictValue } from "../verdict-words.ts";

export const rule: JobRule = {
  id: "part-condemned",
  group: "Parts",
  severity: "error; information under a concession that may be given",
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
  fit arm new
  done
`,
  fixed: `part arm "Steering arm"
  critical "steering"
finding arm
  is bent
  decision renew
step refit "Arm back"
  fit arm new
  note "___"
  done
`,
  scope: "job",
  check({ story, judged, report }) {
    const said = new Map<object, Map<string, Back>>();
    const against = (cell: PartCell | FastenerCell) => {
      const findings = (findingsOf(story).get(cell.thing.name) ?? none).filter((found) => found.places.includes(cell.place));
      return { cell, findings, worn: pastWear(judged, cell) };
    };
    for (const at of [...story.parts, ...story.fasteners]) {
      const own = against(at);
      // A line that can't be read may have said that it is a new one.
      if (at.unsure) continue;
      for (const it of at.history as (PartMoment | FastenerMoment)[]) {
        // What was found of one goes with it to another place.
        const from = it.verb === "fit" && it.action?.from !== undefined ? story.cell(at.thing.name, it.action.from.text) : undefined;
        const { cell, findings, worn } = from?.kind === "part" || from?.kind === "fastener" ? against(from) : own;
        if (findings.length === 0 && worn === undefined) continue;
        const goesBack = it.verb === "fit" ? !it.isNew : it.verb === "tighten" && it.before.on === 0;
        if (!goesBack || it.action === undefined || (it.phase === "planned" && workOrdered(story, cell))) continue;
        const reasons: string[] = [];
        let conceded = false;
        for (const found of findings) {
          if (found.seq > it.seq || onlySoundOnes(story, cell, found, it)) continue;
          const decided = found.decision?.detail.decision;
          // The rule that forbids the reuse has said all of it.
          if (decided === "reuse" && cell.thing.critical) continue;
          for (const { condition } of found.conditions) if (condemning.has(condition.kind)) reasons.push(`found ${condition.kind}`);
          const away = decidedAway(found);
          if (away !== undefined) reasons.push(away);
          conceded ||=
            !cell.thing.critical &&
            story.concessions.some((by) => by.thing.name === cell.thing.name && (by.entry.place === undefined || by.places.includes(cell.place)));
        }
        const reused = findings.some((found) => found.decision?.detail.decision === "reuse" && cell.thing.critical);
        if (
          worn !== undefined &&
          worn.seq < it.seq &&
          worn.stage === "found" &&
          !reused &&
          !workedOnSince(story, cell, worn.seq, it.seq, worn.day) &&
          !story.concessions.some((by) => by.thing.name === worn.limit.name)
        ) {
          reasons.push(`past its limit of wear (${verdictValue(worn)}, ${limitWords(worn)})`);
        }
        if (reasons.length === 0) continue;
        const things = said.get(it.action) ?? new Map<string, Back>();
        said.set(it.action, things);
        const back = things.get(at.thing.name) ?? { cell: at, it, places: [], reasons: new Set<string>(), related: new Map<Entry, Related>(), conceded: true };
        things.set(at.thing.name, back);
        back.places.push(at.place);
        for (const reason of reasons) back.reasons.add(reason);
        // A line may go back on a concession at one place and without one at the other.
        back.conceded &&= conceded;
        for (const found of findings) if (found.seq < it.seq) back.related.set(found.entry, { where: found.where, message: "Found here." });
        if (worn !== undefined) back.related.set(worn.where.entry, { where: worn.where, message: "Measured here." });
      }
    }
    for (const things of said.values()) {
      for (const { cell, it, places, reasons, related, conceded } of things.values()) {
        report({
          where: it.where,
          severity: conceded ? "information" : "error",
          message: `${calledAt(cell.thing, [...new Set(places)])} goes back as it was: ${listed([...reasons])}. Fit a new one and write \`new\`, or write what was repaired.`,
          related: [...related.values()],
          ...(it.verb === "fit" && it.action !== undefined
            ? { fixes: [{ title: "Write `new`", edits: [{ where: { ...it.where, at: newColumn(it.action) }, text: " new" }] }] }
            : {}),
        });
      }
    }
    if (story.release === undefined) return;
    for (const cell of [...story.parts, ...story.fasteners]) {
      for (const { found, count } of decidedAt(story, cell.thing.name, cell.place, cell.total)) {
        const { decision } = found;
        if (decision === undefined || count === 0 || cell.now.on === 0 || carriedOut(story, cell, found)) continue;
        const what = decision.detail.decision === "repair" ? "repaired" : decision.detail.decision === "make" ? "made new" : "renewed";
        report({
          where: decision.where,
          severity: "error",
          message: `${called(cell.thing, cell.place)} was to be ${what}, and nothing says that it was. Do it and write it, or decide otherwise and say why.`,
          related: [{ where: found.where, message: "Found here." }],
        });
      }
    }
  },
};

/** What goes back as it was by one line. */
interface Back {
  readonly cell: PartCell | FastenerCell;
  readonly it: PartMoment | FastenerMoment;
  readonly places: string[];
  readonly reasons: Set<string>;
  readonly related: Map<Entry, Related>;
  conceded: boolean;
}

/** What was decided has been done, here or elsewhere; or another rule, another sheet or a concession speaks of it. */
function carriedOut(story: Story, cell: PartCell | FastenerCell, found: Found): boolean {
  const decided = found.decision?.detail.decision;
  if (decided !== "renew" && decided !== "exchange" && decided !== "make" && decided !== "repair") return true;
  if (found.entry.details.some((it) => it.kind === "see")) return true;
  if (found.conditions.some(({ condition }) => leftToOthers.has(condition.kind) || failed.has(condition.kind))) return true;
  if (story.concessions.some((by) => by.thing.name === cell.thing.name && (by.entry.place === undefined || by.places.includes(cell.place)))) return true;
  const cure = renewedAsFound(cell, found) ?? repairedSince(cell, found.seq);
  // A look that is good does not say that the work was done.
  return (cure !== undefined && !cure.planned) || backFromWork(story, cell, found.day);
}

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

const none: readonly Found[] = [];
