// Slips of hand by which one line is to say two things: work and locking in one breath, a list in which each has its own `new`, how tight in words.
// Invariant: as in slips.ts; a fix leaves two lines that are read.
import type { IToken } from "chevrotain";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import { type Slip, type Stop, indentOf, placesRead, thingsRead } from "./stop.ts";
import { By, DateToken, endOf, figureToken, goingOnToken, nameToken } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";
import { actionWord } from "./words.ts";

/** Asked before anything else but what an action saw for itself. */
export const slipsOfTwo: readonly Slip[] = [newOfEach, twoVerbs, andAnother, handTight, wordsBehind, byTheBook, heldUntil, setByNothing];

/** `fit hub new, seal new` */
function newOfEach({ failure, here, before, behind, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "action" || behind === undefined || !nameToken(behind)) return undefined;
  if (here === undefined || (here.image !== "," && here.image !== "and") || actionWord(behind.image) !== undefined) return undefined;
  if (here.image === "and" && before.image !== "new") return undefined;
  if (node.verb !== "fit" && node.verb !== "lock") return undefined;
  if (thingsRead(node).length === 0 || (before.image !== "new" && !placesRead(node).some((it) => it.text === before.image))) return undefined;
  const verb = node.verb as string;
  const rest = text.slice(behind.startOffset, (node.at as Span).to);
  return fault(spanOf(here), `\`${before.image}\` ends what the line says. What comes next goes on a line of its own: ${verb} ${rest}.`, [
    fixOf("Put it on a line of its own", { from: endOf(before), to: behind.startOffset }, `\n${indentOf(text)}${verb} `),
  ]);
}

/** `tighten and lock hub-nut`: the `and` was taken for a name. */
function twoVerbs({ failure, node, tokens, text }: Stop): Fault | undefined {
  const [first, and, second, ...rest] = tokens as readonly (IToken | undefined)[];
  if (failure === undefined || node.kind !== "action" || and?.image !== "and" || first === undefined || second === undefined) return undefined;
  const next = rest[0];
  if (actionWord(second.image) === undefined || next === undefined || !nameToken(next)) return undefined;
  const words = text.slice(next.startOffset, (node.at as Span).to);
  // What locks is not what tightens to a figure: each line has its own tail.
  const tail = rest.find((it) => it !== undefined && it !== next && goingOnToken(it) && it.image !== ",");
  const names = tail === undefined ? words : text.slice(next.startOffset, tail.startOffset).trim();
  const [one, two] = second.image === "lock" && tail?.image === "to" ? [words, names] : [names, words];
  const written = `${first.image} ${one}`;
  return fault({ from: and.startOffset, to: endOf(second) }, `One line, one fact: ${written}, and below it ${second.image} ${two}.`, [
    fixOf("Write two lines", { from: first.startOffset, to: (node.at as Span).to }, `${written}\n${indentOf(text)}${second.image} ${two}`),
  ]);
}

/** `tighten hub-nut to 20 lbf.ft and lock`, `undo hub-nut and remove hub` */
function andAnother({ failure, here, before, behind, node, tokens, index, text }: Stop): Fault | undefined {
  const afterComma = before.image === "," && here !== undefined && actionWord(here.image) !== undefined;
  if ((failure?.how !== "rest" && !afterComma) || failure === undefined || node.kind !== "action") return undefined;
  // Behind a name the word was taken for a place.
  const taken = afterComma || (before.image === "and" && placesRead(node).at(-1)?.text === "and");
  const [last, and, verb, next] = taken ? [tokens[index - 2], before, here, behind] : [before, here, behind, tokens[index + 2]];
  if ((and?.image !== "and" && and?.image !== "then" && and?.image !== ",") || last === undefined || and === undefined || verb === undefined) return undefined;
  if (actionWord(verb.image) === undefined) return undefined;
  const alone = next === undefined || goingOnToken(next) || figureToken(next);
  const things = thingsRead(node);
  const first = things[0];
  if (alone && (first === undefined || things.length > 1)) return undefined;
  const places = placesRead(node).filter((it) => it.text !== "and");
  const names =
    alone && first !== undefined
      ? ` ${first.name.text}${first.count === undefined ? "" : ` ${first.count.text}`}${places.length === 0 ? "" : ` ${places.map((it) => it.text).join(", ")}`}`
      : "";
  const tail = text.slice(endOf(verb), (node.at as Span).to);
  return fault({ from: and.startOffset, to: endOf(verb) }, `One line, one fact: \`${verb.image}\` starts another. Put it on a line of its own.`, [
    fixOf("Put it on a line of its own", { from: endOf(last), to: (node.at as Span).to }, `\n${indentOf(text)}${verb.image}${names}${tail}`),
  ]);
}

