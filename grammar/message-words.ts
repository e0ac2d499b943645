// Words about words, for the messages of lines that can't be read: how a line is written, a token as it is shown, a list with its last "or".
import type { IToken } from "chevrotain";
import { DateToken, OtherDate, TextToken, endOf } from "./tokens.ts";
import { fault, fixOf } from "./line-nodes.ts";
import type { Fault, Span } from "./tree.ts";
import { type EntryKind, actionWord, detailsOf, entryWord, lockingPhrases } from "./words.ts";

/** How the line that starts with this word is written. */
export function syntaxOf(tokens: readonly IToken[]): string {
  const word = tokens[0]?.image ?? "";
  const details = detailsOf(word);
  const syntax =
    entryWord(word)?.syntax ?? [...details.map((it) => it.syntax), ...(actionWord(word) === undefined ? [] : [actionWord(word)?.syntax])].join(" | ");
  return syntax === "" ? "left 0.014, 0.015 in" : syntax;
}

/** An entry as one says it: “a part”, “an offer”, “shims”. */
export function withArticle(kind: EntryKind): string {
  if (kind === "shims" || kind === "places" || kind === "stock") return kind;
  return `${/^[aeiou]/.test(kind) && kind !== "use" ? "an" : "a"} ${kind}`;
}

export function detailThing(verb: string): string {
  const syntax = actionWord(verb)?.syntax ?? "";
  return syntax.includes("FASTENER") ? "a fastener" : syntax.includes("FLUID") ? "a fluid" : syntax.includes("PART") ? "a part" : "a name";
}

export function between(a: IToken, b: IToken): Span {
  return { from: endOf(a), to: b.startOffset };
}

export function shown(it: IToken): string {
  if (it.tokenType === TextToken) return "a text";
  if (it.tokenType === OtherDate || it.tokenType === DateToken) return "a date";
  return `\`${it.image.length > 40 ? `${it.image.slice(0, 40)}…` : it.image}\``;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function orList(words: readonly string[]): string {
  const quoted = words.map((it) => `\`${it}\``);
  return quoted.length < 2 ? (quoted[0] ?? "") : `${quoted.slice(0, -1).join(", ")} or ${quoted[quoted.length - 1]}`;
}

/**
 * What was typed is near to a word. Where several begin with it (`und`, `re`) it is half of one, and nobody says which: each is offered, and none is written for
 * whoever has all spelling mended at once.
 */
export function isMeant(at: Span, said: string, typed: string, near: string, words: readonly string[]): Fault {
  const begun = typed.toLowerCase();
  const whole = near.startsWith(begun) ? [...new Set(words)].filter((it) => it.startsWith(begun)) : [];
  const shown = whole.length < 2 ? [near] : whole.slice(0, 4);
  const or = whole.length > shown.length ? `${shown.map((it) => `\`${it}\``).join(", ")} or another` : orList(shown);
  return fault(
    at,
    `${said} Is ${or} meant?`,
    shown.map((it) => fixOf(`Write \`${it}\``, at, it)),
  );
}

/** A short name from a title: "Front hub, left" → front-hub. */
export function nameFrom(text: string): string {
  const words =
    (text.slice(1, -1).split(/[,;(]/)[0] ?? "")
      .normalize("NFC")
      .toLowerCase()
      .match(/[\p{L}\p{M}\p{N}]+/gu) ?? [];
  const name = words.slice(0, 4).join("-");
  return /^\p{L}/u.test(name) ? name : "short-name";
}

export function together(words: string): string {
  return words.replace(/[- ]/g, "").toLowerCase();
}

export const phrasesTogether: ReadonlyMap<string, string> = new Map(
  [...lockingPhrases.keys()].filter((it) => it.includes(" ")).map((it) => [together(it), it]),
);

/** `worn < 0.5`, `worn over 0.5`: it may be worn then, or still good. */
export function wornEitherWay(figure: string): string {
  return `Say which way it wears: may it be up to ${figure} (\`worn max ${figure}\`), or down to it (\`worn min ${figure}\`)?`;
}

/** Words into quotes, as they are. */
export function quoted(words: string): string {
  return `"${words}"`;
}

/** What is said of one where a name would be read. */
export function deniedFault(at: Span, word: string): Fault {
  return fault(at, `\`${word}\` is no name: it turns round what the line says. Write what is so, and what is not so in a \`note\`.`);
}
