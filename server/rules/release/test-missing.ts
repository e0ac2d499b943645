// Brakes, steering, an axle or a wheel disturbed, and nobody wrote that it was tried.
import { hasEntry } from "../../model/has.ts";
import { isCritical } from "../../model/relations.ts";
import type { FastenerMoment, PartMoment } from "../../story/story.ts";
import { roadWords, roadWordsOf } from "../carries.ts";
import type { JobRule } from "../rule.ts";
import { few, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "test-missing",
  group: "Release",
  severity: "error; warning that holds where a test says itself that it was not done, or failed",
  safety: true,
  title: "Brakes, steering, an axle or a wheel disturbed, and no `test` or critical check",
  why: "What stops, steers or carries is tried before it goes on the road: turned by hand, lock to lock, brakes at walking pace on private ground. Write what was tried and what it showed. Local rules may ask for a licensed person.",
  wrong: `fastener arm-nut "Steering arm nut"
step refit "Arm back"
  tighten arm-nut
  done
release by "A. Moor" 2026-05-10
#^^^^^^ error test-missing
`,
  right: `fastener arm-nut "Steering arm nut"
step refit "Arm back"
  tighten arm-nut
  done
release by "A. Moor" 2026-05-10
  test "Steered lock to lock on the stands, then 10 km: straight"
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasEntry(job, "release")) return;
    const { story } = context;
    const release = story.release;
    if (release === undefined) return;
    const tests = release.entry.details.filter((it) => it.kind === "test").filter((it) => it.text !== undefined);
    for (const test of tests)
      if (isNoTest(test.text?.value ?? ""))
        report({
          where: { ...release.where, row: test.row, at: test.text?.at ?? test.keyword },
          severity: "warning",
          open: true,
          message: "This says that it was not tried, or failed. Try it, and write what it showed.",
        });
    if (tests.length > 0) return;
    if (release.entry.details.some((it) => it.kind === "unread" && it.guess === "test")) return;
    const touched = [...story.parts, ...story.fasteners].filter((cell) => {
      const moved = (cell.history as (PartMoment | FastenerMoment)[]).some(
        (it) => it.phase === "done" && it.verb !== "found" && it.verb !== "mark" && it.verb !== "other",
      );
      return moved && matters.test(`${roadWordsOf(cell.thing)} ${roadWords(cell.thing.criticalWhat ?? "")}`);
    });
    if (touched.length === 0) return;
    const last = Math.max(...touched.map((cell) => cell.history.findLast((it) => it.phase === "done")?.seq ?? 0));
    if (story.seen.some((it) => it.good && it.stage === "final" && it.seq > last && isCritical(job, it.check))) return;
    const names = [...new Set(touched.map((cell) => midSentence(cell.thing)))].slice(0, 4);
    report({
      where: release.where,
      severity: "error",
      message: `Not tested since it was apart: ${few(names)}. Try it, then write \`test "what was tried, and what it showed"\`.`,
    });
  },
};

/** The plainest words, a clause at a time: “to be done on Monday”, “six miles: still knocks”. What was put right and tried again further on in the text is past. */
function isNoTest(text: string): boolean {
  if (nothing.test(text)) return true;
  const clauses = text.split(/[.,:;()–—]+/).map((it) => it.trim());
  return clauses.some((it, i) => {
    // “Brake fade: none”.
    const isAnswered = answered.test(it) || /^(none|nil)\b/i.test(clauses[i + 1] ?? "");
    const bad = undone.exec(it) ?? (isAnswered ? null : wentBadly.exec(it));
    if (bad === null) return false;
    const rest = [it.slice(bad.index + bad[0].length), ...clauses.slice(i + 1)].join(", ");
    if (undone.test(it)) return !(pastUndone.test(rest) || /\bgood\b/i.test(text) || (clauses.length > 1 && underSome.test(it)));
    return !(past.test(rest) || triedSince.test(rest));
  });
}

const undone =
  /^((will|is|are|has|have|still) )?to be (done|tried|tested|run)\b|^will be (done|tried|tested|run)\b|^still to (do|be)\b|^not (yet|done|tried|tested)\b|^never tried\b|^untested\b|^(it )?(was|could) ?n[o']t (be )?(tried|tested|driven)( yet)?$/i;
/** The whole text: nothing stands there. */
const nothing = /^\s*(none|nil|nothing|n\/a|no test|not driven( yet)?|-+|\.+|\?+)\.?\s*$/i;
/** Tried, but for some weather or speed. */
const underSome = /\b(tried|tested|untested) (in (the )?(wet|rain|dark|snow)|at (speed|night)|(above|over|beyond) \d)/i;
const past =
  /\b((?<!now and )then|now(?! and then)|again|cured|gone|put right|passed|back (in|after|within)|recover(s|ed)?|settle[sd]|(on|with|down) (the )?camber|thermostat opened)\b/i;
const pastUndone = new RegExp(`${past.source}|\\bfirst \\d+ \\w+ done\\b|\\bfirst \\d+ done\\b`, "i");
/** Something was changed, and it was run or tried after that. */
const triedSince =
  /\b(?<!to be )(changed|renewed|replaced|adjusted|backed off|bled)\b.*[,;].*\b(ran|run|dry|cool|tried|good|quiet|straight|holds?|lights|works|miles?|km)\b/i;
const wentBadly =
  /\b(failed|fails)\b(?! (to (find|fault|make|show|detect|see|hear|feel|provoke|leak|slip|fade|bind|break|knock)|safe)\b|.* as (it|they) should)|\b(did not|didn't|does not|doesn't) pass\b|\bpulls (hard |badly |a little |slightly )?(to )?(the )?(left|right|one side)\b(?! (up|away|through|hand)\b)|\bstill (knocks|pulls|leaks|drips|slips|binds|rubs|wanders|shakes|rattles|grinds|sticks)\b|\b(ran|runs|got|gets) (too |very )?hot\b(?! (evenly|alike|enough)\b)|\bseized\b|\bbrakes? fades?\b/i;
/** It says that it did not, or when it last did. */
const answered = /\b(no|nothing|none|never|nor|neither|without|longer|passed|where|when|before|last|until|if|cannot)\b|\bnot\b(?! pass)|(?<!did|does)n't\b/i;

const matters = /brak|steer|axle|wheel/iu;