/** `tighten hub-nut hand tight`, `tighten hub-nut left finger tight` */
function handTight({ failure, here, before, behind, node, tokens, index, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.verb !== "tighten" || here === undefined) return undefined;
  if (inOneWord.test(here.image) && behind === undefined)
    return fault(spanOf(here), `Words of your own go in a note: note "${here.image}".`, [
      fixOf("Make it a note", { from: endOf(before), to: endOf(here) }, `\n${indentOf(text)}note "${here.image}"`),
    ]);
  const [by, tight, more] = byHand.test(before.image) && here.image === "tight" ? [before, here, behind] : [here, behind, tokens[index + 2]];
  if (!byHand.test(by.image) || tight?.image !== "tight" || more !== undefined) return undefined;
  const words = `${by.image} ${tight.image}`;
  const last = tokens[tokens.indexOf(by) - 1] as IToken;
  return fault(
    { from: by.startOffset, to: endOf(tight) },
    `Words of your own go in a note: note "${words}". That a fastener is tightened so is declared with it: torque by feel "${words}".`,
    [fixOf("Make it a note", { from: endOf(last), to: endOf(tight) }, `\n${indentOf(text)}note "${words}"`)],
  );
}

const inOneWord = /^(?:hand|finger)-tight$/;
const byHand = /^(?:hand|finger|fingers|thumb)$/;

/** `tighten gland-nut a flat`, `fit hub as before`, `drain oil into a tin`: the first word was taken for a place. */
function wordsBehind({ failure, here, node, tokens, index, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "action" || here === undefined || !nameToken(here)) return undefined;
  const place = placesRead(node).at(-1);
  const first =
    place !== undefined && small.test(place.text) ? tokens.findIndex((it) => it.startOffset === place.at.from) : small.test(here.image) ? index : -1;
  const from = tokens[first];
  const last = tokens[first - 1];
  if (from === undefined || last === undefined || last.image === ",") return undefined;
  const at = { from: from.startOffset, to: (node.at as Span).to };
  const words = text.slice(at.from, at.to);
  if (/["\\]/.test(words) || tokens.slice(first).some(figureToken)) return undefined;
  return fault(at, `Words of your own go in a note: note "${words.length > 40 ? `${words.slice(0, 39)}…` : words}".`, [
    fixOf("Make it a note", { from: endOf(last), to: at.to }, `\n${indentOf(text)}note "${words}"`),
  ]);
}

const small = /^(?:a|an|as|into|onto|until|till|like|very|quite|just|half|so)$/;

/** `tighten hub-nut to book` */
function byTheBook({ failure, here, node }: Stop): Fault | undefined {
  if (failure?.how === "rest" || node.verb !== "tighten" || here === undefined || !/^(?:the|book|spec\w*|torque|figure|maker)$/i.test(here.image))
    return undefined;
  return fault(
    { from: here.startOffset, to: (node.at as Span).to },
    "Write the figure that it was pulled to, with its unit; by what book stands under the fastener, as its `source`.",
  );
}

/** `checked 2026-01-10 due 2027-01-10` */
function heldUntil({ failure, here, behind, shape, tokens, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || shape !== "checked" || here === undefined || !/^(?:due|next|until|till|to|valid|expires|again|after)$/.test(here.image))
    return undefined;
  const at = { from: here.startOffset, to: (node.at as Span).to };
  const rest = tokens.slice(tokens.indexOf(here) + 1);
  const due = rest.find((it) => it.tokenType === DateToken);
  const first = tokens.find((it) => it.tokenType === DateToken);
  const months = due === undefined || first === undefined ? undefined : monthsBetween(first.image, due.image);
  const written =
    months !== undefined ? `every ${months} months` : figureToken(behind) ? `every ${text.slice(behind?.startOffset ?? 0, at.to)}` : "every N months";
  return fault(
    at,
    `How long that holds is written in months: ${written}.`,
    months === undefined && !figureToken(behind) ? [] : [fixOf(`Write ${written}`, at, written)],
  );
}

/** Undefined where they are not of one day of the month: how many they are is for the writer to say. */
function monthsBetween(from: string, to: string): number | undefined {
  const [a, b] = [from, to].map((it) => it.split("-").map(Number)) as [number[], number[]];
  const months = ((b[0] as number) - (a[0] as number)) * 12 + ((b[1] as number) - (a[1] as number));
  return a[2] === b[2] && months > 0 ? months : undefined;
}

/** `set 2 .. 5 mm` */
function setByNothing({ failure, here, before, shape, node, text }: Stop): Fault | undefined {
  if (shape !== "set" || failure?.expected !== By || here !== undefined) return undefined;
  const at = { from: (node.at as Span).from, to: endOf(before) };
  const range = text.slice(at.from + 3, at.to).trim();
  if (range === "") return fault(spanOf(before), "Write what it is set to, and by what: set RANGE by NAME.");
  return fault(spanOf(before), `What it is set by stands behind it: set ${range} by NAME. Where nothing sets it, the line is \`worn\` or \`new\`.`, [
    fixOf("Put `by` in", { from: at.to, to: at.to }, " by ___"),
  ]);
}
