// Slips of hand in words that belong together: a name of two words, a list joined by "and", a day with its month's name, a figure without the word before it.
// Invariant: as in slips.ts; where one of two things may be meant both are offered.
import type { IToken } from "chevrotain";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import { goingOn } from "./going-on.ts";
import { between, nameFrom, wornEitherWay } from "./message-words.ts";
import { usualPlaces } from "./plain-words.ts";
import { type Slip, type Stop, joinedHere, placesRead, plainRest, rangeShapes } from "./stop.ts";
import { TextToken, endOf, figureToken, goingOnToken, nameToken, touching } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";
import { actionWord, conditions, detailsOf, lockingPhrases } from "./words.ts";
import { meantBy } from "./words/meant-words.ts";

/** Asked before anything else but what an action saw for itself. */
export const slipsOfWords: readonly Slip[] = [
  textGoesOn,
  dayByItsMonth,
  nameOfWords,
  namesInRow,
  nameBeforePlace,
  andForComma,
  lockedWithout,
  rangeByWords,
  endBehind,
  torqueByFeel,
  pitchApart,
  threadInWords,
  classOfThread,
  notSo,
  countOfFound,
  wornPast,
];

/** `source "Handbook", p. 5` */
function textGoesOn({ failure, here, before, behind, node, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || before.tokenType !== TextToken || behind === undefined || node.kind === "is") return undefined;
  if (here?.image !== "," && here?.image !== "and") return undefined;
  const rest = text.slice(endOf(before), (node.at as Span).to);
  if (/["\\]/.test(rest)) return undefined;
  const whole = `${before.image.slice(0, -1)}${rest}"`;
  const at = { from: endOf(before), to: (node.at as Span).to };
  return fault(at, `One text holds all of it: ${whole}.`, [fixOf(`Write ${whole}`, { from: before.startOffset, to: at.to }, whole)]);
}

const months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/** `day 1 March 2026`, `done March 1, 2026` */
function dayByItsMonth({ failure, here, tokens, index, node }: Stop): Fault | undefined {
  if (failure === undefined || here === undefined) return undefined;
  // The month, or the figure before it, may have been taken for a place.
  const from = tokens.findIndex((it, i) => i >= index - 1 && i > 0 && monthOf(it) !== undefined);
  const month = from === -1 ? undefined : monthOf(tokens[from] as IToken);
  if (month === undefined) return undefined;
  const first = figureToken(tokens[from - 1]) ? from - 1 : from;
  const rest = tokens.slice(from + 1).filter((it) => it.image !== ",");
  const day = first < from ? tokens[first] : rest.shift();
  const [year] = rest;
  if (day === undefined || year === undefined || !/^\d{1,2}$/.test(day.image) || !/^\d{4}$/.test(year.image)) return undefined;
  const date = `${year.image}-${String(month).padStart(2, "0")}-${day.image.padStart(2, "0")}`;
  const at = { from: (tokens[first] as IToken).startOffset, to: endOf(year) };
  if (at.to > (node.at as Span).to) return undefined;
  return fault(at, `A date is written year, month, day: ${date}.`, [fixOf(`Write ${date}`, at, date)]);
}

/** From 1; undefined for what is none. */
function monthOf({ image }: IToken): number | undefined {
  return monthNamed.test(image) ? months.indexOf(image.slice(0, 3).toLowerCase()) + 1 : undefined;
}

const monthNamed = /^(?:jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|oct(ober)?|nov(ember)?|dec(ember)?)$/i;

const named: ReadonlySet<string> = new Set(["part", "fastener", "fluid", "limit", "check", "gauge", "hazard", "step", "supplier", "shims", "question"]);

/** `fastener axle nut "Axle nut"`, `supplier Weir Lane Bearings` */
function nameOfWords({ failure, here, before, shape, tokens, index, node, text }: Stop): Fault | undefined {
  if (failure === undefined || !named.has(shape) || before !== tokens[1] || !nameToken(before) || !nameToken(here)) return undefined;
  let end = index;
  while (nameToken(tokens[end])) end++;
  const next = tokens[end];
  const words = tokens.slice(1, end).map((it) => it.image);
  if (words.length > 6 || tokens.slice(1, end).some((it, i, list) => i > 0 && touching(list[i - 1], it))) return undefined;
  const at = { from: before.startOffset, to: endOf(tokens[end - 1] as IToken) };
  const name = words.join("-");
  const join = fixOf(`Write ${name}`, at, name);
  if (next?.tokenType === TextToken && end === tokens.length - 1) return fault(at, `A name's words are joined by hyphens: ${name}.`, [join]);
  if (next !== undefined || words.some((it, i) => i > 0 && (goingOn.has(it) || it === "each" || detailsOf(it).length > 0))) return undefined;
  if (shape === "question") return undefined;
  const all = text.slice(at.from, (node.at as Span).to);
  if (/^\p{Lu}/u.test(before.image)) {
    const short = nameFrom(`"${all}"`);
    return fault(at, `Write a short name, then the words in quotes: ${short} "${all}".`, [fixOf(`Write ${short} "${all}"`, at, `${short} "${all}"`)]);
  }
  if (words.some((it) => /^\p{Lu}/u.test(it)) || words.length > 4) return undefined;
  const title = words.slice(1).join(" ");
  const quoted = { from: (here as IToken).startOffset, to: at.to };
  return fault(at, `A name's words are joined by hyphens: ${name}. A text stands in quotes: "${title}".`, [
    join,
    fixOf("Put quotes around it", quoted, `"${title}"`),
  ]);
}

/** `remove d-washer hub outer inner seal`: so many words are a list. */
function namesInRow({ failure, here, node, tokens, index }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.kind !== "action" || here === undefined || index !== 3 || tokens.length < 5) return undefined;
  const words = tokens.slice(1);
  const end = words.findIndex((it) => !nameToken(it) || goingOnToken(it));
  const names = end === -1 ? words : words.slice(0, end);
  if (names.length < 4 || names.some((it) => it.image === "and" || actionWord(it.image) !== undefined || /^(?:a|an|the|with|as|to|on|in|at)$/.test(it.image)))
    return undefined;
  const at = { from: (names[0] as IToken).startOffset, to: endOf(names.at(-1) as IToken) };
  const last = names.at(-1) as IToken;
  const list = (all: readonly IToken[]) => all.map((it) => it.image).join(", ");
  const written = list(names);
  const placed = `${list(names.slice(0, -1))} ${last.image}`;
  const joined = names.map((it) => it.image).join("-");
  const fixes = [fixOf(`Write ${written}`, at, written), fixOf(`Write ${joined}`, at, joined)];
  if (usualPlaces.has(last.image)) fixes.push(fixOf(`Write ${placed}`, at, placed));
  return fault(
    at,
    `Names are joined by commas, the words of one name by hyphens, and the place of them all comes last: ${usualPlaces.has(last.image) ? placed : written}.`,
    fixes,
  );
}

/** `undo wheel nuts offside`, `finding hub nut ns` */
function nameBeforePlace({ failure, here, before, node, tokens, index }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || here === undefined || !nameToken(here) || goingOnToken(here) || here.image === "and" || before.image === "and")
    return undefined;
  if (usualPlaces.has(before.image) || sidesOfRoad.test(before.image) || actionWord(before.image) !== undefined) return undefined;
  // Which words are places only the sheet knows: a short one may be.
  if (!usualPlaces.has(here.image) && (here.image.length > 3 || index !== tokens.length - 1 || tokens[index - 2]?.image.includes("-") === true))
    return undefined;
  const first = tokens[index - 2];
  const [place, more] = placesRead(node);
  if (place?.text !== before.image || more !== undefined || index < 3 || !nameToken(first) || first === undefined || !nameToken(before)) return undefined;
  const name = `${first.image}-${before.image}`;
  return fault(
    { from: first.startOffset, to: spanOf(here).to },
    `A name's words are joined by hyphens: ${name} ${here.image}. Places are joined by commas: ${before.image}, ${here.image}.`,
    [fixOf(`Write ${name}`, between(first, before), "-"), fixOf("Put a comma in", { from: endOf(before), to: endOf(before) }, ",")],
  );
}

