// Variations that mean no harm: what is done is right, only otherwise than usual, or written otherwise.
import { bought, finding, sentOut, step } from "./build.ts";
import { act, concession, fastener, find, refit, fitNew, fluid, limit, lockNew, part, q, remove, said, type Step, tighten, undo } from "./things.ts";
import {
  after,
  atFirst,
  before,
  bystander,
  drop,
  everywhere,
  extra,
  final,
  findingOf,
  foundBy,
  type Kind,
  lastOne,
  middle,
  newId,
  one,
  putAfter,
  putBefore,
  sites,
  some,
  stepNamed,
  take,
  Unfit,
} from "./kind.ts";
import { again, orUnfit } from "./mistakes-fasteners.ts";
import { sound, untouched, withSound } from "./mistakes-parts.ts";
import { past, settings, withPast, withSetting } from "./mistakes-readings.ts";
import { hazards, whole, withHazard } from "./mistakes-machine.ts";

const quiet = { at: [], about: [] };
const washers: Record<string, string> = { gearbox: "cover-bolt", "big-ends": "sump-bolt", headstock: "guard-screw", "chain-block": "block-screw" };

/** The final reading of what is renewed, and the step in which it is fitted. */
const benchRead: Record<string, [string, string]> = {
  hub: ["drum-bore", "wheel-on"],
  spring: ["free-camber", "spring-on"],
  pinion: ["bearing-seat", "pinion-in"],
  "chain-block": ["chain-pitch", "block-up"],
  "winch-brake": ["lining", "brake-on"],
};

