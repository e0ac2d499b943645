// How large a job may be to be worked with: one that is typed by hand, over years, is smaller by far.

/** Of a sheet. A job of years has some thousand. */
export const mostLines = 20_000;

/** Of all the sheets of a job together. */
export const mostLinesInAll = 30_000;

/** Sheets that one uses, with those that they use. */
export const mostFiles = 1000;

/** Things, each counted once for each of its places: an engine of sixteen cylinders with a thousand things at each has fewer. */
export const mostPlaced = 20_000;
