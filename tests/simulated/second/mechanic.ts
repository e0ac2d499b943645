// A careful mechanic: takes the machine apart, finds what is there, gets what is needed and puts all of it back as it belongs.
// Invariant: what this returns is a sound machine, its work safe and its record whole; whoever changes it says what that breaks.
import type { Chance } from "./chance.ts";
import { type Act, type Deed, type Found, isAct, manner, type Story } from "./deeds.ts";
import { goodRows, past, tidy, torqueInside } from "./figures.ts";
import { everywhere, type Fastener, fastenerOf, type Limit, type Part, type Plant, partOf, placesOf, usedOnce } from "./plant.ts";
import { shelfFor } from "./shelf.ts";

/** What is the matter with a piece, and becomes known when it is off. */
interface Fault {
  part: Part;
  at: string | undefined;
  is: string;
  cure: "renew" | "out" | "here";
}

export function carefulStory(plant: Plant, c: Chance): Story {
  const deeds: Deed[] = [];
  const faults = faultsOf(plant, c);
  const worn = plant.limits.filter((it) => it.of !== undefined && it.formula === undefined && past(plant, it) !== undefined && c.yes(0.15)).slice(0, 1);
  for (const limit of worn) {
    const part = partOf(plant, limit.of ?? "");
    if (part !== undefined && !faults.some((it) => it.part === part))
      faults.push({ part, at: limit.each && part.each ? c.one(everywhere(plant)) : undefined, is: `past ${limit.name}`, cure: "renew" });
  }
  const renewed = withFellows(plant, faults);
  open(plant, c, deeds);
  apart(plant, c, deeds);
  looked(plant, c, deeds, faults);
  const gotNight: Deed = { do: "night", days: c.whole(1, 12) };
  deeds.push(gotNight);
  together(plant, c, deeds, renewed, faults);
  settle(plant, c, deeds);
  close(plant, c, deeds);
  const story: Story = {
    plant,
    deeds,
    shelf: [],
    tin: c.yes(0.4),
    after: [],
    files: {},
    manner: manner(c),
    release: { tests: testsOf(plant, c), by: "R. Tamm", rechecks: plant.fasteners.filter((it) => it.recheck && c.yes(0.7)).map((it) => it.name) },
  };
  if (plant.parts.every((it) => it.each) && faults.every((it) => it.part.pairs !== true) && c.yes(0.35)) oneSide(story, faults, c);
  shelfFor(
    story,
    story.deeds.indexOf(gotNight) + 1,
    faults.filter((it) => it.cure === "out").map((it) => ({ part: it.part.name, at: it.at, what: "Build up and grind true" })),
    c,
  );
  return story;
}

/** Only one place is opened; what is critical at the others was looked at where it is. */
function oneSide(story: Story, faults: Fault[], c: Chance): void {
  const mine = faults[0]?.at ?? c.one(everywhere(story.plant));
  if (faults.some((it) => it.at !== mine)) return;
  const kept: Deed[] = [];
  for (const deed of story.deeds) {
    if (isAct(deed) && deed.at !== undefined) {
      if (!deed.at.includes(mine)) continue;
      deed.at = [mine];
    }
    if (deed.do === "measure") {
      deed.rows = deed.rows.filter(
        (it) =>
          it.at === undefined ||
          it.at === mine ||
          (deed.when === "found" && story.plant.limits.some((limit) => limit.name === deed.what && limit.set !== undefined)),
      );
      if (deed.rows.length === 0) continue;
    }
    if (deed.do === "seen" && deed.at !== undefined && deed.at !== mine) continue;
    // A fastener that was loose at a place that nobody opens is not found.
    if (deed.do === "found" && deed.at !== undefined && deed.at !== mine && partOf(story.plant, deed.what) === undefined) continue;
    kept.push(deed);
  }
  story.deeds = kept;
}

/** Which parts are fitted new, and where: undefined for one that is at no place. */
export type Renewed = Map<string, Set<string | undefined>>;

function faultsOf(plant: Plant, c: Chance): Fault[] {
  const chosen = c
    .some(
      plant.parts.filter((it) => it.renewWith === undefined && it.critical !== undefined),
      0.22,
    )
    .slice(0, 2);
  return chosen.map((part) => {
    const cure = part.matched !== undefined || part.pairs ? "renew" : c.one(["renew", "renew", "out", "here"] as const);
    const is = cure === "here" ? c.one(["scored", "corroded"]) : c.one(["cracked", "bent", "worn", "pitted", "scored", "broken", "damaged"]);
    return { part, at: part.each ? c.one(everywhere(plant)) : undefined, is, cure };
  });
}

