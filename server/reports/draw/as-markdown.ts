// A report as Markdown: headings, lists and tables that any reader of it shows alike, each row a link to its line.
// Invariant: every text from a sheet is written so that it is read as itself.
import { machineWords } from "./heading.ts";
import type { Line } from "./line.ts";
import { placeOf } from "./markdown-place.ts";
import { proseInMarkdown as text } from "./prose.ts";
import { type Cell, type Document, type Part, type Parts, type Row, type Table, type TableRow, drawn } from "./sections.ts";

export function asMarkdown({ name, heading, headline, about = [], parts, foot }: Document): string {
  const machine = machineWords(heading);
  const out = [`# ${text(name === "" ? heading.title : `${name}: ${heading.title}`)}`, ""];
  if (machine !== "") out.push(text(machine), "");
  if (headline !== undefined) out.push(`**${text(headline)}**`, "");
  if (about.length > 0) out.push(text(about.join(" ")), "");
  return [...out, ...inside(parts, 2), ...foot.flatMap((it) => [text(it), ""])].join("\n");
}

/** `depth`: of a heading, from 1 to 6. Each part ends with a blank line. */
function inside(parts: Parts, depth: number): string[] {
  return drawn(parts).flatMap((it) => linesOf(it, depth));
}

function linesOf(part: Part, depth: number): string[] {
  switch (part.kind) {
    case "section":
      if (part.look === "advice") return [placed(text(part.title), part.at), "", ...inside(part.parts, depth)];
      return [...headOf(part.title, depth, part.at), ...inside(part.parts, part.title === "" ? depth : depth + 1)];
    case "words": {
      const words = text(part.text);
      if (words === "" && part.at === undefined) return [];
      return [part.style === "strong" ? `**${words}**` : placed(words, part.at), ""];
    }
    case "list":
      return [...listLines(part.rows, part.look === "tick" ? "[ ] " : ""), ""];
    case "table":
      return part.groups.flatMap(({ title = "", note = "", rows }) => [...headOf(note === "" ? title : `${title}: ${note}`, depth), ...rowsOf(part, rows), ""]);
    case "picture":
      return part.instead === undefined ? [] : linesOf(part.instead, depth);
    case "cautions":
      return [...headOf("Cautions", depth), ...part.list.map((it) => `- ${text(it.words)} (${text(it.source)})`), ""];
  }
}

function headOf(title: string, depth: number, at?: Line): string[] {
  return title === "" ? [] : [`${"#".repeat(Math.min(depth, 6))} ${placed(text(title), at)}`, ""];
}

function listLines(rows: readonly Row[], box = ""): string[] {
  return rows.flatMap((it) => {
    const said = it.strong === true ? `**${text(it.text)}**` : text(it.text);
    const words = it.code === undefined ? said : `${said} (${text(it.code)})`;
    return [`- ${box}${placed(words, it.at, it.also)}`, ...listLines(it.below ?? []).map((line) => `  ${line}`)];
  });
}

function rowsOf({ columns, inMarkdown, sums, linesBelow }: Table, rows: readonly TableRow[]): string[] {
  const box = columns.some((it) => it.look === "box") ? "[ ] " : "";
  if (inMarkdown === "sentences") return listLines(rows.map(asRow), box);
  const judged = rows.some((it) => it.verdict !== undefined);
  const hung = rows.some((it) => it.below !== undefined && it.below.length > 0);
  const head = [...columns.map((it) => text(it.title)), ...(judged ? ["Verdict"] : []), ...(hung ? ["To know"] : []), ...(linesBelow ? [] : ["Line"])];
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [
    line(head),
    `|${head.map((_, i) => (toRight(columns[i]?.look) ? "--:" : "---")).join("|")}|`,
    ...rows.map((it) =>
      line([
        ...it.cells.map((cell) => text(cellText(cell))),
        ...(judged ? [it.verdict === undefined ? "" : text(`${it.verdict.sign} ${it.verdict.words}`)] : []),
        ...(hung ? [(it.below ?? []).map((row) => (linesBelow ? placed(text(row.text), row.at, row.also) : text(row.text))).join("; ")] : []),
        ...(linesBelow ? [] : [it.at === undefined ? "" : placeOf(it.at)]),
      ]),
    ),
    ...(sums?.rows ?? []).map(({ title, figure, notes = [], strong }) => {
      const cells = head.map((_, i) => (i === 0 ? text([title, ...notes].join("; ")) : i === sums?.column ? text(figure) : ""));
      return line(cells.map((cell) => (strong === true && cell !== "" ? `**${cell}**` : cell)));
    }),
  ];
}

function asRow({ sentence, at, below = [] }: TableRow): Row {
  return { text: sentence, ...(at === undefined ? {} : { at }), below };
}

function toRight(look: Table["columns"][number]["look"]): boolean {
  return look === "figure" || look === "amount";
}

function cellText(cell: Cell): string {
  return typeof cell === "string" ? cell : [cell.text ?? "", ...(cell.lines ?? []), cell.code ?? "", cell.note ?? ""].filter((it) => it !== "").join("; ");
}

function placed(words: string, at: Line | undefined, also: readonly Line[] = []): string {
  return at === undefined ? words : [words, placeOf(at), ...also.map(placeOf)].join(" ").trimStart();
}
