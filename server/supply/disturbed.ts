// Parts that never go back once disturbed, and what disturbed them: taken off, loosened with what holds them, or bared by the part that they are renewed with.
// Invariant: planned work disturbs as done work does, for what it takes must be there before it starts.
import { relationsOf } from "../model/relations.ts";
import type { Part } from "../model/things.ts";
import { midSentence } from "../model/titles.ts";
import { placed } from "./need.ts";
import type { Ask, Slot, Slots } from "./slots.ts";
import type { FastenerCell, FastenerMoment, Moment, Story } from "../story/story.ts";

export function disturbances(story: Story, slots: Slots): { slot: Slot; ask: Ask }[] {
  const relations = relationsOf(story.job);
  const out: { slot: Slot; ask: Ask }[] = [];
  const say = (slot: Slot, moment: Moment, count: number, text: string, again: boolean) => {
    const said = moment.phase === "planned" ? `${text} (planned)` : text;
    const reasons = [{ where: moment.where, place: slot.place, text: placed(slot.place, again ? `${said}, told again` : said) }];
    out.push({ slot, ask: { seq: moment.seq, count, adds: false, reasons, ...(again ? { echo: true } : {}) } });
  };
  for (const cell of story.parts) {
    const companions = relations.renewedWith.get(cell.thing.name) ?? [];
    if (!cell.thing.renew && companions.length === 0) continue;
    for (const moment of cell.history) {
      if (moment.verb !== "remove") continue;
      const again = moment.before.on <= moment.after.on;
      // Pieces taken off one after another are told together, less those that came new between.
      if (cell.thing.renew)
        say(
          slots.at(cell.thing, cell.place),
          moment,
          Math.min(cell.total, Math.max(moment.count, cell.total - moment.after.on)),
          "taken off, and never goes back",
          again,
        );
      for (const part of companions)
        for (const slot of meant(story, part, cell.thing, slots.beside(part, cell.place)))
          say(slot, moment, slot.total, `comes off with the ${midSentence(cell.thing)}`, again);
    }
  }
  for (const cell of story.fasteners) {
    if (cell.thing.renew)
      for (const moment of cell.history) {
        const off = moment.verb === "undo";
        if (!off && moment.verb !== "slacken") continue;
        const count = off ? Math.min(cell.total, Math.max(moment.count, cell.total - moment.after.on)) : Math.min(cell.total, moment.count);
        say(
          slots.at(cell.thing, cell.place),
          moment,
          count,
          `${off ? "undone" : "slackened"}, and is used once`,
          off ? moment.before.on <= moment.after.on : !moment.before.tight,
        );
      }
    const held = (relations.holds.get(cell.thing.name) ?? []).filter((part) => part.renew);
    if (held.length === 0) continue;
    for (const moment of cell.history) {
      if (moment.verb !== "undo" && moment.verb !== "slacken") continue;
      for (const part of held)
        for (const slot of slots.beside(part, cell.place))
          if (allLoose(story, part, slot.place, moment.seq))
            say(slot, moment, slot.total, `loosened with the ${midSentence(cell.thing)}`, !moment.before.tight);
    }
  }
  return out;
}

/**
 * Of a seal at each end and a flange that has no place, those at which the sheet takes a seal off or fits one; all of them where it says nothing, or where all of
 * them lie behind what came off and are bared with it.
 */
function meant(story: Story, part: Part, off: Part, beside: readonly Slot[]): readonly Slot[] {
  if (beside.length < 2 || part.behind.some((name) => name.text === off.name)) return beside;
  const handled = new Set(
    story
      .cells(part.name)
      .filter((cell) => cell.kind === "part" && cell.history.some((it) => it.verb === "remove" || it.verb === "fit"))
      .map((cell) => cell.place),
  );
  const own = beside.filter((it) => handled.has(it.place));
  return own.length === 0 ? beside : own;
}

/** Is everything that holds the part slack at this time? One bolt of several, eased and nipped up again, does not free it. */
function allLoose(story: Story, part: Part, place: string, seq: number): boolean {
  return part.heldBy.every((name) => {
    const cells = story.cells(name.text).filter((cell): cell is FastenerCell => cell.kind === "fastener");
    const here = cells.filter((cell) => cell.place === place);
    const list = here.length > 0 ? here : cells;
    return list.length > 0 && list.every((cell) => !stateAt(cell, seq).tight);
  });
}

function stateAt(cell: FastenerCell, seq: number): FastenerMoment["after"] {
  let state = cell.history[0]?.before ?? cell.then;
  for (const moment of cell.history) if (moment.seq <= seq) state = moment.after;
  return state;
}
