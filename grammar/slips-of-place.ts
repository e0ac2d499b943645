// Slips of hand by which something stands where it is not read: a fact on another's line, a count before its name, a place behind a torque, words without a line of their own.
// Invariant: as in slips.ts, one that knows none says nothing; a fix leaves every word that was written.
import type { IToken } from "chevrotain";
import { takesCount } from "./action-grammar.ts";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import { between } from "./message-words.ts";
import { usualPlaces } from "./plain-words.ts";
import { type Slip, type Stop, indentOf, itemShapes, placesRead, plainRest, thingsRead } from "./stop.ts";
import { DateToken, Name, TextToken, endOf, figureToken, goingOnToken, nameToken } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";
import { entryWord } from "./words.ts";

/** Asked before it is looked for a missing quote or comma. */
export const slipsOfPlace: readonly Slip[] = [
  eachOnItsLine,
  ofOneThing,
  readingOnItsHead,
  orderWithoutReference,
  chockedWhat,
  countBeforeName,
  countOfReceived,
  placeBehindTail,
  textBehindAction,
  textBehindFigures,
  toolBehindAction,
  wordBeforeDate,
  doneByWhom,
  fillToLevel,
  placesWithoutKind,
  dateRunTogether,
  torqueOfRange,
  gaugeWith,
];

/** `places left, right` */
function placesWithoutKind({ failure, here, tokens, node, shape, text }: Stop): Fault | undefined {
  const first = tokens[1];
  if (shape !== "places" || failure?.expected !== Name || here !== tokens[2] || here?.image !== "," || first === undefined || !nameToken(first))
    return undefined;
  const at = { from: first.startOffset, to: (node.at as Span).to };
  const list = text.slice(at.from, at.to);
  const kind = /^(?:left|right)\b/.test(list) ? "side" : /^(?:front|rear)\b/.test(list) ? "end" : "place";
  return fault(at, `First a word for what kind of places they are: places ${kind} ${short(list)}.`, [
    fixOf(`Write places ${kind}`, { from: at.from, to: at.from }, `${kind} `),
  ]);
}

/** `done 20261006` */
function dateRunTogether({ failure, here }: Stop): Fault | undefined {
  if (here === undefined || (failure?.how !== "rest" && failure?.expected !== DateToken)) return undefined;
  const [, year, month, day] = /^((?:19|20)\d\d)(0[1-9]|1[0-2])(0[1-9]|[12]\d|3[01])$/.exec(here.image) ?? [];
  if (day === undefined) return undefined;
  const date = `${year}-${month}-${day}`;
  return fault(spanOf(here), `A date is written year, month, day: ${date}.`, [fixOf(`Write ${date}`, spanOf(here), date)]);
}

/** `tighten hub-nut to 20-25 lbf.ft`: which of them it was only the writer knows. */
function torqueOfRange({ failure, here, before, behind, node }: Stop): Fault | undefined {
  if (failure === undefined || node.kind !== "action" || node.verb !== "tighten" || here === undefined || !figureToken(behind)) return undefined;
  if (!/^(?:-|\u2013|\.\.|to|or)$/.test(here.image)) return undefined;
  // `hub-nut to 20`: that is the torque itself.
  if (thingsRead(node).some((it) => it.name?.text === before.image) || placesRead(node).some((it) => it.text === before.image)) return undefined;
  return fault(spanOf(here), "Work has one torque, not a range: write the figure that it was tightened to. The range is declared with the fastener.");
}

/** `finding hub, drum`, `seen blue and float found good` */
function ofOneThing({ shape, tokens, index }: Stop): Fault | undefined {
  const what = ofOne[shape];
  const [, first, joined, second] = tokens;
  if (what === undefined || index < 2 || index > 3 || first === undefined || joined === undefined || second === undefined) return undefined;
  if (!/^(?:,|and)$/.test(joined.image) || !nameToken(first) || !nameToken(second) || usualPlaces.has(second.image)) return undefined;
  return fault({ from: joined.startOffset, to: endOf(second) }, `${what} Write another one: ${shape} ${second.image}.`);
}

const ofOne: Readonly<Record<string, string>> = {
  finding: "A finding is of one thing.",
  measure: "A reading is of one limit.",
  seen: "A look is for one check.",
};

/** `measure float found with dial` */
function gaugeWith({ failure, here, behind, shape }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || shape !== "measure" || (here?.image !== "with" && here?.image !== "using") || !nameToken(behind)) return undefined;
  return fault(spanOf(here), `What it was read with goes after \`by\`: by ${behind?.image}.`, [fixOf("Write `by`", spanOf(here), "by")]);
}

