// Variations that mean no harm: what is done is right, only otherwise than usual, or written otherwise.
import { bought, finding, sentOut, step } from "./build.ts";
import { act, concession, fastener, find, fitNew, fluid, lockNew, part, q, remove, type Step, tighten, undo, refit } from "./things.ts";
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
  quiet,
} from "./kind.ts";
import { again, orUnfit } from "./mistakes-fasteners.ts";
import { sound, untouched, withSound } from "./mistakes-parts.ts";
import { past, withPast } from "./mistakes-readings.ts";
import { hazards, whole, withHazard } from "./mistakes-machine.ts";
import { putRight } from "./harmless-put-right.ts";
import { readOtherwise } from "./harmless-read.ts";
import { writtenOtherwise } from "./harmless-written.ts";

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
  ...writtenOtherwise,
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
  ...putRight,
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
  ...readOtherwise,
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
