// Which tokens may begin what: the table by which the parser chooses its way, one token ahead. Chevrotain finds it out by running every rule once without a line;
// a start of the program would wait longer for that than for reading a sheet. So it is found out when the program is built, from the sources (`SPLITPIN_FIRST_TOKENS`, filled in by .ci/build.mjs), and found out anew where the sources run by themselves.
// Invariant: sources and built program choose by the same functions, made from the same table; only where it comes from differs.

/** A place in a rule where the next token decides: Chevrotain's number for it, whether its alternatives have gates, and what each may begin with. */
export type Choice = readonly [key: number, gated: boolean, alternatives: readonly Beginning[]];
/** Token types by where they stand in the vocabulary. */
export type Beginning = readonly number[];
/** An alternative that may be empty begins with anything. */
export const anything = -1;

/** By the name of the rule. */
export type Choices = Readonly<Record<string, readonly Choice[]>>;

export interface FirstTokens {
  readonly choices: Choices;
}

declare const SPLITPIN_FIRST_TOKENS: FirstTokens | undefined;

/** What the built program brings along; undefined where the sources run. */
export const broughtAlong: FirstTokens | undefined = typeof SPLITPIN_FIRST_TOKENS === "undefined" ? undefined : SPLITPIN_FIRST_TOKENS;
