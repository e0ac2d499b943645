// Faults that were found and put right as they should be, readings taken twice, parts that came in parts. The machine is sound at the end.
import type { Chance } from "./chance.ts";
import { type Act, acts, alone, before, behind, type Deed, drop, first, type Found, last, type Measured, type Story, toEnd } from "./deeds.ts";
import { goodRows } from "./figures.ts";
import { found, foundBad, type Harmless, opened, pick, placeFor, sizesOf, soundPart } from "./kind.ts";
import { everywhere, type Fastener, type Part, partOf, placesOf, usedOnce } from "./plant.ts";

const fair = (name: string, does: string, make: Harmless["make"]): Harmless => ({ name, does, make });
const alonePart = (it: Part): boolean => it.pairs !== true && it.matched === undefined;

/** The part is found so, and a new one goes on. */
function renewed(
  story: Story,
  c: Chance,
  is: string,
  decision: string | undefined,
  like: (it: Part) => boolean = () => true,
): { part: Part; at: string | undefined; bad: Found; fit: Act } | undefined {
  const part = soundPart(story, c, (it) => alonePart(it) && it.critical !== undefined && like(it));
  if (part === undefined) return undefined;
  const at = placeFor(story, part, c);
  const bad = foundBad(story, part, at, is, decision);
  const deed = last(story, "fit", part.name, at);
  if (deed === undefined) return undefined;
  const fit = alone(story, deed, at);
  fit.fresh = true;
  for (const limit of sizesOf(story, part)) {
    const places = limit.each ? (at === undefined ? everywhere(story.plant) : [at]) : undefined;
    if (limit.set === undefined && limit.spread === undefined)
      behind(story, fit, { do: "measure", what: limit.name, when: "final", by: limit.gauge, rows: goodRows(story.plant, limit, places, true, c) });
  }
  return { part, at, bad, fit };
}

const cured = (name: string, is: string, decision: string | undefined, like?: (it: Part) => boolean): Harmless =>
  fair(name, `found ${is}, and a new one goes on`, (story, c) => renewed(story, c, is, decision, like) !== undefined);

/** A fastener found so when it came off, one of them or all, and new ones fitted for those. */
const newOnes = (name: string, is: string, decision: string | undefined, like: (it: Fastener) => boolean): Harmless =>
  fair(name, `a fastener found ${is}, and a new one fitted`, (story, c) => {
    const fastener = opened(story, c, (it) => !it.renew && it.leftHandAt === undefined && like(it));
    const undo = fastener && first(story, "undo", fastener.name);
    const tight = fastener && acts(story).find((it) => (it.do === "tighten" || it.do === "fit" || it.do === "lock") && it.what === fastener.name && !it.fresh);
    if (fastener === undefined || undo === undefined || tight === undefined) return false;
    const at = placeFor(story, fastener, c);
    const n = fastener.n > 1 ? 1 : undefined;
    const fellows = everywhere(story.plant).filter((it) => at !== undefined && it !== at);
    behind(
      story,
      undo,
      { do: "found", what: fastener.name, n: is.startsWith("missing") ? undefined : n, at, is: [is], decision },
      ...fellows.map((it): Found => ({ do: "found", what: fastener.name, at: it, is: ["serviceable"] })),
    );
    for (const it of acts(story).filter((act) => act.do === "fit" && act.what === fastener.name)) drop(story, it);
    const places = at === undefined ? undefined : [at];
    const fits: Act[] = [{ do: "fit", what: fastener.name, at: places, n, fresh: true }];
    if (fastener.n > 1) fits.push({ do: "fit", what: fastener.name, at: places, n: fastener.n - 1 });
    const others = (undo.at ?? []).filter((it) => it !== at);
    if (others.length > 0) fits.push({ do: "fit", what: fastener.name, at: others });
    const target = acts(story).find((it) => (it.do === "tighten" || it.do === "lock") && it.what === fastener.name);
    if (target === undefined) return false;
    before(story, target, ...fits);
    return true;
  });

/** A fault that cleaning, oiling or turning cures, found when the part was off. */
const tended = (name: string, is: string, verb: "grease" | "clean" | "oil"): Harmless =>
  fair(name, `found ${is.split(" ")[0]}, then seen to`, (story, c) => {
    const part = soundPart(story, c, (it) => verb === "clean" || it.grips !== true);
    const fit = part && last(story, "fit", part.name);
    if (part === undefined || fit === undefined) return false;
    const at = placeFor(story, part, c);
    foundBad(story, part, at, is, verb === "clean" ? "reuse" : undefined);
    before(story, acts(story).find((it) => it.do === "fit" && it.what === part.name) ?? fit, {
      do: verb,
      what: part.name,
      at: at === undefined ? undefined : [at],
    });
    if (verb === "clean" && part.runs === true)
      before(story, acts(story).find((it) => it.do === "fit" && it.what === part.name) ?? fit, {
        do: "oil",
        what: part.name,
        at: at === undefined ? undefined : [at],
      });
    if (verb === "clean")
      before(story, acts(story).find((it) => it.do === "fit" && it.what === part.name) ?? fit, { do: "found", what: part.name, at, is: ["serviceable"] });
    return true;
  });

