// How large a job may be to be worked with: one that is typed by hand, over years, is smaller by far.

/** Of a sheet. A job of years has some thousand. */
export const mostLines = 12_000;

/** Of a sheet that is open in an editor: beyond what can be worked with, how its lines are written is still looked at while it is split. */
export const mostLinesLookedAt = 120_000;

/** Of all the sheets of a job together. */
export const mostLinesInAll = 15_000;

/** Sheets that one uses, with those that they use. */
export const mostFiles = 1000;

/** Pieces of one thing at one place that lines tell apart: by when each was tightened, by what was found or read of it. An engine has some dozen, a wheel its spokes. */
export const mostApart = 500;

/**
 * Things and lines that speak of them, each counted once for each place that it is of: sixteen cylinders with a thousand things at each and a thousand lines that speak of all of them have
 * fewer. What is known of a piece at a place takes some kilobytes.
 */
export const mostPlaced = 40_000;
