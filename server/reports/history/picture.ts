// The picture of a limit's readings over time: each a mark with its uncertainty as a bar, the limit as walls, the line through them, and about it where one more reading is expected.
// Invariant: floats draw and decide nothing; shape and words carry the meaning, no colour does. An estimate is dashed, a limit is a wall.
import { addDays } from "../../quantities/days.ts";
import { type Markup, html } from "../draw/html.ts";
import { drawingWide, widthOf } from "../draw/lettering.ts";
import type { LimitHistory, ReadingPoint, Trend } from "./shapes.ts";

const high = 150;
const top = 14;
/** From one line of letters to the next. */
const letters = 15;

/** Undefined where fewer than two readings have a time. Over the counter where that has more of them, else over days. */
export function historyPicture(limit: LimitHistory): Markup | undefined {
  const withDays = limit.points.filter((it) => it.days !== null);
  const withCount = limit.points.filter((it) => it.count !== null);
  const byCounter = distinct(withCount.map((it) => it.count)) > distinct(withDays.map((it) => it.days));
  const points = byCounter ? withCount : withDays;
  if (distinct(points.map((it) => (byCounter ? it.count : it.days))) < 2) return undefined;
  const trend = byCounter ? limit.overCounter : limit.overDays;
  const xOf = (it: ReadingPoint) => Number(byCounter ? it.count : it.days);
  const xs = points.map(xOf);
  const to = trend.estimate === null ? Math.max(...xs) : Math.max(Number(trend.estimate.x), ...xs);
  const from = Math.min(...xs);
  const line = ends(trend, to);
  const ys = [
    ...points.flatMap((it) => [Number(it.at) - Number(it.u ?? 0), Number(it.at) + Number(it.u ?? 0)]),
    ...[limit.low, limit.high].filter((it) => it !== null).map(Number),
    ...line.map((it) => it.y),
  ].filter(Number.isFinite);
  const [low, up] = [Math.min(...ys), Math.max(...ys)];
  const decimals = Math.max(0, ...points.map((it) => (it.value.split(" ")[0]?.split(".")[1] ?? "").length));
  // The axis bears the least and the greatest figure that was read, and none that nobody read.
  const read = points.map((it) => Number(it.at));
  const figures = [...new Set([Math.min(...read), Math.max(...read)])];
  const frame: Frame = { left: Math.ceil(Math.max(widthOf(limit.unit), ...figures.map((it) => widthOf(it.toFixed(decimals))))) + 10, decimals };
  const { left } = frame;
  const names = walls(limit, frame);
  const right = Math.ceil(Math.max(0, ...names.map((it) => widthOf(it.words)))) + 14;
  // Long figures take from the axis, and never from the size of the letters.
  const wide = Math.max(120, drawingWide - left - right);
  const room = up > low ? (up - low) * 0.1 : Math.abs(up) * 0.1 || 1;
  const x = (value: number) => round(left + ((value - from) / (to - from || 1)) * wide);
  const y = (value: number) => round(top + high - ((value - (low - room)) / (up - low + 2 * room)) * high);
  const first = limit.points.find((it) => it.days === 0)?.day ?? null;
  const label = (value: number) => (byCounter ? `${Math.round(value)} ${trend.unit ?? ""}` : first === null ? "" : (addDays(first, Math.round(value)) ?? ""));
  const apart = spaceBetween(figures, y);
  const wallsApart = spaceBetween(
    names.map((it) => it.at),
    y,
  );
  const words = `${limit.title}: ${points.length} readings from ${label(from)} to ${label(Math.max(...xs))}, ${points[0]?.value} to ${points.at(-1)?.value}; limit ${limit.against}.${trend.estimate === null ? "" : ` Estimate: at its limit about ${trend.estimate.about}.`}`;
  return html`<svg class="history" viewBox="0 0 ${left + wide + right} ${top + high + 30}" role="img" aria-label="${words}">
<line class="thin" x1="${left}" y1="${top + high}" x2="${left + wide}" y2="${top + high}"/>
${names.map((it, i) => wallMarkup(it, left, left + wide, y, i === 0 ? wallsApart : -wallsApart))}${line.length === 2 && html`<line class="line" x1="${x(line[0]?.x ?? 0)}" y1="${y(line[0]?.y ?? 0)}" x2="${x(Math.min(line[1]?.x ?? 0, Math.max(...xs)))}" y2="${y(at(line, Math.min(line[1]?.x ?? 0, Math.max(...xs))))}"/>`}${
  trend.estimate !== null &&
  line.length === 2 &&
  html`<line class="dash" x1="${x(Math.max(...xs))}" y1="${y(at(line, Math.max(...xs)))}" x2="${x(to)}" y2="${y(at(line, to))}"/><text class="faint" x="${round((x(Math.max(...xs)) + x(to)) / 2) + 8}" y="${top + high - 8}" text-anchor="middle">estimate</text>`
}
${points.map((it) => mark(it, x(xOf(it)), y))}
${figures.map((it, i) => html`<text class="faint" x="${left - 8}" y="${round(y(it) + 4 + (i === 0 ? apart : -apart))}" text-anchor="end">${it.toFixed(decimals)}</text>`)}<text class="faint" x="0" y="${top + high + 22}">${limit.unit}</text>
<text class="faint" x="${left}" y="${top + high + 22}">${label(from)}</text><text class="faint" x="${left + wide}" y="${top + high + 22}" text-anchor="end">${label(to)}</text></svg>`;
}

