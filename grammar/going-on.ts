/** The words by which a line goes on behind its names: no name that somebody gives. */
export const goingOn: ReadonlySet<string> = new Set(["to", "by", "new", "with", "from", "for", "on", "under"]);
