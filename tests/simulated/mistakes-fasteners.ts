// Mistakes with what is done up: nuts, their tightness, their lockings.
import { finding } from "./build.ts";
import { act, type Act, find, refit, fitNew, fresh, lock, q, tighten, undo } from "./things.ts";
import {
  after,
  atFirst,
  before,
  bystander,
  drop,
  everywhere,
  extra,
  type Kind,
  lastOne,
  middle,
  one,
  putAfter,
  type Site,
  sites,
  some,
  Unfit,
} from "./kind.ts";
import type { Random } from "./random.ts";
import type { Story } from "./things.ts";

/** Where a critical nut is locked with something new. */
function newLocking(story: Story, r: Random, on: string): Site {
  return r.pick(
    orUnfit(sites(story, (it) => it.verb === "lock" && it.isNew === true && find(story, "fastener", it.names[0]?.name ?? "")?.critical !== undefined, on)),
  );
}

/** Where a critical nut is tightened to a figure. */
function figured(story: Story, r: Random, on: string): Site {
  return r.pick(
    orUnfit(sites(story, (it) => it.verb === "tighten" && it.to !== undefined && find(story, "fastener", it.names[0]?.name ?? "")?.critical !== undefined, on)),
  );
}

export function orUnfit<T>(list: T[]): T[] {
  some(list[0]);
  return list;
}

const nameOf = (site: Site): string => some(site.act.names[0]).name;
const made = (site: Site, ...about: string[]) => ({ at: [site.act.id, site.step.id], about: [nameOf(site), ...about] });
const locked = everywhere.filter((it) => it !== "spring");

/** Undone and done up again, in a step of its own at the end of the assembly's work. */
export function again(story: Story, on: string, name: string, ...acts: Act[]) {
  const last = some(story.entries.filter((it) => it.of === on).at(-1));
  const step = extra(`Once more: ${name}`, ...acts);
  putAfter(story, last, step);
  return some(story.entries[story.entries.indexOf(last) + 1]);
}

