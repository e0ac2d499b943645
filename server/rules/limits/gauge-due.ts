// A gauge used after its check fell due.
import { someAtOnce } from "../../../grammar/slices.ts";
import type { ActionDetail } from "../../../grammar/tree.ts";
import { addMonths } from "../../quantities/days.ts";
import type { Gauge } from "../../model/things.ts";
import { type Where, where } from "../../model/where.ts";
import { isCritical } from "../../model/relations.ts";
import { wantedOf } from "../../model/torque.ts";
import type { Reading, Story } from "../../story/story.ts";
import type { Job } from "../../model/job.ts";
import type { JobContext, JobRule } from "../rule.ts";
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
  *check({ job, story, report }) {
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
    let n = 0;
    const left = leftBy(story);
    const proves = provenBy(story);
    afterAll(job, story, report, left, proves);
    for (const cell of story.fasteners)
      for (const it of cell.history) {
        if (++n % someAtOnce === 0) yield;
        if (it.action?.by !== undefined)
          // What is planned is done today at the earliest: it can still be sent away.
          say(it.gauge, it.phase === "planned" ? (it.day ?? story.newestDay) : it.day, { ...it.where, at: it.action.by.at }, it.action, left.has(it.action));
      }
    for (const it of story.readings) {
      if (++n % someAtOnce === 0) yield;
      if (it.entry.by !== undefined) say(it.gauge, it.day, { ...it.where, row: 0, at: it.entry.by.at }, it.entry, proves.has(it.entry));
    }
  },
};

/**
 * A check dated behind all that is written here had not been: what the gauge was good for, as something critical was proved with it alone, nobody knows. A file of gauges is kept up to date, and old
 * jobs go on using it.
 */
function afterAll(job: Job, story: Story, report: JobContext["report"], left: ReadonlySet<ActionDetail>, proves: ReadonlySet<Reading["entry"]>): void {
  const last = story.release?.day ?? story.newestDay;
  if (last === undefined) return;
  for (const gauge of job.things.values()) {
    if (gauge.kind !== "gauge" || gauge.implied || gauge.file !== job.path || gauge.checked === undefined || gauge.checked <= last) continue;
    const isAlone = [...left, ...proves].some((it) => it.by?.text === gauge.name);
    report({
      where: where(gauge.file, gauge.entry, 0, gauge.at),
      severity: "warning",
      message: `${called(gauge)} ${agreeing(gauge, "was")} checked on ${gauge.checked}, after all that is written here. Is the year right?${isAlone ? " Nothing else proves what was done with it: have it right before the release." : ""}`,
      ...(isAlone ? { open: true } : {}),
    });
  }
}

/** The lines by which critical fasteners were left at their torque: nothing turned them since. */
function leftBy(story: Story): ReadonlySet<ActionDetail> {
  const left = new Set<ActionDetail>();
  for (const { thing, history } of story.fasteners) {
    if (!thing.critical || wantedOf(thing) === undefined) continue;
    const last = history.findLast((it) => it.phase === "done" && turns.has(it.verb));
    if (last?.verb === "tighten" && last.action !== undefined) left.add(last.action);
  }
  return left;
}

const turns: ReadonlySet<string> = new Set(["undo", "slacken", "tighten", "let", "remove"]);

/** Those that hold a final of something critical at a place or an end of which no later one tells. */
function provenBy(story: Story): ReadonlySet<Reading["entry"]> {
  const proves = new Set<Reading["entry"]>();
  const again = new Set<string>();
  let own: string[] = [];
  let entry: Reading["entry"] | undefined;
  for (let i = story.readings.length - 1; i >= 0; i--) {
    const it = story.readings[i] as Reading;
    if (it.entry !== entry) {
      for (const key of own) again.add(key);
      own = [];
      entry = it.entry;
    }
    if (it.stage !== "final") continue;
    const all = `${it.limit.name} ${it.place} `;
    const one = `${all}${it.position ?? ""}`;
    if (it.entry.by !== undefined && !again.has(all) && !again.has(one) && isCritical(story.job, it.limit)) proves.add(it.entry);
    own.push(one);
  }
  return proves;
}
