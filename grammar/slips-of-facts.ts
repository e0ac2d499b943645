// Slips of hand whose first cure would lose a fact, or turn it round: a count in words, a "not", an estimate for a reading, a day, a name or a supplier inside a text.
// Invariant: as in slips.ts; what a fix writes holds every count, day, name and "not" that was written, and an estimate is never made a reading.
import type { IToken } from "chevrotain";
import { takesCount } from "./action-grammar.ts";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import { countOf, isEstimate, isNoReading, usualPlaces } from "./plain-words.ts";
import { quoted } from "./message-words.ts";
import { type Broken, type Slip, type Stop, indentOf, itemShapes, placesRead, plainRest, rangeShapes } from "./stop.ts";
import { Figure, TextToken, endOf, figureToken, goingOnToken, nameToken } from "./tokens.ts";
import type { Fault, Name, Quantity, Span } from "./tree.ts";
import { bearers } from "./words.ts";
import { meantBy } from "./words/meant-words.ts";

/** Asked before all others. */
export const slipsOfFacts: readonly Slip[] = [
  estimate,
  tightAsFound,
  denied,
  wordsBehindSeen,
  placeOfMeasure,
  howDecided,
  whereSupported,
  whereRaised,
  allPlaces,
  standsInWords,
  countInWords,
  namedCount,
  placeBehindReading,
  readingOfRange,
];

// ---------------------------------------------------------------- estimates

/** What is said of a line with an estimate in it; a fix keeps the words, and no figure of it. */
export function estimateFault({ text, tokens, node, shape }: Broken, at: Span): Fault {
  const whole = node.at as Span;
  const words = text.slice(whole.from, whole.to);
  const free = !/["\\]/.test(words);
  if (shape === "reading" && node.kind === "reading") {
    const fixes = free ? [fixOf("Make it a note", whole, `note "${words}"`)] : [];
    const word = text.slice(at.from, at.to);
    if (isNoReading(word)) return fault(at, `\`${word}\` says that this is not what was read. Write what was, or make it a note.`, fixes);
    return fault(at, "An estimate is no reading: it would be judged as if it had been measured. Measure it, or make it a note.", fixes);
  }
  if (node.verb === "drain" && free) {
    const rest = text.slice(at.from, whole.to);
    return fault(at, `\`${words.slice(0, at.from - whole.from).trim()}\` alone says that it is out; an estimate of how much goes in a note: note "${rest}".`, [
      fixOf("Make it a note", { from: text.slice(0, at.from).trimEnd().length, to: whole.to }, `\n${indentOf(text)}note "${rest}"`),
    ]);
  }
  if (rangeShapes.has(shape)) return fault(at, "An estimate is no limit. Write the figure that its source gives; what is only thought goes in a note.");
  const first = tokens.findIndex((it) => it.startOffset >= at.from);
  const to = tokens.findIndex((it, i) => i > 0 && i < first && it.image === "to");
  if (node.verb === "tighten" && to > 0 && free) {
    const from = (tokens[to] as IToken).startOffset;
    const rest = text.slice(from, whole.to);
    return fault(at, "An estimate is no torque: it would be judged as if a wrench had shown it. Write what it was pulled to, or make it a note.", [
      fixOf("Make it a note", { from: endOf(tokens[to - 1] as IToken), to: whole.to }, `\n${indentOf(text)}note "${rest}"`),
    ]);
  }
  if ((shape === "mass" || shape === "takes") && free && first === 1 && figureToken(tokens[first + 1])) {
    const rest = text.slice(endOf(tokens[first] as IToken), whole.to).trim();
    const said = text.slice(at.from, whole.to);
    return fault(at, `A figure stands alone; that it is only about that goes in a note: ${shape} ${rest}.`, [
      fixOf("Put that into a note", { from: at.from, to: whole.to }, `${rest}\n${indentOf(text)}note "${said}"`),
    ]);
  }
  return fault(at, "A figure is wanted here, and an estimate is none: write what was read or counted. What is only thought goes in a note.");
}

/** `worn max about 40 mm`, `tighten hub-nut to about 18 lbf.ft`, `18 mm or so` */
function estimate(stop: Stop): Fault | undefined {
  const { failure, here, behind, node } = stop;
  if (failure === undefined || here === undefined) return undefined;
  const isBefore = isEstimate(here.image) && (figureToken(behind) || behind?.image === ".") && (failure.expected === Figure || failure.how !== "missing");
  const isBehind =
    failure.how === "rest" &&
    (node.kind === "reading" || node.to !== undefined) &&
    (isEstimate(here.image) || (here.image === "or" && (behind === undefined || behind.image === "so" || behind.image === "thereabouts")));
  return isBefore || isBehind ? estimateFault(stop, spanOf(here)) : undefined;
}

// ---------------------------------------------------------------- what is not so

const noWord = /^(?:no|not|never|non|without|hardly|scarcely|barely|neither|un)$/i;

/** `is finger tight`, `is only half tight, unlocked "nail"`, `is not fully tight`: a fastener that is no tighter than that is loose. */
function tightAsFound({ failure, here, node, tokens, index, text }: Stop): Fault | undefined {
  if (node.kind !== "is" || here === undefined || (failure?.choice !== "condition" && failure?.how !== "rest")) return undefined;
  const said =
    /^(?:(?:only|just|no more than|barely|hardly|not|never|half|hand|fingers?|thumb|very|quite|fully|properly|really|too)[ -]+)+tight(?: enough)?(?![\p{L}-])/iu.exec(
      text.slice(here.startOffset),
    )?.[0];
  if (said === undefined || /^(?:not|very|quite|fully|properly|really|too) tight$/i.test(said) || tokens[index - 1]?.image !== (index === 1 ? "is" : ","))
    return undefined;
  // `is finger tight, "nail"`: one text holds both.
  const [more = "", told] = /^,?\s*"([^"\\]*)"/.exec(text.slice(here.startOffset + said.length)) ?? [];
  const at = { from: here.startOffset, to: here.startOffset + said.length };
  const written = `loose ${quoted(told === undefined ? said : `${said}, ${told}`)}`;
  return fault(at, `Write \`loose\`, and how tight it was as a text: ${written}.`, [
    fixOf(`Write ${written}`, { from: at.from, to: at.to + more.length }, written),
  ]);
}

