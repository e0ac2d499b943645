// Lifting gear in which something critical was disturbed, and no proof load written under `test`.
import type { Quantity } from "../../../grammar/tree.ts";
import type { FastenerMoment, PartMoment } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "proof-load-missing",
  group: "Release",
  severity: "error",
  safety: true,
  title: "Lifting gear: something critical was disturbed, and no `test` says with what load it was tried",
  why: "What lifts is tried with a load that is known before anybody trusts it with one. By how much the proof goes over what it may lift is for the maker and the local rules to say, and a competent person signs for it.",
  wrong: `sheet "Chain hoist"
  machine "Loading bay hoist, 10 cwt"
part hook "Hook"
  critical "the load"
step a "Hook off and on"
  remove hook
  fit hook
  done
release by "A. Moor" 2026-05-10
#^^^^^^ error proof-load-missing
  test "Ran up and down"
`,
  right: `sheet "Chain hoist"
  machine "Loading bay hoist, 10 cwt"
part hook "Hook"
  critical "the load"
step a "Hook off and on"
  remove hook
  fit hook
  done
release by "A. Moor" 2026-05-10
  test "Held a foot up for ten minutes, brake and pawl" load 12.5 cwt
`,
  scope: "job",
  check({ job, story, report }) {
    const { release } = story;
    // As if it were released: there is no line yet under which the test could stand.
    if (release === undefined || !job.own.sheet.entries.includes(release.entry)) return;
    const tests = release.entry.details.filter((it) => it.kind === "test" && it.text !== undefined);
    if (tests.some((it) => it.kind === "test" && (isLoad(it.load) || proof.test(it.text?.value ?? "")))) return;
    if (release.entry.details.some((it) => it.kind === "unread" && it.guess === "test")) return;
    const machine = job.sheet?.details.find((it) => it.kind === "machine");
    const lifts = lifting.test(`${machine?.kind === "machine" ? (machine.text?.value ?? "") : ""} ${job.sheet?.title?.value ?? ""}`);
    const touched = [...story.parts, ...story.fasteners].filter(
      ({ thing, history }) =>
        thing.critical &&
        (lifts || bearsLoad.test(thing.criticalWhat ?? "")) &&
        (history as readonly (PartMoment | FastenerMoment)[]).some(
          (it) => it.phase === "done" && it.verb !== "found" && it.verb !== "mark" && it.verb !== "other",
        ),
    );
    if (touched.length === 0) return;
    const names = [...new Set(touched.map((cell) => midSentence(cell.thing)))].slice(0, 3);
    report({
      where: release.where,
      severity: "error",
      message: `It lifts, this was disturbed, and no test says what load it held: ${listed(names)}. Write \`test "…" load Q\`.`,
    });
  },
};

/** Machines that lift, by the words that people use for them. */
const lifting =
  /(^|[^\p{L}])(hoists?|cranes?|chain blocks?|davits?|derricks?|gantry|lifting (gear|tackle)|pulley block|(vehicle|two-post|four-post|scissor|tail|goods) lift)($|[^\p{L}])/iu;
/** What a critical thing carries, where it is a load in the air. */
const bearsLoad =
  /^\s*(the |a |its )?(suspended |lifted |hung )?load\s*$|load (falls|drops|comes down|in the air)|drop(s|ping)? (the|its) load|(^|[^\p{L}])(lifting|hoisting)($|[^\p{L}])/iu;
/** A load above nothing, though its unit may be one that means two things. */
function isLoad(load: Quantity | undefined): boolean {
  return load !== undefined && /[1-9]/.test(load.figure.text);
}

/** A load in figures: the word “proof” alone does not say how much hung there. */
const proof = /[1-9][\d.,/]*\s*(%|per cent|kg|kgf|t|te|tons?|tonnes?|cwt|lb|lbs|lbf|kn|n)(?!\p{L})|half a ton/iu;
