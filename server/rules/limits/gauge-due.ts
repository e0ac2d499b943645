// A gauge used after its check fell due.
import { addMonths } from "../../quantities/days.ts";
import type { Gauge } from "../../model/things.ts";
import { type Where, where } from "../../model/where.ts";
import { isCritical } from "../../model/relations.ts";
import { wantedOf } from "../../model/torque.ts";
import { readingsOn } from "../../story/looked-up.ts";
import type { FastenerCell, FastenerMoment, Reading, Story } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called, counted } from "../wording.ts";

export const rule: JobRule = {
  id: "gauge-due",
  group: "Limits, readings, checks",
  severity: "warning, which holds where nothing else proves a critical figure",
  safety: false,
  title: "Read or tightened with after its check fell due",
  why: "A gauge drifts and a torque wrench more so. Have it checked, or measure again with one that was. What it read may well be right; but where nothing else proves a critical limit or torque, whoever signs for it has nothing to go by. Checked since and found right, its new day behind `checked` says so; where the figure is believed all the same, `accept gauge-due` says why.",
  wrong: `gauge wrench "Torque wrench"
  checked 2025-01-10 every 12 months
fastener cap-bolt "Cap bolt"
day 2026-04-11
step refit "Cap back"
  tighten cap-bolt to 22 N.m by wrench
#                               ^^^^^^ warning gauge-due
  done
`,
  right: `gauge wrench "Torque wrench"
  checked 2026-01-10 every 12 months
fastener cap-bolt "Cap bolt"
day 2026-04-11
step refit "Cap back"
  tighten cap-bolt to 22 N.m by wrench
  done
`,
  scope: "job",
  check({ job, story, report }) {
    const said = new Set<object>();
    const say = (gauge: Gauge | undefined, day: string | undefined, at: Where | undefined, of: object, isAlone: boolean) => {
      if (gauge?.checked === undefined || gauge.everyMonths === undefined || day === undefined || at === undefined || said.has(of)) return;
      const due = addMonths(gauge.checked, gauge.everyMonths);
      if (due === undefined || day <= due) return;
      said.add(of);
      report({
        where: at,
        severity: "warning",
        message: `${called(gauge)} ${agreeing(gauge, "was")} checked on ${gauge.checked} and fell due after ${counted(gauge.everyMonths, "month")}, on ${due}. ${isAlone ? "Nothing else proves this: have it checked, use another, or `accept gauge-due` with why" : "Have it checked, or use one that was"}.`,
        ...(isAlone ? { open: true } : {}),
      });
    };
    const last = story.release?.day ?? story.newestDay;
    for (const gauge of job.things.values()) {
      // A file of gauges is kept up to date, and old jobs go on using it.
      if (gauge.kind !== "gauge" || gauge.implied || gauge.file !== job.path || gauge.checked === undefined || last === undefined || gauge.checked <= last)
        continue;
      report({
        where: where(gauge.file, gauge.entry, 0, gauge.at),
        severity: "warning",
        message: `${called(gauge)} ${agreeing(gauge, "was")} checked on ${gauge.checked}, after all that is written here. Is the year right?`,
      });
    }
    const left = new Set<object>();
    for (const cell of story.fasteners) for (const it of cell.history) if (it.action !== undefined && isLeftBy(cell, it)) left.add(it.action);
    for (const cell of story.fasteners)
      for (const it of cell.history)
        if (it.action?.by !== undefined)
          // What is planned is done today at the earliest: it can still be sent away.
          say(it.gauge, it.phase === "planned" ? (it.day ?? story.newestDay) : it.day, { ...it.where, at: it.action.by.at }, it.action, left.has(it.action));
    const proves = new Set<object>();
    for (const it of story.readings) if (it.entry.by !== undefined && isCritical(job, it.limit) && isLast(story, it)) proves.add(it.entry);
    for (const it of story.readings)
      if (it.entry.by !== undefined) say(it.gauge, it.day, { ...it.where, row: 0, at: it.entry.by.at }, it.entry, proves.has(it.entry));
  },
};

/** A critical fastener is left at the torque that this pulled it to. */
function isLeftBy(cell: FastenerCell, { seq, phase, verb }: FastenerMoment): boolean {
  if (phase !== "done" || verb !== "tighten" || !cell.thing.critical || wantedOf(cell.thing) === undefined) return false;
  return !cell.history.some((it) => it.phase === "done" && it.seq > seq && turns.has(it.verb));
}

const turns: ReadonlySet<string> = new Set(["undo", "slacken", "tighten", "let", "remove"]);

/** The last final of its limit at its place and end. */
function isLast(story: Story, { stage, limit, place, position, entry, seq }: Reading): boolean {
  return (
    stage === "final" &&
    !readingsOn(story, limit.name).some(
      (it) => it.stage === "final" && it.seq > seq && it.entry !== entry && it.place === place && (it.position === undefined || it.position === position),
    )
  );
}
