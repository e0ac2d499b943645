// What is said of a line that can't be filed: a first word that starts none, a detail of another entry, a head among details.
import type { IToken } from "chevrotain";
import { type Draft, fault, fixOf, spanOf } from "./line-nodes.ts";
import { strangeFault } from "./strange-messages.ts";
import type { LineTokens } from "./lexer.ts";
import { TextToken, figureToken, nameToken } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";
import { type EntryKind, actionWord, detailWords, entryWord, firstWordsUnder, meantBy, nearestWord } from "./words.ts";

/** `prat hub`, `tourque 30 lbf.ft` */
export function unknownWord(line: LineTokens, under: EntryKind | undefined, near: string | undefined): Fault {
  const first = line.tokens[0] as IToken;
  const at = spanOf(first);
  if (line.strangeAt === 0) return strangeFault({ text: "", tokens: line.tokens, node: {}, shape: "", comment: line.comment }, 0);
  if (near !== undefined) return fault(at, `\`${cut(first.image)}\` starts no line here. Is \`${near}\` meant?`, [fixOf(`Write \`${near}\``, at, near)]);
  if (first.tokenType === TextToken)
    return fault(at, "A line starts with a word that says what it is. Is this a note?", [fixOf("Make it a note", { from: at.from, to: at.from }, "note ")]);
  if (figureToken(first)) return fault(at, "A line starts with a word that says what it is. Figures alone go under `measure` only.");
  if (!nameToken(first)) return fault(at, `No line starts with \`${cut(first.image)}\`.`);
  if (under === undefined)
    return fault(at, `\`${cut(first.image)}\` starts no line. An entry starts with a word such as part, fastener, step, measure or finding.`);
  if (under === "measure") return fault(at, `\`${cut(first.image)}\` starts no line here. A reading is written: left 0.014, 0.015 in.`);
  const some = examples(under);
  return fault(at, `\`${cut(first.image)}\` isn't a line of ${withArticle(under)}.${some === "" ? "" : ` Its lines start with ${some}.`}`);
}

/** `loosen hub-nut`, `jack up`: words that are not read in a step, where it is known what is meant. A fix is offered where it leaves a line that is read. */
export function meantAction(line: LineTokens, text: string, mended: Mended): Fault | undefined {
  const [first, second] = line.tokens as [IToken, IToken | undefined];
  if (!nameToken(first)) return undefined;
  const pair = second !== undefined && nameToken(second) ? meantBy(`${first.image} ${second.image}`, "action") : undefined;
  const meant = pair ?? meantBy(first.image, "action");
  if (meant === undefined) return undefined;
  const at = pair === undefined || second === undefined ? spanOf(first) : { from: first.startOffset, to: spanOf(second).to };
  const typed = text.slice(at.from, at.to);
  const fixes = meant.write.flatMap((it) => {
    const line = mended(text.slice(0, at.from) + it + text.slice(at.to));
    return line === undefined ? [] : [fixOf(`Write \`${it}\``, { from: at.from, to: text.trimEnd().length }, line.slice(at.from).trimEnd())];
  });
  const words = meant.write.map((it) => `\`${it}\``);
  const said = words.length === 1 ? "is written" : "may mean";
  return fault(at, `\`${typed}\` ${said} ${orList(words)}.`, fixes);
}

/** A line as it is once its own fault, if it has one fix, is put right; undefined where it still can't be read. */
export type Mended = (text: string) => string | undefined;

/** `the part hub "Hub"` */
export function rubbishBefore(line: LineTokens, word: IToken, text: string): Fault {
  const first = line.tokens[0] as IToken;
  const at = { from: first.startOffset, to: spanOf(first).to };
  if (line.strangeAt === 0) return strangeFault({ text, tokens: line.tokens, node: {}, shape: "", comment: line.comment }, 0);
  return fault(at, `Nothing goes before \`${word.image}\`: the line starts with it.`, [
    fixOf(`Take \`${cut(first.image)}\` away`, { from: at.from, to: word.startOffset }, ""),
  ]);
}

