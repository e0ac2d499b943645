// Shims as they are drawn: what to put in and take out, and on a page a picture of the stack as it goes together.
import { recordOnly } from "../draw/heading.ts";
import { html } from "../draw/html.ts";
import type { Document, Section } from "../draw/sections.ts";
import { stackPicture } from "./picture.ts";
import type { ShimAnswerShown, ShimReport, StackShown } from "./shims.ts";
import { shimFacts, shimTitle, stackLine, workedOutOnly } from "./words.ts";

export function shimsSections(report: ShimReport): Document {
  // What is to be done is the head of the page where there is one stack.
  const headline = report.jobs.length === 0 ? "No shims are declared." : report.jobs.length === 1 ? report.jobs[0]?.say : undefined;
  return {
    name: "Shims",
    heading: report,
    ...(headline === undefined ? {} : { headline }),
    parts: report.jobs.map((it) => sectionOf(it, report.jobs.length > 1)),
    foot: [workedOutOnly, recordOnly],
  };
}

function sectionOf(it: ShimAnswerShown, several: boolean): Section {
  return {
    kind: "section",
    title: shimTitle(it),
    look: "card",
    parts: [
      { kind: "words", style: "facts", text: shimFacts(it), at: it.reading ?? it },
      several && { kind: "words", style: "strong", text: it.say, at: it },
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
