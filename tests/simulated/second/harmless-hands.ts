// The same work told in another hand, or done another way that is as good. None of these leaves anything wrong with the machine.
import type { Chance } from "./chance.ts";
import { type Act, acts, alone, before, beforeClosing, behind, type Deed, drop, first, last, type Manner, type Step, type Story } from "./deeds.ts";
import { torqueInside } from "./figures.ts";
import { type Harmless, opened, pick } from "./kind.ts";
import { everywhere, type Fastener, placesOf, usedOnce } from "./plant.ts";

const fair = (name: string, does: string, make: Harmless["make"]): Harmless => ({ name, does, make });

const told = (name: string, does: string, how: Partial<Manner>): Harmless =>
  fair(name, does, (story) => {
    story.manner = { ...story.manner, ...how };
    return true;
  });

const pulled = (it: Fastener): boolean => Array.isArray(it.torque);

/** The last deed of a verb on a fastener of a sort, as it stands. */
function deedOf(story: Story, c: Chance, verb: Act["do"], like: (it: Fastener) => boolean): { fastener: Fastener; deed: Act } | undefined {
  const fastener = opened(story, c, like);
  const deed = fastener && last(story, verb, fastener.name);
  return fastener === undefined || deed === undefined ? undefined : { fastener, deed };
}

/** Opens a fastener once more and does it up as it belongs, with a new locking where it takes one. */
export function onceMore(story: Story, fastener: Fastener, verb: "undo" | "slacken"): Act[] {
  const at = placesOf(story.plant, fastener);
  const tight = last(story, "tighten", fastener.name);
  const back = last(story, "let back", fastener.name);
  const lock = last(story, "lock", fastener.name);
  return [
    { do: verb, what: fastener.name, at },
    ...(tight ? [{ ...tight, at, n: undefined }] : []),
    ...(back ? [{ ...back, at }] : []),
    ...(lock ? [{ ...lock, at, n: undefined }] : []),
  ];
}

/** Sets nothing: opening it moves no setting. */
const setsNothing = (story: Story, it: Fastener): boolean =>
  story.plant.limits.every((limit) => limit.by?.includes(it.name) !== true) &&
  story.plant.parts.every((part) => !part.held.includes(it.name) || story.plant.shims.length === 0);

const inStep = (story: Story, deed: Deed, step: Partial<Step>): void => {
  before(story, deed, { do: "step", title: "By itself", ...step });
  behind(story, deed, { do: "step", title: "And on" });
};

