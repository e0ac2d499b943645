// A name that nothing declares: a slip where a near one is declared, else worth knowing.
import { goingOn } from "../../../grammar/going-on.ts";
import { hasEntry, hasLine } from "../../model/has.ts";
import { where } from "../../model/where.ts";
import { ruleIds } from "../ids.ts";
import { type Slices, someAtOnce } from "../../../grammar/slices.ts";
import { type Job, undeclaredIn } from "../../model/job.ts";
import { memo } from "../../model/memo.ts";
import { referencesOf } from "../../model/references.ts";
import { type JobContext, type JobRule, type RuleFix, rewrite } from "../rule.ts";
import { slippedAdditions } from "./shared/additions.ts";
import { addEntry, declaration, kindWords } from "./shared/kinds.ts";
import { declaredNames, unknownIn } from "./shared/mentions.ts";
import { nearOf } from "../../model/meant.ts";
import { nearestNames } from "../../model/near.ts";

export const rule: JobRule = {
  id: "name-unknown",
  group: "Writing",
  severity:
    "error where a near name is declared; warning of a step, information while that may still be written, which holds a release; else information, once a name",
  safety: false,
  title: "A name that nothing declares",
  why: "A mistyped name is a thing of its own: the nut that was locked under another name was never locked. A name that isn't declared is taken as it is used, but how many there are, what holds it and whether it is critical can't be checked. Where one declared name alone is near, all else is checked as if that stood there.",
  wrong: `part flywheel "Flywheel"
  held by flywheel-nut

fastener flywheel-nut "Flywheel nut"

step strip "Take the flywheel off"
  undo flywheel-nut
  remove flywheeel
#        ^^^^^^^^^ error name-unknown (fix)
`,
  right: `part flywheel "Flywheel"
  held by flywheel-nut

fastener flywheel-nut "Flywheel nut"

step strip "Take the flywheel off"
  undo flywheel-nut
  remove flywheel
`,
  fixed: `part flywheel "Flywheel"
  held by flywheel-nut

fastener flywheel-nut "Flywheel nut"

step strip "Take the flywheel off"
  undo flywheel-nut
  remove flywheel
`,
  scope: "job",
  *check(context) {
    yield* ofMentions(context);
    ofAdditions(context);
    ofRules(context);
  },
};

