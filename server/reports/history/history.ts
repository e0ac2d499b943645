// A machine's life over all its sheets: what was renewed, repaired and found of each part, each limit's readings over days and counter, what was conceded and owned up to,
// and what keeps coming back.
// Invariant: a plain value with the lines that it comes from. Done work only. What the same name says on two sheets is taken for the same thing.
import { type Slices, apart, mapping, someAtOnce } from "../../../grammar/slices.ts";
import { orderText } from "../../model/titles.ts";
import type { Files } from "../../model/files.ts";
import { ordersOf } from "../../model/orders.ts";
import { measured, quantityText, rangeText, bandOf } from "../../model/values.ts";
import type { Where } from "../../model/where.ts";
import { daysBetween } from "../../quantities/days.ts";
import { decimalText, plainText, rootTo } from "../../quantities/exact.ts";
import { sameUnitText } from "../../quantities/quantity.ts";
import { fromBase } from "../../quantities/units.ts";
import { called, capital, counted } from "../../rules/wording.ts";
import { type MachineStories, lastCounter, machinesOf } from "../../story/machines.ts";
import type { Found, Moment, Story } from "../../story/story.ts";
import { judge, judging } from "../../story/verdicts.ts";
import { telling } from "../draw/heading.ts";
import { type Line, lineFinder } from "../draw/line.ts";
import { memo } from "../../model/memo.ts";
import { releasing } from "../release/release.ts";
import type { ReleaseReport } from "../release/shapes.ts";
import { concessionWords, admittedWords } from "../release/words.ts";
import { type LimitPoints, limitPoints, sinceAnew } from "./points.ts";
import type { ComesBack, HistoryReport, Life, LifeEvent, LimitHistory, MachineHistory, ReadingPoint, Told } from "./shapes.ts";
import { trendOverCounter, trendOverDays } from "./trend.ts";

export type { HistoryReport } from "./shapes.ts";

/** Of the machines that the sheets at `paths` are of; of the one so called (its name or a part of it, or its serial number) where `named` says one. Undefined where no sheet can be read. */
export function* tellingHistory(files: Files, paths: readonly string[], named?: string): Slices<HistoryReport | undefined> {
  const sheets: Sheet[] = [];
  for (const path of new Set(paths)) {
    const it = yield* telling(files, path);
    const release = yield* releasing(files, path);
    if (it !== undefined && release !== undefined) sheets.push({ story: it.story, release });
    yield;
  }
  if (sheets.length === 0) return undefined;
  const byStory = new Map(sheets.map((it) => [it.story, it]));
  const machines = machinesOf(sheets.map((it) => it.story)).filter((it) => named === undefined || isCalled(it, named));
  const [only] = machines;
  const histories: MachineHistory[] = [];
  for (const machine of machines)
    histories.push(
      yield* machineHistory(
        machine,
        machine.stories.map((story) => byStory.get(story) as Sheet),
      ),
    );
  return {
    title: machines.length === 1 && only !== undefined ? only.title : counted(machines.length, "machine"),
    ...(machines.length === 1 && only?.serial !== undefined ? { serial: only.serial } : {}),
    machines: histories,
  };
}

/** By its serial number, or by words of its name; capitals and spaces don't matter. */
function isCalled(machine: MachineStories, named: string): boolean {
  const plain = (text: string | undefined) => (text ?? "").normalize("NFC").trim().replace(/\s+/gu, " ").toLowerCase();
  const asked = plain(named);
  return asked !== "" && (plain(machine.serial) === asked || plain(machine.title).includes(asked));
}

interface Sheet {
  readonly story: Story;
  readonly release: ReleaseReport;
}