export const harmlessHands: Harmless[] = [
  fair("as-it-is", "nothing changed", () => true),
  told("in-a-data-file", "declared in a file of its own", { file: true }),
  told("declared-in-the-sheet", "declared in the sheet", { file: false }),
  told("days-by-entry", "days by entry", { days: true }),
  told("days-on-lines", "days on each line", { days: false }),
  told("places-left-out", "places left out where all are meant", { allPlaces: false, apart: false }),
  told("place-by-place", "a line for each place", { allPlaces: true, apart: true }),
  told("short-steps", "a step for every few lines", { shortSteps: true, oneStep: false }),
  told("one-long-step", "as few steps as can be", { shortSteps: false, oneStep: true }),
  told("small-units", "readings in thou or micrometres", { otherUnits: true }),
  told("in-two-files", "figures and gauges in a file of their own", { twoFiles: true }),
  told("limits-looked-up-last", "the limits declared below the work", { limitsLast: true, file: false }),
  told("talkative", "notes, tools, times and comments", { notes: true }),
  fair("pulled-twice", "pulled once more to the same torque before it is locked", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => pulled(f) && f.letBack === undefined && !f.renew);
    if (it === undefined) return false;
    behind(story, it.deed, { ...it.deed });
    return true;
  }),
  fair("on-to-the-slot", "a little further, inside its torque, on to the next slot", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => pulled(f) && f.locking?.startsWith("split pin") === true && f.letBack === undefined);
    if (it?.deed.to === undefined) return false;
    behind(story, it.deed, { ...it.deed, to: [(it.deed.to.at(-1) as number) + 1] });
    return true;
  }),
  fair("eased-and-done-again", "eased, pulled and locked anew", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => pulled(f) && !f.renew && setsNothing(story, f) && f.name !== "cylinder-bolt");
    if (it === undefined) return false;
    beforeClosing(story, ...onceMore(story, it.fastener, "slacken"));
    return true;
  }),
  fair("off-and-on-again", "the outermost part off once more, and back as it belongs", (story, c) => {
    const part = story.plant.parts[0];
    const fastener = part && story.plant.fasteners.find((it) => it.name === part.held[0]);
    if (part === undefined || fastener === undefined || fastener.renew || !setsNothing(story, fastener) || (part.mass ?? 0) >= 20) return false;
    if (story.plant.parts.some((it) => it.renewWith === part.name) || story.plant.fluids.some((it) => it.in.includes(part.name))) return false;
    const at = placesOf(story.plant, part);
    const [undo, ...rest] = onceMore(story, fastener, "undo");
    const checks = story.deeds.filter((it) => it.do === "seen" && story.plant.checks.some((check) => check.name === it.what && check.of === part.name));
    const fit: Act[] = fastener.torque === "none" ? [{ do: "fit", what: fastener.name, at: placesOf(story.plant, fastener) }] : [];
    beforeClosing(
      story,
      undo as Act,
      { do: "remove", what: part.name, at },
      { do: "fit", what: part.name, at },
      ...fit,
      ...rest,
      ...checks.map((it) => ({ ...it })),
    );
    void c;
    return true;
  }),
  fair("counted-in-halves", "undone so many at a time", (story, c) => {
    const it = deedOf(story, c, "undo", (f) => f.n > 1);
    if (it === undefined) return false;
    const half = Math.floor(it.fastener.n / 2);
    it.deed.n = half;
    behind(story, it.deed, { ...it.deed, n: it.fastener.n - half });
    return true;
  }),
  fair("tightened-in-halves", "tightened so many at a time", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => pulled(f) && f.n > 1 && f.angle === undefined);
    if (it === undefined) return false;
    it.deed.n = 1;
    behind(story, it.deed, { ...it.deed, n: it.fastener.n - 1 });
    return true;
  }),
  fair("locked-in-halves", "locked so many at a time", (story, c) => {
    const it = deedOf(story, c, "lock", (f) => f.n > 1 && (f.serves ?? 1) === 1);
    if (it === undefined) return false;
    it.deed.n = 1;
    behind(story, it.deed, { ...it.deed, n: it.fastener.n - 1 });
    return true;
  }),
  fair("wires-in-turn", "two fasteners to a wire or plate, one after the other", (story, c) => {
    const it = deedOf(story, c, "lock", (f) => (f.serves ?? 1) === 2 && f.n > 2 && f.n % 2 === 0);
    if (it === undefined) return false;
    it.deed.n = 2;
    behind(story, it.deed, { ...it.deed, n: it.fastener.n - 2 });
    return true;
  }),
  fair("locking-by-name", "the locking written out", (story, c) => {
    const it = deedOf(story, c, "lock", (f) => usedOnce(f));
    if (it === undefined) return false;
    it.deed.instead = `new ${it.fastener.locking}`;
    return true;
  }),
  fair("shop-words", "safety wire and nylon insert for lock wire and self-locking nut", (story, c) => {
    const it = deedOf(story, c, "lock", (f) => /^(lock wire|self-locking nut)/.test(f.locking ?? ""));
    if (it === undefined) return false;
    it.deed.instead = `new ${it.fastener.locking?.replace("lock wire", "safety wire").replace("self-locking nut", "nylon insert")}`;
    return true;
  }),
  fair("stages-on-lines", "each stage a line", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => f.stage !== undefined && f.angle === undefined);
    if (it?.deed.to === undefined) return false;
    before(story, it.deed, { ...it.deed, to: it.deed.to.slice(0, 1) });
    it.deed.to = it.deed.to.slice(1);
    return true;
  }),
  fair("by-hand-then-torque", "run up by hand first", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => pulled(f) && !f.renew);
    if (it === undefined) return false;
    before(story, it.deed, { ...it.deed, to: undefined, by: undefined, angle: undefined });
    return true;
  }),
  fair("no-wrench-named", "the torque without the wrench", (story, c) => {
    const it = deedOf(story, c, "tighten", pulled);
    if (it === undefined) return false;
    it.deed.by = undefined;
    return true;
  }),
  fair("for-now-and-then-right", "nipped up for now, then undone and done right", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => pulled(f) && !f.renew && f.letBack === undefined);
    if (it === undefined) return false;
    before(
      story,
      it.deed,
      { ...it.deed, to: undefined, by: undefined, angle: undefined, forNow: "to try it" },
      { do: "undo", what: it.fastener.name, at: it.deed.at },
    );
    return true;
  }),
  fair("all-new-fasteners", "sound ones renewed all the same", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => !f.renew && f.n < 7 && f.leftHandAt === undefined);
    if (it === undefined) return false;
    for (const fit of acts(story).filter((act) => act.do === "fit" && act.what === it.fastener.name)) drop(story, fit);
    before(story, acts(story).find((act) => act.do === "tighten" && act.what === it.fastener.name) ?? it.deed, {
      do: "fit",
      what: it.fastener.name,
      at: first(story, "undo", it.fastener.name)?.at,
      fresh: true,
    });
    return true;
  }),
  fair("step-of-its-place", "a step that says at which place it is done", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => pulled(f) && f.each && !f.renew && f.letBack === undefined && f.locking === undefined);
    const at = it && pick(it.deed.at ?? [], c);
    if (it === undefined || at === undefined) return false;
    const mine = alone(story, it.deed, at);
    inStep(story, mine, { details: [`  at ${at}`] });
    mine.at = undefined;
    return true;
  }),
  fair("done-of-its-places", "a step done at all places by name", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => pulled(f) && f.each && f.letBack === undefined && f.locking === undefined);
    if (it === undefined || it.deed.at?.length !== everywhere(story.plant).length) return false;
    inStep(story, it.deed, { doneAt: everywhere(story.plant) });
    return true;
  }),
  fair("with-a-mark-and-a-look", "marks, inspects, heats, cleans and oils more than it has to", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.material !== "white-metal" && it.grips !== true),
      c,
    );
    const fit = part && acts(story).find((it) => it.do === "fit" && it.what === part.name);
    if (part === undefined || fit === undefined) return false;
    const at = placesOf(story.plant, part);
    before(
      story,
      fit,
      { do: "inspect", what: part.name, at },
      { do: "clean", what: part.name, at },
      { do: "heat", what: part.name, at, text: "to 70 degC" },
      { do: "oil", what: part.name, at },
    );
    return true;
  }),
  fair("filled-in-two-goes", "half of the oil, a look, the other half", (story, c) => {
    const fluid = pick(story.plant.fluids, c);
    const fill = fluid && last(story, "fill", fluid.name);
    if (fluid === undefined || fill === undefined) return false;
    fill.ml = fluid.ml / 2;
    behind(story, fill, { ...fill });
    return true;
  }),
  fair("safe-twice", "made safe again for a second look", (story, c) => {
    const hazard = pick(story.plant.hazards, c);
    const restore = hazard && first(story, "restore", hazard.name);
    if (hazard === undefined || restore === undefined) return false;
    behind(story, restore, { do: "safe", what: hazard.name, text: hazard.how }, { ...restore });
    return true;
  }),
  fair("under-and-out", "somebody underneath on stands, and out again", (story) => {
    const stands = acts(story).find((it) => it.do === "support" && it.text?.startsWith("on 2 stands"));
    if (stands === undefined) return false;
    behind(story, stands, { do: "under" }, { do: "clear" });
    return true;
  }),
  fair("down-and-up-again", "let down when all is back, and up once more", (story) => {
    const lower = acts(story)
      .filter((it) => it.do === "lower" && it.text === undefined)
      .at(-1);
    const chock = acts(story).find((it) => it.do === "chock");
    const raise = acts(story).find((it) => it.do === "raise");
    const stands = acts(story).find((it) => it.do === "support" && it.text?.startsWith("on 2 stands"));
    if (lower === undefined || chock === undefined || raise === undefined || stands === undefined) return false;
    behind(story, lower, { ...chock }, { ...raise }, { ...stands }, { ...lower });
    return true;
  }),
  fair("on-a-lift", "on a lift, and down again", (story) => {
    const raise = acts(story).find((it) => it.do === "raise" && it.text === "on jack");
    const stands = acts(story).find((it) => it.do === "support" && it.text?.startsWith("on 2 stands"));
    if (raise === undefined || stands === undefined) return false;
    raise.text = "on lift";
    drop(story, stands);
    return true;
  }),
  fair("chocks-owned-up-to", "no chocks, and owned up to", (story) => {
    const chock = acts(story).find((it) => it.do === "chock");
    if (chock === undefined) return false;
    const step = story.deeds.find((it): it is Step => it.do === "step");
    drop(story, chock);
    if (step !== undefined) step.details = ['  admit chocks-missing "It stood on the level and did not move" by "R. Tamm"'];
    return true;
  }),
  fair("live-owned-up-to", "undone while live, and owned up to", (story, c) => {
    const hazard = pick(story.plant.hazards, c);
    const safe = hazard && first(story, "safe", hazard.name);
    const undo = hazard && first(story, "undo", hazard.before);
    if (hazard === undefined || safe === undefined || undo === undefined) return false;
    drop(story, safe);
    inStep(story, undo, { details: ['  admit hazard-live "Nothing came of it" by "R. Tamm"'] });
    behind(story, undo, safe);
    return true;
  }),
  fair("laid-up-between", "laid up for some weeks", (story, c) => {
    const off = acts(story)
      .filter((it) => it.do === "remove")
      .at(-1);
    if (off === undefined || story.plant.parts.some((it) => (it.mass ?? 0) >= 20)) return false;
    behind(story, off, { do: "write", lines: ['pause TODAY "Waiting for parts"'] }, { do: "night", days: c.whole(5, 40) });
    return true;
  }),
  fair("not-all-by-torque", "a bolt that is critical to nothing done up by feel", (story, c) => {
    const it = deedOf(
      story,
      c,
      "tighten",
      (f) => pulled(f) && f.critical === undefined && story.plant.limits.every((limit) => limit.by?.includes(f.name) !== true),
    );
    if (it === undefined) return false;
    it.deed.to = it.deed.by = undefined;
    return true;
  }),
  fair("proof-load-more", "tried with a quarter more than it may lift", (story) => {
    if (story.plant.rated === undefined) return false;
    story.release.tests = [`"Held ten minutes" load ${story.plant.rated * 1.25} kg`];
    return true;
  }),
  fair("rechecked", "tried again after the first miles", (story, c) => {
    const it = deedOf(story, c, "tighten", (f) => f.recheck === true && f.locking === undefined);
    const to = it && torqueInside(it.fastener, c);
    if (it === undefined || to === undefined) return false;
    story.after.push({ do: "step", title: "After fifty miles" }, { do: "tighten", what: it.fastener.name, at: it.deed.at, to, by: "wrench" });
    return true;
  }),
  fair("another-machine-open", "another machine's sheet lies beside it, open", (story) => {
    story.files["other.jobsheet"] =
      'sheet "The saw"\n  machine "Pellow saw bench, 1940"\n  by "R. Tamm"\n  opened 2026-03-02\n\npart blade "Blade"\n  held by blade-nut\n  critical "the blade"\n\nfastener blade-nut "Blade nut"\n  torque 40 .. 50 N.m\n  locked by tab washer 20 mm\n  critical "the blade"\n  source "Notes"\n\nstep off "Off"\n  undo blade-nut\n  remove blade\n  done 2026-03-03\n';
    return true;
  }),
  fair("old-sheet-of-the-machine", "an older sheet of the same machine, released", (story) => {
    story.files["other.jobsheet"] =
      `sheet "The other end"\n  machine "${story.plant.machine}"\n  by "R. Tamm"\n  opened 2025-03-02\n\npart far-link "Far link"\n  held by far-nut\n  critical "steering"\n\nfastener far-nut "Far nut"\n  torque 40 .. 50 N.m\n  locked by split pin 3.2 x 25 mm\n  critical "steering"\n  source "Notes"\n\nstep off "Off and on"\n  undo far-nut\n  remove far-link\n  fit far-link\n  tighten far-nut to 45 N.m\n  lock far-nut new\n  done 2025-03-03\n\nfinding far-link\n  is serviceable\n\nrelease by "R. Tamm" 2025-03-04\n  test "Lock to lock, round the yard"\n`;
    return true;
  }),
];
