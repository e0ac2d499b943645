// A small physical machine, followed piece by piece through a story. It knows nothing of sheets: it does what was done, and keeps what is the matter.
//
// Invariant: a piece is somewhere, on at a place, on the bench, away or gone, and what is true of it goes with it.
import {
  type Act,
  all,
  type Entry,
  type Fastener,
  type Finding,
  find,
  type Limit,
  type Measure,
  type Part,
  placesOf,
  type Step,
  type Story,
} from "./things.ts";
import { plain } from "./units.ts";

export interface Fault {
  code: string;
  name: string;
  place: string;
  /** The act or entry, where it is of a moment. */
  id?: number;
}

export interface Piece {
  name: string;
  home: string;
  thread: string | undefined;
  made: "old" | "new";
  faults: Set<string>;
  /** Limits that it is past, and where they were read. */
  past: Set<string>;
  /** Came off, or was let go, and is of a kind that goes back no more. */
  used: boolean;
  on?: string;
  tight: boolean;
  torque?: number;
  letBack: boolean;
  turned: number;
  lock: "ok" | "none" | "used" | "other";
  forNow: boolean;
  away: boolean;
  gone: boolean;
  /** A new one took its place: no plain fit takes it. */
  aside: boolean;
  /** Repaired and not looked at since. */
  mended: boolean;
  /** Limits that are to be read of it. */
  unread: Set<string>;
}

export type Setting = "untouched" | "stale" | "good" | "out" | "doubt";

export interface World {
  story: Story;
  pieces: Piece[];
  faults: Fault[];
  settings: Map<string, Setting>;
  readings: Map<string, number[]>;
  /** Read while the place was empty: of what is fitted next. */
  ahead: Map<string, boolean>;
  fluids: Map<string, { level: number; full: number; opened: boolean; faults: Set<string> }>;
  live: Set<string>;
  bears: "ground" | "jack" | "lift" | "stands" | "crane" | "cradle";
  bearsOn: string | undefined;
  chocked: boolean;
  under: boolean;
  held: Set<string>;
  /** Something hangs on the crane. */
  swings: boolean;
  looked: Set<string>;
  failed: Set<string>;
  days: Map<string, number>;
  pardoned: Set<string>;
}

const onceUsed = new Set(["missing"]);
export const at = (name: string, place: string): string => `${name}@${place}`;

/** Everything that is done, in the order of the story. */
export function run(story: Story): World {
  const world = begin(story);
  let day = 0;
  for (const entry of story.entries) {
    if (entry.day > day && (world.bears === "jack" || world.bears === "crane" || world.swings)) matter(world, "left-hanging", "", "", entry.id);
    day = Math.max(day, entry.day);
    if (entry.is === "step") doStep(world, entry);
    else if (entry.is === "measure") read(world, entry);
    else if (entry.is === "seen") {
      const check = find(story, "check", entry.check);
      for (const place of entry.place ? [entry.place] : placesOf(story, entry.check)) {
        for (const of of check?.of ?? []) look(world, of, place, entry);
        if (entry.when === "final") world.settings.set(at(entry.check, place), entry.good ? "good" : "out");
      }
    } else if (entry.is === "finding") found(world, entry);
    else if (entry.is === "order") ordered(world, entry);
    else if (entry.is === "question" && entry.answer === undefined) matter(world, "unanswered", entry.name, "", entry.id);
    else if (entry.is === "concession") {
      if (entry.by === story.by) matter(world, "own-pardon", entry.name, entry.place ?? "", entry.id);
      for (const place of entry.place ? [entry.place] : placesOf(story, entry.name)) world.pardoned.add(at(entry.name, place));
    }
  }
  return world;
}

export function matter(world: World, code: string, name: string, place: string, id?: number): void {
  if (!world.faults.some((it) => it.code === code && it.name === name && it.place === place))
    world.faults.push({ code, name, place, ...(id !== undefined && { id }) });
}

