import { q, type Step } from "./things.ts";
import { after, drop, everywhere, final, type Kind, lastOne, newId, one, sites, some, stepNamed, take, Unfit, quiet } from "./kind.ts";
import { orUnfit } from "./mistakes-fasteners.ts";

export const writtenOtherwise: Kind[] = [
  {
    name: "names-in-one-line",
    does: "one `fit` names the outer part before the inner",
    gate: "released",
    on: ["hub", "pinion", "gearbox", "chain-block"],
    make: (story, _r, on) => {
      const [inner, outer] = some(
        { hub: ["hub-seal", "hub"], pinion: ["nose-gasket", "nose"], gearbox: ["breather", "box-cover"], "chain-block": ["pawl", "block-cover"] }[on],
      ) as [string, string];
      const out = one(story, "fit", outer);
      const in_ = one(story, "fit", inner);
      if (in_.act.isNew || out.act.isNew || in_.step !== out.step || in_.act === out.act || in_.act.names.length > 1) throw new Unfit();
      drop(in_);
      out.act.names = [{ name: outer }, { name: inner }];
      return quiet;
    },
  },
  {
    name: "split-lines",
    does: "what stood on one line is written on several",
    gate: "released",
    on: everywhere,
    make: (story, r, on) => {
      const site = r.pick(orUnfit(sites(story, (it) => ["remove", "fit", "undo"].includes(it.verb) && it.names.length > 1, on)));
      site.step.acts.splice(site.i, 1, ...site.act.names.map((it) => ({ ...site.act, id: newId(), names: [it] })));
      return quiet;
    },
  },
  {
    name: "steps-merged",
    does: "two steps of one day are written as one",
    gate: "released",
    on: ["hub", "pinion", "headstock", "big-ends"],
    make: (story, _r, on) => {
      const [a, b] = some(
        { hub: ["wheel-off", "hub-off"], pinion: ["nose-off", "pinion-out"], headstock: ["guard-off", "spindle-out"], "big-ends": ["sump-off", "caps-off"] }[
          on
        ],
      ) as [string, string];
      const into = stepNamed(story, a);
      const from = stepNamed(story, b);
      take(story, from);
      into.acts.push(...from.acts);
      return quiet;
    },
  },
  {
    name: "steps-by-side",
    does: "a step of both sides is written as one for each",
    gate: "released",
    on: ["hub", "spring", "linkage"],
    make: (story, _r, on) => {
      const it = stepNamed(story, some({ hub: "wheel-off", spring: "spring-off", linkage: "clamps-up" }[on]));
      const safe = it.acts.filter((one_) => one_.verb === "safe");
      const rest = it.acts.filter((one_) => one_.verb !== "safe");
      const other: Step = {
        ...structuredClone(it),
        id: newId(),
        name: `${it.name}-right`,
        at: ["right"],
        acts: structuredClone(rest).map((one_) => ({ ...one_, id: newId() })),
      };
      it.at = ["left"];
      it.acts = [...safe, ...rest];
      story.entries.splice(story.entries.indexOf(it) + 1, 0, other);
      return quiet;
    },
  },
  {
    name: "torque-in-an-equal-unit",
    does: "the torque is written in another unit, and right",
    gate: "released",
    on: everywhere.filter((it) => it !== "steering-box"),
    make: (story, r, on) => {
      const site = r.pick(orUnfit(sites(story, (it) => it.verb === "tighten" && it.to !== undefined, on)));
      const to = some(site.act.to);
      if (to.unit === "N.m") site.act.to = q(to.n / 1.3558179483, "lbf.ft", 1);
      else site.act.to = q(to.n * 1.3558179483, "N.m", 0);
      return quiet;
    },
  },
  {
    name: "reading-in-an-equal-unit",
    does: "a reading is written in thou or in inches for millimetres, and right",
    gate: "released",
    on: ["hub", "pinion", "headstock", "linkage"],
    make: (story, _r, on) => {
      const it = final(story, some({ hub: "hub-float", pinion: "backlash", headstock: "spindle-float", linkage: "ball-play" }[on]));
      for (const reading of it.readings) {
        if (reading.unit === "in") {
          reading.figures = reading.figures.map((n) => n * 1000);
          reading.unit = "thou";
          reading.dec = 1;
        } else if (on === "headstock") {
          reading.figures = reading.figures.map((n) => n * 1000);
          reading.unit = "um";
          reading.dec = 0;
        } else {
          reading.figures = reading.figures.map((n) => n / 25.4);
          reading.unit = "in";
          reading.dec = 4;
        }
      }
      return quiet;
    },
  },
  {
    name: "fluid-in-an-equal-unit",
    does: "the oil is poured by another measure, and enough",
    gate: "released",
    on: ["pinion", "gearbox", "big-ends"],
    make: (story, _r, on) => {
      const site = lastOne(story, "fill", some({ pinion: "axle-oil", gearbox: "gear-oil", "big-ends": "engine-oil" }[on]));
      const amount = some(site.act.amount);
      site.act.amount = amount.unit === "imp.pt" ? q(1420, "ml") : q(amount.n / 0.946352946, "us.qt", 2);
      return quiet;
    },
  },
  {
    name: "filled-in-two-goes",
    does: "filled in two goes that make the whole",
    gate: "released",
    on: ["pinion", "gearbox", "big-ends", "steering-box"],
    make: (story, _r, on) => {
      const site = lastOne(story, "fill", some({ pinion: "axle-oil", gearbox: "gear-oil", "big-ends": "engine-oil", "steering-box": "box-oil" }[on]));
      const amount = some(site.act.amount);
      const half = q(amount.n / 2, amount.unit, amount.dec + 2);
      site.act.amount = half;
      after(site, { ...site.act, id: newId(), amount: { ...half } });
      return quiet;
    },
  },
  {
    name: "dates-on-the-lines",
    does: "each line has its own date, and no `day`",
    gate: "released",
    on: everywhere,
    make: (story) => {
      story.manner.datesOnLines = true;
      return quiet;
    },
  },
  {
    name: "notes-and-comments",
    does: "notes, comments, and lines set in otherwise",
    gate: "released",
    on: everywhere,
    make: (story, r) => {
      story.manner.comments = true;
      story.manner.indent = r.pick([0, 1, 4]);
      for (const it of story.entries) if (r.chance(0.3)) it.more = [...(it.more ?? []), 'note "Cold morning; tea first"'];
      return quiet;
    },
  },
];