function distinct(list: readonly unknown[]): number {
  return new Set(list).size;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}

/** The line from its first reading to where the picture ends. */
function ends(trend: Trend, to: number): { readonly x: number; readonly y: number }[] {
  const drawn = trend.line?.map((it) => ({ x: Number(it.x), y: Number(it.y) })) ?? [];
  const [first, last] = drawn;
  if (first === undefined || last === undefined || first.x === last.x) return [];
  return [first, { x: to, y: at([first, last], to) }];
}

function at(line: readonly { readonly x: number; readonly y: number }[], x: number): number {
  const [first, last] = line;
  if (first === undefined || last === undefined || last.x === first.x) return first?.y ?? 0;
  return first.y + ((last.y - first.y) * (x - first.x)) / (last.x - first.x);
}

interface Frame {
  /** Where its axis begins, behind the figures. */
  readonly left: number;
  readonly decimals: number;
}

interface Wall {
  readonly at: number;
  readonly words: string;
}

function walls(limit: LimitHistory, { decimals }: Frame): Wall[] {
  return [limit.low, limit.high]
    .filter((it) => it !== null)
    .map((end) => ({
      at: Number(end),
      words: `${limit.against.split(" ")[0]} ${Number(end).toFixed(Math.max(decimals, (end.split(".")[1] ?? "").length))}`,
    }));
}

/** Of two that lie close, the lower first: how far down the lower and up the upper are written, so that they stand one over the other, as far as their letters are high. */
function spaceBetween(values: readonly number[], y: (value: number) => number): number {
  return values.length < 2 ? 0 : Math.max(0, (letters - (y(Math.min(...values)) - y(Math.max(...values)))) / 2);
}

function wallMarkup({ at: value, words }: Wall, left: number, to: number, y: (value: number) => number, down: number): Markup {
  return html`<line class="wall" x1="${left}" y1="${y(value)}" x2="${to}" y2="${y(value)}"/><text x="${to + 10}" y="${round(y(value) + 4 + down)}">${words}</text>`;
}

/** A ring is as found, a square a trial, a full diamond final; a stroke before it where it became another. */
function mark(it: ReadingPoint, x: number, y: (value: number) => number): Markup {
  const value = Number(it.at);
  const u = it.u === null ? undefined : Number(it.u);
  const middle = y(value);
  const bar = u !== undefined && html`<line class="line" x1="${x}" y1="${y(value - u)}" x2="${x}" y2="${y(value + u)}"/>`;
  const anew = it.anew && html`<line class="dot" x1="${round(x - 7)}" y1="${top}" x2="${round(x - 7)}" y2="${top + high}"/>`;
  const shape =
    it.stage === "found"
      ? html`<circle class="open" cx="${x}" cy="${middle}" r="4.5"/>`
      : it.stage === "trial"
        ? html`<rect class="open" x="${x - 4}" y="${middle - 4}" width="8" height="8"/>`
        : html`<path class="mark" d="M${x} ${middle - 6} L${x + 5} ${middle} L${x} ${middle + 6} L${x - 5} ${middle} Z"/>`;
  return html`${anew}${bar}${shape}\n`;
}
