// A fastener where a part is meant, and the like.
import type { ActionDetail } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import type { ThingKind } from "../../model/things.ts";
import { namesDeclared } from "../../model/meant.ts";
import { nearestNames } from "../../model/near.ts";
import { where } from "../../model/where.ts";
import { type JobRule, type RuleFix, rewrite } from "../rule.ts";
import { kindWord, kindWords } from "./shared/kinds.ts";
import { type Mention, wrongKindIn } from "./shared/mentions.ts";

export const rule: JobRule = {
  id: "name-kind",
  group: "Writing",
  severity: "error",
  safety: false,
  title: "A fastener where a part is meant, and the like",
  why: "A nut is undone and a part is removed: the sheet keeps account of the one by its tightness and locking, of the other by where it is. A line that takes one for the other does nothing, and the account would be wrong.",
  wrong: `fastener shaft-nut "Mainshaft nut"

step strip "Open the gearbox"
  remove shaft-nut
#        ^^^^^^^^^ error name-kind (fix)
`,
  right: `fastener shaft-nut "Mainshaft nut"

step strip "Open the gearbox"
  undo shaft-nut
`,
  fixed: `fastener shaft-nut "Mainshaft nut"

step strip "Open the gearbox"
  undo shaft-nut
`,
  scope: "job",
  check({ job, report }) {
    for (const mention of wrongKindIn(job)) {
      const { file, entry, reference, thing } = mention;
      const verb = plainVerb(job, mention, thing.kind);
      const verbs = takes(reference.role, reference.wants);
      // `remove wheels` where a step is called so, and a part `wheel`.
      const near = verb === undefined ? nearestNames(reference.name.text, namesDeclared(job.things, reference.wants)) : [];
      const at = where(file, entry, reference.row, reference.name.at);
      const other = near.length > 0 ? ` Is ${near.map((it) => `\`${it}\``).join(" or ")} meant?` : thing.kind === "step" ? " Give the step another name." : "";
      report({
        where: at,
        severity: "error",
        message: `\`${reference.name.text}\` is ${kindWord(thing.kind)}; ${verbs}.${other}${verb === undefined ? "" : ` Write \`${verb.verb} ${reference.name.text}\`.`}`,
        related:
          thing.file === file && thing.entry === entry
            ? []
            : [{ where: where(thing.file, thing.entry, 0, thing.at), message: `Declared as ${kindWord(thing.kind)} here.` }],
        fixes: verb === undefined ? near.map((it) => rewrite(`Write ${it}`, at, it)) : [verb.fix],
      });
    }
  },
};

/** “`remove` takes a part” */
function takes(role: string, wants: readonly ThingKind[]): string {
  if (role === "=") return "a limit is worked out from other limits";
  if (role === "lock") return "`part NAME` as a locking takes a part";
  return `\`${role}\` takes ${kindWords(wants)}`;
}

const otherVerb: Readonly<Record<string, Readonly<Partial<Record<ThingKind, string>>>>> = {
  remove: { fastener: "undo", fluid: "drain" },
  undo: { part: "remove", fluid: "drain" },
  slacken: { part: "remove" },
  drain: { part: "remove", fastener: "undo" },
  tighten: { part: "fit" },
  fit: { fluid: "fill" },
  fill: { part: "fit" },
};

/** The verb for what it is, where all that the line names is of that kind; else changing it would break the rest. */
function plainVerb(job: Job, { file, entry, reference }: Mention, kind: ThingKind): { verb: string; fix: RuleFix } | undefined {
  const verb = otherVerb[reference.role]?.[kind];
  const detail = entry.details.find((it): it is ActionDetail => it.row === reference.row && it.kind === "action");
  if (verb === undefined || detail?.verb !== reference.role || !detail.things.some((it) => it.name === reference.name)) return undefined;
  if (detail.things.some((it) => job.things.get(it.name.text)?.kind !== kind || it.count !== undefined)) return undefined;
  // What else stands on the line belongs to the verb that was written.
  if (
    detail.to !== undefined ||
    detail.by !== undefined ||
    detail.amount !== undefined ||
    detail.isNew !== undefined ||
    detail.forNow !== undefined ||
    detail.from !== undefined
  )
    return undefined;
  return { verb, fix: rewrite(`Write ${verb}`, where(file, entry, detail.row, detail.keyword), verb) };
}
