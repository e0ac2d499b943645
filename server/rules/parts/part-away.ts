// Fitted while it is sent out to be worked on.
import type { FastenerMoment, PartMoment, Reading, Seen } from "../../story/story.ts";
import { type Away, awayAt, isForTheShelf, readWhileAway, sentWhileOn } from "../../story/away.ts";
import { fittedTooMany, sentTooFew } from "../../story/sent-pieces.ts";
import { isDoer } from "../conceding.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called, capital, counted, midSentence, orderNamed } from "../wording.ts";

export const rule: JobRule = {
  id: "part-away",
  group: "Parts",
  severity: "error; warning where the work is short",
  safety: true,
  title: "Fitted, measured or looked at while sent out; more back on than came back; fewer worked on than were to be",
  why: "Either it came back and the order does not say so yet, or what was fitted is not the part that was worked on. Correct the order's status, or the line.",
  wrong: `supplier grinder "Grinding shop"
part crank "Crankshaft"
order "71" to grinder
  status sent 2026-05-02
  work crank "grind to first undersize"
day 2026-05-10
step refit "Crank in"
  fit crank
#     ^^^^^ error part-away
  done
`,
  right: `supplier grinder "Grinding shop"
part crank "Crankshaft"
order "71" to grinder
  status received 2026-05-09
  work crank "grind to first undersize"
day 2026-05-10
step refit "Crank in"
  fit crank
  done
`,
  scope: "job",
  check({ job, story, report, line }) {
    for (const cell of [...story.parts, ...story.fasteners]) {
      for (const it of cell.history as (PartMoment | FastenerMoment)[]) {
        // A planned fit waits for it; that is no mistake.
        if (it.verb !== "fit" || it.isNew || it.phase === "planned") continue;
        const away = awayAt(story.job, cell.thing.name, cell.place, it.day);
        if (away === undefined || (it.moved.every((lot) => lot.isNew) && isForTheShelf(cell, away))) continue;
        report({
          where: it.where,
          severity: "error",
          message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} fitted while ${orderNamed(away.reference)} still has it away. Write the day that it came back, or what was fitted instead.`,
          related: [{ where: away.where, message: "Sent out here." }],
        });
      }
    }
    for (const { of, name, away } of readWhileAway(story)) {
      if (isTheirs(of, away)) continue;
      const thing = job.things.get(name);
      report({
        where: of.where,
        severity: "error",
        message: `${capital(orderNamed(away.reference))} still has the ${thing === undefined ? name : midSentence(thing)} away on ${of.day ?? "that day"}${away.back === undefined ? "" : ` (back ${away.back})`}. ${"limit" in of ? "Measure" : "Look at"} what came back, or correct the days.`,
        related: [{ where: away.where, message: "Sent out here." }],
      });
    }
    for (const { cell, moment, away, total, sent } of fittedTooMany(story)) {
      if (awayAt(story.job, cell.thing.name, cell.place, moment.day) !== undefined) continue;
      report({
        where: moment.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} fitted, and then more are on than are here: ${orderNamed(sent.reference)} still has ${away} of ${total} away. Write what came by then, or what was fitted instead.`,
        related: [{ where: sent.where, message: "Sent out here." }],
      });
    }
    for (const { thing, wanted, done, back, where: at, found } of sentTooFew(story))
      report(
        back
          ? {
              where: at,
              severity: "error",
              message: `${counted(wanted, "piece")} of the ${midSentence(thing)} were sent out and ${done} came back, and all are on. Write the rest that came, or what was fitted.`,
            }
          : {
              where: at,
              severity: "warning",
              open: true,
              message: `${wanted} of the ${midSentence(thing)} were to be repaired, and work on ${done === 0 ? "none" : `only ${done}`} is written. Write what was done to the rest, or decide on it.`,
              ...(found === undefined ? {} : { related: [{ where: found.where, message: "Found here." }] }),
            },
      );
    for (const { cell, sent, off } of sentWhileOn(story))
      report({
        where: sent.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "is")} sent out by ${orderNamed(sent.reference)}, ${off === undefined ? "and nothing says that it came off. Write what came off, or put the order right" : `and came off only on ${off.day ?? "a later day"} (line ${line(off.where)}). Correct one of the days, or write what was sent`}.`,
        ...(off === undefined ? {} : { related: [{ where: off.where, message: "Came off here." }] }),
      });

    /** Looked at by somebody else, or read by a gauge of the shop that has it: a balancer stands in that house and nowhere else. */
    function isTheirs(it: Reading | Seen, { by = "", sentOn, back }: Away): boolean {
      // On the day that it went, and came back on another, it is of the piece as it left.
      if (sentOn !== undefined && it.day === sentOn && back !== sentOn) return false;
      if ("check" in it) return it.entry.by !== undefined && !isDoer(job, story, it.entry.by.value);
      const gauge = wordsOf(`${it.gauge?.name ?? ""} ${it.gauge?.title ?? ""}`);
      return wordsOf(`${by} ${titleOf(by)}`).some((word) => gauge.includes(word));
    }

    function titleOf(supplier: string): string {
      for (const { sheet } of job.files)
        for (const entry of sheet.entries) if (entry.kind === "supplier" && entry.name?.text === supplier) return entry.title?.value ?? "";
      return "";
    }
  },
};

function wordsOf(text: string): string[] {
  return (text.toLowerCase().match(/\p{L}{4,}/gu) ?? []).filter((word) => !common.has(word));
}

/** What half of all shops and gauges are called, which tells none from another. */
const common: ReadonlySet<string> = new Set([
  "gauge",
  "shop",
  "works",
  "engineering",
  "dial",
  "bore",
  "wheel",
  "grinder",
  "grinding",
  "machine",
  "machinery",
  "tool",
  "tools",
  "motor",
  "motors",
  "company",
  "brothers",
  "sons",
]);
