// The way back for the terminal: what a sheet would hold, then what no step settles.
import { recordOnly } from "../draw/heading.ts";
import { plain } from "../draw/plain.ts";
import type { WayBack } from "./way-back.ts";
import { nothingMissing } from "./words.ts";

export function wayBackText(report: WayBack): string {
  const out = [report.sheet === "" ? `${nothingMissing}\n` : report.sheet];
  if (report.unsettled.length > 0)
    out.push("# What no step settles:", ...report.unsettled.map((it) => `#   ${plain(it.text)} (${plain(it.file)}:${it.line})`), "");
  if (report.sheet === "") out.push(recordOnly, "");
  return out.join("\n");
}
