// A name declared twice, a place named twice in its kind, a second `sheet`.
import type { UseEntry } from "../../../grammar/tree.ts";
import { joinPath } from "../../model/files.ts";
import type { Job } from "../../model/job.ts";
import { memo } from "../../model/memo.ts";
import { where } from "../../model/where.ts";
import type { JobContext, JobRule } from "../rule.ts";
import { kindWord } from "./shared/kinds.ts";

export const rule: JobRule = {
  id: "name-twice",
  group: "Writing",
  severity: "error; information where a step bears the name of a thing declared above it, and no line names the step",
  safety: false,
  title: "A name declared twice",
  why: "The second declaration is not read, and what it says of the nut or the limit is lost. Two things need two names. To add to a thing that a used file declares, leave its title out.",
  wrong: `part gasket "Cylinder head gasket"

part gasket "Sump gasket"
#    ^^^^^^ error name-twice
`,
  right: `part head-gasket "Cylinder head gasket"

part sump-gasket "Sump gasket"
`,
  scope: "job",
  check(context) {
    const { job, report, line } = context;
    for (const { name, source, first } of job.twice) {
      if (source.file !== job.path && first.file !== source.file) {
        ofUsed(context, name.text, source.file, first.file);
        continue;
      }
      const thing = job.things.get(name.text);
      const elsewhere = first.file === source.file ? `at line ${line(first)}` : `in ${first.file}`;
      // A step stands nowhere where a part or a gauge does: only `after` and `from` name one.
      if (source.entry.kind === "step" && first.entry.kind !== "step" && !stepsNamed(job).has(name.text)) {
        report({
          where: where(source.file, source.entry, 0, name.at),
          severity: "information",
          message: `\`${name.text}\` is ${kindWord(thing?.kind ?? "part")} too, ${elsewhere}.`,
          related: [{ where: first, message: "First declared here." }],
        });
        continue;
      }
      if (source.entry.kind === "question" && thing?.kind === "question" && source.entry.title === undefined) {
        report({
          where: where(source.file, source.entry, 0, name.at),
          severity: "error",
          message: `The question \`${name.text}\` stands ${elsewhere}. Write its answer there: answer "…".`,
          related: [{ where: first, message: "Asked here." }],
        });
        continue;
      }
      const same = thing?.kind === source.entry.kind && thing.kind !== "step" && thing.kind !== "question";
      report({
        where: where(source.file, source.entry, 0, name.at),
        severity: "error",
        message: `\`${name.text}\` is ${kindWord(thing?.kind ?? "part")} already, ${elsewhere}. Give this one another name${same ? ", or leave its title out to add to the first" : ""}.`,
        related: [{ where: first, message: "First declared here." }],
      });
    }
    ofPlaces(context);
    ofSheets(context);
  },
};

/** What is named where a step is meant. */
const stepsNamed = memo(
  (job: Job): ReadonlySet<string> =>
    new Set(
      job.files.flatMap(({ sheet }) =>
        sheet.entries.flatMap((entry) =>
          entry.details.flatMap((it) =>
            it.kind === "after" ? it.steps.map(({ text }) => text) : it.kind === "from" && it.step !== undefined ? [it.step.text] : [],
          ),
        ),
      ),
    ),
);

/** Each used file is right alone; together they say two things of one name, and only the first is heard. It is said where they meet. */
function ofUsed({ job, report }: JobContext, name: string, file: string, first: string): void {
  const uses = job.own.sheet.entries.filter((entry): entry is UseEntry => entry.kind === "use" && entry.path !== undefined);
  const use = uses.find((entry) => joinPath(job.path, entry.path?.value ?? "") === file) ?? uses.at(-1);
  if (use?.path === undefined) return;
  report({
    where: where(job.path, use, 0, use.path.at),
    severity: "error",
    message: `\`${name}\` is declared in ${file} and, before it, in ${first}; only the first is heard. Take one of them out, or give one another name.`,
  });
}

function ofPlaces({ job, report, line }: JobContext): void {
  const seen = new Map<string, ReturnType<typeof where>>();
  const lists = new Map<string, { readonly path: string; readonly names: string }[]>();
  for (const { path, sheet } of job.files) {
    for (const entry of sheet.entries) {
      if (entry.kind !== "places" || entry.placeKind === undefined || entry.fault !== undefined) continue;
      // Two files that each stand by themselves name the same sides: told alike, nothing is lost of either.
      const names = entry.names
        .map(({ text }) => text)
        .sort()
        .join(" ");
      const known = lists.get(entry.placeKind.text) ?? [];
      if (known.some((it) => it.path !== path && it.names === names)) continue;
      lists.set(entry.placeKind.text, [...known, { path, names }]);
      for (const name of entry.names) {
        const key = `${entry.placeKind.text} ${name.text}`;
        const at = where(path, entry, 0, name.at);
        const first = seen.get(key);
        if (first === undefined) seen.set(key, at);
        else
          report({
            where: at,
            severity: "error",
            message: `\`${name.text}\` is a place of the kind \`${entry.placeKind.text}\` already, ${first.file === path ? `at line ${line(first)}` : `in ${first.file}`}. Take it out here.`,
            related: [{ where: first, message: "First named here." }],
          });
      }
    }
  }
}

/** A file is one job. */
function ofSheets({ job, report, line }: JobContext): void {
  if (job.sheet === undefined) return;
  const first = where(job.path, job.sheet, 0, job.sheet.keyword);
  for (const entry of job.own.sheet.entries) {
    if (entry.kind !== "sheet" || entry === job.sheet) continue;
    report({
      where: where(job.path, entry, 0, entry.keyword),
      severity: "error",
      message: `This file is the sheet of a job already, at line ${line(first)}. Put the other job in a file of its own.`,
      related: [{ where: first, message: "The first `sheet` is here." }],
    });
  }
}
