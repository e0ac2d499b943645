// Runs a rule of the grammar over the tokens of a line.
// Invariant: it leaves nothing behind for the next line.
import { EOF, type IToken } from "chevrotain";
import { type Failure, takeFailure } from "./failure.ts";
import { type Grammar, grammar } from "./line-grammar.ts";
import type { Draft } from "./line-nodes.ts";
import type { Fault } from "./tree.ts";

export interface Parsed {
  readonly failure: Failure | undefined;
  readonly complaint: Fault | undefined;
  /** The token that reading stopped at: undefined at the line's end. */
  readonly stoppedAt: IToken | undefined;
}

/** Reads tokens by one rule into `node`. */
export function parse(tokens: IToken[], node: Draft, rule: (grammar: Grammar) => void): Parsed {
  takeFailure();
  const count = tokens.length;
  grammar.begin(tokens, node);
  // A broken line is told by an exception inside Chevrotain, and half its cost is a stack that nobody reads.
  const limit = Error.stackTraceLimit;
  Error.stackTraceLimit = 0;
  try {
    rule(grammar);
  } finally {
    Error.stackTraceLimit = limit;
  }
  // Chevrotain may pad the list that it reads.
  tokens.length = count;
  const error = grammar.errors[0];
  const token = error?.token;
  return { failure: takeFailure(), complaint: grammar.complaint, stoppedAt: token === undefined || token.tokenType === EOF ? undefined : token };
}
