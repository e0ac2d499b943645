// Something was found at fault, and put right as it should be.
import { finding, step } from "./build.ts";
import { act, find, refit, fitNew, lockNew, remove, said, tighten, undo } from "./things.ts";
import { after, atFirst, bystander, everywhere, type Kind, middle, one, putAfter, putBefore, sites, some, take, Unfit, quiet } from "./kind.ts";
import { again } from "./mistakes-fasteners.ts";
import { sound, untouched, withSound } from "./mistakes-parts.ts";

export const putRight: Kind[] = [
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
      // The second one came too: one that is bought is used once.
      for (const order of story.entries) if (order.is === "order") order.items = order.items.map((it) => (it.name === seal ? { ...it, n: it.n + 1 } : it));
      return quiet;
    },
  },
];
