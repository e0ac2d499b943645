// The readings for the terminal: words and figures, no colour.
import { machineWords, recordOnly } from "../draw/heading.ts";
import { plain } from "../draw/plain.ts";
import { limitFacts, readingsHeadline, signOf, spotLines, stageVerdict } from "./words.ts";
import type { ReadingsReport } from "./readings.ts";

export function readingsText(report: ReadingsReport): string {
  const head = plain(`Readings: ${report.title}`);
  const out: string[] = [
    head,
    "=".repeat(Math.min(head.length, 100)),
    ...(machineWords(report) === "" ? [] : [plain(machineWords(report))]),
    "",
    readingsHeadline(report),
    "",
  ];
  for (const limit of report.limits) {
    out.push(plain(limit.title), `  ${plain(limitFacts(limit))}  (${plain(limit.file)}:${limit.line})`);
    for (const { place, stages } of limit.places) {
      for (const it of stages) {
        const spots = spotLines(it).join("; ");
        const forms = [
          it.spots.length > 1 && it.mean !== undefined ? `mean ${it.mean}` : "",
          it.span === undefined ? "" : `span ${it.span}`,
          it.ovality.length === 0 ? "" : `ovality ${it.ovality.join(", ")}`,
          it.taper === undefined ? "" : `taper ${it.taper}`,
          it.uncertainty === undefined ? "" : `\u00b1 ${it.uncertainty}`,
        ].filter((word) => word !== "");
        out.push(
          plain(
            `  ${signOf(it)} ${[place, it.stage].filter((word) => word !== "").join(" ")}: ${spots}${forms.length === 0 ? "" : ` [${forms.join("; ")}]`}: ${stageVerdict(it)}  (line ${it.line})`,
          ),
        );
      }
    }
    out.push("");
  }
  if (report.unread.length > 0)
    out.push("Not measured", ...report.unread.map((it) => `  ${plain(it.title)}${it.places.length === 0 ? "" : ` (${plain(it.places.join(", "))})`}`), "");
  out.push(recordOnly, "");
  return out.join("\n");
}
