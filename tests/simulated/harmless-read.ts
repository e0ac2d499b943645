// Read or looked at otherwise than usual: more than once, in another order, within what is allowed.
import { finding } from "./build.ts";
import { find, limit } from "./things.ts";
import { atFirst, final, findingOf, foundBy, type Kind, lastOne, newId, one, putAfter, putBefore, some, Unfit, quiet } from "./kind.ts";
import { sound, withSound } from "./mistakes-parts.ts";
import { settings, withSetting } from "./mistakes-readings.ts";

export const readOtherwise: Kind[] = [
  {
    name: "several-of-a-thing-found-good",
    does: "everything is looked at and called serviceable",
    gate: "released",
    on: withSound,
    make: (story, _r, on) => {
      const name = some(sound[on]);
      if (story.entries.some((it) => it.is === "finding" && it.name === name)) throw new Unfit();
      putAfter(story, one(story, "remove", name).step, finding(name, 3, ["serviceable"]));
      return quiet;
    },
  },
  {
    name: "shake-was-the-nut",
    does: "play past its limit in place; the bearing is good, it was the nut",
    gate: "released",
    on: ["headstock"],
    make: (story) => {
      const first = some(story.entries.find((it) => it.of === "headstock"));
      const l = limit("nose-lift", "Lift at the nose", "mm", 2, { worn: { max: 0.1 }, of: ["spindle"], critical: "the work" });
      story.things.push(l);
      const reading = {
        ...structuredClone(final(story, "run-out")),
        id: newId(),
        limit: "nose-lift",
        when: "found" as const,
        readings: [{ figures: [0.21], unit: "mm", dec: 2 }],
        day: first.day,
        phase: 1,
      };
      story.entries.splice(story.entries.indexOf(first), 0, reading);
      atFirst(story, "headstock", "spindle-nut", ["loose"], { decision: "reuse" });
      findingOf(story, "spindle").because = "Good all over; it was the nut";
      putAfter(story, final(story, "run-out"), {
        ...structuredClone(reading),
        id: newId(),
        when: "final",
        readings: [{ figures: [0.03], unit: "mm", dec: 2 }],
        phase: 6,
      });
      return quiet;
    },
  },
  {
    name: "within-wear-outside-new",
    does: "inside its limit of wear, outside new: goes back",
    gate: "released",
    on: ["chain-block", "winch-brake", "hub"],
    make: (story, _r, on) => {
      const name = some({ "chain-block": "throat", "winch-brake": "drum-track", hub: "drum-bore" }[on]);
      const it = foundBy(story, name);
      const figure = some({ "chain-block": 26.4, "winch-brake": 398.2, hub: 9.032 }[on]);
      const good = it.readings.at(-1);
      some(good).figures = [figure];
      if (on === "hub") {
        const end = final(story, name).readings.find((one_) => one_.place === good?.place);
        some(end).figures = [figure];
      }
      return quiet;
    },
  },
  {
    name: "the-same-spot-again",
    does: "a spot is tried three times, and the figures agree",
    gate: "released",
    on: withSetting,
    make: (story, _r, on) => {
      const it = final(story, some(settings[on])[0]);
      const reading = some(it.readings[0]);
      const n = some(reading.figures[0]);
      reading.again = true;
      reading.figures = [n, n, n];
      return quiet;
    },
  },
  {
    name: "found-and-read-again-at-the-end",
    does: "what was in its limits as found is read once more at the end",
    gate: "released",
    on: ["chain-block", "winch-brake", "big-ends"],
    make: (story, _r, on) => {
      const it = foundBy(story, some({ "chain-block": "throat", "winch-brake": "drum-track", "big-ends": "crank-pin" }[on]));
      const last = some(story.entries.filter((e) => e.of === on).at(-1));
      story.entries.splice(story.entries.indexOf(last) + 1, 0, { ...structuredClone(it), id: newId(), when: "final", day: last.day });
      return quiet;
    },
  },
  {
    name: "tried-before-it-was-read",
    does: "a setting is read as a trial, outside; set; then read for good",
    gate: "released",
    on: withSetting,
    make: (story, _r, on) => {
      const [name, by] = some(settings[on]);
      const it = final(story, name);
      const site = lastOne(story, "tighten", by);
      const trial = { ...structuredClone(it), id: newId(), when: "trial" as const };
      const set = some(find(story, "limit", name)?.set);
      for (const reading of trial.readings) reading.figures = [set.hi * 1.4];
      if (story.entries.indexOf(it) < story.entries.indexOf(site.step)) throw new Unfit();
      putBefore(story, site.step, trial);
      return quiet;
    },
  },
];
