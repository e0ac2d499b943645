// Slips of hand by which a day, a name or a supplier would go into a text and be lost, and what came of an order.
// Invariant: as in slips.ts; what a fix writes holds every day, count and name that was written, where the line has them.
import type { IToken } from "chevrotain";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import { quoted } from "./message-words.ts";
import { usualPlaces } from "./plain-words.ts";
import { type Slip, type Stop, placesRead } from "./stop.ts";
import { DateToken, Figure, TextToken, endOf, nameToken } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";

/** Asked before it is looked for a missing quote. */
export const slipsOfTexts: readonly Slip[] = [reasonTakenForPlace, textBeforeMore, supplierOfOrder, receivedAll, dateBeforeName];

// ---------------------------------------------------------------- what goes on behind a text

/** The words that go on behind a text of such a line, and whether a day does. */
const goesOnBehind: Readonly<Record<string, { readonly words: RegExp; readonly date: boolean; readonly places?: boolean }>> = {
  done: { words: /^$/, date: true, places: true },
  seen: { words: /^$/, date: true, places: true },
  release: { words: /^at$/, date: true },
  concession: { words: /^by$/, date: true },
  admit: { words: /^by$/, date: false },
  work: { words: /^price$/, date: false },
  stock: { words: /^$/, date: true },
  test: { words: /^load$/, date: false },
};

