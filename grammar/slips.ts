// Slips of hand in a line that can't be read: each kind is a small function that knows it when it sees it, and says what to write.
// Invariant: the first that knows its slip speaks; one that knows none says nothing.
import type { IToken } from "chevrotain";
import { takesCount } from "./action-grammar.ts";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import { goingOn } from "./going-on.ts";
import { between, capital, detailThing, isMeant, nameFrom, orList, phrasesTogether, shown, syntaxOf, together } from "./message-words.ts";
import { DateToken, Figure, Minus, Name, TextToken, endOf, figureToken, goingOnToken, nameToken, touching } from "./tokens.ts";
import { slipsOfFacts } from "./slips-of-facts.ts";
import { slipsOfPlace } from "./slips-of-place.ts";
import { slipsOfShop } from "./slips-of-shop.ts";
import { slipsOfSides } from "./slips-of-sides.ts";
import { slipsOfTexts } from "./slips-of-texts.ts";
import { turn } from "./slips-of-turns.ts";
import { slipsOfTwo } from "./slips-of-two.ts";
import { slipsOfWords } from "./slips-of-words.ts";
import { usualPlaces } from "./plain-words.ts";
import { type Slip, type Stop, indentOf, itemShapes, joinedHere, listsNames, placesRead, plainRest, rangeShapes, thingsRead } from "./stop.ts";
import type { Fault, LineFix, Name as NameNode, Span } from "./tree.ts";
import {
  actionWord,
  bearers,
  conditions,
  decisions,
  detailsOf,
  entryWord,
  firstWordsUnder,
  lifters,
  lockings,
  materials,
  nearestWord,
  tailMeant,
  tailsWritten,
  stages,
  statuses,
  verdicts,
} from "./words.ts";
import { meantBy } from "./words/meant-words.ts";

const conditionWords: readonly string[] = conditions.map((it) => it.word);

export const slips: readonly Slip[] = [
  turn,
  lostFirstQuote,
  unitByComma,
  ...slipsOfFacts,
  ...slipsOfTexts,
  // Its words are taken for a torque, a range, a place.
  numbersOfPieces,
  ...slipsOfSides,
  // What was seen of an action before its line broke off explains the break.
  ({ node, complaint }) => (node.kind === "action" || node.kind === "finding" ? complaint : undefined),
  ...slipsOfShop,
  ...slipsOfTwo,
  ...slipsOfWords,
  twoTexts,
  textInside,
  numberedSize,
  rangeByDash,
  mixedFraction,
  gluedTimes,
  joinedLocking,
  wordTakenForName,
  wordTakenForItem,
  spacedThousands,
  stagesByWord,
  missingTo,
  atTorque,
  twoFacts,
  quantityOfTwo,
  unitOfTwoWords,
  ...slipsOfPlace,
  placeOfShims,
  wordsForText,
  missingName,
  moneyTurned,
  workTakenForPlace,
  namesAfterPlaces,
  newBeforePlaces,
  dryAtPull,
  placeAmongNames,
  strongWord,
  meantChoice,
  choiceOfWords,
  missingWord,
  missingComma,
  wordsForFound,
  countTooMuch,
  joiningPlace,
];

const textShapes = new Set(["critical", "part", "fastener", "fluid", "limit", "check", "gauge", "hazard", "step", "supplier", "shims"]);

// ---------------------------------------------------------------- slips of hand

