// The fluids that a job needs: what was drained or lost and is not filled yet, each at its capacity, and what is planned to be.
// Invariant: a fluid whose capacity nobody has given is needed all the same; how much is left unsaid, and never guessed.
import { isElsewhere } from "../story/cells.ts";
import { midSentence } from "../model/titles.ts";
import { measured } from "../model/values.ts";
import { type Exact, compare, zero } from "../quantities/exact.ts";
import { type Amount, itemNamed } from "./items.ts";
import { type Needs, type Reason, type Waiting, placed } from "./need.ts";
import { isOpenQuestion } from "../story/decisions.ts";
import type { FluidCell, FluidMoment, PartCell, PartMoment, Story } from "../story/story.ts";

export function needsOfFluids(story: Story, askedAbout: ReadonlySet<string>): Needs {
  const needed: Needs["needed"][number][] = [];
  const used: Needs["used"][number][] = [];
  const waiting: Waiting[] = [];
  for (const cell of story.fluids) {
    const item = itemNamed(story.job, cell.thing.name);
    const it = goneThrough(story, cell);
    for (const { amount, moment } of it.used) used.push({ item, amount, moment });
    if (it.waiting !== undefined)
      waiting.push({
        item,
        question: it.waiting.question,
        places: cell.place === "" ? [] : [cell.place],
        where: it.waiting.where,
        ...(it.capacity === undefined ? {} : { amount: it.capacity }),
      });
    else if (it.reasons.length > 0 && !askedAbout.has(cell.thing.name)) needed.push({ item, place: cell.place, amount: it.amount, reasons: it.reasons });
  }
  return { needed, used, waiting };
}

interface Gone {
  readonly capacity: Amount | undefined;
  /** Undefined where it is needed and its capacity is not known. */
  readonly amount: Amount | undefined;
  readonly reasons: readonly Reason[];
  readonly used: readonly { readonly amount: Amount; readonly moment: FluidMoment }[];
  readonly waiting: { readonly question: string; readonly where: Waiting["where"] } | undefined;
}

function goneThrough(story: Story, cell: FluidCell): Gone {
  const full = measured(cell.thing.capacity);
  const capacity: Amount | undefined = full === undefined ? undefined : { value: full.value, unit: full.unit };
  const used: { amount: Amount; moment: FluidMoment }[] = [];
  let waiting: Gone["waiting"];
  let reasons: Reason[] = [];
  let kept: Reason[] = [];
  let planned = zero;
  let known = true;
  // What is still to be put in; undefined where all of it is, and its capacity is not known.
  let missing: Exact | undefined = zero;
  const lose = (moment: FluidMoment, text: string) => {
    missing = capacity?.value;
    reasons.push({ where: moment.where, place: cell.place, text: placed(cell.place, moment.phase === "planned" ? `${text} (planned)` : text) });
  };
  const bared = removals(story, cell);
  let next = 0;
  for (const moment of cell.history) {
    alsoBared(moment.seq);
    switch (moment.verb) {
      case "drain":
        lose(moment, "drained");
        break;
      case "lost":
        lose(moment, moment.with === undefined ? "lost" : `lost as the ${midSentence(moment.with.thing)} came off`);
        break;
      case "found": {
        const decision = moment.found?.decision?.detail;
        const said = decision?.decision;
        waiting = undefined;
        if (said === "renew" || said === "exchange") lose(moment, "to be renewed");
        else if (said === "ask" && decision?.question !== undefined && moment.found?.decision !== undefined && isOpenQuestion(story, decision.question.text))
          waiting = { question: decision.question.text, where: moment.found.decision.where };
        break;
      }
      case "fill": {
        const put = moment.amount === undefined ? undefined : { value: moment.amount.value, unit: moment.amount.unit };
        const before: Exact | undefined = missing;
        const whole = before === undefined || before.n === 0n ? capacity : { ...(capacity as Amount), value: before };
        // Less than what is missing makes good a part of it: the rest is still to be put in, by whatever fills it next.
        const part: Amount | undefined = put !== undefined && before !== undefined && compare(put.value, before) < 0 && !moment.after.full ? put : undefined;
        if (moment.phase === "planned") {
          // What a planned step fills is bought for it; the loss that it makes good is not bought again.
          const amount = part ?? (reasons.length > 0 ? whole : (put ?? capacity));
          const filled = { where: moment.where, place: cell.place, text: placed(cell.place, "to be filled (planned)") };
          if (part === undefined) kept = [...kept, ...reasons, filled];
          else reasons.push(filled);
          if (amount === undefined) known = false;
          else planned = planned.add(amount.value);
        } else {
          const amount = put ?? whole;
          if (amount !== undefined) used.push({ amount, moment });
        }
        missing = part === undefined ? zero : (before as Exact).sub(part.value);
        if (missing.n === 0n) reasons = [];
        break;
      }
      default:
    }
  }
  alsoBared(Number.POSITIVE_INFINITY);
  if (reasons.length > 0 && missing === undefined) known = false;
  const all: Reason[] = [...kept, ...reasons];
  const value = planned.add(missing ?? zero);
  const amount = known && all.length > 0 ? ({ ...(capacity ?? {}), value } as Amount) : undefined;
  return { capacity, amount, reasons: all, used, waiting };

  /** Drained first or not, it would have been lost as the part came off: that line asks for it too. */
  function alsoBared(before: number): void {
    for (; next < bared.length && (bared[next] as Bared).moment.seq < before; next++) {
      const { moment, part } = bared[next] as Bared;
      const told = reasons.length > 0 ? reasons : kept;
      if (told.length === 0) continue;
      const text = `lost as the ${midSentence(part.thing)} came off`;
      told.push({ where: moment.where, place: cell.place, text: placed(cell.place, moment.phase === "planned" ? `${text} (planned)` : text) });
    }
  }
}

interface Bared {
  readonly moment: PartMoment;
  readonly part: PartCell;
}

/** Each time that a part which the fluid is in came off here, or was said to once more. */
function removals(story: Story, cell: FluidCell): Bared[] {
  const out: Bared[] = [];
  for (const name of cell.thing.in) {
    for (const part of story.cells(name.text)) {
      if (part.kind !== "part" || isElsewhere(story.job, part.thing, part.place, cell.place)) continue;
      for (const moment of part.history) if (moment.verb === "remove") out.push({ moment, part });
    }
  }
  return out.sort((a, b) => a.moment.seq - b.moment.seq);
}
