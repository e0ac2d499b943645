// What may be the matter with a thing that was found, and of what kinds of thing it can be said.

interface ConditionRow {
  readonly word: string;
  readonly of: readonly ("part" | "fastener" | "fluid")[];
  readonly syntax: string;
  readonly says: string;
  /** What stands behind the word. */
  readonly behind?: "count" | "count-needed" | "text" | "text-needed" | "from" | "amount";
}

const solid = ["part", "fastener"] as const;
const all = ["part", "fastener", "fluid"] as const;

const rows = [
  { word: "serviceable", of: all, syntax: "serviceable", says: "Good to go back." },
  { word: "worn", of: solid, syntax: "worn", says: "Worn." },
  { word: "cracked", of: solid, syntax: "cracked", says: "Cracked." },
  { word: "broken", of: solid, syntax: "broken", says: "Broken." },
  { word: "bent", of: solid, syntax: "bent", says: "Bent." },
  { word: "pitted", of: solid, syntax: "pitted", says: "Pitted." },
  { word: "scored", of: solid, syntax: "scored", says: "Scored." },
  { word: "corroded", of: solid, syntax: "corroded", says: "Rusted or eaten away." },
  { word: "seized", of: solid, syntax: "seized", says: "Does not move." },
  { word: "damaged", of: solid, syntax: "damaged", says: "Damaged in another way." },
  { word: "missing", of: all, syntax: "missing [N]", says: "Not there, or N of them.", behind: "count" },
  { word: "extra", of: solid, syntax: "extra N", says: "N more than there should be.", behind: "count-needed" },
  { word: "wrong", of: all, syntax: 'wrong "what is there instead"', says: "Not what belongs there.", behind: "text-needed" },
  { word: "reversed", of: solid, syntax: "reversed", says: "Upside down or back to front." },
  { word: "swapped", of: solid, syntax: "swapped", says: "In each other's place." },
  { word: "dry", of: ["part"], syntax: "dry", says: "No lubricant." },
  { word: "blocked", of: ["part"], syntax: "blocked", says: "A passage is shut." },
  { word: "contaminated", of: ["part", "fluid"], syntax: 'contaminated "with what"', says: "Something is on it or in it.", behind: "text-needed" },
  { word: "leaking", of: ["part"], syntax: "leaking", says: "Lets something out." },
  { word: "loose", of: solid, syntax: "loose", says: "Not tight." },
  {
    word: "unlocked",
    of: ["fastener"],
    syntax: 'unlocked ["what was there instead"]',
    says: "Nothing that belongs there keeps it from turning.",
    behind: "text",
  },
  { word: "stripped", of: ["fastener"], syntax: "stripped", says: "The thread is gone." },
  { word: "sheared", of: ["fastener", "part"], syntax: "sheared", says: "Broken across." },
  { word: "undrilled", of: ["fastener"], syntax: "undrilled", says: "No hole for its pin." },
  { word: "clean", of: ["fluid"], syntax: "clean", says: "As it should look." },
  { word: "metallic", of: ["fluid"], syntax: "metallic [from PART]", says: "A metal shine in it, and from what.", behind: "from" },
  { word: "fragments", of: ["fluid"], syntax: "fragments [from PART]", says: "Pieces in it, and from what.", behind: "from" },
  { word: "milky", of: ["fluid"], syntax: "milky", says: "Water in it." },
  { word: "low", of: ["fluid"], syntax: "low [Q]", says: "Too little, and by how much.", behind: "amount" },
] as const satisfies readonly ConditionRow[];

export type ConditionKind = (typeof rows)[number]["word"];
export interface ConditionWord extends ConditionRow {
  readonly word: ConditionKind;
}
export const conditions: readonly ConditionWord[] = rows;

/** Of a word as written; `conditionOf("worn")`. */
export function conditionOf(word: string): ConditionWord | undefined {
  return byWord.get(word);
}

const byWord: ReadonlyMap<string, ConditionWord> = new Map(conditions.map((it) => [it.word, it]));
