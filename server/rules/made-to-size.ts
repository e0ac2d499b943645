// What was sent out to be made to a size, by the words of its order, and was read as another when it was back.
// Invariant: asked where the words give one size and one limit of the piece alone can be meant; whoever writes the size that it came as, or says that another would do, is not asked.
import { isAt, mentionsOf, ordersOf } from "../model/orders.ts";
import { relationsOf } from "../model/relations.ts";
import type { Limit } from "../model/things.ts";
import { wordsIn } from "../model/titles.ts";
import { bandOf } from "../model/values.ts";
import { type Where, where } from "../model/where.ts";
import { type Exact, compare, exact, figure } from "../quantities/exact.ts";
import { type Unit, unitOf } from "../quantities/units.ts";
import { readingsOn } from "../story/looked-up.ts";
import type { Reading, Story } from "../story/story.ts";

export interface OtherSize {
  readonly reading: Reading;
  /** As the order writes it. */
  readonly asked: string;
  readonly order: Where;
}

export function otherSizes(story: Story): OtherSize[] {
  const out: OtherSize[] = [];
  const { job } = story;
  for (const [name, lines] of ordersOf(job).work) {
    for (const { file, entry, detail, status } of lines) {
      const text = detail.text?.value ?? "";
      if (status?.status !== "received" || orSo.test(text)) continue;
      const limits = (relationsOf(job).measuredBy.get(name) ?? []).filter(
        (it): it is Limit => it.kind === "limit" && !it.implied && it.expression === undefined,
      );
      const meant = limits.flatMap((limit) => sizeIn(text, limit) ?? []);
      for (const size of meant) {
        if (meant.some((it) => it !== size && compare(it.value, size.value) === 0)) continue;
        const since = status.date?.text ?? "";
        const isSince = (it: Reading) => it.stage === "final" && isAt(detail, it.place) && (it.day === undefined || it.day >= since);
        const reading = readingsOn(story, size.limit.name).findLast(isSince);
        if (reading === undefined || !isOther(reading, size)) continue;
        // Said of its order, or with the reading: it came as that.
        const said = [entry, ...mentionsOf(job, entry), reading.entry].flatMap((it) => wordsIn(it));
        if (reading.spots.some((spot) => spot.figures.some((it) => said.some((words) => words.includes(shorter(it.figure)))))) continue;
        out.push({ reading, asked: size.text, order: where(file, entry, detail.row, detail.text?.at ?? detail.keyword) });
      }
    }
  }
  return out;
}

interface Size {
  readonly limit: Limit;
  readonly value: Exact;
  /** By how much a reading may be off. */
  readonly off: Exact;
  readonly text: string;
}

/** By every figure of it. */
function isOther({ spots }: Reading, { value, off }: Size): boolean {
  return spots.length > 0 && spots.every((spot) => compare(spot.value.sub(value).abs(), off) > 0);
}

/** The one size that the words give in what the limit is written in, where it is near to what is new: a size that is ground to is. */
function sizeIn(text: string, limit: Limit): Size | undefined {
  const band = bandOf(limit.new) ?? bandOf(limit.worn);
  const near = band?.low ?? band?.high;
  if (band === undefined || near === undefined || band.unit.dimension !== "length") return undefined;
  const sizes = [...text.matchAll(aSize)].flatMap(([whole, said = "", spelling]) => {
    const unit: Unit | undefined = spelling === undefined ? band.unit : unitOf(spelling);
    const value = exact(said);
    if (unit?.dimension !== "length" || value === undefined) return [];
    const length = value.mul(unit.factor);
    return compare(length.sub(near).abs().mul(16), near) <= 0
      ? [{ limit, value: length, off: unit.factor.mul(unit.name === "mm" ? offInMm : offInInches), text: whole }]
      : [];
  });
  return sizes.length === 1 ? sizes[0] : undefined;
}

/** What no shop is out by that was asked for a size; a fit is left beside it. From memory. */
const [offInMm, offInInches] = [figure("0.1"), figure("0.004")];
const aSize = /(?<![\d.,-])(\d*\.\d{2,4})(?: ?(mm|in)\b)?(?![\d.])/giu;
/** Another would do, or it is of something else than the size of this. */
const orSo =
  /\b(or|about|approx\w*|around|near|if|as|up|down|least|most|minimum|maximum|min|max|from|between|under|over|cleans?( up)?|suit|match|take|plus|less|within)\b/iu;

/** “1.6350” is told as 1.635 too. */
function shorter(written: string): string {
  return written.replace(/0+$/u, "").replace(/^0(?=\.)/u, "");
}