/** `tighten coupling-bolt 1, 3 to 50 lbf.ft`, `lock cap-bolt 1 to 3 new`: a figure behind a name is how many. */
function numbersOfPieces({ failure, node, text, index, tokens }: Stop): Fault | undefined {
  if (failure === undefined || node.kind !== "action") return undefined;
  const name = thingsRead(node).at(-1)?.name;
  if (name === undefined || index < 2) return undefined;
  const behind = text.slice(name.at.to);
  const list = /^\s+\d{1,2}(?:\s*(?:,|&|and\b)\s*\d{1,2})+(?![\w./])/.exec(behind)?.[0];
  const row = /^\s+\d{1,2}\s*(?:\.{2,3}|[-–]|to\b|through\b)\s*\d{1,2}(?![\w./])/.exec(behind)?.[0];
  const said = list ?? row;
  if (said === undefined) return undefined;
  const at = { from: name.at.to + (said.length - said.trimStart().length), to: name.at.to + said.length };
  // Reading did not get beyond them; and what a unit stands behind is a torque: `cap-bolt 4 to 50 lbf.ft`.
  if (tokens.slice(0, index).some((it) => it.startOffset > at.to)) return undefined;
  if (said === row && !/^\s*(?:$|#|(?:to|new|by|with|from|for)\b)/.test(text.slice(at.to))) return undefined;
  const numbers = (said.match(/\d+/g) as string[]).map(Number);
  const count = said === row ? (numbers[1] as number) - (numbers[0] as number) + 1 : numbers.length;
  if (count < 2) return undefined;
  const whole = (node.at as Span).to;
  const which = `${name.text} ${text.slice(at.from, at.to)}`;
  return fault(at, `A figure behind a name is how many, not which ones: ${name.text} ${count}. Which ones goes into a \`note\`.`, [
    fixOf(`Write ${count}, and which ones into a note`, { from: at.from, to: whole }, `${count}${text.slice(at.to, whole)}\n${indentOf(text)}note "${which}"`),
  ]);
}

/** `thread #10-32 UNF` */
function numberedSize({ failure, here, comment }: Stop): Fault | undefined {
  if (failure?.choice !== "thread" || here !== undefined || comment === undefined || !/^#\d/.test(comment.image)) return undefined;
  const written = comment.image.slice(1).trim();
  return fault(spanOf(comment), `# starts a comment. A numbered size is written No.${written}.`, [
    fixOf(`Write No.${written}`, { from: comment.startOffset, to: comment.startOffset + 1 }, "No."),
  ]);
}

/** `torque 45-55 lbf.ft` */
function rangeByDash({ shape, tokens, index, failure }: Stop): Fault | undefined {
  if (!rangeShapes.has(shape)) return undefined;
  const at = tokens.findIndex(
    (it, i) => it.tokenType === Minus && figureToken(tokens[i + 1]) && (figureToken(tokens[i - 1]) || (i > 1 && figureToken(tokens[i - 2]))),
  );
  if (at === -1 || index < at || (index > at && failure?.expected !== Figure && failure?.how !== "choice")) return undefined;
  const [low, dash, high] = [tokens[at - 1], tokens[at], tokens[at + 1]] as [IToken, IToken, IToken];
  const first = figureToken(low) ? low.image : `${tokens[at - 2]?.image} ${low.image}`;
  return fault(spanOf(dash), `A range is written with two dots: ${first} .. ${high.image}.`, [
    fixOf(`Write ${first} .. ${high.image}`, between(low, high), " .. "),
  ]);
}

/** `1 1/4 in` */
function mixedFraction({ here, before }: Stop): Fault | undefined {
  if (!figureToken(here) || here === undefined || !/^\d+\/\d+$/.test(here.image) || !figureToken(before) || !/^\d+$/.test(before.image)) return undefined;
  const written = `${before.image}-${here.image}`;
  return fault({ from: before.startOffset, to: spanOf(here).to }, `A mixed fraction has a hyphen: ${written}.`, [
    fixOf(`Write ${written}`, between(before, here), "-"),
  ]);
}

/** `0.1 mm x4` */
function gluedTimes({ here, tokens }: Stop): Fault | undefined {
  const at = here !== undefined && /^[xX]\d/.test(here.image) ? here : undefined;
  if (at === undefined || tokens.length < 2) return undefined;
  return fault(spanOf(at), `Write a space after x: x ${at.image.slice(1)}.`, [
    fixOf("Put the space in", { from: at.startOffset + 1, to: at.startOffset + 1 }, " "),
  ]);
}

/** `locked by split-pin`, `offer split-pin …` */
function joinedLocking({ failure, here, tokens, shape }: Stop): Fault | undefined {
  const at = failure?.choice === "locking" ? here : itemShapes.has(shape) ? tokens[1] : undefined;
  if (at === undefined || !nameToken(at)) return undefined;
  const phrase = phrasesTogether.get(together(at.image));
  if (phrase === undefined || phrase === at.image) return undefined;
  return fault(spanOf(at), `\`${at.image}\` is two words: ${phrase}.`, [fixOf(`Write ${phrase}`, spanOf(at), phrase)]);
}

/** `tighten to 95 lbf.ft`: the word that should follow was taken for the name. */
function wordTakenForName({ failure, node, here }: Stop): Fault | undefined {
  if (failure === undefined || node.kind !== "action" || here === undefined) return undefined;
  const taken = thingsRead(node).find((it) => goingOn.has(it.name.text));
  if (taken === undefined) return undefined;
  const what = detailThing(node.verb as string);
  return fault(taken.name.at, `Before \`${taken.name.text}\` the line needs ${what}.`);
}

/** `offer from weir`, `stock from 5 "Shelf"`: the word behind what is missing was taken for it. */
function wordTakenForItem({ failure, shape, tokens, index }: Stop): Fault | undefined {
  const first = tokens[1];
  if (failure === undefined || index !== 2 || first === undefined || !(itemShapes.has(shape) || shape === "received") || !goingOn.has(first.image))
    return undefined;
  return fault(spanOf(first), `Before \`${first.image}\` the line needs what it is of: ${syntaxOf(tokens)}.`);
}

/** `tighten hub-nut 95 lbf.ft` */
function missingTo(stop: Stop): Fault | undefined {
  const { failure, node, here, text } = stop;
  if (failure?.how !== "rest" || node.verb !== "tighten" || here === undefined || !figureToken(here)) return undefined;
  const rest = text.slice(here.startOffset, (node.at as Span).to);
  if (node.to !== undefined || figureToken(stop.before)) return stagesWithoutComma(stop);
  const before = text.slice((node.at as Span).from, here.startOffset).trim();
  return fault(spanOf(here), `Write \`to\` before the torque: ${before} to ${rest}.`, [
    fixOf("Put `to` in", { from: here.startOffset, to: here.startOffset }, "to "),
  ]);
}

/** `tighten hub-nut to 60 125 lbf.ft` */
function stagesWithoutComma({ before, here, text, node }: Stop): Fault | undefined {
  if (here === undefined || !figureToken(before) || touching(before, here)) return undefined;
  return fault(spanOf(here), `What it is pulled to in turn is joined by commas: to ${before.image}, ${text.slice(here.startOffset, (node.at as Span).to)}.`, [
    fixOf("Put a comma in", { from: endOf(before), to: endOf(before) }, ","),
  ]);
}

/** `tighten hub-nut to 60 then 125 lbf.ft`: the word was taken for a unit. */
function stagesByWord({ failure, node, here, before, tokens, index, text }: Stop): Fault | undefined {
  const first = tokens[index - 2];
  if (failure === undefined || node.verb !== "tighten" || here === undefined || !figureToken(here) || first === undefined || !figureToken(first))
    return undefined;
  if (before.image !== "then" && before.image !== "and") return undefined;
  const rest = text.slice(here.startOffset, (node.at as Span).to);
  return fault(spanOf(before), `What it is pulled to in turn is joined by commas: to ${first.image}, ${rest}.`, [
    fixOf("Put a comma in", { from: endOf(first), to: here.startOffset }, ", "),
  ]);
}

/** `50 lbf,ft`: the point of a unit written as a comma. */
function unitByComma({ failure, here, before, tokens, index }: Stop): Fault | undefined {
  const first = tokens[index - 2];
  if (failure === undefined || here === undefined || before.image !== "," || first === undefined || !/^(?:ft|in|m|cm)$/.test(here.image)) return undefined;
  if (!/^(?:lbf|ozf|kgf|N)$/.test(first.image) || !figureToken(tokens[index - 3])) return undefined;
  const unit = `${first.image}.${here.image}`;
  const at = { from: first.startOffset, to: endOf(here) };
  return fault(at, `The unit is written with a point: ${unit}.`, [fixOf(`Write ${unit}`, at, unit)]);
}

/** `part arm Suspension arm"`: a text has lost the quote that it begins with. */
function lostFirstQuote({ failure, here, text }: Stop): Fault | undefined {
  if (failure === undefined || here === undefined || !nameToken(here)) return undefined;
  const rest = /^([^"#]+)"[^"]*$/.exec(text.slice(here.startOffset));
  if (rest === null || (text.slice(0, here.startOffset).split('"').length - 1) % 2 !== 0) return undefined;
  const words = (rest[1] as string).trimEnd();
  return fault({ from: here.startOffset, to: here.startOffset + words.length }, `A text has a quote at both ends: "${words}".`, [
    fixOf("Put the first quote in", { from: here.startOffset, to: here.startOffset }, '"'),
  ]);
}

/** `tighten hub-nut at 18 lbf.ft` */
function atTorque({ failure, node, here, behind, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.verb !== "tighten" || node.to !== undefined || here?.image !== "at" || !figureToken(behind)) return undefined;
  return fault(spanOf(here), `Write \`to\` before the torque: to ${text.slice(behind?.startOffset, (node.at as Span).to)}.`, [
    fixOf("Write `to`", spanOf(here), "to"),
  ]);
}

/** `reading 61 220 km` */
function spacedThousands({ failure, here, before, behind }: Stop): Fault | undefined {
  if (failure === undefined || here === undefined || !/^\d{1,3}$/.test(before.image) || !/^\d{3}$/.test(here.image) || !nameToken(behind)) return undefined;
  if (spanOf(here).from !== endOf(before) + 1) return undefined;
  const at = { from: before.startOffset, to: endOf(here) };
  const whole = `${before.image}${here.image}`;
  return fault(at, `A figure is written without spaces: ${whole} ${behind?.image ?? ""}.`, [fixOf(`Write ${whole}`, at, whole)]);
}

/** `undo hub-nut left remove hub` */
function twoFacts({ failure, here, before, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || here === undefined || !nameToken(here) || goingOnToken(here) || here.image === "in") return undefined;
  if (actionWord(here.image) === undefined && entryWord(here.image) === undefined && detailsOf(here.image).length === 0) return undefined;
  if (here.startOffset === before.startOffset) return undefined;
  const indent = entryWord(here.image) === undefined ? indentOf(text) : "";
  return fault(spanOf(here), `One line, one fact: \`${here.image}\` starts another. Put it on a line of its own.`, [
    fixOf("Put it on a line of its own", between(before, here), `\n${indent}`),
  ]);
}

/** `undo hub-nut remove hub`, `finding hub-nut is loose`: what starts the second fact was taken for a place. */
function workTakenForPlace({ failure, here, before, text, node, tokens, index }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || here === undefined || !nameToken(here) || placesRead(node).at(-1)?.text !== before.image) return undefined;
  const isFound = node.kind === "finding" && firstWordsUnder("finding").has(before.image);
  if (!isFound && (node.kind !== "action" || actionWord(before.image) === undefined)) return undefined;
  if (here.startOffset === endOf(before)) return undefined;
  const indent = isFound ? "  " : indentOf(text);
  return fault(spanOf(before), `One line, one fact: \`${before.image}\` starts another. Put it on a line of its own.`, [
    fixOf("Put it on a line of its own", between(tokens[index - 2] as IToken, before), `\n${indent}`),
  ]);
}

/** `remove hub left, hub-seal left`: each name with its place, where the names come first and the place holds for all of them. */
function namesAfterPlaces({ failure, here, node, text }: Stop): Fault | undefined {
  const places = placesRead(node).map((it) => it.text);
  const names = thingsRead(node).map((it) => it.name);
  if (failure?.how !== "rest" || node.kind !== "action" || here === undefined || places.length < 2) return undefined;
  const again = places.findIndex((it, i) => i > 0 && names.some(({ text: name }) => name === it));
  if (again !== -1)
    return fault(
      spanOf(here),
      `The names come first, then the places of them all. Write a line of its own: ${node.verb as string} ${places.slice(again).join(", ")} ${here.image}.`,
    );
  if (here.image !== places[0]) return undefined;
  const first = names[0];
  const rest = text.slice(endOf(here)).trim();
  if (first === undefined || rest !== "") return undefined;
  const written = `${[...names.map((it) => it.text), ...places.slice(1)].join(", ")} ${here.image}`;
  return fault(spanOf(here), `The names come first, then the place of them all: ${node.verb as string} ${written}.`, [
    fixOf(`Write ${written}`, { from: first.at.from, to: endOf(here) }, written),
  ]);
}

/** `about hub left`: a place where only names go. Which words are places a line can't know; these are usual ones. */
function placeAmongNames(stop: Stop): Fault | undefined {
  const { failure, here, before, node, tokens } = stop;
  if (failure?.how !== "rest" || here === undefined || node.kind === "action" || !nameToken(here) || !nameToken(before)) return undefined;
  if (!usualPlaces.has(here.image) || !listsNames(stop) || ofPlaces.has(node.kind as string)) return undefined;
  const word = tokens[0]?.image ?? "";
  return fault(spanOf(here), `\`${word}\` takes names without their places. Take \`${here.image}\` out.`, [
    fixOf("Take it out", { from: endOf(before), to: endOf(here) }, ""),
  ]);
}
const ofPlaces: ReadonlySet<string> = new Set(["places", "read-at"]);

/** `takes 1 h 30 min` */
function quantityOfTwo({ here, before, tokens, index, failure }: Stop): Fault | undefined {
  if (failure?.how === "choice" || here === undefined || !figureToken(here) || index < 2 || !figureToken(tokens[index - 2]) || !nameToken(before))
    return undefined;
  const [first, second] = [Number(tokens[index - 2]?.image), Number(here.image)];
  const units = `${before.image} ${tokens[index + 1]?.image ?? ""}`;
  const isHours = /^(?:h|hr|hrs|hours?) (?:min|mins|minutes?)$/.test(units);
  const small = isHours ? 60 : units === "ft in" ? 12 : units === "min s" ? 60 : undefined;
  const example = small === undefined || !Number.isInteger(first) || !Number.isInteger(second) ? "" : `: ${first * small + second} ${tokens[index + 1]?.image}`;
  const more = example !== "" && units === "h min" && second === 30 ? `, or ${first}-1/2 h` : "";
  const at = { from: (tokens[index - 2] as IToken).startOffset, to: spanOf(tokens[index + 1] ?? here).to };
  const fixes = example === "" ? [] : [fixOf(`Write ${example.slice(2)}`, at, example.slice(2))];
  return fault({ from: here.startOffset, to: at.to }, `A quantity has one figure and one unit${example}${more}.`, fixes);
}

const twoWordUnits: Readonly<Record<string, string>> = {
  "ft lb": "lbf.ft",
  "lb ft": "lbf.ft",
  "ft lbf": "lbf.ft",
  "lbf ft": "lbf.ft",
  "ft lbs": "lbf.ft",
  "lbs ft": "lbf.ft",
  "in lb": "lbf.in",
  "lb in": "lbf.in",
  "in lbf": "lbf.in",
  "lbf in": "lbf.in",
  "in lbs": "lbf.in",
  "N m": "N.m",
  "kgf m": "kgf.m",
  "kgf cm": "kgf.cm",
  "kg m": "kgf.m",
  "kg cm": "kgf.cm",
  "us gal": "us.gal",
  "US gal": "us.gal",
  "imp gal": "imp.gal",
  "us pt": "us.pt",
  "imp pt": "imp.pt",
  "us qt": "us.qt",
  "imp qt": "imp.qt",
  "deg C": "degC",
  "deg F": "degF",
  "ozf in": "ozf.in",
  "oz in": "ozf.in",
};

/** `45 .. 55 ft lb` */
function unitOfTwoWords({ here, before, tokens, index }: Stop): Fault | undefined {
  if (here === undefined || !nameToken(here) || !figureToken(tokens[index - 2])) return undefined;
  const unit = twoWordUnits[`${before.image} ${here.image}`];
  if (unit === undefined) return undefined;
  const at = { from: before.startOffset, to: spanOf(here).to };
  return fault(at, `A unit is one word: ${unit}.`, [fixOf(`Write ${unit}`, at, unit)]);
}

/** `shims side-shims near` */
function placeOfShims({ failure, here, before, shape, tokens, behind }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || shape !== "shims" || here === undefined || !nameToken(here) || tokens[1] !== before) return undefined;
  if (behind !== undefined && behind.tokenType !== TextToken) return undefined;
  const name = `${before.image}-${here.image}`;
  return fault(spanOf(here), `A \`shims\` entry has no place. Write an entry for each: \`shims ${name}\`. A text stands in quotes.`);
}

/** `note the left thread was chased`, `critical steering`, `part hub Front hub` */
function wordsForText({ failure, here, before, node, shape, text, behind }: Stop): Fault | undefined {
  // A text is there already.
  if (before.tokenType === TextToken && textShapes.has(shape)) return undefined;
  if (here === undefined || here.tokenType === TextToken || here.tokenType === DateToken) return undefined;
  const wanted = failure?.expected === TextToken || failure?.choice === "behind text-needed";
  const rest = failure?.how === "rest" && textShapes.has(shape) && (nameToken(here) || figureToken(here));
  if (!wanted && !rest) return undefined;
  const at = { from: here.startOffset, to: (node.at as Span).to };
  const words = text.slice(at.from, at.to);
  if (words.includes('"') || words.length > 200) return undefined;
  const shown = behind === undefined || words.length < 40 ? words : `${words.slice(0, 30)}…`;
  return fault(at, `Put quotes around a text: "${shown}".`, [fixOf("Put quotes around it", at, `"${words.replaceAll("\\", "\\\\")}"`)]);
}

/** `part "Front hub"`, `places cylinder 1, 2` */
function missingName({ failure, here, node, shape, tokens, text }: Stop): Fault | undefined {
  if (failure?.expected !== Name || here === undefined) return undefined;
  if (here.tokenType === TextToken && (textShapes.has(shape) || shape === "question")) {
    const last = tokens[2];
    if (tokens[1] === here && last !== undefined && tokens.length === 3 && nameToken(last)) {
      const turned = `${last.image} ${here.image}`;
      return fault(spanOf(here), `The short name comes first, then the text: ${turned}.`, [
        fixOf(`Write ${turned}`, { from: here.startOffset, to: endOf(last) }, turned),
      ]);
    }
    const name = nameFrom(here.image);
    const written = `${tokens[0]?.image} ${name}`;
    return fault(spanOf(here), `Write a short name before the text: ${written} ${here.image}.`, [
      fixOf(`Write ${written}`, { from: here.startOffset, to: here.startOffset }, `${name} `),
    ]);
  }
  if (!figureToken(here)) return undefined;
  const kind = (node.placeKind as NameNode | undefined)?.text;
  const stem = kind ?? "place";
  if (shape !== "places") return fault(spanOf(here), `A name is wanted here, and it starts with a letter: not \`${here.image}\`.`);
  const edits = tokens
    .filter((it) => it.startOffset >= here.startOffset && figureToken(it) && /^\d+$/.test(it.image))
    .map((it) => ({ at: spanOf(it), text: `${stem}-${it.image}` }));
  // `1,2,3` is one figure with decimal commas to the reader; here it can only be a list.
  const glued = /^\d+(?:,\d+)+$/.test(here.image) ? here.image.split(",").map((it) => `${stem}-${it}`) : undefined;
  const title = `Write ${(glued ?? edits.map((it) => it.text)).slice(0, 2).join(", ")}`;
  const fixes: LineFix[] = glued !== undefined ? [fixOf(title, spanOf(here), glued.join(", "))] : edits.length === 0 ? [] : [{ title, edits }];
  return fault(spanOf(here), `A name starts with a letter: ${stem}-1, ${stem}-2.`, text === "" ? [] : fixes);
}

/** `price GBP 3.20`, `price 3.20` */
function moneyTurned({ failure, here, behind, before, shape, tokens }: Stop): Fault | undefined {
  const turned =
    failure?.expected === Figure && here !== undefined && /^[A-Z]{3}$/.test(here.image) && figureToken(behind) ? `${behind?.image} ${here.image}` : undefined;
  if (shape === "rate") return undefined;
  if (turned !== undefined && here !== undefined && behind !== undefined) {
    const at = { from: here.startOffset, to: spanOf(behind).to };
    return fault(at, `Money is a figure and its code: ${turned}.`, [fixOf(`Write ${turned}`, at, turned)]);
  }
  if (shape === "freight" && before.image === "free" && figureToken(tokens[1]))
    return fault(spanOf(tokens[1] as IToken), `Money is a figure and its code: ${tokens[1]?.image} GBP.`);
  if (failure?.choice === "currency" && figureToken(before)) return fault(spanOf(before), `Money is a figure and its code: ${before.image} GBP.`);
  return shape === "price" && failure?.expected === Figure ? fault(spanOf(here ?? before), "Money is a figure and its code: 3.20 GBP.") : undefined;
}

interface Choice {
  readonly words: readonly string[];
  readonly said: (typed: string) => string;
}

const may = (words: readonly string[]) => (typed: string) => `Write ${orList(words)} here, not \`${typed}\`.`;
const choices: Readonly<Record<string, Choice>> = {
  stage: { words: stages, said: may(stages) },
  verdict: { words: verdicts, said: may(verdicts) },
  status: { words: statuses, said: may(statuses) },
  material: { words: materials, said: may(materials) },
  decision: { words: decisions, said: may(decisions) },
  lifter: { words: lifters, said: may(lifters) },
  bearer: { words: bearers, said: may(bearers) },
  condition: {
    words: conditionWords,
    said: (typed) => `\`${typed}\` isn't a condition. There are worn, cracked, bent, loose, missing and more; where none of them fits, damaged "${typed}".`,
  },
  locking: {
    words: lockings.flatMap((it) => it.words),
    said: (typed) =>
      `\`${typed}\` isn't a locking. There are ${lockings
        .map((it) => it.words[0])
        .slice(0, 5)
        .join(", ")} and more; a part that locks is written part NAME.`,
  },
};

/** `is badly worn`, `is worn badly`: how much is told by a reading or in words behind the condition. */
function strongWord({ failure, here, behind, before, node, text }: Stop): Fault | undefined {
  if (node.kind !== "is" || here === undefined || (failure?.choice !== "condition" && failure?.how !== "rest")) return undefined;
  if (meantBy(here.image, "condition")?.write.length !== 0) return undefined;
  // `badly worn`, `worn slightly`: what it is stands behind it or before it.
  const isBefore = nameToken(behind) && isCondition(behind?.image ?? "");
  const condition = isBefore ? behind : before;
  if (condition === undefined || !nameToken(condition) || !conditionWords.includes(condition.image))
    return fault(spanOf(here), `How much is a reading, or a text after the condition: worn "step of 10 thou".`);
  const at = isBefore ? { from: here.startOffset, to: endOf(condition) } : { from: condition.startOffset, to: endOf(here) };
  const written = `${condition.image} "${here.image}"`;
  const isTold = text.slice(at.to).trimStart().startsWith('"');
  return fault(spanOf(here), `How much is a reading, or a text after the condition: ${written}.`, isTold ? [] : [fixOf(`Write ${written}`, at, written)]);
}

/** `is tight`, `decision keep` */
function meantChoice({ failure, here }: Stop): Fault | undefined {
  if (here === undefined || (failure?.choice !== "condition" && failure?.choice !== "decision")) return undefined;
  const meant = meantBy(here.image, failure.choice);
  if (meant === undefined || meant.write.length === 0) return undefined;
  return fault(
    spanOf(here),
    `Write ${orList(meant.write)} for \`${here.image}\`.`,
    meant.write.map((it) => fixOf(`Write \`${it}\``, spanOf(here), it)),
  );
}

/** `remove hub from left`, `fit hub at left` */
function joiningPlace({ failure, here, behind, node }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "action" || here === undefined || behind === undefined || !nameToken(behind)) return undefined;
  if (!/^(?:from|at|on|in|of|to)$/.test(here.image) || placesRead(node).length !== 0) return undefined;
  const name = thingsRead(node).at(-1)?.name.text;
  if (name === undefined) return undefined;
  return fault(spanOf(here), `Write the place straight after the name: ${node.verb as string} ${name} ${behind.image}.`, [
    fixOf(`Take \`${here.image}\` out`, { from: here.startOffset, to: behind.startOffset }, ""),
  ]);
}

/** `raise on ramps`, `is broke`, `locked by nylock` */
function choiceOfWords(stop: Stop): Fault | undefined {
  const { failure, here, behind, before, tokens } = stop;
  const choice = failure?.choice === undefined ? undefined : choices[failure.choice];
  if (choice === undefined || failure?.choice === undefined) return undefined;
  const line = syntaxOf(tokens);
  if (here === undefined || !nameToken(here)) {
    const some = choice.words.length > 7 ? `a ${failure.choice}` : orList(choice.words);
    return fault(spanOf(here ?? before), here === undefined ? `The line needs ${some} next: ${line}.` : `${capital(some)} is wanted here: ${line}.`);
  }
  // A locking of two words may be misspelt in either.
  const pair = failure.choice === "locking" && behind !== undefined && nameToken(behind) ? `${here.image} ${behind.image}` : undefined;
  if (behind !== undefined && choice.words.includes(behind.image) && !choice.words.includes(here.image)) return wordBeforeChoice(stop, choice, behind);
  const nearPair = pair === undefined ? undefined : nearestWord(pair, choice.words);
  const near = nearPair ?? nearestWord(here.image, choice.words);
  if (near === undefined) return fault(spanOf(here), choice.said(here.image));
  const at = nearPair !== undefined && behind !== undefined ? { from: here.startOffset, to: spanOf(behind).to } : spanOf(here);
  const typed = nearPair === undefined ? here.image : (pair as string);
  const said = failure.choice === "condition" || failure.choice === "locking" ? `\`${typed}\` isn't a ${failure.choice}.` : choice.said(here.image);
  return isMeant(at, said, typed, near.word, choice.words);
}

/** Which sort of it it is: nothing hangs on it. */
const sorts = /^(?:the|a|an|axle|trolley|bottle|scissors?|hydraulic|workshop|floor|car|garage|mild|plain|carbon)$/;

/** `on trolley jack`, `mild steel`, `is finger loose`: the word before the one that is meant. */
function wordBeforeChoice({ here, failure, node, text }: Stop, choice: Choice, meant: IToken): Fault | undefined {
  if (here === undefined) return undefined;
  if (sorts.test(here.image))
    return fault(spanOf(here), `Leave \`${here.image}\` out: ${meant.image}.`, [
      fixOf(`Leave \`${here.image}\` out`, { from: here.startOffset, to: meant.startOffset }, ""),
    ]);
  const at = { from: here.startOffset, to: endOf(meant) };
  const words = text.slice(at.from, at.to);
  if (failure?.choice === "condition") {
    const isTold = text.slice(at.to).trimStart().startsWith('"');
    const written = `${meant.image} "${words}"`;
    return fault(at, `Words of your own go behind the condition, in quotes: ${written}.`, isTold ? [] : [fixOf(`Write ${written}`, at, written)]);
  }
  if (failure?.choice !== "bearer" && failure?.choice !== "lifter" && failure?.choice !== "material") return fault(spanOf(here), choice.said(here.image));
  const whole = (node.at as Span).to;
  return fault(spanOf(here), `${choice.said(here.image)} Words of your own go in a note: note "${words}".`, [
    fixOf("Put them in a note", { from: at.from, to: whole }, `${meant.image}${text.slice(at.to, whole)}\n${indentOf(text)}note "${words}"`),
  ]);
}

/** `locked split pin`, `measure float found bye dial` */
function missingWord({ failure, here, behind, before, tokens, node, text }: Stop): Fault | undefined {
  const word = failure?.expected === undefined ? undefined : /^"(.+)"$/.exec(failure.expected.name)?.[1];
  if (word === undefined) return undefined;
  const line = syntaxOf(tokens);
  if (here === undefined && node.kind === "recheck" && nameToken(before))
    return fault(spanOf(before), `Write after how much it is tried again, a distance, hours or a time: recheck ${before.image} after ….`, [
      fixOf("Put `after` behind it", { from: endOf(before), to: endOf(before) }, " after ___"),
    ]);
  if (here === undefined) return fault(spanOf(before), `The line needs \`${word}\` next: ${line}.`);
  if (nameToken(here) && (behind !== undefined || here.image.length > 4) && nearestWord(here.image.toLowerCase(), [word]) !== undefined)
    return fault(spanOf(here), `Is \`${word}\` meant, not \`${here.image}\`? ${capital(line)}.`, [fixOf(`Write \`${word}\``, spanOf(here), word)]);
  // `raise beam on jack`: nothing is missing, there is a word too many.
  if (behind?.image === word) {
    const whole = (node.at as Span).to;
    const words = text.slice(here.startOffset, endOf(here));
    const kept = `${text.slice(behind.startOffset, whole)}\n${indentOf(text)}note "${words}"`;
    return fault(
      spanOf(here),
      `${capital(shown(here))} can't go here. The line is written: ${line}.`,
      nameToken(here) && node.kind === "action" ? [fixOf("Put it in a note", { from: here.startOffset, to: whole }, kept)] : [],
    );
  }
  // `held with cap-nut`, `recheck cap-nut at 200 km`: another small word stands in its place.
  if (/^(?:with|using|from|of|at|in|on|by|to|for|after|via)$/.test(here.image) && behind !== undefined)
    return fault(spanOf(here), `Write \`${word}\` for \`${here.image}\`: ${word} ${text.slice(behind.startOffset, (node.at as Span).to)}.`, [
      fixOf(`Write \`${word}\``, spanOf(here), word),
    ]);
  return fault(spanOf(here), `\`${word}\` is missing before this: ${line}.`, [
    fixOf(`Put \`${word}\` in`, { from: here.startOffset, to: here.startOffset }, `${word} `),
  ]);
}

/** `held by a b`, `is worn scored`, `remove hub left right` */
function missingComma(stop: Stop): Fault | undefined {
  const { failure, here, before } = stop;
  if (failure?.how !== "rest" || here === undefined || !nameToken(here) || goingOnToken(here) || !nameToken(before) || touching(before, here)) return undefined;
  // `fit hub-nut left new pin`: after such a word no list goes on.
  if (goingOn.has(before.image)) return undefined;
  const what = joinedHere(stop);
  if (what === undefined || (what === "Conditions" && !isCondition(here.image))) return undefined;
  const comma = fixOf("Put a comma in", { from: spanOf(before).to, to: spanOf(before).to }, ",");
  const list = `${before.image}, ${here.image}`;
  const tail = stop.node.kind === "action" && stop.behind === undefined ? tailMeant(String(stop.node.verb), here.image) : undefined;
  if (tail !== undefined)
    return fault(spanOf(here), `Is \`${tail}\` meant? ${what} are joined by commas: ${list}.`, [
      fixOf(`Write ${tail}`, spanOf(here), tailsWritten[tail] ?? tail),
      comma,
    ]);
  // Not typed to its end yet, where the line goes on with a word: `renew wi`.
  const goesOn = here.image.length < 2 || stop.behind !== undefined ? undefined : goesOnWith(stop.tokens).find((it) => it.startsWith(here.image));
  if (goesOn !== undefined)
    return fault(spanOf(here), `Is \`${goesOn}\` meant? ${what} are joined by commas: ${list}.`, [
      fixOf(`Write ${goesOn}`, spanOf(here), `${goesOn} ___`),
      comma,
    ]);
  // Two names that have hyphens are two; of two words without, both may be meant.
  if (what !== "Names" || stop.node.kind === "places" || stop.node.kind === "read-at" || `${before.image}${here.image}`.includes("-"))
    return fault(spanOf(here), `${what} are joined by commas: ${list}.`, [comma]);
  const name = `${before.image}-${here.image}`;
  return fault(spanOf(here), `Names are joined by commas, the words of one name by hyphens: ${list} or ${name}.`, [
    comma,
    fixOf(`Write ${name}`, between(before, here), "-"),
  ]);
}

/** The words that stand first in what such a line may have behind what it begins with: `renew [with PART]`. */
function goesOnWith(tokens: readonly IToken[]): readonly string[] {
  return (syntaxOf(tokens).match(/(?<=\[)\p{Ll}{3,}/gu) ?? []).filter((it) => goingOn.has(it));
}

/** A short word is near to much. */
function isCondition(typed: string): boolean {
  const near = nearestWord(typed, conditionWords);
  return near !== undefined && (near.distance < 2 || typed.length > 5);
}

/** `fit bush new near, far`: the places go before it. */
function newBeforePlaces({ failure, here, before, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "action" || (node.verb !== "fit" && node.verb !== "lock") || before.image !== "new" || !nameToken(here))
    return undefined;
  const rest = text.slice(here?.startOffset, (node.at as Span).to).trimEnd();
  if (!/^[\p{L}\d-]+(?:\s*,\s*[\p{L}\d-]+)*$/u.test(rest) || rest.split(/[\s,]+/).some((it) => goingOn.has(it))) return undefined;
  const at = { from: before.startOffset, to: (here?.startOffset ?? 0) + rest.length };
  return fault(at, `\`new\` goes behind the places: ${rest} new.`, [fixOf(`Write ${rest} new`, at, `${rest} new`)]);
}

/** `tighten cap-bolt to 100 lbf.ft dry` */
function dryAtPull({ failure, here, node }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.verb !== "tighten" || (here?.image !== "dry" && here?.image !== "oiled")) return undefined;
  return fault(spanOf(here), `\`${here.image}\` stands with the torque where it is declared: torque 90 .. 110 lbf.ft ${here.image}. Here a note says it.`);
}

/** `is wrong bolt`, `is bent 3 mm` */
function wordsForFound(stop: Stop): Fault | undefined {
  const { failure, here, before, node } = stop;
  const isText = failure?.how === "rest" && node.kind === "is" && (nameToken(here) || figureToken(here)) && nameToken(before);
  const rest = isText ? plainRest(stop) : undefined;
  if (rest === undefined || rest.words.includes(",")) return undefined;
  // Another thing that was found.
  if (conditionWords.includes(rest.words))
    return fault(rest.at, `What was found is joined by commas: ${before.image}, ${rest.words}.`, [
      fixOf("Put a comma in", { from: endOf(before), to: endOf(before) }, ","),
    ]);
  return fault(rest.at, `Put quotes around a text: ${before.image} "${rest.words}".`, [fixOf("Put quotes around it", rest.at, `"${rest.words}"`)]);
}

/** `undo cap-nut 2 left`, `fit cap-nut left 2` */
function countTooMuch({ failure, here, before, node }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "action" || here === undefined || !figureToken(here)) return undefined;
  const places = placesRead(node);
  if (takesCount(node.verb as string) && places.length > 0 && before !== undefined && /^\d+$/.test(here.image)) {
    const named = places.map((it) => it.text).join(", ");
    const moved = fixOf("Put the count first", { from: spanOf(before).from, to: spanOf(here).to }, `${here.image} ${before.image}`);
    return fault(spanOf(here), `Write how many straight after the name, then the place: ${here.image} ${named}.`, places.length === 1 ? [moved] : []);
  }
  return fault(
    spanOf(here),
    `\`${node.verb as string}\` takes no figure here. How many goes straight after a name, where things come off, go on, or are done up or locked.`,
  );
}

/** `done by "A. Moor", "B. Vale"`: one text holds both. */
function twoTexts({ failure, here, before, behind }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || here?.image !== "," || before.tokenType !== TextToken || behind?.tokenType !== TextToken) return undefined;
  const both = `${before.image.slice(0, -1)} and ${behind.image.slice(1)}`;
  return fault(spanOf(here), `One text holds both: ${both}.`, [fixOf(`Write ${both}`, { from: before.startOffset, to: endOf(behind) }, both)]);
}

/** `note "a "worn" pin"` */
function textInside({ failure, here, before }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || here === undefined || before.tokenType !== TextToken || !touching(before, here)) return undefined;
  return fault(spanOf(here), 'The text ends before this. A quote inside a text is written \\".');
}
