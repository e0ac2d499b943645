// One action of the way back, and how a sheet writes it.

/** One action, as a line of a step. */
export interface Act {
  readonly verb:
    | "safe"
    | "support"
    | "lower"
    | "mark"
    | "remove"
    | "undo"
    | "slacken"
    | "repair"
    | "clean"
    | "fit"
    | "grease"
    | "oil"
    | "tighten"
    | "let back"
    | "lock"
    | "drain"
    | "fill"
    | "bleed"
    | "restore";
  /** Places, where it is not about all of them. */
  readonly places: readonly string[];
  readonly count?: number;
  readonly isNew?: true;
  /** Which one goes on waits for a decision, an answer or somebody's hands: the line leaves it blank, and its note says what it is about. */
  readonly blank?: true;
  /** What stands behind the places: `to 50 lbf.ft`, `0.6 l`, a text. */
  readonly rest?: string;
  /** What a hand needs to know: the way round, the range, why it is new. */
  readonly note?: string;
}

/** Whether it is about this place; without places it is about all of them. */
export function isAt({ places }: Pick<Act, "places">, place: string): boolean {
  return places.length === 0 || place === "" || places.includes(place) || places.includes("");
}

export function actText(name: string, act: Act): string {
  // What is let back has its `by` behind it, or the line can't be read.
  if (act.blank) return act.verb === "let back" && act.rest !== undefined ? `${act.verb} ___ ${act.rest}` : `${act.verb} ___`;
  return [act.verb, name, act.count, act.places.join(", "), act.isNew === true ? "new" : undefined, act.rest]
    .filter((it) => it !== undefined && it !== "")
    .join(" ");
}

/** Of a blank, what would be written there once it is known, and what it waits for. */
export function noteOf(name: string, act: Act): string | undefined {
  if (!act.blank) return act.note;
  const what = [name, act.count, act.places.join(", "), act.isNew === true ? "new" : undefined, act.verb === "let back" ? undefined : act.rest]
    .filter((it) => it !== undefined && it !== "")
    .join(" ");
  return act.note === undefined ? what : `${what}: ${act.note}`;
}

/** With its blanks filled in as planned, where it has any: the thing that it speaks of, some words, and no figure. */
export function filledAs(name: string, act: Act): { filled?: string } {
  if (!act.blank && act.rest?.includes("___") !== true) return {};
  const { blank: _, rest, ...known } = act;
  const words = rest === undefined || !rest.includes("___") ? rest : rest.startsWith('"') ? '"as planned"' : act.verb === "let back" ? "by 1 flat" : undefined;
  return { filled: actText(name, { ...known, ...(words === undefined ? {} : { rest: words }) }) };
}
