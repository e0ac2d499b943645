// What stands between a machine and the road: everything open, worst first; and, released, what was done, read, fitted and by whom.
// Invariant: a value, with the lines that it comes from. A record and a reminder, not an inspection.
import { type Slices, apart, mapping } from "../../../grammar/slices.ts";
import { namesText } from "../../model/titles.ts";
import type { Detail } from "../../../grammar/tree.ts";
import type { Files } from "../../model/files.ts";
import { countAhead } from "../../model/halving.ts";
import type { Job } from "../../model/job.ts";
import { referencesOf } from "../../model/references.ts";
import { quantityText } from "../../model/values.ts";
import { type Where, where } from "../../model/where.ts";
import { listingOpen } from "../../rules/check.ts";
import { called } from "../../rules/wording.ts";
import { rechecksOf } from "../../story/rechecks.ts";
import { deferenceTo } from "../../trade/deference.ts";
import type { Story } from "../../story/story.ts";
import { cautionsFor, kindOf } from "../draw/cautions-for.ts";
import { telling } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";
import type { Pardon } from "../../rules/pardons.ts";
import { openGroups } from "../../rules/open-groups.ts";
import type { OpenItem, PardonRecord, Recheck, ReleaseReport } from "./shapes.ts";
import { doneRecords, fastRecords, fittedRecords, foundRecords, noteRecords, outsideRecords, photosOf, readRecords, seenRecords } from "./record.ts";

/** Of one sheet; undefined where there is none. A sheet without a release is asked as if it were to be released now. */
export function* releasing(files: Files, path: string): Slices<ReleaseReport | undefined> {
  const told = yield* telling(files, path);
  if (told === undefined) return undefined;
  const { job, story, at } = told;
  const list = yield* listingOpen(files, path);
  yield;
  const stepAt = stepFinder(story, at);
  const open = (yield* mapping(list.open, (it) => ({
    group: it.group,
    rule: it.rule,
    severity: it.severity,
    file: it.file,
    line: it.line + 1,
    message: it.message,
    ...stepAt(it.file, it.line + 1),
  }))).sort((a, b) => openGroups.indexOf(a.group) - openGroups.indexOf(b.group) || ranks[a.severity] - ranks[b.severity]);
  const pardoned = (kind: Pardon["kind"]): PardonRecord[] =>
    list.pardoned
      .filter((it) => it.pardon.kind === kind)
      .map(({ rule, message, pardon, file, line }) => ({
        rule,
        message,
        why: pardon.why,
        ...(pardon.by === undefined ? {} : { by: pardon.by }),
        file,
        line: line + 1,
      }));
  const release = story.release;
  const done = release !== undefined && open.length === 0;

  yield;
  const rechecks = rechecksOf(story).map(
    (it): Recheck => ({
      of: nameOf(job, it.of),
      after: it.after,
      ...(it.due === undefined ? {} : it.due.kind === "day" ? { dueOn: it.due.day } : { due: it.due.text }),
      ...(it.doneAs === undefined ? {} : { done: it.doneAs }),
      ...at(it.tightened ?? it.where),
    }),
  );

  return {
    ...told.heading,
    released: done,
    ...(yield* apart(() => soLittle(story))),
    ...(release?.entry.by === undefined ? {} : { releasedBy: release.entry.by.value }),
    ...(release?.entry.date === undefined ? {} : { releasedOn: release.entry.date.text }),
    ...(release?.entry.counter === undefined ? {} : { counter: quantityText(release.entry.counter) }),
    open,
    warned: list.warned.map(({ rule, message, file, line }) => ({ rule, message, file, line: line + 1 })),
    rechecks,
    cautions: yield* apart(() => cautionsFor(story)),
    deference: yield* apart(() => deferenceTo(kindOf(job))),
    concessions: yield* mapping(story.concessions, (it) => ({
      of: called(it.thing, namesText(it.entry.places)),
      why: it.entry.why?.value ?? "",
      by: it.entry.by?.value ?? "",
      ...(it.day === undefined ? {} : { day: it.day }),
      ...at(it.where),
    })),
    accepted: pardoned("accept"),
    admitted: pardoned("admit"),
    tests: (release?.entry.details ?? []).flatMap((detail) =>
      detail.kind === "test" && detail.text !== undefined && release !== undefined
        ? [{ text: [detail.text.value, loadTried(job, detail)].filter((it) => it !== "").join(" · "), ...at({ ...release.where, row: detail.row }) }]
        : [],
    ),
    makeshifts: yield* foundRecords(story, at, true),
    found: yield* foundRecords(story, at, false),
    done: yield* doneRecords(job, story, at),
    outside: yield* apart(() => outsideRecords(story, at)),
    readings: yield* readRecords(story, at),
    seen: yield* seenRecords(story, at),
    notes: yield* noteRecords(story, at),
    fitted: yield* apart(() => fittedRecords(story, at)),
    fast: yield* fastRecords(story, at),
    photos: yield* photosOf(story, at, files),
  };
}

/** “Hook: 625 kg”, as the test says. */
function loadTried(job: Job, { of, load }: Extract<Detail, { kind: "test" }>): string {
  return [of === undefined ? "" : nameOf(job, of.text), load === undefined ? "" : quantityText(load)].filter((it) => it !== "").join(": ");
}

/** The done step that a line belongs to. */
function stepFinder(story: Story, at: (where: Where) => Line): (file: string, line: number) => Pick<OpenItem, "step"> {
  const heads = new Map<string, { first: number; last: number; title: string }[]>();
  for (const visit of story.visits) {
    if (visit.phase !== "done") continue;
    const { file, line } = at(where(visit.file, visit.entry, 0, visit.entry.keyword));
    const list = heads.get(file) ?? [];
    heads.set(file, list);
    const last = visit.entry.details.reduce((most, detail) => Math.max(most, detail.row), 0);
    list.push({ first: line, last: line + last, title: visit.entry.title?.value ?? visit.entry.name?.text ?? "A step" });
  }
  for (const list of heads.values()) list.sort((a, b) => a.first - b.first);
  return (file, line) => {
    const list = heads.get(file) ?? [];
    const it = list[countAhead(list, ({ first }) => first <= line) - 1];
    return it === undefined || line > it.last ? {} : { step: { title: it.title, file, line: it.first } };
  };
}

/** As its declaration calls it. */
function nameOf(job: Job, name: string): string {
  const thing = job.things.get(name);
  return thing === undefined ? name : called(thing);
}

/** What was never declared was never checked, and a sheet without work says nothing of a machine. */
function soLittle(story: Story): Pick<ReleaseReport, "nothingDone" | "nothingDeclared" | "undeclared"> {
  const { job } = story;
  const undeclared = new Set<string>();
  let declared = 0;
  for (const entry of job.own.sheet.entries) {
    if (entry.kind !== "step" && entry.kind !== "finding" && entry.kind !== "measure" && entry.kind !== "seen") continue;
    for (const { name } of referencesOf(entry).things) {
      const thing = job.things.get(name.text);
      if (thing === undefined || thing.implied) undeclared.add(name.text);
      else if (thing.kind !== "step") declared++;
    }
  }
  const done = story.visits.some((it) => it.phase === "done") || story.findings.length + story.readings.length + story.seen.length > 0;
  return { nothingDone: !done, nothingDeclared: declared === 0 && undeclared.size > 0, undeclared: [...undeclared] };
}

const ranks = { error: 0, warning: 1, information: 2, hint: 3 } as const;