export const onAt = (world: World, name: string, place: string): Piece[] => world.pieces.filter((it) => it.name === name && it.on === place);

function begin(story: Story): World {
  const world: World = {
    story,
    pieces: [],
    faults: [],
    settings: new Map(),
    readings: new Map(),
    ahead: new Map(),
    fluids: new Map(),
    live: new Set(),
    bears: "ground",
    bearsOn: undefined,
    chocked: false,
    under: false,
    held: new Set(),
    swings: false,
    looked: new Set(),
    failed: new Set(),
    days: new Map(),
    pardoned: new Set(),
  };
  for (const thing of story.things) {
    if (thing.is === "part" || thing.is === "fastener") {
      for (const place of placesOf(story, thing.name))
        for (let i = 0; i < thing.per; i++)
          world.pieces.push({ ...newPiece(world, thing.name, place), made: "old", on: place, tight: true, lock: "ok", unread: new Set() });
    } else if (thing.is === "fluid") {
      for (const place of placesOf(story, thing.name)) {
        const full = plain(thing.capacity.n, thing.capacity.unit);
        world.fluids.set(at(thing.name, place), { level: full, full, opened: false, faults: new Set() });
      }
    } else if (thing.is === "hazard") world.live.add(thing.name);
  }
  return world;
}

function newPiece(world: World, name: string, place: string): Piece {
  const it = find(world.story, "fastener", name);
  const unread = all(world.story, "limit").filter(
    (limit) =>
      limit.set === undefined &&
      limit.less === undefined &&
      limit.of.includes(name) &&
      (limit.critical ?? find(world.story, "part", name)?.critical) !== undefined,
  );
  return {
    name,
    home: place,
    thread: it?.threadAt?.[place] ?? it?.thread,
    made: "new",
    faults: new Set(),
    past: new Set(),
    used: false,
    tight: false,
    letBack: false,
    turned: 0,
    lock: "none",
    forNow: false,
    away: false,
    gone: false,
    aside: false,
    mended: false,
    unread: new Set(unread.map((limit) => limit.name)),
  };
}

function doStep(world: World, step: Step): void {
  if (!step.done) return matter(world, "planned", step.name, "", step.id);
  for (const act of step.acts) {
    general(world, act);
    if (act.text?.includes("___")) matter(world, "blank", step.name, "", act.id);
    for (const one of act.names) {
      if (!world.story.things.some((it) => it.name === one.name)) {
        if (world.story.things.some((it) => it.name.startsWith(one.name))) matter(world, "no-such-name", one.name, "", act.id);
        continue;
      }
      let places = placesOf(world.story, one.name);
      const asked = act.places ?? step.at;
      if (asked !== undefined) places = places.filter((it) => it === "" || asked.includes(it));
      if (step.doneAt !== undefined) places = places.filter((it) => it === "" || step.doneAt?.includes(it));
      for (const place of places) {
        doDay(world, one.name, place, step);
        once(world, act, one.name, one.n, place, step);
      }
    }
  }
  if (step.doneAt !== undefined && step.at === undefined) matter(world, "one-side", step.name, "", step.id);
}

function doDay(world: World, name: string, place: string, entry: Entry): void {
  const things = [
    name,
    ...(find(world.story, "part", name)?.behind ?? []),
    ...all(world.story, "part")
      .filter((it) => it.behind.includes(name))
      .map((it) => it.name),
  ];
  for (const thing of things) {
    for (const where of [place, ""]) if ((world.days.get(at(thing, where)) ?? 0) > entry.day) matter(world, "days", name, place, entry.id);
  }
  world.days.set(at(name, place), Math.max(entry.day, world.days.get(at(name, place)) ?? 0));
}

