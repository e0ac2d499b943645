// What is the matter with a simulated machine when its story is over. Empty: it may go back to work.
import { at, type Fault, matter, onAt, type Piece, run, type World } from "./machine.ts";
import { find, placesOf, type Story } from "./things.ts";
import { plain } from "./units.ts";

export function judge(story: Story): Fault[] {
  const world = run(story);
  for (const thing of story.things) {
    for (const place of placesOf(story, thing.name)) {
      if (thing.is === "part" || thing.is === "fastener") {
        const on = onAt(world, thing.name, place);
        if (on.length < thing.per) matter(world, "off", thing.name, place);
        if (on.length > thing.per) matter(world, "too-many", thing.name, place);
        for (const it of on) piece(world, it, place);
      } else if (thing.is === "fluid") fluid(world, thing.name, place, thing.bleed === true);
      else if (thing.is === "limit" || thing.is === "check") setting(world, thing.name, place);
      if (thing.is === "check" && thing.critical !== undefined && thing.of.length === 0 && world.settings.get(at(thing.name, place)) === undefined)
        matter(world, "never-seen", thing.name, place);
    }
    if (thing.is === "fastener" && thing.critical !== undefined && thing.lock === undefined) matter(world, "untold", thing.name, "");
    if (thing.is === "part") sets(world, thing.name);
    if (thing.is === "limit" && thing.less !== undefined) workedOut(world, thing.name);
  }
  for (const failed of world.failed) fellow(world, failed);
  if (world.bears !== "ground" && world.bears !== "cradle") matter(world, "raised", "", "");
  if (!world.chocked && story.entries.some((it) => it.is === "step" && it.acts.some((act) => act.verb === "raise" && act.on === "jack")))
    matter(world, "not-chocked", "", "");
  if (story.tests.length === 0 && story.things.some((it) => /brake|steer|wheel|load/.test(it.critical ?? ""))) matter(world, "untested", "", "");
  return world.faults;
}

function piece(world: World, it: Piece, place: string): void {
  for (const fault of it.faults) matter(world, fault, it.name, place);
  for (const limit of it.past) if (!world.pardoned.has(limit)) matter(world, "past", it.name, place);
  for (const limit of it.unread) matter(world, "unread", limit, place);
  if (it.used) matter(world, "used-again", it.name, place);
  if (it.forNow) matter(world, "for-now", it.name, place);
  if (it.mended) matter(world, "mended-unseen", it.name, place);
  if (it.away) matter(world, "away", it.name, place);
  const part = find(world.story, "part", it.name);
  if (part?.keepsPlace && it.home.endsWith("!")) matter(world, "other-place", it.name, place);
  const nut = find(world.story, "fastener", it.name);
  if (nut === undefined) return;
  const thread = nut.threadAt?.[place] ?? nut.thread;
  if (it.thread !== thread) matter(world, "thread", it.name, place);
  if (!it.tight && nut.torque !== "none") matter(world, "slack", it.name, place);
  if (it.letBack) matter(world, "let-back", it.name, place);
  if (typeof nut.torque === "object" && it.torque !== undefined) {
    if (it.torque < plain(nut.torque.lo, nut.torque.unit) * 0.995 || it.torque > plain(nut.torque.hi, nut.torque.unit) * 1.005)
      matter(world, "torque", it.name, place);
  }
  if (typeof nut.torque === "object" && nut.torque.turn !== undefined && it.turned !== nut.torque.turn && it.torque !== undefined)
    matter(world, "torque", it.name, place);
  if (nut.lock === undefined || nut.lock.use === "nothing") return;
  if (nut.lock.use === "nut") return;
  if (it.lock !== "ok") matter(world, `locking-${it.lock}`, it.name, place);
}

function fluid(world: World, name: string, place: string, bleeds: boolean): void {
  const it = world.fluids.get(at(name, place));
  if (it === undefined) return;
  if (it.level < it.full * 0.9) matter(world, "short", name, place);
  if (it.level > it.full * 1.1) matter(world, "overfull", name, place);
  if (bleeds && it.opened) matter(world, "not-bled", name, place);
  for (const fault of it.faults) matter(world, fault, name, place);
}

function setting(world: World, name: string, place: string): void {
  const state = world.settings.get(at(name, place));
  if (state === "stale" || state === "out" || state === "doubt") matter(world, state, name, place);
}

function sets(world: World, name: string): void {
  const part = find(world.story, "part", name);
  const on = world.pieces.filter((it) => it.name === name && it.on !== undefined);
  const isNew = (it: Piece) => it.made === "new";
  if (part?.inPairs && on.some(isNew) && !on.every(isNew)) matter(world, "split", name, "");
  if (part?.matched === undefined) return;
  const others = world.pieces.filter((it) => it.name === part.matched && it.on !== undefined);
  for (const it of on) if (others.some((other) => other.on === it.on && isNew(other) !== isNew(it))) matter(world, "split", name, it.on ?? "");
}

function workedOut(world: World, name: string): void {
  const limit = find(world.story, "limit", name);
  for (const place of placesOf(world.story, name)) {
    const [a, b] = (limit?.less ?? ["", ""]).map((it) => world.readings.get(at(it, place)));
    if (a === undefined || b === undefined) continue;
    const least = Math.min(...a) - Math.max(...b);
    const most = Math.max(...a) - Math.min(...b);
    if (least < 0) matter(world, "below-zero", name, place);
    else if (limit?.worn?.max !== undefined && most > plain(limit.worn.max, limit.unit) + 1e-9) matter(world, "past", name, place);
  }
}

function fellow(world: World, failed: string): void {
  const [name = "", where = ""] = failed.split("@");
  if (find(world.story, "part", name)?.critical === undefined) return;
  const home = where.replace(/!$/, "");
  for (const place of placesOf(world.story, name)) {
    if (place === home || world.looked.has(at(name, place))) continue;
    if (onAt(world, name, place).some((it) => it.made === "old")) matter(world, "fellow", name, place);
  }
}

/** Kinds of faults, for a person to read. */
export const told = (faults: readonly Fault[]): string => faults.map((it) => [it.code, it.name, it.place].filter((word) => word !== "").join(" ")).join("; ");
