// Seen bad, and not yet seen good.
import { type Job, placesOf } from "../../model/job.ts";
import { asksForATrial, wordsOf } from "../../model/read-with.ts";
import { isSamePlace } from "../../model/same-place.ts";
import { small } from "../../model/titles.ts";
import { isCritical } from "../../model/relations.ts";
import type { Check, Fastener, Part } from "../../model/things.ts";
import type { Seen, Story } from "../../story/story.ts";
import { firstBehind, seenOn } from "../../story/looked-up.ts";
import { tellsLess } from "../less-than-asked.ts";
import { isBroughtAbout } from "../looked-good.ts";
import { curedReport } from "../found.ts";
import { memo, memoText } from "../../model/memo.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import type { JobRule } from "../rule.ts";
import { isOnlyALook, saysItWentBadly, saysNotYet, saysWhatIsDenied, shortened } from "../test-words.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "check-bad",
  group: "Limits, readings, checks",
  severity:
    "error at final on a critical check, or where it was seen good and nothing was done, else warning, which holds where the words of a good look deny it; hint when seen good since",
  safety: true,
  title:
    "Seen `bad`, not yet seen `good`; or `good` in words that say that nobody has looked yet, that it was bad, or that what was to be tried was only looked at",
  why: "A contact pattern at the toe, a taper that shows no blue, a leak: what was seen bad stays open until somebody has seen it good, and on a critical check something was done that could have made it so; a release asks for a final look, not for one on a trial build.",
  wrong: `check pattern "Contact in the middle of the tooth"
seen pattern found bad "at the toe"
#                  ^^^ warning check-bad
`,
  right: `check pattern "Contact in the middle of the tooth"
seen pattern found good
`,
  scope: "job",
  *check(context) {
    // A trial look is enough to go on by; what is released was seen good as it stands.
    const released = context.story.release !== undefined;
    for (const [i, seen] of context.story.seen.entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      if (seen.good) {
        if (seen.stage !== "final") continue;
        const said = saidBy(seen.entry);
        const badly = said.against(seen.check.title ?? "");
        const alone = ofOneAlone(context.job, seen);
        if (said.notYet)
          context.report({
            where: seen.where,
            severity: "warning",
            open: true,
            message: "This is written as good, and its own words say that nobody has looked yet. Look, and write what was seen.",
          });
        else if (badly !== undefined)
          context.report({
            where: seen.where,
            severity: "warning",
            open: true,
            message: `This is written as good, and “${shortened(badly)}” says that it was not. Write it as \`bad\`; where that is as it should be, write that it is.`,
          });
        else if (said.less(seen.check.title ?? "") !== undefined)
          context.report({
            where: seen.where,
            severity: "warning",
            open: true,
            message: `This is written as good, and “${shortened(said.less(seen.check.title ?? "") ?? "")}” is not what its check asks: ${small(seen.check.title ?? "")}. Write it as \`bad\`, or what was seen.`,
          });
        else if (said.asBefore !== undefined && lastBefore(context.story, seen)?.good === false)
          context.report({
            where: seen.where,
            severity: "warning",
            open: true,
            message: `This is written as good, and “${said.asBefore}” is as it was seen bad at line ${context.line(lastBefore(context.story, seen)?.where ?? seen.where)}. Write it as \`bad\`, or what was seen.`,
          });
        else if (alone !== undefined)
          context.report({
            where: seen.where,
            severity: "warning",
            open: true,
            message: `This is written of every place of it, and its words speak of the ${alone} alone. Write at which place that was seen, and look at the other.`,
          });
        else if (asksForATrial(seen.check) && said.isOnlyALook)
          context.report({
            where: seen.where,
            severity: "warning",
            open: true,
            message: "This asks for a trial, and the words here are of a look alone. Try it, and write what it showed.",
          });
        continue;
      }
      const goods = placesMeant(context.job, seen).map((place) =>
        firstBehind(
          seenOn(context.story, seen.check.name),
          seen.seq,
          (it) => it.good && (released || seen.stage === "final" ? it.stage === "final" : it.stage !== "found") && isSamePlace(it.place, place),
        ),
      );
      const good = goods.includes(undefined) ? undefined : goods.reduce((last, it) => ((it?.seq ?? 0) > (last?.seq ?? 0) ? it : last), goods[0]);
      const critical = isCritical(context.job, seen.check);
      if (critical && good !== undefined && !isBroughtAbout(context.story, seen, good)) {
        context.report({
          where: seen.where,
          severity: "error",
          message: `${called({ name: seen.check.name }, seen.place)} was seen bad here and good at line ${context.line(good.where)}, and nothing was done between that could have made it so. Write what was done, or a finding \`serviceable\` with \`because\`.`,
          related: [{ where: good.where, message: "Seen good here." }],
        });
        continue;
      }
      const severity = seen.stage === "final" && critical ? "error" : "warning";
      const text = seen.entry.text === undefined ? "" : ` (${seen.entry.text.value})`;
      context.report(
        curedReport(
          context,
          seen.where,
          severity,
          `${called({ name: seen.check.name }, seen.place)} was seen bad${text}. Correct it and look again for: ${small(seen.check.title ?? "what good looks like")}.`,
          [good === undefined ? undefined : { moment: good, planned: false }],
        ),
      );
    }
  },
};