/** What is done to the machine as a whole. */
function general(world: World, act: Act): void {
  if (act.verb === "chock") {
    if (world.bears !== "ground" && !world.chocked) matter(world, "chocked-late", "", "", act.id);
    world.chocked = true;
  } else if (act.verb === "raise") {
    world.bears = act.on as World["bears"];
  } else if (act.verb === "support") {
    if (act.names.length > 0) {
      for (const one of act.names) world.held.add(one.name);
      world.swings = act.on === "crane";
      return;
    }
    const how = /crane|cradle/.exec(act.on ?? "")?.[0];
    const count = Number(/^(\d+)/.exec(act.on ?? "")?.[1] ?? 1);
    if (act.load !== undefined && act.load > (act.rated ?? 0) * count) matter(world, "overloaded", "", "", act.id);
    world.bears = how === undefined ? "stands" : (how as World["bears"]);
    world.bearsOn = act.text;
  } else if (act.verb === "lower" && act.names.length > 0) {
    world.swings = false;
  } else if (act.verb === "lower") {
    const open = world.story.things.some(
      (it) =>
        (it.is === "part" || it.is === "fastener") &&
        it.critical !== undefined &&
        placesOf(world.story, it.name).some((place) => {
          const on = onAt(world, it.name, place);
          return on.length < it.per || (it.is === "fastener" && on.some((piece) => !piece.tight));
        }),
    );
    if (open) matter(world, "lowered-open", "", "", act.id);
    world.bears = "ground";
    world.held.clear();
    world.swings = false;
  } else if (act.verb === "under") {
    if (world.bears === "jack" || world.bears === "crane") matter(world, "jack-only", "", "", act.id);
    if (!world.chocked && world.bears !== "lift") matter(world, "not-chocked", "", "", act.id);
    world.under = true;
  } else if (act.verb === "clear") world.under = false;
}

function once(world: World, act: Act, name: string, n: number | undefined, place: string, step: Step): void {
  const part = find(world.story, "part", name);
  const nut = find(world.story, "fastener", name);
  const thing = part ?? nut;
  if (act.verb === "safe") return void world.live.delete(name);
  if (act.verb === "restore") return restore(world, act, name);
  if (act.verb === "drain" || act.verb === "fill" || act.verb === "bleed") return fluids(world, act, name, place);
  if (find(world.story, "shims", name) !== undefined) return moved(world, name, place);
  if (thing === undefined) return;
  if (act.verb === "undo" || act.verb === "slacken") return loosen(world, act, nut as Fastener, n, place);
  if (act.verb === "remove") return takeOff(world, act, part as Part, n, place);
  if (act.verb === "fit") return putOn(world, act, name, n, place, step);
  if (act.verb === "tighten") return doUp(world, act, nut as Fastener, n, place, step);
  if (act.verb === "lock") return secure(world, act, nut as Fastener, n, place);
  const here = world.pieces.filter((it) => it.name === name && !it.gone && !it.aside && (it.on ?? it.home) === place);
  if (act.verb === "repair") for (const it of here) mend(world, it);
  if (act.verb === "clean") for (const it of here) for (const fault of ["contaminated", "blocked"]) it.faults.delete(fault);
  if (act.verb === "oil" || act.verb === "grease") for (const it of here) it.faults.delete("dry");
}

function mend(world: World, it: Piece): void {
  it.mended = find(world.story, "part", it.name)?.critical !== undefined && (it.faults.has("cracked") || it.faults.has("bent"));
  for (const limit of it.past) it.unread.add(limit.split("@")[0] ?? "");
  it.faults.clear();
  it.past.clear();
}

function restore(world: World, act: Act, name: string): void {
  const hazard = find(world.story, "hazard", name);
  const open = (hazard?.after ?? []).some((it) =>
    placesOf(world.story, it).some((place) => {
      const on = onAt(world, it, place);
      const per = world.story.things.find((thing) => thing.name === it)?.per ?? 1;
      return on.length < per || on.some((piece) => find(world.story, "fastener", it) !== undefined && !piece.tight);
    }),
  );
  if (open) matter(world, "restored-open", name, "", act.id);
  world.live.add(name);
}

