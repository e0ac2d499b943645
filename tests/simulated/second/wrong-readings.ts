// Mistakes with what is read and seen: not read, read of something else, read badly, out and left so.
import type { Chance } from "./chance.ts";
import { type Act, acts, before, behind, drop, first, last, type Measured, type Row, type Story, toEnd } from "./deeds.ts";
import { doubt, goodRows, past, tidy } from "./figures.ts";
import { hurt, looks, pick, readings, someLimit, type Wrong } from "./kind.ts";
import { fastenerOf, type Limit, partOf, placesOf } from "./plant.ts";

const wrong = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, make });
const warned = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, warns: true, make });
const setting = (it: Limit): boolean => it.set !== undefined;
/** Set by a fastener: whoever undid that moved it. By shims alone, what was inside and went back with the same ones needs no second reading. */
const moves = (story: Story, it: Limit): boolean => setting(it) && it.by?.some((name) => last(story, "tighten", name) !== undefined) === true;
const size = (it: Limit): boolean => it.set === undefined && it.spread === undefined && it.formula === undefined;

/** The final reading of a setting and one of its rows. */
function final(story: Story, c: Chance, like: (it: Limit) => boolean = setting): { limit: Limit; deed: Measured; row: Row } | undefined {
  const limit = someLimit(story, c, (it) => like(it) && readings(story, it.name, "final").length > 0);
  const deed = limit && readings(story, limit.name, "final").at(-1);
  const row = deed && pick(deed.rows, c);
  return limit === undefined || deed === undefined || row === undefined ? undefined : { limit, deed, row };
}

const names = (limit: Limit): string[] => [limit.name, ...(limit.of ? [limit.of] : []), ...(limit.by ?? [])];

/** A row of what was found of a size whose piece was never condemned. */
function asFound(story: Story, c: Chance, like: (it: Limit) => boolean): { limit: Limit; deed: Measured; row: Row } | undefined {
  const limit = someLimit(
    story,
    c,
    (it) =>
      size(it) &&
      like(it) &&
      readings(story, it.name, "final").length === 0 &&
      readings(story, it.name, "found").length > 0 &&
      acts(story).every((act) => act.what !== it.of || act.fresh !== true),
  );
  const deed = limit && readings(story, limit.name, "found")[0];
  const row = deed && pick(deed.rows, c);
  return limit === undefined || deed === undefined || row === undefined ? undefined : { limit, deed, row };
}

/** Moves what sets a limit, once more. */
function moved(story: Story, limit: Limit): Act[] | undefined {
  const fastener = limit.by && fastenerOf(story.plant, limit.by[0] as string);
  const tight = fastener && last(story, "tighten", fastener.name);
  if (fastener === undefined || tight === undefined) return undefined;
  const lock = last(story, "lock", fastener.name);
  const back = last(story, "let back", fastener.name);
  const at = placesOf(story.plant, fastener);
  return [{ do: "slacken", what: fastener.name, at }, { ...tight, at }, ...(back ? [{ ...back, at }] : []), ...(lock ? [{ ...lock, at }] : [])];
}