function* machineHistory(machine: MachineStories, sheets: readonly Sheet[]): Slices<MachineHistory> {
  for (const { story } of sheets) yield* judging(story);
  const counters = (["length", "time"] as const).flatMap((it) => lastCounter(machine, it)?.text ?? []);
  const lives = yield* livesOf(sheets);
  const limits = yield* limitPoints(machine.stories);
  const shown: LimitHistory[] = [];
  for (const it of limits) shown.push(yield* limitHistory(it));
  return {
    machine: machine.title,
    serial: machine.serial ?? null,
    counter: counters.length === 0 ? null : counters.join(", "),
    sheets: sheets.map(({ story, release }) => ({
      title: release.title,
      opened: release.opened ?? null,
      released: release.releasedOn ?? null,
      counter: release.counter ?? null,
      open: release.open.length,
      ...headLine(story),
    })),
    lives,
    limits: shown,
    conceded: sheets.flatMap(({ release }) => release.concessions.map((it) => told(release, concessionWords({ ...it, of: capital(it.of) }), it.day, it))),
    ownedUpTo: sheets.flatMap(({ release }) => release.admitted.map((it) => told(release, admittedWords(it), undefined, it))),
    comesBack: [...(yield* apart(() => faultsAgain(sheets))), ...(yield* apart(() => renewedAgain(lives))), ...(yield* apart(() => outAgain(sheets)))],
  };
}

function told(release: ReleaseReport, text: string, day: string | undefined, at: Line): Told {
  return { text, day: day ?? null, sheet: release.title, file: at.file, line: at.line };
}

const linesOf = memo((story: Story) => lineFinder(story.job));

function lineAt(story: Story, where: Where): Line {
  return { file: where.file, line: linesOf(story)(where) };
}

function headLine(story: Story): Line {
  const { sheet, own } = story.job;
  const entry = sheet ?? own.sheet.entries[0];
  return entry === undefined ? { file: own.path, line: 1 } : lineAt(story, { file: own.path, entry, row: 0, at: entry.at });
}

// ---------------------------------------------------------------- each part's life

function* livesOf(sheets: readonly Sheet[]): Slices<Life[]> {
  const lives = new Map<string, { name: string; title: string; place: string; events: LifeEvent[] }>();
  for (const { story, release } of sheets) {
    const events: { seq: number; name: string; title: string; place: string; event: LifeEvent }[] = [];
    const put = (thing: { name: string; title?: string }, place: string, it: Pick<Moment, "seq" | "day" | "where">, kind: LifeEvent["kind"], text: string) => {
      const counter = counterOf(story, kind);
      const event = { kind, day: it.day ?? null, counter: counter ?? null, text, sheet: release.title, ...lineAt(story, it.where) };
      events.push({ seq: it.seq, name: thing.name, title: called(thing, place), place, event });
    };
    for (const [i, cell] of [...story.parts, ...story.fasteners].entries()) {
      if (i % someAtOnce === 0) yield;
      for (const it of cell.history) {
        if (it.phase !== "done") continue;
        if (it.verb === "fit" && it.isNew) put(cell.thing, cell.place, it, "renewed", renewedBy(story, cell.thing, it.count));
        if (it.verb === "repair") put(cell.thing, cell.place, it, "repaired", it.action?.text?.value ?? "repaired");
      }
    }
    for (const [i, it] of story.findings.entries()) {
      if (i % someAtOnce === 0) yield;
      const words = faultsOf(it);
      if (it.phase !== "done" || words.length === 0) continue;
      const decision = it.decision?.detail.decision;
      for (const place of it.places.length === 0 ? [""] : it.places)
        put(it.thing, place, it, "found", `${words.join(", ")}${decision === undefined ? "" : `; ${decision}`}`);
    }
    for (const [name, list] of ordersOf(story.job).work) {
      const thing = story.job.things.get(name);
      if (thing === undefined) continue;
      for (const { file, entry, detail, status } of list) {
        if (status?.status !== "received") continue;
        const text = `${detail.text?.value ?? "sent out"} (${orderText(entry.reference?.value ?? "")}${entry.to === undefined ? "" : ` to ${supplierOf(story, entry.to.text)}`})`;
        for (const place of detail.places.length === 0 ? [""] : detail.places.map((it) => it.text))
          put(
            thing,
            place,
            { seq: Number.POSITIVE_INFINITY, day: status.date?.text, where: { file, entry, row: detail.row, at: detail.at } },
            "worked on outside",
            text,
          );
      }
    }
    yield;
    for (const { name, title, place, event } of events.sort((a, b) => order(a.event.day, b.event.day) || a.seq - b.seq)) {
      const key = `${name} ${place}`;
      const life = lives.get(key) ?? { name, title, place, events: [] };
      lives.set(key, life);
      life.events.push(event);
    }
  }
  return [...lives.values()];
}

