// The picture of a plan: a calendar with a bar for each parcel and each planned step, and behind it a dotted line for what there is to spare.
// Invariant: floats draw and decide nothing; thickness, filling and words carry the meaning, no colour does. Sheet text is escaped.
import { addDays } from "../../quantities/days.ts";
import { cutTo, drawingWide as wide, widthOf } from "../draw/lettering.ts";
import { type Markup, html } from "../draw/html.ts";
import type { ParcelShown, PlanReport, StepShown } from "./shapes.ts";
import { daysWords, durationWords, stepWords } from "./words.ts";

// The words stand above their bar, whole.
const line = 15;
const barHigh = 20;
const head = 24;
/** More rows than a picture can hold are in the tables. */
const mostRows = 60;

interface Row {
  readonly kind: "step" | "parcel" | "job";
  readonly label: string;
  /** Days from the first. */
  readonly from: number;
  readonly to: number;
  /** Where what there is to spare ends. */
  readonly until: number;
  readonly critical: boolean;
  /** It hangs on what has no day. */
  readonly open: boolean;
  readonly beside: string;
  readonly words: string;
}

/** Undefined where there is nothing to draw, or it spans more than a calendar can show. */
export function planPicture(report: PlanReport): Markup | undefined {
  const all = rowsOf(report);
  const bars = all.filter((it) => it.kind !== "job");
  const last = Math.max(...bars.map((it) => Math.max(it.to, it.until)), 1);
  if (bars.length === 0 || !Number.isFinite(last) || last > 40_000) return undefined;
  const rows = all.slice(0, mostRows);
  const days = Math.ceil(last);
  const step = [1, 2, 7, 14, 28, 91, 182, 364, 1820, 3640, 9100].find((it) => days / it <= 7) ?? 9100;
  // The day on which the last of it ends has its date, whatever the others leave room for.
  const end = Math.floor(last);
  const after = (day: number) => 3 + widthOf(dateWords(report.from, day, step));
  const aDay = Math.min((wide - 12) / days, (wide - 8 - after(end)) / Math.max(end, 1));
  const x = (day: number) => Math.round(6 + day * aDay);
  const ticks = [...new Set([...Array.from({ length: Math.floor(days / step) + 1 }, (_, i) => i * step), end])];
  const isDated = (day: number) => day === end || x(day) + after(day) + 4 <= x(end);
  const drawings: Markup[] = [];
  let y = head;
  for (const row of rows) {
    const [drawing, high] = drawn(row, y, x);
    drawings.push(drawing);
    y += high;
  }
  const height = y + 4;
  return html`<svg class="calendar" viewBox="0 0 ${wide} ${height}" role="img" aria-label="${pictureWords(report, rows, all.length)}">
${ticks.map((day) => {
  const date = dateWords(report.from, day, step);
  return html`<line class="thin" x1="${x(day)}" y1="${head - 6}" x2="${x(day)}" y2="${height - 4}"/>${isDated(day) && html`<text class="faint" x="${x(day) + 3}" y="${head - 10}">${date}</text>`}
`;
})}${drawings}</svg>`;
}

/** How many rows the picture leaves to the tables. */
export function leftOut(report: PlanReport): number {
  return Math.max(0, rowsOf(report).length - mostRows);
}

/** The day and the month; the year and the month where the calendar is coarse. */
function dateWords(from: string, day: number, step: number): string {
  const date = addDays(from, day);
  if (date === undefined) return "";
  return step > 180 ? date.slice(0, 7) : date.slice(5);
}

/** A row that begins at `top`, and how high it is. */
function drawn(row: Row, top: number, x: (day: number) => number): readonly [Markup, number] {
  const lines = wrapped(row.kind === "job" || row.beside === "" ? row.label : `${row.label}; ${row.beside.replaceAll(" ", "\u00a0")}`);
  const strong = row.kind === "job" || row.critical;
  const words = lines.map((it, i) => html`<text${strong && html` class="strong"`} x="6" y="${top + 13 + i * line}">${it}</text>`);
  const high = lines.length * line;
  if (row.kind === "job")
    return [
      html`${words}
`,
      high + 5,
    ];
  const y = top + high + 8;
  const [from, to, until] = [x(row.from), x(row.to), x(row.until)];
  const half = row.kind === "step" ? 5 : 2.5;
  const bar =
    to - from < 1
      ? html`<path class="${row.critical ? "mark" : "open"}" d="M${from} ${y - 5} L${from + 4} ${y} L${from} ${y + 5} L${from - 4} ${y} Z"/>`
      : html`<rect class="${row.critical ? "mark" : "slab"}" x="${from}" y="${y - half}" width="${to - from}" height="${2 * half}"/>`;
  const arrival =
    row.kind === "parcel" &&
    to - from >= 1 &&
    html`<path class="${row.critical ? "mark" : "open"}" d="M${to - 5} ${y - 5} L${to} ${y} L${to - 5} ${y + 5} Z"/>`;
  const spare =
    until > to &&
    html`<line class="dot" x1="${to}" y1="${y}" x2="${until}" y2="${y}"/><line class="thin" x1="${until}" y1="${y - 4}" x2="${until}" y2="${y + 4}"/>`;
  return [
    html`${words}${spare}${bar}${arrival}
`,
    high + barHigh,
  ];
}

