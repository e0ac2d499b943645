// Found leaking or contaminated, and nothing done about it.
import { isSamePlace } from "../../model/same-place.ts";
import type { ConditionKind } from "../../../grammar/tree.ts";
import { findingsOf } from "../../story/decisions.ts";
import { seenOf } from "../../story/looked-up.ts";
import { type Cure, backFromWork, madeFast, refittedSince, renewedAsFound, renewedSince, repairedAsFound, servesFor } from "../../story/put-right.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Seen, Story } from "../../story/story.ts";
import { cellsFound, foundAs } from "../cells-found.ts";
import { curedReport } from "../found.ts";
import { isReasoned } from "../failures.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "part-leaking",
  group: "Parts",
  severity: "warning; hint when cured",
  safety: false,
  title: "Found `leaking` or `contaminated`, and nothing done about it",
  why: "A leak empties a bearing of its oil or puts it on a brake. Find out where it comes from before it is closed up again.",
  wrong: `part seal "Half shaft seal"
finding seal
  is leaking
#    ^^^^^^^ warning part-leaking
  decision renew
`,
  right: `part seal "Half shaft seal"
finding seal
  is serviceable
`,
  scope: "job",
  check(context) {
    const { story, report } = context;
    for (const found of story.findings) {
      if (found.thing.kind === "fluid") continue;
      for (const { condition, where } of found.conditions) {
        if (condition.kind !== "leaking" && condition.kind !== "contaminated") continue;
        const cures = cellsFound(story, found).map((cell) => {
          if (cell.kind === "fluid") return undefined;
          const cleaned =
            condition.kind === "contaminated"
              ? (cell.history as readonly { seq: number; phase: "done" | "planned"; action?: { verb: string } }[]).find(
                  (it) => it.seq > found.seq && it.action?.verb === "clean",
                )
              : undefined;
          return (
            mended(story, cell, found, condition.kind) ??
            (cleaned === undefined ? undefined : { moment: cleaned as never, planned: cleaned.phase === "planned" })
          );
        });
        // `contaminated` says with what; what `leaking` says is where, or how much.
        const said = condition.text?.value.replace(/^with /i, "");
        const isWhat = said !== undefined && condition.kind === "contaminated" && !saysHow.test(said);
        const text = said === undefined ? "" : isWhat ? ` with ${said}` : ` (${said})`;
        const what =
          condition.kind === "leaking" ? "Find out where it comes from and renew or repair it" : "Clean it or renew it, and find out where it came from";
        report(curedReport(context, where, "warning", `${foundAs(found, condition)}${text}. ${what}.`, cures));
      }
    }
  },
};

/** “Soaked with brake fluid”, “oil all over it”, and not what is on it alone. */
const saysHow =
  /^(is |are |was |were |all |quite )?(\w+ed|full|wet|thick|black|dripping|running|swimming|greasy|oily|dirty|all over)\b|\b(all over|in it|on it|inside)\b/iu;

/** Fitting the same again cleans nothing, and stops no leak: it is renewed, repaired or worked on, its seal is renewed, or it was seen or found good since. */
function mended(story: Story, cell: PartCell | FastenerCell, found: Found, kind: ConditionKind): Cure | undefined {
  const worked =
    renewedAsFound(cell, found) ??
    repairedAsFound(cell, found) ??
    (backFromWork(story, cell, found.day, servesFor(found)) ? refittedSince(cell, found.seq) : undefined);
  if (worked !== undefined) return worked;
  const decided = found.decision?.detail.decision;
  // What was to be renewed or repaired is not so by a look.
  const toBeDone = decided === "renew" || decided === "exchange" || decided === "repair" || decided === "make";
  // A trial washes nothing off: a look at just that, or a finding, says that it is clean.
  if (kind !== "leaking") return toBeDone ? undefined : seenGoodSince(story, cell, found.seq, isOfDirt);
  // A union that leaks is tightened.
  if (cell.kind === "fastener") return madeFast(cell, found.seq) ?? seenGoodSince(story, cell, found.seq);
  for (const other of story.parts) {
    if (!isSealOf(other, cell) || (other.place !== cell.place && other.place !== "" && cell.place !== "")) continue;
    const renewed = renewedSince(other, found.seq);
    if (renewed !== undefined) return renewed;
  }
  // A leak does not stop by itself: it was off and on, or what holds it was tightened. What was to be repaired, or goes back for no reason, and is critical, has something new in it or on it.
  const isAsItWas = cell.thing.critical && !hasSomethingNew(story, cell, found.seq);
  const isLeft = decided === "reuse" ? isAsItWas && !isReasoned(found) : toBeDone && (decided !== "repair" || isAsItWas);
  return isTouched(story, cell, found.seq) && !isLeft ? seenGoodSince(story, cell, found.seq) : undefined;
}

