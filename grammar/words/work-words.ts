// The work: steps, findings, questions.
// Invariant: a row is all of a word; its line's type and reading follow from it.
import type { Condition, DateText, Name, Span, Text } from "../tree.ts";
import type { DetailWord } from "./detail-words.ts";
import { line, names, quantity, text } from "./shape.ts";

const step = ["step"] as const;

export const workWords = [
  {
    word: "at",
    kind: "at",
    shape: names("places"),
    under: step,
    syntax: "at PLACE…",
    says: "Where the step is done; everywhere, where unsaid. A line of work that names a place is there.",
    example: "at left",
  },
  {
    word: "after",
    kind: "after",
    shape: names("steps"),
    under: step,
    syntax: "after STEP…",
    says: "What comes first, beside what the facts already demand.",
    example: "after strip-cap",
  },
  { word: "tool", kind: "tool", shape: text("text"), under: step, syntax: 'tool "…"', says: "What it takes.", example: 'tool "three-leg puller"' },
  { word: "takes", kind: "takes", shape: quantity("time"), under: step, syntax: "takes Q", says: "How long.", example: "takes 40 min" },
  {
    word: "done",
    kind: "done",
    shape: line<{
      readonly date?: DateText;
      readonly places: readonly Name[];
      readonly by?: Text;
    }>((it) => it.doneLine(), { places: true }),
    under: step,
    syntax: 'done [DATE] [PLACE…] [by "…"]',
    says: "It was done. Without this line the step is a plan.",
    example: "done 2026-03-02",
  },

  {
    word: "is",
    kind: "is",
    shape: line<{
      readonly conditions: readonly Condition[];
    }>((it) => it.isLine(), { conditions: true }),
    under: ["finding"],
    syntax: "is CONDITION, CONDITION…",
    says: "What is the matter with it.",
    example: "is worn, scored",
  },
  {
    word: "because",
    kind: "because",
    shape: text("text"),
    under: ["finding", "measure"],
    syntax: 'because "…"',
    says: "Why it is so, or why it is decided so.",
    example: 'because "Ran dry"',
  },
  {
    word: "decision",
    kind: "decision",
    shape: line<{
      /** `replace` is read and means two things; the rule `word-ambiguous` speaks. */
      readonly decision?: "reuse" | "renew" | "repair" | "make" | "discard" | "exchange" | "ask" | "replace";
      readonly word?: Span;
      readonly how?: Text;
      readonly question?: Name;
    }>((it) => it.decisionLine()),
    under: ["finding"],
    syntax: 'decision reuse|renew|repair "how"|make "how"|discard|exchange|ask QUESTION',
    says: "What is done about it.",
    example: "decision renew",
  },
  {
    word: "see",
    kind: "see",
    shape: text("path"),
    under: ["finding"],
    syntax: 'see "other.jobsheet"',
    says: "A job of its own, opened by this.",
    example: 'see "magneto.jobsheet"',
  },

  {
    word: "about",
    kind: "about",
    shape: names("names"),
    under: ["question"],
    syntax: "about NAME…",
    says: "What waits for the answer.",
    example: "about liner, piston",
  },
  {
    word: "answer",
    kind: "answer",
    shape: text("text"),
    under: ["question"],
    syntax: 'answer "…"',
    says: "What came of it.",
    example: 'answer "Standard bore"',
  },
] as const satisfies readonly DetailWord[];
