// Whether what was spoilt by heat went on, or stayed on, as it was.
import type { ActionDetail } from "../../../../grammar/tree.ts";
import type { Part } from "../../../model/things.ts";
import { backFromWork, mayMend } from "../../../story/put-right.ts";
import type { Story, Visit } from "../../../story/story.ts";
import { addsNothing, mendsNothing, onlyCuts } from "../../../story/worked-in.ts";

/** Fitted after the heat, the same one, or on as it was heated and left so: not a new one where the old was warmed to come off, nor what was put right between. */
export function wentOnSo(story: Story, thing: Part, heat: ActionDetail, { number, entry, day }: Visit): boolean {
  return story.cells(thing.name).some((cell) => {
    if (cell.kind !== "part" || (heat.places.length > 0 && !heat.places.some(({ text }) => text === cell.place))) return false;
    if (day !== undefined && backFromWork(story, cell, day, mayMend)) return false;
    let cameOff = false;
    let isOn = cell.history[0]?.before.on !== 0;
    for (const it of cell.history) {
      if (it.phase !== "done") continue;
      const isBehind = it.where.entry === entry ? it.where.row > heat.row : it.visit !== undefined && it.visit.number > number;
      if (!isBehind) {
        isOn = it.after.on > 0;
        continue;
      }
      if (it.verb === "fit") return !(it.isNew && cameOff);
      if (it.verb === "repair" && !isBesideIt(it.action?.text?.value ?? "")) return false;
      cameOff ||= it.verb === "remove";
    }
    return isOn && !cameOff;
  });
}

/** Reamed, dressed or washed it is as soft as before. */
const isBesideIt = (work: string): boolean => onlyCuts(work) || mendsNothing(work) || addsNothing(work) || toItsMate.test(work);
/** “Reamed in line to the new pin”: what is new is the other. */
const toItsMate = /^\W*(reamed|honed|bored|lapped|scraped|bedded|fitted)\b[^,;.]*\bto (the|its) (new )?\w+\W*$/iu;
