// The words by which an editor knows what is coloured in a sheet.

/** In the order of their bits. */
export const tokenModifiers = ["off", "condemned", "planned"] as const;
export const tokenTypes = ["variable"] as const;
