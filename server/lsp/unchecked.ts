// What is said at the head of a sheet that is not checked, or not yet: nobody takes a list with this in it for all that is wrong.
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Checked, Diagnostic, Service, Slices } from "../service.ts";

const notReadRule = "sheet-not-read";

export function failed(file: string): Diagnostic {
  return ofSheet(file, "splitpin-failed", "Splitpin itself failed on this sheet and gives no verdict. Its log says where.");
}

export function notRead(file: string, why: string): Diagnostic {
  return ofSheet(file, notReadRule, `This sheet ${why}. Nothing on it is checked.`);
}

export function underWay(file: string): Diagnostic {
  const message = "This sheet is long, and still being checked: here is what its lines say by themselves; what is wrong with the job follows in a moment.";
  return { ...ofSheet(file, "check-under-way", message), severity: "information" };
}

/** Of a sheet that is too long to be checked, how its lines are written. `before` is what stood of it. */
export function* onlyItsLines(service: Service, path: string, before: Checked | undefined, why: string, sheet: SheetText): Slices<Checked> {
  // What is told of a sheet that can't be read has no texts.
  const said = yield* service.ofLines(path, sheet, before?.texts.has(path) === true ? before : undefined);
  const first = ofSheet(path, notReadRule, `This sheet ${why}. Only how its lines are written is looked at, and nothing of the job.`);
  return { ...said, list: [first, ...said.list] };
}

function ofSheet(file: string, rule: string, message: string): Diagnostic {
  return { file, line: 0, from: 0, to: 0, severity: "error", rule, message, related: [], fixes: [] };
}
