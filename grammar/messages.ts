// What is said of a line that can't be read: one fault, on the token to change, in the words of somebody at the bench.
// Where no slip of hand is known, what should stand there and how the line is written.
// Invariant: never a class name, never a list of the grammar's own tokens.
import type { IToken } from "chevrotain";
import type { Parsed } from "./parse.ts";
import { fault, spanOf } from "./line-nodes.ts";
import { DateToken, Figure, Name, TextToken } from "./tokens.ts";
import type { Fault } from "./tree.ts";
import { capital, shown, syntaxOf } from "./message-words.ts";
import { slips } from "./slips.ts";
import type { Broken, Stop } from "./stop.ts";

export function faultOf(broken: Broken, parsed: Parsed): Fault {
  const index = parsed.stoppedAt === undefined ? broken.tokens.length : broken.tokens.indexOf(parsed.stoppedAt);
  const { text, tokens, node, shape, comment } = broken;
  const { failure, complaint, stoppedAt } = parsed;
  const before = tokens[Math.max(0, index - 1)] as IToken;
  const stop: Stop = { text, tokens, node, shape, comment, failure, complaint, stoppedAt, index, here: stoppedAt, before, behind: tokens[index + 1] };
  for (const slip of slips) {
    const known = slip(stop);
    if (known !== undefined) return known;
  }
  return plain(stop);
}

/** What is left: what should stand here, and how the line is written. */
function plain({ failure, here, before, tokens }: Stop): Fault {
  const line = syntaxOf(tokens);
  const what =
    failure?.expected === Name
      ? "a name"
      : failure?.expected === Figure
        ? "a figure"
        : failure?.expected === TextToken
          ? "a text in quotes"
          : failure?.expected === DateToken
            ? "a date, such as 2026-04-11"
            : choiceNames[failure?.choice ?? ""];
  // An example behind a comma is closed by another one.
  const comma = what?.includes(",") === true ? "," : "";
  if (here === undefined)
    return fault(spanOf(before), what === undefined ? `Something is missing after this: ${line}.` : `${capital(what)}${comma} is missing after this: ${line}.`);
  if (what !== undefined && failure?.how !== "rest") return fault(spanOf(here), `${capital(what)}${comma} is wanted here, not ${shown(here)}: ${line}.`);
  return fault(spanOf(here), `${capital(shown(here))} can't go here. The line is written: ${line}.`);
}

const choiceNames: Readonly<Record<string, string>> = {
  range: "a range",
  expression: "a figure, a limit's name or a parenthesis",
  item: "what it is about",
  thread: "a thread, such as 5/8-18 UNF or M10x1.25",
  under: "a part or a text in quotes",
  "behind count-needed": "a figure",
  "behind text-needed": "a text in quotes",
};
