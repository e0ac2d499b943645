// A limit without a source.
import { where } from "../../model/where.ts";
import { type JobRule, addLine } from "../rule.ts";
import { called, listed } from "../wording.ts";

export const rule: JobRule = {
  id: "limit-unsourced",
  group: "Limits, readings, checks",
  severity: "information, once a file; error where a reading condemns on it",
  safety: false,
  title: "A limit with no `source`",
  why: "A figure that nobody can look up again is a rumour. Name the handbook and the page, or say from whom it is; a figure that scraps a part needs more than a guess behind it.",
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
  source "say from where"
`,
  scope: "job",
  check({ job, judged, report }) {
    const bare = [...job.things.values()].filter((thing) => thing.kind === "limit" && !thing.implied && thing.source === undefined && !thing.unread.has("source") && !thing.unread.has("") && (thing.new ?? thing.worn ?? thing.set ?? thing.spread ?? thing.ovality ?? thing.taper) !== undefined);
    const condemned = new Set<string>();
    for (const verdict of judged.verdicts) {
      if (verdict.outcome !== "out" || verdict.band === "new" || verdict.stage === "trial" || condemned.has(verdict.limit.name) || !bare.includes(verdict.limit)) continue;
      condemned.add(verdict.limit.name);
      report({
        where: verdict.where,
        severity: "error",
        message: `${called(verdict.limit)} condemns here, and nobody says where its limit is from. Add \`source "…"\` to the limit before a part is thrown away on it.`,
        related: [{ where: where(verdict.limit.file, verdict.limit.entry, 0, verdict.limit.at), message: "The limit is declared here, without a source." }],
      });
    }
    // A limit that condemned has been spoken of.
    const own = bare.filter((thing) => thing.file === job.path && !condemned.has(thing.name));
    const first = own[0];
    if (first === undefined) return;
    const others = own.length === 1 ? "" : ` So have ${own.length - 1} more in this file (${listed(own.slice(1, 4).map((it) => `\`${it.name}\``))}${own.length > 4 ? " and others" : ""}).`;
    const at = where(first.file, first.entry, 0, first.at);
    const end = first.entry.details.reduce((row, it) => Math.max(row, it.row), 0);
    report({ where: at, severity: "information", message: `${called(first)} has no source.${others} Name the handbook and the page.`, fixes: [addLine('Add `source "…"`', { ...at, row: end }, 'source "say from where"')] });
  },
};
