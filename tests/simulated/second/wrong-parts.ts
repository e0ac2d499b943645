// Mistakes with pieces: left on the bench, condemned and back in, not of a set, the wrong way round, not come yet.
import type { Chance } from "./chance.ts";
import { type Act, acts, alone, behind, before, type Deed, drop, first, last, type Story, toEnd, type Written } from "./deeds.ts";
import { found, foundBad, type Hurt, hurt, pick, placeFor, sizesOf, soundPart, type Wrong } from "./kind.ts";
import { everywhere, type Part } from "./plant.ts";

const wrong = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, make });

const warned = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, warns: true, make });

function fitted(story: Story, c: Chance, like: (it: Part) => boolean): { part: Part; at: string | undefined; deed: Act } | undefined {
  const part = pick(story.plant.parts.filter(like), c);
  const at = part && placeFor(story, part, c);
  const deed = part && last(story, "fit", part.name, at);
  return part === undefined || deed === undefined ? undefined : { part, at, deed: alone(story, deed, at) };
}

/** Found so, condemned or not spoken of, and the same piece goes back. */
const back = (is: string, decision: string | undefined, like: (it: Part) => boolean = () => true, name = `back-${is.split(" ")[0]}`): Wrong =>
  wrong(name, `a part found ${is} goes back as it is`, (story, c) => {
    const part = soundPart(story, c, (it) => it.critical !== undefined && like(it));
    if (part === undefined) return undefined;
    const bad = foundBad(story, part, placeFor(story, part, c), is, decision);
    // Nobody cleans or oils it by the way.
    for (const it of acts(story)) if (it.what === part.name && ["clean", "oil", "grease"].includes(it.do)) drop(story, it);
    return hurt(part.name, bad, last(story, "fit", part.name));
  });

const leftSo = (is: string, like: (it: Part) => boolean = () => true): Wrong =>
  wrong(`left-${is.split(" ")[0]}`, `a part seen ${is} when all is done, and left`, (story, c) => {
    const part = pick(story.plant.parts.filter(like), c);
    if (part === undefined) return undefined;
    const seen = { do: "found" as const, what: part.name, at: placeFor(story, part, c), is: [is] };
    toEnd(story, seen);
    return hurt(part.name, seen);
  });

const orders = (story: Story): Written[] => story.deeds.filter((it): it is Written => it.do === "write" && it.lines[0]?.startsWith('order "W-118"') === true);

/** What the order was of, and the line on which such a thing was first fitted. */
function ordered(story: Story, change: (lines: string[]) => string[]): Hurt | undefined {
  const its = orders(story);
  if (its.length === 0) return undefined;
  const names = its.flatMap((it) => it.lines.filter((line) => line.startsWith("  item ")).map((line) => line.split(" ")[3] as string));
  for (const it of its) it.lines = change(it.lines);
  return { ...hurt(names, ...its), words: /W-118/ };
}

function condemned(story: Story, c: Chance, like: (it: Part) => boolean): { part: Part; at: string | undefined; deed: Act } | undefined {
  const part = soundPart(story, c, like);
  if (part === undefined) return undefined;
  const at = placeFor(story, part, c);
  foundBad(story, part, at, "cracked", "renew");
  const fit = last(story, "fit", part.name, at);
  if (fit === undefined) return undefined;
  const deed = alone(story, fit, at);
  deed.fresh = true;
  return { part, at, deed };
}

