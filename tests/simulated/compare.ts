// Holds the gate to the machine: whether it is held back, and whether it is spoken of where it happened.
import { type Answer, ask, type Word } from "./gate.ts";
import type { Told } from "./kinds.ts";
import { type Page, write } from "./sheet.ts";

export interface Disagreement {
  /** missed, unspoken, held back, false word, two answers. */
  what: string;
  words: readonly Word[];
  page: Page;
}

export function disagrees(told: Told): Disagreement | undefined {
  const page = write(told.story);
  const answer = ask(page.text);
  const what = verdict(told, page, answer);
  return what === undefined ? undefined : { what, words: answer.words, page };
}

function verdict(told: Told, page: Page, answer: Answer): string | undefined {
  const { kind } = told;
  if (answer.blocked === answer.reportReleased) return "two answers";
  const loud = answer.words.filter((it) => it.severity === "error" || it.severity === "warning");
  const about = loud.filter((it) => concerns(told, page, it));
  if (kind.gate === "released") {
    if (answer.blocked) return "held back";
    const wrong = kind.mayWarn ? loud.filter((it) => !about.includes(it) || it.severity === "error") : loud;
    return wrong.length > 0 ? "false word" : undefined;
  }
  if (kind.gate === "held" && !answer.blocked) return about.length > 0 ? "released, though spoken of" : "missed";
  if (about.length === 0) return kind.gate === "held" ? "held back, but not spoken of" : "missed";
  if (told.made.about.length === 0) return undefined;
  const beside = loud.filter((it) => it.rule !== "release-blocked" && !about.includes(it) && ofAnother(told, page, it));
  return beside.length > 0 ? "false word" : undefined;
}

/** Whether a word stands where it happened, or names what it happened to. */
function concerns(told: Told, page: Page, word: Word): boolean {
  const { made, story } = told;
  if (word.line === page.release && word.rule !== "release-blocked" && made.about.length === 0) return true;
  if (made.at.some((id) => page.lines.get(id)?.includes(word.line))) return true;
  const text = word.message.toLowerCase();
  return made.about.some((name) => {
    const title = story.things
      .find((it) => it.name === name)
      ?.title.split(",")[0]
      ?.toLowerCase();
    return page.declared.get(name)?.includes(word.line) || text.includes(name.toLowerCase()) || (title !== undefined && text.includes(title));
  });
}

/** Whether a word stands at an assembly to which nothing happened. */
function ofAnother(told: Told, page: Page, word: Word): boolean {
  const entry = told.story.entries.find((it) => page.lines.get(it.id)?.includes(word.line));
  return entry !== undefined && entry.of !== "" && entry.of !== told.on;
}

export function shown(told: Told, found: Disagreement): string {
  const lines = found.page.text
    .trimEnd()
    .split("\n")
    .map((line, i) => `${String(i + 1).padStart(4)}  ${line}`);
  const said = found.words.filter((it) => it.severity !== "hint").map((it) => `${String(it.line).padStart(4)}  ${it.severity} ${it.rule}: ${it.message}`);
  return [
    `${told.kind.name}: ${told.kind.does}.`,
    `It should be ${told.kind.gate}; the gate: ${found.what}. Again: SPLITPIN_KIND=${told.kind.name} SPLITPIN_SEED=${told.seed} npx vitest run tests/simulated`,
    ...lines,
    "said:",
    ...(said.length === 0 ? ["      nothing"] : said),
    "",
  ].join("\n");
}
