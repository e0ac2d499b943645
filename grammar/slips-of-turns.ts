// Slips of hand about how far a fastener is turned back after its torque: taken for a count, a place or a torque it would be lost.
// Invariant: as in slips.ts; the fix writes the turn that was written.
import type { IToken } from "chevrotain";
import { fault, fixOf } from "./line-nodes.ts";
import { countOf, isEstimate, isTurn } from "./plain-words.ts";
import { type Stop, indentOf } from "./stop.ts";
import { endOf, figureToken, nameToken } from "./tokens.ts";
import type { Fault } from "./tree.ts";

const backVerbs = /^(?:slacken|slack|loosen|ease|back|turn|let|undo|crack|wind)$/i;

/** `slacken hub-nut one flat`, `back off hub-nut 1 flat`, `let back hub-nut by half a turn`: undefined where no turn ends the line. */
export function turnedBack(tokens: readonly IToken[], text: string): Fault | undefined {
  const last = tokens.at(-1);
  const first = tokens[0];
  if (first === undefined || last === undefined || !isTurn(last.image) || !backVerbs.test(first.image)) return undefined;
  let from = tokens.length - 2;
  // `half a turn`, `a quarter turn`
  while (from > 1 && /^(?:a|an|of|half|quarter|one|two|three|four|five|six)$/.test(tokens[from - 1]?.image ?? "") && nameToken(tokens[from])) from--;
  const amount = tokens[from];
  if (amount === undefined || from < 2) return undefined;
  const words = tokens
    .slice(from, -1)
    .map((it) => it.image)
    .filter((it, _i, all) => all.length === 1 || !/^(?:an?|of)$/.test(it));
  const figure = figureToken(amount) && from === tokens.length - 2 ? amount.image : words.length === 1 ? countOf(words[0] as string) : undefined;
  if (figure === undefined) return undefined;
  const names = tokens.slice(1, from).filter((it) => !/^(?:off|back|out|by|up)$/.test(it.image));
  if (names.length === 0 || !names.every((it) => (nameToken(it) && !isEstimate(it.image)) || it.image === ",")) return undefined;
  const said = names
    .map((it) => it.image)
    .join(" ")
    .replaceAll(" ,", ",");
  const turn = `${figure} ${last.image}`;
  const written = `let back ${said} by ${turn}`;
  const at = { from: first.startOffset, to: endOf(last) };
  const fixes = [fixOf(`Write ${written}`, at, written)];
  // What is only slackened is no adjustment: it may as well have been so.
  if (!/^(?:let|back|turn)$/i.test(first.image))
    fixes.push(fixOf("Write slacken, and how far into a note", at, `slacken ${said}\n${indentOf(text)}note "${text.slice(at.from, at.to)}"`));
  return fault({ from: amount.startOffset, to: at.to }, `How far it is turned back after its torque is written: ${written}.`, fixes);
}

/** Where a line broke off. */
export function turn({ failure, tokens, text, node }: Stop): Fault | undefined {
  return failure === undefined || node.kind === "let-back" ? undefined : turnedBack(tokens, text);
}
