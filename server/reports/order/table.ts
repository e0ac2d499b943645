// The parts order for the terminal: a table no wider than it, and under each row the lines that ask for it.
// Invariant: plain text without colour; no character of a sheet reaches the terminal as a command, for whatever is folded or stands in a grid is made plain there.
import { once } from "../../model/memo.ts";
import {
  type Cause,
  causesOf,
  choiceWords,
  countColumns,
  jobByJobWords,
  jobsWords,
  lotsWords,
  nothingWords,
  orderCaution,
  quantityWords,
  sumAt,
  sumColumns,
  sumNotes,
  titleOf,
  togetherWords,
  warningWords,
  whereWords,
} from "./words.ts";
import { listsOfOrder } from "./lists.ts";
import type { OrderReport, OrderRow } from "./order-report.ts";
import { plain } from "../draw/plain.ts";

/** `width`: columns of the terminal; 100 where it has none. */
export function orderTable(report: OrderReport, width = 100): string {
  const wide = Math.max(60, Math.min(width, 200));
  const out: string[] = [...folded(titleOf(report), wide)];
  for (const it of report.jobs) if (it.machine !== null) out.push(...folded(plain(it.machine), wide));
  out.push("");
  const warnings = warningWords(report);
  for (const it of warnings) out.push(...folded(it, wide, "! "));
  if (warnings.length > 0) out.push("");
  if (report.lines.length === 0) out.push(nothingWords(report), "");
  else out.push(...table(report, wide), "");
  for (const words of choiceWords(report)) out.push(...folded(words, wide));
  if (report.choice !== null) out.push("");
  if (report.suppliers.length > 0) {
    const parts = sumColumns(report);
    const rows = report.suppliers.map((it) => [plain(it.name), ...parts.map((part) => sumAt(it, part) ?? "–"), it.total, it.currency]);
    const top = ["Supplier", ...parts.map((it) => it.toLowerCase()), "total", ""];
    out.push(
      ...grid(
        top,
        rows,
        top.map((_, i) => i > 0 && i < top.length - 1),
      ),
      "",
    );
    for (const it of report.suppliers) for (const note of sumNotes(it)) out.push(...folded(`${plain(it.name)}: ${note}.`, wide));
  }
  const together = togetherWords(report);
  if (together !== undefined) out.push(...folded(together, wide), "");
  const byJob = jobByJobWords(report);
  if (byJob !== undefined) out.push(...folded(byJob, wide), "");
  for (const { title, rows } of listsOfOrder(report, ["Job by job", "Errors in the sheet"]))
    section(
      out,
      title,
      rows.map((it) => `${plain(it.words)}${it.file === undefined ? "" : `  ${plain(it.file)}:${it.line}`}`),
      wide,
    );
  out.push(...folded(orderCaution, wide), "");
  return out.join("\n");
}

function table(report: OrderReport, wide: number): string[] {
  const { lines } = report;
  const counts = countColumns(report);
  const head = ["Item", "need", ...counts.map(([name]) => (name === "In stock" ? "stock" : name.toLowerCase())), "to order", "packs", "total", "from"];
  const right = head.map((it) => it !== "Item" && it !== "from");
  const rows = lines.map((row) => [
    plain(row.item),
    quantityWords(row.need, row.unit),
    ...counts.map(([, of]) => quantityWords(of(row), row.unit)),
    quantityWords(row.toOrder, row.orderUnit),
    row.packs ?? "–",
    row.total === null ? "–" : `${row.total} ${row.currency ?? ""}`,
    sellerOf(row),
  ]);
  const [top, rule, ...drawn] = grid(head, rows, right);
  const out = [top as string, rule as string];
  for (const [i, row] of lines.entries()) {
    out.push(drawn[i] as string);
    const where = whereWords(row);
    const title = row.name === row.item ? "" : plain(row.name);
    const jobs = jobsWords(row, report);
    const about = [title, plain(where), jobs === "" ? "" : `for ${jobs}`].filter((it) => it !== "").join(", ");
    if (about !== "") out.push(...folded(about, wide, "    "));
    for (const words of lotsWords(row)) out.push(...folded(words, wide, "    = "));
    for (const cause of causesOf(row)) out.push(...folded(`${plain(cause.text)}  ${linesOf(cause)}`, wide, "    - "));
    for (const note of row.notes) out.push(...folded(note, wide, "    ! "));
  }
  return out;
}

/** `left.jobsheet:12, 15`: a file is named once. */
function linesOf({ lines }: Cause): string {
  return lines.map((it, i) => (it.file === lines[i - 1]?.file ? `${it.line}` : `${plain(it.file)}:${it.line}`)).join(", ");
}

/** By the name in the sheet, with the number and lead where all is of one sale. */
function sellerOf(row: OrderRow): string {
  const names = [...new Set(row.lots.flatMap((it) => it.supplier ?? []))];
  if (names.length > 1) return names.map(plain).join(", ");
  if (row.supplier === null) return row.standing === "no source" ? "no source" : "–";
  return `${plain(row.supplier)}${row.number === null ? "" : `, ${plain(row.number)}`}${row.lead === null ? "" : `, ${row.lead}`}`;
}

/** A head, a rule, and the rows; columns as wide as what stands in them. */
function grid(top: readonly string[], cells: readonly (readonly string[])[], toRight: readonly boolean[]): string[] {
  const rows = cells.map((row) => row.map(plain));
  const widths = top.map((it, i) => Math.max(widthOf(it), ...rows.map((row) => widthOf(row[i] ?? ""))));
  const draw = (row: readonly string[]) =>
    row
      .map((it, i) => {
        const space = " ".repeat(Math.max(0, (widths[i] ?? 0) - widthOf(it)));
        return toRight[i] ? space + it : it + space;
      })
      .join("  ")
      .trimEnd();
  return [draw(top), widths.map((it) => "-".repeat(it)).join("  "), ...rows.map(draw)];
}

function section(out: string[], title: string, rows: readonly string[], wide: number): void {
  if (rows.length === 0) return;
  out.push(title, ...rows.flatMap((it) => folded(it, wide, "  - ")), "");
}

/** Broken between words; what hangs over is set in under the first word. */
function folded(text: string, wide: number, mark = ""): string[] {
  const out: string[] = [];
  let line = mark;
  let fresh = true;
  for (const word of plain(text)
    .split(" ")
    .filter((it) => it !== "")) {
    if (!fresh && widthOf(line) + 1 + widthOf(word) > wide) {
      out.push(line);
      line = " ".repeat(mark.length) + word;
    } else line = fresh ? line + word : `${line} ${word}`;
    fresh = false;
  }
  out.push(line);
  return out;
}

/** Made when a text asks for it: it costs more than the rest of a start's tables together. */
const graphemes = once(() => new Intl.Segmenter("en", { granularity: "grapheme" }));

/** Columns on a terminal: what a person takes for one letter is one, and two for the wide letters of the East and for pictures. */
function widthOf(text: string): number {
  if (/^[\u0020-\u024f\u2013-\u201d]*$/.test(text)) return text.length;
  let width = 0;
  for (const { segment } of graphemes().segment(text))
    width += /^[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]|\p{Extended_Pictographic}/u.test(segment) ? 2 : 1;
  return width;
}
