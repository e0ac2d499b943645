// Mistakes with what holds: not tight, not to its torque, not locked, not whole, not all of it there.
import { acts, alone, behind, before, drop, first, last, type Story, toEnd } from "./deeds.ts";
import { type Hurt, hurt, opened, pick, placeFor, type Wrong } from "./kind.ts";
import { everywhere, type Fastener, usedOnce } from "./plant.ts";
import type { Chance } from "./chance.ts";

const locked = (it: Fastener): boolean => it.critical !== undefined && it.locking !== undefined && it.locking !== "nothing";
const once = (it: Fastener): boolean => locked(it) && usedOnce(it);
const pulled = (it: Fastener): boolean => Array.isArray(it.torque);
const grave = (it: Fastener): boolean => pulled(it) && it.critical !== undefined;

const wrong = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, make });

const warned = (name: string, does: string, make: Wrong["make"]): Wrong => ({ name, does, warns: true, make });

/** The last deed of a verb on a fastener of a sort, alone at one place. */
function one(story: Story, c: Chance, verb: "lock" | "tighten" | "let back" | "fit", like: (it: Fastener) => boolean) {
  const fastener = opened(story, c, like);
  if (fastener === undefined) return undefined;
  const at = placeFor(story, fastener, c);
  const deed = last(story, verb, fastener.name, at);
  return deed === undefined ? undefined : { fastener, at, deed: alone(story, deed, at) };
}

const torqueOf = (name: string, does: string, turn: (it: number, fastener: Fastener) => number): Wrong =>
  wrong(name, does, (story, c) => {
    const it = one(story, c, "tighten", grave);
    if (it?.deed.to === undefined) return undefined;
    it.deed.to = [...it.deed.to.slice(0, -1), Math.round(turn(it.deed.to.at(-1) as number, it.fastener))];
    return hurt(it.fastener.name, it.deed);
  });

/** Found so on the bench, and the same one goes back. */
const badBack = (name: string, is: string, decision: string | undefined, like: (it: Fastener) => boolean = () => true): Wrong =>
  wrong(name, `a fastener found ${is} goes back`, (story, c) => {
    const fastener = opened(story, c, (it) => it.critical !== undefined && !it.renew && like(it));
    const off = fastener && first(story, "undo", fastener.name);
    if (fastener === undefined || off === undefined) return undefined;
    const last =
      acts(story)
        .filter((it) => it.do === "remove")
        .at(-1) ?? off;
    const seen = {
      do: "found" as const,
      what: fastener.name,
      n: fastener.n > 1 ? c.whole(1, fastener.n - 1) : undefined,
      at: placeFor(story, fastener, c),
      is: [is],
      decision,
    };
    behind(story, last, seen);
    return hurt(fastener.name, seen);
  });

/** Found so at the very end, and left. */
const leftSo = (name: string, is: string, like: (it: Fastener) => boolean): Wrong =>
  wrong(name, `a fastener is found ${is} when all is done, and stays so`, (story, c) => {
    const fastener = pick(story.plant.fasteners.filter(like), c);
    if (fastener === undefined) return undefined;
    const seen = { do: "found" as const, what: fastener.name, n: fastener.n > 1 ? 1 : undefined, at: placeFor(story, fastener, c), is: [is] };
    toEnd(story, seen);
    return hurt(fastener.name, seen);
  });