/** What has no day keeps its place in the sheet. */
function order(a: string | null, b: string | null): number {
  if (a === null || b === null || a === b) return 0;
  return a < b ? -1 : 1;
}

function renewedBy(story: Story, thing: { readonly name: string; readonly kind?: string }, count: number): string {
  const declared = story.job.things.get(thing.name);
  const number = declared?.kind === "part" ? declared.number : undefined;
  const orders = (ordersOf(story.job).items.get(thing.name) ?? [])
    .filter((it) => it.status?.status !== "cancelled" && it.status?.status !== "returned")
    .map(({ entry }) => `${orderText(entry.reference?.value ?? "")}${entry.to === undefined ? "" : ` to ${supplierOf(story, entry.to.text)}`}`);
  const by = [...(number === undefined ? [] : [`number ${number}`]), ...new Set(orders)];
  return `new${count > 1 ? `, ${count} of them` : ""}${by.length === 0 ? "" : ` (${by.join("; ")})`}`;
}

function supplierOf(story: Story, name: string): string {
  return story.job.things.get(name)?.title ?? name;
}

/** As far as it is written: of what was found the figure at the sheet's head, of what was done that of the release. */
function counterOf(story: Story, kind: LifeEvent["kind"]): string | undefined {
  const head = story.job.sheet?.details.find((it) => it.kind === "counter");
  const [before, after] = [head?.kind === "counter" ? head.quantity : undefined, story.release?.entry.counter];
  const it = kind === "found" ? (before ?? after) : (after ?? before);
  return it === undefined || measured(it) === undefined ? undefined : quantityText(it);
}

const sound: ReadonlySet<string> = new Set(["serviceable", "clean"]);

function faultsOf(it: Found): string[] {
  return it.conditions.flatMap(({ condition }) =>
    sound.has(condition.kind) ? [] : [`${condition.kind}${condition.text === undefined ? "" : ` (${condition.text.value})`}`],
  );
}

// ---------------------------------------------------------------- what keeps coming back

/** Found at fault on two sheets or more. */
function faultsAgain(sheets: readonly Sheet[]): ComesBack[] {
  const found = new Map<string, { title: string; times: Told[] }>();
  for (const { story, release } of sheets) {
    for (const it of story.findings) {
      const words = faultsOf(it);
      if (words.length === 0) continue;
      for (const place of it.places.length === 0 ? [""] : it.places) {
        const key = `${it.thing.name} ${place}`;
        const known = found.get(key) ?? { title: called(it.thing, place), times: [] };
        found.set(key, known);
        known.times.push(told(release, words.join(", "), it.day, lineAt(story, it.where)));
      }
    }
  }
  return again([...found.values()], (title, times) => `${title}: found at fault on ${counted(times, "sheet")}`);
}

function renewedAgain(lives: readonly Life[]): ComesBack[] {
  const renewed = lives.map(({ title, events }) => ({
    title,
    times: events.flatMap((it): Told[] => (it.kind === "renewed" ? [{ text: it.text, day: it.day, sheet: it.sheet, file: it.file, line: it.line }] : [])),
  }));
  return again(renewed, (title, times) => `${title}: renewed on ${counted(times, "sheet")}`);
}

