// The kinds of hints that are shown beside the lines: each is a setting.

export const hintKinds = ["verdicts", "places", "locking", "days", "faults", "waits", "prices", "workedOut", "otherSystem"] as const;
export type HintKind = (typeof hintKinds)[number];
/** What is shown where nobody says otherwise: the other system beside each figure would be noise. */
export const usualHints: readonly HintKind[] = ["verdicts", "places", "locking", "days", "faults", "waits", "prices", "workedOut"];
