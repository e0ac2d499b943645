// The picture of a limit: a rod for each band, and below it, on the same axis, each reading of each place as a mark with its uncertainty as a bar.
// How far a reading may spread is a rod as long as that, and at each reading dots as far apart, from the least that was read.
// Invariant: floats draw and decide nothing; shape and words carry the meaning, no colour does. Sheet text is escaped.
import { type Content, type Markup, html } from "../draw/html.ts";
import { cutTo, drawingWide as whole, widthOf } from "../draw/lettering.ts";
import { besideWords, pictureWords, signOf } from "./words.ts";
import type { BandShown, LimitRead, StageRead } from "./readings.ts";

const left = 46;
const leastRight = 136;
const mostRight = 230;
const beside = 12;
const lane = 22;

/** Undefined where no figure was read. */
export function readingsPicture(limit: LimitRead): Markup | undefined {
  const places = limit.places
    .map(({ place, stages }) => ({ place, stages: stages.filter((it) => it.at !== undefined || it.spots.length > 0) }))
    .filter(({ stages }) => stages.length > 0);
  const stages = places.flatMap((it) => it.stages);
  const spread = spreadRod(limit, stages);
  const rods = [...limit.bands, ...(spread === undefined ? [] : [spread])];
  const labels = [limit.unit, ...rods.map((it) => it.text), ...stages.map(labelOf)];
  const right = Math.ceil(Math.min(mostRight, Math.max(leastRight, beside + Math.max(...labels.map(widthOf)))));
  const wide = limit.spread === undefined ? undefined : Number(limit.spread.wide);
  const scale = scaleOf(rods, stages, wide, whole - left - right);
  if (places.length === 0 || scale === undefined) return undefined;
  const { x, to, ticks, decimals } = scale;
  const bandsHigh = rods.length * lane;
  const named = places.some((it) => it.place !== "");
  const rows: Markup[] = [];
  let y = bandsHigh + 4;
  for (const { place, stages } of places) {
    if (named) {
      rows.push(html`<text class="strong" x="0" y="${y + 15}">${cutTo(whole, place === "" ? "all" : place)}</text>
`);
      y += lane - 2;
    }
    for (const stage of stages) {
      rows.push(
        html`${wide !== undefined && spreadEnds(stage, wide).map((end) => html`<line class="dot" x1="${x(end)}" y1="${y}" x2="${x(end)}" y2="${y + lane}"/>`)}${reading(stage, y + lane / 2, scale)}`,
      );
      y += lane;
    }
  }
  const bottom = y + 2;
  return html`<svg class="readings" viewBox="0 0 ${whole} ${bottom + 22}" role="img" aria-label="${pictureWords(limit)}">
${rods.map((band, i) => [rod(band, i * lane + lane / 2, scale), band.name !== "spread" && walls(band, i * lane + lane / 2, bottom, x)])}<line class="thin" x1="${left}" y1="${bottom}" x2="${to}" y2="${bottom}"/>
${ticks.map((value) => html`<line class="thin" x1="${x(value)}" y1="${bottom}" x2="${x(value)}" y2="${bottom + 5}"/>${spaced(value, scale) && html`<text class="faint" x="${x(value)}" y="${bottom + 18}" text-anchor="middle">${value.toFixed(decimals)}</text>`}`)}
<text class="faint" x="${to + beside}" y="${bottom + 18}">${cutTo(right - beside, limit.unit)}</text>
${rows}</svg>`;
}