export const wrongParts: Wrong[] = [
  wrong("part-on-the-bench", "a part never went back", (story, c) => {
    const part = pick(story.plant.parts, c);
    if (part === undefined) return undefined;
    story.deeds = story.deeds.filter((it) => !(it.do === "fit" && it.what === part.name));
    return hurt(part.name, first(story, "remove", part.name));
  }),
  wrong("part-on-the-bench-at-one", "a part went back at one place and not at the other", (story, c) => {
    const it = fitted(story, c, (part) => part.each);
    if (it === undefined) return undefined;
    drop(story, it.deed);
    return hurt(it.part.name, first(story, "remove", it.part.name));
  }),
  wrong("half-a-pair-on-the-bench", "one of two pieces at a place never went back", (story, c) => {
    const it = fitted(story, c, (part) => part.n > 1);
    if (it === undefined) return undefined;
    it.deed.n = it.part.n - 1;
    return hurt(it.part.name, it.deed);
  }),
  wrong("one-too-many", "more went in than came out", (story, c) => {
    const it = fitted(story, c, (part) => part.renewWith !== undefined);
    if (it === undefined) return undefined;
    it.deed.n = it.part.n + 1;
    return hurt(it.part.name, it.deed);
  }),
  wrong("seal-again", "the old seal or gasket goes back", (story, c) => {
    const it = fitted(story, c, (part) => part.renewWith !== undefined);
    if (it === undefined) return undefined;
    it.deed.fresh = false;
    return hurt(it.part.name, it.deed);
  }),
  wrong("seal-forgotten", "no seal or gasket at one place", (story, c) => {
    const it = fitted(story, c, (part) => part.renewWith !== undefined);
    if (it === undefined) return undefined;
    drop(story, it.deed);
    return hurt(it.part.name);
  }),
  wrong("one-of-a-pair-new", "the other of a pair stays old", (story, c) => {
    const it = condemned(story, c, (part) => part.pairs === true && part.each && everywhere(story.plant).length === 2);
    return it && hurt(it.part.name, it.deed);
  }),
  wrong("one-of-a-match-new", "one of two that run together is new", (story, c) => {
    const it = condemned(story, c, (part) => part.matched !== undefined);
    return it && hurt([it.part.name, it.part.matched as string], it.deed);
  }),
  back("cracked", "renew"),
  back("bent", "renew"),
  back("broken", "renew"),
  back("worn", "renew"),
  back("pitted", "renew"),
  back("scored", "renew"),
  back("seized", "renew"),
  back("corroded", "renew"),
  back("damaged", "renew"),
  back("cracked", "reuse", () => true, "reused-cracked"),
  back("bent", "reuse", () => true, "reused-bent"),
  back("cracked", undefined, () => true, "undecided-cracked"),
  back("pitted", undefined, () => true, "undecided-pitted"),
  back("cracked", "discard", () => true, "discarded-cracked"),
  back("dry", undefined, (it) => !["cap", "hub", "cylinder", "sump"].includes(it.name)),
  back("blocked", undefined),
  back('contaminated "with swarf"', undefined),
  back("leaking", undefined, (it) => it.renewWith === undefined),
  back('wrong "one of another model"', undefined),
  back("cracked", 'repair "Weld it"', () => true, "repair-never-done"),
  back("cracked", 'make "A new one, filed from steel"', () => true, "make-never-done"),
  leftSo("reversed", (it) => it.fits !== undefined),
  leftSo("loose"),
  leftSo("missing"),
  leftSo("leaking"),
  leftSo("cracked"),
  leftSo("broken"),
  leftSo("extra 1"),
  wrong("swapped-back", "two found in each other's place go back so", (story, c) => {
    const part = soundPart(story, c, (it) => it.keeps === true && it.each);
    if (part === undefined) return undefined;
    const seen = { do: "found" as const, what: part.name, at: pick(everywhere(story.plant), c), is: ["swapped"] };
    behind(story, first(story, "remove", part.name) as Deed, seen);
    return hurt(part.name, seen);
  }),
  wrong("swapped-on-the-way", "two that keep their places change them", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.keeps && it.each),
      c,
    );
    const [a, b] = everywhere(story.plant);
    const deed = part && last(story, "fit", part.name);
    if (part === undefined || deed === undefined || a === undefined || b === undefined || acts(story).some((it) => it.what === part.name && it.fresh))
      return undefined;
    const one: Act = { do: "fit", what: part.name, at: [a], from: b };
    story.deeds.splice(story.deeds.indexOf(deed), 0, one, { do: "fit", what: part.name, at: [b], from: a });
    deed.at = everywhere(story.plant).slice(2);
    if (deed.at.length === 0) drop(story, deed);
    return hurt(part.name, one);
  }),
  warned("unmarked", "a part that keeps its place came off without a mark", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.keeps),
      c,
    );
    const deed = part && first(story, "mark", part.name);
    if (part === undefined || deed === undefined) return undefined;
    drop(story, deed);
    return hurt(part.name, first(story, "remove", part.name));
  }),
  wrong("repaired-not-looked-at", "mended after a crack, and nobody looked or measured again", (story, c) => {
    const part = soundPart(
      story,
      c,
      (it) => it.critical !== undefined && sizesOf(story, it).length === 0 && story.plant.checks.every((check) => check.of !== it.name),
    );
    if (part === undefined) return undefined;
    const at = placeFor(story, part, c);
    const bad = foundBad(story, part, at, c.one(["cracked", "bent"]), 'repair "Straighten and weld"');
    const deed = { do: "repair" as const, what: part.name, at: at === undefined ? undefined : [at], text: "Straightened and welded" };
    const after = story.deeds.filter((it) => it.do === "found" && it.what === part.name).at(-1) as Deed;
    behind(story, after, deed);
    return hurt(part.name, bad, deed);
  }),
  wrong("fellow-not-looked-at", "one failed, and nobody looked at its fellow", (story, c) => {
    const it = condemned(
      story,
      c,
      (part) =>
        part.each &&
        part.pairs !== true &&
        part.matched === undefined &&
        part.critical !== undefined &&
        sizesOf(story, part).length === 0 &&
        story.plant.checks.every((check) => check.of !== part.name),
    );
    if (it === undefined) return undefined;
    for (const one of found(story, it.part.name)) if (one.is[0] === "serviceable") drop(story, one);
    return hurt(it.part.name, it.deed);
  }),
  wrong("never-came-off", "a new one is said to go on over the old", (story, c) => {
    const it = condemned(story, c, (part) => part.pairs !== true && part.matched === undefined && part.held.length === 0);
    const off = it && acts(story).filter((act) => act.do === "remove" && act.what === it.part.name);
    if (it === undefined || off === undefined) return undefined;
    for (const one of off) drop(story, one);
    return hurt(it.part.name, it.deed);
  }),
  wrong("behind-what-is-on", "an inner part goes on after what is before it", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.behind.length > 0),
      c,
    );
    const inner = part && last(story, "fit", part.name);
    const outer = part && last(story, "fit", part.behind[0] as string);
    if (part === undefined || inner === undefined || outer === undefined || acts(story).filter((it) => it.do === "fit" && it.what === part.name).length > 1)
      return undefined;
    drop(story, inner);
    behind(story, outer, inner);
    return hurt([part.name, part.behind[0] as string], inner, outer);
  }),
  wrong("nut-before-its-part", "done up before what it holds is there", (story, c) => {
    const part = pick(
      story.plant.parts.filter((it) => it.held.length > 0),
      c,
    );
    const tight = part && last(story, "tighten", part.held[0] as string);
    const fit = part && acts(story).filter((it) => it.do === "fit" && it.what === part.name);
    if (part === undefined || tight === undefined || fit?.length !== 1) return undefined;
    drop(story, tight);
    before(story, fit[0] as Deed, tight);
    return hurt([part.name, part.held[0] as string], tight, fit[0]);
  }),
  wrong("for-now-left", "a part put on for now, and left so", (story, c) => {
    const it = fitted(story, c, (part) => part.critical !== undefined);
    if (it === undefined) return undefined;
    it.deed.forNow = "to keep the dust out";
    return hurt(it.part.name, it.deed);
  }),
  wrong("not-come-yet", "fitted new while the order is on its way", (story) =>
    ordered(story, (lines) => lines.filter((it) => !it.startsWith("  received")).map((it) => it.replace("status received", "status sent"))),
  ),
  wrong("order-cancelled", "fitted new of an order that was cancelled", (story) =>
    ordered(story, (lines) => lines.filter((it) => !it.startsWith("  received")).map((it) => it.replace(/status \w+/, "status cancelled"))),
  ),
  wrong("order-sent-back", "fitted new of an order that went back", (story) =>
    ordered(story, (lines) => lines.filter((it) => !it.startsWith("  received")).map((it) => it.replace(/status \w+/, "status returned"))),
  ),
  wrong("one-too-few-came", "one less came than was fitted", (story) => {
    const its = orders(story);
    const item = its[0]?.lines.find((it) => it.startsWith("  item "));
    const [, , , name, n] = item?.split(" ") ?? [];
    if (its.length !== 1 || name === undefined || its[0] === undefined) return undefined;
    its[0].lines = [
      its[0].lines[0] as string,
      "  status placed TODAY",
      ...its[0].lines.filter((it) => it.startsWith("  item ")),
      ...its[0].lines
        .filter((it) => it.startsWith("  item "))
        .map((it) => it.replace("item", "received"))
        .map((it) => (it.split(" ")[3] === name ? `  received ${name} ${Number(n) - 1}` : it))
        .filter((it) => !it.endsWith(" 0")),
    ];
    return hurt(name, its[0]);
  }),
  wrong("work-never-back", "a part that is still at the grinder is on the machine", (story, c) => {
    const part = soundPart(story, c, (it) => it.critical !== undefined);
    if (part === undefined) return undefined;
    const at = placeFor(story, part, c);
    foundBad(story, part, at, "scored", 'repair "Grind it true"');
    const sent: Written = {
      do: "write",
      what: part.name,
      lines: [
        'supplier grinder "Pook Grinding"',
        "",
        'order "P-3" to grinder',
        "  status sent TODAY",
        `  work ${part.name}${at === undefined ? "" : ` ${at}`} "Grind it true"`,
      ],
    };
    const after = story.deeds.filter((it) => it.do === "found" && it.what === part.name).at(-1) as Deed;
    behind(story, after, sent);
    return hurt(part.name, sent, last(story, "fit", part.name, at));
  }),
  wrong("new-one-bad", "a used one from another machine went on, and is pitted", (story, c) => {
    const it = condemned(story, c, (part) => part.matched === undefined && part.pairs !== true);
    if (it === undefined) return undefined;
    const seen = { do: "found" as const, what: it.part.name, at: it.at, is: ["cracked"], because: "Out of the scrapped one: seen when it was wiped" };
    toEnd(story, seen);
    return hurt(it.part.name, seen);
  }),
  wrong("question-open", "goes back while what was asked has no answer", (story, c) => {
    const part = soundPart(story, c, (it) => it.critical !== undefined);
    if (part === undefined) return undefined;
    const bad = foundBad(story, part, placeFor(story, part, c), "pitted", "ask maker-says");
    const ask: Written = { do: "write", what: part.name, lines: ['question maker-says "Do pits of this size pass?"', `  about ${part.name}`] };
    behind(story, bad, ask);
    return { ...hurt(part.name, bad, ask), words: /maker-says|pits of this size/ };
  }),
];
