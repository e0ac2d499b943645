// The picture of a limit at a place: a rod for each band, and below it each reading as a mark with its uncertainty as a bar.
// Invariant: floats draw and decide nothing; shape and words carry the meaning, no colour does. Sheet text is escaped.
import { type Markup, html } from "../draw/html.ts";
import { signOf, pictureWords } from "./words.ts";
import type { BandShown, LimitRead, PlaceRead, StageRead } from "./readings.ts";

const left = 62;
const wide = 360;
const right = 222;
const lane = 24;

/** Undefined where there is nothing to draw: no figure, or no band to hold it against. */
export function readingsPicture(limit: LimitRead, place: PlaceRead): Markup | undefined {
  const stages = place.stages.filter((it) => it.at !== undefined || it.spots.length > 0);
  const scale = scaleOf(limit.bands, stages);
  if (stages.length === 0 || limit.bands.length === 0 || scale === undefined) return undefined;
  const { x, ticks, decimals } = scale;
  const bandsHigh = limit.bands.length * lane;
  const bottom = bandsHigh + 8 + stages.length * lane;
  const height = bottom + 26;
  const words = pictureWords(limit, place);
  return html`<svg viewBox="0 0 ${left + wide + right} ${height}" role="img" aria-label="${words}">
${limit.bands.map((band, i) => [rod(band, i * lane + lane / 2, x), walls(band, i * lane + lane / 2, bottom, x)])}<line class="thin" x1="${left}" y1="${bottom}" x2="${left + wide}" y2="${bottom}"/>
${ticks.map((value) => html`<line class="thin" x1="${x(value)}" y1="${bottom}" x2="${x(value)}" y2="${bottom + 5}"/><text class="faint" x="${x(value)}" y="${bottom + 18}" text-anchor="middle">${value.toFixed(decimals)}</text>`)}
<text class="faint" x="${left + wide + 30}" y="${bottom + 18}">${limit.unit}</text>
${stages.map((stage, i) => reading(stage, bandsHigh + 8 + i * lane + lane / 2, x))}</svg>`;
}

interface Scale {
  readonly x: (value: number) => number;
  readonly ticks: readonly number[];
  readonly decimals: number;
}

function scaleOf(bands: readonly BandShown[], stages: readonly StageRead[]): Scale | undefined {
  const ends = bands
    .flatMap((it) => [it.low, it.high])
    .filter((it) => it !== undefined)
    .map(Number);
  const read = stages.flatMap((it) => {
    const u = Number(it.u ?? 0);
    return [...(it.at === undefined ? [] : [Number(it.at) - u, Number(it.at) + u]), ...it.spots.map((spot) => Number(spot.at))];
  });
  const all = [...ends, ...read].filter(Number.isFinite);
  if (all.length === 0) return undefined;
  let low = Math.min(...all);
  let high = Math.max(...all);
  // A limit with one end has room on its open side.
  const room = high > low ? (high - low) * 0.12 : Math.abs(high) * 0.1 || 1;
  low -= room;
  high += room;
  const step = niceStep((high - low) / 5);
  const decimals = Math.max(0, Math.min(9, -Math.floor(Math.log10(step) + 1e-9)));
  const ticks: number[] = [];
  for (let k = Math.ceil(low / step); k * step <= high && ticks.length < 12; k++) ticks.push(k * step);
  return { x: (value) => Math.round((left + ((value - low) / (high - low)) * wide) * 10) / 10, ticks, decimals };
}

/** 1, 2 or 5 of a power of ten, no less than asked. */
function niceStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  return ([1, 2, 5, 10].find((it) => it * power >= least * 0.999) ?? 10) * power;
}

/** A rod from end to end with a wall at each; an open side runs out to the edge with an arrow. */
function rod(band: BandShown, y: number, x: Scale["x"]): Markup {
  const from = band.low === undefined ? left : x(Number(band.low));
  const to = band.high === undefined ? left + wide : x(Number(band.high));
  const wall = (at: number) => html`<line class="${band.name === "worn" ? "wall" : "line"}" x1="${at}" y1="${y - 7}" x2="${at}" y2="${y + 7}"/>`;
  const arrow = (at: number, way: number) => html`<path class="line" d="M${at - way * 7} ${y - 4} L${at} ${y} L${at - way * 7} ${y + 4}"/>`;
  return html`<text class="faint" x="0" y="${y + 4}">${band.name}</text><line class="line" x1="${from}" y1="${y}" x2="${to}" y2="${y}"/>${band.low === undefined ? arrow(from, -1) : wall(from)}${band.high === undefined ? arrow(to, 1) : wall(to)}<text class="faint" x="${left + wide + 14}" y="${y + 4}">${short(band.text)}</text>
`;
}

/** The ends of a band carried down to the readings: dashes for wear, dots for the rest. */
function walls(band: BandShown, y: number, bottom: number, x: Scale["x"]): Markup[] {
  return [band.low, band.high]
    .filter((it) => it !== undefined)
    .map(
      (end) => html`<line class="${band.name === "worn" ? "dash" : "dot"}" x1="${x(Number(end))}" y1="${y + 7}" x2="${x(Number(end))}" y2="${bottom}"/>
`,
    );
}

function reading(stage: StageRead, y: number, x: Scale["x"]): Markup {
  const at = stage.at === undefined ? undefined : Number(stage.at);
  const u = stage.u === undefined ? undefined : Number(stage.u);
  const spots = stage.spots
    .filter((it) => it.at !== stage.at)
    .map((it) => html`<line class="line" x1="${x(Number(it.at))}" y1="${y - 4}" x2="${x(Number(it.at))}" y2="${y + 4}"/>`);
  const bar =
    at === undefined || u === undefined
      ? undefined
      : html`<line class="line" x1="${x(at - u)}" y1="${y}" x2="${x(at + u)}" y2="${y}"/><line class="line" x1="${x(at - u)}" y1="${y - 6}" x2="${x(at - u)}" y2="${y + 6}"/><line class="line" x1="${x(at + u)}" y1="${y - 6}" x2="${x(at + u)}" y2="${y + 6}"/>`;
  // A ring is as found, a square a trial, a full diamond final.
  const mark = at === undefined ? undefined : shape(stage.stage, x(at), y);
  return html`<text x="0" y="${y + 4}">${stage.stage}</text>${bar}${spots}${mark}<text class="strong" x="${left + wide + 14}" y="${y + 4}">${signOf(stage)} ${short(`${stage.value ?? stage.mean ?? ""}${stage.uncertainty === undefined ? "" : ` \u00b1 ${stage.uncertainty}`}`)}</text>
`;
}

function shape(stage: StageRead["stage"], x: number, y: number): Markup {
  if (stage === "found") return html`<circle class="open" cx="${x}" cy="${y}" r="4.5"/>`;
  if (stage === "trial") return html`<rect class="open" x="${x - 4}" y="${y - 4}" width="8" height="8"/>`;
  return html`<path class="mark" d="M${x} ${y - 6} L${x + 5} ${y} L${x} ${y + 6} L${x - 5} ${y} Z"/>`;
}

/** What fits beside the picture; the whole stands in the table. */
function short(text: string): string {
  return [...text].length <= 30 ? text : `${[...text].slice(0, 29).join("")}\u2026`;
}