/** `seen blue final not good`, `decision not reuse`, `status not received`: without its first word the line would say the contrary. */
function denied({ failure, here, behind, node, text }: Stop): Fault | undefined {
  if (here === undefined || failure === undefined || !noWord.test(here.image)) return undefined;
  if (failure.choice === "verdict") {
    const isGood = behind !== undefined && (behind.image === "good" || meantBy(behind.image, "verdict")?.write[0] === "good");
    if (!isGood) return fault(spanOf(here), "Write `good` or `bad` here, and the rest in quotes behind it.");
    const at = { from: here.startOffset, to: endOf(behind) };
    return fault(at, `Write \`bad\` for \`${text.slice(at.from, at.to)}\`.`, [fixOf("Write `bad`", at, "bad")]);
  }
  if (failure.choice === "decision")
    return fault(spanOf(here), "Write what is decided, not what is not: renew, repair, make, discard, exchange, reuse, or ask and a question.");
  if (failure.choice === "status")
    return fault(spanOf(here), "Write how far it has come: placed, sent or another. What has not come yet needs no line of its own.");
  if (node.kind === "is" && failure.choice === "condition" && !/^(?:no|not)$/i.test(here.image))
    return fault(spanOf(here), "Write what it is, not what it is not: worn, loose, missing, unlocked, serviceable and others.");
  return undefined;
}

/** `seen blue final good not burnt`: the first of the words was taken for a place. */
function wordsBehindSeen({ failure, here, before, node, shape, tokens, text }: Stop): Fault | undefined {
  const [place, more] = placesRead(node);
  if (failure?.how !== "rest" || shape !== "seen" || place === undefined || more !== undefined || place.at.from !== before.startOffset || !nameToken(here))
    return undefined;
  const from = tokens.indexOf(before);
  const end = tokens.findIndex((it, i) => i > from && (!nameToken(it) || goingOnToken(it)));
  const words = tokens.slice(from, end === -1 ? tokens.length : end).map((it) => it.image);
  if (words.length < 3 && !words.some((it) => noWord.test(it) || /^(?:all|very|a|an|the|with|after|is|was)$/.test(it))) return undefined;
  if (usualPlaces.has(place.text)) return undefined;
  const at = { from: before.startOffset, to: end === -1 ? (node.at as Span).to : endOf(tokens[end - 1] as IToken) };
  const said = quoted(text.slice(at.from, at.to));
  return fault(at, `Put quotes around a text: ${said}.`, [fixOf("Put quotes around it", at, said)]);
}

