// Mistakes with what is measured and seen: figures, settings, gauges, days.
import { measure } from "./build.ts";
import { act, check, find, limit, lockNew, type Reading, tighten } from "./things.ts";
import { after, everywhere, final, findingOf, foundBy, type Kind, lastOne, look, newId, one, partsOf, putAfter, sites, some, stepNamed, take } from "./kind.ts";
import { middle } from "./kind.ts";

/** A critical setting of each assembly, and what moves it. */
export const settings: Record<string, [string, string]> = {
  hub: ["hub-float", "hub-nut"],
  linkage: ["toe-in", "clamp-bolt"],
  pinion: ["backlash", "nose-bolt"],
  "steering-box": ["rim-play", "adjuster-nut"],
  headstock: ["spindle-float", "spindle-nut"],
};
export const withSetting = Object.keys(settings);

/** A critical check of each assembly. */
const checks: Record<string, string> = {
  hub: "no-leak",
  linkage: "lock-to-lock",
  pinion: "mesh",
  "steering-box": "worm-track",
  gearbox: "one-gear",
  headstock: "cool",
  "chain-block": "holds",
  "winch-brake": "brake-holds",
};
const withCheck = Object.keys(checks);

/** A critical size past its limit as found, and its part, which a new one replaces. */
export const past: Record<string, [string, string]> = {
  hub: ["drum-bore", "drum"],
  linkage: ["ball-play", "rod-end"],
  "chain-block": ["chain-pitch", "load-chain"],
  "winch-brake": ["lining", "band"],
};
export const withPast = Object.keys(past);

/** A critical size within its limits as found. */
const within: Record<string, string> = { "big-ends": "crank-pin", "chain-block": "throat", "winch-brake": "drum-track" };

const each = (readings: Reading[], change: (n: number) => number) => {
  for (const it of readings) it.figures = it.figures.map(change);
};

