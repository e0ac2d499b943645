// What must still be done to a fluid at each of its places: let out where it is foul, filled, bled.
import { quantityText } from "../../model/values.ts";
import type { FluidCell, Story } from "../../story/story.ts";
import type { Act } from "./acts.ts";
import { Lines, noted } from "./lines.ts";

export function fluidActs(story: Story, cells: readonly FluidCell[]): Act[] {
  const thing = (cells[0] as FluidCell).thing;
  const lines = new Lines(story, thing);
  for (const cell of cells) {
    if (cell.unsure) continue;
    const dirty = cell.then.full && isDirty(story, cell);
    if (dirty) lines.put({ verb: "drain" }, cell.place);
    if (!cell.then.full || dirty) {
      const capacity = thing.capacity === undefined ? undefined : quantityText(thing.capacity);
      lines.put(
        {
          verb: "fill",
          ...(capacity === undefined ? {} : { rest: capacity }),
          ...noted(
            [thing.grade, capacity === undefined ? "write how much went in" : "write how much went in, if it was less"].filter((it) => it !== undefined),
          ),
        },
        cell.place,
      );
    } else if (isLow(story, cell)) lines.put({ verb: "fill", note: "top it up, and write how much went in" }, cell.place);
    if (thing.needsBleed && (cell.then.airIn || dirty)) lines.put({ verb: "bleed" }, cell.place);
  }
  return lines.acts();
}

/** Found low and not topped up since. */
function isLow(story: Story, cell: FluidCell): boolean {
  const found = story.findings.findLast(
    (it) => it.thing.name === cell.thing.name && it.places.includes(cell.place) && it.conditions.some(({ condition }) => condition.kind === "low"),
  );
  return found !== undefined && !cell.history.some((it) => it.seq > found.seq && it.verb === "fill");
}

const foul = new Set(["metallic", "fragments", "milky", "wrong", "contaminated"]);

/** Found foul and not changed since. */
function isDirty(story: Story, cell: FluidCell): boolean {
  const found = story.findings.findLast(
    (it) => it.thing.name === cell.thing.name && it.places.includes(cell.place) && it.conditions.some(({ condition }) => foul.has(condition.kind)),
  );
  return (
    found !== undefined &&
    !cell.history.some((it) => it.seq > found.seq && it.verb === "fill") &&
    cell.history.every((it) => it.verb !== "drain" && it.verb !== "lost")
  );
}