/** `measure float final left` */
function placeOfMeasure({ failure, here, shape, node, tokens, index }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || shape !== "measure" || here === undefined || !usualPlaces.has(here.image) || index !== tokens.length - 1) return undefined;
  const limit = (node.limit as Name).text;
  return fault(spanOf(here), `The place goes under it, before its figure: measure ${limit} ${node.stage as string}, and below it ${here.image} 0.004 in.`);
}

/** `decision repair by welding` */
function howDecided(stop: Stop): Fault | undefined {
  const { failure, node, before } = stop;
  if (failure?.how !== "rest" || node.kind !== "decision" || node.how !== undefined || (before.image !== "repair" && before.image !== "make")) return undefined;
  const rest = plainRest(stop);
  if (rest === undefined) return undefined;
  return fault(rest.at, `Say how, in quotes: decision ${before.image} ${quoted(rest.words)}.`, [fixOf("Put quotes around it", rest.at, quoted(rest.words))]);
}

/** `support on stands under front crossmember`, `support box on bench "trolley"` */
function whereSupported({ failure, here, before, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.verb !== "support" || here === undefined) return undefined;
  if (here.tokenType === TextToken && node.underText === undefined && node.underPart === undefined) {
    return fault(spanOf(here), `Where it bears goes after \`under\`: under ${here.image}.`, [
      fixOf("Put `under` in", { from: here.startOffset, to: here.startOffset }, "under "),
      fixOf(
        "Make it a note",
        { from: endOf(before), to: (node.at as Span).to },
        `${text.slice(endOf(here), (node.at as Span).to)}\n${indentOf(text)}note ${here.image}`,
      ),
    ]);
  }
  const part = node.underPart as Name | undefined;
  if (part === undefined || part.at.from !== before.startOffset || !nameToken(here)) return undefined;
  const rest = text.slice(part.at.from, (node.at as Span).to);
  const words = /^[^"\\]+?(?=\s+(?:rated|load)\b|$)/.exec(rest)?.[0] ?? "";
  const at = { from: part.at.from, to: part.at.from + words.length };
  return fault(at, `Put quotes around a text: under ${quoted(words)}.`, [fixOf("Put quotes around it", at, quoted(words))]);
}

/** `raise on jack front` */
function whereRaised(stop: Stop): Fault | undefined {
  const { failure, here, before, node, text } = stop;
  const rest = failure?.how === "rest" && node.verb === "raise" && nameToken(here) ? plainRest(stop) : undefined;
  if (rest === undefined) return undefined;
  return fault(rest.at, `Words of your own go in a note: note ${quoted(rest.words)}.`, [
    fixOf("Make it a note", { from: endOf(before), to: rest.at.to }, `\n${indentOf(text)}note ${quoted(rest.words)}`),
  ]);
}

/** `lock hub-nut both sides new`: the first word was taken for a place. */
function allPlaces({ failure, here, before, node, tokens, index }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || here === undefined || (node.kind !== "action" && node.kind !== "finding")) return undefined;
  if (!/^(?:both|all|each|every|either)$/.test(before.image) || !/^(?:sides?|ends?|round|corners?|places?|of)$/.test(here.image)) return undefined;
  const last = tokens[index - 2];
  if (last === undefined || last.image === ",") return undefined;
  const at = { from: before.startOffset, to: endOf(here) };
  return fault(at, `Leave \`${before.image} ${here.image}\` out: where no place is named, all of them are meant.`, [
    fixOf("Leave it out", { from: endOf(last), to: at.to }, ""),
  ]);
}

// ---------------------------------------------------------------- counts in words

/** Which sort of stand or crane it is tells nothing that a rule asks for. */
const kinds = /^(?:axle|jack|safety|trestle|car|steel|heavy|proper|good|the|of|my|our)$/;

