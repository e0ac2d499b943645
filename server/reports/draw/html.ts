// HTML from texts: what is written in a sheet arrives as text, whatever it holds.
// Invariant: every value is escaped unless it was made here.
import { plain } from "./plain.ts";

/** Markup that is known to be ours. */
export class Markup {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

export type Content = string | number | Markup | undefined | null | false | readonly Content[];

/** html`<td>${text}</td>`: what is put in is escaped, but for markup made by the same means. */
export function html(parts: TemplateStringsArray, ...values: readonly Content[]): Markup {
  let out = parts[0] as string;
  for (const [i, value] of values.entries()) out += textOf(value) + (parts[i + 1] as string);
  return new Markup(out);
}

/** For text and for attributes in double quotes alike. */
function escaped(text: string): string {
  // Most texts are letters and figures and nothing else.
  if (/^[\p{L}\p{N} .,:;()/_\-\u00b1\u2013]*$/u.test(text)) return text;
  return plain(text).replace(/[&<>"']/g, (it) => `&#${it.charCodeAt(0)};`);
}

function textOf(value: Content): string {
  if (value === undefined || value === null || value === false) return "";
  if (value instanceof Markup) return value.text;
  if (typeof value === "object") {
    let out = "";
    for (const it of value) out += textOf(it);
    return out;
  }
  return escaped(String(value));
}

/** A link to a file beside the page: no scheme, no host, nothing that a browser would run. */
export function hrefOf(file: string, line: number): string {
  // Two slashes in front would name a host.
  const path = file
    .replace(/^\/+/, "/")
    .split("/")
    .map((part) => encodeURIComponent(wellFormed(part)))
    .join("/");
  return `${path.startsWith("/") || path.startsWith("../") ? path : `./${path}`}#L${line}`;
}

/** encodeURIComponent throws on half a surrogate pair. */
function wellFormed(text: string): string {
  return text.replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, "\ufffd");
}
