// A later reading that says there is more metal than before, where all that was done since takes metal off.
// Invariant: told of plain sizes alone, by what their limit is called: a shaft that is under size, a bore that is over. Of a gap, a float, a run-out it says nothing.
import { isSamePlace } from "../model/same-place.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { wordsOf } from "../model/read-with.ts";
import type { Limit } from "../model/things.ts";
import { compare } from "../quantities/exact.ts";
import { readingsOn } from "../story/looked-up.ts";
import type { FastenerMoment, PartMoment } from "../story/story.ts";
import type { Verdict } from "../story/verdict.ts";
import { mendsNothing, onlyCuts } from "../story/worked-in.ts";
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
  let cut = false;
  for (const { text: name } of out.limit.of) {
    for (const cell of story.cells(name)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || !isSamePlace(cell.place, out.place)) continue;
      if (cell.unsure) return false;
      for (const it of cell.history as readonly (PartMoment | FastenerMoment)[]) {
        if (it.phase !== "done" || it.seq < out.seq || it.seq > later.seq) continue;
        if (it.verb === "fit" && (it.isNew || it.action?.from !== undefined)) return false;
        if (it.verb !== "repair") continue;
        const text = it.action?.text?.value ?? "";
        if (mendsNothing(text)) continue;
        if (!takesMetalOff(text)) return false;
        cut = true;
      }
    }
    for (const { detail, status } of ordersOf(job).work.get(name) ?? []) {
      const text = detail.text?.value ?? "";
      if (status?.status !== "received" || !isAt(detail, out.place) || mendsNothing(text)) continue;
      if (!takesMetalOff(text)) return false;
      cut = true;
    }
  }
  return cut;
}

/** A crack that was cut out, a face that is true again, a shaft that was straightened: none has more metal than before. What was cut may stand before the word: “spindle polished”. */
function takesMetalOff(text: string): boolean {
  return onlyCuts(
    text
      .replace(/\b(straight\w*|trued?)\b/giu, " ")
      .replace(cutPiece, "$1")
      .replace(/\b(line-?)?bor(ed?|ing)\b/giu, "reamed")
      .replace(/\b(out|away|past|beyond|below|true|flat|square|parallel|blended|blend)\b/giu, " "),
  );
}

const cutPiece =
  /(^|[,;:.&+]|\band\b)\s*(?:the |its )?(?:spindle|journal|pin|shaft|seat|taper|face|bore|stem|skirt|disc|drum|rim)s? (?:was |were )?(?=(?:lightly )?(?:polish|ground|skimm|turned|honed|lapped|reamed|dressed|linished)\w*)/giu;

/** Of what is measured over the metal, and of what is measured inside it: by the last such word of what the limit is called. */
function sideOf(limit: Limit): "outside" | "inside" | undefined {
  const called = `${limit.name.replaceAll("-", " ")}, ${limit.title ?? ""}`;
  if (gap.test(called)) return undefined;
  const words = wordsOf((limit.title ?? limit.name).split(/[,;(]/)[0] as string);
  const word = words.findLast((it) => outside.has(it) || inside.has(it));
  if (word === undefined) return undefined;
  return outside.has(word) ? "outside" : "inside";
}

const outside: ReadonlySet<string> = new Set(
  "shaft pin journal spindle skirt stem spigot crankpin axle thickness disc rotor trunnion ram rod stub kingpin shank".split(" "),
);
const inside: ReadonlySet<string> = new Set("bore hole drum bush eye liner cylinder".split(" "));
const gap =
  /\b(clearances?|gaps?|floats?|play|(back)?lash|fits?|interference|depths?|grooves?|slots?|keyways?|recess\w*|run-? ?out|twist\w*|bends?|bent|bow|bowed|shake|lift|travel|taper\w*|oval\w*|round|angles?|pitch|distance|centres?|pressure|torque|protru\w*|stand-?off|lips?|ridges?|steps?|burrs?|heights?|flat\w*|square\w*|warp\w*|rough\w*|finish|in (its|the|a)\b)/iu;
