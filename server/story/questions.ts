// The open questions about a thing at a place: those that name it, and those that a finding of it asks.
// Invariant: a question with an answer is none.
import { putInto } from "../model/grouped.ts";
import { memo } from "../model/memo.ts";
import { linesOf } from "../model/things.ts";
import { decidedAt, isOpenQuestion } from "./decisions.ts";
import type { FastenerCell, FluidCell, PartCell, Story } from "./story.ts";

/** Open questions that name a thing, or that a finding of it at this place asks. */
export function questionsAbout(story: Story, cell: PartCell | FastenerCell | FluidCell): string[] {
  const { name } = cell.thing;
  const out = new Set(aboutOf(story).get(name) ?? []);
  const total = cell.kind === "fluid" ? 1 : cell.total;
  for (const it of decidedAt(story, name, cell.place, total)) if (it.says === "waiting" && it.question !== undefined) out.add(it.question);
  return [...out];
}

/** name of a thing -> the open questions that are about it */
const aboutOf = memo((story: Story): ReadonlyMap<string, readonly string[]> => {
  const map = new Map<string, string[]>();
  for (const question of story.job.things.values()) {
    if (question.kind !== "question" || question.implied || !isOpenQuestion(story, question.name)) continue;
    for (const { detail } of linesOf(question, "about")) for (const name of detail.names) putInto(map, name.text, question.name);
  }
  return map;
});
