// What is wrong in a sheet, for programs: the form in which every door gives it.
import type { Diagnostic } from "../../rules/check.ts";

export interface CheckJson {
  readonly file: string;
  /** Lines and columns from 1; the end column is the first behind. */
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly severity: Diagnostic["severity"];
  readonly rule: string;
  readonly message: string;
  readonly related: readonly { readonly file: string; readonly line: number; readonly message: string }[];
}

/** `shown` names a file as the reader knows it. */
export function checkJson(it: Diagnostic, shown: (path: string) => string): CheckJson {
  return {
    file: shown(it.file),
    line: it.line + 1,
    column: it.from + 1,
    endLine: it.line + 1,
    endColumn: it.to + 1,
    severity: it.severity,
    rule: it.rule,
    message: it.message,
    related: it.related.map((related) => ({ file: shown(related.file), line: related.line + 1, message: related.message })),
  };
}