/** In lines that fit over the calendar, broken between words. */
function wrapped(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last === undefined || widthOf(`${last} ${word}`) > wide - 12) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  // One long word is cut where it ends: no sheet's text can reach out of the picture.
  return lines.map((it) => cutTo(wide - 12, it)).slice(0, 4);
}

// ---------------------------------------------------------------- the rows

function rowsOf(report: PlanReport): Row[] {
  const parcels = report.parcels.flatMap((it) => parcelRow(it, report));
  const several = report.jobs.length > 1;
  return [
    ...(several && parcels.length > 0 ? [heading("Parcels")] : []),
    ...parcels,
    ...report.jobs.flatMap((job) => {
      const steps = report.steps.filter((it) => it.file === job.file && it.state !== "done").flatMap((it) => stepRow(it, report));
      return several && steps.length > 0 ? [heading(job.title), ...steps] : steps;
    }),
  ];
}

function heading(label: string): Row {
  return { kind: "job", label, from: 0, to: 0, until: 0, critical: false, open: false, beside: "", words: label };
}

function parcelRow(it: ParcelShown, report: PlanReport): Row[] {
  if (it.arrivesIn === null) return [];
  const names = it.items.map((item) => item.name).join(", ");
  const slack = it.slack ?? 0;
  const from = it.goesOutBy === null && it.status !== "to order" && it.status !== "held" ? 0 : Math.max(0, daysFrom(report.from, it.leaves));
  const beside = it.critical ? "on the path" : it.slack === null ? "" : `${slack} d to spare`;
  return [
    {
      kind: "parcel",
      label: parcelWords(it),
      from: Math.min(from, it.arrivesIn),
      to: it.arrivesIn,
      until: it.arrivesIn + slack,
      critical: it.critical,
      open: it.overdue > 0,
      beside: it.overdue > 0 ? "overdue" : beside,
      words: `${it.supplier === null ? names : `${it.supplier}: ${names}`}: here on ${it.arrives ?? "a day past the calendar"}, ${it.overdue > 0 ? "overdue" : beside}`,
    },
  ];
}

/** From whom, and what: the first by its name, the others by their number. The tables name all. */
function parcelWords(it: ParcelShown): string {
  const [first, ...more] = it.items.map((item) => item.name);
  return [it.supplier, `${first ?? ""}${more.length === 0 ? "" : ` and ${more.length} more`}`].filter((word) => word !== null && word !== "").join(": ");
}

function daysFrom(from: string, day: string | null): number {
  if (day === null) return 0;
  const days = (Date.parse(`${day}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000;
  return Number.isFinite(days) ? days : 0;
}

function stepRow(it: StepShown, report: PlanReport): Row[] {
  if (it.earliestStart === null || it.earliestFinish === null) return [];
  const to = Number(it.earliestFinish.days);
  const beside = it.critical ? "on the path" : it.slack === null ? "" : `${durationWords(it.slack, report.hoursADay)} to spare`;
  return [
    {
      kind: "step",
      label: stepWords(it),
      from: Number(it.earliestStart.days),
      to,
      until: to + Number(it.slack?.days ?? 0),
      critical: it.critical,
      open: it.atEarliest,
      beside: it.atEarliest ? "at the earliest" : beside,
      words: `${stepWords(it)}: ${daysWords(it)}${beside === "" ? "" : `, ${beside}`}`,
    },
  ];
}

/** The whole picture in words. */
function pictureWords(report: PlanReport, rows: readonly Row[], all: number): string {
  const told = rows.map((it) => it.words).join(". ");
  return `Calendar from ${report.from}. ${told}.${all > rows.length ? ` ${all - rows.length} more rows are in the tables.` : ""}`;
}