/** `support on two axle stands`, `support on a pair of stands`, `support on a stand` */
function standsInWords({ failure, here, node, tokens, index }: Stop): Fault | undefined {
  if (node.verb !== "support" || failure?.choice !== "bearer" || here === undefined || node.standCount !== undefined) return undefined;
  const bearer = tokens.findIndex((it, i) => i > index && (bearers.some((word) => word === it.image) || it.image === "stand"));
  if (bearer < 0) return undefined;
  const words = tokens.slice(index, bearer).map((it) => it.image);
  while (words.length > 1 && kinds.test(words.at(-1) as string)) words.pop();
  const count = countOf(words.join(" "));
  if (count === undefined) return undefined;
  const on = tokens[bearer] as IToken;
  const written = `${count} ${on.image}`;
  const at = { from: here.startOffset, to: endOf(on) };
  return fault(at, `Write the count as a figure: support on ${written}.`, [fixOf(`Write ${written}`, at, written)]);
}

/** `qty four`, `takes two h`, `let back hub-nut by one flat`, `item hub-seal two` */
function countInWords({ failure, here, behind, node, shape }: Stop): Fault | undefined {
  if (failure === undefined || here === undefined || !nameToken(here)) return undefined;
  const count = countOf(here.image);
  if (count === undefined || here.image === "both") return undefined;
  if (node.kind === "is" && /^[2-9]$|^1\d$/.test(count)) return fault(spanOf(here), `The count goes after the finding's name: finding NAME ${count}.`);
  if (failure.expected !== Figure && failure.choice !== "turned" && !itemShapes.has(shape) && shape !== "received") return undefined;
  // `by half a turn`
  const at = { from: here.startOffset, to: behind !== undefined && /^an?$/.test(behind.image) && node.verb === "let" ? endOf(behind) : endOf(here) };
  return fault(at, `Write a figure for \`${here.image}\`: ${count}.`, [fixOf(`Write ${count}`, at, count)]);
}

/** `item two hub-seal`, `received two bearing on 2026-05-01`: the count was taken for the name. */
function namedCount({ failure, here, tokens, shape, node }: Stop): Fault | undefined {
  const first = tokens[1];
  if (failure === undefined || here === undefined || first === undefined || tokens[2] !== here || !nameToken(here) || goingOnToken(here)) return undefined;
  if (!itemShapes.has(shape) && shape !== "received" && !(node.kind === "action" && takesCount(node.verb as string))) return undefined;
  const count = countOf(first.image);
  if (count === undefined || !/^\d+$/.test(count)) return undefined;
  const written = `${here.image} ${count}`;
  return fault(spanOf(first), `The count goes after the name: ${written}.`, [fixOf(`Write ${written}`, { from: first.startOffset, to: endOf(here) }, written)]);
}

// ---------------------------------------------------------------- readings

/** `72 mm at the rim`, `32.012, 32.014 mm upper`: where it was read stands before the figure. */
function placeBehindReading({ failure, here, node, tokens, index, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "reading" || here === undefined || !nameToken(here)) return undefined;
  if (here.image === "by" && nameToken(tokens[index + 1]))
    return fault(
      { from: here.startOffset, to: (node.at as Span).to },
      "What it was read by stands on the line above: `measure LIMIT found by GAUGE`. Take it out here.",
    );
  const words = tokens.slice(index).filter((it) => !/^(?:at|on|the|of)$/.test(it.image));
  if (words.length === 0 || words.length > 2 || !words.every(nameToken)) return undefined;
  if ((node.words as Name[]).length + words.length > 2) return undefined;
  const whole = node.at as Span;
  const written = `${words.map((it) => it.image).join(" ")} ${text.slice(whole.from, here.startOffset).trim()}`;
  return fault({ from: here.startOffset, to: whole.to }, `Where it was read stands before the figure: ${written}.`, [
    fixOf(`Write ${written}`, whole, written),
  ]);
}

/** `72 - 75 mm`, `72 to 75 mm`: two readings, or one that was not taken. */
function readingOfRange({ failure, here, before, behind, node }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "reading" || here === undefined || !figureToken(behind) || behind === undefined) return undefined;
  if (!/^(?:-|\.\.|to|and|or|\.\.\.)$/.test(here.image)) return undefined;
  const first = figureToken(before) ? before.image : (node.figures as Quantity[]).at(-1)?.figure.text;
  return fault(spanOf(here), `A reading is a figure, not a range. Write each that was read, with commas: ${first}, ${behind.image}.`);
}
