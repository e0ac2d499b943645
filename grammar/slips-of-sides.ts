// Slips of hand by which a place stands where it is not read, and must not be lost: without it a line speaks of every place.
// Invariant: as in slips.ts, one that knows none says nothing; a fix leaves every word that was written.
import type { IToken } from "chevrotain";
import { takesCount } from "./action-grammar.ts";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import { usualPlaces } from "./plain-words.ts";
import { type Slip, type Stop, indentOf, placesRead, thingsRead } from "./stop.ts";
import { TextToken, endOf, figureToken, goingOnToken, nameToken } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";
import { stages, verdicts } from "./words.ts";
import { meantBy } from "./words/meant-words.ts";

/** Asked before a word too many is taken out. */
export const slipsOfSides: readonly Slip[] = [
  seenInTurn,
  checkForSeen,
  measuredInTurn,
  meantStage,
  placeBeforeStage,
  countOfEachPlace,
  countBehindPlace,
  placeEachTime,
  placeOfItsOwn,
  figureOfEachPiece,
  fromOrFor,
  placeOfAllShims,
  secondSource,
];

/**
 * `seen arm-straight final left good "true"`, `seen left arm-straight final good`, `seen final free-turn good`, `seen free-turn final ok`: first the check, when it
 * was seen, what was seen; the place stands behind that.
 */
