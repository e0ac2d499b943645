// The files that a sheet names: sheets that it uses or sees, photos, price lists.
// Invariant: a path leads nowhere that lies outside of the workspace.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Text } from "../../grammar/tree.ts";
import { joinPath } from "../model/files.ts";

export interface FileLink {
  /** From 0; the columns are those within the quotes. */
  readonly line: number;
  readonly from: number;
  readonly to: number;
  /** In the workspace. */
  readonly path: string;
  readonly what: "sheet" | "photo" | "price list";
}

export function* linking(sheet: SheetText, path: string): Slices<FileLink[]> {
  const out: FileLink[] = [];
  const add = (line: number, text: Text | undefined, what: FileLink["what"]) => {
    const inside = text === undefined || text.value.includes("___") ? undefined : joinPath(path, text.value);
    if (text === undefined || inside === undefined || text.at.to - text.at.from < 3) return;
    out.push({ line, from: text.at.from + 1, to: text.at.to - 1, path: inside, what });
  };
  for (const [i, entry] of sheet.entries.entries()) {
    if (i % someAtOnce === 0) yield;
    const start = sheet.starts[i] ?? 0;
    if (entry.kind === "use") add(start, entry.path, "sheet");
    for (const it of entry.details) {
      if (it.kind === "photo") add(start + it.row, it.path, "photo");
      if (it.kind === "see") add(start + it.row, it.path, "sheet");
      if (it.kind === "prices") add(start + it.row, it.path, "price list");
    }
  }
  return out;
}
