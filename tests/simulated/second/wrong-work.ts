// Mistakes with oil, energy, weight and the record: what runs dry, what was live, what hung, what was never written or done.
import type { Chance } from "./chance.ts";
import { type Act, acts, alone, before, behind, drop, first, last, type Step, type Story, toEnd } from "./deeds.ts";
import { hurt, looks, opened, pick, placeFor, readings, type Wrong } from "./kind.ts";
import { everywhere, usedOnce } from "./plant.ts";

const wrong = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, make });

const warned = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, warns: true, make });

function fluidAt(
  story: Story,
  c: Chance,
  verb: "fill" | "bleed",
  each = false,
): { name: string; at: string | undefined; deed: Act; ml: number; in: string[]; holder: string | undefined } | undefined {
  const fluid = pick(
    story.plant.fluids.filter((it) => last(story, verb, it.name) !== undefined && (!each || it.each)),
    c,
  );
  const at = fluid && placeFor(story, fluid, c);
  const deed = fluid && last(story, verb, fluid.name, at);
  return fluid === undefined || deed === undefined
    ? undefined
    : { name: fluid.name, at, deed: alone(story, deed, at), ml: fluid.ml, in: fluid.in, holder: fluid.holder };
}

const lower = (story: Story): Act | undefined =>
  acts(story)
    .filter((it) => it.do === "lower" && it.text === undefined)
    .at(-1);
const up = (story: Story): Act | undefined => acts(story).find((it) => it.do === "raise" && it.text === "on jack");
const stands = (story: Story): Act | undefined => acts(story).find((it) => it.do === "support" && it.text?.startsWith("on 2 stands"));

