// Mistakes of which, when and how many: the other side, the other day, one too few, one line that says nothing.
import type { Chance } from "./chance.ts";
import { acts, alone, before, behind, type Deed, drop, first, type Found, last, type Measured, type Step, type Story, toEnd, type Written } from "./deeds.ts";
import { past, tidy } from "./figures.ts";
import { foundBad, hurt, looks, opened, pick, placeFor, readings, sizesOf, someLimit, soundPart, type Wrong } from "./kind.ts";
import { everywhere, type Fastener, type Part, partOf, usedOnce } from "./plant.ts";

const wrong = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, make });
const warned = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, warns: true, make });
const other = (story: Story, at: string | undefined, c: Chance): string | undefined =>
  pick(
    everywhere(story.plant).filter((it) => it !== at),
    c,
  );
const byItself = (it: Part): boolean => it.pairs !== true && it.matched === undefined;
const wholeFit = (story: Story, part: Part): boolean => last(story, "fit", part.name)?.at?.length === everywhere(story.plant).length;
const lockable = (it: Fastener): boolean => it.critical !== undefined && usedOnce(it);

/** A deed in a step of its own. */
function inStep(story: Story, deed: Deed, step: Partial<Step>): Step {
  const mine: Step = { do: "step", title: "By itself", ...step };
  before(story, deed, mine);
  behind(story, deed, { do: "step", title: "And on" });
  return mine;
}