/** `n ote "x"`, `"note "x"` */
export function slippedWord(line: LineTokens, word: string): Fault {
  const [first, second] = line.tokens as [IToken, IToken];
  if (!nameToken(first)) {
    const at = { from: first.startOffset, to: first.startOffset + 1 };
    return fault(at, `The quote before \`${word}\` does not belong there.`, [fixOf("Take the quote away", at, "")]);
  }
  const at = { from: first.startOffset, to: spanOf(second).to };
  return fault(at, `Is \`${word}\` meant? It is one word.`, [fixOf(`Write \`${word}\``, at, word)]);
}

/** An entry's keyword among the details of another, in a line that can't be a head: `check 2026-02-01` in a gauge. */
export function notAHead(word: string, node: Draft, under: EntryKind | undefined): { fault: Fault; guess: string | undefined } {
  const at = node.keyword as Span;
  const near =
    under === undefined ? undefined : (nearestWord(word, firstWordsUnder(under))?.word ?? [...firstWordsUnder(under)].find((it) => it.startsWith(word)));
  const starts = `\`${word}\` starts an entry of its own: ${entryWord(word)?.syntax}.`;
  if (near === undefined) return { fault: fault(at, starts), guess: undefined };
  return { fault: fault(at, `${starts} Is \`${near}\` meant?`, [fixOf(`Write \`${near}\``, at, near)]), guess: near };
}

/** `check hub` among the lines of a step. */
export function checkInStep(node: Draft): { fault: Fault; guess: string | undefined } {
  const at = node.keyword as Span;
  const said = "In a step, looking at a thing is `inspect`. What it looked like at a check is an entry of its own: seen CHECK final good.";
  return { fault: fault(at, said, [fixOf("Write `inspect`", at, "inspect")]), guess: "inspect" };
}

/** A good head among the details of another entry, which go on behind it. */
export function goesOnAbove(at: Span, word: EntryKind, above: EntryKind): Fault {
  return fault(at, `\`${word}\` starts an entry, but more lines of the ${above} above follow it. Move it below them.`);
}

export function noEntryAbove(at: Span): Fault {
  return fault(at, "This line belongs to no entry. Write its part, fastener, step or other entry above it.");
}

/** A detail of another entry. */
export function strayLine(node: Draft, under: EntryKind, text: string, mended: Mended): Fault {
  const at = node.keyword as Span;
  const word = text.slice(at.from, at.to);
  if (under === "step" && word === "torque") {
    const line = mended(`${text.slice(0, at.from)}tighten${text.slice(at.to)}`);
    const fixes = line === undefined ? [] : [fixOf("Write `tighten`", { from: at.from, to: text.trimEnd().length }, line.slice(at.from).trimEnd())];
    return fault(at, "`torque` is what a fastener is declared with; in a step it is written `tighten`: tighten FASTENER to Q.", fixes);
  }
  if (node.kind === "action") return fault(at, `\`${word}\` is work: write it in a step.`);
  if (node.kind === "reading") return fault(at, "Write readings under `measure`.");
  const owners = [...new Set(detailWords.filter((it) => it.word === word).flatMap((it) => (it.under === "any" ? [] : it.under)))];
  if (actionWord(word) !== undefined) owners.push("step");
  return fault(at, `\`${word}\` belongs to ${orList(owners.map(withArticle))}, not to ${withArticle(under)}.`);
}

/** A detail of another entry that stands as a head does and can't be read: a head whose keyword is wrong or gone. */
export function strayHead(node: Draft, near: string | undefined): Fault {
  const at = node.keyword as Span;
  if (near === undefined) return node.fault as Fault;
  return fault(at, `This can't be read here. Is \`${near}\` meant?`, [fixOf(`Write \`${near}\``, at, near)]);
}

function withArticle(kind: EntryKind): string {
  if (kind === "shims" || kind === "places" || kind === "stock") return kind;
  return `${/^[aeiou]/.test(kind) && kind !== "use" ? "an" : "a"} ${kind}`;
}

function orList(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? "another entry") : `${words.slice(0, -1).join(", ")} or ${words[words.length - 1]}`;
}

function examples(under: EntryKind): string {
  const words = [...firstWordsUnder(under)].filter((it) => it !== "photo" && it !== "accept").slice(1, 7);
  return words.length === 0 ? "" : `${words.join(", ")}${words.length === 6 ? " and others" : ""}`;
}

function cut(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}
