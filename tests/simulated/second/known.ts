// Kinds that the gate still gets wrong, each with the reason. A kind that it gets right by now must go from here: the test says so.

export const known: Record<string, string> = {
  "seen-before-it-came-off": "a critical look counts though it was before the part came off",
};