function seenInTurn({ failure, shape, tokens, node, text }: Stop): Fault | undefined {
  if (failure === undefined || shape !== "seen") return undefined;
  const end = tokens.findIndex((it, i) => i > 0 && !(it.image === "," || (nameToken(it) && !goingOnToken(it))));
  const said = tokens.slice(1, end === -1 ? tokens.length : end);
  const stage = said.find((it) => words(stages).has(it.image));
  const verdict =
    said.find((it) => words(verdicts).has(it.image)) ?? said.find((it) => it !== stage && said.indexOf(it) > 0 && meantBy(it.image, "verdict") !== undefined);
  if (verdict === undefined) return undefined;
  const others = said.filter((it) => it !== stage && it !== verdict);
  const [first, second] = others;
  if (first === undefined || !nameToken(first)) return undefined;
  // Of two words before the stage the first is the check, but where it is a usual place.
  const check = second !== undefined && isPlaceWord(first.image) && nameToken(second) && !isPlaceWord(second.image) ? second : first;
  const places = others.filter((it) => it !== check);
  const word = meantBy(verdict.image, "verdict")?.write[0] ?? verdict.image;
  if (stage === undefined) return whenSeen(check, word, verdict, places, said);
  // All of it stands where it is read: what is wrong comes further on.
  if (said[0] === check && said[1] === stage && said[2] === verdict && word === verdict.image) return undefined;
  if (places.some((it) => strong.test(it.image))) return undefined;
  if (places.length > 0 && !isList(places)) return undefined;
  const quoted = tokens[end]?.tokenType === TextToken ? (tokens[end] as IToken) : undefined;
  const head = `seen ${check.image} ${stage.image} ${word}`;
  const list = places
    .map((it) => it.image)
    .join(" ")
    .replaceAll(" ,", ",");
  const at = { from: (node.at as Span).from, to: endOf(quoted ?? (said.at(-1) as IToken)) };
  const tail = list === "" ? "" : ` ${list}`;
  const written = `${head}${quoted === undefined ? "" : ` ${quoted.image}`}${tail}`;
  const shown = `${head}${quoted === undefined ? "" : ' "…"'}${tail}`;
  // Behind the text there is a place already: which of them is meant only the writer knows. Who saw it is put into quotes with it.
  const more = text.slice(at.to, (node.at as Span).to).trim();
  const by = /^by\s+([^"\\]+?)(\s+\d{4}-\d\d-\d\d)?$/.exec(more);
  const rest = by === null ? text.slice(at.to, (node.at as Span).to) : ` by "${by[1]}"${by[2] ?? ""}`;
  const fixes = more === "" || /^(?:by\b|\d{4}-)/.test(more) ? [fixOf(`Write ${shown}`, node.at as Span, `${written}${rest}`)] : [];
  if (list !== "") {
    const on = { from: (places[0] as IToken).startOffset, to: endOf(places.at(-1) as IToken) };
    return fault(on, `The place goes behind what was seen: ${shown}. Without it the line speaks of every place.`, fixes);
  }
  const inOrder = said[0] === check && said[1] === stage;
  if (inOrder && word !== verdict.image) return fault(spanOf(verdict), `Write \`${word}\` for \`${verdict.image}\`.`, fixes);
  if (inOrder) return undefined;
  return fault(
    { from: (said[0] as IToken).startOffset, to: endOf(said.at(-1) as IToken) },
    `First the check, then when it was seen, then what: ${shown}.`,
    fixes,
  );
}

/** How good it was is told in quotes. */
const strong = /^(?:very|quite|all|pretty|really|looks|just|so|perfectly|no|not)$/;

/** `seen free-turn good`: as found, on trial or as it is left, only the writer knows. */
function whenSeen(check: IToken, word: string, verdict: IToken, places: readonly IToken[], said: readonly IToken[]): Fault | undefined {
  if (places.length > 0 || said[0] !== check || said[1] !== verdict) return undefined;
  const fixes = [...stages].reverse().map((it) => fixOf(`Write ${it}`, spanOf(verdict), `${it} ${word}`));
  return fault(spanOf(verdict), `When was it seen? As it is left: seen ${check.image} final ${word}; as it came: found; in a trial: trial.`, fixes);
}

/** `measure found rim-play by dial` */
function measuredInTurn({ failure, shape, tokens }: Stop): Fault | undefined {
  const [, stage, limit] = tokens;
  if (failure?.choice !== "stage" || shape !== "measure" || stage === undefined || limit === undefined) return undefined;
  if (!words(stages).has(stage.image) || !nameToken(limit) || goingOnToken(limit)) return undefined;
  const written = `${limit.image} ${stage.image}`;
  const at = { from: stage.startOffset, to: endOf(limit) };
  return fault(at, `First the limit, then when it was measured: measure ${written}.`, [fixOf(`Write ${written}`, at, written)]);
}

/** `measure float before`, `seen blue after good` */
function meantStage({ failure, here, shape }: Stop): Fault | undefined {
  const meant = failure?.choice !== "stage" || here === undefined ? undefined : meantBy(here.image, "stage");
  if (meant === undefined || here === undefined || (shape !== "measure" && shape !== "seen")) return undefined;
  const what: Readonly<Record<string, string>> = { found: "as it came", trial: "while it is tried", final: "as it is left" };
  return fault(
    spanOf(here),
    `Write ${meant.write.map((it) => `\`${it}\` (${what[it]})`).join(" or ")} for \`${here.image}\`.`,
    meant.write.map((it) => fixOf(`Write \`${it}\``, spanOf(here), it)),
  );
}

