// A link to a line in Markdown: nothing in a file's name ends it or becomes more than a name.
import { hrefOf } from "./html.ts";
import { text } from "./markdown-text.ts";
import type { Line } from "./line.ts";

/** `([front-axle.jobsheet:12](./front-axle.jobsheet#L12))` */
export function placeOf(it: Line): string {
  return `([${text(`${it.file}:${it.line}`)}](${hrefOf(it.file, it.line).replace(/[()]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}))`;
}
