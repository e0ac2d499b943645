// Metal in a fluid, and nothing that accounts for it.
import { hasCondition } from "../../model/has.ts";
import { relationsOf } from "../../model/relations.ts";
import type { JobRule } from "../rule.ts";
import { called, placeFoundName } from "../wording.ts";
import type { ConditionKind } from "../../../grammar/tree.ts";

export const rule: JobRule = {
  id: "debris-unexplained",
  group: "Parts",
  severity: "warning; error at release where critical parts run in that fluid",
  safety: false,
  title: "Metal in a fluid, and nothing that accounts for it",
  why: "Metal in the oil was part of something that is still in there. Find what it came from, and write `fragments from …` or a finding on the part.",
  wrong: `part pinion "Pinion"
fluid oil "Axle oil"
  in pinion
finding oil
  is metallic
#    ^^^^^^^^ warning debris-unexplained
`,
  right: `part pinion "Pinion"
fluid oil "Axle oil"
  in pinion
finding oil
  is fragments from pinion
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasCondition(job, "metallic", "fragments")) return;
    const { story, judged } = context;
    for (const found of story.findings) {
      const fluid = found.thing;
      if (fluid.kind !== "fluid") continue;
      const metal = found.conditions.find(({ condition }) => (condition.kind === "metallic" || condition.kind === "fragments") && condition.from === undefined);
      if (metal === undefined || found.conditions.some(({ condition }) => condition.from !== undefined)) continue;
      const parts = withBehind(fluid.in.map((name) => name.text));
      const accounts =
        story.findings.some(
          (it) =>
            (parts.size === 0 || parts.has(it.thing.name)) && it.thing.kind === "part" && it.conditions.some(({ condition }) => sheds.has(condition.kind)),
        ) || judged.verdicts.some((it) => it.outcome === "out" && it.band !== "new" && it.band !== "set" && it.limit.of.some((name) => parts.has(name.text)));
      if (accounts) continue;
      const critical = [...parts].some((name) => {
        const part = job.things.get(name);
        return part?.kind === "part" && part.critical;
      });
      report({
        where: metal.where,
        severity: story.release !== undefined && critical ? "error" : "warning",
        message: `${called(fluid, placeFoundName(found.places))} holds ${metal.condition.kind === "metallic" ? "metal" : "fragments"}, and the sheet doesn't say from what. Find where it came from, and write \`fragments from …\` or a finding on it.`,
      });
    }

    /** The parts that a fluid is in, and those behind them. */
    function withBehind(names: readonly string[]): Set<string> {
      const all = new Set(names);
      for (const name of all) for (const part of relationsOf(job).behind.get(name) ?? []) all.add(part.name);
      return all;
    }
  },
};

const sheds: ReadonlySet<ConditionKind> = new Set([
  "worn",
  "cracked",
  "broken",
  "pitted",
  "scored",
  "corroded",
  "seized",
  "damaged",
  "missing",
  "stripped",
  "sheared",
]);