/** The sides of a road vehicle as they are called in short. */
const sidesOfRoad = /^(?:ns|os|ls|rs|lh|rh|l|r|near|off|nearside|offside|nsf|nsr|osf|osr)$/i;

/** `remove hub and drum`, `undo hub-nut left and right`, `is loose and unlocked` */
function andForComma(stop: Stop): Fault | undefined {
  const { failure, here, before, behind, node, tokens, index } = stop;
  if (failure?.how !== "rest" || here === undefined) return undefined;
  // Behind a name the word was taken for a place.
  const taken = before.image === "and" && placesRead(node).at(-1)?.text === "and";
  const [first, and, second] = taken ? [tokens[index - 2], before, here] : [before, here, behind];
  if (and.image !== "and" || first === undefined || !nameToken(first) || second === undefined || !nameToken(second)) return undefined;
  if (taken && node.kind !== "action") return undefined;
  // A unit is no name.
  const what = taken ? "Names" : figureToken(tokens[index - 2]) ? undefined : joinedHere(stop);
  if (what === undefined) return undefined;
  return fault(spanOf(and), `${what} are joined by commas: ${first.image}, ${second.image}.`, [fixOf("Put a comma in", between(first, second), ", ")]);
}

/** `lock hub-nut split pin`, `lock hub-nut left lock wire` */
function lockedWithout({ failure, here, before, behind, node }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || node.verb !== "lock" || here === undefined || !nameToken(here)) return undefined;
  const isPhrase = (a: IToken, b: IToken | undefined) => b !== undefined && lockingPhrases.has(`${a.image} ${b.image}`);
  const first = placesRead(node).at(-1)?.text === before.image && isPhrase(before, here) ? before : isPhrase(here, behind) ? here : undefined;
  if (first === undefined) return undefined;
  const second = first === before ? here : (behind as IToken);
  return fault(
    { from: first.startOffset, to: endOf(second) },
    `What it is locked with goes after \`with\`: with ${first.image} ${second.image}; \`new\` alone is a new one of its own kind.`,
    [fixOf("Put `with` in", { from: first.startOffset, to: first.startOffset }, "with ")],
  );
}

