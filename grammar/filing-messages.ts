// What is said of a line that can't be filed: a first word that starts none, a detail of another entry, a head among details.
import type { IToken } from "chevrotain";
import { type Draft, fault, fixOf, spanOf } from "./line-nodes.ts";
import { strangeFault } from "./strange-messages.ts";
import { type LineTokens, tokensOf } from "./lexer.ts";
import { countOf, usualPlaces } from "./plain-words.ts";
import { isMeant, withArticle } from "./message-words.ts";
import { indentOf } from "./stop.ts";
import { turnedBack } from "./slips-of-turns.ts";
import { DateToken, TextToken, endOf, figureToken, goingOnToken, nameToken } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";
import {
  type EntryKind,
  actionWord,
  conditions,
  decisions,
  detailWords,
  entryWord,
  entryWords,
  firstWordsUnder,
  lockingPhrases,
  nearestWord,
  statuses,
} from "./words.ts";
import { meantBy } from "./words/meant-words.ts";

/** `prat hub`, `tourque 30 lbf.ft` */
export function unknownWord(line: LineTokens, under: EntryKind | undefined, near: string | undefined): Fault {
  const first = line.tokens[0] as IToken;
  const at = spanOf(first);
  if (line.strangeAt === 0) return strangeFault({ text: "", tokens: line.tokens, node: {}, shape: "", comment: line.comment }, 0);
  // No word near to these is what was meant: what came of a thing is found, not done, and what was not so is not written.
  if (under === "step" && cameOf.test(first.image))
    return fault(at, `What was found, lost or broke is an entry of its own: \`finding NAME\`, with \`${cameOfIt(first.image)}\` below it.`);
  if (under === "step" && gets.test(first.image)) {
    const name = line.tokens[1];
    const item = name !== undefined && nameToken(name) ? name.image : "ITEM";
    return fault(at, `What is to be got is no work of a step: \`decision renew\` in a finding orders it, or write \`need ${cut(item)} 1 "why"\`.`);
  }
  if (under === "limit" && first.image === "not") return fault(at, "Write what it may be at the most or at the least: `worn max`, `worn min`, and the figure.");
  if (under === "step" && first.image === "un" && line.tokens.length === 1) return fault(at, "`un` starts no line here. Is `undo` or `under` meant?");
  if (under !== undefined && denies.test(first.image)) return fault(at, "What was not so is not written. Leave the line out, or make it a note.");
  if (under !== undefined && /^dated?$/.test(first.image))
    return fault(at, `A day has no line of its own here. It goes on the line that it is of, year, month, day: ${dayIn[under] ?? "day"} 2026-04-11.`);
  if (near !== undefined) {
    const words = [...(under === undefined ? [] : firstWordsUnder(under)), ...(entryWord(near) === undefined ? [] : entryWords.map((it) => it.word))];
    return isMeant(at, `\`${cut(first.image)}\` starts no line here.`, first.image, near, words);
  }
  if (first.tokenType === TextToken)
    return fault(at, "A line starts with a word that says what it is. Is this a note?", [fixOf("Make it a note", { from: at.from, to: at.from }, "note ")]);
  if (under === "order") {
    const item = orderedWithout(line.tokens);
    if (item !== undefined) return item;
  }
  if (figureToken(first)) {
    const words = under === undefined ? "" : examples(under);
    if (under === undefined || words === "") return fault(at, "A line starts with a word that says what it is. Figures alone go under `measure` only.");
    return fault(at, `A line of ${withArticle(under)} starts with a word that says what it is: ${words}. Figures alone go under \`measure\` only.`);
  }
  if (!nameToken(first)) return fault(at, `No line starts with \`${cut(first.image)}\`.`);
  if (under === undefined)
    return fault(at, `\`${cut(first.image)}\` starts no line. An entry starts with a word such as part, fastener, step, measure or finding.`);
  if (under === "measure") return fault(at, `\`${cut(first.image)}\` starts no line here. A reading is written: left 0.014, 0.015 in.`);
  if (line.tokens.slice(1, 3).some(figureToken) && usualPlaces.has(first.image))
    return fault(at, "A reading stands under the line that says of what it is: `measure LIMIT found` or `measure LIMIT final`. Write that above it.");
  if (under === "gauge" && first.image === "every")
    return fault(at, "How often it is checked goes behind the day on which it was: checked 2026-04-11 every 12 months.");
  const some = examples(under);
  return fault(at, `\`${cut(first.image)}\` isn't a line of ${withArticle(under)}.${some === "" ? "" : ` Its lines start with ${some}.`}`);
}

