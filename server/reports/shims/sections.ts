// Shims as they are drawn: what to put in and take out, and on a page a picture of the stack as it goes together.
import { recordOnly } from "../draw/heading.ts";
import { html } from "../draw/html.ts";
import type { Document, Section } from "../draw/sections.ts";
import { stackPicture } from "./picture.ts";
import type { ShimAnswerShown, ShimReport, StackShown } from "./shims.ts";
import { shimFacts, shimTitle, stackLine, workedOutOnly } from "./words.ts";

export function shimsSections(report: ShimReport): Document {
  return {
    name: "Shims",
    heading: report,
    parts: report.jobs.length === 0 ? [{ kind: "words", style: "plain", text: "No shims are declared." }] : report.jobs.map(sectionOf),
    foot: [workedOutOnly, recordOnly],
  };
}

function sectionOf(it: ShimAnswerShown): Section {
  return {
    kind: "section",
    title: shimTitle(it),
    look: "card",
    parts: [
      { kind: "words", style: "facts", text: shimFacts(it), at: it.reading ?? it },
      { kind: "words", style: "strong", text: it.say, at: it },
      ...it.stacks.map(stackOf),
      { kind: "list", look: "small", rows: it.notes.map((text) => ({ text })) },
    ],
  };
}

function stackOf(stack: StackShown): Section {
  return {
    kind: "section",
    title: stack.title,
    parts: [
      { kind: "words", style: "facts", text: `now ${stackLine(stack.now)} = ${stack.nowTotal}; then ${stackLine(stack.then)} = ${stack.thenTotal}` },
      { kind: "picture", page: () => pictureOf(stack) },
    ],
  };
}

function pictureOf(stack: StackShown) {
  const picture = stackPicture(stack);
  return (
    picture !== undefined &&
    html`<div class="picture">${picture}</div>
<p class="small">Built up from the seat. A thin shim is drawn thicker than it is, so that its figure can be read.</p>
`
  );
}