/** What each sign in a picture means, drawn beside its words. */
export function pictureKey(): Markup {
  const sign = (drawing: Content, words: string) => html`<li><svg viewBox="0 0 34 16" width="34" height="16" aria-hidden="true">${drawing}</svg> ${words}</li>
`;
  const bar = html`<line class="line" x1="5" y1="8" x2="29" y2="8"/><line class="line" x1="5" y1="3" x2="5" y2="13"/><line class="line" x1="29" y1="3" x2="29" y2="13"/>`;
  return html`<ul class="key" aria-label="Signs in the pictures">
${sign(shape("found", 17, 8, false), "as found")}${sign(shape("trial", 17, 8, false), "a trial")}${sign(shape("final", 17, 8, false), "final")}${sign(shape("final", 17, 8, true), "stale: measure again")}${sign(bar, "uncertainty, k\u00a0=\u00a02")}${sign(html`<line class="line" x1="17" y1="3" x2="17" y2="13"/>`, "another spot")}${sign(html`<line class="wall" x1="5" y1="2" x2="5" y2="14"/><line class="line" x1="5" y1="8" x2="30" y2="8"/><path class="line" d="M24 4 L31 8 L24 12"/>`, "allowed: from a wall, open at an arrow")}</ul>
`;
}

/** The axis runs from the `left` of the drawing to `to`; what is written beside it begins `beside` further on. */
interface Scale {
  readonly x: (value: number) => number;
  readonly to: number;
  readonly ticks: readonly number[];
  readonly decimals: number;
}

/** A band, or how far a reading may spread: a rod from the least of the first that has more than one figure. */
interface Rod extends Omit<BandShown, "name"> {
  readonly name: BandShown["name"] | "spread";
}

function spreadRod({ spread }: LimitRead, stages: readonly StageRead[]): Rod | undefined {
  const ends = spread === undefined ? [] : stages.flatMap((it) => spreadEnds(it, Number(spread.wide)));
  return spread === undefined || ends.length === 0 ? undefined : { name: "spread", text: spread.text, low: `${ends[0]}`, high: `${ends[1]}` };
}

/** From the least that was read to what the greatest may be; none of a single figure. */
function spreadEnds({ spots }: StageRead, wide: number): number[] {
  if (spots.length < 2) return [];
  const least = Math.min(...spots.map((it) => Number(it.at)));
  return [least, least + wide];
}

function scaleOf(bands: readonly Rod[], stages: readonly StageRead[], spread: number | undefined, wide: number): Scale | undefined {
  const ends = bands
    .flatMap((it) => [it.low, it.high])
    .filter((it) => it !== undefined)
    .map(Number);
  const read = stages.flatMap((it) => {
    const u = Number(it.u ?? 0);
    const apart = spread === undefined ? [] : spreadEnds(it, spread);
    return [...apart, ...(it.at === undefined ? [] : [Number(it.at) - u, Number(it.at) + u]), ...it.spots.map((spot) => Number(spot.at))];
  });
  const all = [...ends, ...read].filter(Number.isFinite);
  if (all.length === 0) return undefined;
  let low = Math.min(...all);
  let high = Math.max(...all);
  // A limit with one end has room on its open side.
  const room = high > low ? (high - low) * 0.12 : Math.abs(high) * 0.1 || 1;
  low -= room;
  high += room;
  // One figure is no scale: where a coarse step leaves only one on the axis, a finer one is taken.
  const coarse = niceStep((high - low) / 4);
  const step = Math.floor(high / coarse) > Math.ceil(low / coarse) ? coarse : niceStep((high - low) / 8);
  const decimals = Math.max(0, Math.min(9, -Math.floor(Math.log10(step) + 1e-9)));
  const ticks: number[] = [];
  for (let k = Math.ceil(low / step); k * step <= high && ticks.length < 12; k++) ticks.push(k * step);
  return { x: (value) => Math.round((left + ((value - low) / (high - low)) * wide) * 10) / 10, to: left + wide, ticks, decimals };
}

/** A figure is written under its tick where it reaches neither its neighbour's nor the unit beside the axis. */
function spaced(value: number, { x, to, ticks, decimals }: Scale): boolean {
  const wide = widthOf(value.toFixed(decimals));
  const step = ticks.length < 2 ? Number.POSITIVE_INFINITY : x(ticks[1] as number) - x(ticks[0] as number);
  // A wide figure leaves out as many ticks as it needs; the first always has its own.
  const every = Math.max(1, Math.ceil((wide + 4) / step));
  const k = ticks.indexOf(value);
  return k % every === 0 && x(value) + wide / 2 < to + beside - 4 && x(value) - wide / 2 > 0;
}