function fluids(world: World, act: Act, name: string, place: string): void {
  const it = world.fluids.get(at(name, place));
  if (it === undefined) return;
  if (act.amount?.unit === "pt") matter(world, "two-meanings", name, place, act.id);
  const amount = act.amount === undefined ? undefined : plain(act.amount.n, act.amount.unit === "pt" ? "imp.pt" : act.amount.unit);
  if (act.verb === "bleed") it.opened = false;
  else if (act.verb === "drain") {
    it.level = amount === undefined ? 0 : Math.max(0, it.level - amount);
    if (amount === undefined || amount > it.full * 0.7) {
      it.level = 0;
      it.faults.clear();
    }
  } else it.level = amount === undefined ? it.full : it.level + amount;
  if (act.verb !== "drain") for (const part of find(world.story, "fluid", name)?.in ?? []) moved(world, part, place, "checks");
}

function loosen(world: World, act: Act, nut: Fastener, n: number | undefined, place: string): void {
  hazards(world, act, nut.name);
  const on = onAt(world, nut.name, place)
    .sort((a, b) => b.faults.size - a.faults.size)
    .slice(0, n ?? nut.per);
  for (const it of on) {
    // Let back by an angle: it stays set.
    if (act.verb === "slacken" && act.on !== undefined) continue;
    it.tight = false;
    it.letBack = false;
    delete it.torque;
    it.lock = "none";
    if (nut.lock?.use === "nut" && nut.critical !== undefined) it.used = true;
    if (act.verb === "undo") delete it.on;
    it.forNow = false;
  }
  if (nut.lock?.part !== undefined && on.length > 0) {
    const plates = onAt(world, nut.lock.part, place).slice(0, Math.ceil(on.length / (nut.lock.serves ?? 1)));
    for (const plate of plates) {
      plate.used = true;
      delete plate.on;
    }
  }
  for (const held of all(world.story, "part")) {
    if (!held.heldBy.includes(nut.name) || (held.mass ?? 0) < 20 || /^road wheel/i.test(held.title) || world.held.has(held.name)) continue;
    const where = held.each === undefined ? "" : place;
    if (
      act.verb === "undo" &&
      held.heldBy.every((it) =>
        placesOf(world.story, it)
          .filter((p) => where === "" || p === where || p === "")
          .every((p) => onAt(world, it, p).length === 0),
      )
    )
      matter(world, "unsupported", held.name, where, act.id);
  }
  moved(world, nut.name, place);
}

function takeOff(world: World, act: Act, part: Part, n: number | undefined, place: string): void {
  hazards(world, act, part.name);
  if (world.bears === "jack" && /^(road wheel|front hub)/i.test(part.title)) matter(world, "jack-only", part.name, place, act.id);
  if (world.bearsOn === part.name) matter(world, "support-removed", part.name, place, act.id);
  const there = (name: string) =>
    placesOf(world.story, name)
      .filter((it) => it === place || it === "" || place === "")
      .some((it) => onAt(world, name, it).some((piece) => find(world.story, "part", name) !== undefined || piece.tight));
  for (const name of [...part.heldBy, ...part.behind]) if (there(name)) matter(world, "still-held", part.name, place, act.id);
  if (part.heldBy.length === 0 && (part.mass ?? 0) >= 20 && !/^road wheel/i.test(part.title) && !world.held.has(part.name))
    matter(world, "unsupported", part.name, place, act.id);
  for (const it of onAt(world, part.name, place).slice(0, n ?? part.per)) {
    delete it.on;
    it.forNow = false;
    if (part.renew !== undefined) it.used = true;
    it.faults.delete("reversed");
  }
  for (const other of all(world.story, "part")) {
    if (!other.renew?.includes(part.name)) continue;
    for (const it of world.pieces) if (it.name === other.name && (it.on ?? it.home) === place && it.on !== undefined) it.used = true;
  }
  for (const fluid of all(world.story, "fluid")) {
    if (!fluid.in.includes(part.name)) continue;
    const it = world.fluids.get(at(fluid.name, fluid.each === undefined ? "" : place));
    if (it === undefined) continue;
    it.level = 0;
    if (fluid.bleed) it.opened = true;
  }
  moved(world, part.name, place);
}

