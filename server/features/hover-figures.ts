// What is shown over a figure: its worth in both systems and what is made of it: a reading's verdict, a range, a fit, a thread, a torque, a split pin.
// Invariant: display only; verdicts are those of the walk and of the one comparison that it uses.
import type { Detail, Entry, Locking, Quantity, Range, ReadingDetail, Span } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Fastener } from "../model/things.ts";
import { bandOf, quantitiesOf, unitsOf } from "../model/values.ts";
import { bothSystems, quantity } from "../quantities/quantity.ts";
import { verdict as compare } from "../quantities/range.ts";
import { knownTo } from "../rules/wording.ts";
import { judge } from "../story/verdicts.ts";
import { uncertaintyOf } from "../story/bands.ts";
import { walk } from "../story/walk.ts";
import type { LineAt } from "./at.ts";
import { rangeInBoth } from "./both-systems.ts";
import { figureParagraphs, splitPinFigures, threadFigures, torqueFigures, verdictWords } from "./thing-figures.ts";

export interface FiguresAt extends Span {
  readonly paragraphs: readonly string[];
}

/** `column` counts from 0. Undefined where no figure stands there, or nothing is known of it. */
export function figuresAt(job: Job, at: LineAt, column: number): FiguresAt | undefined {
  const { line, entry } = at;
  if (line === undefined) return undefined;
  const fastener = fastenerOf(job, entry);
  const found =
    ofThread(line, entry, column) ??
    ofLocking(line, column, fastener ?? lockedBy(job, line)) ??
    ofReading(job, line, entry, column) ??
    ofRange(line, entry, column, fastener) ??
    ofQuantity(line, column);
  return found === undefined || found.paragraphs.length === 0 ? undefined : found;
}

function fastenerOf(job: Job, entry: Entry): Fastener | undefined {
  const name = entry.kind === "fastener" ? entry.name?.text : undefined;
  const thing = name === undefined ? undefined : job.things.get(name);
  return thing?.kind === "fastener" ? thing : undefined;
}

/** `lock hub-nut with split pin …` */
function lockedBy(job: Job, line: Entry | Detail): Fastener | undefined {
  if (line.kind !== "action") return undefined;
  const thing = job.things.get(line.things[0]?.name.text ?? "");
  return thing?.kind === "fastener" ? thing : undefined;
}

const within = (at: Span | undefined, column: number): at is Span => at !== undefined && at.from <= column && column <= at.to;

function ofThread(line: Entry | Detail, entry: Entry, column: number): FiguresAt | undefined {
  if (line.kind !== "thread" || line.thread === undefined || line.thread.free || !within(line.thread.at, column)) return undefined;
  const strength =
    entry.kind === "fastener"
      ? { ...(line.grade === undefined ? {} : { grade: line.grade.text }), ...(line.class === undefined ? {} : { class: line.class.text }) }
      : {};
  return { ...line.thread.at, paragraphs: threadFigures(line.thread.designation, line.thread.leftHand !== undefined, strength) };
}

function ofLocking(line: Entry | Detail, column: number, fastener: Fastener | undefined): FiguresAt | undefined {
  const locking = lockingsIn(line).find((it) => within(it.at, column));
  if (locking === undefined || locking.kind !== "split pin") return undefined;
  return { ...locking.at, paragraphs: splitPinFigures(locking, fastener) };
}

function lockingsIn(line: Entry | Detail): Locking[] {
  const parts = line as { readonly locking?: Locking; readonly with?: unknown; readonly item?: { readonly kind: string; readonly locking?: Locking } };
  const action = line.kind === "action" ? line.with : undefined;
  return [parts.locking, action, parts.item?.kind === "locking" ? parts.item.locking : undefined].filter((it) => it !== undefined);
}