/** 1, 2 or 5 of a power of ten, no less than asked. */
function niceStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  return ([1, 2, 5, 10].find((it) => it * power >= least * 0.999) ?? 10) * power;
}

/** A rod from end to end with a wall at each; an open side runs out to the edge with an arrow. */
function rod(band: Rod, y: number, { x, to: edge }: Scale): Markup {
  const from = band.low === undefined ? left : x(Number(band.low));
  const to = band.high === undefined ? edge : x(Number(band.high));
  const wall = (at: number) => html`<line class="${band.name === "worn" ? "wall" : "line"}" x1="${at}" y1="${y - 7}" x2="${at}" y2="${y + 7}"/>`;
  const arrow = (at: number, way: number) => html`<path class="line" d="M${at - way * 7} ${y - 4} L${at} ${y} L${at - way * 7} ${y + 4}"/>`;
  return html`<text class="faint" x="0" y="${y + 4}">${band.name}</text><line class="line" x1="${from}" y1="${y}" x2="${to}" y2="${y}"/>${band.low === undefined ? arrow(from, -1) : wall(from)}${band.high === undefined ? arrow(to, 1) : wall(to)}<text class="faint" x="${edge + beside}" y="${y + 4}">${cutTo(whole - edge - beside, band.text)}</text>
`;
}

/** The ends of a band carried down to the readings: dashes for wear, dots for the rest. */
function walls(band: Rod, y: number, bottom: number, x: Scale["x"]): Markup[] {
  return [band.low, band.high]
    .filter((it) => it !== undefined)
    .map(
      (end) => html`<line class="${band.name === "worn" ? "dash" : "dot"}" x1="${x(Number(end))}" y1="${y + 7}" x2="${x(Number(end))}" y2="${bottom}"/>
`,
    );
}

function reading(stage: StageRead, y: number, { x, to: edge }: Scale): Markup {
  const at = stage.at === undefined ? undefined : Number(stage.at);
  const u = stage.u === undefined ? undefined : Number(stage.u);
  const spots = stage.spots
    .filter((it) => it.at !== stage.at)
    .map((it) => html`<line class="line" x1="${x(Number(it.at))}" y1="${y - 4}" x2="${x(Number(it.at))}" y2="${y + 4}"/>`);
  const bar =
    at === undefined || u === undefined
      ? undefined
      : html`<line class="line" x1="${x(at - u)}" y1="${y}" x2="${x(at + u)}" y2="${y}"/><line class="line" x1="${x(at - u)}" y1="${y - 6}" x2="${x(at - u)}" y2="${y + 6}"/><line class="line" x1="${x(at + u)}" y1="${y - 6}" x2="${x(at + u)}" y2="${y + 6}"/>`;
  const mark = at === undefined ? undefined : shape(stage.stage, x(at), y, stage.stale);
  return html`<text x="0" y="${y + 4}">${stage.stage}</text>${bar}${spots}${mark}<text class="strong" x="${edge + beside}" y="${y + 4}">${cutTo(whole - edge - beside, labelOf(stage))}</text>
`;
}

/** What is written beside a reading. */
function labelOf(stage: StageRead): string {
  const value = besideWords(stage);
  return stage.stale ? `${value}, stale` : `${signOf(stage)} ${value}`;
}

/** A ring is as found, a square a trial, a full diamond final; what is stale is no more than an outline of dashes. */
function shape(stage: StageRead["stage"], x: number, y: number, stale: boolean): Markup {
  if (stage === "found") return html`<circle class="open" cx="${x}" cy="${y}" r="4.5"/>`;
  if (stage === "trial") return html`<rect class="open" x="${x - 4}" y="${y - 4}" width="8" height="8"/>`;
  return html`<path class="${stale ? "stale" : "mark"}" d="M${x} ${y - 6} L${x + 5} ${y} L${x} ${y + 6} L${x - 5} ${y} Z"/>`;
}
