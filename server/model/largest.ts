// How large a job may be to be worked with: one that is typed by hand, over years, is smaller by far.

/** Of all the sheets of a job together. A job of years has some thousand lines. */
export const mostLines = 50_000;

/** Sheets that one uses, with those that they use. */
export const mostFiles = 1000;

/** Things, each counted once for each of its places: an engine of sixteen cylinders with a thousand things at each has fewer. */
export const mostPlaced = 20_000;