export const harmlessCures: Harmless[] = [
  cured("cracked-and-renewed", "cracked", "renew"),
  cured("pitted-and-renewed", "pitted", "renew"),
  cured("seized-and-renewed", "seized", "renew"),
  cured("exchanged", "worn", "exchange"),
  cured("made-anew", "broken", 'make "A new one, to the old one\'s sizes"', (it) => it.held.length === 0),
  cured("leaking-and-renewed", "leaking", "renew"),
  cured("wrong-and-renewed", 'wrong "one of another model"', "renew"),
  fair("sound-but-renewed", "a sound one renewed all the same", (story, c) => {
    const part = soundPart(story, c, alonePart);
    const deed = part && last(story, "fit", part.name);
    if (part === undefined || deed === undefined) return false;
    deed.fresh = true;
    for (const limit of sizesOf(story, part))
      if (limit.set === undefined && limit.spread === undefined)
        behind(story, deed, {
          do: "measure",
          what: limit.name,
          when: "final",
          by: limit.gauge,
          rows: goodRows(story.plant, limit, placesOf(story.plant, limit), true, c),
        });
    return true;
  }),
  fair("both-of-a-pair", "one of a pair condemned, both renewed everywhere", (story, c) => {
    const part = soundPart(story, c, (it) => it.pairs === true && it.critical !== undefined);
    const deed = part && last(story, "fit", part.name);
    if (part === undefined || deed === undefined || (part.each && deed.at?.length !== everywhere(story.plant).length)) return false;
    foundBad(story, part, placeFor(story, part, c), "cracked", "renew");
    deed.fresh = true;
    for (const limit of sizesOf(story, part))
      behind(story, deed, {
        do: "measure",
        what: limit.name,
        when: "final",
        by: limit.gauge,
        rows: goodRows(story.plant, limit, placesOf(story.plant, limit), true, c),
      });
    return true;
  }),
  fair("both-of-a-match", "one of two that run together condemned, both renewed", (story, c) => {
    const part = soundPart(story, c, (it) => it.matched !== undefined);
    const other = part && partOf(story.plant, part.matched ?? "");
    const deed = part && last(story, "fit", part.name);
    const its = other && last(story, "fit", other.name);
    if (
      part === undefined ||
      other === undefined ||
      deed === undefined ||
      its === undefined ||
      deed.fresh ||
      its.fresh ||
      found(story, other.name).some((it) => it.is[0] !== "serviceable")
    )
      return false;
    foundBad(story, part, placeFor(story, part, c), "pitted", "renew");
    for (const it of [deed, its]) it.fresh = true;
    for (const one of [part, other])
      for (const limit of sizesOf(story, one))
        if (limit.set === undefined)
          behind(story, one === part ? deed : its, {
            do: "measure",
            what: limit.name,
            when: "final",
            by: limit.gauge,
            rows: goodRows(story.plant, limit, placesOf(story.plant, limit), true, c),
          });
    return true;
  }),
  fair("one-of-two-renewed", "one of two pieces at a place condemned, a new one beside the other", (story, c) => {
    const part = soundPart(story, c, (it) => it.n > 1 && alonePart(it) && it.critical !== undefined);
    const deed = part && last(story, "fit", part.name);
    if (part === undefined || deed === undefined) return false;
    const at = placeFor(story, part, c);
    foundBad(story, part, at, "cracked", "renew").n = 1;
    const mine = alone(story, deed, at);
    mine.n = part.n - 1;
    const sizes = sizesOf(story, part).filter((it) => it.set === undefined && it.spread === undefined);
    behind(
      story,
      mine,
      { ...mine, n: 1, fresh: true },
      ...sizes.map(
        (it): Measured => ({
          do: "measure",
          what: it.name,
          when: "final",
          by: it.gauge,
          rows: goodRows(story.plant, it, it.each ? (at === undefined ? everywhere(story.plant) : [at]) : undefined, true, c),
        }),
      ),
    );
    return true;
  }),
  fair("two-bad-two-new", "two of several condemned, two new ones", (story, c) => {
    const fastener = opened(story, c, (it) => it.n > 2 && it.critical !== undefined && !it.renew && it.leftHandAt === undefined);
    const undo = fastener && first(story, "undo", fastener.name);
    const tight = fastener && acts(story).find((it) => it.do === "tighten" && it.what === fastener.name);
    if (fastener === undefined || undo === undefined || tight === undefined) return false;
    const at = placeFor(story, fastener, c);
    const rest = everywhere(story.plant).filter((it) => it !== at);
    behind(
      story,
      undo,
      { do: "found", what: fastener.name, n: 2, at, is: ["stripped"], decision: "renew" },
      ...(at === undefined ? [] : rest).map((it): Found => ({ do: "found", what: fastener.name, at: it, is: ["serviceable"] })),
    );
    for (const fit of acts(story).filter((it) => it.do === "fit" && it.what === fastener.name)) drop(story, fit);
    if (at !== undefined && !(undo.at ?? []).includes(at)) return false;
    const places = at === undefined ? undefined : [at];
    const others = (undo.at ?? []).filter((it) => it !== at);
    before(story, tight, { do: "fit", what: fastener.name, at: places, n: 2, fresh: true }, { do: "fit", what: fastener.name, at: places, n: fastener.n - 2 });
    if (others.length > 0) before(story, tight, { do: "fit", what: fastener.name, at: others });
    return true;
  }),
  fair("sides-changed", "two that are alike and keep no place went back the other way about", (story, c) => {
    const part = soundPart(
      story,
      c,
      (it) =>
        it.each &&
        it.keeps !== true &&
        it.n === 1 &&
        alonePart(it) &&
        sizesOf(story, it).length === 0 &&
        story.plant.checks.every((check) => check.of !== it.name),
    );
    const deed = part && last(story, "fit", part.name);
    const [a, b] = deed?.at ?? [];
    if (part === undefined || deed === undefined || a === undefined || b === undefined) return false;
    behind(story, deed, { do: "fit", what: part.name, at: [a], from: b }, { do: "fit", what: part.name, at: [b], from: a });
    deed.at = (deed.at ?? []).slice(2);
    if (deed.at.length === 0) drop(story, deed);
    return true;
  }),
  newOnes("missing-and-fitted", "missing 1", undefined, (it) => it.n > 1),
  newOnes("stripped-and-renewed", "stripped", "renew", (it) => it.critical !== undefined),
  newOnes("sheared-and-renewed", "sheared", "renew", () => true),
  newOnes("wrong-bolt-and-renewed", 'wrong "a size too short"', "renew", () => true),
  newOnes("undrilled-and-renewed", "undrilled", "renew", (it) => it.locking?.startsWith("split pin") === true),
  newOnes("bent-bolt-and-renewed", "bent", "renew", () => true),
  fair("loose-and-tightened", "found loose before it was undone, put right with the rest", (story, c) => {
    const fastener = opened(story, c, (it) => Array.isArray(it.torque));
    const undo = fastener && first(story, "undo", fastener.name);
    if (fastener === undefined || undo === undefined) return false;
    before(story, undo, {
      do: "found",
      what: fastener.name,
      n: fastener.n > 1 ? 1 : undefined,
      at: placeFor(story, fastener, c),
      is: ["loose"],
      decision: "reuse",
    });
    return true;
  }),
  fair("unlocked-and-locked", "found unlocked before it was undone, put right with the rest", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && usedOnce(it));
    const undo = fastener && first(story, "undo", fastener.name);
    if (fastener === undefined || undo === undefined) return false;
    before(story, undo, { do: "found", what: fastener.name, at: placeFor(story, fastener, c), is: ['unlocked "nothing"'] });
    return true;
  }),
  fair("unlocked-at-the-end", "seen unlocked when all was done, locked then", (story, c) => {
    const fastener = opened(
      story,
      c,
      (it) => it.critical !== undefined && usedOnce(it) && story.plant.limits.every((limit) => limit.by?.includes(it.name) !== true),
    );
    if (fastener === undefined) return false;
    const at = placeFor(story, fastener, c);
    toEnd(
      story,
      { do: "found", what: fastener.name, n: fastener.n > 1 ? 1 : undefined, at, is: ['unlocked "nothing"'] },
      { do: "lock", what: fastener.name, n: fastener.n > 1 ? 1 : undefined, at: at === undefined ? undefined : [at], fresh: true },
    );
    return true;
  }),
  tended("dry-and-greased", "dry", "grease"),
  tended("dirty-and-cleaned", 'contaminated "with brick dust"', "clean"),
  tended("blocked-and-cleared", "blocked", "clean"),
  fair("seal-found-reversed", "the old seal was in back to front, the new one is right", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.renewWith !== undefined && it.fits !== undefined),
      c,
    );
    const off = part && first(story, "remove", part.name);
    if (part === undefined || off === undefined) return false;
    behind(story, off, { do: "found", what: part.name, at: placeFor(story, part, c), is: ["reversed"], decision: "renew" });
    return true;
  }),
  fair("swapped-and-exchanged", "found in each other's place, and exchanged", (story, c) => {
    const part = soundPart(story, c, (it) => it.keeps === true && it.each && it.n === 1);
    const [a, b] = everywhere(story.plant);
    const off = part && first(story, "remove", part.name);
    const deed = part && last(story, "fit", part.name);
    if (part === undefined || a === undefined || b === undefined || off === undefined || deed === undefined || everywhere(story.plant).length !== 2)
      return false;
    behind(story, off, { do: "found", what: part.name, at: a, is: ["swapped"] }, { do: "found", what: part.name, at: b, is: ["swapped"] });
    behind(story, deed, { do: "fit", what: part.name, at: [a], from: b }, { do: "fit", what: part.name, at: [b], from: a });
    drop(story, deed);
    return true;
  }),
  fair("milky-and-changed", "milky when found, drained and filled anew", (story, c) => {
    const fluid = pick(
      story.plant.fluids.filter((it) => first(story, "drain", it.name) !== undefined),
      c,
    );
    const drain = fluid && first(story, "drain", fluid.name);
    if (fluid === undefined || drain === undefined) return false;
    before(story, drain, { do: "found", what: fluid.name, at: placeFor(story, fluid, c), is: ["milky"], decision: "renew" });
    return true;
  }),
  fair("cracked-mended-and-seen", "cracked, mended here, and looked at", (story, c) => {
    const part = soundPart(story, c, (it) => it.critical !== undefined && alonePart(it));
    if (part === undefined) return false;
    const at = placeFor(story, part, c);
    foundBad(story, part, at, "cracked", 'repair "Weld and true"');
    const after = found(story, part.name).at(-1) as Deed;
    const sizes = sizesOf(story, part).filter((it) => it.set === undefined && it.spread === undefined);
    behind(
      story,
      after,
      { do: "repair", what: part.name, at: at === undefined ? undefined : [at], text: "Welded and trued" },
      { do: "found", what: part.name, at, is: ["serviceable"] },
      ...sizes.map(
        (it): Measured => ({
          do: "measure",
          what: it.name,
          when: "final",
          by: it.gauge,
          rows: goodRows(story.plant, it, it.each ? (at === undefined ? everywhere(story.plant) : [at]) : undefined, true, c),
        }),
      ),
    );
    return true;
  }),
  ...(["dated", "by-day"] as const).map((way) =>
    fair(`work-came-back-${way}`, "sent out, came back, seen sound", (story, c) => {
      const part = soundPart(story, c, (it) => it.critical !== undefined && alonePart(it) && sizesOf(story, it).length === 0);
      if (part === undefined || (way === "by-day" && !story.manner.days)) return false;
      const at = placeFor(story, part, c);
      foundBad(story, part, at, "cracked", 'repair "Weld and true"');
      const after = found(story, part.name).at(-1) as Deed;
      const today = way === "dated" ? " TODAY" : "";
      behind(
        story,
        after,
        { do: "night", days: 1 },
        {
          do: "write",
          what: part.name,
          lines: [
            'supplier grinder "Pook Grinding"',
            "",
            'order "P-3" to grinder',
            `  status sent${today}`,
            `  work ${part.name}${at === undefined ? "" : ` ${at}`} "Weld and true"`,
          ],
        },
        { do: "night", days: 5 },
        { do: "write", lines: ['order "P-3" to grinder', `  status received${today}`] },
        { do: "found", what: part.name, at, is: ["serviceable"] },
      );
      return true;
    }),
  ),
  fair("asked-and-answered", "asked whether it may stay, and told that it may", (story, c) => {
    const part = soundPart(story, c, (it) => it.critical !== undefined && sizesOf(story, it).length === 0);
    if (part === undefined) return false;
    const bad = foundBad(story, part, placeFor(story, part, c), "corroded", "ask maker-says");
    behind(story, bad, {
      do: "write",
      lines: [
        'question maker-says "May rust of this sort stay?"',
        `  about ${part.name}`,
        '  answer "It may: it is at no place that works"',
        '  source "Letter of the maker\'s club"',
      ],
    });
    behind(story, story.deeds[story.deeds.indexOf(bad) + 1] as Deed, {
      do: "found",
      what: part.name,
      at: bad.at,
      is: ["corroded"],
      because: "Answered so",
      decision: "reuse",
    });
    return true;
  }),
];
