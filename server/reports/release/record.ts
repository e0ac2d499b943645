// What the record of a job says: what was found, what was read, how each fastener was made fast, and the photos.
// Invariant: done work only, told as it stands on the sheet; no verdict is made here.
import { type Slices, mapping } from "../../../grammar/slices.ts";
import { inList } from "../draw/so-many.ts";
import { namesText, orderText, lockingText, small } from "../../model/titles.ts";
import { unsaid } from "../../../grammar/blanks.ts";
import { lineText } from "../../../grammar/sheet-text.ts";
import type { Entry, Locking } from "../../../grammar/tree.ts";
import { type Job, building, placesOf } from "../../model/job.ts";
import { grouped } from "../../model/grouped.ts";
import { relationsOf } from "../../model/relations.ts";
import { ordersOf } from "../../model/orders.ts";
import { type Files, joinPath } from "../../model/files.ts";
import type { Check } from "../../model/things.ts";
import { tightenedText, torqueText } from "../../model/torque.ts";
import { bandOf } from "../../model/values.ts";
import type { Where } from "../../model/where.ts";
import { isPastNew, verdictValue } from "../../rules/verdict-words.ts";
import { called, calledAt, capital, midSentence } from "../../rules/wording.ts";
import { reasonsUnder } from "../../story/finding-words.ts";
import type { FastenerMoment, Found, PartCell, Reading, Story } from "../../story/story.ts";
import { type Verdict, isDifference } from "../../story/verdict.ts";
import { judge, judging } from "../../story/verdicts.ts";
import { isOutOfSet } from "../../story/out-of-set.ts";
import { doneWords } from "./done-words.ts";
import type { FastRecord, Photo, ReadRecord, Record } from "./shapes.ts";
import type { Line } from "../draw/line.ts";

type At = (where: Where) => Line;

/** A makeshift: something else stood where the right thing belongs. */
function isMakeshift(it: Found): boolean {
  return it.conditions.some(({ condition }) => condition.text !== undefined && (condition.kind === "unlocked" || condition.kind === "wrong"));
}

/** The findings that are makeshifts, or the rest of them. */
export function foundRecords(story: Story, at: At, makeshifts: boolean): Slices<Record[]> {
  return mapping(
    story.findings.filter((it) => isMakeshift(it) === makeshifts),
    (it) => {
      const conditions = it.conditions.map(({ condition }) =>
        [
          condition.kind,
          condition.count?.text,
          fromWords(story.job, condition.from?.text),
          condition.text === undefined ? undefined : `(${condition.text.value})`,
        ]
          .filter((word) => word !== undefined)
          .join(" "),
      );
      const { decision, how } = it.decision?.detail ?? {};
      const decided = decision === undefined ? "" : `; ${decision}${how === undefined ? "" : ` (${how.value})`}`;
      const every = it.places.length > 1 && "placeKind" in it.thing && placesOf(story.job, it.thing).every((place) => it.places.includes(place));
      const total = "perPlace" in it.thing ? (it.thing.perPlace ?? 1) : 1;
      const some = it.count === undefined || it.count >= total ? "" : ` (${it.count} of ${total})`;
      return {
        text: `${every ? called(it.thing) : calledAt(it.thing, it.places)}${some}: ${conditions.join(", ")}${decided}${becauseOf(it)}`,
        ...(it.day === undefined ? {} : { day: it.day }),
        ...at(it.where),
      };
    },
  );
}

/** `from worm wheel rim`, of what was found in an oil. */
function fromWords(job: Job, name: string | undefined): string | undefined {
  const thing = name === undefined ? undefined : job.things.get(name);
  return name === undefined ? undefined : `from ${thing === undefined ? name : midSentence(thing)}`;
}

/** What whoever found it saw, in the words of the sheet. */
function becauseOf(it: Found): string {
  const why = reasonsUnder(it);
  return why.length === 0 ? "" : `. \u201c${why.join("; ")}\u201d`;
}