function putOn(world: World, act: Act, name: string, n: number | undefined, place: string, step: Step): void {
  const part = find(world.story, "part", name);
  const per = (part ?? find(world.story, "fastener", name))?.per ?? 1;
  const count = n ?? Math.max(0, per - onAt(world, name, place).length);
  for (const front of part?.behind ?? []) {
    if (act.names.some((it) => it.name === front)) continue;
    for (const where of placesOf(world.story, front))
      if ((where === place || where === "") && onAt(world, front, where).length > 0) matter(world, "fit-behind", name, place, act.id);
  }
  if (act.isNew) {
    if (n === undefined && count === 0) matter(world, "new-over-old", name, place, act.id);
    if (isAwaited(world.story, name, step)) matter(world, "too-early", name, place, act.id);
    for (let i = 0; i < (n ?? Math.max(count, 1)); i++) world.pieces.push({ ...newPiece(world, name, place), on: place, forNow: act.forNow !== undefined });
    // What was replaced is set aside; the faulty and the used go first.
    const replaced = world.pieces.filter((it) => it.name === name && it.home === place && it.on === undefined && !it.gone && !it.aside).sort(worseFirst);
    if (act.forNow === undefined) for (const it of replaced.slice(0, n ?? count)) it.aside = true;
  } else {
    const bench = world.pieces
      .filter((it) => it.name === name && it.on === undefined && !it.gone && (!it.aside || act.from !== undefined) && it.home === (act.from ?? place))
      .sort((a, b) => worseFirst(b, a));
    if (act.takes === "bad") bench.reverse();
    for (const it of bench.slice(0, count)) {
      if (it.away) matter(world, "away", name, place, act.id);
      it.on = place;
      it.tight = find(world.story, "fastener", name)?.torque === "none";
      it.home = place === it.home ? it.home : `${it.home}!`;
      it.forNow = act.forNow !== undefined;
      if (act.from !== undefined) it.faults.delete("swapped");
    }
    if (n !== undefined && onAt(world, name, place).length > per) matter(world, "too-many", name, place, act.id);
  }
  for (const limit of all(world.story, "limit")) {
    const ahead = world.ahead.get(at(limit.name, limit.each === undefined ? "" : place));
    if (ahead === undefined || !limit.of.includes(name)) continue;
    for (const it of onAt(world, name, place)) {
      it.unread.delete(limit.name);
      if (!ahead) it.past.add(at(limit.name, place));
    }
  }
  moved(world, name, place);
}

const worseFirst = (a: Piece, b: Piece) => b.faults.size + b.past.size + Number(b.used) - (a.faults.size + a.past.size + Number(a.used));

function isAwaited(story: Story, name: string, step: Step): boolean {
  const orders = story.entries.filter((it) => it.is === "order");
  const asked = orders.filter((it) => it.items.some((item) => item.name === name) && it.status !== "cancelled");
  const came = (reference: string) =>
    orders.some(
      (it) => it.reference === reference && it.status === "received" && it.day <= step.day && story.entries.indexOf(it) < story.entries.indexOf(step),
    );
  return asked.length > 0 && !asked.some((it) => came(it.reference));
}

