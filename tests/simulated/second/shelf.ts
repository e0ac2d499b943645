// Where new pieces come from: an order that came, a tin on the shelf, or nobody says. Counts are of what the story fits, so none is short.
import type { Chance } from "./chance.ts";
import { acts, type Deed, type Story, type Written } from "./deeds.ts";
import { fastenerOf, partOf, usedOnce, everywhere } from "./plant.ts";

export interface Out {
  part: string;
  at: string | undefined;
  what: string;
}

/** Puts the orders before the deed at that index, and what lay on the shelf at the head. */
export function shelfFor(story: Story, index: number, outside: Out[], c: Chance): void {
  const needs = needsOf(story);
  const written: Deed[] = [];
  const ordered = [...needs].filter(([, it]) => it.sort === "thing");
  const fromOrder = c.yes(0.6);
  if ((fromOrder && ordered.length > 0) || outside.length > 0) story.shelf.push('supplier weir "Weir Lane Spares"', "  currency GBP", "  lead 3 d", "");
  if (fromOrder && ordered.length > 0) {
    const items = ordered.map(([name, it]) => `  item ${name} ${it.n}`);
    const way = c.one(["whole", "counts", "again"] as const);
    if (way === "whole") written.push(order("W-118", ["  status received TODAY", ...items]));
    if (way === "counts") written.push(order("W-118", ["  status sent TODAY", ...items, ...ordered.map(([name, it]) => `  received ${name} ${it.n}`)]));
    if (way === "again")
      written.push(order("W-118", ["  status placed TODAY", ...items]), { do: "night", days: 3 }, order("W-118", ["  status received TODAY"]));
  }
  for (const out of outside) {
    const line = `  work ${out.part}${out.at === undefined ? "" : ` ${out.at}`} "${out.what}"`;
    written.push(
      { ...order("G-7", ["  status sent TODAY", line]), what: out.part, at: out.at },
      { do: "night", days: 4 },
      order("G-7", ["  status received TODAY"]),
    );
    written.push({ do: "found", what: out.part, at: out.at, is: ["serviceable"] });
  }
  story.deeds.splice(index, 0, ...written);
}

/** What lay in the tin: as many lockings as the story uses. */
export function tinOf(story: Story): string[] {
  if (!story.tin) return [];
  const tins = [...needsOf(story)].filter(([, it]) => it.sort === "locking");
  return [...tins.map(([name, it]) => `stock ${name} ${name.includes("wire") ? `${it.n} m` : it.n} "Tin on the sill"`), ""];
}

const order = (reference: string, lines: string[]): Written => ({ do: "write", lines: [`order "${reference}" to weir`, ...lines] });

interface Need {
  n: number;
  sort: "thing" | "locking";
}

function needsOf(story: Story): Map<string, Need> {
  const needs = new Map<string, Need>();
  const add = (name: string, n: number, sort: Need["sort"]): void => {
    needs.set(name, { n: (needs.get(name)?.n ?? 0) + n, sort });
  };
  for (const act of acts(story)) {
    if (act.fresh !== true || act.what === undefined) continue;
    const fastener = fastenerOf(story.plant, act.what);
    const thing = fastener ?? partOf(story.plant, act.what);
    if (thing === undefined) continue;
    const n = (act.n ?? thing.n) * (thing.each ? (act.at ?? everywhere(story.plant)).length : 1);
    if (act.do === "fit") add(act.what, n, "thing");
    if (act.do === "lock" && fastener?.locking !== undefined && usedOnce(fastener) && !/^(staking|peening)/.test(fastener.locking))
      add(
        fastener.locking.replace(/ x \d+ mm$/, (it) => (fastener.locking?.includes("wire") ? "" : it)),
        Math.ceil(n / (fastener.serves ?? 1)),
        "locking",
      );
  }
  return needs;
}
