// Asks the core, in this process, whether a sheet may be released, and for what else it says of it.
import { readSheet } from "../../../grammar/sheet-text.ts";
import { checkFile } from "../../../server/rules/check.ts";
import type { Sheet } from "./pen.ts";

export interface Said {
  line: number;
  rule: string;
  severity: string;
  message: string;
}

export interface Verdict {
  held: boolean;
  said: Said[];
}

export function judged(sheet: Sheet): Verdict {
  const read = new Map<string, ReturnType<typeof readSheet>>();
  const files = {
    jobsheets: () => Object.keys(sheet.files).filter((it) => it.endsWith(".jobsheet")),
    read: (path: string) => {
      const text = sheet.files[path];
      if (text === undefined) return "missing" as const;
      const known = read.get(path) ?? readSheet(text);
      read.set(path, known);
      return known;
    },
  };
  const said = checkFile(files, sheet.name).map(({ line, rule, severity, message }) => ({ line, rule, severity, message }));
  return { held: said.some((it) => it.rule === "release-blocked"), said };
}
