// The readings as CSV (RFC 4180), for a spreadsheet: a row for each spot that was read, and one for each limit that was worked out.
// Invariant: no cell that came from a sheet is a formula to a spreadsheet; a figure stands without its unit, which has a column of its own.
import { cell } from "../order/csv.ts";
import type { LimitRead, ReadingsReport, StageRead } from "./readings.ts";

const columns = [
  "sheet",
  "machine",
  "serial",
  "limit",
  "title",
  "place",
  "position",
  "stage",
  "day",
  "reading",
  "unit",
  "times",
  "uncertainty",
  "gauge",
  "new",
  "set",
  "worn",
  "verdict",
  "words",
  "line",
] as const;

/** Of several jobs one table. */
export function readingsCsv(reports: readonly ReadingsReport[]): string {
  const rows = reports.flatMap((report) =>
    report.limits.flatMap((limit) => limit.places.flatMap(({ place, stages }) => stages.flatMap((stage) => stageRows(report, limit, place, stage)))),
  );
  return [columns, ...rows].map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

function stageRows(report: ReadingsReport, limit: LimitRead, place: string, it: StageRead): string[][] {
  const band = (name: "new" | "set" | "worn") => limit.bands.find((one) => one.name === name)?.text ?? "";
  const row = (position: string, reading: string, times: string) => [
    report.file ?? "",
    report.machine ?? "",
    report.serial ?? "",
    limit.limit,
    limit.title,
    place,
    position,
    it.stage,
    it.day ?? "",
    reading,
    limit.unit,
    times,
    short(it.u ?? ""),
    it.gauge ?? "",
    band("new"),
    band("set"),
    band("worn"),
    it.outcome,
    [it.verdict, ...it.more.map((one) => one.verdict), ...it.notes].join("; "),
    String(it.line),
  ];
  if (it.spots.length === 0) return it.at === undefined ? [] : [row("", short(it.at), "")];
  return it.spots.map((spot) => row(spot.position ?? "", short(spot.at), String(spot.times)));
}

/** A decimal without the zeros at its end. */
function short(decimal: string): string {
  return decimal.includes(".") ? decimal.replace(/\.?0+$/, "") : decimal;
}

/** Figures of our own are figures to a spreadsheet too, those below nothing among them. */
function field(text: string): string {
  return /^-?\d+(\.\d+)?$/.test(text) ? text : cell(text);
}