export const wrongFasteners: Wrong[] = [
  wrong("lock-forgotten", "tight and not locked, everywhere", (story, c) => {
    const fastener = opened(story, c, locked);
    const deed = fastener && last(story, "lock", fastener.name);
    if (fastener === undefined || deed === undefined) return undefined;
    drop(story, deed);
    return hurt(fastener.name, last(story, "tighten", fastener.name));
  }),
  wrong("lock-forgotten-at-one", "tight and not locked at one place of several", (story, c) => {
    const it = one(story, c, "lock", (f) => locked(f) && f.each);
    if (it === undefined) return undefined;
    drop(story, it.deed);
    return hurt(it.fastener.name);
  }),
  wrong("lock-some", "one of several at a place has no locking", (story, c) => {
    const it = one(story, c, "lock", (f) => locked(f) && f.n > 1 && (f.serves ?? 1) === 1);
    if (it === undefined) return undefined;
    it.deed.n = it.fastener.n - 1;
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("wire-short", "one wire or plate too few: two fasteners without", (story, c) => {
    const it = one(story, c, "lock", (f) => locked(f) && (f.serves ?? 1) > 1 && f.n > 2);
    if (it === undefined) return undefined;
    it.deed.n = it.fastener.n - 2;
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("lock-at-the-other", "one place locked twice, the other never", (story, c) => {
    const it = one(story, c, "lock", (f) => locked(f) && f.each);
    if (it === undefined) return undefined;
    it.deed.at = [
      pick(
        everywhere(story.plant).filter((place) => place !== it.at),
        c,
      ) as string,
    ];
    return hurt(it.fastener.name);
  }),
  wrong("pin-without-clip", "a clevis pin without what keeps it in", (story, c) => {
    const it = one(story, c, "lock", (f) => f.torque === "none");
    if (it === undefined) return undefined;
    drop(story, it.deed);
    return hurt(it.fastener.name, last(story, "fit", it.fastener.name));
  }),
  wrong("pin-not-fitted", "a clevis pin stays on the bench", (story, c) => {
    const it = one(story, c, "fit", (f) => f.torque === "none");
    if (it === undefined) return undefined;
    drop(story, it.deed);
    const lock = last(story, "lock", it.fastener.name, it.at);
    if (lock !== undefined) drop(story, alone(story, lock, it.at));
    return hurt(it.fastener.name);
  }),
  wrong("tighten-forgotten", "locked, never tightened", (story, c) => {
    const fastener = opened(story, c, grave);
    const deed = fastener && last(story, "tighten", fastener.name);
    if (fastener === undefined || deed === undefined) return undefined;
    deed.do = "fit";
    deed.to = deed.by = deed.angle = undefined;
    return hurt(fastener.name, deed, last(story, "lock", fastener.name));
  }),
  wrong("tighten-forgotten-at-one", "one place fitted and never tightened", (story, c) => {
    const it = one(story, c, "tighten", (f) => pulled(f) && f.each);
    if (it === undefined) return undefined;
    it.deed.do = "fit";
    it.deed.to = it.deed.by = it.deed.angle = undefined;
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("tighten-at-the-other", "one place tightened twice, the other never", (story, c) => {
    const it = one(story, c, "tighten", (f) => pulled(f) && f.each);
    if (it === undefined) return undefined;
    it.deed.at = [
      pick(
        everywhere(story.plant).filter((place) => place !== it.at),
        c,
      ) as string,
    ];
    return hurt(it.fastener.name);
  }),
  wrong("tighten-some", "one of several is left finger tight", (story, c) => {
    const it = one(story, c, "tighten", (f) => pulled(f) && f.n > 1 && !f.renew);
    if (it === undefined) return undefined;
    before(story, it.deed, { do: "fit", what: it.fastener.name, at: it.deed.at });
    it.deed.n = it.fastener.n - 1;
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("one-in-the-tin", "one of several never went back", (story, c) => {
    const it = one(story, c, "tighten", (f) => pulled(f) && f.n > 1 && !f.renew);
    if (it === undefined) return undefined;
    for (const fit of acts(story).filter((act) => act.do === "fit" && act.what === it.fastener.name)) drop(story, fit);
    const rest = (first(story, "undo", it.fastener.name)?.at ?? []).filter((place) => place !== it.at);
    before(story, it.deed, { do: "fit", what: it.fastener.name, at: it.deed.at, n: it.fastener.n - 1 });
    if (it.fastener.each && rest.length > 0) {
      const tight = acts(story).find((act) => act.do === "tighten" && act.what === it.fastener.name) ?? it.deed;
      before(story, tight, { do: "fit", what: it.fastener.name, at: rest });
    }
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("by-feel", "a nut with a torque is done up by feel", (story, c) => {
    const it = one(story, c, "tighten", grave);
    if (it === undefined) return undefined;
    it.deed.to = it.deed.by = it.deed.angle = undefined;
    return hurt(it.fastener.name, it.deed);
  }),
  torqueOf("torque-low", "well below its torque", (it) => it * 0.6),
  torqueOf("torque-high", "well above its torque", (it) => it * 1.5),
  torqueOf("torque-figure-of-other-unit", "the wrench was set by the other scale", (it) => it * 1.3558),
  torqueOf("torque-point-slipped", "ten times too much", (it) => it * 10),
  wrong("wrench-too-small", "pulled with a wrench that reaches not so far", (story, c) => {
    const it = one(story, c, "tighten", grave);
    if (it?.deed.to === undefined) return undefined;
    story.plant.wrench = [1, Math.round(Math.min(...(it.fastener.torque as number[])) * 0.7)];
    return hurt([it.fastener.name, "wrench"], it.deed);
  }),
  warned("wrench-overdue", "pulled with a wrench whose check fell due long ago", (story, c) => {
    const it = one(story, c, "tighten", grave);
    if (it?.deed.to === undefined) return undefined;
    story.plant.wrenchChecked = "2023-11-02";
    return { ...hurt([it.fastener.name, "wrench"], it.deed), words: /wrench/i };
  }),
  warned("at-its-end-by-a-rough-wrench", "at the very end of its torque, by a wrench that may be out further", (story, c) => {
    const it = one(story, c, "tighten", (f) => grave(f) && f.angle === undefined);
    if (it?.deed.to === undefined) return undefined;
    it.deed.to = [...it.deed.to.slice(0, -1), (it.fastener.torque as [number, number])[0]];
    story.plant.wrenchDoubt = 6;
    return hurt([it.fastener.name, "wrench"], it.deed);
  }),
  wrong("stage-left-at-the-first", "the last stage was never pulled", (story, c) => {
    const it = one(story, c, "tighten", (f) => f.stage !== undefined);
    if (it?.deed.to === undefined) return undefined;
    it.deed.to = it.deed.to.slice(0, 1);
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("stage-skipped", "straight to the last stage", (story, c) => {
    const it = one(story, c, "tighten", (f) => f.stage !== undefined);
    if (it?.deed.to === undefined) return undefined;
    it.deed.to = it.deed.to.slice(1);
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("angle-forgotten", "never turned the angle further", (story, c) => {
    const it = one(story, c, "tighten", (f) => f.angle !== undefined);
    if (it === undefined) return undefined;
    it.deed.angle = undefined;
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("angle-half", "turned half the angle", (story, c) => {
    const it = one(story, c, "tighten", (f) => f.angle !== undefined);
    if (it?.deed.angle === undefined) return undefined;
    it.deed.angle = it.deed.angle / 2;
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("let-back-forgotten", "a bearing left at its torque", (story, c) => {
    const it = one(story, c, "let back", () => true);
    if (it === undefined) return undefined;
    drop(story, it.deed);
    return hurt(it.fastener.name, last(story, "tighten", it.fastener.name));
  }),
  wrong("let-back-too-far", "a bearing let back twice as far", (story, c) => {
    const it = one(story, c, "let back", () => true);
    if (it?.deed.flats === undefined) return undefined;
    it.deed.flats += 2;
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("let-back-then-tight", "let back, and then pulled up again", (story, c) => {
    const it = one(story, c, "let back", () => true);
    const tight = it && last(story, "tighten", it.fastener.name, it.at);
    if (it === undefined || tight === undefined) return undefined;
    behind(story, it.deed, { ...tight, at: it.deed.at });
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("stretched-bolt-again", "a bolt that stretches goes back", (story, c) => {
    const it = one(story, c, "fit", (f) => f.renew === true);
    if (it === undefined) return undefined;
    it.deed.fresh = false;
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("stretched-bolt-slackened", "a new one that stretches is slackened and pulled again", (story, c) => {
    const it = one(story, c, "tighten", (f) => f.renew === true);
    if (it === undefined) return undefined;
    behind(story, it.deed, { do: "slacken", what: it.fastener.name, at: it.deed.at }, { ...it.deed });
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("old-locking", "what is used once goes back", (story, c) => {
    const it = one(story, c, "lock", once);
    if (it === undefined) return undefined;
    it.deed.fresh = false;
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("old-locking-on-one", "one new of several, the rest old", (story, c) => {
    const it = one(story, c, "lock", (f) => once(f) && f.n > 1 && (f.serves ?? 1) === 1);
    if (it === undefined) return undefined;
    it.deed.n = 1;
    behind(story, it.deed, { ...it.deed, n: it.fastener.n - 1, fresh: false });
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("locked-then-tightened", "locked while slack, then pulled tight on its locking", (story, c) => {
    const fastener = opened(story, c, (f) => once(f) && grave(f));
    const lock = fastener && last(story, "lock", fastener.name);
    const tight = fastener && last(story, "tighten", fastener.name);
    if (fastener === undefined || lock === undefined || tight === undefined) return undefined;
    drop(story, lock);
    before(story, tight, lock);
    return hurt(fastener.name, lock, tight);
  }),
  wrong("slackened-afterwards", "eased once more at the end, pulled up, not locked again", (story, c) => {
    const it = one(story, c, "tighten", (f) => once(f) && grave(f) && !f.letBack);
    if (it === undefined) return undefined;
    toEnd(story, { do: "slacken", what: it.fastener.name, at: it.deed.at }, { ...it.deed });
    return hurt(it.fastener.name);
  }),
  wrong("slack-at-the-end", "eased once more at the end and left", (story, c) => {
    const it = one(story, c, "tighten", pulled);
    if (it === undefined) return undefined;
    const deed = { do: "slacken" as const, what: it.fastener.name, at: it.deed.at };
    toEnd(story, deed);
    return hurt(it.fastener.name, deed);
  }),
  wrong("one-slack-at-the-end", "one of several eased at the end and left", (story, c) => {
    const it = one(story, c, "tighten", (f) => pulled(f) && f.n > 1);
    if (it === undefined) return undefined;
    const deed = { do: "slacken" as const, what: it.fastener.name, at: it.deed.at, n: 1 };
    toEnd(story, deed);
    return hurt(it.fastener.name, deed);
  }),
  wrong("undone-at-the-end", "undone once more and left off", (story, c) => {
    const it = one(story, c, "tighten", pulled);
    if (it === undefined) return undefined;
    const deed = { do: "undo" as const, what: it.fastener.name, at: it.deed.at, n: it.fastener.n > 1 ? 1 : undefined };
    toEnd(story, deed);
    return hurt(it.fastener.name, deed);
  }),
  wrong("other-locking", "a spring washer where a pin, a tab or a wire belongs", (story, c) => {
    const it = one(story, c, "lock", once);
    if (it === undefined) return undefined;
    it.deed.fresh = undefined;
    it.deed.instead = "spring washer";
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("thinner-pin", "a pin half as thick as its hole", (story, c) => {
    const it = one(story, c, "lock", (f) => f.locking?.startsWith("split pin") === true);
    if (it === undefined) return undefined;
    it.deed.fresh = undefined;
    it.deed.instead = "new split pin 1.6 x 25 mm";
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("nut-for-now", "nipped up for now, and left", (story, c) => {
    const it = one(story, c, "tighten", pulled);
    if (it === undefined) return undefined;
    it.deed.to = it.deed.by = it.deed.angle = undefined;
    it.deed.forNow = "until the other side is done";
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("back-to-the-slot", "let back below its torque so that the pin goes in", (story, c) => {
    const it = one(story, c, "tighten", (f) => grave(f) && f.locking?.startsWith("split pin") === true && f.letBack === undefined);
    if (it?.deed.to === undefined) return undefined;
    const low = Math.round(((it.fastener.torque as number[])[0] as number) * 0.85);
    behind(story, it.deed, { ...it.deed, to: [low] });
    return hurt(it.fastener.name, it.deed);
  }),
  wrong("hands-swapped", "left-hand nuts on the right-hand studs", (story, c) => {
    const fastener = opened(story, c, (f) => f.leftHandAt !== undefined);
    const tight = fastener && last(story, "tighten", fastener.name);
    const [a, b] = (fastener && first(story, "undo", fastener.name)?.at) ?? [];
    if (fastener === undefined || tight === undefined || a === undefined || b === undefined) return undefined;
    for (const fit of acts(story).filter((act) => act.do === "fit" && act.what === fastener.name)) drop(story, fit);
    const over = { do: "fit" as const, what: fastener.name, at: [a], from: b };
    before(story, acts(story).find((act) => act.do === "tighten" && act.what === fastener.name) ?? tight, over, { ...over, at: [b], from: a });
    return hurt(fastener.name, over);
  }),
  badBack("stripped-back", "stripped", undefined),
  badBack("stripped-reused", "stripped", "reuse"),
  badBack("sheared-back", "sheared", undefined),
  badBack("undrilled-back", "undrilled", "reuse", (f) => f.locking?.startsWith("split pin") === true),
  badBack("wrong-bolt-back", 'wrong "a size too short"', undefined),
  badBack("bent-bolt-back", "bent", "reuse"),
  badBack("cracked-nut-back", "cracked", "renew"),
  badBack("damaged-nut-back", "damaged", "renew"),
  badBack("missing-never-fitted", "missing 1", undefined, (f) => f.n > 1),
  leftSo("loose-left", "loose", (f) => f.critical !== undefined && pulled(f)),
  leftSo("unlocked-left", 'unlocked "nothing"', once),
  leftSo("missing-left", "missing 1", (f) => f.critical !== undefined),
];

export type { Hurt };
