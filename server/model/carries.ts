// Which parts a machine rolls on or is carried by: told by the words that people use for them.
// Invariant: a wheel nut is no wheel, and neither is a flywheel, a crown wheel or what is turned by hand.
import { type Exact, exact } from "../quantities/exact.ts";
import { memo } from "./memo.ts";
import type { Part } from "./things.ts";
import { measured } from "./values.ts";

/** A wheel or an axle, by its name or its title. */
export const rollsOrCarries = memo((part: Part): boolean => {
  const words = roadWordsOf(part).replace(/steering[- ]?wheels?/gu, "");
  return (
    /(^|[^\p{L}])(road-?wheels?|wheels?|wheel[- ]?sets?|axles?)($|[^\p{L}])/u.test(words) &&
    !/wheel[- ](nut|stud|bearing|cylinder|seal|hub|bolt)|axle[- ](nut|shaft|bearing|seal|stand|key|cover|case|bolt|flange)/u.test(words)
  );
});

/** What a machine stands on between its wheels and its frame: its springs and what they hang by, its axleboxes, the arms of its suspension. By their words, which are common practice. */
export const bearsFrame = memo((part: Part): boolean => {
  const words = roadWordsOf(part);
  return (
    /(^|[^\p{L}])((road|leaf|laminated|axle-?box|suspension|bearing|coil|elliptic|wagon)[- ]springs?|springs?[- ](hangers?|shackles?|links?)|(suspension|swing(ing)?|trailing|radius)[- ](arms?|links?)|wish-?bones?|axle-?boxes|axle-?box)($|[^\p{L}])/u.test(
      words,
    ) &&
    !/axle-?box[- ](cover|lid|keep|seal|oil|pad|gasket|joint|brass)|spring[- ](seat|clip|pin|bush|nut|bolt|cover)|(seat|clip|cover|pad|gaiter|bush|pin)s?$/u.test(
      words.trim(),
    )
  );
});

/** The words of a thing's name and title; where the title says which wheel it is, the name that leaves it out is no other. */
export function roadWordsOf({ name, title = "" }: Pick<Part, "name" | "title">): string {
  const words = roadWords(title);
  return `${words === title.toLowerCase() ? roadWords(name) : roadWords(name).replace(/wheels?/gu, "")} ${words}`;
}

/** The words in small letters, without the wheels that no machine rolls on. */
export function roadWords(text: string): string {
  return text
    .toLowerCase()
    .replace(
      /(^|[^\p{L}])(fly|crown|worm|gear|bevel|spur|cog|chain|change|bull|timing|idler|jockey|free|hand|toothed|spare|ratchet|belt|balance)[- ]?wheels?(?!\p{L})/gu,
      "$1",
    );
}

/** 60 kg in grams: what one person rolls away on its rim, and two let down by hand. A rule of this tool. */
export const byHand = exact("60000") as Exact;

/** A road wheel, by its words: its nuts off it hangs on its studs or its hub until it is drawn off them. Common practice. */
export function hangsOnStuds(part: Part): boolean {
  return rollsOrCarries(part.title === undefined ? part : { ...part, name: "" }) && !/axle/u.test(`${part.name} ${part.title ?? ""}`.toLowerCase());
}

/** Such a wheel that one person rolls away; one that is too heavy for that is slung. Its weight is that of its line `mass`, or `said` where it has none. */
export function standsOnStuds(part: Part, said?: Exact): boolean {
  const mass = measured(part.mass)?.value ?? (part.mass === undefined ? said : undefined);
  return mass !== undefined && mass.compare(byHand) < 0 && hangsOnStuds(part);
}