function doUp(world: World, act: Act, nut: Fastener, n: number | undefined, place: string, step: Step): void {
  const counted = step.acts.some((it) => it.verb === "fit" && it.names.some((one) => one.name === nut.name && one.n !== undefined));
  if (!counted) {
    const lacking = nut.per - onAt(world, nut.name, place).length;
    const bench = world.pieces
      .filter((it) => it.name === nut.name && it.on === undefined && !it.gone && !it.aside && it.home === place)
      .sort((a, b) => worseFirst(b, a));
    for (const it of bench.slice(0, lacking)) it.on = place;
  }
  for (const held of all(world.story, "part")) {
    if (!held.heldBy.includes(nut.name) || act.forNow !== undefined) continue;
    if (
      placesOf(world.story, held.name)
        .filter((it) => it === place || it === "" || place === "")
        .some((it) => onAt(world, held.name, it).length === 0)
    )
      matter(world, "fit-order", nut.name, place, act.id);
  }
  const on = onAt(world, nut.name, place).sort((a, b) => Number(a.tight) - Number(b.tight));
  for (const it of n === undefined ? on : on.slice(0, n)) {
    const to = act.to === undefined ? undefined : plain(act.to.n, act.to.unit);
    if (it.torque !== undefined && to !== undefined && to < it.torque * 0.97) it.letBack = true;
    if (to !== undefined && it.letBack && it.torque !== undefined && to > it.torque) it.letBack = false;
    it.tight = true;
    it.turned = act.turn ?? 0;
    if (to === undefined) delete it.torque;
    else it.torque = to;
    it.forNow = act.forNow !== undefined;
    it.faults.delete("loose");
    if (it.lock !== "none" && to !== undefined) it.lock = it.lock === "ok" && it.on !== undefined ? "none" : it.lock;
    if (nut.lock?.use === "friction" && nut.critical === undefined) it.lock = "ok";
  }
  const wrench = act.gauge === undefined ? undefined : find(world.story, "gauge", act.gauge);
  if (wrench?.range !== undefined && act.to !== undefined) {
    const to = plain(act.to.n, act.to.unit);
    if (to < plain(wrench.range.lo, wrench.range.unit) || to > plain(wrench.range.hi, wrench.range.unit))
      matter(world, "out-of-range", nut.name, place, act.id);
  }
  if (wrench?.due !== undefined && step.day > wrench.due) matter(world, "gauge-due", wrench.name, "", act.id);
  moved(world, nut.name, place);
}

function secure(world: World, act: Act, nut: Fastener, n: number | undefined, place: string): void {
  const on = onAt(world, nut.name, place).sort((a, b) => Number(a.lock === "ok") - Number(b.lock === "ok"));
  const plates = nut.lock?.part === undefined ? [] : onAt(world, nut.lock.part, place);
  for (const it of n === undefined ? on : on.slice(0, n)) {
    if (!it.tight) matter(world, "locked-slack", nut.name, place, act.id);
    it.faults.delete("unlocked");
    if (act.with !== undefined && act.with !== nut.lock?.text) it.lock = "other";
    else if (nut.lock?.use === "once") it.lock = act.isNew ? "ok" : "used";
    else if (nut.lock?.use === "part") it.lock = plates.length * (nut.lock.serves ?? 1) >= on.length && plates.every((plate) => !plate.used) ? "ok" : "used";
    else it.lock = "ok";
  }
  moved(world, nut.name, place);
}

function hazards(world: World, act: Act, name: string): void {
  for (const it of all(world.story, "hazard")) if (it.before.includes(name) && world.live.has(it.name)) matter(world, "hazard", it.name, "", act.id);
}

/** What it sets, what is of it and what it holds are to be read again. */
export function moved(world: World, name: string, place: string, which: "all" | "checks" = "all"): void {
  const holds = all(world.story, "part")
    .filter((it) => it.heldBy.includes(name))
    .map((it) => it.name);
  for (const it of world.story.things) {
    if (
      it.is === "check"
        ? ![name, ...holds].some((one) => it.of.includes(one))
        : !(it.is === "limit" && which === "all" && it.set !== undefined && (it.set.by.includes(name) || it.of.includes(name)))
    )
      continue;
    for (const where of placesOf(world.story, it.name)) if (where === place || where === "" || place === "") world.settings.set(at(it.name, where), "stale");
  }
}

