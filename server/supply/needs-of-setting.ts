// What sets a limit that was read outside its `set`: a washer, a spacer or a shim of another size is wanted, and which one the reading tells.
// Invariant: a nut or a screw that is turned to set it is not bought; one that is needed anyway is asked for once.
import { midSentence } from "../model/titles.ts";
import { ordersOf } from "../model/orders.ts";
import { compare, one, ratio } from "../quantities/exact.ts";
import { bandOf } from "../model/values.ts";
import { differenceText } from "../quantities/quantity.ts";
import { type Band, verdict } from "../quantities/range.ts";
import type { Reading, Spot, Story } from "../story/story.ts";
import { itemNamed } from "./items.ts";
import { type Needs, type PlacedNeed, placed } from "./need.ts";

export function needsOfSetting(story: Story, pieces: Pick<Needs, "needed" | "waiting">): PlacedNeed[] {
  const latest = new Map<string, Reading>();
  for (const it of story.readings) if (it.limit.setBy.length > 0) latest.set(`${it.limit.name} ${it.place}`, it);
  const out = new Map<string, PlacedNeed>();
  for (const reading of latest.values()) {
    const band = bandOf(reading.stood.set);
    const [spot, ...more] = reading.spots;
    // Several spots are a matter of the mean or the worst, and left to the reader of the readings.
    if (band === undefined || spot === undefined || more.length > 0 || verdict(band, spot.value) !== "out-plain") continue;
    for (const { text: name } of reading.limit.setBy) {
      const thing = story.job.things.get(name);
      if (thing?.kind !== "part" || !(comesInSizes.test(thing.title ?? name) || ordersOf(story.job).items.has(name))) continue;
      const item = itemNamed(story.job, name);
      const isAsked = [...pieces.needed, ...pieces.waiting].some((it) => it.item.key === item.key);
      const fitted = story.cells(name).some((cell) => cell.kind === "part" && cell.history.some((it) => it.verb === "fit" && it.isNew && it.seq > reading.seq));
      if (isAsked || fitted) continue;
      const text = placed(reading.place, `${sizeWords(reading, spot, band)}: it sets the ${midSentence(reading.limit)}, which is outside ${band.text}`);
      const reason = { where: reading.where, place: reading.place, text };
      const key = `${item.key} ${reading.place}`;
      const before = out.get(key);
      out.set(
        key,
        // Of what is renewed in pairs all that are at the place take the new size.
        before === undefined
          ? { item, place: reading.place, amount: { value: thing.inPairs ? ratio(thing.perPlace ?? 1) : one }, reasons: [reason] }
          : { ...before, reasons: [...before.reasons, reason] },
      );
    }
  }
  return [...out.values()];
}

/**
 * How much thicker or thinner than the one that is in would serve, from the reading: what the washer takes up goes off a float, one for one (arithmetic of a stack).
 * Of anything but a float or a clearance along the stack, in a length, that is not known, and only another size is asked for.
 */
function sizeWords({ limit }: Reading, spot: Spot, band: Band): string {
  const figure = spot.figures[0];
  if (figure === undefined || figure.unit.dimension !== "length" || band.unit.dimension !== "length" || !takenUp.test(`${limit.name} ${limit.title ?? ""}`))
    return "in another size";
  const { unit } = figure;
  const places = Math.max(0, ...spot.figures.map((it) => it.places), 0);
  const tooMuch = band.high !== undefined && compare(spot.value, band.high) > 0;
  const ends = [band.high, band.low].flatMap((end) => (end === undefined ? [] : [spot.value.sub(end).abs()])).sort(compare);
  const [least, most] = ends.map((it) => differenceText(it, unit, Math.max(places, 0)));
  const by = most === undefined ? `${least ?? ""} ${tooMuch ? "or more " : ""}` : `${(least ?? "").replace(` ${unit.spelling}`, "")} to ${most} `;
  return `${by}${tooMuch ? "thicker" : "thinner"} than the one that it was read with`;
}

/** What grows smaller by the thickness that is put in, one for one. A backlash, or the play at a rim, changes by the angles and the levers between. */
const takenUp = /float|clearance|\bend.?play\b|\bgap\b|end.?shake/i;

/** What a part is called that is had in several sizes for setting something. */
const comesInSizes = /selective|shim|spacer|distance (piece|ring|tube)|thrust washer/i;
