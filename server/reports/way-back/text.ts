// The way back for the terminal: what a sheet would hold, then what no step settles.
import { recordOnly } from "../draw/heading.ts";
import { plain } from "../draw/plain.ts";
import type { WayBack } from "./way-back.ts";
import { nothingMissing } from "./words.ts";

export function wayBackText(report: WayBack): string {
  const out = [report.sheet === "" ? `${nothingMissing}\n` : withCautions(report)];
  if (report.unsettled.length > 0)
    out.push("# What no step settles:", ...report.unsettled.map((it) => `#   ${plain(it.text)} (${plain(it.file)}:${it.line})`), "");
  if (report.sheet === "") out.push(recordOnly, "");
  return out.join("\n");
}

/** A page has its cautions above, and a sheet is not to hold them again with every way back that is written into it: here there is no other place for them. */
function withCautions({ sheet, cautions }: WayBack): string {
  const end = sheet.indexOf("\n\n");
  return [sheet.slice(0, end), ...cautions.map((it) => plain(`# Caution: ${it.words} (${it.source})`)), sheet.slice(end + 1)].join("\n");
}