export const wrongReadings: Wrong[] = [
  wrong("left-outside-set", "a setting left outside of what it must be", (story, c) => {
    const it = final(story, c);
    if (it?.limit.set === undefined) return undefined;
    const [low, high] = it.limit.set;
    const off = (high - low) * 0.6;
    const figure = tidy(story.plant, c.yes(0.5) || low - off < 0 ? high + off : low - off);
    it.row.values = it.row.values.map(() => figure);
    return hurt(names(it.limit), it.deed);
  }),
  wrong("one-spot-outside", "one spot of three is out, the mean is not", (story, c) => {
    const it = final(story, c, (limit) => limit.set !== undefined);
    if (it?.limit.set === undefined) return undefined;
    const [low, high] = it.limit.set;
    it.row.again = false;
    it.row.values = [low + (high - low) * 0.4, low + (high - low) * 0.4, high + (high - low) * 0.4].map((value) => tidy(story.plant, value));
    return hurt(names(it.limit), it.deed);
  }),
  wrong("never-read", "a setting that was disturbed is not read at the end", (story, c) => {
    const it = final(story, c, (limit) => moves(story, limit));
    if (it === undefined) return undefined;
    for (const deed of readings(story, it.limit.name, "final")) drop(story, deed);
    return hurt(names(it.limit));
  }),
  wrong("one-place-not-read", "a setting read at one place only", (story, c) => {
    const it = final(story, c, (limit) => moves(story, limit) && limit.each);
    if (it === undefined) return undefined;
    it.deed.rows = it.deed.rows.filter((row) => row.at !== it.row.at);
    return hurt(names(it.limit), it.deed);
  }),
  wrong("one-place-read-twice", "one place read twice, the other not", (story, c) => {
    const it = final(story, c, (limit) => moves(story, limit) && limit.each && limit.positions === undefined);
    const other = it?.deed.rows.find((row) => row.at !== it.row.at);
    if (it === undefined || other === undefined) return undefined;
    it.row.at = other.at;
    return hurt(names(it.limit), it.deed);
  }),
  wrong("only-tried", "the last reading was a trial", (story, c) => {
    const it = final(story, c);
    if (it === undefined) return undefined;
    if (!moves(story, it.limit)) return undefined;
    it.deed.when = "trial";
    return hurt(names(it.limit), it.deed);
  }),
  wrong("moved-after-reading", "what sets it was moved once more after it was read", (story, c) => {
    const it = final(story, c);
    const more = it && moved(story, it.limit);
    if (it === undefined || more === undefined) return undefined;
    behind(story, it.deed, ...more);
    return hurt(names(it.limit), it.deed, ...more);
  }),
  wrong("shims-changed-never-read", "other shims went in, and it was never read again", (story, c) => {
    const shims = pick(story.plant.shims, c);
    const limit = shims && story.plant.limits.find((it) => it.name === shims.limit);
    const fit = acts(story).find((it) => it.do === "fit");
    if (shims === undefined || limit === undefined || fit === undefined) return undefined;
    const places = limit.each ? [`  each ${story.plant.places?.kind}`] : [];
    const change = {
      do: "write" as const,
      what: shims.name,
      lines: [
        `shims ${shims.name}`,
        ...places,
        `  fitted ${shims.stack.map(([q, , n], i) => `${q} ${story.plant.length} x ${i === 0 ? n + 1 : n}`).join(", ")}`,
      ],
    };
    before(story, fit, change);
    for (const deed of readings(story, limit.name, "final")) drop(story, deed);
    return hurt([shims.name, ...names(limit)], change);
  }),
  wrong("shims-changed-after-reading", "another shim went in after the reading", (story, c) => {
    const shims = pick(story.plant.shims, c);
    const limit = shims && story.plant.limits.find((it) => it.name === shims.limit);
    const deed = limit && readings(story, limit.name, "final").at(-1);
    if (shims === undefined || limit === undefined || deed === undefined) return undefined;
    const places = limit.each ? [`  each ${story.plant.places?.kind}`] : [];
    const more = {
      do: "write" as const,
      what: shims.name,
      lines: [`shims ${shims.name}`, ...places, `  fitted ${shims.stack[0]?.[0]} ${story.plant.length} x ${(shims.stack[0]?.[2] ?? 0) + 1}`],
    };
    behind(story, deed, more);
    return hurt([shims.name, ...names(limit)], deed, more);
  }),
  wrong("read-before-its-part", "read before what it is of was back", (story, c) => {
    const it = final(
      story,
      c,
      (limit) => setting(limit) && (limit.by ?? []).some((name) => fastenerOf(story.plant, name) !== undefined && first(story, "undo", name) !== undefined),
    );
    const fastener = it && fastenerOf(story.plant, it.limit.by?.[0] as string);
    const part = fastener && story.plant.parts.find((one) => one.held.includes(fastener.name));
    const fit = part && acts(story).find((act) => act.do === "fit" && act.what === part.name);
    if (it === undefined || part === undefined || fit === undefined) return undefined;
    drop(story, it.deed);
    before(story, fit, it.deed);
    return hurt([...names(it.limit), part.name], it.deed);
  }),
  wrong("in-doubt", "nearer to its end than the gauge can tell", (story, c) => {
    const it = final(story, c, (limit) => setting(limit) && limit.critical === true);
    if (it?.limit.set === undefined) return undefined;
    it.row.again = false;
    it.row.values = [it.limit.set[1]];
    return hurt(names(it.limit), it.deed);
  }),
  wrong("gauge-cannot-tell", "a gauge whose doubt is wider than the band", (story, c) => {
    const it = final(story, c, (limit) => setting(limit) && limit.critical === true);
    const gauge = it && story.plant.gauges.find((one) => one.name === it.limit.gauge);
    if (it?.limit.set === undefined || gauge === undefined) return undefined;
    gauge.uncertainty = tidy(story.plant, it.limit.set[1] - it.limit.set[0]);
    return hurt([...names(it.limit), gauge.name], it.deed);
  }),
  warned("gauge-overdue", "a gauge whose check fell due long ago", (story, c) => {
    const it = final(story, c, (limit) => limit.gauge !== "calliper" && setting(limit));
    const gauge = it && story.plant.gauges.find((one) => one.name === it.limit.gauge);
    if (it === undefined || gauge === undefined) return undefined;
    gauge.checked = "2023-06-01";
    return hurt([...names(it.limit), gauge.name], it.deed);
  }),
  wrong("gauge-too-short", "a gauge that reaches not so far", (story, c) => {
    const it = asFound(story, c, (limit) => limit.gauge === "mic" || limit.gauge === "calliper");
    const gauge = it && story.plant.gauges.find((one) => one.name === it.limit.gauge);
    if (it === undefined || gauge === undefined) return undefined;
    gauge.range = [0, tidy(story.plant, (it.row.values[0] as number) / 2)];
    return hurt([...names(it.limit), gauge.name], it.deed);
  }),
  wrong("point-slipped", "ten times what it can be", (story, c) => {
    const it = final(story, c);
    if (it === undefined) return undefined;
    it.row.values = it.row.values.map((value) => tidy(story.plant, value * 10));
    return hurt(names(it.limit), it.deed);
  }),
  wrong("unit-slipped", "inches written for millimetres, or the reverse", (story, c) => {
    const it = final(story, c, setting);
    if (it === undefined) return undefined;
    it.deed.unit = story.plant.length === "mm" ? "in" : "mm";
    return hurt(names(it.limit), it.deed);
  }),
  wrong("scatter-past-its-end", "three tries at the same spot that do not agree, one of them outside", (story, c) => {
    const it = final(story, c, (limit) => setting(limit) && limit.critical === true);
    if (it?.limit.set === undefined) return undefined;
    const [low, high] = it.limit.set;
    it.row.again = true;
    it.row.values = [low + (high - low) * 0.3, low + (high - low) * 0.4, high + (high - low) * 0.4].map((value) => tidy(story.plant, value));
    return hurt(names(it.limit), it.deed);
  }),
  warned("scatter", "three tries at the same spot that do not agree", (story, c) => {
    const it = final(story, c, (limit) => setting(limit) && limit.critical === true);
    if (it?.limit.set === undefined) return undefined;
    const [low, high] = it.limit.set;
    const wide = Math.max(doubt(story.plant, it.limit) * 5, (high - low) * 0.4);
    it.row.again = true;
    it.row.values = [(low + high) / 2 - wide / 2, (low + high) / 2, (low + high) / 2 + wide / 2].map((value) => tidy(story.plant, value));
    return hurt(names(it.limit), it.deed);
  }),
  wrong("past-wear-back", "past its limit of wear, and the same piece goes back", (story, c) => {
    const it = asFound(story, c, (limit) => past(story.plant, limit) !== undefined && partOf(story.plant, limit.of ?? "")?.critical !== undefined);
    const figure = it && past(story.plant, it.limit);
    if (it === undefined || figure === undefined) return undefined;
    for (const row of it.deed.rows.filter((one) => one.at === it.row.at)) row.values = row.values.map(() => figure);
    return hurt(names(it.limit), it.deed);
  }),
  wrong("one-position-past-wear", "past its limit at one position of two", (story, c) => {
    const it = asFound(story, c, (limit) => past(story.plant, limit) !== undefined && limit.positions !== undefined);
    const figure = it && past(story.plant, it.limit);
    if (it === undefined || figure === undefined) return undefined;
    it.row.values = it.row.values.map(() => figure);
    return hurt(names(it.limit), it.deed);
  }),
  wrong("oval", "out of round, and goes back", (story, c) => {
    const it = asFound(story, c, (limit) => limit.ovality !== undefined);
    if (it?.limit.ovality === undefined) return undefined;
    const base = it.row.values[0] as number;
    it.row.again = false;
    it.row.values = [base, tidy(story.plant, base + (it.limit.wornMin !== undefined ? -1 : 1) * it.limit.ovality * 1.6)];
    return hurt(names(it.limit), it.deed);
  }),
  wrong("tapered", "tapered, and goes back", (story, c) => {
    const it = asFound(story, c, (limit) => limit.taper !== undefined);
    if (it?.limit.taper === undefined) return undefined;
    const down = it.limit.taper * 1.6;
    it.row.values = it.row.values.map((value) => tidy(story.plant, value - down));
    return hurt(names(it.limit), it.deed);
  }),
  wrong("runs-out", "wobbles more than it may, at the end", (story, c) => {
    const it = final(story, c, (limit) => limit.spread !== undefined);
    if (it?.limit.spread === undefined) return undefined;
    it.row.values = [0, 0.8, 1.7, 0.5].map((value) => tidy(story.plant, value * (it.limit.spread as number)));
    return hurt(names(it.limit), it.deed);
  }),
  wrong("second-reading-better", "past wear when found, inside later, and nothing was done between", (story, c) => {
    const it = asFound(story, c, (limit) => past(story.plant, limit) !== undefined && partOf(story.plant, limit.of ?? "")?.critical !== undefined);
    const figure = it && past(story.plant, it.limit);
    if (it === undefined || figure === undefined) return undefined;
    for (const row of it.deed.rows.filter((one) => one.at === it.row.at)) row.values = row.values.map(() => figure);
    const better: Measured = {
      do: "measure",
      what: it.limit.name,
      when: "final",
      by: it.limit.gauge,
      rows: goodRows(story.plant, it.limit, it.row.at === undefined ? undefined : [it.row.at], false, c),
    };
    behind(story, it.deed, better);
    return hurt(names(it.limit), it.deed, better);
  }),
  wrong("new-one-not-measured", "a new or mended piece was never measured", (story, c) => {
    const it = final(story, c, (limit) => size(limit) && partOf(story.plant, limit.of ?? "")?.critical !== undefined);
    if (it === undefined) return undefined;
    for (const deed of readings(story, it.limit.name, "final")) drop(story, deed);
    return hurt(names(it.limit));
  }),
  wrong("new-one-past-wear", "the new piece is past the limit of wear", (story, c) => {
    const it = final(story, c, (limit) => size(limit) && past(story.plant, limit) !== undefined);
    const figure = it && past(story.plant, it.limit);
    if (it === undefined || figure === undefined) return undefined;
    it.row.again = false;
    it.row.values = [figure];
    return hurt(names(it.limit), it.deed);
  }),
  wrong("seen-bad", "looked bad at the end", (story, c) => {
    const check = pick(story.plant.checks, c);
    const deed = check && pick(looks(story, check.name), c);
    if (check === undefined || deed === undefined) return undefined;
    deed.good = false;
    deed.text = check.bad;
    return hurt(check.name, deed);
  }),
  wrong("seen-bad-after-good", "looked good, and bad when looked at again", (story, c) => {
    const check = pick(story.plant.checks, c);
    const deed = check && pick(looks(story, check.name), c);
    if (check === undefined || deed === undefined) return undefined;
    const again = { ...deed, good: false, text: check.bad };
    toEnd(story, again);
    return hurt(check.name, again);
  }),
  wrong("not-seen", "nobody looked at the end", (story, c) => {
    const check = pick(
      story.plant.checks.filter((it) => it.critical !== undefined),
      c,
    );
    if (check === undefined) return undefined;
    for (const deed of looks(story, check.name)) drop(story, deed);
    return hurt([check.name, ...(check.of ? [check.of] : [])]);
  }),
  wrong("not-seen-at-one", "nobody looked at one place", (story, c) => {
    const check = pick(
      story.plant.checks.filter((it) => it.critical !== undefined && it.each),
      c,
    );
    const deed = check && pick(looks(story, check.name), c);
    if (check === undefined || deed === undefined) return undefined;
    drop(story, deed);
    return hurt([check.name, ...(check.of ? [check.of] : [])]);
  }),
  wrong("seen-before-it-came-off", "looked at before it came off, and not after", (story, c) => {
    const check = pick(
      story.plant.checks.filter((it) => it.critical !== undefined && it.of !== undefined && first(story, "remove", it.of) !== undefined),
      c,
    );
    const off = check && first(story, "remove", check.of as string);
    if (check === undefined || off === undefined) return undefined;
    for (const deed of looks(story, check.name)) {
      drop(story, deed);
      before(story, off, deed);
    }
    return hurt([check.name, check.of as string]);
  }),
  wrong("contact-before-shims", "contact seen good, then the shims were changed", (story, c) => {
    const check = pick(
      story.plant.checks.filter((it) => it.by !== undefined),
      c,
    );
    const shims = check && story.plant.shims.find((it) => it.name === check.by);
    const limit = shims && story.plant.limits.find((it) => it.name === shims.limit);
    const deed = check && looks(story, check.name)[0];
    if (check === undefined || shims === undefined || limit === undefined || deed === undefined) return undefined;
    const change = {
      do: "write" as const,
      what: shims.name,
      lines: [`shims ${shims.name}`, `  fitted ${shims.stack[0]?.[0]} ${story.plant.length} x ${(shims.stack[0]?.[2] ?? 0) + 2}`],
    };
    toEnd(story, change, {
      do: "measure",
      what: limit.name,
      when: "final",
      by: limit.gauge,
      rows: goodRows(story.plant, limit, placesOf(story.plant, limit), false, c),
    });
    return hurt([check.name, shims.name], deed, change);
  }),
  wrong("conceded-by-himself", "a critical limit of wear let pass by who did the work", (story, c) => {
    const it = asFound(story, c, (limit) => past(story.plant, limit) !== undefined && partOf(story.plant, limit.of ?? "")?.critical !== undefined);
    const figure = it && past(story.plant, it.limit);
    if (it === undefined || figure === undefined) return undefined;
    for (const row of it.deed.rows.filter((one) => one.at === it.row.at)) row.values = row.values.map(() => figure);
    const given = {
      do: "write" as const,
      what: it.limit.name,
      at: it.row.at,
      lines: [`concession ${it.limit.name}${it.row.at === undefined ? "" : ` ${it.row.at}`} "It will do another year" by "R. Tamm" TODAY`],
    };
    behind(story, it.deed, given);
    return hurt(names(it.limit), it.deed, given);
  }),
];
