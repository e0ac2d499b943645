// Where in a sheet its way back is written, and what: at the end, or before the release, for steps count in the order of the sheet.
// Invariant: adds lines and changes none; a head that stands in the sheet already is not written twice.
import type { Slices } from "../../../grammar/slices.ts";
import { lineText } from "../../../grammar/sheet-text.ts";
import type { Files } from "../../model/files.ts";
import { counted } from "../../rules/wording.ts";
import type { Written } from "../report.ts";
import { placedIn } from "./placed.ts";
import { nothingMissing, wayBackHeadline } from "./words.ts";
import { type WayBack, goingBack } from "./way-back.ts";

/** Undefined where there is no such sheet. */
export function* writingBack(files: Files, path: string): Slices<Written | undefined> {
  const sheet = files.read(path);
  const report = yield* goingBack(files, path);
  if (typeof sheet === "string" || report === undefined) return undefined;
  if (report.sheet === "") return { said: `${nothingMissing}${unsettledWords(report)}` };
  const lines = sheet.lines.length;
  const known = new Set(Array.from({ length: lines }, (_, i) => lineText(sheet, i).trim()));
  const [head, ...body] = report.sheet.trimEnd().split("\n\n");
  const heads = (head as string).split("\n").filter((it) => !known.has(it));
  const text = [...(heads.length === 0 ? [] : [heads.join("\n")]), ...body].join("\n\n");
  const insert = placedIn(sheet, text);
  return {
    insert: { ...insert, text: insert.text.replaceAll("\n", sheet.newline) },
    said: `Written: ${wayBackHeadline(report).replace(/\.$/, "")}. Mark a step done when it is done, and write the figures that you read.${unsettledWords(report)}`,
  };
}

function unsettledWords(report: WayBack): string {
  const count = report.unsettled.length;
  return count === 0 ? "" : ` ${counted(count, "thing")} no step can settle: the report of the way back names ${count === 1 ? "it" : "them"}.`;
}