function hasSomethingNew(story: Story, cell: PartCell, seq: number): boolean {
  return [...story.parts, ...story.fasteners].some(
    (it) => isBesideIt(it, cell) && (it.history as readonly (PartMoment | FastenerMoment)[]).some((was) => was.seq > seq && was.phase === "done" && was.isNew),
  );
}

/** It holds the part, closes it in, or stands behind it, at the same place. */
function isBesideIt(it: PartCell | FastenerCell, cell: PartCell): boolean {
  const around = [...cell.thing.heldBy, ...cell.thing.behind].map((name) => name.text);
  return (
    isSamePlace(it.place, cell.place) &&
    (around.includes(it.thing.name) || (it.kind === "part" && it.thing.behind.some((name) => name.text === cell.thing.name)))
  );
}

function isTouched(story: Story, cell: PartCell, seq: number): boolean {
  const done = (it: { readonly seq: number; readonly phase: string; readonly verb: string }) => it.seq > seq && it.phase === "done" && touches.has(it.verb);
  if (cell.history.some(done)) return true;
  return [...story.fasteners, ...story.parts].some(
    (it) => isBesideIt(it, cell) && (it.history as readonly { readonly seq: number; readonly phase: string; readonly verb: string }[]).some(done),
  );
}

const touches: ReadonlySet<string> = new Set(["fit", "tighten", "repair", "other"]);

/** What is renewed whenever it is disturbed, and lies against the part: before it, behind it, or renewed with it. */
function isSealOf(other: PartCell, cell: PartCell): boolean {
  if (!other.thing.renew && other.thing.renewWith.length === 0) return false;
  const names = [...other.thing.renewWith, ...other.thing.behind, ...other.thing.matchedWith].map((name) => name.text);
  return names.includes(cell.thing.name) || cell.thing.behind.some((name) => name.text === other.thing.name);
}

/** Seen good by a check that is of it, or found serviceable or clean. */
function seenGoodSince(story: Story, cell: PartCell | FastenerCell, seq: number, by: (seen: Seen) => boolean = () => true): Cure | undefined {
  const here = (place: string) => isSamePlace(place, cell.place);
  const seen = seenOf(story, cell.thing.name).find((it) => it.seq > seq && it.good && here(it.place) && by(it));
  const found = (findingsOf(story).get(cell.thing.name) ?? []).find(
    (it) =>
      it.seq > seq &&
      it.places.includes(cell.place) &&
      it.conditions.length > 0 &&
      it.conditions.every(({ condition }) => condition.kind === "serviceable" || condition.kind === "clean"),
  );
  const moment = seen ?? found;
  return moment === undefined ? undefined : { moment, planned: false };
}

function isOfDirt({ check, entry }: Seen): boolean {
  return dirt.test(`${check.title ?? check.name} ${entry.text?.value ?? ""}`);
}

const dirt = /\b(clean\w*|wash\w*|wiped|degreas\w*|dirt\w*|grit|swarf|free of (oil|grease|dirt|fluid|paint))\b/iu;