/** `found hub-nut left`, `date 2026-05-01`: a word that starts no entry, where it is known which is meant. */
export function meantHead(line: LineTokens, head: string, text: string, reads: (word: string, text: string, first: Span) => boolean): Fault {
  const first = line.tokens[0] as IToken;
  const at = spanOf(first);
  const said = `\`${first.image}\` starts no line. \`${head}\` does: ${entryWord(head)?.syntax}.`;
  // Nobody signs by a click.
  const isSure = head !== "release" || first.image === "released";
  return fault(at, said, isSure && reads(head, text, at) ? [fixOf(`Write \`${head}\``, at, head)] : []);
}

/**
 * `loosen hub-nut`, `jack up`, `pull hub off`, `weight 9 kg`, `loose` in a finding: words that start no line there, where it is known what is meant.
 * A fix is offered where it leaves a line that is read.
 */
export function meantStart(line: LineTokens, under: EntryKind, text: string, mended: Mended): Fault | undefined {
  const [first, second] = line.tokens as [IToken, IToken | undefined];
  if (!nameToken(first)) return undefined;
  const where = under === "step" ? "action" : under;
  const pair = second !== undefined && nameToken(second) ? meantBy(`${first.image} ${second.image}`, where) : undefined;
  const turned = under === "step" ? turnedBack(line.tokens, text) : undefined;
  if (turned !== undefined) return turned;
  if (pair !== undefined && second !== undefined) return meantInstead(pair.write, { from: first.startOffset, to: spanOf(second).to }, text, mended);
  // The particle of a verb may stand behind the name.
  const apart = under === "step" ? line.tokens.slice(2).find((it) => nameToken(it) && meantBy(`${first.image} ${it.image}`, where) !== undefined) : undefined;
  if (apart !== undefined) {
    const write = meantBy(`${first.image} ${apart.image}`, where)?.write ?? [];
    const without = `${text.slice(0, apart.startOffset).trimEnd()}${text.slice(spanOf(apart).to)}`;
    return meantInstead(write, spanOf(first), without, mended, `${first.image} … ${apart.image}`, text);
  }
  const known = meantBy(first.image, where)?.write;
  if (known !== undefined) return meantInstead(known, spanOf(first), text, mended);
  const begun = startOf(first.image, under);
  // `split pin missing`: the word is part of what is spoken of, and no condition of the nut.
  if (under === "finding" && second !== undefined && nameToken(second) && meantBy(first.image, "condition") !== undefined) return undefined;
  const said = begun === undefined ? undefined : meantInstead(begun, spanOf(first), text, mended);
  // `split pin missing` says nothing of a split.
  return said?.fixes.length === 0 && !decisions.some((it) => it === first.image) ? undefined : said;
}

/** A condition, a decision or a status without the word before it. */
function startOf(word: string, under: EntryKind): readonly string[] | undefined {
  if (under === "order") return statuses.some((it) => it === word) ? [`status ${word}`] : undefined;
  if (under !== "finding") return undefined;
  if (conditions.some((it) => it.word === word)) return [`is ${word}`];
  if (decisions.some((it) => it === word)) return [`decision ${word}`];
  return meantBy(word, "condition")?.write.map((it) => `is ${it}`);
}