function withFellows(plant: Plant, faults: Fault[]): Renewed {
  const renewed: Renewed = new Map();
  const add = (name: string, at: string | undefined): void => {
    renewed.set(name, (renewed.get(name) ?? new Set()).add(at));
  };
  for (const { part, at, cure } of faults) {
    if (cure !== "renew") continue;
    for (const place of part.pairs ? (placesOf(plant, part) ?? [undefined]) : [at]) {
      add(part.name, place);
      for (const other of plant.parts) if (other.name === part.matched || other.matched === part.name) add(other.name, other.each ? place : undefined);
    }
  }
  return renewed;
}

function open(plant: Plant, c: Chance, deeds: Deed[]): void {
  deeds.push({ do: "step", title: c.one(["Made safe", "Before anything is touched", "Up and safe"]) });
  if (plant.stance === "jack") {
    deeds.push(
      { do: "chock", text: "the wheels that stay down" },
      { do: "raise", text: "on jack" },
      { do: "support", text: c.one(['on 2 stands under "the frame"', 'on 2 stands under "the axle beam" rated 2000 kg each load 800 kg']) },
    );
  }
  if (plant.stance === "bench" && c.yes(0.5)) deeds.push({ do: "raise", text: "on bench" });
  for (const hazard of plant.hazards) deeds.push({ do: "safe", what: hazard.name, text: hazard.how });
  for (const limit of plant.limits) {
    if ((limit.set !== undefined || limit.spread !== undefined) && c.yes(0.6)) {
      deeds.push({ do: "measure", what: limit.name, when: "found", by: limit.gauge, rows: goodRows(plant, limit, placesOf(plant, limit), false, c) });
    }
  }
  for (const fastener of plant.fasteners) {
    if (!Array.isArray(fastener.torque) || !c.yes(0.12)) continue;
    const n = fastener.n > 1 ? c.whole(1, fastener.n - 1) : undefined;
    const is = fastener.locking !== undefined && usedOnce(fastener) ? c.one([["loose"], ["loose", 'unlocked "a bent nail"'], ["unlocked"]]) : ["loose"];
    deeds.push({
      do: "found",
      what: fastener.name,
      n,
      at: fastener.each ? c.one(everywhere(plant)) : undefined,
      is,
      because: "Thread and seat sound",
      decision: "reuse",
    });
  }
}

function apart(plant: Plant, c: Chance, deeds: Deed[]): void {
  deeds.push({ do: "step", title: c.one(["Apart", "Strip", "All of it off"]) });
  const undone = new Set<string>();
  const drained = new Set<string>();
  for (const part of plant.parts) {
    const at = placesOf(plant, part);
    for (const fluid of plant.fluids) {
      if (!fluid.in.includes(part.name) || drained.has(fluid.name) || fluid.name.includes("grease")) continue;
      drained.add(fluid.name);
      if (c.yes(0.8)) deeds.push({ do: "drain", what: fluid.name, at: placesOf(plant, fluid) });
    }
    if (part.keeps)
      deeds.push({ do: "mark", what: part.name, at, text: c.one(["dots, one for each", "paint line across the joint", "letters, towards the front"]) });
    if (part.mass !== undefined && part.mass >= 20)
      deeds.push({ do: "support", text: `${part.name} on crane under "two slings" rated 250 kg load ${part.mass} kg` });
    for (const name of part.held) {
      const fastener = fastenerOf(plant, name);
      if (fastener === undefined || undone.has(name)) continue;
      undone.add(name);
      deeds.push({ do: "undo", what: name, at: placesOf(plant, fastener) });
      for (const fluid of plant.fluids) if (fluid.name.includes("grease")) drained.add(fluid.name);
    }
    deeds.push({ do: "remove", what: part.name, at });
    if (part.mass !== undefined && part.mass >= 20) deeds.push({ do: "lower", text: `${part.name} on floor` });
  }
}

