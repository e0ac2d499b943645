// What is at error in how a sheet is written: what can't be read, is not declared or has no unit; and findings of which nothing is decided. Asked for by reports that
// work with what the sheet says, and must say where that may be wrong.
// Invariant: only rules of writing, units and figures are asked: a fault that was found in the machine is no slip of the sheet. Each slip is told once.
import type { Job } from "../model/job.ts";
import { type Slices, run, someAtOnce } from "../../grammar/slices.ts";
import type { Where } from "../model/where.ts";
import { judge } from "../story/verdicts.ts";
import type { Story } from "../story/story.ts";
import { rules } from "./all.ts";
import type { Report, Rule } from "./rule.ts";

export interface Slip {
  readonly where: Where;
  readonly message: string;
}

/** `line` gives the number that a message names. The files that the job uses are asked with it. */
export function* slipsOf(story: Story, line: (where: Where) => number): Slices<{ readonly errors: readonly Slip[]; readonly undecided: readonly Slip[] }> {
  const errors = new Map<string, Slip>();
  for (const rule of aboutWriting) {
    for (const { where, message, severity } of yield* asked(rule, story, line)) {
      const key = `${where.file} ${line(where)} ${where.at.from}`;
      if (severity === "error" && !errors.has(key)) errors.set(key, { where, message });
    }
  }
  const undecided = undecidedRule === undefined ? [] : yield* asked(undecidedRule, story, line);
  return { errors: [...errors.values()], undecided };
}

const aboutWriting = rules.filter((rule) => rule.group === "Writing" || rule.group === "Units and figures");
const undecidedRule = rules.find((rule) => rule.id === "part-undecided");

function* asked(rule: Rule, story: Story, line: (where: Where) => number): Slices<Report[]> {
  yield;
  const out: Report[] = [];
  const report = (it: Report) => void out.push(it);
  const { job }: { job: Job } = story;
  if (rule.scope === "entry") {
    for (const { path, sheet } of job.files) {
      for (const [i, entry] of sheet.entries.entries()) {
        if (i % someAtOnce === 0) yield;
        const slices = rule.check({ file: path, entry, report });
        if (slices !== undefined) yield* slices;
      }
    }
  } else if (rule.scope === "job") {
    const slices = rule.check({
      job,
      story,
      get judged() {
        return judge(story);
      },
      line: (where) => String(line(where)),
      // The rules that are asked here ask for no other sheet.
      others: () => run({ open: [], unseen: 0, hasMore: false }),
      report,
    });
    if (slices !== undefined) yield* slices;
  }
  return out;
}
