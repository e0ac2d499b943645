// Readings taken twice, misread, tried bad and set again; shims, concessions and parcels. The machine is sound at the end.
import type { Chance } from "./chance.ts";
import { type Act, acts, alone, before, behind, type Deed, drop, first, last, type Measured, type Story } from "./deeds.ts";
import { doubt, goodRows, past, tidy } from "./figures.ts";
import { type Harmless, pick, placeFor, readings, someLimit } from "./kind.ts";
import { everywhere, fastenerOf, type Limit, placesOf } from "./plant.ts";

const fair = (name: string, does: string, make: Harmless["make"]): Harmless => ({ name, does, make });

function setting(story: Story, c: Chance, like: (it: Limit) => boolean = () => true): { limit: Limit; deed: Measured } | undefined {
  const limit = someLimit(story, c, (it) => it.set !== undefined && like(it) && readings(story, it.name, "final").length > 0);
  const deed = limit && readings(story, limit.name, "final").at(-1);
  return limit === undefined || deed === undefined ? undefined : { limit, deed };
}

const unread = (story: Story, limit: Limit): boolean => readings(story, limit.name, "final").length === 0;

export const harmlessReadings: Harmless[] = [
  fair("tried-bad-then-set", "tried outside, moved, and read inside", (story, c) => {
    const it = setting(
      story,
      c,
      (limit) => limit.by?.some((name) => fastenerOf(story.plant, name)?.torque === undefined && last(story, "tighten", name) !== undefined) === true,
    );
    const tight = it && last(story, "tighten", it.limit.by?.[0] as string);
    if (it?.limit.set === undefined || tight === undefined) return false;
    const [low, high] = it.limit.set;
    // Where it is set: of a side that nobody opened a reading outside is a fault.
    const out = goodRows(story.plant, it.limit, tight.at ?? placesOf(story.plant, it.limit), false, c).map((row) => ({
      ...row,
      values: row.values.map(() => tidy(story.plant, high + (high - low) * 0.2)),
    }));
    behind(
      story,
      tight,
      { do: "measure", what: it.limit.name, when: "trial", by: it.limit.gauge, rows: out },
      { do: "slacken", what: tight.what as string, at: tight.at },
      { ...tight },
    );
    return true;
  }),
  fair("found-outside-then-set", "found outside of what it must be, and set", (story, c) => {
    const it = setting(story, c, (limit) => limit.wornMax !== undefined && limit.by?.some((name) => last(story, "tighten", name) !== undefined) === true);
    if (it?.limit.set === undefined || it.limit.wornMax === undefined) return false;
    for (const old of readings(story, it.limit.name, "found")) drop(story, old);
    const figure = tidy(story.plant, (it.limit.set[1] + it.limit.wornMax) / 2);
    const rows = goodRows(story.plant, it.limit, placesOf(story.plant, it.limit), false, c).map((row) => ({ ...row, values: row.values.map(() => figure) }));
    const off = acts(story).find((act) => ["undo", "drain", "remove", "mark"].includes(act.do)) as Act;
    before(story, off, { do: "measure", what: it.limit.name, when: "found", by: it.limit.gauge, rows });
    return true;
  }),
  fair("read-twice", "the last reading taken once more", (story, c) => {
    const it = setting(story, c);
    if (it === undefined) return false;
    behind(story, it.deed, { ...it.deed });
    return true;
  }),
  fair("read-without-a-gauge-named", "the gauge is not named", (story, c) => {
    const it = setting(story, c);
    if (it === undefined) return false;
    it.deed.by = undefined;
    return true;
  }),
  fair("three-tries-that-agree", "the same spot tried three times", (story, c) => {
    const it = setting(story, c);
    const row = it && pick(it.deed.rows, c);
    if (it === undefined || row === undefined) return false;
    const step = doubt(story.plant, it.limit) / 3;
    const first = row.values[0] as number;
    row.again = true;
    row.values = [first, tidy(story.plant, first + step), first];
    return true;
  }),
  fair("misread-and-corrected", "misread, and read again with the reason", (story, c) => {
    const limit = someLimit(
      story,
      c,
      (it) =>
        it.set === undefined &&
        it.spread === undefined &&
        it.formula === undefined &&
        unread(story, it) &&
        past(story.plant, it) !== undefined &&
        it.positions === undefined,
    );
    const deed = limit && readings(story, limit.name, "found")[0];
    const figure = limit && past(story.plant, limit);
    if (limit === undefined || deed === undefined || figure === undefined) return false;
    const good: Measured = {
      ...deed,
      rows: deed.rows.map((it) => ({ ...it, values: [...it.values] })),
      because: "The first was read with grit under the anvil",
    };
    for (const row of deed.rows) row.values = row.values.map(() => figure);
    behind(story, deed, good);
    return true;
  }),
  fair("misread-corrected-and-read", "misread, read again with the reason, and once more at the end", (story, c) => {
    const limit = someLimit(
      story,
      c,
      (it) =>
        it.set === undefined &&
        it.spread === undefined &&
        it.formula === undefined &&
        unread(story, it) &&
        past(story.plant, it) !== undefined &&
        it.positions === undefined,
    );
    const deed = limit && readings(story, limit.name, "found")[0];
    const figure = limit && past(story.plant, limit);
    if (limit === undefined || deed === undefined || figure === undefined) return false;
    const good: Measured = {
      ...deed,
      rows: deed.rows.map((it) => ({ ...it, values: [...it.values] })),
      because: "The first was read with grit under the anvil",
    };
    for (const row of deed.rows) row.values = row.values.map(() => figure);
    behind(story, deed, good, { ...good, when: "final", because: undefined });
    return true;
  }),
  fair("wear-let-pass-by-another", "critical wear let pass by somebody else, by name", (story, c) => {
    const limit = someLimit(
      story,
      c,
      (it) =>
        it.set === undefined &&
        it.spread === undefined &&
        unread(story, it) &&
        past(story.plant, it) !== undefined &&
        it.positions === undefined &&
        !story.plant.shims.length &&
        story.plant.limits.every((worked) => worked.formula?.includes(it.name) !== true),
    );
    const deed = limit && readings(story, limit.name, "found")[0];
    const row = deed && pick(deed.rows, c);
    const figure = limit && past(story.plant, limit);
    if (limit === undefined || deed === undefined || row === undefined || figure === undefined) return false;
    row.values = row.values.map(() => figure);
    behind(story, deed, {
      do: "write",
      lines: [`concession ${limit.name}${row.at === undefined ? "" : ` ${row.at}`} "Walking pace only, looked at each month" by "A. Pryde, engineer" TODAY`],
    });
    return true;
  }),
  fair("other-shims-then-read", "other shims went in while it was apart, and it was read", (story, c) => {
    const shims = pick(story.plant.shims, c);
    const part = shims && story.plant.parts.find((it) => it.critical !== undefined && acts(story).some((act) => act.do === "fit" && act.what === it.name));
    const fit = part && acts(story).find((act) => act.do === "fit" && act.what === part.name);
    const limit = shims && story.plant.limits.find((it) => it.name === shims.limit);
    if (
      shims === undefined ||
      fit === undefined ||
      limit === undefined ||
      (limit.each && part?.each === true && fit.at?.length !== everywhere(story.plant).length)
    )
      return false;
    const [thick, , n] = shims.stack[0] as [number, number, number];
    before(story, fit, {
      do: "write",
      lines: [
        `shims ${shims.name}`,
        ...(limit.each ? [`  each ${story.plant.places?.kind}`] : []),
        `  fitted ${shims.stack.map(([q, , k], i) => `${q} ${story.plant.length} x ${i === 0 ? n + 1 : k}`).join(", ")}`,
      ],
    });
    void thick;
    return true;
  }),
  fair("looked-bad-then-mended", "looked bad, seen to, and looked good", (story, c) => {
    const check = pick(
      story.plant.checks.filter((it) => it.of !== undefined),
      c,
    );
    const deed = check && story.deeds.find((it) => it.do === "seen" && it.what === check.name);
    if (check === undefined || deed === undefined || deed.do !== "seen") return false;
    // What was done about it is written: without that the two looks contradict one another, and cleaning closes no crack.
    if (/crack/i.test(check.bad)) return false;
    before(
      story,
      deed,
      { ...deed, good: false, when: "trial", text: check.bad },
      { do: "write", lines: ['step seen-to "Seen to"', `  clean ${check.of}`, ...(runs(story, check.of) ? [`  oil ${check.of}`] : []), "  done TODAY"] },
    );
    return true;
  }),
  fair("came-in-two-parcels", "half came one day, the rest another", (story, c) => {
    const order = story.deeds.find(
      (it) => it.do === "write" && it.lines[0]?.startsWith('order "W-118"') && it.lines.some((line) => line.startsWith("  item ")),
    );
    if (order?.do !== "write") return false;
    const items = order.lines.filter((it) => it.startsWith("  item "));
    if (items.length < 2) return false;
    for (const it of story.deeds.filter((one) => one.do === "write" && one !== order && one.lines[0] === order.lines[0])) drop(story, it);
    order.lines = [order.lines[0] as string, "  status placed TODAY", ...items];
    const came = (list: string[]): Deed => ({ do: "write", lines: [order.lines[0] as string, "  status received TODAY", ...list] });
    behind(story, order, { do: "night", days: 2 }, came(items.slice(0, 1)), { do: "night", days: 2 }, came(items.slice(1)));
    void c;
    return true;
  }),
  fair("a-spare-besides", "a spare on the order, and one for the shelf", (story, c) => {
    const part = pick(story.plant.parts, c);
    if (part === undefined) return false;
    story.shelf.push(`need ${part.name} 1 "A spare for the shelf"`, "");
    return true;
  }),
  fair("too-many-found", "one washer too many found, and taken out", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.renewWith !== undefined),
      c,
    );
    const off = part && first(story, "remove", part.name);
    if (part === undefined || off === undefined) return false;
    const at = placeFor(story, part, c);
    before(story, off, { do: "found", what: part.name, at, is: ["extra 1"], decision: "discard" });
    const mine = alone(story, off, at);
    mine.n = part.n + 1;
    return true;
  }),
];

function runs(story: Story, name: string | undefined): boolean {
  return story.plant.parts.some((it) => it.name === name && it.runs === true);
}