export const harmless: Kind[] = [
  {
    name: "untouched",
    does: "nothing: the sound story",
    gate: "released",
    on: everywhere,
    make: () => quiet,
  },
  {
    name: "spring-washers-say-nothing",
    does: "screws with spring washers are tightened, which squeezes them; no line locks them",
    gate: "released",
    on: Object.keys(washers),
    make: (story, _r, on) => {
      drop(one(story, "lock", some(washers[on])));
      return quiet;
    },
  },
  {
    name: "wheel-on-its-studs",
    does: "a wheel of 31 kg stands on its studs when its nuts come off",
    gate: "released",
    on: ["hub"],
    make: (story) => {
      some(find(story, "part", "wheel")).mass = 31;
      return quiet;
    },
  },
  {
    name: "measured-on-the-bench",
    does: "the new one is measured before it goes in",
    gate: "released",
    on: Object.keys(benchRead),
    make: (story, _r, on) => {
      const [name, where] = some(benchRead[on]);
      const it = final(story, name);
      const at = stepNamed(story, where);
      take(story, it);
      it.day = at.day;
      story.entries.splice(story.entries.indexOf(at), 0, it);
      return quiet;
    },
  },
  {
    name: "measured-on-the-bench-and-again",
    does: "the new one is measured on the bench and once more in place",
    gate: "released",
    on: Object.keys(benchRead),
    make: (story, _r, on) => {
      const [name, where] = some(benchRead[on]);
      const it = final(story, name);
      const at = stepNamed(story, where);
      story.entries.splice(story.entries.indexOf(at), 0, { ...structuredClone(it), id: newId(), day: at.day });
      return quiet;
    },
  },
  {
    name: "trial-with-what-is-condemned",
    does: "the condemned part goes in for a trial, and comes off again",
    gate: "released",
    on: ["linkage", "chain-block", "hub", "winch-brake"],
    make: (story, _r, on) => {
      const name = some({ linkage: "rod-end", "chain-block": "load-chain", hub: "hub-bearing", "winch-brake": "band" }[on]);
      const site = some(sites(story, (it) => it.verb === "fit" && it.isNew === true && it.names[0]?.name === name)[0]);
      const where = site.act.places === undefined ? name : `${name} @${site.act.places.join(", ")}`;
      before(site, { ...refit(where), forNow: "to try the length" }, remove(where));
      return quiet;
    },
  },
  {
    name: "trial-with-the-old-bolts",
    does: "the old bolts, condemned, for a trial; then new ones",
    gate: "released",
    on: ["big-ends"],
    make: (story) => {
      const shut = stepNamed(story, "caps-on");
      const trial = extra(
        "Trial",
        { ...refit("big-end-cap"), forNow: "to read the bore" },
        { ...tighten("cap-nut", q(33, "lbf.ft"), "engine-wrench"), forNow: "the old nuts, to read the bore" },
        undo("cap-nut"),
        remove("big-end-cap"),
      );
      putBefore(story, shut, trial);
      const off = stepNamed(story, "caps-off");
      putAfter(story, off, finding("cap-nut", 3, ["worn"], { decision: "renew" }));
      return quiet;
    },
  },
  {
    name: "old-gasket-for-a-trial",
    does: "the old gasket for a trial, off again, then the new one",
    gate: "released",
    on: ["gearbox", "pinion", "steering-box"],
    make: (story, _r, on) => {
      const name = some({ gearbox: "cover-gasket", pinion: "nose-gasket", "steering-box": "end-gasket" }[on]);
      const site = one(story, "fit", name);
      before(site, { ...refit(name), forNow: "to read the gap" }, remove(name));
      return quiet;
    },
  },
  {
    name: "one-missing-decided-renew",
    does: "one of many is missing and decided `renew`; the others go back",
    gate: "released",
    on: ["gearbox", "steering-box"],
    make: (story, _r, on) => {
      const it = findingOf(story, on === "gearbox" ? "roller" : "worm-ball");
      delete it.n;
      it.conditions = ["missing 1"];
      it.decision = "renew";
      return quiet;
    },
  },
  {
    name: "lost-and-found-again",
    does: "one is lost on the bench, found again, and goes back",
    gate: "released",
    on: ["chain-block", "gearbox"],
    make: (story, _r, on) => {
      const name = on === "gearbox" ? "breather" : "pawl-spring";
      const off = one(story, "remove", name);
      putAfter(story, off.step, finding(name, 3, ["serviceable"], { because: "Rolled under the bench; found with the magnet" }));
      return quiet;
    },
  },
  {
    name: "renew-is-the-decision",
    does: "a seal declared `renew` is found worn, and nobody writes a decision",
    gate: "released",
    on: ["hub", "pinion", "gearbox", "steering-box", "big-ends"],
    make: (story, _r, on) => {
      const name = some({ hub: "hub-seal", pinion: "nose-gasket", gearbox: "cover-gasket", "steering-box": "end-gasket", "big-ends": "sump-gasket" }[on]);
      putAfter(story, one(story, "remove", name).step, finding(name, 3, ["worn"]));
      return quiet;
    },
  },
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
  {
    name: "torque-in-stages",
    does: "tightened in two stages, the last in range, then locked",
    gate: "released",
    on: everywhere.filter((it) => it !== "steering-box"),
    make: (story, r, on) => {
      const site = r.pick(orUnfit(sites(story, (it) => it.verb === "tighten" && it.to !== undefined && it.to.n > 40, on)));
      const to = some(site.act.to);
      before(site, { ...structuredClone(site.act), id: newId(), to: { ...to, n: Math.round(to.n * 0.6) } });
      return quiet;
    },
  },
  {
    name: "adjusting-nut-goes-back-a-slot",
    does: "an adjusting nut is taken up, backed off to its slot, locked, then read",
    gate: "released",
    on: ["hub", "headstock", "steering-box"],
    make: (story, _r, on) => {
      const name = some({ hub: "hub-nut", headstock: "spindle-nut", "steering-box": "adjuster-nut" }[on]);
      const site = one(story, "tighten", name);
      after(site, act("slacken", name), tighten(name));
      return quiet;
    },
  },
  {
    name: "opened-again-with-a-new-locking",
    does: "undone once more at the end, tightened and locked with a new one",
    gate: "released",
    on: everywhere,
    make: (story, _r, on) => {
      const nut = bystander(story, on);
      const where = nut.each === undefined ? nut.name : `${nut.name} @left`;
      again(story, on, nut.name, undo(where), tighten(where, middle(nut)), lockNew(where));
      return quiet;
    },
  },
  {
    name: "found-loose-and-put-right",
    does: "found loose and unlocked; tightened and locked with new",
    gate: "released",
    on: everywhere,
    make: (story, _r, on) => {
      const nut = bystander(story, on);
      const where = nut.each === undefined ? nut.name : `${nut.name} @left`;
      atFirst(story, on, nut.name, ["loose", "unlocked"], { decision: "reuse", ...(nut.each !== undefined && { place: "left" }) });
      again(story, on, nut.name, tighten(where, middle(nut)), lockNew(where));
      return quiet;
    },
  },
  {
    name: "missing-bolt-made-good",
    does: "one bolt is missing; a new one goes in, tight and locked",
    gate: "released",
    on: everywhere,
    make: (story, _r, on) => {
      const nut = bystander(story, on);
      if (nut.per < 2) throw new Unfit();
      const at = nut.each === undefined ? "" : " @left";
      atFirst(story, on, nut.name, ["missing"], { n: 1, ...(nut.each !== undefined && { place: "left" }) });
      again(
        story,
        on,
        nut.name,
        undo(`${nut.name}${at}`),
        refit(`${nut.name} ${nut.per - 1}${at}`),
        fitNew(`${nut.name} 1${at}`),
        tighten(`${nut.name}${at}`, middle(nut)),
        lockNew(`${nut.name}${at}`),
      );
      return quiet;
    },
  },
  {
    name: "cracked-welded-and-seen",
    does: "cracked, welded, and seen sound afterwards",
    gate: "released",
    on: ["linkage", "gearbox", "big-ends", "hub"],
    make: (story, _r, on) => {
      const name = some({ linkage: "drop-arm", gearbox: "fork", "big-ends": "oil-pump", hub: "hub" }[on]);
      const off = one(story, "remove", name);
      for (const it of [...story.entries]) if (it.is === "finding" && it.name === name) take(story, it);
      const both = find(story, "part", name)?.each === undefined ? {} : { place: "left" };
      const other = both.place === undefined ? [] : [finding(name, 3, ["serviceable"], { place: "right" })];
      putAfter(story, off.step, finding(name, 3, ["cracked"], { decision: 'repair "weld"', ...both }), ...other);
      const mend = step(`weld-${name}`, "Welded", 5, [said("repair", both.place === undefined ? name : `${name} @left`, "veed out, welded, dressed")]);
      const build = some(story.entries.find((it) => it.is === "step" && it.of === on && it.phase >= 6));
      putBefore(story, build, mend, finding(name, 5, ["serviceable"], { because: "No crack under dye", ...both }));
      return quiet;
    },
  },
  {
    name: "reversed-put-right",
    does: "found the wrong way round; off, and on as it belongs",
    gate: "released",
    on: withSound,
    make: (story, _r, on) => {
      const name = some(sound[on]);
      atFirst(story, on, name, ["reversed"], { decision: "reuse", ...(find(story, "part", name)?.each !== undefined && { place: "left" }) });
      return quiet;
    },
  },
  {
    name: "swapped-put-right",
    does: "found in each other's place, and changed over",
    gate: "released",
    on: ["hub", "linkage", "spring"],
    make: (story, _r, on) => {
      const it = untouched(story, on, { each: "side" });
      atFirst(story, on, it.name, ["swapped"], { decision: "reuse" });
      again(story, on, it.name, remove(it.name), { ...refit(`${it.name} @left`), from: "right" }, { ...refit(`${it.name} @right`), from: "left" });
      return quiet;
    },
  },
  {
    name: "dry-and-greased",
    does: "found dry, greased, back",
    gate: "released",
    on: ["hub", "gearbox", "headstock", "chain-block"],
    make: (story, r, on) => {
      const it = untouched(story, on, { critical: "drive" });
      atFirst(story, on, it.name, ["dry"], { decision: "reuse" });
      again(story, on, it.name, act(r.pick(["oil", "grease"]), it.name));
      return quiet;
    },
  },
  {
    name: "wrong-and-renewed",
    does: "found wrong, the right one bought and fitted",
    gate: "released",
    on: everywhere,
    make: (story, _r, on) => {
      const it = untouched(story, on);
      atFirst(story, on, it.name, ['wrong "off a later model"'], { decision: "renew" });
      again(story, on, it.name, remove(it.name), fitNew(it.name));
      return quiet;
    },
  },
  {
    name: "missing-and-made-good",
    does: "a critical part is missing; a new one is fitted",
    gate: "released",
    on: everywhere,
    make: (story, _r, on) => {
      const it = untouched(story, on);
      atFirst(story, on, it.name, ["missing"]);
      again(story, on, it.name, fitNew(it.name));
      return quiet;
    },
  },
  {
    name: "new-one-off-and-on",
    does: "the new one comes off for a look and goes on again",
    gate: "released",
    on: ["chain-block", "winch-brake"],
    make: (story, _r, on) => {
      const name = on === "chain-block" ? "load-chain" : "band";
      const site = some(sites(story, (it) => it.verb === "fit" && it.isNew === true && it.names[0]?.name === name)[0]);
      after(site, remove(name), refit(name));
      return quiet;
    },
  },
  {
    name: "opened-again-with-a-new-seal",
    does: "off once more for a look, and the seal renewed again",
    gate: "released",
    on: ["hub", "pinion", "gearbox"],
    make: (story, _r, on) => {
      const [name, seal] = some({ hub: ["hub", "hub-seal"], pinion: ["nose", "nose-gasket"], gearbox: ["box-cover", "cover-gasket"] }[on]) as [string, string];
      after(one(story, "fit", name), remove(name, seal), fitNew(seal), refit(name));
      return quiet;
    },
  },
  {
    name: "undeclared-small-bolts",
    does: "small bolts that the sheet never declared come off and go back",
    gate: "released",
    on: everywhere,
    make: (story, r, on) => {
      const off = r.pick(orUnfit(sites(story, (it) => it.verb === "undo", on)));
      before(off, undo("shield-screw"));
      const last = some(sites(story, (it) => it.verb === "tighten", on).at(-1));
      after(last, tighten("shield-screw"));
      return quiet;
    },
  },
  {
    name: "question-answered",
    does: "asked, answered, decided, done",
    gate: "released",
    on: withSound,
    make: (story, _r, on) => {
      const name = some(sound[on]);
      const off = one(story, "remove", name);
      putAfter(
        story,
        off.step,
        {
          ...extra("x"),
          is: "question",
          name: `ask-${on}`,
          text: "How deep a mark may stay?",
          about: [name],
          answer: "Anything that a nail does not catch in",
        } as never,
        finding(name, 3, ["serviceable"], { because: "A nail does not catch in it" }),
      );
      return quiet;
    },
  },
  {
    name: "pardoned-by-another",
    does: "a set size past its wear is excused by somebody else by name; a warning stays",
    gate: "released",
    on: ["winch-brake"],
    mayWarn: true,
    make: (story) => {
      const it = foundBy(story, "drum-track");
      for (const reading of it.readings) reading.figures = [396.6];
      putAfter(story, it, concession("drum-track", "Inspector saw it; half the load until it is renewed", "P. Lindqvist"));
      return { at: [it.id, some(story.entries[story.entries.indexOf(it) + 1]).id], about: ["drum-track", "winch-drum"] };
    },
  },
  {
    name: "sent-out-and-back",
    does: "a part is sent out, comes back, is seen good and fitted",
    gate: "released",
    on: ["gearbox", "big-ends"],
    make: (story, _r, on) => {
      const name = on === "gearbox" ? "fork" : "oil-pump";
      const order = some(story.entries.find((it) => it.is === "order" && it.of === on && it.moves !== true));
      const came = some(story.entries.find((it) => it.is === "order" && it.of === on && it.moves === true));
      for (const it of [...story.entries]) if (it.is === "finding" && it.name === name) take(story, it);
      const off = one(story, "remove", name);
      putAfter(story, off.step, finding(name, 3, ["worn"], { decision: 'repair "built up and ground"' }));
      const [out, back] = sentOut(`W-${on}`, name, undefined, "build up and grind");
      putAfter(story, order, some(out));
      putAfter(story, came, some(back), finding(name, 4, ["serviceable"], { because: "Measured by the grinder" }));
      return quiet;
    },
  },
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
  {
    name: "key-made",
    does: "a part that can't be bought is made at the bench",
    gate: "released",
    on: everywhere,
    make: (story, _r, on) => {
      const it = untouched(story, on, { critical: "drive" });
      atFirst(story, on, it.name, ["worn"], { decision: 'make "from bright bar"' });
      again(story, on, it.name, remove(it.name), fitNew(it.name));
      return quiet;
    },
  },
  {
    name: "stands-in-a-cradle",
    does: "it stays in its cradle over the winter, and is signed there",
    gate: "released",
    on: ["winch-brake", "chain-block"],
    make: (story) => {
      const it = {
        ...stepLike(story),
        acts: [
          { ...act("raise"), on: "crane" },
          { ...act("support"), on: "cradle", rated: 5000, load: 3000 },
        ],
      };
      if (story.entries.some((e) => e.is === "step" && e.name === "get-under")) throw new Unfit();
      story.entries.unshift(it);
      return quiet;
    },
  },
  {
    name: "stands-under-what-comes-off-later",
    does: "the stands bear on what stays; what hangs on it comes off",
    gate: "released",
    on: ["pinion", "spring"],
    make: (story, _r, on) => {
      const name = `${on}-casing`;
      story.things.push(
        part(name, `${on === "pinion" ? "Axle" : "Chassis"} casing`, { behind: [on === "pinion" ? "nose" : "leaf-spring"], critical: "the axle" }),
      );
      whole(story, "support").act.text = name;
      return quiet;
    },
  },
  {
    name: "heavy-and-held",
    does: "a heavy part is held before its bolts come out",
    gate: "released",
    on: ["pinion"],
    make: (story) => {
      some(find(story, "part", "nose")).mass = 64;
      before(one(story, "undo", "nose-bolt"), { ...act("support", "nose"), on: "1 stands", text: '"bottle jack and cradle"' });
      return quiet;
    },
  },
  {
    name: "ordered-and-cancelled",
    does: "ordered, found not to be wanted, cancelled",
    gate: "released",
    on: everywhere,
    make: (story, _r, on) => {
      const it = untouched(story, on, {});
      const order = some(bought(`X-${on}`, { [it.name]: 1 })[0]);
      order.status = "cancelled";
      const f = atFirst(story, on, it.name, ["serviceable"]);
      putAfter(story, f, order);
      return quiet;
    },
  },
  {
    name: "oil-found-low-and-topped-up",
    does: "found low, topped up to full",
    gate: "released",
    on: everywhere,
    make: (story, _r, on) => {
      const it = untouched(story, on, { critical: "brakes" });
      const oil = fluid(`${on}-top-oil`, "Reservoir fluid", [it.name], q(500, "ml"));
      story.things.push(oil);
      atFirst(story, on, oil.name, ["low 200 ml"], { amount: q(200, "ml") });
      again(story, on, it.name, { ...act("fill", oil.name), amount: q(300, "ml") });
      return quiet;
    },
  },
  {
    name: "each-nut-by-its-side",
    does: "tightened and locked side by side, the right before the left",
    gate: "released",
    on: ["hub", "linkage", "spring"],
    make: (story, _r, on) => {
      const name = some({ hub: "hub-nut", linkage: "ball-nut", spring: "shackle-nut" }[on]);
      const tight = one(story, "tighten", name);
      const locking = one(story, "lock", name);
      drop(locking);
      const at = (it: typeof tight, place: string) => ({ ...structuredClone(it.act), id: newId(), places: [place] });
      before(tight, at(tight, "right"), at(locking, "right"), at(tight, "left"), at(locking, "left"));
      drop(tight);
      return quiet;
    },
  },
  {
    name: "not-critical-not-locked",
    does: "a small bolt that nothing locks and nobody calls critical comes off and goes back",
    gate: "released",
    on: everywhere,
    make: (story, _r, on) => {
      const name = `${on}-clip-screw`;
      story.things.push(fastener(name, "Pipe clip screw", { per: 2, thread: "M5", torque: "feel", lock: { text: 'nothing "A clip"', use: "nothing" } }));
      const strip = some(sites(story, (it) => it.verb === "undo", on)[0]);
      before(strip, undo(name));
      again(story, on, name, tighten(name));
      return quiet;
    },
  },
  {
    name: "owned-up-hazard",
    does: "opened live, nobody hurt, owned up to",
    gate: "released",
    on: withHazard,
    needs: "admit",
    mayWarn: true,
    make: (story, _r, on) => {
      const [name, nut] = some(hazards[on]);
      const site = one(story, "safe", name);
      const open = one(story, "undo", nut);
      drop(site);
      after(open, site.act);
      open.step.more = [`admit hazard-live "Forgot; nobody hurt" by "${story.by}"`];
      return { at: [open.act.id, open.step.id], about: [name] };
    },
  },
  {
    name: "counts-behind-undo-and-lock",
    does: "some of several are undone, tightened and locked by number",
    gate: "released",
    on: ["pinion", "linkage"],
    needs: "counts",
    make: (story, _r, on) => {
      const nut = bystander(story, on);
      again(story, on, nut.name, undo(`${nut.name} 1`), tighten(`${nut.name} 1`, middle(nut)), lockNew(`${nut.name} 1`));
      return quiet;
    },
  },
  {
    name: "uncertainty-in-percent",
    does: "a torque wrench known to 4 %",
    gate: "released",
    on: ["linkage", "pinion", "headstock", "winch-brake"],
    needs: "percent",
    make: (story, _r, on) => {
      const name = some({ linkage: "rod-wrench", pinion: "axle-wrench", headstock: "lathe-wrench", "winch-brake": "winch-wrench" }[on]);
      some(find(story, "gauge", name)).uncertainty = q(4, "%");
      return quiet;
    },
  },
  {
    name: "let-back-by-an-angle",
    does: "a bearing nut is tightened, let back 30 degrees, locked, then read",
    gate: "released",
    on: ["hub", "headstock"],
    needs: "let-back",
    make: (story, _r, on) => {
      const name = on === "hub" ? "hub-nut" : "spindle-nut";
      const site = one(story, "tighten", name);
      after(site, { ...act("slacken", name), on: "30 deg" });
      return quiet;
    },
  },
  {
    name: "set-down-from-the-crane",
    does: "a part hangs on the crane, and is set down the same day",
    gate: "released",
    on: ["headstock"],
    needs: "lower-part",
    make: (story) => {
      const site = some(sites(story, (it) => it.verb === "support" && it.names[0]?.name === "motor")[0]);
      site.act.on = "crane";
      after(one(story, "remove", "motor"), act("lower", "motor"));
      return quiet;
    },
  },
  {
    name: "torque-plus-an-angle",
    does: "torque and then an angle, as asked for",
    gate: "released",
    on: ["pinion"],
    needs: "torque-angle",
    make: (story) => {
      some(find(story, "fastener", "crown-bolt")).torque = { lo: 20, hi: 20, unit: "lbf.ft", turn: 90 };
      const site = one(story, "tighten", "crown-bolt");
      site.act.to = q(20, "lbf.ft");
      site.act.turn = 90;
      return quiet;
    },
  },
  {
    name: "text-behind-a-condition",
    does: "a condition with a few words behind it",
    gate: "released",
    on: withPast,
    needs: "condition-text",
    make: (story, _r, on) => {
      const it = story.entries.find((e) => e.is === "finding" && e.name === some(past[on])[1] && e.conditions.includes("worn"));
      if (it?.is !== "finding") throw new Unfit();
      it.conditions = ['worn "step of ten thou"'];
      return quiet;
    },
  },
  {
    name: "metallic-from-a-part",
    does: "the oil shines, from a bearing that is renewed",
    gate: "released",
    on: ["pinion", "steering-box"],
    needs: "metallic-from",
    make: (story, _r, on) => {
      if (on === "pinion") findingOf(story, "axle-oil").conditions = ["metallic from pinion-bearing"];
      else atFirst(story, on, "box-oil", ["metallic from sector"]);
      return quiet;
    },
  },
];

function stepLike(story: Parameters<Kind["make"]>[0]): Step {
  const first = some(story.entries[0]);
  return { ...step("get-into-the-cradle", "In its cradle", 0, []), day: first.day };
}