/** `typed`: what stands at `at`, where it is in two pieces; `now`: the line as it is, where `text` is without one of them. */
function meantInstead(write: readonly string[], at: Span, text: string, mended: Mended, typed = text.slice(at.from, at.to), now = text): Fault | undefined {
  if (write.length === 0) return undefined;
  const known = new Set<string>();
  const fixes = write.flatMap((it) => {
    const line = mended(text.slice(0, at.from) + it + text.slice(at.to));
    // With its next slip put right as well, two may come to the same.
    if (line !== undefined && known.size === known.add(line).size) return [];
    return line === undefined ? [] : [fixOf(`Write \`${it}\``, { from: at.from, to: now.trimEnd().length }, line.slice(at.from).trimEnd())];
  });
  return fault(at, `\`${typed}\` ${write.length === 1 ? "is written" : "may mean"} ${orList(write.map((it) => `\`${it}\``))}.`, fixes);
}

/** `hub-seal 2`, `2 x hub-seal` in an order */
function orderedWithout(tokens: readonly IToken[]): Fault | undefined {
  const [first, second, third, fourth] = tokens as [IToken, IToken | undefined, IToken | undefined, IToken | undefined];
  const name = nameToken(first) ? first : second?.image === "x" ? third : second;
  const count = nameToken(first) ? second : first;
  const more = nameToken(first) ? third : second?.image === "x" ? fourth : third;
  if (name === undefined || !nameToken(name) || count === undefined || !/^\d+$/.test(count.image)) return undefined;
  if (more !== undefined && !goingOnToken(more)) return undefined;
  const written = `item ${name.image} ${count.image}`;
  const at = { from: first.startOffset, to: Math.max(spanOf(name).to, spanOf(count).to) };
  return fault(at, `What is ordered goes after \`item\`: ${written}.`, [fixOf(`Write ${written}`, at, written)]);
}

/** A line as it is once its own fault, if it has one fix, is put right; undefined where it still can't be read. */
export type Mended = (text: string) => string | undefined;