function look(world: World, name: string, place: string, entry: Entry): void {
  if ((world.days.get(at(name, place)) ?? 0) > entry.day) matter(world, "days", name, place, entry.id);
  world.looked.add(at(name, place));
  for (const it of world.pieces) if (it.name === name && !it.gone && !it.aside && (it.on ?? it.home) === place && it.faults.size === 0) it.mended = false;
}

function read(world: World, entry: Measure): void {
  const limit = find(world.story, "limit", entry.limit);
  if (limit === undefined) return;
  if (entry.slip) matter(world, "slip", limit.name, "", entry.id);
  const gauge = entry.gauge === undefined ? undefined : find(world.story, "gauge", entry.gauge);
  if (gauge?.due !== undefined && entry.day > gauge.due) matter(world, "gauge-due", gauge.name, "", entry.id);
  const doubt = gauge?.uncertainty === undefined ? 0 : plain(gauge.uncertainty.n, gauge.uncertainty.unit);
  const places = new Set(entry.readings.map((it) => it.place ?? ""));
  for (const place of places) {
    const mine = entry.readings.filter((it) => (it.place ?? "") === place);
    const figures = mine.flatMap((it) => (it.again ? [it.figures.reduce((a, b) => a + b, 0) / it.figures.length] : it.figures).map((n) => plain(n, it.unit)));
    for (const it of mine)
      if (it.again && doubt > 0 && Math.max(...it.figures) - Math.min(...it.figures) > (2.5 * doubt) / plain(1, it.unit))
        matter(world, "scatter", limit.name, place, entry.id);
    world.readings.set(at(limit.name, place), figures);
    for (const of of limit.of) look(world, of, place, entry);
    for (const by of limit.set?.by ?? []) if ((world.days.get(at(by, place)) ?? 0) > entry.day) matter(world, "days", limit.name, place, entry.id);
    if (limit.set !== undefined) setting(world, entry, limit, place, figures, doubt);
    else if (limit.less === undefined)
      size(
        world,
        entry,
        limit,
        place,
        figures,
        doubt,
        mine.map((it) => it.position),
      );
    else compare(world, entry, limit, place, figures);
  }
}

function setting(world: World, entry: Measure, limit: Limit, place: string, figures: number[], doubt: number): void {
  if (entry.when !== "final" || limit.set === undefined) return;
  const off = [...limit.of, ...limit.set.by].filter(
    (it) =>
      find(world.story, "part", it) !== undefined &&
      placesOf(world.story, it).some((where) => (where === place || where === "" || place === "") && onAt(world, it, where).length === 0),
  );
  if (off.length > 0) return matter(world, "read-open", limit.name, place, entry.id);
  const lo = plain(limit.set.lo, limit.unit);
  const hi = plain(limit.set.hi, limit.unit);
  const fine = 1e-9;
  const out = figures.some((n) => n < lo - fine || n > hi + fine);
  const unsure = doubt > 0 && figures.some((n) => Math.abs(n - lo) < doubt - fine || Math.abs(n - hi) < doubt - fine);
  world.settings.set(at(limit.name, place), unsure ? "doubt" : out ? "out" : "good");
}