/** `set to 25 mm max by mesh-screw`, `worn 40 mm max`, `worn up to 40 mm`, `set by mesh-screw max 25 mm`: the word for the end stands before the figure. */
function endBehind({ failure, shape, node, text, tokens }: Stop): Fault | undefined {
  if (failure === undefined || !rangeShapes.has(shape)) return undefined;
  const at = node.at as Span;
  const first = endOf(tokens[0] as IToken);
  const words = text.slice(first, at.to).trim();
  const by = shape === "set" ? /^by\s+([\p{L}\d, -]+?)\s+(?:to\s+)?(max|min)\s+(?:of\s+)?([\d./-]+\s*[^\s"]+)$/u.exec(words) : null;
  const ended =
    /^(?:to\s+|up\s+to\s+|of\s+)?([\d./-]+\s*[^\s"\d]+)\s+(max|min)(?:imum)?\b\s*(.*)$/u.exec(words) ??
    /^(max|min)(?:imum)?\s+(?:of\s+)([\d./-]+\s*[^\s"\d]+)\s*(.*)$/u.exec(words) ??
    /^(up to|down to)\s+([\d./-]+\s*[^\s"\d]+)\s*(.*)$/u.exec(words);
  const made =
    by !== null
      ? `${by[2]} ${by[3]} by ${by[1]}`
      : ended === null
        ? undefined
        : /^[\d.]/.test(ended[1] as string)
          ? `${ended[2]} ${ended[1]} ${ended[3]}`
          : `${/^(?:max|up)/.test(ended[1] as string) ? "max" : "min"} ${ended[2]} ${ended[3]}`;
  if (made === undefined) return undefined;
  const written = `${tokens[0]?.image} ${made.trim()}`;
  return fault({ from: first + 1, to: at.to }, `The end goes before its figure: ${written}.`, [fixOf(`Write ${written}`, at, written)]);
}

/** `torque min 45 max 50 lbf.ft` */
function rangeByWords({ shape, tokens, here }: Stop): Fault | undefined {
  if (!rangeShapes.has(shape) || here === undefined) return undefined;
  const at = tokens.findIndex((it, i) => it.image === "min" && figureToken(tokens[i + 1]));
  const most = tokens.findIndex((it, i) => i > at && it.image === "max" && figureToken(tokens[i + 1]));
  if (at === -1 || most === -1 || most > at + 3) return undefined;
  const written = `${tokens[at + 1]?.image} .. ${tokens[most + 1]?.image}`;
  const span = { from: (tokens[at] as IToken).startOffset, to: endOf(tokens[most + 1] as IToken) };
  return fault(span, `A range is written with two dots: ${written}.`, [fixOf(`Write ${written}`, span, written)]);
}

/** `torque hand tight` */
function torqueByFeel(stop: Stop): Fault | undefined {
  const { failure, shape, here, tokens } = stop;
  const rest = shape === "torque" && failure?.choice === "range" && nameToken(here) && !tokens.some(figureToken) ? plainRest(stop) : undefined;
  if (rest === undefined) return undefined;
  const written = `by feel "${rest.words}"`;
  return fault(rest.at, `How tight in words is written: ${written}.`, [fixOf(`Write ${written}`, rest.at, written)]);
}

/** `thread 5/8 18 UNF` */
function pitchApart({ shape, here, before, behind }: Stop): Fault | undefined {
  if (shape !== "thread" || here === undefined || !/^\d+$/.test(here.image) || !figureToken(before) || !/^UN(?:[CFS]|EF)$/.test(behind?.image ?? ""))
    return undefined;
  const written = `${before.image}-${here.image} ${behind?.image}`;
  return fault({ from: before.startOffset, to: endOf(behind as IToken) }, `Size and pitch are joined by a hyphen: ${written}.`, [
    fixOf(`Write ${written}`, between(before, here), "-"),
  ]);
}

/** `thread 1/2 x 20 cycle`: a thread of no family that has a form of its own is a text. */
function threadInWords(stop: Stop): Fault | undefined {
  const { shape, here, before, tokens } = stop;
  const first = tokens[1];
  if (shape !== "thread" || here?.image !== "x" || first === undefined || before !== first || !figureToken(before)) return undefined;
  const rest = plainRest({ ...stop, here: first });
  if (rest === undefined) return undefined;
  return fault(rest.at, `A thread of another kind goes in quotes: "${rest.words}".`, [fixOf("Put quotes around it", rest.at, `"${rest.words}"`)]);
}

/** Property classes of ISO 898-1 and what they were called before. */
const classes: ReadonlySet<string> = new Set(["4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"]);

/** `thread M10 8.8` */
function classOfThread({ failure, shape, here, behind }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || shape !== "thread" || here === undefined || behind !== undefined || !classes.has(here.image)) return undefined;
  return fault(spanOf(here), `Its class has a word before it: class ${here.image}.`, [
    fixOf("Put `class` in", { from: here.startOffset, to: here.startOffset }, "class "),
  ]);
}

const opposites: Readonly<Record<string, string>> = {
  locked: "unlocked",
  pinned: "unlocked",
  wired: "unlocked",
  tight: "loose",
  there: "missing",
  fitted: "missing",
};

/** `is not locked`, `is no split pin` */
function notSo({ failure, here, behind, node, text }: Stop): Fault | undefined {
  if (failure?.choice !== "condition" || here === undefined || !/^(?:no|not)$/i.test(here.image)) return undefined;
  const at = { from: here.startOffset, to: (node.at as Span).to };
  const words = text.slice(at.from, at.to);
  if (here.image.toLowerCase() === "not") {
    const said = opposites[behind?.image ?? ""];
    if (said === undefined) return fault(spanOf(here), "Write what it is, not what it is not: worn, loose, missing, unlocked, serviceable and others.");
    const pair = { from: at.from, to: spanOf(behind as IToken).to };
    return fault(pair, `Write \`${said}\` for \`${text.slice(pair.from, pair.to)}\`.`, [fixOf(`Write \`${said}\``, pair, said)]);
  }
  if (!/\b(?:pins?|wire|tab)$/i.test(words) || /["\\]/.test(words)) return undefined;
  return fault(at, `Write \`unlocked\`, and the rest as a text: unlocked "${words}".`, [fixOf(`Write unlocked "${words}"`, at, `unlocked "${words}"`)]);
}

/** `is 2 missing` */
function countOfFound({ failure, here, behind }: Stop): Fault | undefined {
  if (failure?.choice !== "condition" || here === undefined || !/^\d+$/.test(here.image) || behind === undefined) return undefined;
  if (!conditions.some((it) => it.word === behind.image) && meantBy(behind.image, "condition") === undefined) return undefined;
  return fault(spanOf(here), `The count goes after the finding's name: finding NAME ${here.image}.`);
}

/** `worn over 0.010 in` */
function wornPast({ failure, shape, here, behind, tokens, index }: Stop): Fault | undefined {
  if (shape !== "worn" || failure === undefined || here === undefined) return undefined;
  if (!/^(?:over|above|more|beyond|under|below|less)$/.test(here.image)) return undefined;
  const figure = behind?.image === "than" ? tokens[index + 2] : behind;
  if (figure === undefined || !figureToken(figure)) return undefined;
  const at = { from: here.startOffset, to: figure.startOffset };
  // Whether `under 0.5` is worn or is still good nobody can tell from it: both are offered, and none is taken by itself.
  return fault(
    { from: here.startOffset, to: endOf(figure) },
    wornEitherWay(figure.image),
    ["max", "min"].map((word) => fixOf(`Write ${word}`, at, `${word} `)),
  );
}