/** The figure in both systems, against each band of its limit, and the verdict of its place. */
function ofReading(job: Job, line: Entry | Detail, entry: Entry, column: number): FiguresAt | undefined {
  if (line.kind !== "reading" || entry.kind !== "measure") return undefined;
  const written = quantityAt(line.figures, column);
  if (written === undefined) return undefined;
  const it = quantity(written.figure, written.unit);
  if (it === undefined) return undefined;
  const story = walk(job);
  const reading = story.readings.find((other) => other.entry === entry && other.detail === line);
  const paragraphs = [`${bothSystems(it)}.${line.again === undefined ? "" : " Tried again on one spot: the mean of the line is judged."}`];
  if (reading === undefined) return { ...written.at, paragraphs };
  const { limit, gauge } = reading;
  const u = uncertaintyOf(gauge, it.value);
  const against = (["new", "set", "worn"] as const).flatMap((name) => {
    const range = limit[name];
    const band = bandOf(range);
    if (range === undefined || band === undefined || band.unit.dimension !== it.unit.dimension || line.again !== undefined) return [];
    return [`${name} ${rangeInBoth(range)}: ${plainVerdict[compare(band, it.value, u)]}`];
  });
  if (against.length > 0)
    paragraphs.push(
      `This figure alone${u === undefined ? ", by plain comparison for no gauge with an uncertainty is named" : `, with the gauge's doubt (${gauge === undefined ? "" : knownTo(gauge)}, ISO 14253-1)`}: ${against.join("; ")}.`,
    );
  const judged = judge(story).verdicts.filter(
    (other) => other.limit === limit && other.reading.entry === entry && other.place === reading.place && !other.workedOut,
  );
  paragraphs.push(...judged.map((other) => `${verdictWords(other)}.`));
  return { ...written.at, paragraphs };
}

const plainVerdict = { in: "in", out: "out", doubt: "in doubt", "in-plain": "in", "out-plain": "out" } as const;

function ofRange(line: Entry | Detail, entry: Entry, column: number, fastener: Fastener | undefined): FiguresAt | undefined {
  const range = (line as ReadingDetail & { readonly range?: Range }).range;
  if (range === undefined || !within(range.at, column) || bandOf(range) === undefined) return undefined;
  if (line.kind === "torque" && fastener !== undefined && fastener.torque?.range === range) return { ...range.at, paragraphs: torqueFigures(fastener) };
  const paragraphs = [`${entry.kind === "limit" && line.kind !== "torque" ? `${line.kind} ` : ""}${rangeInBoth(range)}.`];
  if (range.kind === "fit") paragraphs.push(...figureParagraphs(`${range.nominal.figure.text} ${range.fit.text} ${range.nominal.unit?.text ?? "mm"}`));
  return { ...range.at, paragraphs };
}

/** Any other quantity, in both systems. */
function ofQuantity(line: Entry | Detail, column: number): FiguresAt | undefined {
  for (const list of listsIn(line)) {
    const written = quantityAt(list, column);
    const it = written === undefined ? undefined : quantity(written.figure, written.unit);
    if (written === undefined || it === undefined) continue;
    const both = bothSystems(it);
    // A unit without a partner would only be told as it stands.
    return both.includes("(") ? { ...written.at, paragraphs: [`${both}.`] } : undefined;
  }
  return undefined;
}

interface Written {
  readonly figure: string;
  readonly unit: string;
  readonly at: Span;
}

function quantityAt(list: readonly Quantity[], column: number): Written | undefined {
  const index = list.findIndex((it) => within(it.at, column));
  const it = list[index];
  const unit = it === undefined ? undefined : unitsOf(list)[index];
  return it === undefined || unit === undefined || it.figure.comma ? undefined : { figure: it.figure.text, unit: unit.text, at: it.at };
}

const rangeKinds = new Set(["between", "max", "min", "deviations", "plus-minus", "fit", "bare"]);

/** The quantities of a line, in the lists in which one unit may serve all. Details below an entry's head are other lines. */
function listsIn(node: unknown, depth = 0): (readonly Quantity[])[] {
  if (typeof node !== "object" || node === null || depth > 12) return [];
  if (Array.isArray(node)) return node.length > 0 && node.every(isQuantity) ? [node] : node.flatMap((it) => listsIn(it, depth + 1));
  if (isQuantity(node)) return [[node]];
  if (rangeKinds.has((node as { kind?: string }).kind ?? "") && !("keyword" in node)) return [quantitiesOf(node as Range)];
  return Object.entries(node).flatMap(([name, it]) => (name === "details" || name === "stray" ? [] : listsIn(it, depth + 1)));
}

function isQuantity(node: unknown): node is Quantity {
  return (
    typeof node === "object" && node !== null && "figure" in node && "at" in node && !("currency" in node) && typeof (node as Quantity).figure === "object"
  );
}