function* ofMentions({ job, story, report }: JobContext): Slices<void> {
  const unknown = unknownIn(job);
  if (unknown.length === 0) return;
  const told = new Set<string>();
  for (const [i, { file, entry, reference }] of unknown.entries()) {
    if (i % someAtOnce === someAtOnce - 1) yield;
    const { name, row, wants } = reference;
    if (job.unreadNames.has(name.text)) continue;
    const names = nearOf(name.text, wants.join(), declaredNames(job, wants));
    const at = where(file, entry, row, name.at);
    if (names.length > 0) {
      const slipped = names.length === 1 ? slippedDeclaration(job, names[0] as string, name.text) : undefined;
      report({
        where: at,
        severity: "error",
        message: `\`${name.text}\` is not declared. Is ${names.map((it) => `\`${it}\``).join(" or ")} meant?${slipped === undefined ? "" : " Or is that where it is declared a slip? Nobody else writes it so."}`,
        fixes: slipped ?? names.map((it) => rewrite(`Write ${it}`, at, it)),
      });
      continue;
    }
    if (goingOn.has(name.text)) {
      report({ where: at, severity: "error", message: `\`${name.text}\` is no name: the line goes on with it. Write what it is of before it.` });
      continue;
    }
    // Said once, where this file first speaks of it.
    if (file !== job.path || told.has(name.text)) continue;
    told.add(name.text);
    if (wants.join() === "gauge" && bareHands.has(name.text)) {
      report({
        where: at,
        severity: "warning",
        message: `\`by\` names a gauge. Take \`by ${name.text}\` out; a fastener done up by hand is declared with \`torque by feel "how"\`.`,
      });
      continue;
    }
    // Another mention may say which of these it is.
    const known = job.things.get(name.text)?.kind;
    const likely = known === undefined || !wants.includes(known) ? wants : [known, ...wants.filter((it) => it !== known)];
    const kinds = likely.length > 3 ? likely.slice(0, 1) : likely;
    // An order of work, or a danger that a step brings about, hangs on it.
    if (wants.join() === "step") {
      const written = addEntry(job, "Write the step", declaration("step", name.text, { blank: hasEntry(job, "release") }));
      // What comes first of a step that is done should have been written by then; all else may still come.
      const isToCome = story.release === undefined && !(entry.kind === "step" && entry.details.some((it) => it.kind === "done"));
      report({
        where: at,
        severity: isToCome ? "information" : "warning",
        open: true,
        message: isToCome
          ? `\`${name.text}\` is no step of this sheet yet, and nothing tells whether it was done before that is written.`
          : `\`${name.text}\` is no step of this sheet, so nothing tells whether it was done. Write that step, or take the name out here.`,
        fixes: written === undefined ? [] : [written],
      });
      continue;
    }
    // `drain oil` where one fluid alone is an oil: `box-oil`.
    const [whole, ...others] = declaredNames(job, wants).filter((it) => it.split("-").includes(name.text));
    const meant = others.length === 0 ? whole : undefined;
    report({
      where: at,
      severity: "information",
      message: `\`${name.text}\` isn't declared, so Splitpin can check little about it. ${meant === undefined ? "Declare it" : `Is \`${meant}\` meant? Else declare it`}: ${declaration(kinds[0] ?? "part", name.text)}.`,
      // Into a sheet that is signed it is put with a blank for its title: no click makes it whole.
      fixes: [
        ...(meant === undefined ? [] : [rewrite(`Write ${meant}`, at, meant)]),
        ...kinds.flatMap(
          (kind) => addEntry(job, `Declare it as ${kindWords([kind])}`, declaration(kind, name.text, { blank: hasEntry(job, "release") })) ?? [],
        ),
      ],
    });
  }
}

/** Where every line that means it writes the other name, it is the declaration that has slipped: it is written anew, and the lines stay. */
function slippedDeclaration(job: Job, declared: string, written: string): RuleFix[] | undefined {
  const thing = job.things.get(declared);
  const uses = usesOf(job);
  if (thing === undefined || thing.file !== job.path || (uses.slips.get(written) ?? 0) < 3 || uses.all.get(declared) !== uses.slips.get(written))
    return undefined;
  return [rewrite(`Write ${written} where it is declared`, where(thing.file, thing.entry, 0, thing.at), written)];
}

/** How often each name is read, and how often each undeclared one is written. */
const usesOf = memo((job: Job) => {
  const [all, slips] = [new Map<string, number>(), new Map<string, number>()];
  const count = (into: Map<string, number>, name: string) => into.set(name, (into.get(name) ?? 0) + 1);
  for (const { sheet } of job.files) for (const entry of sheet.entries) for (const { name } of referencesOf(entry).things) count(all, name.text);
  for (const { reference } of undeclaredIn(job)) count(slips, reference.name.text);
  return { all, slips };
});

const bareHands: ReadonlySet<string> = new Set(["hand", "hands", "feel", "eye", "finger", "fingers", "guess"]);

/** An entry without a title whose name is a slip for one that a used file declares. */
function ofAdditions({ job, report }: JobContext): void {
  for (const { entry, name, near } of slippedAdditions(job).values()) {
    const at = where(job.path, entry, 0, name.at);
    report({
      where: at,
      severity: "error",
      message: `No used file declares \`${name.text}\`, so this adds to nothing. Is ${near.map((it) => `\`${it}\``).join(" or ")} meant?`,
      fixes: near.map((it) => rewrite(`Write ${it}`, at, it)),
    });
  }
}

/** `accept RULE` where there is no such rule. */
function ofRules({ job, report }: JobContext): void {
  if (!hasLine(job, "accept")) return;
  for (const { path, sheet } of job.files) {
    for (const entry of sheet.entries) {
      for (const detail of entry.details) {
        if (detail.kind !== "accept" || detail.fault !== undefined || detail.rule === undefined || ruleIds.has(detail.rule.text)) continue;
        const names = nearestNames(detail.rule.text, ruleIds);
        const at = where(path, entry, detail.row, detail.rule.at);
        report({
          where: at,
          severity: "error",
          message: `There is no rule \`${detail.rule.text}\`. ${names.length === 0 ? "Its name is beside the message that it gives." : `Is ${names.map((it) => `\`${it}\``).join(" or ")} meant?`}`,
          fixes: names.map((it) => rewrite(`Write ${it}`, at, it)),
        });
      }
    }
  }
}
