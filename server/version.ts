// The version that the build wrote in; a run from the sources has none of its own.
declare const SPLITPIN_VERSION: string | undefined;

export const version: string = typeof SPLITPIN_VERSION === "string" ? SPLITPIN_VERSION : "from the sources";
