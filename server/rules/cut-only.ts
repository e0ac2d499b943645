// A later reading that says there is more metal than before, where all that was done since takes metal off.
// Invariant: told of plain sizes alone, by what their limit is called: a shaft that is under size, a bore that is over. Of a gap, a float, a run-out it says nothing.
import type { Job } from "../model/job.ts";
import { isCritical } from "../model/relations.ts";
import { isSamePlace } from "../model/same-place.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { bandOf } from "../model/values.ts";
import { inside as isInside } from "../quantities/range.ts";
import { wordsOf } from "../model/read-with.ts";
import type { Limit } from "../model/things.ts";
import { type Exact, compare } from "../quantities/exact.ts";
import { ofNoGauge, uncertaintyOf } from "../story/bands.ts";
import { readingsAt, readingsOn } from "../story/looked-up.ts";
import type { FastenerMoment, PartMoment, Reading, Story } from "../story/story.ts";
import { type Verdict, isDifference } from "../story/verdict.ts";
import { addsNothing, mendsNothing, onlyCuts } from "../story/worked-in.ts";
import { findingsOf } from "../story/decisions.ts";
import { hasReason } from "../story/finding-words.ts";
import { greatest, least } from "../story/worked-out.ts";
import { isReasoned } from "./failures.ts";
import type { JobContext } from "./rule.ts";

/** In, of what was out for want of metal, and all that was done between the two took more of it off. */
export function cutsThatAddNothing({ job, story }: JobContext, out: Verdict, later: Verdict): boolean {
  if (out.band !== "worn" || out.outcome !== "out" || out.workedOut || later.outcome !== "in" || later.workedOut || out.limit.expression !== undefined)
    return false;
  if (out.limit.setBy.length > 0 || out.stood.set !== undefined || out.position !== later.position) return false;
  const side = sideOf(out.limit);
  if (side === undefined) return false;
  const { low, high } = out.against;
  const isGrown =
    side === "outside"
      ? low !== undefined && compare(out.value, low) < 0 && compare(later.value, out.value) > 0
      : high !== undefined && compare(out.value, high) > 0 && compare(later.value, out.value) < 0;
  if (!isGrown) return false;
  const again = readingsOn(story, out.limit.name).some(
    (it) => it.stage === "found" && it.seq > out.seq && it.seq < later.seq && it.place === out.place && isReasoned(it),
  );
  if (again) return false;
  return isOnlyCutBetween(job, story, out.limit, out, later, (text) => takesMetalOff(text, side));
}

/**
 * The same inside the limits: a pin that was scored and polished, and is thicker since; a bore that was honed and is smaller; or grown with nothing done to it at all, as two pistons are that changed
 * places. By its worst figures and by more than the gauges let be; without a
 * gauge by more than two hundredths of a millimetre, which is common practice for what a hand and a rule of thumb make of one micrometer.
 */
export function grown({ job, story }: JobContext, final: Verdict): Grown | undefined {
  const { limit, reading, place, stage, workedOut } = final;
  const side =
    stage === "final" && !workedOut && !isDifference(final) && limit.expression === undefined && limit.setBy.length === 0 ? sideOf(limit) : undefined;
  if (side === undefined || !isCritical(job, limit)) return undefined;
  const here = readingsAt(story, limit.name, place).filter((it) => it.place === place);
  // Each end of it by itself.
  for (const now of here.filter((it) => it.entry === reading.entry)) {
    const found = here.findLast((it) => it.stage === "found" && it.position === now.position && it.seq < final.seq);
    if (found === undefined || !hasGrown(found, now, side)) continue;
    const isCut = (text: string) => takesMetalOff(text, side) && !jointCut.test(text);
    if (isOnlyCutBetween(job, story, limit, { seq: found.seq, place }, final, isCut)) return { found, isCut: true };
    if (isLeftAlone(job, story, limit, found)) return { found, isCut: false };
  }
  return undefined;
}

interface Grown {
  readonly found: Reading;
  /** What was done since only takes metal off; else nothing was. */
  readonly isCut: boolean;
}

function hasGrown(found: Reading, now: Reading, side: Side): boolean {
  if (isReasoned(now) || found.spots.length === 0 || now.spots.length === 0 || found.stood !== now.stood) return false;
  const [was, is] = [found, now].map((it) => it.spots.map(({ value }) => value)) as [Exact[], Exact[]];
  const more = side === "outside" ? least(is).sub(greatest(was)) : least(was).sub(greatest(is));
  const worn = bandOf(found.stood.worn);
  // Past its wear it was out, and that is told of the two as they were judged.
  if (worn !== undefined && was.some((it) => !isInside(worn, it))) return false;
  const [one, other] = [found, now].map((it) => uncertaintyOf(it.gauge, greatest(is)));
  const doubt = one === undefined || other === undefined ? ofNoGauge : one.add(other);
  return more.compare(doubt) > 0 && more.compare(0) > 0;
}

/** Nothing was done to what it is of, and no other was ordered, made or put in: neither what was read nor what lies beside it is another piece. */
function isLeftAlone(job: Job, story: Story, limit: Limit, { place, entry, seq }: Reading): boolean {
  const { items, work } = ordersOf(job);
  if (entry.details.some((it) => it.kind === "because" || it.kind === "note")) return false;
  return limit.of.every(({ text }) => {
    const thing = job.things.get(text);
    if ((thing?.kind !== "part" && thing?.kind !== "fastener") || thing.implied || items.has(text) || work.has(text)) return false;
    if ((findingsOf(story).get(text) ?? []).some((it) => it.decision !== undefined || hasReason(it))) return false;
    return story
      .cells(text)
      .every(
        (cell) =>
          (cell.kind !== "part" && cell.kind !== "fastener") ||
          !isSamePlace(cell.place, place) ||
          (!cell.unsure &&
            (cell.history as readonly (PartMoment | FastenerMoment)[]).every(
              (it) => it.verb !== "repair" && !(it.verb === "fit" && (it.isNew || it.from !== undefined)) && !(it.seq > seq && it.action?.verb === "clean"),
            )),
      );
  });
}

