// Mistakes with parts: what is condemned, left off, changed over, mixed, sent away, used up; and with what was decided.
import { finding, sentOut } from "./build.ts";
import { find, refit, fitNew, fluid, type Order, part, q, remove } from "./things.ts";
import { after, atFirst, before, drop, dropName, everywhere, extra, type Kind, findingOf, lastOne, one, putAfter, sites, some, take } from "./kind.ts";
import { orUnfit } from "./mistakes-fasteners.ts";

/** A condemned part that a new one takes the place of, on each assembly. */
const condemned: Record<string, string> = {
  hub: "hub-bearing",
  linkage: "rod-end",
  spring: "leaf-spring",
  pinion: "pinion",
  "big-ends": "shell",
  headstock: "belt",
  "chain-block": "load-chain",
  "winch-brake": "band",
};
const criticallyCondemned = Object.keys(condemned).filter((it) => it !== "headstock");

/** A critical part that comes off and goes back as it was. */
export const sound: Record<string, string> = {
  hub: "hub",
  linkage: "drop-arm",
  pinion: "nose",
  "steering-box": "worm",
  gearbox: "fork",
  "big-ends": "oil-pump",
  headstock: "spindle",
  "chain-block": "pawl-spring",
  "winch-brake": "lever-spring",
};
export const withSound = Object.keys(sound);

/** A part that nothing touches: added, held by nothing. */
export function untouched(story: Parameters<Kind["make"]>[0], on: string, it: Parameters<typeof part>[2] = {}) {
  const made = part(`${on}-bracket`, `${on[0]?.toUpperCase()}${on.slice(1).replace("-", " ")} bracket`, { critical: "the brake rod", ...it });
  story.things.push(made);
  return made;
}