/** Read out of its limits on two sheets or more. */
function outAgain(sheets: readonly Sheet[]): ComesBack[] {
  const out = new Map<string, { title: string; times: Told[] }>();
  for (const { story, release } of sheets) {
    for (const it of judge(story).verdicts) {
      if (it.outcome !== "out" || it.stage === "trial" || (it.band !== "worn" && it.band !== "set")) continue;
      const key = `${it.limit.name} ${it.place}`;
      const known = out.get(key) ?? { title: called(it.limit, it.place), times: [] };
      out.set(key, known);
      known.times.push(told(release, `${it.stage}: out, against ${it.band} ${it.against.text}`, it.day, lineAt(story, it.where)));
    }
  }
  return again([...out.values()], (title, times) => `${title}: out of its limits on ${counted(times, "sheet")}`);
}

function again(list: readonly { readonly title: string; readonly times: readonly Told[] }[], words: (title: string, sheets: number) => string): ComesBack[] {
  return list.flatMap(({ title, times }) => {
    const files = new Set(times.map((it) => it.file));
    const last = times.at(-1);
    if (files.size < 2 || last === undefined) return [];
    return [{ text: words(title, files.size), times: [...times], file: last.file, line: last.line }];
  });
}

// ---------------------------------------------------------------- limits

function* limitHistory({ limit, place, points }: LimitPoints): Slices<LimitHistory> {
  yield;
  const newest = points.at(-1) as LimitPoints["points"][number];
  const { stood } = newest.verdict;
  const unit = (bandOf(stood.worn) ?? bandOf(stood.set) ?? bandOf(stood.new))?.unit ?? newest.verdict.against.unit;
  const [name, range] =
    stood.worn !== undefined ? (["worn", stood.worn] as const) : stood.set !== undefined ? (["set", stood.set] as const) : (["new", stood.new] as const);
  const band = bandOf(range);
  const wear = name === "new" ? undefined : band;
  const since = sinceAnew(points);
  const first = points.find((it) => it.day !== undefined)?.day;
  const counter = points.findLast((it) => it.counter !== undefined)?.counter?.unit;
  return {
    limit: limit.name,
    title: called(limit, place),
    place,
    unit: unit.spelling,
    against: range === undefined ? "" : `${name} ${rangeText(range)}`,
    low: band?.low === undefined ? null : plainText(fromBase(band.low, unit)),
    high: band?.high === undefined ? null : plainText(fromBase(band.high, unit)),
    points: yield* mapping(points, (it): ReadingPoint => {
      const { verdict, story } = it;
      const figures = verdict.reading.spots.flatMap((spot) => spot.figures);
      const places = figures.some((figure) => figure.unit.name !== unit.name || figure.places < 0)
        ? -1
        : Math.max(0, ...figures.map((figure) => figure.places));
      const u = verdict.uncertaintySquared === undefined ? undefined : rootTo(verdict.uncertaintySquared, 9);
      const days = first === undefined || it.day === undefined ? undefined : daysBetween(first, it.day);
      return {
        day: it.day ?? null,
        counter: it.counter?.text ?? null,
        stage: verdict.stage,
        value: sameUnitText(verdict.value, unit, places),
        at: decimalText(fromBase(verdict.value, unit), 9),
        u: u === undefined ? null : decimalText(u.div(unit.factor), 9),
        anew: it.anew,
        days: days ?? null,
        count:
          it.counter === undefined || counter === undefined || it.counter.unit.dimension !== counter.dimension
            ? null
            : decimalText(it.counter.value.div(counter.factor), 6),
        sheet: story.job.sheet?.title?.value ?? story.job.path,
        ...lineAt(story, verdict.where),
      };
    }),
    overDays: yield* apart(() => trendOverDays(since, first, wear, unit)),
    overCounter: yield* apart(() => trendOverCounter(since, wear, unit)),
    ...lineAt(newest.story, newest.verdict.where),
  };
}