/** Every reading as it was judged. One that is inside what it may wear to is not out for being past new: what it is judged by says the last word. */
export function* readRecords(story: Story, at: At): Slices<ReadRecord[]> {
  yield* judging(story);
  const { verdicts } = judge(story);
  const ofReading = grouped(verdicts, (it) => it.reading);
  const ofEntry = grouped(verdicts, (it) => it.reading.entry);
  const judged = yield* mapping(verdicts, (it) => {
    const past = isPastNew(it) || (it.band === "new" && it.outcome === "out" && !it.renewed && it.stood.worn !== undefined);
    const worn = ofReading.get(it.reading)?.some((other) => other.place === it.place && other.band === "worn" && other.outcome !== "in") === true;
    return { seq: it.seq, record: readRecord(it, past && !worn, at(it.where)) };
  });
  yield;
  const alone = yield* mapping(
    story.readings.filter((it) => it.spots.length > 0 && !ofEntry.get(it.entry)?.some((other) => other.limit === it.limit && other.place === it.place)),
    (it) => ({ seq: it.seq, record: unjudgedRecord(it, at(it.where)) }),
  );
  return [...judged, ...alone].sort((a, b) => a.seq - b.seq).map(({ record }) => record);
}

/** As it was written: nothing says what it may be, or at this stage of the work its setting alone. */
function unjudgedRecord(it: Reading, line: Line): ReadRecord {
  const of = readAt(it);
  const figures = it.spots.flatMap((spot) => spot.figures);
  const unit = figures.at(-1)?.unit.spelling ?? "";
  const value = figures.every((figure) => figure.unit.spelling === unit)
    ? `${figures.map((figure) => figure.figure).join(", ")} ${unit}`
    : figures.map((figure) => `${figure.figure} ${figure.unit.spelling}`).join(", ");
  // A setting that was found so is held to what it is to be left at, figure by figure.
  const set = it.stage === "found" && it.stood.worn === undefined ? bandOf(it.stood.set) : undefined;
  const outcome = set === undefined ? "unjudged" : isOutOfSet(it) ? "out" : "in";
  const said = set === undefined ? ": not judged" : ` against set ${set.text}: ${outcome === "out" ? "OUT" : "in"}, plain comparison`;
  return {
    of,
    stage: it.stage,
    value,
    against: set === undefined ? "\u2013" : `set ${set.text}`,
    outcome,
    text: `${of}, ${it.stage}: ${value}${gaugeWords(it)}${said}`,
    ...(it.gauge === undefined ? {} : { gauge: it.gauge.title ?? it.gauge.name }),
    ...(it.day === undefined ? {} : { day: it.day }),
    ...line,
  };
}

/** By all of its title: what a look is for may stand behind the comma, “no weep at the sump, hot”. */
function wholly(check: Check, place: string): string {
  return check.title === undefined ? called(check, place) : capital([place, small(check.title)].filter((it) => it !== "").join(" "));
}

/** What was looked at, good or bad, and who looked. */
export function seenRecords(story: Story, at: At): Slices<Record[]> {
  return mapping(story.seen, (it) => ({
    text: `${wholly(it.check, it.place)}, ${it.stage}: ${it.good ? "good" : "BAD"}${it.entry.text === undefined ? "" : ` (${it.entry.text.value})`}`,
    ...(it.day === undefined ? {} : { day: it.day }),
    ...(it.entry.by === undefined ? {} : { by: it.entry.by.value }),
    ...at(it.where),
  }));
}

/** “Aft crank pin, at front”. */
function readAt({ limit, place, position }: Pick<Verdict, "limit" | "place" | "position">): string {
  return `${called(limit, place)}${position === undefined || position === "" ? "" : `, at ${position}`}`;
}

/** The figure and the tool that it was read with belong together. */
function gaugeWords({ gauge }: Pick<Reading, "gauge">): string {
  return gauge === undefined ? "" : ` by ${small(gauge.title ?? gauge.name)}`;
}

function readRecord(it: Verdict, usable: boolean, line: Line): ReadRecord {
  const of = readAt(it);
  const value = verdictValue(it);
  const fresh = it.renewed && it.band === "worn" && it.outcome === "in" ? bandOf(it.stood.new) : undefined;
  // What was renewed was judged by both, and is shown by the narrower: as made.
  const shown = isPastNew(it) ? bandOf(it.stood.new) : fresh;
  const against = shown === undefined ? `${it.band} ${it.against.text}` : `new ${shown.text}`;
  const differs = isDifference(it);
  const said = usable ? "worn but usable" : it.outcome === "in" ? "in" : it.outcome === "out" ? "OUT" : "in doubt";
  return {
    of,
    stage: it.stage,
    value,
    against,
    outcome: usable ? "usable" : it.outcome,
    text: `${of}, ${it.stage}: ${differs ? `${it.band} ` : ""}${value}${it.workedOut ? ", worked out," : gaugeWords(it)} against ${differs ? it.against.text : against}: ${said}${it.gauge === undefined ? ", plain comparison" : ""}`,
    ...(it.gauge === undefined ? {} : { gauge: it.gauge.title ?? it.gauge.name }),
    ...(it.day === undefined ? {} : { day: it.day }),
    ...line,
  };
}

