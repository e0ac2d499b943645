// A text from a sheet as Markdown: it is read as itself, whatever it holds.
import { plain } from "./plain.ts";

/** Every sign that Markdown reads as more than itself is written so that it is read as itself. */
export function text(from: string): string {
  // Blanks at the front would make code of a line, or another depth of a list.
  return plain(from)
    .replace(/ {2,}/g, " ")
    .trimStart()
    .replace(/[\\`*_{}[\]<>#|~&!]/g, (it) => `\\${it}`)
    .replace(/^(\s*)([-+=]|\d+[.)](?=\s|$))/, (_, space: string, mark: string) => `${space}${mark.slice(0, -1)}\\${mark.slice(-1)}`)
    .replace(/:(?=\/\/)/g, "\\:")
    .replace(/@/g, "\\@")
    .replace(/\b(www)\./gi, "$1\\.");
}