/** `part hub "Hub" each side`, `qty 5 each side` */
function eachOnItsLine({ failure, here, before, behind, shape, tokens, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || here?.image !== "each" || !nameToken(behind)) return undefined;
  if (shape === "qty" && figureToken(tokens[1])) {
    const written = `${text.slice(here.startOffset, (node.at as Span).to)} ${tokens[1]?.image}`;
    return fault(spanOf(here), `The count at each place goes after it: ${written}.`, [fixOf(`Write ${written}`, node.at as Span, written)]);
  }
  if (entryWord(shape) === undefined) return undefined;
  return fault(spanOf(here), "One line, one fact: `each` starts another. Put it on a line of its own.", [
    fixOf("Put it on a line of its own", between(before, here), "\n  "),
  ]);
}

/** `measure float found left 0.004 in` */
function readingOnItsHead({ failure, here, before, shape, tokens, index, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || shape !== "measure" || here === undefined || !tokens.slice(index).some(figureToken)) return undefined;
  if (!nameToken(here) && !figureToken(here)) return undefined;
  const rest = text.slice(here.startOffset, (node.at as Span).to);
  return fault({ from: here.startOffset, to: (node.at as Span).to }, `A reading goes on a line of its own below: ${short(rest)}.`, [
    fixOf("Put it on a line of its own", between(before, here), "\n  "),
  ]);
}

/** `order to weir`, `order from weir lane` */
function orderWithoutReference({ failure, here, shape, tokens, index, node }: Stop): Fault | undefined {
  if (shape !== "order" || failure?.expected !== TextToken || (here?.image !== "to" && here?.image !== "from")) return undefined;
  const names = tokens.slice(index + 1);
  if (names.length === 0 || names.length > 4 || !names.every(nameToken)) return undefined;
  const written = `"___" to ${names.map((it) => it.image).join("-")}`;
  const at = { from: here.startOffset, to: (node.at as Span).to };
  return fault(at, `An order has a reference before that, its number or any words: order ${written}.`, [fixOf(`Write ${written}`, at, written)]);
}

/** `chock front wheels` */
function chockedWhat(stop: Stop): Fault | undefined {
  const { failure, here, node } = stop;
  const rest = failure?.how === "rest" && node.verb === "chock" && nameToken(here) ? plainRest(stop) : undefined;
  if (rest === undefined) return undefined;
  return fault(rest.at, `Put quotes around a text: "${short(rest.words)}".`, [fixOf("Put quotes around it", rest.at, `"${rest.words}"`)]);
}

/** `undo 4 wheel-nut left`, `stock 2 x hub-seal` */
function countBeforeName({ failure, here, tokens, index, node, shape }: Stop): Fault | undefined {
  if (here === undefined || !/^\d+$/.test(here.image) || (failure?.expected !== Name && failure?.choice !== "item")) return undefined;
  const isWork = node.kind === "action" && takesCount(node.verb as string);
  if (!isWork && !itemShapes.has(shape) && shape !== "received") return undefined;
  const times = tokens[index + 1]?.image === "x" ? 1 : 0;
  const name = tokens[index + 1 + times];
  if (name === undefined || !nameToken(name) || goingOnToken(name)) return undefined;
  const written = `${name.image} ${here.image}`;
  return fault(spanOf(here), `The count goes after the name: ${written}.`, [fixOf(`Write ${written}`, { from: here.startOffset, to: endOf(name) }, written)]);
}

/** `received hub-seal on 2026-05-01` */
function countOfReceived({ failure, here, before, behind, shape }: Stop): Fault | undefined {
  if (failure === undefined || shape !== "received" || here?.image !== "on" || !nameToken(before)) return undefined;
  return fault(spanOf(before), `How many came? The count goes after the name: ${before.image} 1 on ${behind?.image ?? "2026-04-11"}.`);
}

/** `tighten hub-nut to 45 lbf.ft left`, `fit hub new left` */
function placeBehindTail({ failure, here, before, node, tokens, index, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "action" || here === undefined || !nameToken(here) || placesRead(node).length > 0) return undefined;
  const tail = tokens.find((it, i) => i > 0 && i < index && goingOnToken(it));
  const last = tokens[tokens.length - 1] as IToken;
  const names = tokens.slice(index).filter((it) => it.image !== ",");
  // Behind `new` nothing else may stand alone.
  const isPlace = names.every((it) => usualPlaces.has(it.image)) || (before.image === "new" && names.length === 1 && last === here && here.image.length < 5);
  if (tail === undefined || thingsRead(node).length === 0 || !isPlace) return undefined;
  const places = text.slice(here.startOffset, endOf(last));
  const written = `${text.slice((node.at as Span).from, tail.startOffset)}${places} ${text.slice(tail.startOffset, endOf(before))}`;
  return fault({ from: here.startOffset, to: endOf(last) }, `The place goes straight after the name: ${written}.`, [
    fixOf(`Write ${written}`, { from: (node.at as Span).from, to: endOf(last) }, written),
  ]);
}