export const wrongMixups: Wrong[] = [
  wrong("renewed-at-the-other", "condemned at one place, renewed at the other", (story, c) => {
    const part = soundPart(story, c, (it) => it.each && it.critical !== undefined && byItself(it) && wholeFit(story, it));
    if (part === undefined) return undefined;
    const at = placeFor(story, part, c);
    const bad = foundBad(story, part, at, "cracked", "renew");
    const fit = alone(story, last(story, "fit", part.name) as ReturnType<typeof alone>, other(story, at, c));
    fit.fresh = true;
    return hurt(part.name, bad, fit);
  }),
  wrong("mended-at-the-other", "cracked at one place, mended and looked at at the other", (story, c) => {
    const part = soundPart(story, c, (it) => it.each && it.critical !== undefined && sizesOf(story, it).length === 0 && wholeFit(story, it));
    if (part === undefined) return undefined;
    const at = placeFor(story, part, c);
    const bad = foundBad(story, part, at, "cracked", 'repair "Weld and true"');
    const there = other(story, at, c) as string;
    const after = story.deeds.filter((it) => it.do === "found" && it.what === part.name).at(-1) as Deed;
    behind(
      story,
      after,
      { do: "repair", what: part.name, at: [there], text: "Welded and trued" },
      { do: "found", what: part.name, at: there, is: ["serviceable"] },
    );
    return hurt(part.name, bad);
  }),
  wrong("one-of-two-cracked-back", "one of two pieces at a place condemned, both old ones back", (story, c) => {
    const part = soundPart(story, c, (it) => it.n > 1 && it.critical !== undefined && byItself(it));
    if (part === undefined) return undefined;
    const bad = foundBad(story, part, placeFor(story, part, c), "cracked", "renew");
    bad.n = 1;
    return hurt(part.name, bad);
  }),
  wrong("two-bad-one-new", "two condemned, one new one fitted", (story, c) => {
    const fastener = opened(story, c, (it) => it.n > 2 && it.critical !== undefined && !it.renew && it.leftHandAt === undefined);
    const undo = fastener && first(story, "undo", fastener.name);
    const tight = fastener && acts(story).find((it) => it.do === "tighten" && it.what === fastener.name);
    if (fastener === undefined || undo === undefined || tight === undefined) return undefined;
    const at = placeFor(story, fastener, c);
    const bad: Found = { do: "found", what: fastener.name, n: 2, at, is: ["stripped"], decision: "renew" };
    const rest = everywhere(story.plant).filter((it) => it !== at);
    behind(story, undo, bad, ...rest.map((it): Found => ({ do: "found", what: fastener.name, at: it, is: ["serviceable"] })));
    for (const fit of acts(story).filter((it) => it.do === "fit" && it.what === fastener.name)) drop(story, fit);
    const places = at === undefined ? undefined : [at];
    before(story, tight, { do: "fit", what: fastener.name, at: places, n: 1, fresh: true }, { do: "fit", what: fastener.name, at: places, n: fastener.n - 1 });
    const others = (undo.at ?? []).filter((it) => it !== at);
    if (others.length > 0) before(story, tight, { do: "fit", what: fastener.name, at: others });
    return hurt(fastener.name, bad);
  }),
  wrong("locked-on-a-planned-nut", "the nut is tight in plan only, its lock is done", (story, c) => {
    const fastener = opened(story, c, (it) => lockable(it) && Array.isArray(it.torque) && it.letBack === undefined);
    const tight = fastener && last(story, "tighten", fastener.name);
    if (fastener === undefined || tight === undefined) return undefined;
    const step = inStep(story, tight, { planned: true });
    return hurt(fastener.name, step, tight, last(story, "lock", fastener.name));
  }),
  wrong("blank-locking", "a blank where it says what it was locked with", (story, c) => {
    const fastener = opened(story, c, lockable);
    const lock = fastener && last(story, "lock", fastener.name);
    if (fastener === undefined || lock === undefined) return undefined;
    lock.instead = "___";
    return hurt(fastener.name, lock);
  }),
  wrong("blank-torque", "a blank where it says what it was pulled to", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && Array.isArray(it.torque));
    const tight = fastener && last(story, "tighten", fastener.name);
    if (fastener === undefined || tight === undefined) return undefined;
    tight.to = tight.by = tight.angle = undefined;
    tight.forNow = undefined;
    tight.text = undefined;
    const line: Step = inStep(story, tight, {
      details: [`  tighten ${fastener.name}${tight.at === undefined ? "" : ` ${tight.at.join(", ")}`} to ___ ${story.plant.torque}`],
    });
    drop(story, tight);
    behind(story, line, { do: "clean", what: fastener.name, at: tight.at } as Deed);
    return { ...hurt(fastener.name, line), words: /^left blank/i };
  }),
  wrong("misspelt-place", "locked at a place that is not there", (story, c) => {
    const fastener = opened(story, c, (it) => lockable(it) && it.each);
    const lock = fastener && last(story, "lock", fastener.name);
    if (fastener === undefined || lock?.at === undefined) return undefined;
    const mine = alone(story, lock, lock.at[0]);
    mine.at = ["nowhere"];
    return hurt(fastener.name, mine);
  }),
  wrong("read-on-an-earlier-day", "the last reading bears a day before it was set", (story, c) => {
    const limit = someLimit(story, c, (it) => it.set !== undefined && it.by?.some((name) => last(story, "tighten", name) !== undefined) === true);
    const deed = limit && readings(story, limit.name, "final").at(-1);
    if (limit === undefined || deed === undefined) return undefined;
    deed.shift = -30;
    return hurt([limit.name, ...(limit.by ?? [])], deed);
  }),
  wrong("came-after-it-was-fitted", "the order came a month after what it brought was fitted", (story, c) => {
    const order = story.deeds.find((it): it is Written => it.do === "write" && it.lines[0]?.startsWith('order "W-118"') === true);
    if (order === undefined) return undefined;
    const items = order.lines.filter((it) => it.startsWith("  item "));
    for (const it of story.deeds.filter((one) => one !== order && one.do === "write" && one.lines[0] === order.lines[0])) drop(story, it);
    order.lines = [order.lines[0] as string, "  status sent TODAY", ...items];
    const came: Written = { do: "write", lines: [order.lines[0] as string, "  status received TODAY"] };
    toEnd(story, { do: "night", days: 20 }, came);
    void c;
    return {
      ...hurt(
        items.map((it) => it.split(" ")[3] as string),
        order,
        came,
      ),
      words: /W-118/,
    };
  }),
  wrong("still-on-hold", "fitted new of an order that was never sent", (story) => {
    const its = story.deeds.filter((it): it is Written => it.do === "write" && it.lines[0]?.startsWith('order "W-118"') === true);
    if (its.length === 0) return undefined;
    const items = its.flatMap((it) => it.lines.filter((line) => line.startsWith("  item ")));
    for (const it of its.slice(1)) drop(story, it);
    const order = its[0] as Written;
    order.lines = [order.lines[0] as string, "  status held TODAY", ...items];
    return {
      ...hurt(
        items.map((it) => it.split(" ")[3] as string),
        order,
      ),
      words: /W-118/,
    };
  }),
  wrong("bolts-of-another-thread", "new ones of another thread went in", (story, c) => {
    const fastener = opened(
      story,
      c,
      (it) => it.critical !== undefined && it.thread.startsWith("M1") && !it.renew && it.leftHandAt === undefined && it.torque !== "none",
    );
    const tight = fastener && acts(story).find((it) => it.do === "tighten" && it.what === fastener.name);
    if (fastener === undefined || tight === undefined) return undefined;
    const n = fastener.n * (fastener.each ? (last(story, "undo", fastener.name)?.at?.length ?? 1) : 1);
    for (const fit of acts(story).filter((it) => it.do === "fit" && it.what === fastener.name)) drop(story, fit);
    const fit = { do: "fit" as const, what: fastener.name, at: first(story, "undo", fastener.name)?.at, fresh: true };
    const order: Written = {
      do: "write",
      what: fastener.name,
      lines: ['supplier boltman "Roscoe Bolts"', "", 'order "B-9" to boltman', "  status received TODAY", `  item ${fastener.name} thread 7/16-14 UNC ${n}`],
    };
    before(story, tight, order, fit);
    return hurt(fastener.name, order, fit);
  }),
  wrong("tin-too-small", "more lockings used than there were", (story, c) => {
    const fastener = opened(story, c, (it) => lockable(it) && /^(split pin|tab washer)/.test(it.locking ?? ""));
    const lock = fastener && last(story, "lock", fastener.name);
    const n = fastener && fastener.n * (lock?.at?.length ?? 1);
    if (fastener === undefined || lock === undefined || n === undefined || n < 2 || (fastener.serves ?? 1) > 1) return undefined;
    if (story.plant.fasteners.some((it) => it !== fastener && it.locking === fastener.locking)) return undefined;
    story.tin = false;
    story.shelf.push(`stock ${fastener.locking} ${n - 1} "Tin on the sill"`, "");
    return { ...hurt(fastener.name, lock), words: /short|split pin|tab washer/ };
  }),
  wrong("conceded-at-the-other", "worn at one place, let pass at the other", (story, c) => {
    const limit = someLimit(
      story,
      c,
      (it) =>
        it.each &&
        it.set === undefined &&
        it.spread === undefined &&
        it.formula === undefined &&
        past(story.plant, it) !== undefined &&
        readings(story, it.name, "final").length === 0 &&
        partOf(story.plant, it.of ?? "")?.critical !== undefined,
    );
    const deed = limit && readings(story, limit.name, "found")[0];
    const row = deed && pick(deed.rows, c);
    const figure = limit && past(story.plant, limit);
    if (limit === undefined || deed === undefined || row === undefined || figure === undefined) return undefined;
    for (const it of deed.rows.filter((one) => one.at === row.at)) it.values = it.values.map(() => figure);
    const given: Written = { do: "write", lines: [`concession ${limit.name} ${other(story, row.at, c)} "Walking pace only" by "A. Pryde, engineer" TODAY`] };
    behind(story, deed, given);
    return hurt([limit.name, limit.of as string], deed, given);
  }),
  wrong("worked-out-past-wear", "each size inside of its wear, what they leave between them is not", (story, c) => {
    const limit = pick(
      story.plant.limits.filter((it) => it.formula !== undefined),
      c,
    );
    const [bore, pin] = (limit?.formula ?? "").split(" - ").map((name) => story.plant.limits.find((it) => it.name === name));
    if (
      limit === undefined ||
      bore?.wornMax === undefined ||
      pin?.wornMin === undefined ||
      readings(story, bore.name, "final").length > 0 ||
      readings(story, pin.name, "final").length > 0
    )
      return undefined;
    const of = readings(story, bore.name, "found")[0];
    const its = readings(story, pin.name, "found")[0];
    const at = of && pick(of.rows, c)?.at;
    if (of === undefined || its === undefined) return undefined;
    const wide = tidy(story.plant, bore.wornMax - (bore.wornMax - (bore.fresh?.[1] ?? 0)) * 0.06);
    const thin = tidy(story.plant, pin.wornMin + ((pin.fresh?.[0] ?? 0) - pin.wornMin) * 0.06);
    for (const row of of.rows.filter((it) => it.at === at)) row.values = row.values.map(() => wide);
    for (const row of its.rows.filter((it) => it.at === at)) row.values = row.values.map(() => thin);
    return hurt([limit.name, limit.of as string], of, its);
  }),
  wrong("mended-and-still-past", "back from work, and still past its wear", (story, c) => {
    const part = soundPart(
      story,
      c,
      (it) =>
        it.critical !== undefined && byItself(it) && sizesOf(story, it).some((limit) => past(story.plant, limit) !== undefined && limit.set === undefined),
    );
    const limit = part && sizesOf(story, part).find((it) => past(story.plant, it) !== undefined && it.set === undefined);
    const figure = limit && past(story.plant, limit);
    if (part === undefined || limit === undefined || figure === undefined) return undefined;
    const at = placeFor(story, part, c);
    foundBad(story, part, at, "scored", 'repair "Polish it"');
    const after = story.deeds.filter((it) => it.do === "found" && it.what === part.name).at(-1) as Deed;
    const places = limit.each ? (at === undefined ? everywhere(story.plant) : [at]) : [undefined];
    const read: Measured = {
      do: "measure",
      what: limit.name,
      when: "final",
      by: limit.gauge,
      rows: places.flatMap((place) => (limit.positions ?? [undefined]).map((position) => ({ at: place, position, values: [figure] }))),
    };
    behind(story, after, { do: "repair", what: part.name, at: at === undefined ? undefined : [at], text: "Polished" }, read);
    return hurt([part.name, limit.name], read);
  }),
  wrong("looked-at-in-trial-only", "seen good as a trial, never at the end", (story, c) => {
    const check = pick(
      story.plant.checks.filter((it) => it.critical !== undefined),
      c,
    );
    if (check === undefined) return undefined;
    for (const deed of looks(story, check.name)) deed.when = "trial";
    return hurt([check.name, ...(check.of ? [check.of] : [])]);
  }),
  warned("metal-in-the-oil", "metal in the oil, and nothing that accounts for it", (story, c) => {
    const fluid = pick(story.plant.fluids, c);
    const off = acts(story).find((it) => it.do === "drain" || it.do === "remove");
    const cause = story.deeds.some((it) => it.do === "found" && it.is.some((is) => !/^(serviceable|loose|unlocked)/.test(is)));
    if (fluid === undefined || off === undefined || cause) return undefined;
    const seen: Found = {
      do: "found",
      what: fluid.name,
      at: fluid.each ? (acts(story).find((it) => it.do === "undo" && it.at !== undefined)?.at?.[0] ?? placeFor(story, fluid, c)) : undefined,
      is: ["fragments"],
    };
    behind(story, off, seen);
    return hurt(fluid.name, seen);
  }),
  wrong("down-with-a-slack-nut", "let down with what is critical slack", (story, c) => {
    const lower = acts(story)
      .filter((it) => it.do === "lower" && it.text === undefined)
      .at(-1);
    const fastener = opened(story, c, (it) => it.critical !== undefined && Array.isArray(it.torque) && it.letBack === undefined);
    const tight = fastener && last(story, "tighten", fastener.name);
    if (lower === undefined || fastener === undefined || tight === undefined || story.plant.stance !== "jack") return undefined;
    drop(story, lower);
    before(story, tight, { do: "fit", what: fastener.name, at: tight.at }, lower);
    return hurt(fastener.name, lower);
  }),
  wrong("released-before-it-was-done", "signed a week before the last work", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && Array.isArray(it.torque));
    const tight = fastener && last(story, "tighten", fastener.name);
    if (fastener === undefined || tight === undefined) return undefined;
    const step = inStep(story, tight, { early: -30 });
    return { ...hurt(fastener.name, step, tight), words: /dated|Correct the days/ };
  }),
  wrong("out-of-its-place-and-worn", "the new one went in and the worn one was never taken out of account", (story, c) => {
    const part = soundPart(story, c, (it) => it.n > 1 && byItself(it) && it.critical !== undefined);
    const deed = part && last(story, "fit", part.name);
    if (part === undefined || deed === undefined) return undefined;
    const at = placeFor(story, part, c);
    const bad = foundBad(story, part, at, "pitted", "renew");
    const mine = alone(story, deed, at);
    mine.n = part.n;
    behind(story, mine, { ...mine, n: 1, fresh: true });
    return hurt(part.name, bad, mine);
  }),
  wrong("exchange-never-made", "to be exchanged, and the old one goes back", (story, c) => {
    const part = soundPart(story, c, (it) => it.critical !== undefined);
    if (part === undefined) return undefined;
    return hurt(part.name, foundBad(story, part, placeFor(story, part, c), "worn", "exchange"), last(story, "fit", part.name));
  }),
  wrong("seal-cut-going-in", "the new seal was cut going in, and stays", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.renewWith !== undefined),
      c,
    );
    const fit = part && last(story, "fit", part.name);
    if (part === undefined || fit === undefined) return undefined;
    const seen: Found = { do: "found", what: part.name, at: fit.at?.[0], is: ["damaged"] };
    behind(story, fit, seen);
    return hurt(part.name, seen);
  }),
  wrong("pin-broken-going-in", "one new nut sheared as it was pulled, and stays", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && Array.isArray(it.torque));
    const tight = fastener && last(story, "tighten", fastener.name);
    if (fastener === undefined || tight === undefined) return undefined;
    const seen: Found = {
      do: "found",
      what: fastener.name,
      n: fastener.n > 1 ? 1 : undefined,
      at: tight.at?.[0],
      is: [c.one(["stripped", "sheared", "cracked"])],
    };
    behind(story, tight, seen);
    return hurt(fastener.name, seen);
  }),
];