export const mistakesWithReadings: Kind[] = [
  {
    name: "worn-cured-by-a-reading",
    does: "past its limit as found, it goes back, and a later figure is inside",
    gate: "held",
    on: withPast,
    make: (story, _r, on) => {
      const [name, part] = some(past[on]);
      const site = some(sites(story, (it) => it.verb === "fit" && it.isNew === true && it.names.some((n) => n.name === part))[0]);
      delete site.act.isNew;
      const f = story.entries.find((it) => it.is === "finding" && it.name === part);
      if (f !== undefined) take(story, f);
      return { at: [final(story, name).id, foundBy(story, name).id, site.act.id], about: [part, name] };
    },
  },
  {
    name: "worn-and-reused",
    does: "past its limit, decided `reuse`, and back it goes",
    gate: "held",
    on: withPast,
    make: (story, _r, on) => {
      const [name, part] = some(past[on]);
      const site = some(sites(story, (it) => it.verb === "fit" && it.isNew === true && it.names.some((n) => n.name === part))[0]);
      delete site.act.isNew;
      const f = findingOf(story, part, /worn/);
      f.decision = "reuse";
      const was = foundBy(story, name);
      final(story, name).readings = structuredClone(was.readings);
      return { at: [final(story, name).id, was.id, f.id, site.act.id], about: [part, name] };
    },
  },
  {
    name: "new-one-past-its-limit",
    does: "the new one is out as well, and stays",
    gate: "held",
    on: withPast,
    make: (story, _r, on) => {
      const [name, part] = some(past[on]);
      final(story, name).readings = structuredClone(foundBy(story, name).readings);
      return { at: [final(story, name).id], about: [part, name] };
    },
  },
  {
    name: "setting-out",
    does: "the last figure of a setting is outside",
    gate: "held",
    on: withSetting,
    make: (story, r, on) => {
      const it = final(story, some(settings[on])[0]);
      const set = some(find(story, "limit", it.limit)?.set);
      const reading = r.pick(it.readings);
      reading.figures = [r.chance(0.5) ? set.hi * 1.5 : set.lo * 0.3];
      return { at: [it.id], about: [it.limit] };
    },
  },
  {
    name: "setting-not-read",
    does: "what sets it was moved, and nobody reads it",
    gate: "held",
    on: withSetting,
    make: (story, _r, on) => {
      const [name, by] = some(settings[on]);
      const it = final(story, name);
      take(story, it);
      return { at: sites(story, (one_) => one_.names.some((n) => n.name === by)).flatMap((site) => [site.act.id, site.step.id]), about: [name, by] };
    },
  },
  {
    name: "setting-read-before-the-last-move",
    does: "read, then the nut is taken up once more and locked",
    gate: "held",
    on: withSetting,
    make: (story, _r, on) => {
      const [name, by] = some(settings[on]);
      const it = final(story, name);
      const site = lastOne(story, "lock", by);
      const torque = find(story, "fastener", by)?.torque;
      const acts = [act("slacken", by), typeof torque === "object" ? tighten(by, middle(some(find(story, "fastener", by)))) : tighten(by), lockNew(by)];
      putAfter(story, it, { ...site.step, id: newId(), name: `${site.step.name}-again`, title: "Once more", acts });
      const later = some(story.entries[story.entries.indexOf(it) + 1]);
      return { at: [it.id, later.id, ...acts.map((one_) => one_.id)], about: [name, by] };
    },
  },
  {
    name: "setting-only-tried",
    does: "read as a trial, and never for good",
    gate: "held",
    on: withSetting,
    make: (story, _r, on) => {
      const it = final(story, some(settings[on])[0]);
      it.when = "trial";
      return { at: [it.id], about: [it.limit] };
    },
  },
  {
    name: "setting-read-with-a-part-off",
    does: "read while what it is of is still on the bench",
    gate: "held",
    on: ["linkage", "pinion"],
    make: (story, _r, on) => {
      const it = final(story, on === "linkage" ? "toe-in" : "backlash");
      const part = on === "linkage" ? "track-rod" : "crown-wheel";
      take(story, it);
      const site = lastOne(story, "fit", part);
      const i = story.entries.indexOf(site.step);
      if (on === "linkage") {
        const clamps = stepNamed(story, "clamps-up");
        take(story, clamps);
        story.entries.splice(i, 0, { ...clamps, day: site.step.day }, { ...it, day: site.step.day });
      } else {
        story.entries.splice(i, 0, { ...it, day: site.step.day });
      }
      return { at: [it.id, site.act.id, site.step.id], about: [it.limit, part] };
    },
  },
  {
    name: "final-of-the-one-that-went",
    does: "the last reading is dated before the old part came out",
    gate: "held",
    on: ["linkage", "winch-brake", "chain-block"],
    make: (story, _r, on) => {
      const [name, part] = some(past[on]);
      const it = final(story, name);
      it.day = 0;
      it.dated = true;
      return { at: [it.id, one(story, "fit", part).act.id, one(story, "remove", part).act.id], about: [name, part] };
    },
  },
  {
    name: "days-the-wrong-way-round",
    does: "what is behind is dated after what is before it",
    gate: "spoken",
    on: ["pinion", "gearbox", "headstock"],
    make: (story, _r, on) => {
      const [inner] = { pinion: ["pinion-in"], gearbox: ["box-up"], headstock: ["spindle-in"] }[on] as [string];
      const it = stepNamed(story, inner);
      const outer = stepNamed(story, { pinion: "nose-on", gearbox: "box-closed", headstock: "guard-on" }[on] as string);
      it.day = outer.day + 1;
      it.dated = true;
      return {
        at: [
          it.id,
          outer.id,
          ...it.acts.map((a) => a.id),
          ...outer.acts.map((a) => a.id),
          ...story.entries.filter((e) => e.of === on && (e.is === "measure" || e.is === "seen") && e.when === "final").map((e) => e.id),
        ],
        about: partsOf(story, on).map((p) => p.name),
      };
    },
  },
  {
    name: "millimetres-for-inches",
    does: "a figure in inches is written mm, or the other way",
    gate: "held",
    on: ["hub", "pinion", "big-ends", "winch-brake", "headstock"],
    make: (story, _r, on) => {
      const it = final(
        story,
        { hub: "drum-bore", pinion: "bearing-seat", "big-ends": "end-bore", "winch-brake": "lining", headstock: "spindle-float" }[on] as string,
      );
      for (const reading of it.readings) reading.unit = reading.unit === "in" ? "mm" : "in";
      it.slip = true;
      return { at: [it.id], about: [it.limit] };
    },
  },
  {
    name: "point-slipped",
    does: "a point has slipped: ten times off",
    gate: "held",
    on: ["hub", "winch-brake", "chain-block", "linkage"],
    make: (story, r, on) => {
      const it = final(story, some(past[on])[0]);
      const factor = on === "linkage" ? 10 : r.pick([10, 0.1]);
      each(it.readings, (n) => n * factor);
      it.slip = true;
      return { at: [it.id], about: [it.limit] };
    },
  },
  {
    name: "clearance-below-zero",
    does: "bore and pin were mixed up or misread: the clearance is below zero",
    gate: "held",
    on: ["big-ends"],
    make: (story) => {
      const it = final(story, "end-bore");
      some(it.readings[0]).figures = [1.869];
      return {
        at: [it.id, ...story.entries.filter((e) => e.is === "measure" && e.limit === "crank-pin").map((e) => e.id)],
        about: ["end-bore", "end-clearance"],
      };
    },
  },
  {
    name: "clearance-too-wide",
    does: "the worked-out clearance is past its limit",
    gate: "held",
    on: ["big-ends"],
    make: (story) => {
      const it = final(story, "end-bore");
      some(it.readings[0]).figures = [1.8805];
      return {
        at: [it.id, ...story.entries.filter((e) => e.is === "measure" && e.limit === "crank-pin").map((e) => e.id)],
        about: ["end-bore", "end-clearance", "shell"],
      };
    },
  },
  {
    name: "worked-out-written-by-hand",
    does: "the worked-out clearance is written in by hand, inside, against its own arithmetic",
    gate: "held",
    on: ["big-ends"],
    make: (story) => {
      const it = final(story, "end-bore");
      some(it.readings[0]).figures = [1.8805];
      putAfter(story, it, measure("end-clearance", "final", 6, "in", 4, { one: [0.0027], two: [0.0025] }));
      return {
        at: [
          it.id,
          some(story.entries[story.entries.indexOf(it) + 1]).id,
          ...story.entries.filter((e) => e.is === "measure" && e.limit === "crank-pin").map((e) => e.id),
        ],
        about: ["end-bore", "end-clearance", "shell"],
      };
    },
  },
  {
    name: "taper-past-its-limit",
    does: "no figure is past wear, but the pin is tapered, and the gauge is named",
    gate: "held",
    on: ["big-ends"],
    make: (story) => {
      const it = foundBy(story, "crank-pin");
      some(it.readings[0]).figures = [1.8744, 1.8745];
      some(it.readings[1]).figures = [1.8725, 1.8726];
      return { at: [it.id], about: ["crank-pin", "crankshaft"] };
    },
  },
  {
    name: "past-wear-nobody-decided",
    does: "past its limit of wear as found, and left in",
    gate: "held",
    on: ["chain-block", "winch-brake", "big-ends"],
    make: (story, r, on) => {
      const it = foundBy(story, some(within[on]));
      const worn = some(find(story, "limit", it.limit)?.worn);
      const reading = some(it.readings[0]);
      reading.figures = reading.figures.map(() => (worn.max === undefined ? some(worn.min) * r.pick([0.98, 0.97]) : worn.max * 1.05));
      if (on === "chain-block") take(story, findingOf(story, "hook"));
      return { at: [it.id], about: [it.limit, ...some(find(story, "limit", it.limit)).of] };
    },
  },
  {
    name: "one-of-several-figures-is-out",
    does: "of several figures the worst is outside",
    gate: "held",
    on: ["pinion", "headstock"],
    make: (story, _r, on) => {
      const it = final(story, on === "pinion" ? "backlash" : "run-out");
      const reading = some(it.readings[0]);
      reading.figures = on === "pinion" ? [0.0065, 0.007, 0.0125, 0.0065] : [0.006, 0.034];
      return { at: [it.id], about: [it.limit, "spindle"] };
    },
  },
  {
    name: "in-doubt",
    does: "so near its limit that the gauge cannot tell",
    gate: "held",
    on: ["hub", "pinion", "headstock"],
    make: (story, _r, on) => {
      const [name, n] = { hub: ["hub-float", 0.0058], pinion: ["pinion-float", 0.0029], headstock: ["spindle-float", 0.0196] }[on] as [string, number];
      const it = final(story, name);
      const reading = some(it.readings[0]);
      reading.figures = [n];
      reading.dec = 4;
      return { at: [it.id], about: [name] };
    },
  },
  {
    name: "gauge-past-its-date",
    does: "read with a gauge that is due for its check",
    gate: "spoken",
    on: ["hub", "linkage", "pinion", "headstock"],
    make: (story, _r, on) => {
      const it = final(story, { hub: "hub-float", linkage: "toe-in", pinion: "pinion-float", headstock: "spindle-float" }[on] as string);
      const g = some(find(story, "gauge", some(it.gauge)));
      g.due = 5;
      return { at: story.entries.filter((e) => e.is === "measure" && e.gauge === g.name).map((e) => e.id), about: [g.name] };
    },
  },
  {
    name: "wrench-past-its-date",
    does: "tightened with a wrench that is due for its check",
    gate: "spoken",
    on: ["linkage", "spring", "pinion", "big-ends", "headstock", "winch-brake"],
    make: (story, _r, on) => {
      const site = some(sites(story, (it) => it.verb === "tighten" && it.gauge !== undefined, on)[0]);
      const g = some(find(story, "gauge", some(site.act.gauge)));
      g.due = 5;
      return { at: sites(story, (it) => it.gauge === g.name).map((it) => it.act.id), about: [g.name] };
    },
  },
  {
    name: "tries-that-scatter",
    does: "the same spot tried again gives figures far apart",
    gate: "spoken",
    on: ["hub", "headstock"],
    make: (story, _r, on) => {
      const it = final(story, on === "hub" ? "hub-float" : "spindle-float");
      const reading = some(it.readings[0]);
      reading.again = true;
      reading.figures = on === "hub" ? [0.0025, 0.0055, 0.0038] : [0.008, 0.018, 0.012];
      return { at: [it.id], about: [it.limit] };
    },
  },
  {
    name: "seen-bad",
    does: "the last look at a critical check was bad",
    gate: "held",
    on: withCheck,
    make: (story, _r, on) => {
      const it = look(story, some(checks[on]));
      it.good = false;
      return { at: [it.id], about: [it.check] };
    },
  },
  {
    name: "never-seen",
    does: "a critical check of what was disturbed is never looked at",
    gate: "held",
    on: withCheck,
    make: (story, _r, on) => {
      const it = look(story, some(checks[on]));
      take(story, it);
      const c = some(find(story, "check", it.check));
      return {
        at: sites(story, (one_) => one_.names.some((n) => c.of.includes(n.name))).flatMap((site) => [site.act.id, site.step.id]),
        about: [it.check, ...c.of],
      };
    },
  },
  {
    name: "seen-before-it-was-renewed",
    does: "looked at before it came apart and was renewed or repaired, and not after",
    gate: "held",
    on: ["hub", "linkage", "pinion", "headstock", "winch-brake"],
    make: (story, _r, on) => {
      const it = look(story, some(checks[on]));
      const c = some(find(story, "check", it.check));
      take(story, it);
      const first = some(story.entries.find((e) => e.of === on));
      story.entries.splice(story.entries.indexOf(first), 0, { ...it, day: first.day });
      return {
        at: [it.id, ...sites(story, (one_) => one_.names.some((n) => c.of.includes(n.name))).flatMap((site) => [site.act.id, site.step.id])],
        about: [it.check, ...c.of],
      };
    },
  },
  {
    name: "leak-check-before-the-fluid",
    does: "seen dry before it was filled and bled",
    gate: "held",
    on: ["hub"],
    make: (story) => {
      const it = look(story, "no-leak");
      take(story, it);
      const filled = stepNamed(story, "brakes-filled");
      story.entries.splice(story.entries.indexOf(filled), 0, { ...it, day: filled.day });
      return { at: [it.id, filled.id, ...filled.acts.map((a) => a.id)], about: ["no-leak", "cylinder"] };
    },
  },
  {
    name: "critical-check-of-nothing",
    does: "a critical check that the sheet declares is never seen",
    gate: "held",
    on: everywhere,
    make: (story, _r, on) => {
      const c = check(`${on}-last-look`, `All of the ${on.replace("-", " ")} turned by hand`, [], { critical: "drive" });
      story.things.push(c);
      return { at: [], about: [c.name] };
    },
  },
  {
    name: "critical-setting-of-nothing",
    does: "a critical limit that the sheet declares is never read",
    gate: "held",
    on: withSetting,
    make: (story, _r, on) => {
      const [, by] = some(settings[on]);
      const l = limit(`${on}-drag`, "Turning torque", "N.m", 1, { set: { lo: 0.5, hi: 1.5, by: [by] }, critical: "a wheel" });
      story.things.push(l);
      return { at: sites(story, (one_) => one_.names.some((n) => n.name === by)).flatMap((site) => [site.act.id, site.step.id]), about: [l.name, by] };
    },
  },
  {
    name: "new-one-never-measured",
    does: "a new critical part is never measured",
    gate: "held",
    on: withPast,
    make: (story, _r, on) => {
      const [name, part] = some(past[on]);
      take(story, final(story, name));
      return { at: sites(story, (it) => it.verb === "fit" && it.names.some((n) => n.name === part)).map((it) => it.act.id), about: [name, part] };
    },
  },
  {
    name: "read-at-one-side-only",
    does: "both were moved, one is read",
    gate: "held",
    on: ["hub"],
    make: (story, r) => {
      const it = final(story, "hub-float");
      it.readings = [r.pick(it.readings)];
      return {
        at: [it.id, ...sites(story, (one_) => one_.names.some((n) => n.name === "hub-nut")).flatMap((site) => [site.act.id, site.step.id])],
        about: ["hub-float"],
      };
    },
  },
  {
    name: "unit-that-means-two-things",
    does: "a fluid is filled by the pint, and nobody says whose",
    gate: "held",
    on: ["pinion"],
    make: (story) => {
      const site = lastOne(story, "fill", "axle-oil");
      some(site.act.amount).unit = "pt";
      return { at: [site.act.id], about: ["axle-oil"] };
    },
  },
  {
    name: "shims-out-and-nothing-read",
    does: "shims came off and went back, and what they set is not read",
    gate: "held",
    on: ["steering-box"],
    needs: "shims-off",
    make: (story) => {
      story.things.push({ is: "shims", name: "column-shims", title: "Column shims", per: 1, have: "0.05 mm x 4", fitted: "0.1 mm x 2" });
      const l = limit("column-float", "Column end float", "mm", 2, { set: { lo: 0.02, hi: 0.08, by: ["column-shims"] }, critical: "steering" });
      story.things.push(l);
      const off = one(story, "remove", "worm");
      const out = act("remove", "column-shims");
      after(off, out);
      const back = act("fit", "column-shims");
      after(one(story, "fit", "sector"), back);
      return { at: [out.id, back.id], about: ["column-shims", "column-float"] };
    },
  },
];