export const mistakesWithParts: Kind[] = [
  {
    name: "condemned-one-back",
    does: "a condemned part goes back as it was",
    gate: "held",
    on: criticallyCondemned,
    make: (story, _r, on) => {
      const name = some(condemned[on]);
      const site = some(sites(story, (it) => it.verb === "fit" && it.isNew === true && it.names.some((n) => n.name === name), on)[0]);
      delete site.act.isNew;
      return {
        at: [
          site.act.id,
          ...orUnfit(story.entries.filter((it) => (it.is === "finding" && it.name === name) || (it.is === "measure" && it.of === on)).map((it) => it.id)),
        ],
        about: [name],
      };
    },
  },
  {
    name: "condemned-one-to-the-other-side",
    does: "the new bearing goes in on the wrong side, the condemned one on the other",
    gate: "held",
    on: ["hub", "linkage"],
    make: (story, _r, on) => {
      const name = some(condemned[on]);
      const bad = some(findingOf(story, name, /pitted|worn/).place);
      const good = bad === "left" ? "right" : "left";
      const site = some(sites(story, (it) => it.verb === "fit" && it.names[0]?.name === name && it.isNew !== true)[0]);
      site.act.from = bad;
      site.act.places = [good];
      return { at: [site.act.id], about: [name] };
    },
  },
  {
    name: "new-over-the-old",
    does: "a new one is written as fitted; the old one never came off",
    gate: "held",
    // Not of what declares `renew` and lies bare: whoever writes a new one there has the old one in the hand.
    on: ["hub", "pinion", "headstock"],
    make: (story, _r, on) => {
      const name = { hub: "hub-bearing", pinion: "pinion-bearing", headstock: "spindle-bearing" }[on] as string;
      dropName(one(story, "remove", name), name);
      const site = one(story, "fit", name);
      return {
        at: sites(story, (it) => it.verb === "fit" && it.names.some((n) => n.name === name))
          .map((it) => it.act.id)
          .concat(site.act.id),
        about: [name],
      };
    },
  },
  {
    name: "decided-and-not-done",
    does: "decided `renew`, and nobody does it",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const it = untouched(story, on);
      const made = atFirst(story, on, it.name, [r.pick(["worn", "cracked", "bent"])], { decision: "renew" });
      return { at: [made.id], about: [it.name] };
    },
  },
  {
    name: "repair-decided-and-not-done",
    does: "decided `repair`, taken off, put back, not repaired",
    gate: "held",
    on: withSound,
    make: (story, _r, on) => {
      const name = some(sound[on]);
      const off = one(story, "remove", name);
      putAfter(story, off.step, finding(name, 3, ["bent"], { decision: 'repair "straighten"' }));
      const made = some(story.entries[story.entries.indexOf(off.step) + 1]);
      return { at: [made.id, lastOne(story, "fit", name).act.id], about: [name] };
    },
  },
  {
    name: "cracked-and-reused",
    does: "a cracked critical part is to be used again",
    gate: "held",
    on: withSound,
    make: (story, r, on) => {
      const name = some(sound[on]);
      const off = one(story, "remove", name);
      putAfter(story, off.step, finding(name, 3, [r.pick(["cracked", "bent", "broken"])], { decision: "reuse", because: "It has run so for years" }));
      return { at: [some(story.entries[story.entries.indexOf(off.step) + 1]).id, lastOne(story, "fit", name).act.id], about: [name] };
    },
  },
  {
    name: "part-left-over",
    does: "one part stays on the bench",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const fits = sites(
        story,
        (it) =>
          it.verb === "fit" &&
          it.forNow === undefined &&
          it.names.some((n) => find(story, "part", n.name) !== undefined && find(story, "part", n.name)?.heldBy.length === 0),
        on,
      );
      const site = r.pick(orUnfit(fits));
      const name = r.pick(orUnfit(site.act.names.filter((n) => find(story, "part", n.name)?.heldBy.length === 0))).name;
      dropName(site, name);
      return { at: sites(story, (it) => it.verb === "remove" && it.names.some((n) => n.name === name)).map((it) => it.act.id), about: [name] };
    },
  },
  {
    name: "rollers-one-short",
    does: "one of many is found missing, and none is put for it",
    gate: "held",
    on: ["gearbox", "steering-box"],
    make: (story, _r, on) => {
      const name = on === "gearbox" ? "roller" : "worm-ball";
      drop(lastOne(story, "fit", name));
      return { at: [findingOf(story, name).id, one(story, "fit", name).act.id], about: [name] };
    },
  },
  {
    name: "lost-on-the-bench",
    does: "all came out, one is lost on the bench, one short goes back",
    gate: "held",
    on: ["gearbox", "steering-box"],
    make: (story, _r, on) => {
      const name = on === "gearbox" ? "roller" : "worm-ball";
      const n = some(one(story, "remove", name).act.names[0]);
      n.n = some(n.n) + 1;
      drop(lastOne(story, "fit", name));
      return { at: [findingOf(story, name).id, one(story, "fit", name).act.id], about: [name] };
    },
  },
  {
    name: "one-too-many",
    does: "one more goes in than there is room for",
    gate: "held",
    on: ["gearbox", "chain-block"],
    make: (story, _r, on) => {
      const name = on === "gearbox" ? "ring" : "disc";
      const site = lastOne(story, "fit", name);
      const more = fitNew(`${name} 1`);
      after(site, more);
      return { at: [more.id, site.act.id], about: [name] };
    },
  },
  {
    name: "worn-one-of-four-back",
    does: "one ring of four is past its limit; all four go back",
    gate: "held",
    on: ["gearbox"],
    make: (story) => {
      const site = lastOne(story, "fit", "ring");
      delete site.act.isNew;
      return {
        at: [
          site.act.id,
          one(story, "fit", "ring").act.id,
          findingOf(story, "ring").id,
          ...story.entries.filter((it) => it.is === "measure" && it.limit === "ring-gap").map((it) => it.id),
        ],
        about: ["ring", "ring-gap"],
      };
    },
  },
  {
    name: "old-seal-again",
    does: "a seal or gasket that is used once goes back",
    gate: "held",
    on: ["hub", "pinion", "steering-box", "gearbox", "big-ends", "headstock"],
    make: (story, _r, on) => {
      const name = {
        hub: "hub-seal",
        pinion: "nose-gasket",
        "steering-box": "end-gasket",
        gearbox: "cover-gasket",
        "big-ends": "sump-gasket",
        headstock: "felt",
      }[on] as string;
      const site = one(story, "fit", name);
      delete site.act.isNew;
      return { at: [site.act.id], about: [name] };
    },
  },
  {
    name: "seal-disturbed-again",
    does: "off once more for a look; the new seal is not renewed a second time",
    gate: "held",
    on: ["hub", "pinion", "gearbox"],
    make: (story, _r, on) => {
      const [name, seal] = { hub: ["hub", "hub-seal"], pinion: ["nose", "nose-gasket"], gearbox: ["box-cover", "cover-gasket"] }[on] as [string, string];
      const site = one(story, "fit", name);
      const off = remove(name);
      const on_ = refit(name);
      after(site, off, on_);
      return { at: [off.id, on_.id, one(story, "fit", seal).act.id], about: [seal] };
    },
  },
  {
    name: "gasket-forgotten",
    does: "the cover goes on without its gasket",
    gate: "held",
    on: ["pinion", "steering-box", "gearbox", "big-ends"],
    make: (story, _r, on) => {
      const [name, seal] = {
        pinion: ["nose", "nose-gasket"],
        "steering-box": ["end-cover", "end-gasket"],
        gearbox: ["box-cover", "cover-gasket"],
        "big-ends": ["sump", "sump-gasket"],
      }[on] as [string, string];
      drop(one(story, "fit", seal));
      return { at: [one(story, "fit", name).act.id, one(story, "remove", seal).act.id], about: [seal] };
    },
  },
  {
    name: "fitted-behind-what-is-on",
    does: "the inner part is written as fitted after what it is behind",
    gate: "held",
    on: ["hub", "pinion", "gearbox", "headstock"],
    make: (story, _r, on) => {
      const [inner, outer] = {
        hub: ["hub-seal", "hub"],
        pinion: ["nose-gasket", "nose"],
        gearbox: ["cover-gasket", "box-cover"],
        headstock: ["felt", "spindle"],
      }[on] as [string, string];
      const site = one(story, "fit", inner);
      drop(site);
      const out = one(story, "fit", outer);
      after(out, site.act);
      return { at: [site.act.id, out.act.id], about: [inner, outer] };
    },
  },
  {
    name: "came-off-while-held",
    does: "written as off while its nuts are done up",
    gate: "spoken",
    on: withSound.filter((it) => !["steering-box", "chain-block", "winch-brake"].includes(it)),
    make: (story, _r, on) => {
      const name = some(sound[on]);
      const holds = find(story, "part", name)?.heldBy[0];
      const site = one(story, "undo", some(holds));
      dropName(site, some(holds));
      return { at: [one(story, "remove", name).act.id], about: [name, some(holds)] };
    },
  },
  {
    name: "wrong-part-left-in",
    does: "found wrong, and left in",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const it = untouched(story, on);
      const made = atFirst(story, on, it.name, [r.pick(['wrong "off a later model"', "reversed"])], { decision: "reuse" });
      return { at: [made.id], about: [it.name] };
    },
  },
  {
    name: "swapped-and-left",
    does: "found in each other's place, and left so",
    gate: "held",
    on: ["hub", "linkage", "spring"],
    make: (story, _r, on) => {
      const it = untouched(story, on, { each: "side" });
      const made = atFirst(story, on, it.name, ["swapped"], { decision: "reuse" });
      return { at: [made.id], about: [it.name] };
    },
  },
  {
    name: "sides-changed-over",
    does: "marked for its place, it goes back at the other",
    gate: "held",
    on: ["spring", "big-ends"],
    make: (story, _r, on) => {
      const [name, a, b] = on === "spring" ? ["axle-pad", "left", "right"] : ["big-end-cap", "one", "two"];
      const site = one(story, "fit", name as string);
      const first = { ...refit(`${name} @${a}`), from: b as string };
      const second = { ...refit(`${name} @${b}`), from: a as string };
      before(site, first, second);
      dropName(site, name as string);
      return { at: [first.id, second.id], about: [name as string] };
    },
  },
  {
    name: "one-of-a-pair-renewed",
    does: "renewed in pairs, and one side keeps the old",
    gate: "held",
    on: ["spring", "headstock"],
    make: (story, _r, on) => {
      const [name, bad] =
        on === "spring"
          ? ["leaf-spring", findingOf(story, "leaf-spring", /broken/).place]
          : ["spindle-bearing", findingOf(story, "spindle-bearing", /pitted/).place];
      const site = one(story, "fit", name as string);
      const other = some({ left: "right", right: "left", front: "rear", rear: "front" }[some(bad)]);
      site.act.places = [some(bad)];
      const old = refit(`${name} @${other}`);
      before(site, old);
      return {
        at: [site.act.id, old.id, ...story.entries.filter((it) => it.is === "finding" && it.name === name).map((it) => it.id)],
        about: [name as string],
      };
    },
  },
  {
    name: "old-beside-new-at-one-place",
    does: "of two bearings that go in pairs one is new, one old",
    gate: "held",
    on: ["pinion"],
    make: (story) => {
      const f = findingOf(story, "pinion-bearing");
      f.n = 1;
      const site = one(story, "fit", "pinion-bearing");
      site.act.names = [{ name: "pinion-bearing", n: 1 }];
      const old = refit("pinion-bearing 1");
      after(site, old);
      return { at: [site.act.id, old.id, f.id], about: ["pinion-bearing"] };
    },
  },
  {
    name: "matched-set-split",
    does: "a new pinion runs on the old crown wheel",
    gate: "held",
    on: ["pinion"],
    make: (story) => {
      const site = one(story, "fit", "crown-wheel");
      delete site.act.isNew;
      return { at: [site.act.id, one(story, "fit", "pinion").act.id], about: ["pinion", "crown-wheel"] };
    },
  },
  {
    name: "repaired-and-not-looked-at",
    does: "a cracked or bent critical part is repaired, and nobody looks again",
    gate: "held",
    on: ["linkage", "winch-brake"],
    make: (story, _r, on) => {
      const name = on === "linkage" ? "track-rod" : "lever";
      take(story, findingOf(story, name, /serviceable/));
      for (const it of [...story.entries])
        if (
          (it.is === "seen" && find(story, "check", it.check)?.of.includes(name)) ||
          (it.is === "measure" && find(story, "limit", it.limit)?.of.includes(name))
        )
          take(story, it);
      story.things = story.things.filter((it) => !((it.is === "check" || it.is === "limit") && it.of.includes(name)));
      return { at: [one(story, "repair", name).act.id, findingOf(story, name).id], about: [name] };
    },
  },
  {
    name: "leaking-one-back",
    does: "it leaked; it comes off and goes back",
    gate: "held",
    on: ["hub"],
    make: (story) => {
      const f = findingOf(story, "cylinder", /leaking/);
      f.decision = "reuse";
      const site = some(sites(story, (it) => it.verb === "fit" && it.names[0]?.name === "cylinder" && it.isNew === true)[0]);
      delete site.act.isNew;
      return { at: [f.id, site.act.id], about: ["cylinder"] };
    },
  },
  {
    name: "fitted-while-away",
    does: "it is at the grinder's, and written as fitted",
    gate: "held",
    on: ["steering-box"],
    make: (story) => {
      const came = some(story.entries.find((it): it is Order => it.is === "order" && it.reference === "W-11" && it.moves === true));
      take(story, came);
      return { at: [one(story, "fit", "sector").act.id, some(story.entries.find((it) => it.is === "order" && it.reference === "W-11")).id], about: ["sector"] };
    },
  },
  {
    name: "fitted-before-it-came",
    does: "the new part is fitted on a day before it came",
    gate: "held",
    on: ["linkage", "pinion", "chain-block", "winch-brake"],
    make: (story, _r, on) => {
      const came = some(story.entries.find((it): it is Order => it.is === "order" && it.of === on && it.moves === true));
      const order = some(story.entries.find((it): it is Order => it.is === "order" && it.of === on && it.moves !== true));
      take(story, came);
      const name = some(condemned[on]);
      return {
        at: [order.id, ...sites(story, (it) => it.verb === "fit" && it.isNew === true, on).map((it) => it.act.id)],
        about: [name, ...order.items.map((it) => it.name)],
      };
    },
  },
  {
    name: "received-and-never-fitted",
    does: "the new one came, and the old one went back",
    gate: "held",
    on: ["linkage", "winch-brake", "chain-block"],
    make: (story, _r, on) => {
      const name = some(condemned[on]);
      const site = some(sites(story, (it) => it.verb === "fit" && it.isNew === true && it.names[0]?.name === name)[0]);
      delete site.act.isNew;
      const f = findingOf(story, name, /worn/);
      return {
        at: [site.act.id, f.id, ...story.entries.filter((it) => (it.is === "measure" || it.is === "order") && it.of === on).map((it) => it.id)],
        about: [name],
      };
    },
  },
  {
    name: "nothing-decided",
    does: "a critical part is found worn, and nothing is decided",
    gate: "held",
    on: everywhere,
    make: (story, _r, on) => {
      const it = untouched(story, on);
      const made = atFirst(story, on, it.name, ["worn"]);
      return { at: [made.id], about: [it.name] };
    },
  },
  {
    name: "question-open",
    does: "asked, and never answered",
    gate: "held",
    on: withSound,
    make: (story, _r, on) => {
      const name = some(sound[on]);
      const off = one(story, "remove", name);
      const asked = `ask-${on}`;
      const f = finding(name, 3, ["pitted"], { decision: `ask ${asked}` });
      putAfter(story, off.step, f, { ...extra("x"), is: "question", name: asked, text: "Who can say how deep is too deep?", about: [name] } as never);
      const i = story.entries.indexOf(off.step);
      return { at: [some(story.entries[i + 1]).id, some(story.entries[i + 2]).id, lastOne(story, "fit", name).act.id], about: [name] };
    },
  },
  {
    name: "dry-and-left",
    does: "a critical part is found dry or blocked, and left so",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const it = untouched(story, on, { critical: "drive" });
      const made = atFirst(story, on, it.name, [r.pick(["dry", "blocked"])], { decision: "reuse" });
      return { at: [made.id], about: [it.name] };
    },
  },
  {
    name: "missing-and-left",
    does: "a critical part is found missing, and never made good",
    gate: "held",
    on: everywhere,
    make: (story, _r, on) => {
      const it = untouched(story, on);
      const made = atFirst(story, on, it.name, ["missing"]);
      return { at: [made.id], about: [it.name] };
    },
  },
  {
    name: "fellow-never-looked-at",
    does: "it broke at one side, and nobody looked at the other",
    gate: "held",
    on: ["hub", "linkage", "spring"],
    make: (story, r, on) => {
      const it = untouched(story, on, { each: "side" });
      const bad = r.pick(["left", "right"]);
      const made = atFirst(story, on, it.name, ["cracked"], { place: bad, decision: "renew" });
      const off = remove(`${it.name} @${bad}`);
      const put = fitNew(`${it.name} @${bad}`);
      const strip = some(sites(story, (act_) => act_.verb === "undo", on)[0]);
      before(strip, off);
      const build = some(sites(story, (act_) => act_.verb === "fit", on).at(-1));
      after(build, put);
      return { at: [made.id, put.id], about: [it.name] };
    },
  },
  {
    name: "debris-unexplained",
    does: "metal in the oil that a critical part runs in, and nothing accounts for it",
    gate: "held",
    on: everywhere,
    make: (story, r, on) => {
      const it = untouched(story, on, { critical: "drive" });
      const oil = fluid(`${on}-case-oil`, "Idler case oil", [it.name], q(200, "ml"));
      story.things.push(oil);
      const made = atFirst(story, on, oil.name, [r.pick(["fragments", "metallic"])]);
      return { at: [made.id], about: [oil.name, it.name] };
    },
  },
  {
    name: "for-now-left-in",
    does: "fitted for now, and left in",
    gate: "held",
    on: withSound,
    make: (story, _r, on) => {
      const name = some(sound[on]);
      const site = lastOne(story, "fit", name);
      dropName(site, name);
      const put = { ...refit(name), forNow: "to try the length" };
      before({ ...site, act: some(site.step.acts[Math.min(site.i, site.step.acts.length - 1)]) }, put);
      return { at: [put.id], about: [name] };
    },
  },
  {
    name: "old-gasket-for-a-trial-left-in",
    does: "the old gasket goes in for a trial, and stays",
    gate: "held",
    on: ["gearbox", "pinion"],
    make: (story, _r, on) => {
      const name = on === "gearbox" ? "cover-gasket" : "nose-gasket";
      const site = one(story, "fit", name);
      delete site.act.isNew;
      site.act.forNow = "to read the gap";
      return { at: [site.act.id], about: [name] };
    },
  },
  {
    name: "wrong-decision-exchange-not-done",
    does: "an exchange unit is decided, and the old one goes back",
    gate: "held",
    on: withSound,
    make: (story, _r, on) => {
      const name = some(sound[on]);
      const off = one(story, "remove", name);
      putAfter(story, off.step, finding(name, 3, ["worn"], { decision: "exchange" }));
      return { at: [some(story.entries[story.entries.indexOf(off.step) + 1]).id, lastOne(story, "fit", name).act.id], about: [name] };
    },
  },
  {
    name: "sent-out-and-never-back",
    does: "a part is sent out, and the job is signed while it is away",
    gate: "held",
    on: ["gearbox", "big-ends"],
    make: (story, _r, on) => {
      const name = on === "gearbox" ? "fork" : "oil-pump";
      const off = one(story, "remove", name);
      const [out] = sentOut(`W-${on}`, name, undefined, "build up and grind");
      putAfter(story, off.step, some(out));
      return { at: [some(story.entries[story.entries.indexOf(off.step) + 1]).id, lastOne(story, "fit", name).act.id], about: [name] };
    },
  },
  {
    name: "worn-cover-left-leaking",
    does: "found leaking, a gasket is decided, nobody fits one",
    gate: "held",
    on: ["gearbox", "steering-box"],
    make: (story, _r, on) => {
      const it = untouched(story, on, { critical: "the brakes" });
      const oil = fluid(`${on}-dash-oil`, "Dashpot oil", [it.name], q(50, "ml"));
      story.things.push(oil);
      const made = atFirst(story, on, it.name, ["leaking"], { decision: 'repair "new gasket"' });
      return { at: [made.id], about: [it.name] };
    },
  },
  {
    name: "mended-part-never-fitted",
    does: "a part is repaired on the bench and stays there",
    gate: "held",
    on: ["linkage", "winch-brake"],
    make: (story, _r, on) => {
      const name = on === "linkage" ? "drop-arm" : "lever-spring";
      const site = lastOne(story, "fit", name);
      dropName(site, name);
      for (const it of sites(story, (one_) => (one_.verb === "tighten" || one_.verb === "lock") && name === "drop-arm" && one_.names[0]?.name === "arm-nut"))
        drop(it);
      return { at: [one(story, "remove", name).act.id], about: [name, "arm-nut"] };
    },
  },
];