/** `check free-turn final good`: `check` declares what good looks like. */
function checkForSeen({ failure, shape, tokens, node, text }: Stop): Fault | undefined {
  if (failure === undefined || shape !== "check") return undefined;
  const [first, name, stage, verdict] = tokens;
  if (first === undefined || name === undefined || stage === undefined || !nameToken(name)) return undefined;
  const said = words(stages).has(stage.image) && verdict !== undefined && words(verdicts).has(verdict.image) ? verdict : undefined;
  if (said === undefined && !words(verdicts).has(stage.image)) return undefined;
  const written = `seen ${text.slice(name.startOffset, (node.at as Span).to)}`;
  if (said === undefined)
    return fault(spanOf(first), `\`check\` says what good looks like. What was seen is written: seen ${name.image} final ${stage.image}; as it came: found.`);
  const fixes = /\bby\s+[^"\s]/.test(written) ? [] : [fixOf("Write `seen`", spanOf(first), "seen")];
  return fault(spanOf(first), `\`check\` says what good looks like. What was seen is written: ${written}.`, fixes);
}

/** `measure float near final`: each figure has its place on its own line. */
function placeBeforeStage({ failure, shape, tokens }: Stop): Fault | undefined {
  if (failure?.choice !== "stage" || shape !== "measure") return undefined;
  const stage = tokens.findIndex((it, i) => i > 2 && words(stages).has(it.image));
  const places = tokens.slice(2, stage);
  if (stage < 0 || !isList(places)) return undefined;
  const head = `measure ${(tokens[1] as IToken).image} ${(tokens[stage] as IToken).image}`;
  const on = { from: (places[0] as IToken).startOffset, to: endOf(places.at(-1) as IToken) };
  return fault(on, `The place goes under it, before its figure: ${head}, and below it ${(places[0] as IToken).image} 0.004 in.`);
}

/** `undo cap-nut near 2, far 2` */
function countOfEachPlace({ failure, here, node, text }: Stop): Fault | undefined {
  if (failure === undefined || node.kind !== "action" || !takesCount(node.verb as string) || here === undefined || !/^\d{1,3}$/.test(here.image))
    return undefined;
  const [thing, ...others] = thingsRead(node);
  const [first] = placesRead(node);
  if (thing === undefined || others.length > 0 || thing.count !== undefined || first === undefined) return undefined;
  const [all, rest = ""] = eachWithCount.exec(text.slice(first.at.from, (node.at as Span).to)) ?? [];
  if (all === undefined) return undefined;
  const lines = [...all.slice(0, all.length - rest.length).matchAll(placeAndCount)].map(
    ([, place, count]) => `${node.verb} ${thing.name.text} ${count} ${place}${rest === "" ? "" : " …"}`,
  );
  return fault(spanOf(here), `How many goes straight after the name, and a place with its own number has its own line: ${lines.join(" / ")}.`);
}

const placeAndCount = /([a-z][\w-]*) (\d{1,3})(?=\s*(?:,|$|\s))/giu;
const eachWithCount = /^[a-z][\w-]* \d{1,3}(?:\s*(?:,|\band\b)\s*[a-z][\w-]* \d{1,3})+((?:\s+[a-z].*)?)$/iu;

/** `tighten arm-bolt left 1 to 37 lbf.ft` */
function countBehindPlace({ failure, here, before, behind, node, tokens, index, text }: Stop): Fault | undefined {
  if (failure === undefined || node.kind !== "action" || !takesCount(node.verb as string) || here === undefined || !/^\d{1,3}$/.test(here.image))
    return undefined;
  const places = placesRead(node);
  const things = thingsRead(node);
  const [first] = places;
  if (first === undefined || things.length !== 1 || things[0]?.count !== undefined || places.at(-1)?.text !== before.image) return undefined;
  if (behind === undefined || !goingOnToken(behind) || tokens[index - 1] !== before) return undefined;
  const named = places.map((it) => it.text).join(", ");
  const at = { from: first.at.from, to: endOf(here) };
  const line = `${text.slice((node.at as Span).from, first.at.from)}${here.image} ${named}${text.slice(at.to, (node.at as Span).to)}`;
  return fault(spanOf(here), `Write how many straight after the name, then the place: ${line}.`, [
    fixOf(`Write ${here.image} ${named}`, at, `${here.image} ${named}`),
  ]);
}

/** `shims cap-shims near` */
function placeOfAllShims({ failure, here, before, shape, tokens, index }: Stop): Fault | undefined {
  if (failure === undefined || shape !== "shims" || here === undefined || before !== tokens[1] || index !== tokens.length - 1) return undefined;
  const isPlace = isPlaceWord(here.image) || (/shims?$/.test(before.image) && !/shims?$/.test(here.image));
  if (!nameToken(before) || !nameToken(here) || !isPlace) return undefined;
  const name = `${before.image}-${here.image}`;
  return fault(spanOf(here), `Shims have no place. Those of each place have a name of their own: shims ${name}.`, [
    fixOf(`Write ${name}`, { from: before.startOffset, to: endOf(here) }, name),
  ]);
}

/** `is metallic, fragments from main-shell, rod-shell` */
function secondSource({ failure, here, before, node, tokens, index }: Stop): Fault | undefined {
  if (failure?.choice !== "condition" || node.kind !== "is" || here === undefined || before.image !== "," || !nameToken(here)) return undefined;
  const from = tokens[index - 3];
  const source = tokens[index - 2];
  const what = tokens[index - 4];
  if (from?.image !== "from" || source === undefined || what === undefined || !nameToken(what) || !here.image.includes("-")) return undefined;
  return fault(spanOf(here), `One name goes behind \`from\`. Say it of each: ${what.image} from ${source.image}, ${what.image} from ${here.image}.`, [
    fixOf(`Write ${what.image} from ${here.image}`, spanOf(here), `${what.image} from ${here.image}`),
  ]);
}

const words = (list: readonly string[]): ReadonlySet<string> => new Set(list);

/** Names with commas between them, and nothing else. */
function isList(tokens: readonly IToken[]): boolean {
  return tokens.length % 2 === 1 && tokens.every((it, i) => (i % 2 === 1 ? it.image === "," : nameToken(it)));
}

/** A usual word for a place, or one of the trade for the sides of a road vehicle. */
function isPlaceWord(word: string): boolean {
  return usualPlaces.has(word) || word === "near" || word === "off" || word === "ls" || word === "rs";
}

/** `remove outer left, inner left, seal left`: the place of them all comes once, behind the last. A part may be called as a place is: it stands before the same one each time. */
function placeEachTime({ failure, node, tokens, text }: Stop): Fault | undefined {
  if (failure === undefined || node.kind !== "action") return undefined;
  const place = tokens[2];
  if (place === undefined || !isPlaceWord(place.image)) return undefined;
  const names: IToken[] = [];
  let last: IToken | undefined;
  for (let at = 1; tokens[at + 1]?.image === place.image; at += 3) {
    const name = tokens[at] as IToken;
    if (!nameToken(name) || goingOnToken(name) || name.image === place.image) return undefined;
    names.push(name);
    last = tokens[at + 1];
    if (tokens[at + 2]?.image !== ",") break;
    // What follows has another place, or none.
    if (tokens[at + 4]?.image !== place.image) return undefined;
  }
  if (last === undefined || names.length < 2) return undefined;
  const span = { from: spanOf(names[0] as IToken).from, to: endOf(last) };
  // What stands behind it may be of the last alone: `fit hub left, outer left new`.
  if (text.slice(span.to, (node.at as Span).to).trim() !== "") return undefined;
  const written = `${names.map((it) => it.image).join(", ")} ${place.image}`;
  return fault(span, `The place of them all comes once, behind the last: ${written}.`, [fixOf(`Write ${written}`, span, written)]);
}

/** `remove outer left, inner right`, `fit hub left, outer left new`: a line of its own for each. What `new` is behind is new; whose any other word behind them is only the writer knows. */
function placeOfItsOwn({ failure, node, tokens, text }: Stop): Fault | undefined {
  if (failure === undefined || node.kind !== "action" || tokens[3]?.image !== ",") return undefined;
  const pairs: [IToken, IToken][] = [];
  let at = 1;
  for (; ; at += 3) {
    const [name, place] = [tokens[at], tokens[at + 1]];
    if (name === undefined || place === undefined || !nameToken(name) || !nameToken(place) || goingOnToken(name) || goingOnToken(place)) return undefined;
    pairs.push([name, place]);
    if (tokens[at + 2]?.image !== ",") break;
  }
  const isSame = pairs.every(([, place]) => place.image === pairs[0]?.[1].image);
  if (pairs.length < 2 || !(isSame || pairs.every(([, place]) => isPlaceWord(place.image) || place.image.includes("-")))) return undefined;
  const end = (node.at as Span).to;
  const tail = text.slice(endOf(tokens[at + 1] as IToken), end).trim();
  const verb = (tokens[0] as IToken).image;
  const lines = pairs.map(([name, place], i) => `${verb} ${name.image} ${place.image}${i === pairs.length - 1 && tail !== "" ? ` ${tail}` : ""}`);
  const span = { from: (tokens[0] as IToken).startOffset, to: end };
  const [[first, place]] = pairs as [[IToken, IToken]];
  const each = fixOf("Write a line for each", span, lines.join(`\n${indentOf(text)}`));
  if (tail === "new" && isSame) {
    const all = `${verb} ${pairs.map(([name]) => name.image).join(", ")} ${place.image} new`;
    return fault({ from: first.startOffset, to: end }, `Are all of them new? ${all}. If not, a line for each: ${lines.slice(0, 3).join(" / ")}.`, [
      each,
      fixOf(`Write ${all}`, span, all),
    ]);
  }
  return fault(
    { from: first.startOffset, to: end },
    `What has a place of its own has its own line: ${lines.slice(0, 3).join(" / ")}.`,
    tail === "" || tail === "new" ? [each] : [],
  );
}

/** `uphill 1 1.20 mm`, `1 uphill 1.20 mm`: a reading counts no pieces. */
function figureOfEachPiece({ failure, shape, node, tokens }: Stop): Fault | undefined {
  if (failure === undefined || (shape !== "reading" && node.kind !== "reading")) return undefined;
  const [first, second, third, unit] = tokens;
  if (first === undefined || second === undefined || third === undefined || !figureToken(third)) return undefined;
  // `left 1 1/4 in` is one figure.
  if (third.image.includes("/")) return undefined;
  const place = nameToken(first) && /^\d{1,2}$/.test(second.image) ? first : /^\d{1,2}$/.test(first.image) && nameToken(second) ? second : undefined;
  if (place === undefined) return undefined;
  const measured = unit !== undefined && nameToken(unit) ? ` ${unit.image}` : "";
  const number = Math.min(Number((place === first ? second : first).image), 6);
  const figures = number > 1 ? [...Array<string>(number - 1).fill("…"), third.image] : [third.image, "…"];
  return fault(
    { from: first.startOffset, to: endOf(third) },
    `Of several at a place the figures go on its line in turn, the first one's first: ${place.image} ${figures.join(", ")}${measured}.`,
  );
}

/** `fit outer fro left`, `offer fro tarn`: `from` or `for`, or a name; which of them only the writer knows. */
function fromOrFor({ failure, tokens, node, text, here, before }: Stop): Fault | undefined {
  if (failure === undefined || node.at === undefined) return undefined;
  const at = tokens.findIndex((it, i) => i > 0 && nameToken(it) && /^(?:fro|fo|fom|frm|ofr)$/u.test(it.image));
  const word = tokens[at];
  // A place may be called so, and what is amiss with the line stands elsewhere.
  if ((word !== here && word !== before) || tokens[at - 1]?.image === "," || tokens[at + 1]?.image === ",") return undefined;
  // At the end of a line that may go on it is not typed to its end.
  if (word === undefined || (tokens[at + 1] === undefined && failure.how === "rest")) return undefined;
  const span = { from: word.startOffset, to: endOf(word) };
  const rest = (small: string) => `${text.slice((node.at as Span).from, span.from).trim()} ${small} ${text.slice(span.to, (node.at as Span).to).trim()}`.trim();
  if (tokens[at + 1]?.image === "now") return fault(span, `Is \`for now\` meant? ${rest("for")}.`, [fixOf("Write `for`", span, "for")]);
  return fault(span, `\`${word.image}\` may be \`from\` or \`for\`, or a name. Write which.`);
}