const asBefore = /\b((same |just )?as (before|ever|it was|they were)(?! \w)|unchanged|no (change|better|different))\b/iu;

/** The look before this one, of the same check and place. */
function lastBefore(story: Story, seen: Seen): Seen | undefined {
  return seenOn(story, seen.check.name).findLast((it) => it.seq < seen.seq && isSamePlace(it.place, seen.place));
}

/** Words are taken apart once for as long as the line stands: that takes longer than all else that is asked of it. */
const saidBy = memo((entry: Seen["entry"]) => {
  const text = entry.text?.value ?? "";
  const byTitle = new Map<string, string | undefined>();
  return {
    notYet: saysNotYet(text),
    isOnlyALook: isOnlyALook(text),
    /** That it looks as it did the last time. */
    asBefore: asBefore.exec(text)?.[0],
    /** What in it is less than the title asks, in figures. */
    less: (title: string) => (text === "" ? undefined : tellsLess(title, text)),
    /** What in it says that it went badly, or is what the title says that there is none of. */
    against(title: string): string | undefined {
      if (!byTitle.has(title)) byTitle.set(title, saysItWentBadly(text, title) ?? saysWhatIsDenied(title, text));
      return byTitle.get(title);
    },
  };
});

/** The place of two that the words of a look speak of, and not of the other, where it names none. */
function ofOneAlone(job: Job, { check, place, entry }: Seen): string | undefined {
  const text = entry.text?.value;
  const places = placesOf(job, check);
  if (place !== "" || text === undefined || places.length !== 2 || ofBoth.test(text)) return undefined;
  const [one, ...others] = places.filter((it) => spokenOf(it).test(text));
  return one === undefined || others.length > 0 ? undefined : one;
}

const ofBoth = /\b(both|all|each|every|other|either|two|pair|same|sides|ends|elsewhere|otherwise|rest|except|but)\b/iu;

/** As it is said of a side, and not “nothing left” or “oil off”: at the beginning, behind a comma or `the`, or before what is at it. A name has letters, figures and hyphens alone. */
const spokenOf = memoText((place) => {
  const name = (shortFor.get(place) ?? [place]).map((it) => it.replaceAll("-", "[- ]")).join("|");
  return new RegExp(`(^|[,;:(] ?)(${name})[,;)]|\\b(at|on|of|at the|on the|of the) (${name})\\b|\\b(${name}) (side|hand|one|only|alone)\\b`, "iu");
});

/** As a shop writes them. */
const shortFor: ReadonlyMap<string, readonly string[]> = new Map([
  ["left", ["left", "lh", "l/h", "lhs"]],
  ["right", ["right", "rh", "r/h", "rhs"]],
  ["near", ["near", "nearside", "n/s", "ns"]],
  ["off", ["offside", "o/s"]],
  ["nearside", ["nearside", "near", "n/s", "ns"]],
  ["offside", ["offside", "o/s"]],
]);

/** Bad without a place is bad at each of its places, unless its words say at which: good on the left alone takes back half of it. */
function placesMeant(job: Job, { check, place, entry }: Seen): readonly string[] {
  if (place !== "") return [place];
  const things = check.placeKind !== undefined ? [check] : [...check.of, ...check.setBy].map(({ text }) => job.things.get(text));
  const placed = things.filter((it): it is Check | Part | Fastener => it !== undefined && "placeKind" in it && it.placeKind !== undefined);
  const [first] = placed;
  // Corners and axles: nobody knows which is whose.
  if (first === undefined || placed.some((it) => it.placeKind?.text !== first.placeKind?.text)) return [""];
  const words = wordsOf(entry.text?.value ?? "");
  const named = placesOf(job, first).filter((it) => it.split("-").every((word) => words.includes(word)));
  return named.length > 0 ? named : placesOf(job, first);
}