function looked(plant: Plant, c: Chance, deeds: Deed[], faults: Fault[]): void {
  for (const limit of plant.limits) {
    if (limit.set !== undefined || limit.spread !== undefined || limit.formula !== undefined) continue;
    const rows = goodRows(plant, limit, placesOf(plant, limit), false, c);
    const bad = faults.find((it) => it.is === `past ${limit.name}`);
    const figure = past(plant, limit);
    if (bad !== undefined && figure !== undefined) {
      const mine = rows.filter((it) => bad.at === undefined || it.at === bad.at);
      const shift = tidy(plant, figure - (mine[0]?.values[0] ?? 0));
      for (const row of mine) row.values = row.values.map((it) => tidy(plant, it + shift));
    }
    deeds.push({ do: "measure", what: limit.name, when: "found", by: limit.gauge, rows });
  }
  for (const fault of faults) {
    const is = fault.is.startsWith("past ") ? "worn" : fault.is;
    const decision = fault.cure === "renew" ? "renew" : fault.cure === "out" ? 'repair "Build up and grind true"' : `repair "${mendedHere(plant, fault.part)}"`;
    deeds.push({ do: "found", what: fault.part.name, at: fault.at, is: [is], decision });
  }
  for (const part of plant.parts) {
    if (part.critical === undefined) continue;
    const bad = faults.filter((it) => it.part === part);
    const good = (placesOf(plant, part) ?? [undefined]).filter((at) => !bad.some((it) => it.at === undefined || it.at === at));
    if (bad.length === 0) deeds.push(sound(part, undefined));
    else for (const at of good) deeds.push(sound(part, at));
  }
  for (const fault of faults)
    if (fault.cure === "here")
      deeds.push(
        { do: "repair", what: fault.part.name, at: fault.at === undefined ? undefined : [fault.at], text: mendedHere(plant, fault.part) },
        sound(fault.part, fault.at),
      );
}

/** What is measured anew may come out larger than it was: then metal was put on. A stone only takes it off. */
function mendedHere(plant: Plant, part: Part): string {
  return plant.limits.some((it) => it.of === part.name) ? "Built up and dressed true" : "Dressed with a fine stone";
}

const sound = (part: Part, at: string | undefined): Found => ({ do: "found", what: part.name, at, is: ["serviceable"] });

/** Fits all pieces of a part: the new ones new, the others as they were. */
function fitted(plant: Plant, part: Part, renewed: Renewed): Act[] {
  const all = placesOf(plant, part);
  const fresh = renewed.get(part.name);
  if (part.renewWith !== undefined) return [{ do: "fit", what: part.name, at: all, fresh: true }];
  if (fresh === undefined) return [{ do: "fit", what: part.name, at: all }];
  if (all === undefined) return [{ do: "fit", what: part.name, fresh: true }];
  const news = all.filter((it) => fresh.has(it) || fresh.has(undefined));
  const olds = all.filter((it) => !news.includes(it));
  return [...(olds.length > 0 ? [{ do: "fit" as const, what: part.name, at: olds }] : []), { do: "fit" as const, what: part.name, at: news, fresh: true }];
}

function together(plant: Plant, c: Chance, deeds: Deed[], renewed: Renewed, faults: Fault[]): void {
  deeds.push({ do: "step", title: c.one(["Together", "Back", "All of it back"]) });
  const back = [...plant.parts].reverse();
  for (const part of back) {
    const at = placesOf(plant, part);
    if (c.yes(0.15)) {
      const tend = c.one(["clean", "oil"] as const);
      deeds.push({ do: part.grips === true ? "clean" : tend, what: part.name, at });
      if (tend === "clean" && part.runs === true) deeds.push({ do: "oil", what: part.name, at });
    }
    if (part.mass !== undefined && part.mass >= 20)
      deeds.push({ do: "support", text: `${part.name} on crane under "two slings" rated 250 kg load ${part.mass} kg` });
    const first = part.n === 1 && c.yes(0.5);
    if (first) deeds.push(...sizesOf(plant, part, renewed, faults, c, false));
    if (part.wet === true) deeds.push({ do: "oil", what: part.name, at });
    deeds.push(...fitted(plant, part, renewed), ...sizesOf(plant, part, renewed, faults, c, first ? true : undefined));
    for (const name of part.held) {
      const fastener = fastenerOf(plant, name);
      const outermost = plant.parts.find((it) => it.held.includes(name));
      if (fastener !== undefined && outermost === part) deeds.push(...done(plant, fastener, c));
    }
  }
}

