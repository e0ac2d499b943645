// Where reading a line stopped and what was looked for there. Chevrotain's own sentences are never made: the message comes afterwards, from the whole line.
import type { IParserErrorMessageProvider, TokenType } from "chevrotain";
import { Figure } from "./tokens.ts";

/** Where reading stopped, and what the grammar looked for there. */
export interface Failure {
  /** `missing`: one kind of token was looked for. `choice`: one of several things. `rest`: the line was complete before it. */
  readonly how: "missing" | "choice" | "rest";
  readonly expected?: TokenType;
  /** What a choice is about, in one word that messages know: `stage`, `locking`, `condition`… */
  readonly choice?: string;
}

let failure: Failure | undefined;

/** What was noted since this was last asked. */
export function takeFailure(): Failure | undefined {
  const noted = failure;
  failure = undefined;
  return noted;
}

/** Only notes what was looked for; the message is made afterwards, from the whole line. */
export const noteFailure: IParserErrorMessageProvider = {
  buildMismatchTokenMessage({ expected }) {
    failure = { how: "missing", expected };
    return "";
  },
  buildNotAllInputParsedMessage() {
    failure = { how: "rest" };
    return "";
  },
  buildNoViableAltMessage({ customUserDescription }) {
    failure = customUserDescription === undefined ? { how: "choice" } : { how: "choice", choice: customUserDescription };
    return "";
  },
  buildEarlyExitMessage({ expectedIterationPaths, customUserDescription }) {
    const first = expectedIterationPaths.map((it) => it[0]);
    failure =
      customUserDescription !== undefined
        ? { how: "choice", choice: customUserDescription }
        : { how: "missing", expected: first.includes(Figure) ? Figure : (first[0] as TokenType) };
    return "";
  },
};