/** `done by Ilse 2026-08-09`, `release by Ilse at 90412 km`: the text ends where the line goes on. */
function textBeforeMore(stop: Stop): Fault | undefined {
  const { failure, here, shape, tokens, index, text, node } = stop;
  const wanted = failure?.expected === TextToken || (failure?.how === "rest" && shape === "test");
  const more = goesOnBehind[shape];
  if (!wanted || here === undefined || here.tokenType === TextToken || here.tokenType === DateToken) return undefined;
  if (shape === "pause") return dayBehindText(stop);
  if (more === undefined) return undefined;
  const whole = (node.at as Span).to;
  const tail = tailOf(tokens, index, more, text, whole);
  if (tail === undefined) return undefined;
  const words = text.slice(here.startOffset, tail.from).trimEnd().replace(/,$/, "");
  if (words === "" || /["\\]/.test(words)) return undefined;
  const written = `${quoted(words)} ${tail.written}`;
  const at = { from: here.startOffset, to: here.startOffset + words.length };
  return fault(at, `Put quotes around a text: ${written}.`, [fixOf(`Write ${quoted(words)}`, { from: here.startOffset, to: whole }, written)]);
}

/** Where the words end and the line goes on, and how that is written. */
function tailOf(
  tokens: readonly IToken[],
  index: number,
  more: { words: RegExp; date: boolean; places?: boolean },
  text: string,
  whole: number,
): { from: number; written: string } | undefined {
  const isStart = (it: IToken, i: number) =>
    i > index && ((more.date && it.tokenType === DateToken) || more.words.test(it.image) || (more.places === true && usualPlaces.has(it.image)));
  const at = tokens.findIndex(isStart);
  const first = tokens[at];
  if (first === undefined) return undefined;
  const joined = tokens[at - 1] as IToken;
  const from = first.tokenType === DateToken && /^(?:on|the)$/.test(joined.image) && at - 1 > index ? joined.startOffset : first.startOffset;
  const rest = text.slice(first.startOffset, whole);
  // Who allowed it may stand without quotes as well.
  const by = /^by\s+(?!")(.*?)(\s+\d{4}-\d\d-\d\d)?$/.exec(rest);
  return { from, written: by === null || /["\\]/.test(by[1] as string) ? rest : `by ${quoted(by[1] as string)}${by[2] ?? ""}` };
}

/** `pause waiting for parts 2026-08-09` */
function dayBehindText({ here, tokens, text, node }: Stop): Fault | undefined {
  const last = tokens.at(-1) as IToken;
  if (here === undefined || last.tokenType !== DateToken || last === here) return undefined;
  const words = text
    .slice(here.startOffset, last.startOffset)
    .trim()
    .replace(/[\s,]+(?:on)?$/, "");
  if (/["\\]/.test(words)) return undefined;
  const written = `${last.image} ${quoted(words)}`;
  return fault({ from: here.startOffset, to: (node.at as Span).to }, `The day comes first, then the words in quotes: pause ${written}.`, [
    fixOf(`Write ${written}`, { from: here.startOffset, to: (node.at as Span).to }, written),
  ]);
}

/** `concession hub worn by Ilse`: the reason was taken for a place. */
function reasonTakenForPlace({ failure, here, node, shape, tokens, text }: Stop): Fault | undefined {
  const [place] = placesRead(node);
  if (shape !== "concession" || failure?.expected !== TextToken || place === undefined || here === undefined || place.text.length < 3) return undefined;
  if (usualPlaces.has(place.text) || here.tokenType === TextToken) return undefined;
  const index = tokens.findIndex((it) => it.startOffset === place.at.from);
  const tail = tailOf(tokens, index, { words: /^by$/, date: true }, text, (node.at as Span).to);
  if (tail === undefined) return undefined;
  const words = text.slice(place.at.from, tail.from).trim();
  if (/["\\]/.test(words)) return undefined;
  const written = `${quoted(words)} ${tail.written}`;
  return fault({ from: place.at.from, to: place.at.from + words.length }, `Put quotes around a text: ${written}.`, [
    fixOf(`Write ${quoted(words)}`, { from: place.at.from, to: (node.at as Span).to }, written),
  ]);
}

// ---------------------------------------------------------------- orders

/** `order LH-2231 to lagerhof`, `order "LH-2231" from lagerhof`, `order "LH-2231" lagerhof` */
function supplierOfOrder({ failure, here, shape, tokens, index, text, node }: Stop): Fault | undefined {
  if (shape !== "order" || failure === undefined || here === undefined) return undefined;
  const whole = (node.at as Span).to;
  const isAt = (it: IToken) => /^(?:to|from|at|by|with|of)$/.test(it.image);
  const last = tokens.at(-1) as IToken;
  if (failure.how === "rest" && tokens[index - 1]?.tokenType === TextToken) {
    const name = isAt(here) ? tokens[index + 1] : here;
    if (name !== last || !nameToken(name)) return undefined;
    const at = { from: here.startOffset, to: whole };
    return fault(at, `Who it went to goes after \`to\`: to ${name.image}.`, [fixOf(`Write to ${name.image}`, at, `to ${name.image}`)]);
  }
  if (failure.expected !== TextToken || index === tokens.length - 1 || !nameToken(last) || isAt(here)) return undefined;
  const joined = tokens[tokens.length - 2] as IToken;
  const isJoined = tokens.length - 2 > index && isAt(joined);
  const words = text.slice(here.startOffset, isJoined ? joined.startOffset : last.startOffset).trim();
  if (/["\\]/.test(words)) return undefined;
  const written = `${quoted(words)} to ${last.image}`;
  const at = { from: here.startOffset, to: whole };
  const fix = fixOf(`Write ${written}`, at, written);
  if (isJoined) return fault(at, `Put quotes around its reference: ${written}.`, [fix]);
  const all = quoted(text.slice(at.from, at.to));
  return fault(at, `Put quotes around its reference, and write \`to\` before who it went to: ${written}. Or is all of it the reference: ${all}?`, [
    fix,
    fixOf(`Write ${all}`, at, all),
  ]);
}

/** `received 2026-08-17`, `received all on 2026-08-17`, `received bearing 2026-08-17` */
function receivedAll({ failure, shape, here, before, tokens, node }: Stop): Fault | undefined {
  if (failure === undefined || shape !== "received") return undefined;
  const [, ...rest] = tokens;
  const words = rest.filter((it) => it.tokenType !== DateToken).map((it) => it.image);
  const date = rest.find((it) => it.tokenType === DateToken);
  if (/^(?:(?:(?:in )?full|all|everything|complete|the lot|all of it|whole order|\d+)?(?: on)?)$/.test(words.join(" "))) {
    const one = /^\d+/.exec(words[0] ?? "")?.[0];
    if (one !== undefined)
      return fault(spanOf(rest[0] as IToken), `Write what came, then how many: received ITEM ${one}${date === undefined ? "" : ` on ${date.image}`}.`);
    const written = `status received${date === undefined ? "" : ` ${date.image}`}`;
    const at = node.at as Span;
    const said = `Where all of it came, write \`${written}\`; where a part of it did, what and how many: received ITEM 1 on ${date?.image ?? "2026-04-11"}.`;
    // The bare word may be a line that is only begun.
    return fault(at, said, rest.length === 0 ? [] : [fixOf(`Write ${written}`, at, written)]);
  }
  if (failure.expected !== Figure || !nameToken(before) || before === tokens[0] || (here !== undefined && here.tokenType !== DateToken)) return undefined;
  return fault(spanOf(before), `How many came? The count goes after the name: ${before.image} 1 on ${here?.image ?? "2026-04-11"}.`);
}

/** `release 2026-08-30 by "A. Moor" at 90412 km`: what goes behind the name stands before it. */
function dateBeforeName({ failure, here, shape, tokens, index, node, text }: Stop): Fault | undefined {
  if (shape !== "release" || failure?.expected?.name !== '"by"' || index !== 1 || here === undefined) return undefined;
  const by = tokens.findIndex((it, i) => i > index && it.image === "by");
  const name = tokens[by + 1];
  if (by < 0 || name?.tokenType !== TextToken) return undefined;
  const moved = text.slice(here.startOffset, (tokens[by] as IToken).startOffset).trim();
  const rest = text.slice(endOf(name), (node.at as Span).to).trim();
  const written = [`by ${name.image}`, moved, ...(rest === "" ? [] : [rest])].join(" ");
  const at = { from: here.startOffset, to: (node.at as Span).to };
  return fault({ from: at.from, to: at.from + moved.length }, `Who released it comes first: release ${written}.`, [fixOf(`Write ${written}`, at, written)]);
}
