// A limit without a source.
import { isCritical } from "../../model/relations.ts";
import type { Limit } from "../../model/things.ts";
import { type Where, where } from "../../model/where.ts";
import { isGuess } from "../guesses.ts";
import { type JobContext, type JobRule, type RuleFix, addLine } from "../rule.ts";
import { shortened } from "../test-words.ts";
import { agreeing, called, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "limit-unsourced",
  group: "Limits, readings, checks",
  severity: "information, once a file; error where a reading condemns on it; warning that holds where something critical passes by a guess",
  safety: false,
  title: "A limit with no `source`, or one that says that it is a guess",
  why: "A figure that nobody can look up again is a rumour. Name the handbook and the page, or say from whom it is; a figure that scraps a part needs more than a guess. A guess by which something critical passes holds the release and can't be accepted: the maker's figure answers it, or that of somebody licensed, named as the source.",
  wrong: `limit bore "Bush bore"
#     ^^^^ information limit-unsourced (fix)
  worn max 22.4 mm
`,
  right: `limit bore "Bush bore"
  worn max 22.4 mm
  source "Maker's handbook, page 66"
`,
  fixed: `limit bore "Bush bore"
  worn max 22.4 mm
  source "___"
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    const bare = [...job.things.values()].filter(
      (thing): thing is Limit =>
        thing.kind === "limit" &&
        !thing.implied &&
        (thing.source === undefined || isGuess(thing.source)) &&
        !thing.unread.has("source") &&
        !thing.unread.has("") &&
        (thing.new ?? thing.worn ?? thing.set ?? thing.spread ?? thing.ovality ?? thing.taper) !== undefined,
    );
    if (bare.length === 0) return;
    const { judged } = context;
    const isBare = new Set(bare);
    const condemned = new Set<string>();
    for (const verdict of judged.verdicts) {
      if (verdict.outcome !== "out" || verdict.band === "new" || verdict.stage === "trial" || condemned.has(verdict.limit.name) || !isBare.has(verdict.limit))
        continue;
      condemned.add(verdict.limit.name);
      const declared = where(verdict.limit.file, verdict.limit.entry, 0, verdict.limit.at);
      const own = verdict.limit.file === job.path;
      const message = `A reading condemns on ${midSentence(verdict.limit)}, and nobody says where its limit is from. Add \`source "…"\` before a part is thrown away on it.`;
      // The limit is the cause; where a used file holds it, the reading is the nearest that this file has.
      report({
        where: own ? declared : verdict.where,
        severity: "error",
        message,
        related: [own ? { where: verdict.where, message: "It condemns here." } : { where: declared, message: "The limit is declared here, without a source." }],
        ...(own && verdict.limit.source === undefined ? { fixes: [sourceFix(verdict.limit, declared)] } : {}),
      });
    }
    if (context.story.release !== undefined) for (const limit of passingByGuess(context, bare, condemned)) condemned.add(limit);
    // A limit that condemned has been spoken of.
    const own = bare.filter((thing) => thing.file === job.path && !condemned.has(thing.name));
    const first = own[0];
    if (first === undefined) return;
    const others =
      own.length === 1
        ? ""
        : ` So have ${own.length - 1} more in this file (${listed(own.slice(1, 4).map((it) => `\`${it.name}\``))}${own.length > 4 ? " and others" : ""}).`;
    const at = where(first.file, first.entry, 0, first.at);
    const isBareOf = first.source === undefined;
    report({
      where: at,
      severity: "information",
      message: `${called(first)} ${agreeing(first, "has")} ${isBareOf ? "no source" : "a guess for a source"}.${others} Name the handbook and the page.`,
      ...(isBareOf ? { fixes: [sourceFix(first, at)] } : {}),
    });
  },
};

/**
 * What is critical and found or left inside a limit that is a guess: tells them, and gives their names. It can't be accepted, for then the guess would be the limit; somebody who may say
 * so is a source, by name.
 */
function passingByGuess({ job, judged, report }: JobContext, bare: readonly Limit[], condemned: ReadonlySet<string>): readonly string[] {
  const passing = new Map<Limit, Where>();
  for (const it of judged.verdicts) if (it.stage !== "trial" && it.outcome === "in") passing.set(it.limit, it.where);
  const told: string[] = [];
  for (const limit of bare) {
    const read = passing.get(limit);
    const guess = guessOf(limit);
    if (guess === undefined || condemned.has(limit.name) || read === undefined || !isCritical(job, limit)) continue;
    told.push(limit.name);
    const own = limit.file === job.path;
    const at = own ? where(limit.file, limit.entry, 0, limit.at) : read;
    const isAccepted = at.entry.details.some((it) => it.kind === "accept" && it.rule?.text === "limit-unsourced");
    report({
      where: at,
      severity: "warning",
      open: true,
      firm: true,
      message: `${called(limit)} ${agreeing(limit, "is")} critical, and passes by a guess: “${shortened(guess)}”.${isAccepted ? " That can't be accepted." : ""} Ask the maker or somebody licensed, and name them.`,
      ...(own ? {} : { related: [{ where: where(limit.file, limit.entry, 0, limit.at), message: "The limit is declared here." }] }),
    });
  }
  return told;
}

/** What its source says; where it has none, what stands under it as a note or as the reason why none is needed. */
function guessOf({ source, entry }: Limit): string | undefined {
  if (source !== undefined) return source;
  for (const it of entry.details) {
    const words = it.kind === "note" ? it.text?.value : it.kind === "accept" && it.rule?.text === "limit-unsourced" ? it.why?.value : undefined;
    if (words !== undefined && isGuess(words)) return words;
  }
  return undefined;
}

function sourceFix(limit: Limit, at: Where): RuleFix {
  const end = limit.entry.details.reduce((row, it) => Math.max(row, it.row), 0);
  return addLine('Add `source "…"`', { ...at, row: end }, 'source "___"');
}