/** Each step that is done, with the lines that say what was done in it. */
export function doneRecords(job: Job, story: Story, at: At): Slices<Record[]> {
  const sheets = new Map(
    job.files.map(({ path, sheet }) => [path, { sheet, heads: new Map(sheet.entries.map((entry, i) => [entry, sheet.starts[i] as number])) }]),
  );
  return mapping(
    story.visits.filter((visit) => visit.phase === "done"),
    (visit) => {
      const by = visit.entry.details.find((detail) => detail.kind === "done" && detail.by !== undefined);
      const of = sheets.get(visit.file);
      const head = of?.heads.get(visit.entry);
      const lines = visit.entry.details.flatMap((detail) =>
        detail.kind === "action" && of !== undefined && head !== undefined && !unsaid(detail)
          ? [doneWords(job, detail.verb, written(lineText(of.sheet, head + detail.row)))]
          : [],
      );
      const places = visit.places === undefined || visit.places.length === 0 ? "" : ` (${visit.places.join(", ")})`;
      const step = { title: `${visit.entry.title?.value ?? visit.entry.name?.text ?? "Step"}${places}`, done: lines.join("; ") };
      return {
        text: step.done === "" ? step.title : `${step.title}: ${step.done}`,
        step,
        ...(visit.day === undefined ? {} : { day: visit.day }),
        ...(by?.kind === "done" && by.by !== undefined ? { by: by.by.value } : {}),
        ...at({ file: visit.file, entry: visit.entry, row: 0, at: visit.entry.at }),
      };
    },
  );
}

