// What the record of a job says: what was found, what was read, how each fastener was made fast, and the photos.
// Invariant: done work only, told as it stands on the sheet; no verdict is made here.
import type { Entry } from "../../../grammar/tree.ts";
import { type Files, joinPath } from "../../model/files.ts";
import { lockingText } from "../../model/titles.ts";
import { rangeText } from "../../model/values.ts";
import type { Where } from "../../model/where.ts";
import { called, capital, valueText } from "../../rules/wording.ts";
import type { FastenerMoment, Found, Story } from "../../story/story.ts";
import type { Verdict } from "../../story/verdicts.ts";
import type { FastRecord, Line, Photo, ReadRecord, Record } from "./release.ts";

type At = (where: Where) => Line;

/** A makeshift: something else stood where the right thing belongs. */
function isMakeshift(it: Found): boolean {
  return it.conditions.some(({ condition }) => condition.text !== undefined && (condition.kind === "unlocked" || condition.kind === "wrong"));
}

/** The findings that are makeshifts, or the rest of them. */
export function foundRecords(story: Story, at: At, makeshifts: boolean): Record[] {
  return story.findings
    .filter((it) => isMakeshift(it) === makeshifts)
    .map((it) => {
      const conditions = it.conditions.map(({ condition }) => `${condition.kind}${condition.text === undefined ? "" : ` (${condition.text.value})`}`);
      const decision = it.decision?.detail.decision;
      return {
        text: `${called(it.thing, it.places.length === 1 ? it.places[0] : "")}: ${conditions.join(", ")}${decision === undefined ? "" : `; ${decision}`}`,
        ...(it.day === undefined ? {} : { day: it.day }),
        ...at(it.where),
      };
    });
}

export function readRecord(it: Verdict, line: Line): ReadRecord {
  const figures = it.reading.spots.flatMap((spot) => spot.figures);
  const unit = it.workedOut ? it.against.unit : (it.reading.spots[0]?.figures[0]?.unit ?? it.against.unit);
  const of = called(it.limit, [it.place, it.position].filter((word) => word !== undefined && word !== "").join(" "));
  const value = valueText(it.value, unit, Math.max(0, ...figures.map((figure) => (figure.places < 0 ? 4 : figure.places))));
  const against = `${it.band} ${it.against.text}`;
  const said = it.outcome === "in" ? "in" : it.outcome === "out" ? "OUT" : "in doubt";
  return {
    of,
    stage: it.stage,
    value,
    against,
    outcome: it.outcome,
    text: `${of}, ${it.stage}: ${value} against ${against}: ${said}${it.gauge === undefined ? ", plain comparison" : ""}`,
    ...(it.gauge === undefined ? {} : { gauge: it.gauge.title ?? it.gauge.name }),
    ...(it.day === undefined ? {} : { day: it.day }),
    ...line,
  };
}

/** Each fastener that was tightened or locked in done work: its last torque, and what locks it now. */
export function fastRecords(story: Story, at: At): FastRecord[] {
  return story.fasteners.flatMap((cell) => {
    const done = cell.history.filter((it) => it.phase === "done");
    const tightened = done.findLast((it) => it.verb === "tighten");
    const last = done.findLast((it) => it.verb === "tighten" || it.verb === "lock");
    if (last === undefined || !cell.now.tight) return [];
    const { thing } = cell;
    const range = thing.torque?.range;
    return [
      {
        of: called(thing, cell.place),
        to:
          tightened?.to === undefined ? (thing.torque?.byFeel === undefined ? "no figure written" : `by feel: ${thing.torque.byFeel}`) : torqueText(tightened),
        ...(range === undefined ? {} : { range: rangeText(range) }),
        ...(tightened?.gauge === undefined ? {} : { gauge: tightened.gauge.title ?? tightened.gauge.name }),
        lockedBy: lockedBy(cell.now.locked, done, thing.locking?.locking),
        critical: thing.critical,
        text: called(thing, cell.place),
        ...(last.day === undefined ? {} : { day: last.day }),
        ...at((tightened ?? last).where),
      },
    ];
  });
}

function torqueText(it: FastenerMoment): string {
  const to = it.action !== undefined && "to" in it.action ? it.action.to : undefined;
  return to === undefined || it.to === undefined ? "" : `${to.figure.text} ${it.to.unit.spelling}`;
}

function lockedBy(locked: boolean, done: readonly FastenerMoment[], declared: Parameters<typeof lockingText>[0] | undefined): string {
  if (declared === undefined) return "no locking is declared";
  if (declared.kind === "nothing") return "nothing, as declared";
  if (!locked) return "not locked";
  const lock = done.findLast((it) => it.verb === "lock");
  if (lock === undefined) return lockingText(declared);
  return `${lock.isNew ? "new " : ""}${lockingText(lock.with ?? declared)}`;
}

/** Every photo of the sheet and of the files that it uses, in their order. */
export function photosOf(story: Story, at: At, files: Files): Photo[] {
  const days = new Map<Entry, string | undefined>([...story.findings, ...story.seen, ...story.readings].map((it) => [it.entry, it.day]));
  for (const visit of story.visits) if (visit.phase === "done") days.set(visit.entry, visit.day);
  return story.job.files.flatMap(({ path, sheet }) =>
    sheet.entries.flatMap((entry) =>
      entry.details.flatMap((detail): Photo[] => {
        if (detail.kind !== "photo" || detail.path === undefined) return [];
        const inside = joinPath(path, detail.path.value);
        const answer = inside === undefined ? undefined : files.photo?.(inside);
        const whyNot = inside === undefined ? "lies outside of the workspace, so it was not read" : answer?.kind === "photo" ? undefined : answer?.why;
        const day = days.get(entry);
        return [
          {
            path: detail.path.value,
            ...(inside === undefined ? {} : { inside }),
            of: entryWords(entry, story),
            ...(day === undefined ? {} : { day }),
            ...(whyNot === undefined ? {} : { whyNot }),
            ...at({ file: path, entry, row: detail.row, at: detail.at }),
          },
        ];
      }),
    ),
  );
}

/** “Drop arm nut: loose”, “Links, cover, rocker shaft, worm”: what the entry calls itself, or what it speaks of. */
function entryWords(entry: Entry, story: Story): string {
  const found = entry.kind === "finding" ? story.findings.find((it) => it.entry === entry) : undefined;
  if (found !== undefined)
    return `${called(found.thing, found.places.length === 1 ? found.places[0] : "")}: ${found.conditions.map(({ condition }) => condition.kind).join(", ")}`;
  if ("title" in entry && entry.title !== undefined) return entry.title.value;
  const name = entry.kind === "measure" ? entry.limit : entry.kind === "seen" ? entry.check : entry.kind === "concession" ? entry.of : undefined;
  const thing = name === undefined ? undefined : story.job.things.get(name.text);
  return thing === undefined ? (name?.text ?? capital(entry.kind)) : called(thing);
}