/** `the part hub "Hub"` */
export function rubbishBefore(line: LineTokens, word: IToken, text: string, under: EntryKind | undefined, isRead: (text: string) => boolean): Fault {
  const first = line.tokens[0] as IToken;
  const at = { from: first.startOffset, to: spanOf(first).to };
  // With such a word away the line would say the contrary.
  if (denies.test(first.image))
    return fault(at, `What was not so is not written. Leave the line out, or make it a note: note "${text.slice(at.from, at.from + 40).trim()}".`);
  if (under === "finding" && usualPlaces.has(first.image)) return fault(at, `The place goes after the finding's name: finding NAME ${first.image}.`);
  if (line.strangeAt === 0) return strangeFault({ text, tokens: line.tokens, node: {}, shape: "", comment: line.comment }, 0);
  const said = `Nothing goes before \`${word.image}\`: the line starts with it.`;
  const before = text.slice(at.from, word.startOffset).trim();
  const count = word.image === "each" ? (/^\d+$/.test(before) ? before : countOf(before)) : undefined;
  if (count !== undefined) {
    const end = line.tokens.at(-1) as IToken;
    const written = `${text.slice(word.startOffset, endOf(end))} ${count}`;
    const whole = { from: at.from, to: endOf(end) };
    return fault(at, `How many at each goes behind it: ${written}.`, line.tokens.length > 3 ? [] : [fixOf(`Write ${written}`, whole, written)]);
  }
  if (under === "finding" && word.image === "is" && nameToken(first))
    return fault(at, `What it is of stands on the line above: finding ${first.image}, and below it ${cut(text.slice(word.startOffset).trim())}.`);
  const turned = line.strangeAt === undefined && !fillers.test(first.image) ? turnedLine(line, word, text, isRead) : undefined;
  if (turned !== undefined) return turned;
  // A figure or a day that would be lost is no rubbish.
  if (figureToken(first) || first.tokenType === TextToken || first.tokenType === DateToken) return fault(at, said);
  if (!nameToken(first) || fillers.test(first.image))
    return fault(at, said, [fixOf(`Take \`${cut(first.image)}\` away`, { from: at.from, to: word.startOffset }, "")]);
  // What such a word says must not go with it.
  if (under === undefined || /["\\]/.test(before)) return fault(at, said);
  const line1 = text.slice(word.startOffset).trimEnd();
  return fault(at, `${said} Words of your own go in a note: note "${before}".`, [
    fixOf("Put it in a note", { from: at.from, to: text.trimEnd().length }, `${line1}\n${indentOf(text)}note "${before}"`),
  ]);
}

/** `"OS-31" number`, `9 mass kg`, `wheel behind`: the word that the line starts with stands behind what it is of. */
function turnedLine({ tokens, comment }: LineTokens, word: IToken, text: string, isRead: (text: string) => boolean): Fault | undefined {
  const first = tokens[0] as IToken;
  const at = { from: first.startOffset, to: endOf(tokens.at(-1) as IToken) };
  const rest = text.slice(endOf(word), at.to).trim();
  // A word before work may be a place, or tell how it went: only where nothing else is there it is what the line is of.
  if ((nameToken(first) && rest !== "") || comment !== undefined) return undefined;
  const before = text.slice(at.from, word.startOffset).trim();
  const written = [`${word.image} ${before} ${rest}`, `${word.image} ${rest} ${before}`].map((it) => it.trim()).find((it) => isRead(it));
  if (written === undefined) return undefined;
  return fault(at, `The line starts with \`${word.image}\`: ${cut(written)}.`, [fixOf(`Write ${cut(written)}`, at, written)]);
}

/** Words that say nothing before the first one of a line. */
const fillers = /^(?:the|a|an|then|now|next|and|also|first|finally|please|to|we|i|road|x|ok)$/i;

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
  const near = under === undefined ? undefined : (nearNeighbour(word, under) ?? [...firstWordsUnder(under)].find((it) => it.startsWith(word)));
  const starts = `\`${word}\` starts an entry of its own: ${entryWord(word)?.syntax}.`;
  if (near === undefined) return { fault: fault(at, starts), guess: undefined };
  return { fault: fault(at, `${starts} Is \`${near}\` meant?`, [fixOf(`Write \`${near}\``, at, near)]), guess: near };
}

/** A word of the language is seldom another one misspelt by more than a letter. */
function nearNeighbour(word: string, under: EntryKind): string | undefined {
  const near = nearestWord(word, firstWordsUnder(under));
  return near?.distance === 1 ? near.word : undefined;
}

/** `check hub` among the lines of a step. */
export function checkInStep(node: Draft): { fault: Fault; guess: string | undefined } {
  const isRead = node.fault === undefined;
  const at = node.keyword as Span;
  const said = "In a step, looking at a thing is `inspect`. What it looked like at a check is an entry of its own: seen CHECK final good.";
  return { fault: fault(at, said, isRead ? [fixOf("Write `inspect`", at, "inspect")] : []), guess: "inspect" };
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
    // `torque up`, `torque down`: two words for one.
    const meant = meantStart(tokensOf(text), under, text, mended);
    if (meant !== undefined) return meant;
    const line = mended(`${text.slice(0, at.from)}tighten${text.slice(at.to)}`);
    const fixes = line === undefined ? [] : [fixOf("Write `tighten`", { from: at.from, to: text.trimEnd().length }, line.slice(at.from).trimEnd())];
    return fault(at, "`torque` is what a fastener is declared with; in a step it is written `tighten`: tighten FASTENER to Q.", fixes);
  }
  if (under === "step" && word === "renew") {
    const line = mended(`${text.slice(0, at.from)}fit${text.slice(at.to).trimEnd()} new`);
    const fixes = line === undefined ? [] : [fixOf("Write `fit … new`", { from: at.from, to: text.trimEnd().length }, line.slice(at.from).trimEnd())];
    return fault(at, "A new one that goes on is written `fit NAME new`.", fixes);
  }
  if (under === "step" && word === "new") return newOfWhat(tokensOf(text).tokens, text, mended);
  const meant = meantStart(tokensOf(text), under, text, mended);
  if (meant !== undefined) return meant;
  if (firstWordsUnder(under).has(word)) return fault(at, `This can't be read here. The line is written: ${syntaxUnder(word, under)}.`);
  if (node.kind === "action") return fault(at, `\`${word}\` is work: write it in a step.`);
  if (node.kind === "reading") return fault(at, "Write readings under `measure`.");
  const source = firstWordsUnder(under).has("source") && word === "from" ? mended(`${text.slice(0, at.from)}source${text.slice(at.to)}`) : undefined;
  if (source !== undefined)
    return fault(at, "Where figures are from is written `source`.", [
      fixOf("Write `source`", { from: at.from, to: text.trimEnd().length }, source.slice(at.from).trimEnd()),
    ]);
  if (word === "each" && under === "offer") {
    const rest = text.slice(at.to).trim();
    const line = /^price\b/.test(rest) ? mended(`${text.slice(0, at.from)}${rest} each`) : undefined;
    const fixes = line === undefined ? [] : [fixOf(`Write ${rest} each`, { from: at.from, to: text.trimEnd().length }, `${rest} each`)];
    return fault(at, `\`each\` goes behind the price: ${/^price\b/.test(rest) ? rest : "price Q"} each.`, fixes);
  }
  const owners = [...new Set(detailWords.filter((it) => it.word === word).flatMap((it) => (it.under === "any" ? [] : it.under)))];
  if (actionWord(word) !== undefined) owners.push("step");
  return fault(at, `\`${word}\` belongs to ${orList(owners.map(withArticle))}, not to ${withArticle(under)}.`);
}