/** Filed at their joint, two halves close on a smaller bore. */
const jointCut = /\b(faces?|joints?|caps?|halves|half|butts?|shims?|nip|clos\w*|ends?|edges?)\b/iu;

/** All that was done to what it is of between the two took metal off, and something was. */
function isOnlyCutBetween(
  job: Job,
  story: Story,
  limit: Limit,
  out: { readonly seq: number; readonly place: string },
  later: Verdict,
  isCut: (text: string) => boolean,
): boolean {
  let cut = false;
  for (const { text: name } of limit.of) {
    for (const cell of story.cells(name)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || !isSamePlace(cell.place, out.place)) continue;
      if (cell.unsure) return false;
      for (const it of cell.history as readonly (PartMoment | FastenerMoment)[]) {
        if (it.phase !== "done" || it.seq < out.seq || it.seq > later.seq) continue;
        if (it.verb === "fit" && (it.isNew || it.action?.from !== undefined)) return false;
        if (it.verb !== "repair") continue;
        const text = it.action?.text?.value ?? "";
        if (mendsNothing(text)) continue;
        if (!isCut(text)) return false;
        cut = true;
      }
    }
    for (const { detail, status } of ordersOf(job).work.get(name) ?? []) {
      const text = detail.text?.value ?? "";
      if (status?.status !== "received" || !isAt(detail, out.place) || mendsNothing(text)) continue;
      if (!isCut(text)) return false;
      cut = true;
    }
  }
  return cut;
}

/**
 * A crack that was cut out, a face that is true again, a shaft that was straightened: none has more metal than before. What was cut may stand before the word: “spindle polished”. Of a size over
 * the metal, bushes that went into a bore say nothing.
 */
function takesMetalOff(text: string, side: Side): boolean {
  return (
    addsNothing(text) ||
    onlyCuts(
      (side === "outside" ? text.replace(bushesIn, " ") : text)
        .replace(bluings, " ")
        .replace(/\b(to|for) (the |its |their |our |each )?new [\w-]+/giu, " ")
        .replace(/\b(straight\w*|trued?)\b/giu, " ")
        .replace(cutPiece, "$1")
        .replace(/\bline[- ]?(?=ream|bor|hon)/giu, " ")
        .replace(/\bbor(ed?|ing)\b/giu, "reamed")
        .replace(/\b(out|away|past|beyond|below|true|flat|square|parallel|blended|blend)\b/giu, " "),
    )
  );
}

const bushesIn = /\b(press|fit|put|driv|drove|push)\w* (\w+ ){0,3}bush(es)?( in)?\b|\b(re-?)?bush(ed|ing)?\b|\bdrill(ed|ing)?\b[^,;.]*/giu;
/** How often it was tried in blue. */
const bluings =
  /(^|[,;:]|\band\b)\s*((an?|one|two|three|four|five|six|seven|eight|many|several|\d+) )?(blu(e|ed|es|ing|ings)|passes|goes|times)( each| in all| over)?\s*(?=$|[,;.])/giu;

const cutPiece =
  /(^|[,;:.&+]|\band\b)\s*(?:the |its )?(?:spindle|journal|pin|shaft|seat|taper|face|bore|stem|skirt|disc|drum|rim)s? (?:was |were )?(?=(?:lightly )?(?:polish|ground|skimm|turned|honed|lapped|reamed|dressed|linished)\w*)/giu;

type Side = "outside" | "inside";

/** Of what is measured over the metal, and of what is measured inside it: by the last such word of what the limit is called. */
function sideOf(limit: Limit): Side | undefined {
  const called = `${limit.name.replaceAll("-", " ")}, ${limit.title ?? ""}`;
  if (gap.test(called)) return undefined;
  if (left.test(called)) return "outside";
  const words = wordsOf((limit.title ?? limit.name).split(/[,;(]/)[0] as string);
  const word = words.findLast((it) => outside.has(it) || inside.has(it));
  if (word !== undefined) return outside.has(word) ? "outside" : "inside";
  // What wears to a least size is measured over what is left of it: a link, a tooth, a leaf. A spring sags, and is long again.
  const worn = bandOf(limit.worn);
  return worn?.low !== undefined && worn.high === undefined && worn.unit.dimension === "length" && !sags.test(called) ? "outside" : undefined;
}

/** Of what wears away, how much there is. */
const left = /\b(metal|lining|material|wall|meat) (\w+ )?(left|above|over|remaining)\b|\bthick(ness)?\b/iu;
const sags = /\b(springs?|length|long|leaf spring|camber|arch|level|depth|height|tension|belt|cord|rope|cable|hose|tyre|tread)\b/iu;
const outside: ReadonlySet<string> = new Set(
  "shaft pin journal spindle skirt stem spigot crankpin axle thickness disc rotor trunnion ram rod stub kingpin shank".split(" "),
);
const inside: ReadonlySet<string> = new Set("bore hole drum bush eye liner cylinder".split(" "));
const gap =
  /\b(clearances?|gaps?|floats?|play|(back)?lash|fits?|interference|depths?|grooves?|slots?|keyways?|recess\w*|run-? ?out|twist\w*|bends?|bent|bow|bowed|shake|lift|travel|taper\w*|oval\w*|round|angles?|pitch|distance|centres?|pressure|torque|protru\w*|stand-?off|lips?|ridges?|steps?|burrs?|heights?|flat\w*|square\w*|warp\w*|rough\w*|finish|in (its|the|a)\b)/iu;
