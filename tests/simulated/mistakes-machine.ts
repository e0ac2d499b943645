// Mistakes with the machine as a whole: weight, hazards, fluids, steps, pardons, the release.
import { concession, find, fluid, q, type Step } from "./things.ts";
import { after, atFirst, before, bystander, drop, everywhere, foundBy, type Kind, lastOne, one, putAfter, sites, some, stepNamed, take } from "./kind.ts";
import { untouched } from "./mistakes-parts.ts";
import { past, withPast } from "./mistakes-readings.ts";
import type { Story } from "./things.ts";

const road = ["hub", "linkage", "spring", "pinion", "steering-box"];
export const hazards: Record<string, [string, string]> = {
  spring: ["spring-load", "u-nut"],
  headstock: ["mains", "guard-screw"],
  "winch-brake": ["rope-load", "lever-pin"],
};
export const withHazard = Object.keys(hazards);
const fluids: Record<string, string> = {
  hub: "brake-fluid",
  pinion: "axle-oil",
  "steering-box": "box-oil",
  gearbox: "gear-oil",
  "big-ends": "engine-oil",
  headstock: "head-oil",
};
const withFluid = Object.keys(fluids);

export const whole = (story: Story, verb: "chock" | "raise" | "support" | "under" | "lower" | "clear") =>
  some(sites(story, (it) => it.verb === verb && it.names.length === 0)[0]);