export const mistakesWithFasteners: Kind[] = [
  {
    name: "old-locking-again",
    does: "the old split pin, tab or wire goes back",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const site = newLocking(story, r, on);
      delete site.act.isNew;
      return made(site);
    },
  },
  {
    name: "locking-forgotten",
    does: "a critical nut is tight and nobody locks it",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const site = newLocking(story, r, on);
      drop(site);
      return { at: [one(story, "tighten", nameOf(site)).act.id], about: [nameOf(site)] };
    },
  },
  {
    name: "locking-of-another-kind",
    does: "a spring washer where a pin, tab or wire belongs",
    gate: "held",
    on: locked,
    make: (story, r, on) => {
      const site = newLocking(story, r, on);
      site.act.with = "spring washer";
      return made(site);
    },
  },
  {
    name: "locked-before-it-is-tight",
    does: "the pin goes in, then the nut is tightened",
    gate: "held",
    on: ["linkage", "pinion", "headstock", "winch-brake"],
    make: (story, r, on) => {
      const tight = r.pick(
        orUnfit(
          sites(
            story,
            (it, step) =>
              it.verb === "tighten" &&
              it.to !== undefined &&
              step.acts.some((other) => other.verb === "lock" && other.isNew && other.names[0]?.name === it.names[0]?.name),
            on,
          ),
        ),
      );
      const locking = one(story, "lock", nameOf(tight));
      drop(locking);
      before(tight, refit(nameOf(tight)), locking.act);
      return { at: [locking.act.id, tight.act.id, tight.step.id], about: [nameOf(tight)] };
    },
  },
  {
    name: "one-new-nut-of-four",
    does: "three used self-locking nuts and a new one",
    gate: "held",
    on: ["spring"],
    make: (story) => {
      const site = one(story, "fit", "u-nut");
      const old = refit("u-nut 3");
      before(site, old);
      site.act.names = [{ name: "u-nut", n: 1 }];
      return { at: [old.id, site.act.id, one(story, "tighten", "u-nut").act.id, one(story, "lock", "u-nut").act.id], about: ["u-nut"] };
    },
  },
  {
    name: "old-self-locking-nuts",
    does: "all the old self-locking nuts go back",
    gate: "held",
    on: ["spring", "big-ends"],
    make: (story, _r, on) => {
      const name = on === "spring" ? "u-nut" : "cap-nut";
      const site = one(story, "fit", name);
      delete site.act.isNew;
      return { at: [site.act.id, one(story, "tighten", name).act.id, one(story, "lock", name).act.id], about: [name] };
    },
  },
  {
    name: "lock-plates-bent-again",
    does: "the old lock plates are bent up again",
    gate: "held",
    on: ["linkage", "pinion"],
    make: (story, _r, on) => {
      const [plate, bolt] = on === "linkage" ? ["box-plate", "box-bolt"] : ["crown-plate", "crown-bolt"];
      const site = one(story, "fit", plate as string);
      delete site.act.isNew;
      return { at: [site.act.id, one(story, "lock", bolt as string).act.id], about: [plate as string, bolt as string] };
    },
  },
  {
    name: "one-new-lock-plate-of-several",
    does: "one new lock plate, the others old",
    gate: "held",
    on: ["linkage", "pinion"],
    make: (story, _r, on) => {
      const [plate, bolt] = on === "linkage" ? ["box-plate", "box-bolt"] : ["crown-plate", "crown-bolt"];
      const site = one(story, "fit", plate as string);
      const n = some(some(site.act.names[0]).n);
      site.act.names = [{ name: plate as string, n: 1 }];
      const old = refit(`${plate} ${n - 1}`);
      after(site, old);
      return { at: [old.id, site.act.id, one(story, "lock", bolt as string).act.id], about: [plate as string, bolt as string] };
    },
  },
  {
    name: "torque-too-low",
    does: "a critical nut is left well below its torque",
    gate: "held",
    on: everywhere.filter((it) => it !== "hub"),
    make: (story, r, on) => {
      const site = figured(story, r, on);
      some(site.act.to).n = Math.round(some(site.act.to).n * r.pick([0.55, 0.7, 0.8]));
      return made(site);
    },
  },
  {
    name: "torque-too-high",
    does: "a critical bolt is stretched past its torque",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const site = figured(story, r, on);
      some(site.act.to).n = Math.round(some(site.act.to).n * r.pick([1.3, 1.5]));
      return made(site);
    },
  },
  {
    name: "torque-in-the-other-unit",
    does: "the figure of lbf.ft is set on a wrench in N.m, or the other way",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const site = figured(story, r, on);
      const to = some(site.act.to);
      to.unit = to.unit === "N.m" ? "lbf.ft" : "N.m";
      return made(site);
    },
  },
  {
    name: "let-back-to-the-slot",
    does: "a clamping nut is let back to its slot and locked there",
    gate: "held",
    on: ["linkage", "pinion", "headstock", "winch-brake"],
    make: (story, r, on) => {
      const site = figured(story, r, on);
      const nut = some(find(story, "fastener", nameOf(site)));
      if (nut.lock?.use !== "once" || typeof nut.torque !== "object") throw new Unfit();
      some(site.act.to).n = nut.torque.hi;
      const back: Act = { ...tighten(nameOf(site), q(nut.torque.lo, nut.torque.unit)) };
      after(site, back);
      return { at: [back.id, site.act.id, one(story, "lock", nameOf(site)).act.id], about: [nameOf(site)] };
    },
  },
  {
    name: "left-finger-tight",
    does: "the nuts are run on by hand and nobody tightens them",
    gate: "held",
    on: locked,
    make: (story, r, on) => {
      const site = figured(story, r, on);
      const name = nameOf(site);
      drop(site);
      for (const it of sites(story, (one) => one.verb === "lock" && one.names[0]?.name === name)) drop(it);
      if (!sites(story, (one) => one.verb === "fit" && one.names[0]?.name === name)[0]) site.step.acts.push(refit(name));
      const where = sites(story, (one) => one.verb === "fit" && one.names[0]?.name === name).map((it) => it.act.id);
      return { at: where, about: [name] };
    },
  },
  {
    name: "one-nut-left-off",
    does: "of several nuts one is left on the bench",
    gate: "held",
    on: ["hub", "linkage", "pinion", "winch-brake", "gearbox"],
    make: (story, r, on) => {
      const list = {
        hub: ["wheel-nut", "cylinder-bolt"],
        linkage: ["box-bolt"],
        pinion: ["nose-bolt", "crown-bolt"],
        "winch-brake": ["anchor-nut"],
        gearbox: ["fork-screw"],
      }[on] as string[];
      const name = r.pick(list);
      const site = one(story, "tighten", name);
      const few = refit(`${name} ${some(find(story, "fastener", name)).per - 1}`);
      before(site, few);
      return { at: [few.id, site.act.id], about: [name] };
    },
  },
  {
    name: "one-nut-too-many",
    does: "more nuts go on than there are studs",
    gate: "held",
    on: ["hub", "linkage", "pinion"],
    make: (story, _r, on) => {
      const name = { hub: "wheel-nut", linkage: "box-bolt", pinion: "nose-bolt" }[on] as string;
      const site = one(story, "tighten", name);
      const per = some(find(story, "fastener", name)).per;
      const old = refit(`${name} ${per}`);
      const more = fitNew(`${name} 1`);
      before(site, old, more);
      return { at: [old.id, more.id, site.act.id], about: [name] };
    },
  },
  {
    name: "wrong-hand-thread",
    does: "the nuts of left and right hand are changed over",
    gate: "held",
    on: ["hub"],
    make: (story) => {
      const site = one(story, "tighten", "hub-nut");
      const a = { ...refit("hub-nut @left"), from: "right" };
      const b = { ...refit("hub-nut @right"), from: "left" };
      before(site, a, b);
      return { at: [a.id, b.id], about: ["hub-nut"] };
    },
  },
  {
    name: "found-loose-and-left",
    does: "found loose, and nobody tightens it",
    gate: "held",
    on: everywhere,
    make: (story, _r, on) => {
      const nut = bystander(story, on);
      const it = atFirst(story, on, nut.name, ["loose"], { n: 1, decision: "reuse", ...(nut.each !== undefined && { place: "left" }) });
      return { at: [it.id], about: [nut.name] };
    },
  },
  {
    name: "found-unlocked-and-left",
    does: "found without its locking, and left so",
    gate: "held",
    on: everywhere,
    make: (story, _r, on) => {
      const nut = bystander(story, on);
      const it = atFirst(story, on, nut.name, ["unlocked"], { decision: "reuse", ...(nut.each !== undefined && { place: "right" }) });
      return { at: [it.id], about: [nut.name] };
    },
  },
  {
    name: "found-loose-tightened-not-locked",
    does: "a nut found loose is tightened and gets no new locking",
    gate: "held",
    on: everywhere,
    make: (story, _r, on) => {
      const nut = bystander(story, on);
      const it = atFirst(story, on, nut.name, ["loose", "unlocked"], { decision: "reuse", ...(nut.each !== undefined && { place: "left" }) });
      const put = tighten(nut.each === undefined ? nut.name : `${nut.name} @left`, middle(nut));
      const later = again(story, on, nut.name, put);
      return { at: [it.id, put.id, later.id], about: [nut.name] };
    },
  },
  {
    name: "stripped-bolts-back",
    does: "bolts with stripped threads are condemned, and go back",
    gate: "held",
    on: ["linkage", "pinion", "hub", "big-ends", "gearbox"],
    make: (story, _r, on) => {
      const name = { linkage: "box-bolt", pinion: "nose-bolt", hub: "cylinder-bolt", "big-ends": "pump-bolt", gearbox: "fork-screw" }[on] as string;
      const off = one(story, "undo", name);
      putAfter(story, off.step, finding(name, 3, ["stripped"], { n: 1, decision: "renew", ...(on === "hub" && { place: "left" }) }));
      const it = some(story.entries[story.entries.indexOf(off.step) + 1]);
      return { at: [it.id, one(story, "tighten", name).act.id], about: [name] };
    },
  },
  {
    name: "two-found-one-new",
    does: "two are condemned on two days, one new one is bought and fitted",
    gate: "held",
    on: ["pinion", "linkage"],
    make: (story, _r, on) => {
      const name = on === "pinion" ? "nose-bolt" : "box-bolt";
      const off = one(story, "undo", name);
      putAfter(story, off.step, finding(name, 3, ["stripped"], { n: 1, decision: "renew" }), finding(name, 3, ["bent"], { n: 1, decision: "renew" }));
      const i = story.entries.indexOf(off.step);
      const site = one(story, "tighten", name);
      const old = refit(`${name} ${some(find(story, "fastener", name)).per - 1}`);
      const new1 = fitNew(`${name} 1`);
      before(site, old, new1);
      return { at: [some(story.entries[i + 1]).id, some(story.entries[i + 2]).id, old.id, new1.id, site.act.id], about: [name] };
    },
  },
  {
    name: "slackened-and-forgotten",
    does: "a bolt is slackened to make room, and forgotten",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const nut = bystander(story, on);
      const strip = r.pick(orUnfit(sites(story, (it) => it.verb === "undo", on)));
      const it = act("slacken", nut.each === undefined ? nut.name : `${nut.name} @right`);
      after(strip, it);
      return { at: [it.id], about: [nut.name] };
    },
  },
  {
    name: "opened-again-locked-with-the-old",
    does: "opened once more at the end; the pin of yesterday goes back",
    gate: "held",
    on: ["linkage", "pinion", "winch-brake"],
    make: (story, _r, on) => {
      const name = { linkage: "arm-nut", pinion: "nose-bolt", "winch-brake": "anchor-nut" }[on] as string;
      const to = middle(some(find(story, "fastener", name)));
      const locking = lock(name);
      const site = lastOne(story, "lock", name);
      after(site, undo(name), tighten(name, to), locking);
      return { at: [locking.id], about: [name] };
    },
  },
  {
    name: "slackened-after-it-was-locked",
    does: "a locked nut is slackened again and left",
    gate: "held",
    on: ["linkage", "pinion", "hub", "winch-brake"],
    make: (story, r, on) => {
      const site = newLocking(story, r, on);
      if (find(story, "fastener", nameOf(site))?.torque === "none") throw new Unfit();
      const it = { ...act("slacken", nameOf(site)), ...(site.act.places && { places: site.act.places }) };
      after(site, it);
      return { at: [it.id], about: [nameOf(site)] };
    },
  },
  {
    name: "wrench-out-of-its-range",
    does: "a nut is tightened by a wrench that does not reach so far",
    gate: "spoken",
    on: ["hub", "linkage", "spring", "pinion", "headstock", "winch-brake"],
    make: (story, r, on) => {
      const site = r.pick(orUnfit(sites(story, (it) => it.verb === "tighten" && it.gauge !== undefined, on)));
      const wrench = some(find(story, "gauge", some(site.act.gauge)));
      const to = some(site.act.to);
      wrench.range = { lo: 5, hi: Math.round(to.n * 0.7), unit: to.unit };
      const all = sites(story, (it) => it.gauge === wrench.name, on).map((it) => it.act.id);
      return { at: all, about: [wrench.name, nameOf(site)] };
    },
  },
  {
    name: "tight-for-now",
    does: "tightened for now, and never finished",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const site = figured(story, r, on);
      site.act.forNow = "until the pin comes";
      for (const it of sites(story, (one) => one.verb === "lock" && one.names[0]?.name === nameOf(site))) drop(it);
      return made(site);
    },
  },
  {
    name: "tightened-on-one-side",
    does: "one side's nut is tightened and locked, the other's only run on",
    gate: "held",
    on: ["linkage", "spring", "hub"],
    make: (story, _r, on) => {
      const name = { linkage: "ball-nut", spring: "shackle-nut", hub: "cylinder-bolt" }[on] as string;
      const at = [one(story, "tighten", name), one(story, "lock", name)];
      for (const it of at) it.act.places = ["left"];
      before(some(at[0]), refit(name));
      return { at: at.map((it) => it.act.id), about: [name] };
    },
  },
  {
    name: "a-sheared-bolt-not-made-good",
    does: "one is sheared; those that are left go back",
    gate: "held",
    on: ["pinion", "linkage", "big-ends"],
    make: (story, _r, on) => {
      const name = { pinion: "crown-bolt", linkage: "box-bolt", "big-ends": "pump-bolt" }[on] as string;
      const off = one(story, "undo", name);
      putAfter(story, off.step, finding(name, 3, ["sheared"], { n: 1, decision: "renew" }));
      const site = one(story, "tighten", name);
      const few = refit(`${name} ${some(find(story, "fastener", name)).per - 1}`);
      before(site, few);
      return { at: [some(story.entries[story.entries.indexOf(off.step) + 1]).id, few.id, site.act.id], about: [name] };
    },
  },
  {
    name: "bolt-missing-and-left-so",
    does: "one is found missing, and never made good",
    gate: "held",
    on: everywhere,
    make: (story, _r, on) => {
      const nut = bystander(story, on);
      if (nut.per < 2) throw new Unfit();
      const it = atFirst(story, on, nut.name, ["missing"], { n: 1, ...(nut.each !== undefined && { place: "left" }) });
      return { at: [it.id], about: [nut.name] };
    },
  },
  {
    name: "undone-while-the-step-was-for-one-side",
    does: "undone at both sides, put back at one",
    gate: "held",
    on: ["linkage", "hub"],
    make: (story, _r, on) => {
      const name = on === "linkage" ? "clamp-bolt" : "drum-screw";
      const sites_ = sites(story, (it) => (it.verb === "tighten" || it.verb === "lock") && it.names[0]?.name === name);
      for (const it of sites_) it.act.places = ["right"];
      return { at: sites_.map((it) => it.act.id), about: [name] };
    },
  },
  {
    name: "adjusting-nut-not-locked-after-setting",
    does: "the float is set, and the nut's tab is never bent",
    gate: "held",
    on: ["hub", "headstock", "steering-box"],
    make: (story, _r, on) => {
      const name = { hub: "hub-nut", headstock: "spindle-nut", "steering-box": "adjuster-nut" }[on] as string;
      drop(one(story, "lock", name));
      return { at: [one(story, "tighten", name).act.id], about: [name] };
    },
  },
  {
    name: "lock-wire-at-one-place-only",
    does: "one side gets its new pin, the other the old one",
    gate: "held",
    on: ["hub", "linkage", "spring"],
    make: (story, _r, on) => {
      const name = { hub: "hub-nut", linkage: "ball-nut", spring: "shackle-nut" }[on] as string;
      const site = one(story, "lock", name);
      site.act.places = ["right"];
      const old: Act = { ...lock(name), id: fresh(), places: ["left"] };
      after(site, old);
      return { at: [old.id], about: [name] };
    },
  },
  {
    name: "angle-not-turned",
    does: "torque plus an angle is asked for, and only the torque is given",
    gate: "held",
    on: ["pinion"],
    needs: "torque-angle",
    make: (story) => {
      const bolt = some(find(story, "fastener", "crown-bolt"));
      bolt.torque = { lo: 20, hi: 20, unit: "lbf.ft", turn: 90 };
      const site = one(story, "tighten", "crown-bolt");
      site.act.to = q(20, "lbf.ft");
      return made(site);
    },
  },
];
