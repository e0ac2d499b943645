// The machines that a number of sheets are of, each with its sheets and the figures of its counter.
// Invariant: which sheets are of one machine is said by `sameMachine` and by nothing else. A counter is never turned back: its greatest figure is its last.
import { openedOn } from "./opened-on.ts";
import type { Quantity } from "../../grammar/tree.ts";
import { type Machine, machineOf, sameMachine } from "../model/others.ts";
import { measured, quantityText } from "../model/values.ts";
import { compare } from "../quantities/exact.ts";
import type { Measured } from "../quantities/quantity.ts";
import type { Dimension } from "../quantities/units.ts";
import type { Story } from "./story.ts";

export interface MachineStories extends Machine {
  /** As its sheets call it; a sheet that names no machine is one by itself, called by its title. */
  readonly title: string;
  /** In the order in which they were opened, as far as they say; then as they were given. */
  readonly stories: readonly Story[];
  readonly counters: readonly CounterFigure[];
}

/** What the counter showed. */
export interface CounterFigure {
  readonly value: Measured;
  /** As written: `41260 mi`. */
  readonly text: string;
  /** Undefined where the sheet says no day for it. */
  readonly day: string | undefined;
  readonly story: Story;
}

export function machinesOf(stories: readonly Story[]): MachineStories[] {
  const groups: { name: string | undefined; serial: string | undefined; stories: Story[] }[] = [];
  for (const story of stories) {
    const machine = machineOf(story.job.sheet);
    const known = groups.find((it) => sameMachine(it, machine));
    if (known === undefined) groups.push({ ...machine, stories: [story] });
    else {
      known.stories.push(story);
      known.serial ??= machine.serial;
      // The name that is written out furthest.
      if ((machine.name?.length ?? 0) > (known.name?.length ?? 0)) known.name = machine.name;
    }
  }
  return groups.map(({ name, serial, stories: own }) => {
    const inOrder = own
      .map((story, i) => ({ story, i, opened: openedOn(story) ?? "9999" }))
      .sort((a, b) => (a.opened < b.opened ? -1 : a.opened > b.opened ? 1 : a.i - b.i));
    const sorted = inOrder.map((it) => it.story);
    const title = name ?? sorted[0]?.job.sheet?.title?.value ?? sorted[0]?.job.path ?? "";
    return { name, serial, title, stories: sorted, counters: sorted.flatMap(countersOf) };
  });
}

/** The greatest figure of the counter that counts so: miles or kilometres, or hours. */
export function lastCounter(machine: MachineStories, dimension: Dimension): CounterFigure | undefined {
  return machine.counters
    .filter((it) => it.value.unit.dimension === dimension)
    .reduce<CounterFigure | undefined>((a, b) => (a === undefined || compare(b.value.value, a.value.value) > 0 ? b : a), undefined);
}

/** Of one sheet: its head's, its releases', and those at which something was looked at again. */
function countersOf(story: Story): CounterFigure[] {
  const out: CounterFigure[] = [];
  const put = (it: Quantity | undefined, day: string | undefined) => {
    const value = measured(it);
    if (it !== undefined && value !== undefined) out.push({ value, text: quantityText(it), day, story });
  };
  for (const detail of story.job.sheet?.details ?? []) if (detail.kind === "counter") put(detail.quantity, openedOn(story));
  for (const { entry, day } of [...story.earlierReleases, ...(story.release === undefined ? [] : [story.release])]) {
    put(entry.counter, entry.date?.text ?? day);
    for (const detail of entry.details) if (detail.kind === "recheck") put(detail.doneAt, detail.done?.text);
  }
  return out;
}
