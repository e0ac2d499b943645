// Lifting gear in which something critical was disturbed, and no proof load written under `test`.
import { disturbedChains, isOf, namesLoad } from "../proof-loads.ts";
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
    if (release.entry.details.some((it) => it.kind === "unread" && it.guess === "test")) return;
    const loads = release.entry.details.filter((it) => it.kind === "test").filter((it) => it.text !== undefined && namesLoad(it));
    // A test that names something is of what goes with that; any other may be of all.
    const untried = disturbedChains(job, story).filter((chain) => !loads.some((it) => it.of === undefined || isOf(job, it, chain)));
    if (untried.length === 0) return;
    const names = [...new Set(untried.flatMap((chain) => chain.touched.map((it) => midSentence(it))))].slice(0, 3);
    report({
      where: release.where,
      severity: "error",
      message: `It lifts, this was disturbed, and no test says what load it held: ${listed(names)}. Write \`test "…" load Q\`.`,
    });
  },
};
