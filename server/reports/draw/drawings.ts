// The drawings of a report whose sections are data: as text, as Markdown, as a page.
import type { Around, Drawing } from "../report.ts";
import { asMarkdown } from "./as-markdown.ts";
import { drawingPage } from "./as-page.ts";
import { asText } from "./as-text.ts";
import type { Document } from "./sections.ts";

export function drawings<V, W>(sections: (value: V, around: Around, wishes: W) => Document): Readonly<Record<"text" | "md" | "html", Drawing<V, W>>> {
  const by =
    (draw: (document: Document) => string): Drawing<V, W> =>
    (value, around, wishes) =>
      draw(sections(value, around, wishes));
  const page: Drawing<V, W> = function* (value, around, wishes) {
    const document = sections(value, around, wishes);
    yield;
    return yield* drawingPage(document);
  };
  return { text: by(asText), md: by(asMarkdown), html: page };
}
