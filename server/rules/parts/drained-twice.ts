// Drained where it was drained already, and filled where nobody drained it: the second was to be the other place.
import { midSentence } from "../../model/titles.ts";
import type { FluidCell, FluidMoment } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "drained-twice",
  group: "Parts",
  severity: "error",
  safety: false,
  title: "One place drained twice, and its fellow filled without being drained",
  why: "The oil of the other one is in there still, with what is worn off in it, and the new is on top of it: too much, and dirty. Which place was drained is written wrong, or one was forgotten.",
  wrong: `places hub left, right
fluid hub-oil "Hub oil"
  each hub 1
  capacity 1 l
step oil "Oil changed"
  drain hub-oil left
  drain hub-oil left
#       ^^^^^^^ error drained-twice
  fill hub-oil left 1 l
  fill hub-oil right 1 l
  done
`,
  right: `places hub left, right
fluid hub-oil "Hub oil"
  each hub 1
  capacity 1 l
step oil "Oil changed"
  drain hub-oil left
  drain hub-oil right
  fill hub-oil left 1 l
  fill hub-oil right 1 l
  done
`,
  scope: "job",
  check({ story, report, line }) {
    for (const cell of story.fluids) {
      const again = drainedAgain(cell);
      if (again === undefined || cell.unsure) continue;
      const [first, second] = again;
      const over = story.fluids.find((it) => it.thing === cell.thing && it !== cell && isFilledOver(it));
      if (over === undefined) continue;
      report({
        where: second.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} drained on line ${line(first.where)} already, and ${midSentence(over.thing, over.place)} ${agreeing(over.thing, "is")} filled and never was. Is ${over.place} meant here?`,
        related: [{ where: first.where, message: "Drained here." }],
      });
    }
  },
};

/** Two lines that drain it with nothing filled in between. */
function drainedAgain({ history }: FluidCell): readonly [FluidMoment, FluidMoment] | undefined {
  let drained: FluidMoment | undefined;
  for (const it of history) {
    if (it.verb === "fill") drained = undefined;
    if (it.verb !== "drain" || it.phase !== "done") continue;
    if (drained !== undefined && drained.action !== it.action) return [drained, it];
    drained = it;
  }
  return undefined;
}

/** Filled though it had not been let out by anything. */
function isFilledOver({ history }: FluidCell): boolean {
  const out = history.findIndex((it) => it.verb === "drain" || it.verb === "lost");
  const fill = history.findIndex((it) => it.verb === "fill" && it.phase === "done");
  return fill !== -1 && (out === -1 || out > fill);
}
