// A report as text for the terminal: words and figures, no colour.
// Invariant: every line is plain, whatever a sheet holds.
import { machineWords } from "./heading.ts";
import type { Line } from "./line.ts";
import { plain } from "./plain.ts";
import { type Document, type List, type Part, type Parts, type Table, drawn } from "./sections.ts";

export function asText({ name, heading, headline, about = [], parts, foot }: Document): string {
  const head = plain(name === "" ? heading.title : `${name}: ${heading.title}`);
  const machine = machineWords(heading);
  const out = [head, "=".repeat(Math.min(head.length, 100)), ...(machine === "" ? [] : [plain(machine)]), ""];
  if (headline !== undefined) out.push(plain([headline, ...about].join(" ")), "");
  for (const part of drawn(parts)) {
    const lines = linesOf(part, heading.file);
    // One by one: as arguments of one call tens of thousands are too many.
    for (const line of lines) out.push(line);
    if (lines.length > 0) out.push("");
  }
  out.push(...foot.map(plain), "");
  return out.join("\n");
}

function linesOf(part: Part, own: string | undefined): string[] {
  switch (part.kind) {
    case "section":
      return part.title === ""
        ? inside(part.parts, part.own ?? own)
        : [`${plain(part.title)}${placed(part.at, part.own ?? own)}`, ...indented(inside(part.parts, part.own ?? own))];
    case "words":
      return part.text === "" ? [] : [`${plain(part.text)}${placed(part.at, own)}`];
    case "list":
      return listLines(part, own);
    case "table":
      return tableLines(part, own);
    case "picture":
      return part.instead === undefined ? [] : linesOf(part.instead, own);
    case "cautions":
      return ["Cautions", ...part.list.map((it) => `  - ${plain(`${it.words} (${it.source})`)}`)];
  }
}

function inside(parts: Parts, own: string | undefined): string[] {
  return drawn(parts).flatMap((it) => linesOf(it, own));
}

function listLines({ rows, placeFirst }: Pick<List, "rows" | "placeFirst">, own: string | undefined): string[] {
  return rows.flatMap((it) => {
    const words = `${plain(it.text)}${it.code === undefined ? "" : ` (${plain(it.code)})`}`;
    const line = placeFirst === true && it.at !== undefined ? `${plain(`${it.at.file}:${it.at.line}`)}  ${words}` : `- ${words}${placed(it.at, own, it.also)}`;
    return [line, ...indented(listLines({ rows: it.below ?? [] }, own))];
  });
}

function tableLines({ groups, sums, placeFirst }: Table, own: string | undefined): string[] {
  const out = groups.flatMap(({ title, note, rows }, i) => {
    const lines = rows.flatMap((it) => [
      placeFirst === true && it.at !== undefined
        ? `${plain(`${it.at.file}:${it.at.line}`)}  ${plain(it.sentence)}`
        : `${plain(it.sentence)}${placed(it.at, own)}`,
      ...indented(listLines({ rows: it.below ?? [] }, own)),
    ]);
    if (title === undefined) return lines;
    return [...(i > 0 && placeFirst === true ? [""] : []), plain(note === undefined || note === "" ? title : `${title}: ${note}`), ...indented(lines)];
  });
  for (const { title, figure, notes = [] } of sums?.rows ?? []) out.push(plain([`${title}: ${figure}`, ...notes].join("; ")));
  return out;
}

/** The line of the sheet that the report is of; with the file where it is another. */
function placed(it: Line | undefined, own: string | undefined, also: readonly Line[] = []): string {
  if (it === undefined) return "";
  return `  (${[it, ...also].map((one) => `${one.file === own ? "line " : `${plain(one.file)}:`}${one.line}`).join(", ")})`;
}

function indented(lines: readonly string[]): string[] {
  return lines.map((it) => (it === "" ? "" : `  ${it}`));
}
