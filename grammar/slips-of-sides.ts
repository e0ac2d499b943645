// Slips of hand by which a place stands where it is not read, and must not be lost: without it a line speaks of every place.
// Invariant: as in slips.ts, one that knows none says nothing; a fix leaves every word that was written.
import type { IToken } from "chevrotain";
import { takesCount } from "./action-grammar.ts";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import { type Slip, type Stop, placesRead, thingsRead, usualPlaces } from "./stop.ts";
import { TextToken, endOf, goingOnToken, nameToken } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";
import { stages, verdicts } from "./words.ts";

/** Asked before a word too many is taken out. */
export const slipsOfSides: readonly Slip[] = [placeBeforeVerdict, placeBeforeStage, countBehindPlace, placeOfAllShims, secondSource];

/** `seen arm-straight final left good "true"`, `seen left arm-straight final good`: the place stands behind what was seen. */
function placeBeforeVerdict({ failure, shape, tokens, node, text }: Stop): Fault | undefined {
  if (failure === undefined || shape !== "seen") return undefined;
  const verdict = tokens.findIndex((it, i) => i > 1 && words(verdicts).has(it.image));
  const stage = tokens.findIndex((it, i) => i > 0 && i < verdict && words(stages).has(it.image));
  const first = tokens[1];
  if (stage < 0 || first === undefined || !tokens.slice(1, verdict).every((it) => nameToken(it) || it.image === ",")) return undefined;
  const before = tokens.slice(1, stage);
  const behind = tokens.slice(stage + 1, verdict);
  // Of two words before the stage the first is the check, but where it is a usual place.
  const isTurned = before.length === 2 && isPlaceWord(first.image) && !isPlaceWord((before[1] as IToken).image);
  const check = isTurned ? (before[1] as IToken) : first;
  const places = [...before.filter((it) => it !== check), ...behind];
  if (places.length === 0 || !isList(places)) return undefined;
  const said = places
    .map((it) => it.image)
    .join(" ")
    .replaceAll(" ,", ",");
  const quoted = tokens[verdict + 1]?.tokenType === TextToken ? (tokens[verdict + 1] as IToken) : undefined;
  const head = `seen ${check.image} ${(tokens[stage] as IToken).image} ${(tokens[verdict] as IToken).image}`;
  const last = quoted ?? (tokens[verdict] as IToken);
  const at = { from: (node.at as Span).from, to: endOf(last) };
  const written = `${head}${quoted === undefined ? "" : ` ${quoted.image}`} ${said}`;
  const shown = `${head}${quoted === undefined ? "" : ' "…"'} ${said}`;
  const on = { from: (places[0] as IToken).startOffset, to: endOf(places.at(-1) as IToken) };
  // Behind the text there is a place already: which of them is meant only the writer knows.
  const more = text.slice(at.to).trim();
  const fixes = more === "" || /^(?:by\b|\d{4}-|#)/.test(more) ? [fixOf(`Write ${shown}`, at, written)] : [];
  return fault(on, `The place goes behind what was seen: ${shown}. Without it the line speaks of every place.`, fixes);
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
  if (!nameToken(before) || !isPlaceWord(here.image)) return undefined;
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