/** A line without its comment. */
function written(line: string): string {
  return line
    .replace(/(^|\s)#.*$/u, "")
    .trim()
    .replace(/\s+/gu, " ");
}

/** Work that was sent out and came back, in the order of the sheet. */
export function outsideRecords(story: Story, at: At): Record[] {
  return [...ordersOf(story.job).work].flatMap(([part, list]) =>
    list.flatMap(({ file, entry, detail, status }) => {
      if (status?.status !== "received") return [];
      const thing = story.job.things.get(part);
      const what = detail.text?.value;
      const price = detail.price === undefined ? "" : `, ${detail.price.figure.text} ${detail.price.currency?.text ?? ""}`.trimEnd();
      const of = thing === undefined ? part : called(thing, namesText(detail.places));
      return [
        {
          text: `${of}${what === undefined ? "" : `: ${what}`}${price} (${orderText(entry.reference?.value ?? "")}${entry.to === undefined ? "" : ` to ${supplierOf(story.job, entry.to.text)}`})`,
          ...(status.date === undefined ? {} : { day: status.date.text }),
          ...at({ file, entry, row: detail.row, at: detail.at }),
        },
      ];
    }),
  );
}

function supplierOf(job: Job, name: string): string {
  const thing = job.things.get(name);
  return thing?.kind === "supplier" ? (thing.title ?? name) : name;
}

/** What went on new, the locking too, in the order in which it went on. */
export function fittedRecords(story: Story, at: At): Record[] {
  const all: { seq: number; record: Record }[] = [];
  const put = (seq: number, text: string, count: number, day: string | undefined, from: Where) =>
    all.push({ seq, record: { text: `${text}${count > 1 ? ` (${count})` : ""}`, ...(day === undefined ? {} : { day }), ...at(from) } });
  for (const cell of story.parts)
    for (const it of cell.history) {
      if (it.phase !== "done" || it.verb !== "fit") continue;
      const made = !it.isNew && isMade(story, cell, it.seq);
      if (it.isNew || made) put(it.seq, `${called(cell.thing, cell.place)}${made ? ", made" : ""}`, it.count, it.day, it.where);
    }
  for (const cell of story.fasteners)
    for (const it of cell.history) {
      if (it.phase !== "done" || !it.isNew) continue;
      if (it.verb === "fit") put(it.seq, called(cell.thing, cell.place), it.count, it.day, it.where);
      const locking = it.with ?? cell.thing.locking?.locking;
      if (it.verb !== "lock" || locking === undefined || locking.kind === "nothing" || isFittedItself(story, locking)) continue;
      put(it.seq, `${capital(lockingWords(story.job, locking))}, ${midSentence(cell.thing, cell.place)}`, 1, it.day, it.where);
    }
  return all.sort((a, b) => a.seq - b.seq).map(({ record }) => record);
}

/** Decided to be made, and this is the first that went in since. */
function isMade(story: Story, { thing, place, history }: PartCell, seq: number): boolean {
  const decided = story.findings.findLast((it) => it.thing === thing && it.places.includes(place) && it.decision?.detail.decision === "make" && it.seq < seq);
  return decided !== undefined && !history.some((it) => it.verb === "fit" && it.seq > decided.seq && it.seq < seq);
}

/** A part that locks, fitted new by a line of its own. */
function isFittedItself(story: Story, { part }: Locking): boolean {
  if (part === undefined) return false;
  return story.cells(part.text).some((cell) => cell.kind === "part" && cell.history.some((it) => it.phase === "done" && it.verb === "fit" && it.isNew));
}

/** As a locking is written; a part by what it is called. */
function lockingWords(job: Job, locking: Locking): string {
  const part = locking.part === undefined ? undefined : job.things.get(locking.part.text);
  return part === undefined ? lockingText(locking) : midSentence(part);
}

/** Each fastener that was tightened or locked in done work: its last torque, and what locks it now. */
export function* fastRecords(story: Story, at: At): Slices<FastRecord[]> {
  const records = yield* mapping(story.fasteners, (cell): FastRecord[] => {
    const done = cell.history.filter((it) => it.phase === "done");
    const tightened = done.findLast((it) => it.verb === "tighten");
    const last = done.findLast((it) => it.verb === "tighten" || it.verb === "lock");
    if (last === undefined || !cell.now.tight) return [];
    const { thing } = cell;
    const wantedText = thing.torque === undefined ? "" : torqueText(thing.torque);
    return [
      {
        of: called(thing, cell.place),
        to:
          tightened?.to === undefined
            ? thing.torque?.byFeel === undefined
              ? (setWith(story, thing.name) ?? (thing.torque?.none === true ? "in, no torque asked" : "no figure written"))
              : `by feel: ${thing.torque.byFeel}`
            : writtenTorque(tightened),
        ...(wantedText === "" ? {} : { range: wantedText }),
        ...(tightened?.gauge === undefined ? {} : { gauge: tightened.gauge.title ?? tightened.gauge.name }),
        lockedBy: lockedBy(story.job, cell.now.locked, done, thing.locking?.locking),
        critical: thing.critical,
        text: called(thing, cell.place),
        ...(last.day === undefined ? {} : { day: last.day }),
        ...at((tightened ?? last).where),
      },
    ];
  });
  return records.flat();
}

/** A fastener that sets a limit is as tight as its reading says. */
function setWith(story: Story, name: string): string | undefined {
  const limits = (relationsOf(story.job).sets.get(name) ?? []).filter((it) => it.kind === "limit").map((it) => midSentence(it));
  return limits.length === 0 ? undefined : `to set ${limits.map(inList).join(", ")}`;
}

function writtenTorque(it: FastenerMoment): string {
  const action = it.action;
  if (action?.to === undefined || it.to === undefined) return "";
  return action.stages === undefined && action.angle === undefined ? `${action.to.figure.text} ${it.to.unit.spelling}` : tightenedText(action);
}

function lockedBy(job: Job, locked: boolean, done: readonly FastenerMoment[], declared: Locking | undefined): string {
  if (declared === undefined) return "no locking is declared";
  if (declared.kind === "nothing") return "nothing, as declared";
  if (!locked) return "not locked";
  const lock = done.findLast((it) => it.verb === "lock");
  if (lock === undefined) return lockingWords(job, declared);
  return `${lock.isNew ? "new " : ""}${lockingWords(job, lock.with ?? declared)}`;
}

/** What happened, and what was asked: a note of a declaration says what the thing is, and nothing of this job. */
const happenings: ReadonlySet<Entry["kind"]> = new Set(["sheet", "step", "measure", "seen", "finding", "question", "order", "concession", "release"]);

/** Notes and answers as they are written, in the order of the sheet: they are for a person to read. */
export function* noteRecords(story: Story, at: At): Slices<Record[]> {
  const { job } = story;
  const days = daysOf(story);
  const found = foundIn(story);
  const records = yield* mapping(job.own.sheet.entries, (entry): Record[] => {
    if (!happenings.has(entry.kind)) return [];
    const day = days.get(entry);
    return entry.details.flatMap((detail) => {
      const text = detail.kind === "note" || detail.kind === "answer" ? detail.text?.value : undefined;
      if (text === undefined || unsaid(detail)) return [];
      const from = { file: job.path, entry, row: detail.row, at: detail.at };
      return [{ text: `${entryWords(entry, story, found.get(entry))}: \u201c${text}\u201d`, ...(day === undefined ? {} : { day }), ...at(from) }];
    });
  });
  return records.flat();
}

/** The first thing that each finding is of. */
function foundIn(story: Story): ReadonlyMap<Entry, Found> {
  const found = new Map<Entry, Found>();
  for (const it of story.findings) if (!found.has(it.entry)) found.set(it.entry, it);
  return found;
}

/** The day of what was found, read, seen and done. */
function daysOf(story: Story): Map<Entry, string | undefined> {
  const days = new Map<Entry, string | undefined>([...story.findings, ...story.seen, ...story.readings].map((it) => [it.entry, it.day]));
  for (const visit of story.visits) if (visit.phase === "done") days.set(visit.entry, visit.day);
  return days;
}

/** Every photo of the sheet and of the files that it uses, in their order. */
export function* photosOf(story: Story, at: At, files: Files): Slices<Photo[]> {
  const days = daysOf(story);
  const found = foundIn(story);
  const out: Photo[] = [];
  for (const { file, entry, detail, path, inside } of photosNamed(story.job)) {
    // Each is looked for on the disk.
    if (out.length % someFiles === 0) yield;
    const answer = inside === undefined ? undefined : files.photo?.(inside);
    const whyNot = inside === undefined ? "lies outside of the workspace, so it was not read" : answer?.kind === "photo" ? undefined : answer?.why;
    const day = days.get(entry);
    out.push({
      path,
      ...(inside === undefined ? {} : { inside }),
      of: entryWords(entry, story, found.get(entry)),
      ...(day === undefined ? {} : { day }),
      ...(whyNot === undefined ? {} : { whyNot }),
      ...at({ file, entry, row: detail.row, at: detail.at }),
    });
  }
  return out;
}

/** So many files are looked for a slice. */
export const someFiles = 20;

/** Every photo that the files of a job name: as it is written, and its path in the workspace, undefined where it leads out of it. */
function photosNamed(job: Job) {
  return job.files.flatMap(({ path: file, sheet }) =>
    sheet.entries.flatMap((entry) =>
      entry.details.flatMap((detail) =>
        detail.kind !== "photo" || detail.path === undefined
          ? []
          : [{ file, entry, detail, path: detail.path.value, inside: joinPath(file, detail.path.value) }],
      ),
    ),
  );
}

/** The photos that the records of these jobs show, by their paths in the workspace. */
export function* photosShown(files: Files, paths: readonly string[]): Slices<readonly string[]> {
  const out: string[] = [];
  for (const path of paths) {
    const job = yield* building(files, path);
    if (job !== undefined) for (const { inside } of photosNamed(job)) if (inside !== undefined) out.push(inside);
    yield;
  }
  return out;
}

/** “Drop arm nut: loose”, “Links, cover, rocker shaft, worm”: what the entry calls itself, or what it speaks of. */
function entryWords(entry: Entry, story: Story, found: Found | undefined): string {
  if (found !== undefined)
    return `${called(found.thing, found.places.length === 1 ? found.places[0] : "")}: ${found.conditions.map(({ condition }) => condition.kind).join(", ")}`;
  if (entry.kind === "sheet") return "The job";
  if ("title" in entry && entry.title !== undefined) return entry.title.value;
  if (entry.kind === "order" && entry.reference !== undefined) return capital(orderText(entry.reference.value));
  const name = entry.kind === "measure" ? entry.limit : entry.kind === "seen" ? entry.check : entry.kind === "concession" ? entry.of : undefined;
  const thing = name === undefined ? undefined : story.job.things.get(name.text);
  return thing === undefined ? (name?.text ?? capital(entry.kind)) : called(thing);
}
