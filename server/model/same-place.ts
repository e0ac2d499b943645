// Where two places that a sheet names are, or may be, one.

/** Whether what is said at one place is said of the other: they are the same, or one of them is the thing as a whole (`""`), of which no place was named. */
export function isSamePlace(a: string, b: string): boolean {
  return a === b || a === "" || b === "";
}