export const wrongWork: Wrong[] = [
  wrong("not-filled", "no oil or grease went back", (story, c) => {
    const it = fluidAt(story, c, "fill");
    if (it === undefined) return undefined;
    drop(story, it.deed);
    return hurt([it.name, ...it.in]);
  }),
  wrong("half-filled", "half of the oil went back", (story, c) => {
    const it = fluidAt(story, c, "fill");
    if (it === undefined) return undefined;
    it.deed.ml = it.ml / 2;
    return hurt(it.name, it.deed);
  }),
  wrong("not-filled-at-one", "one place was filled, the other not", (story, c) => {
    const it = fluidAt(story, c, "fill", true);
    if (it === undefined) return undefined;
    drop(story, it.deed);
    return hurt(it.name);
  }),
  wrong("filled-into-the-open", "filled before what it lies in was on", (story, c) => {
    const it = fluidAt(story, c, "fill");
    const fit = it?.holder && last(story, "fit", it.holder);
    if (it === undefined || !fit) return undefined;
    drop(story, it.deed);
    before(story, fit, it.deed);
    return hurt(it.name, it.deed);
  }),
  wrong("drained-again", "drained once more at the end, and not filled", (story, c) => {
    const it = fluidAt(story, c, "fill");
    if (it === undefined) return undefined;
    const deed: Act = { do: "drain", what: it.name, at: it.deed.at };
    toEnd(story, deed);
    return hurt(it.name, deed);
  }),
  wrong("not-bled", "air left in the brakes", (story, c) => {
    const it = fluidAt(story, c, "bleed");
    if (it === undefined) return undefined;
    drop(story, it.deed);
    return hurt(it.name, last(story, "fill", it.name));
  }),
  wrong("bled-then-opened", "opened once more after it was bled", (story, c) => {
    const it = fluidAt(story, c, "bleed");
    const part = it && story.plant.parts.find((one) => one.name === it.in[0]);
    const bolt = part && story.plant.fasteners.find((one) => one.name === part.held[0]);
    const tight = bolt && last(story, "tighten", bolt.name);
    const lock = bolt && last(story, "lock", bolt.name);
    if (it === undefined || part === undefined || bolt === undefined || tight === undefined || lock === undefined) return undefined;
    const at = tight.at?.slice(0, 1);
    behind(
      story,
      it.deed,
      { do: "undo", what: bolt.name, at },
      { do: "remove", what: part.name, at },
      { do: "fit", what: part.name, at },
      { ...tight, at },
      { ...lock, at },
    );
    return hurt([it.name, part.name], it.deed);
  }),
  wrong("milky-left", "water in the oil, and the same stays in", (story, c) => {
    const fluid = pick(story.plant.fluids, c);
    if (fluid === undefined) return undefined;
    const seen = { do: "found" as const, what: fluid.name, at: placeFor(story, fluid, c), is: [c.one(["milky", "low", 'wrong "cooking oil"'])] };
    toEnd(story, seen);
    return hurt(fluid.name, seen);
  }),
  wrong("leak-looked-for-too-soon", "looked dry before there was anything in it", (story, c) => {
    const check = pick(
      story.plant.checks.filter((it) => it.name === "no-leak"),
      c,
    );
    const fill = check && last(story, "fill", "brake-fluid");
    if (check === undefined || fill === undefined) return undefined;
    for (const deed of looks(story, check.name)) {
      drop(story, deed);
      before(story, fill, deed);
    }
    return hurt([check.name, "brake-fluid"]);
  }),
  wrong("live", "undone while it was live, made safe afterwards", (story, c) => {
    const hazard = pick(story.plant.hazards, c);
    const safe = hazard && first(story, "safe", hazard.name);
    const undo = hazard && first(story, "undo", hazard.before);
    if (hazard === undefined || safe === undefined || undo === undefined) return undefined;
    drop(story, safe);
    behind(story, undo, safe);
    return hurt([hazard.name, hazard.before], undo);
  }),
  wrong("never-safe", "never made safe at all", (story, c) => {
    const hazard = pick(story.plant.hazards, c);
    const safe = hazard && first(story, "safe", hazard.name);
    const restore = hazard && first(story, "restore", hazard.name);
    if (hazard === undefined || safe === undefined || restore === undefined) return undefined;
    drop(story, safe);
    drop(story, restore);
    return hurt([hazard.name, hazard.before], first(story, "undo", hazard.before));
  }),
  wrong("live-too-soon", "made live while what covers it is off", (story, c) => {
    const hazard = pick(story.plant.hazards, c);
    const restore = hazard && first(story, "restore", hazard.name);
    const fit = hazard && acts(story).find((it) => (it.do === "tighten" || it.do === "fit") && it.what === hazard.before);
    if (hazard === undefined || restore === undefined || fit === undefined) return undefined;
    drop(story, restore);
    before(story, fit, restore);
    return hurt([hazard.name, hazard.before], restore);
  }),
  wrong("left-safe", "never made live again", (story, c) => {
    const hazard = pick(story.plant.hazards, c);
    const restore = hazard && first(story, "restore", hazard.name);
    if (hazard === undefined || restore === undefined) return undefined;
    drop(story, restore);
    return hurt(hazard.name);
  }),
  wrong("under-the-jack", "somebody went under with the jack alone", (story) => {
    const raise = up(story);
    if (raise === undefined) return undefined;
    behind(story, raise, { do: "under" }, { do: "clear" });
    return { ...hurt([], raise), words: /jack/ };
  }),
  wrong("jack-alone", "the wheels came off with the jack alone under it", (story) => {
    const deed = stands(story);
    if (deed === undefined) return undefined;
    drop(story, deed);
    return { ...hurt([]), words: /jack/ };
  }),
  warned("no-chocks", "nothing kept it from rolling", (story) => {
    const deed = acts(story).find((it) => it.do === "chock");
    if (deed === undefined) return undefined;
    drop(story, deed);
    return { ...hurt([], up(story)), words: /chock/i };
  }),
  warned("chocks-after", "chocked when it was up already", (story) => {
    const deed = acts(story).find((it) => it.do === "chock");
    const raise = up(story);
    if (deed === undefined || raise === undefined) return undefined;
    drop(story, deed);
    behind(story, raise, deed);
    return { ...hurt([], raise), words: /chock/i };
  }),
  wrong("left-up", "released while it stands on its stands", (story) => {
    const deed = lower(story);
    if (deed === undefined || up(story) === undefined) return undefined;
    drop(story, deed);
    return { ...hurt([], up(story)), words: /still up|stands|lower/i };
  }),
  wrong("stands-overloaded", "more on the stands than they may bear", (story) => {
    const deed = stands(story);
    if (deed === undefined) return undefined;
    deed.text = 'on 2 stands under "the frame" rated 500 kg together load 800 kg';
    return { ...hurt([], deed), words: /load|rated/i };
  }),
  wrong("let-down-on-somebody", "let down while somebody was under it", (story) => {
    const deed = lower(story);
    const deck = stands(story);
    if (deed === undefined || deck === undefined) return undefined;
    behind(story, deck, { do: "under" });
    return { ...hurt([], deed), words: /underneath/i };
  }),
  wrong("let-down-open", "let down with a wheel off", (story) => {
    const deed = lower(story);
    const fit = last(story, "fit", "wheel");
    if (deed === undefined || fit === undefined) return undefined;
    before(story, fit, { ...deed });
    drop(story, deed);
    return { ...hurt("wheel", deed), words: /let down|lower/i };
  }),
  warned("weight-on-nothing", "a heavy part lost its last fastener and nothing held it", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => (it.mass ?? 0) >= 20),
      c,
    );
    const deed = part && acts(story).find((it) => it.do === "support" && it.text?.startsWith(part.name));
    if (part === undefined || deed === undefined) return undefined;
    drop(story, deed);
    return hurt([part.name, part.held[0] as string]);
  }),
  wrong("left-hanging", "hung on the crane over night", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => (it.mass ?? 0) >= 20),
      c,
    );
    const deed = part && acts(story).find((it) => it.do === "lower" && it.text?.startsWith(part.name));
    if (part === undefined || deed === undefined) return undefined;
    drop(story, deed);
    return { ...hurt(part.name), words: /hang|crane/i };
  }),
  wrong("crane-overloaded", "more on the crane than it may lift", (story, c) => {
    const deed = pick(
      acts(story).filter((it) => it.do === "support" && it.text?.includes("crane")),
      c,
    );
    if (deed === undefined) return undefined;
    deed.text = deed.text?.replace("rated 250 kg", "rated 20 kg");
    return { ...hurt([], deed), words: /rated|load/i };
  }),
  wrong("no-proof-load", "lifting gear back to work without its proof load", (story) => {
    if (story.plant.rated === undefined) return undefined;
    story.release.tests = ['"Wound up and down empty: smooth"'];
    return { ...hurt([]), words: /proof|load/i };
  }),
  wrong("proof-load-low", "tried with half of what it may lift", (story) => {
    if (story.plant.rated === undefined) return undefined;
    story.release.tests = [`"Held ten minutes" load ${story.plant.rated / 2} kg`];
    return { ...hurt([]), words: /proof|load|tried/i };
  }),
  wrong("not-tried", "brakes, steering or a wheel disturbed, and nothing tried", (story, c) => {
    if (!["hub", "king-pin", "drop-arm", "brake", "leaf-spring"].includes(story.plant.key)) return undefined;
    story.release.tests = [];
    for (const check of story.plant.checks) {
      check.critical = "";
      story.deeds = story.deeds.filter((it) => !(it.do === "seen" && it.what === check.name));
    }
    story.plant.checks = [];
    void c;
    return { ...hurt([]), words: /test/i };
  }),
  wrong("planned-only", "the last work is planned and not done", (story, c) => {
    const part = pick(story.plant.parts, c);
    const fit = part && last(story, "fit", part.name);
    if (part === undefined || fit === undefined) return undefined;
    const step: Step = { do: "step", title: "Greased once more", planned: true };
    toEnd(story, step, { do: "grease", what: part.name });
    return { ...hurt(part.name, step), words: /planned|not done/i };
  }),
  wrong("locking-planned-only", "locking it is planned and not done", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && it.locking !== undefined && it.locking !== "nothing");
    const lock = fastener && last(story, "lock", fastener.name);
    if (fastener === undefined || lock === undefined) return undefined;
    drop(story, lock);
    const step: Step = { do: "step", title: "Lock it", planned: true };
    toEnd(story, step, lock);
    return hurt(fastener.name, step, lock);
  }),
  wrong("done-at-one-only", "a step was done at one place and not at the other", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && it.each && it.locking !== undefined && it.locking !== "nothing" && usedOnce(it));
    const lock = fastener && last(story, "lock", fastener.name);
    if (fastener === undefined || lock === undefined || lock.at?.length !== everywhere(story.plant).length) return undefined;
    const step: Step = { do: "step", title: "Lock them", doneAt: [everywhere(story.plant)[0] as string] };
    before(story, lock, step);
    behind(story, lock, { do: "step", title: "And on" });
    return hurt(fastener.name, step, lock);
  }),
  wrong("reading-left-blank", "a blank where the last reading belongs", (story, c) => {
    const limit = pick(
      story.plant.limits.filter((it) => it.set !== undefined),
      c,
    );
    const deed = limit && readings(story, limit.name, "final").at(-1);
    if (limit === undefined || deed === undefined) return undefined;
    const mine = deed.rows[0]?.at;
    const blank = {
      do: "write" as const,
      what: limit.name,
      lines: [`measure ${limit.name} final`, `  ${mine === undefined ? "" : `${mine} `}___ ${story.plant.length}`],
    };
    before(story, deed, blank);
    if (limit.each) deed.rows = deed.rows.filter((it) => it.at !== mine);
    if (!limit.each || deed.rows.length === 0) drop(story, deed);
    return hurt(limit.name, blank);
  }),
  wrong("backward-days", "put together on a day before it came apart", (story) => {
    const lock = acts(story)
      .filter((it) => it.do === "tighten")
      .at(-1);
    if (lock === undefined) return undefined;
    const step: Step = { do: "step", title: "Tight", early: 40 };
    before(story, lock, step);
    behind(story, lock, { do: "step", title: "And on" });
    return hurt(lock.what as string, step, lock);
  }),
  wrong("opened-after-release", "opened again after it was released", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && Array.isArray(it.torque));
    const tight = fastener && last(story, "tighten", fastener.name);
    if (fastener === undefined || tight === undefined) return undefined;
    const undo: Act = { do: "undo", what: fastener.name, at: tight.at };
    story.after.push({ do: "step", title: "Had another look" }, undo);
    return hurt(fastener.name, undo);
  }),
  wrong("other-sheet-open", "the same machine is open on another sheet", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.critical !== undefined),
      c,
    );
    if (part === undefined) return undefined;
    story.files["other.jobsheet"] =
      `sheet "The other end"\n  machine "${story.plant.machine}"\n  by "R. Tamm"\n  opened 2026-03-02\n\npart far-link "Far link"\n  held by far-nut\n  critical "steering"\n\nfastener far-nut "Far nut"\n  torque 40 .. 50 N.m\n  locked by split pin 3.2 x 25 mm\n  critical "steering"\n  source "Notes"\n\nstep off "Off"\n  undo far-nut\n  remove far-link\n  done 2026-03-03\n`;
    return { ...hurt([]), words: /other\.jobsheet/ };
  }),
  wrong("accepted-away", "an old split pin accepted with a word", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && usedOnce(it));
    const lock = fastener && last(story, "lock", fastener.name);
    if (fastener === undefined || lock === undefined) return undefined;
    lock.fresh = false;
    const step: Step = { do: "step", title: "Locked", details: ['  accept locking-reused "It was nearly new"'] };
    before(story, lock, step);
    behind(story, lock, { do: "step", title: "And on" });
    return hurt(fastener.name, step, lock);
  }),
  wrong("torque-owned-up-to", "too tight, and owned up to as if it were over", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && Array.isArray(it.torque));
    const tight = fastener && last(story, "tighten", fastener.name);
    if (fastener === undefined || tight?.to === undefined) return undefined;
    tight.to = [...tight.to.slice(0, -1), Math.round((tight.to.at(-1) as number) * 1.5)];
    const step: Step = { do: "step", title: "Tight", details: ['  admit torque-outside "It held" by "R. Tamm"'] };
    before(story, tight, step);
    behind(story, tight, { do: "step", title: "And on" });
    return hurt(fastener.name, step, tight);
  }),
  wrong("name-slipped", "a locking line whose name is of nothing", (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && it.locking !== undefined && it.locking !== "nothing");
    const lock = fastener && last(story, "lock", fastener.name);
    if (fastener === undefined || lock === undefined) return undefined;
    lock.what = "the-nut";
    return hurt([fastener.name, "the-nut"], lock);
  }),
  wrong("conceded-crack", "a cracked part let pass by the owner", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.critical !== undefined),
      c,
    );
    if (part === undefined) return undefined;
    const at = placeFor(story, part, c);
    const seen = { do: "found" as const, what: part.name, at, is: ["cracked"] };
    const given = {
      do: "write" as const,
      what: part.name,
      lines: [`concession ${part.name}${at === undefined ? "" : ` ${at}`} "It has held so far" by "The owner" TODAY`],
    };
    toEnd(story, seen, given);
    return hurt(part.name, seen, given);
  }),
];
