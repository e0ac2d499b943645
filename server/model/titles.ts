// How things are named in a sentence: by the titles that the sheet gives them, and lockings as a sheet would write them.
// Invariant: words only; made from declarations, never from what was done or found.
import type { Entry, Locking, Name, Quantity } from "../../grammar/tree.ts";
import { firstPart } from "./short-titles.ts";
import type { Thing } from "./things.ts";
import { unitsOf } from "./values.ts";

/** “left hub nut”, for the inside of a sentence: the place, then as much of the title as is its own (`short-titles.ts`), or the name where there is no title. */
export function midSentence(thing: Pick<Thing, "name" | "title" | "short">, place = ""): string {
  const title = thing.title === undefined ? `\`${thing.name}\`` : small(thing.short ?? firstPart(thing.title));
  return place === "" ? title : `${place} ${title}`;
}

/** Its name as words, and its title: what a telling by words looks through. */
export function allWords(thing: Pick<Thing, "name" | "title">): string {
  return `${thing.name.replaceAll("-", " ")} ${thing.title ?? ""}`;
}

/** `left, right`: names as a sheet would list them; nothing where there are none. */
export function namesText(names: readonly Name[]): string {
  return names.map((it) => it.text).join(", ");
}

/** A title for the inside of a sentence, whole: “cover oil seal” of “Cover oil seal”. */
export function small(text: string): string {
  // A title that opens with a capital word (`BSF nut`, `M10 bolt`, `D washer`) keeps it.
  return /^(?:\p{Lu}(?:\p{Ll}|$)|A\s)/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

const many = { is: "are", was: "were", has: "have", goes: "go", comes: "come", hangs: "hang", needs: "need", does: "do", serves: "serve", it: "they" } as const;

/**
 * The verb that goes with what a thing is called, or the word that stands for it: “girder blades *are*”, “thrust block between the shafts *is*”. What is called by its name is one, and so is a check,
 * whose title is a sentence.
 */
export function agreeing(thing: Pick<Thing, "name" | "title" | "short"> & { readonly kind?: string }, one: keyof typeof many): string {
  return thing.title !== undefined && thing.kind !== "check" && isMany(thing.short ?? firstPart(thing.title)) ? many[one] : one;
}

/** Whether a title speaks of several: by the last word before what says where it is, or of what. One that can't be told counts as one. */
function isMany(title: string): boolean {
  const words = title
    .replace(/[(:].*$/, "")
    .trim()
    .split(/\s+/);
  const end = words.findIndex((it) => isBehind.test(it));
  if (end === words.length - 1) return false;
  const head = end < 0 ? words : words.slice(0, end);
  if (head.some((it) => isVerb.test(it))) return false;
  const last = head.at(-1) ?? "";
  return /^(?:feet|teeth)$/i.test(last) || (/\p{Ll}s$/u.test(last) && !/(?:ss|us|is|ways|['\u2019]s)$/.test(last) && !isOne.test(last));
}

const isBehind =
  /^(?:in|of|on|to|at|by|for|from|with|without|over|under|between|against|after|before|behind|above|below|through|into|onto|across|along|around|near|until|that|which|where|when|as|per|out|down|up)$/i;

/** Words that end as those for several do, and are one. */
const isOne = /^(?:mains|gas|lens|bias|canvas|series|atlas)$/i;

/** “Jib turns in the wind”: the title of a hazard or of a limit may be a sentence. */
const isVerb =
  /^(?:turns|comes|goes|runs|falls|drops|starts|carries|lets|rolls|sinks|slips|trips|stops|creeps|holds|puts|swings|stands|moves|fills|shuts|touches|draws|weeps|drips|bears|takes|keeps|leaks|sticks|binds|rubs|knocks|does)$/i;

/** A locking as a sheet would say it: `split pin 1/8 x 1-1/4 in`. */
export function lockingText(locking: Locking): string {
  if (locking.kind === "part") return `part ${locking.part?.text ?? ""}`.trim();
  return [locking.kind, sizeText(locking.size), locking.grade === undefined ? "" : `"${locking.grade.value}"`].filter((it) => it !== "").join(" ");
}

/** `1/8 x 1-1/4 in`: the unit once where it stands at the last only. */
export function sizeText(size: readonly Quantity[]): string {
  const units = unitsOf(size);
  const shared = size.every((it, i) => i === size.length - 1 || it.unit === undefined);
  if (shared) return `${size.map((it) => it.figure.text).join(" x ")}${units.at(-1) === undefined ? "" : ` ${units.at(-1)?.text}`}`;
  return size.map((it, i) => `${it.figure.text} ${units[i]?.text ?? ""}`.trim()).join(" x ");
}

/** “order R-1182”, and one whose reference is words by its words: “order “by telephone””. */
export function orderText(reference: string): string {
  return reference === "" ? "an order" : `order ${referenceText(reference)}`;
}

export function referenceText(reference: string): string {
  return /\s/u.test(reference) ? `\u201c${reference}\u201d` : reference;
}

/** All that an entry says in words of its own; lines that are left out are not asked. */
export function wordsIn(entry: Entry, isLeftOut: (line: object) => boolean = () => false): string[] {
  const lines: readonly { readonly text?: { readonly value?: string } | string; readonly how?: { readonly value: string } }[] = entry.details as never;
  const title = "title" in entry ? (entry.title as { readonly value: string } | undefined) : undefined;
  const told = lines.filter((it) => !isLeftOut(it));
  return [title?.value, ...told.flatMap(({ text, how }) => [typeof text === "object" ? text.value : undefined, how?.value])].filter(
    (it): it is string => it !== undefined,
  );
}