/** `new split pin hub-nut`, `new hub` in a step */
function newOfWhat(tokens: readonly IToken[], text: string, mended: Mended): Fault {
  const [first, second, third, fourth] = tokens as [IToken, IToken | undefined, IToken | undefined, IToken | undefined];
  const at = spanOf(first);
  const end = text.trimEnd().length;
  const locking = lockingPhrases.has(`${second?.image} ${third?.image.replace(/s$/, "")}`) ? `${second?.image} ${third?.image.replace(/s$/, "")}` : undefined;
  if (locking !== undefined && fourth !== undefined) {
    const rest = text.slice(fourth.startOffset).trimEnd();
    const line = mended(`${text.slice(0, at.from)}lock ${rest} with new ${locking}`);
    const fixes = line === undefined ? [] : [fixOf("Write `lock … with new`", { from: at.from, to: end }, line.slice(at.from).trimEnd())];
    return fault(at, `A new one that locks is written lock FASTENER with new ${locking}; \`lock FASTENER new\` is a new one of its own kind.`, fixes);
  }
  const line = second === undefined ? undefined : mended(`${text.slice(0, at.from)}fit ${text.slice(second.startOffset).trimEnd()} new`);
  const fixes = line === undefined ? [] : [fixOf("Write `fit … new`", { from: at.from, to: end }, line.slice(at.from).trimEnd())];
  return fault(at, "A new one that goes on is written `fit NAME new`, and one that locks `lock FASTENER new`.", fixes);
}

/** A detail of another entry that stands as a head does and can't be read: a head whose keyword is wrong or gone. */
export function strayHead(node: Draft, near: string | undefined): Fault {
  const at = node.keyword as Span;
  if (near === undefined) return node.fault as Fault;
  return fault(at, `This can't be read here. Is \`${near}\` meant?`, [fixOf(`Write \`${near}\``, at, near)]);
}

/** How a line that begins so is written under such an entry. */
function syntaxUnder(word: string, under: EntryKind): string {
  const lines: string[] = detailWords.filter((it) => it.word === word && (it.under === "any" || it.under.includes(under))).map((it) => it.syntax);
  const action = under === "step" ? actionWord(word) : undefined;
  return [...lines, ...(action === undefined ? [] : [action.syntax])].join(" | ");
}

function orList(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? "another entry") : `${words.slice(0, -1).join(", ")} or ${words[words.length - 1]}`;
}

/** The line that a day stands on. */
const dayIn: Readonly<Partial<Record<EntryKind, string>>> = {
  finding: "finding NAME",
  step: "done",
  order: "status placed",
  gauge: "checked",
  measure: "measure LIMIT final",
};

const gets = /^(?:buy|bought|get|got|order|ordered|purchase[d]?)$/;

const denies = /^(?:not|no|never|nothing|none|without|un)$/i;

const cameOf = /^(?:lost|broke|sheared|snapped|stripped|cracked|missing|found|dropped)$/;

function cameOfIt(word: string): string {
  return word === "lost" || word === "dropped" || word === "missing"
    ? "is missing"
    : word === "cracked" || word === "sheared" || word === "stripped"
      ? `is ${word}`
      : word === "found"
        ? "is …"
        : "is broken";
}

function examples(under: EntryKind): string {
  // What is written in most steps; the first words of the list are the rarer ones.
  if (under === "step") return "undo, remove, fit, tighten, lock, done and others";
  const words = [...firstWordsUnder(under)].filter((it) => it !== "photo" && it !== "accept").slice(1, 7);
  return words.length === 0 ? "" : `${words.join(", ")}${words.length === 6 ? " and others" : ""}`;
}

function cut(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}