export const mistakesWithTheMachine: Kind[] = [
  {
    name: "hazard-live",
    does: "opened while it is live",
    gate: "held",
    on: withHazard,
    make: (story, _r, on) => {
      const [name, nut] = some(hazards[on]);
      drop(one(story, "safe", name));
      return { at: [one(story, "undo", nut).act.id, one(story, "restore", name).act.id], about: [name] };
    },
  },
  {
    name: "made-safe-too-late",
    does: "made safe after it was opened",
    gate: "held",
    on: withHazard,
    make: (story, _r, on) => {
      const [name, nut] = some(hazards[on]);
      const site = one(story, "safe", name);
      const open = one(story, "undo", nut);
      drop(site);
      after(open, site.act);
      return { at: [open.act.id, site.act.id], about: [name] };
    },
  },
  {
    name: "live-again-too-early",
    does: "live again while what guards it is off",
    gate: "held",
    on: withHazard,
    make: (story, _r, on) => {
      const [name] = some(hazards[on]);
      const site = one(story, "restore", name);
      drop(site);
      const first = some({ spring: "leaf-spring", headstock: "motor", "winch-brake": "band" }[on]);
      before(one(story, "fit", first), site.act);
      return { at: [site.act.id], about: [name] };
    },
  },
  {
    name: "under-a-jack",
    does: "somebody is under it with only a jack",
    gate: "held",
    on: road,
    make: (story) => {
      drop(whole(story, "support"));
      return { at: [whole(story, "raise").act.id, whole(story, "under").act.id, whole(story, "under").step.id], about: [] };
    },
  },
  {
    name: "stands-after-the-man",
    does: "the stands are set when he is already underneath",
    gate: "held",
    on: road,
    make: (story) => {
      const stands = whole(story, "support");
      drop(stands);
      after(whole(story, "under"), stands.act);
      return { at: [whole(story, "under").act.id, stands.act.id], about: [] };
    },
  },
  {
    name: "never-chocked",
    does: "raised on a jack, somebody under it, and never chocked",
    gate: "held",
    on: road,
    make: (story) => {
      drop(whole(story, "chock"));
      return { at: [whole(story, "raise").act.id, whole(story, "under").act.id, whole(story, "support").act.id], about: [] };
    },
  },
  {
    name: "chocked-after-the-jack",
    does: "the chocks go in when it is already up",
    gate: "spoken",
    on: road,
    make: (story) => {
      const chocks = whole(story, "chock");
      drop(chocks);
      after(whole(story, "support"), chocks.act);
      return { at: [chocks.act.id, whole(story, "raise").act.id, chocks.step.id], about: [] };
    },
  },
  {
    name: "still-on-its-stands",
    does: "signed while it stands on stands",
    gate: "held",
    on: road,
    make: (story) => {
      const it = stepNamed(story, "get-down");
      drop(some(sites(story, (one_) => one_.verb === "lower" && one_.names.length === 0)[0]));
      return { at: [it.id, whole(story, "raise").act.id, whole(story, "support").act.id, whole(story, "raise").step.id], about: [] };
    },
  },
  {
    name: "stands-overloaded",
    does: "more weight than the stands may bear",
    gate: "held",
    on: road,
    make: (story) => {
      const site = whole(story, "support");
      site.act.rated = 300;
      return { at: [site.act.id], about: [] };
    },
  },
  {
    name: "stands-under-what-comes-off",
    does: "the stands bear on what is taken off",
    gate: "held",
    on: ["linkage", "pinion"],
    make: (story, _r, on) => {
      const name = on === "linkage" ? "track-rod" : "nose";
      const site = whole(story, "support");
      site.act.text = name;
      return { at: [site.act.id, one(story, "remove", name).act.id, ...sites(story, (it) => it.verb === "undo", on).map((it) => it.act.id)], about: [name] };
    },
  },
  {
    name: "let-down-open",
    does: "let down with a wheel off or a steering nut undone",
    gate: "held",
    on: ["hub", "linkage"],
    make: (story, _r, on) => {
      const down = stepNamed(story, "get-down");
      take(story, down);
      const last = on === "hub" ? stepNamed(story, "wheel-on") : stepNamed(story, "rod-on");
      story.entries.splice(story.entries.indexOf(last), 0, { ...down, day: last.day });
      return { at: down.acts.map((it) => it.id), about: [] };
    },
  },
  {
    name: "left-on-the-jack-overnight",
    does: "the day ends with only the jack under it",
    gate: "held",
    on: road,
    make: (story) => {
      const up = stepNamed(story, "get-under");
      const support = whole(story, "support");
      const under = whole(story, "under");
      drop(support);
      drop(under);
      const later: Step = { ...structuredClone(up), id: up.id + 0.5, name: "get-under-now", title: "Stands", acts: [support.act, under.act], day: 1 };
      const next = some(story.entries.find((it) => it.day >= 1));
      story.entries.splice(story.entries.indexOf(next), 0, later);
      return { at: [whole(story, "raise").act.id, up.id, later.id, ...story.entries.filter((it) => it.day <= 1).map((it) => it.id)], about: [] };
    },
  },
  {
    name: "heavy-and-nothing-holds-it",
    does: "a heavy part loses its last bolt, somebody is under it, and nothing holds it",
    gate: "held",
    on: ["pinion"],
    make: (story) => {
      some(find(story, "part", "nose")).mass = 64;
      return { at: [one(story, "undo", "nose-bolt").act.id, one(story, "remove", "nose").act.id], about: ["nose"] };
    },
  },
  {
    name: "heavy-without-a-fastener",
    does: "a heavy part that nothing holds comes off by hand",
    gate: "spoken",
    on: ["gearbox", "chain-block"],
    make: (story, _r, on) => {
      const name = on === "gearbox" ? "ring" : "load-chain";
      const it = some(find(story, "part", name));
      it.mass = 90;
      return { at: [one(story, "remove", name).act.id, one(story, "undo", on === "gearbox" ? "fork-screw" : "hook-nut").act.id], about: [name] };
    },
  },
  {
    name: "drained-and-not-filled",
    does: "the oil is out, and none goes in",
    gate: "held",
    on: withFluid,
    make: (story, _r, on) => {
      const name = some(fluids[on]);
      const site = lastOne(story, "fill", name);
      drop(site);
      for (const it of sites(story, (one_) => one_.verb === "bleed" && one_.names[0]?.name === name)) drop(it);
      const off = find(story, "fluid", name)?.in ?? [];
      return {
        at: sites(story, (one_) => (one_.verb === "drain" || one_.verb === "remove") && one_.names.some((n) => n.name === name || off.includes(n.name)))
          .map((it) => it.act.id)
          .concat(site.step.id),
        about: [name],
      };
    },
  },
  {
    name: "filled-short",
    does: "filled with half of what it takes",
    gate: "held",
    on: withFluid,
    make: (story, r, on) => {
      const site = lastOne(story, "fill", some(fluids[on]));
      const amount = some(site.act.amount);
      amount.n *= r.pick([0.5, 0.7]);
      amount.dec += 1;
      return { at: [site.act.id], about: [some(fluids[on])] };
    },
  },
  {
    name: "found-low-and-left",
    does: "found low, and never topped up",
    gate: "held",
    on: everywhere,
    make: (story, _r, on) => {
      const it = untouched(story, on, { critical: "brakes" });
      const oil = fluid(`${on}-top-oil`, "Reservoir fluid", [it.name], q(500, "ml"));
      story.things.push(oil);
      const made = atFirst(story, on, oil.name, ["low 200 ml"], { amount: q(200, "ml") });
      return { at: [made.id], about: [oil.name] };
    },
  },
  {
    name: "milky-and-left",
    does: "water in the oil, and nothing is done",
    gate: "spoken",
    on: everywhere,
    make: (story, _r, on) => {
      const it = untouched(story, on, { critical: "brakes" });
      const oil = fluid(`${on}-top-oil`, "Reservoir fluid", [it.name], q(500, "ml"));
      story.things.push(oil);
      const made = atFirst(story, on, oil.name, ["milky"]);
      return { at: [made.id], about: [oil.name] };
    },
  },
  {
    name: "not-bled",
    does: "opened, filled, and not bled",
    gate: "held",
    on: ["hub"],
    make: (story) => {
      const site = one(story, "bleed", "brake-fluid");
      drop(site);
      return { at: [one(story, "fill", "brake-fluid").act.id, one(story, "remove", "cylinder").act.id], about: ["brake-fluid"] };
    },
  },
  {
    name: "a-step-only-planned",
    does: "a step of the way back was written and never done",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const it = r.pick(story.entries.filter((e): e is Step => e.is === "step" && e.of === on && e.phase >= 6));
      it.done = false;
      return { at: [it.id, ...it.acts.map((a) => a.id)], about: it.acts.flatMap((a) => a.names.map((n) => n.name)) };
    },
  },
  {
    name: "a-step-done-at-one-side",
    does: "a step is done at the left only",
    gate: "held",
    on: ["spring"],
    make: (story, r) => {
      const it = stepNamed(story, "spring-on");
      it.doneAt = [r.pick(["left", "right"])];
      return { at: [it.id, ...it.acts.map((a) => a.id)], about: it.acts.flatMap((a) => a.names.map((n) => n.name)) };
    },
  },
  {
    name: "pardoned-by-the-doer",
    does: "he who does the job excuses a critical part past its wear",
    gate: "held",
    on: withPast,
    make: (story, _r, on) => {
      const [name, thing] = some(past[on]);
      const site = some(sites(story, (it) => it.verb === "fit" && it.isNew === true && it.names.some((n) => n.name === thing))[0]);
      delete site.act.isNew;
      const f = story.entries.find((it) => it.is === "finding" && it.name === thing && it.conditions.includes("worn"));
      if (f !== undefined) take(story, f);
      const was = foundBy(story, name);
      const end = some(story.entries.find((it) => it.is === "measure" && it.limit === name && it.when === "final"));
      if (end.is === "measure") end.readings = structuredClone(was.readings);
      putAfter(story, end, concession(name, "Only used a few times a year", story.by));
      return { at: [some(story.entries[story.entries.indexOf(end) + 1]).id, was.id, end.id, site.act.id], about: [name, thing] };
    },
  },
  {
    name: "no-test",
    does: "brakes, steering or lifting gear is signed without a test",
    gate: "held",
    on: ["hub", "chain-block", "steering-box"],
    make: (story) => {
      story.tests = [];
      story.entries = story.entries.filter((it) => it.is !== "seen");
      story.things = story.things.filter((it) => it.is !== "check");
      return { at: [], about: [] };
    },
  },
  {
    name: "name-misspelt",
    does: "a nut is locked under a name that nothing declares",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const site = r.pick(sites(story, (it) => it.verb === "lock" && it.names.length === 1, on));
      const name = some(site.act.names[0]);
      const was = name.name;
      name.name = `${was.slice(0, -1)}`;
      return {
        at: [site.act.id, one(story, "tighten", was).act.id].concat(
          sites(story, (it) => it.verb === "fit" && it.names[0]?.name === was).map((it) => it.act.id),
        ),
        about: [was],
      };
    },
  },
  {
    name: "untold-locking",
    does: "a critical nut whose locking the sheet is silent about",
    gate: "held",
    on: everywhere,
    make: (story, _r, on) => {
      const nut = bystander(story, on);
      delete nut.lock;
      return { at: [], about: [nut.name] };
    },
  },
  {
    name: "a-blank-left",
    does: "a line of the way back still has its blank",
    gate: "held",
    on: withHazard,
    needs: "blank",
    make: (story, _r, on) => {
      const site = one(story, "safe", some(hazards[on])[0]);
      site.act.text = "___";
      return { at: [site.act.id], about: [some(hazards[on])[0]] };
    },
  },
  {
    name: "admitted-torque",
    does: "somebody owns up to an overstretched bolt: no moment, a state",
    gate: "held",
    on: ["pinion"],
    needs: "admit",
    make: (story) => {
      const site = one(story, "tighten", "nose-bolt");
      some(site.act.to).n = 48;
      site.step.more = [`admit torque-outside "Pulled too far; looks all right" by "${story.by}"`];
      return { at: [site.act.id, site.step.id], about: ["nose-bolt"] };
    },
  },
];