/** What is measured of a piece that is new, mended or back from work: each of its sizes once more. `together`: only what is there when it is in, or only what is not. */
function sizesOf(plant: Plant, part: Part, renewed: Renewed, faults: Fault[], c: Chance, together?: boolean): Deed[] {
  const fresh = renewed.get(part.name) ?? new Set();
  const mended = faults.filter((it) => it.part === part && it.cure !== "renew").map((it) => it.at);
  const deeds: Deed[] = [];
  for (const limit of plant.limits) {
    if (limit.of !== part.name || limit.set !== undefined || limit.spread !== undefined || limit.formula !== undefined) continue;
    if (together !== undefined && together !== (limit.together === true)) continue;
    const of = new Set([...fresh, ...mended]);
    if (of.size === 0) continue;
    const places = limit.each ? everywhere(plant).filter((it) => of.has(it) || of.has(undefined)) : undefined;
    deeds.push({ do: "measure", what: limit.name, when: "final", by: limit.gauge, rows: goodRows(plant, limit, places, true, c) });
  }
  return deeds;
}

/** Tightens a fastener as it is declared, lets it back, locks it. */
export function done(plant: Plant, fastener: Fastener, c: Chance): Deed[] {
  const at = placesOf(plant, fastener);
  const what = fastener.name;
  const deeds: Deed[] = [];
  if (fastener.renew) deeds.push({ do: "fit", what, at, fresh: true });
  else if (fastener.torque === "none" || c.yes(0.3)) deeds.push({ do: "fit", what, at });
  if (fastener.torque !== "none") {
    const to = torqueInside(fastener, c);
    deeds.push({ do: "tighten", what, at, to, angle: fastener.angle, by: to === undefined ? undefined : "wrench" });
    if (to === undefined && fastener.critical !== undefined && plant.limits.some((it) => it.by?.includes(what))) {
      const limit = plant.limits.find((it) => it.by?.includes(what)) as Limit;
      if (c.yes(0.5))
        deeds.push({ do: "measure", what: limit.name, when: "trial", by: limit.gauge, rows: goodRows(plant, limit, placesOf(plant, limit), false, c) });
      if (c.yes(0.4)) deeds.push({ do: "slacken", what, at }, { do: "tighten", what, at });
    }
    if (fastener.letBack !== undefined) deeds.push({ do: "let back", what, at, flats: fastener.letBack });
  }
  if (fastener.locking !== undefined && fastener.locking !== "nothing") deeds.push({ do: "lock", what, at, fresh: usedOnce(fastener) });
  return deeds;
}

/** Sets what is free to be set, reads every setting, fills, bleeds and looks. */
function settle(plant: Plant, c: Chance, deeds: Deed[]): void {
  for (const fastener of plant.fasteners) {
    if (plant.parts.some((it) => it.held.includes(fastener.name)) || !plant.limits.some((it) => it.by?.includes(fastener.name))) continue;
    deeds.push(
      { do: "slacken", what: fastener.name, at: placesOf(plant, fastener) },
      ...done(plant, fastener, c).filter((it) => it.do !== "fit" && it.do !== "slacken"),
    );
  }
  for (const fluid of plant.fluids) {
    deeds.push({ do: "fill", what: fluid.name, at: placesOf(plant, fluid), ml: fluid.ml });
    if (fluid.bleed) deeds.push({ do: "bleed", what: fluid.name, at: placesOf(plant, fluid) });
  }
  for (const limit of plant.limits) {
    if (limit.set === undefined && limit.spread === undefined) continue;
    deeds.push({ do: "measure", what: limit.name, when: "final", by: limit.gauge, rows: goodRows(plant, limit, placesOf(plant, limit), false, c) });
  }
  for (const check of plant.checks)
    for (const at of placesOf(plant, check) ?? [undefined]) deeds.push({ do: "seen", what: check.name, when: "final", good: true, at, text: check.good });
}

function close(plant: Plant, c: Chance, deeds: Deed[]): void {
  deeds.push({ do: "step", title: c.one(["Closed up", "Back on its own", "Last of all"]) });
  for (const hazard of plant.hazards) deeds.push({ do: "restore", what: hazard.name });
  if (plant.stance === "jack" || deeds.some((it) => it.do === "raise")) deeds.push({ do: "lower" });
}

function testsOf(plant: Plant, c: Chance): string[] {
  if (plant.rated !== undefined) return [`"Lifted, held ten minutes, lowered by hand: nothing moved" load ${plant.rated} kg`];
  return [c.one(['"Ran it ten minutes: no knock, cool to the hand"', '"Twice round the yard and stopped hard: straight and quiet"'])];
}