/** `remove hub "came off by hand"` */
function textBehindAction({ failure, here, before, behind, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "action" || here?.tokenType !== TextToken || behind !== undefined) return undefined;
  return fault(spanOf(here), `Words of your own go in a note: note ${short(here.image)}.`, [
    fixOf("Make it a note", between(before, here), `\n${indentOf(text)}note `),
  ]);
}

/** `torque 30 .. 35 lbf.ft "Maker's card 4"` */
function textBehindFigures({ failure, here, before, behind, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || !sourced.has(node.kind as string) || here?.tokenType !== TextToken || behind !== undefined) return undefined;
  return fault(spanOf(here), `Where a figure is from goes on a line of its own: source ${short(here.image)}.`, [
    fixOf("Put it on a line of its own", between(before, here), `\n${indentOf(text)}source `),
  ]);
}

/** Lines with figures of entries that have a `source`. */
const sourced: ReadonlySet<string> = new Set(["torque", "worn", "new", "set", "spread", "ovality", "taper"]);

/** `undo hub-nut with a long bar`, `remove hub using puller`, `grease hub with graphite` */
function toolBehindAction(stop: Stop): Fault | undefined {
  const { failure, here, before, behind, node, text } = stop;
  if (failure?.how !== "rest" || node.kind !== "action" || (here?.image !== "with" && here?.image !== "using") || behind === undefined) return undefined;
  const rest = plainRest(stop);
  if (rest === undefined) return undefined;
  // With what it was pulled is a gauge or a tool, and the torque behind it is neither.
  if (node.verb === "tighten" && nameToken(behind) && node.by === undefined) {
    const torqued = text.slice(endOf(behind), rest.at.to).trim();
    const by = fixOf("Write `by`", spanOf(here), "by");
    if (/^to\s/.test(torqued) || torqued === "") {
      const tool = fixOf("Put it on a line of its own", { from: endOf(before), to: rest.at.to }, `\n${indentOf(text)}tool "${behind.image}"`);
      return fault(rest.at, `What it was pulled with goes after \`by\`: by ${behind.image}.`, torqued === "" ? [by, tool] : [by]);
    }
  }
  const isTool = !stuffs.has(node.verb as string);
  const words = isTool ? rest.words.slice(behind.startOffset - here.startOffset).replace(/^an? /, "") : rest.words;
  const [said, title, word] = isTool
    ? ["A tool goes on a line of its own", "Put it on a line of its own", "tool"]
    : ["Words of your own go in a note", "Make it a note", "note"];
  const fix = fixOf(title, { from: endOf(before), to: rest.at.to }, `\n${indentOf(text)}${word} "${words}"`);
  return fault(rest.at, `${said}: ${word} "${short(words)}".`, [fix]);
}

/** What these are done with is no tool. */
const stuffs: ReadonlySet<string> = new Set(["grease", "oil", "clean", "fill", "repair"]);

/** `done on 2026-03-01` */
function wordBeforeDate({ failure, here, behind, before }: Stop): Fault | undefined {
  if (
    (failure?.how !== "rest" && failure?.expected !== DateToken) ||
    here === undefined ||
    !/^(?:on|at|the)$/.test(here.image) ||
    behind?.tokenType !== DateToken
  )
    return undefined;
  return fault(spanOf(here), `Leave \`${here.image}\` out: ${before.image} ${behind.image}.`, [
    fixOf(`Leave \`${here.image}\` out`, { from: here.startOffset, to: behind.startOffset }, ""),
  ]);
}

/** `done 2026-03-01 J Moor` */
function doneByWhom({ failure, here, before, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "done" || here === undefined || placesRead(node).at(-1)?.text !== before.image) return undefined;
  const at = { from: before.startOffset, to: (node.at as Span).to };
  const name = text.slice(at.from, at.to);
  if (!/^\p{Lu}[\p{L}. '-]*$/u.test(name) || !/^\p{Lu}/u.test(here.image)) return undefined;
  return fault(at, `Who did it goes after \`by\`: by "${name}".`, [fixOf(`Write by "${name}"`, at, `by "${name}"`)]);
}

/** `fill oil to level` */
function fillToLevel({ failure, here, before, node, tokens, index }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.verb !== "fill" || here?.image !== "to" || tokens.slice(index + 1).some(figureToken)) return undefined;
  const at = { from: here.startOffset, to: (node.at as Span).to };
  return fault(at, "`fill` without a figure says that it is full.", [fixOf("Leave it out", { from: endOf(before), to: at.to }, "")]);
}

function short(text: string): string {
  return text.length > 40 ? `${text.slice(0, 39)}…${text.endsWith('"') ? '"' : ""}` : text;
}