function size(world: World, entry: Measure, limit: Limit, place: string, figures: number[], doubt: number, positions: (string | undefined)[]): void {
  const min = limit.worn?.min === undefined ? -Infinity : plain(limit.worn.min, limit.unit);
  const max = limit.worn?.max === undefined ? Infinity : plain(limit.worn.max, limit.unit);
  const bad = figures.map((n) => n < min - 1e-9 || n > max + 1e-9);
  if (
    limit.taper !== undefined &&
    positions.filter((it) => it !== undefined).length > 1 &&
    Math.max(...figures) - Math.min(...figures) > plain(limit.taper, limit.unit) + 1e-9
  )
    bad[0] = true;
  if (entry.when === "final" && doubt > 0 && figures.some((n) => Math.abs(n - min) < doubt || Math.abs(n - max) < doubt))
    matter(world, "doubt", limit.name, place, entry.id);
  if (entry.when === "trial" || entry.slip) return;
  for (const of of limit.of) {
    const where = placesOf(world.story, of).includes(place) ? place : "";
    const here = world.pieces.filter((it) => it.name === of && !it.gone && !it.aside && (it.on ?? it.home) === where);
    if (entry.when === "final" && onAt(world, of, where).length === 0) {
      world.ahead.set(at(limit.name, place), !bad.some(Boolean));
      continue;
    }
    const worn = bad.filter(Boolean).length;
    const condemned = figures.length > 1 && positions.every((it) => it === undefined) ? here.slice(0, worn) : worn > 0 ? here : [];
    for (const it of condemned) it.past.add(at(limit.name, place));
    for (const it of here) {
      if (it.past.has(at(limit.name, place)) && !condemned.includes(it) && worn === 0) matter(world, "contradiction", limit.name, place, entry.id);
      if (entry.when === "final") it.unread.delete(limit.name);
    }
    if (worn > 0) world.failed.add(at(of, where));
  }
}

function compare(world: World, entry: Measure, limit: Limit, place: string, figures: number[]): void {
  const [a, b] = (limit.less ?? ["", ""]).map((it) => world.readings.get(at(it, place))?.[0]);
  if (a === undefined || b === undefined || figures.some((n) => Math.abs(n - (a - b)) > 0.003)) matter(world, "contradiction", limit.name, place, entry.id);
}

function found(world: World, entry: Finding): void {
  const fluid = find(world.story, "fluid", entry.name);
  const places = entry.place ? [entry.place] : placesOf(world.story, entry.name);
  for (const place of places) {
    look(world, entry.name, place, entry);
    if (fluid !== undefined) {
      const it = world.fluids.get(at(entry.name, place));
      for (const condition of entry.conditions) {
        if (/^low/.test(condition) && it !== undefined && entry.amount !== undefined) it.level = plain(entry.amount.n, entry.amount.unit);
        else if (!/clean|serviceable/.test(condition)) it?.faults.add(condition);
      }
      continue;
    }
    const here = world.pieces
      .filter((it) => it.name === entry.name && !it.gone && !it.aside && (it.on ?? it.home) === place)
      .sort((a, b) => a.faults.size - b.faults.size);
    for (const condition of entry.conditions) {
      const [word = "", n] = condition.split(" ");
      const some = here.slice(0, Number(entry.n ?? (onceUsed.has(word) && n !== undefined ? n : here.length)));
      for (const it of some) apply(world, it, word, entry);
    }
  }
}

function apply(world: World, it: Piece, condition: string, entry: Finding): void {
  if (condition === "serviceable") {
    if (entry.because !== undefined) it.past.clear();
    return;
  }
  if (condition === "missing") {
    it.gone = true;
    delete it.on;
    return;
  }
  if (condition === "loose") it.tight = false;
  if (condition === "unlocked") it.lock = "none";
  if (condition === "loose" || condition === "unlocked") {
    if (find(world.story, "fastener", it.name) !== undefined) return;
  }
  it.faults.add(condition);
  if (/cracked|broken|bent|sheared|stripped/.test(condition)) world.failed.add(at(it.name, it.on ?? it.home));
}

function ordered(world: World, entry: Extract<Entry, { is: "order" }>): void {
  const first = world.story.entries.find((it) => it.is === "order" && it.reference === entry.reference) as typeof entry;
  for (const work of first.works) {
    for (const it of world.pieces.filter((one) => one.name === work.name && one.home === (work.place ?? "") && one.on === undefined && !one.gone)) {
      if (entry.status === "received") {
        it.away = false;
        mend(world, it);
      } else if (entry.status === "sent") it.away = true;
    }
  }
}
