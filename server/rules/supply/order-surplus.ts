// On order beyond the need and the rest of a pack.
import { hasEntry } from "../../model/has.ts";
import { mentionsOf, partsOf } from "../../model/orders.ts";
import { moneyText } from "../../quantities/money.ts";
import { amountText, itemNamed, itemOf } from "../../supply/items.ts";
import type { Story } from "../../story/story.ts";
import { supplyOfOne } from "../../supply/supply.ts";
import type { SurplusLine } from "../../supply/surplus.ts";
import { someAtOnce } from "../../../grammar/slices.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "order-surplus",
  group: "Getting the parts",
  severity: "warning while held, or where more came than was ordered; else information",
  safety: false,
  title: "On order beyond the need and the rest of a pack; more received than was ordered",
  why: "What was guessed before the strip is not always what the strip asks for. While an order is held, striking out a line costs nothing; once it is on its way it costs the carriage back. What only fills up a pack is not counted, and nothing is while a question about it is open.",
  wrong: `places side left, right
part cover "Axle cover"
  each side
part cover-gasket "Cover gasket"
  each side
  renew with cover
supplier ridley "Ridley Gaskets"
offer cover-gasket from ridley
  price 1.15 GBP each
step strip "Covers off"
  remove cover, cover-gasket
  done
order "R-12" to ridley
  status held
  item cover-gasket 5
#      ^^^^^^^^^^^^^^ warning order-surplus
`,
  right: `places side left, right
part cover "Axle cover"
  each side
part cover-gasket "Cover gasket"
  each side
  renew with cover
supplier ridley "Ridley Gaskets"
offer cover-gasket from ridley
  price 11.50 GBP a pack
  pack 5
step strip "Covers off"
  remove cover, cover-gasket
  done
order "R-12" to ridley
  status held
  item cover-gasket 5
`,
  scope: "job",
  *check(context) {
    const { job, report } = context;
    if (!hasEntry(job, "order")) return;
    const { story } = context;
    if (isOnlyData(story)) return;
    const supply = supplyOfOne(story);
    for (const { line, amount } of supply.notOrdered) {
      // Another thing in the place of what was ordered is for the order to say.
      const isAsked = line.entry.details.some((it) => it.kind === "item" && it.fault === undefined && itemOf(job, it.item)?.key === line.item.key);
      // What went back may have been sent once more.
      const wentBack = [...mentionsOf(job, line.entry), ...partsOf(job, line.entry)].some(({ details }) =>
        details.some((it) => it.kind === "status" && it.status === "returned"),
      );
      if (line.notOrdered === undefined || wentBack) continue;
      if (!isAsked) {
        // Part of what is ordered by a text of its own may come by its name; what goes in another's place has its own rules.
        const all = [line.entry, ...mentionsOf(job, line.entry), ...partsOf(job, line.entry)].flatMap(({ details }) => details);
        const items = all.filter((it) => it.kind === "item" && it.fault === undefined);
        // What was sent out comes back by its name.
        const isBack = all.some((it) => it.kind === "work" && it.part !== undefined && itemNamed(job, it.part.text).key === line.item.key);
        if (!isBack && items.length > 0 && items.every((it) => it.kind === "item" && it.item?.kind !== "text"))
          report({
            where: line.where,
            severity: "information",
            message: "This came, and no line of its order asks for it. Is another thing meant, or was it sent in its place?",
          });
        continue;
      }
      report({
        where: line.where,
        severity: "warning",
        message: `More came than was ordered: ${amountText(amount)} too many. Correct the count, or the order.`,
      });
    }
    const surplus = yield* supply.surplusInSlices();
    yield;
    for (const [i, it] of surplus.entries()) {
      if (i % someAtOnce === someAtOnce - 1) yield;
      const isEarly = it.line.status === "held" && it.need.value.compare(0) === 0 && isUntouched(story, it.line.item.key);
      report({
        where: it.line.where,
        severity: it.line.status === "held" && !isEarly && !it.isUnasked ? "warning" : "information",
        message: isEarly ? `Nothing asks for this yet: ${amountText(it.amount)} held. What comes apart and what is found will say.` : messageOf(it),
      });
    }
  },
};

/** A shopping list before the strip: nothing was done yet, or nothing to that thing, and the job is under way. */
function isUntouched(story: Story, key: string): boolean {
  if (story.release !== undefined) return false;
  if (!story.visits.some((it) => it.phase === "done") && story.findings.length === 0) return true;
  for (const thing of story.job.things.values()) {
    if (itemNamed(story.job, thing.name).key !== key) continue;
    return (
      !story.findings.some((it) => it.thing.name === thing.name) &&
      story.cells(thing.name).every((cell) => cell.kind !== "hazard" && (cell.history as readonly object[]).length === 0)
    );
  }
  return false;
}

function messageOf({ line, amount, isUnasked, need, onOrder, stock, saves, due }: SurplusLine): string {
  const inStock = stock.value.compare(0) > 0 ? `, ${amountText(stock)} in stock` : "";
  if (isUnasked)
    return `Nothing asks for this by that text, so nothing is said of how many: \`need "…" ${amountText(amount)} "what for"\` does. What a kit has in it is counted as \`stock\` when it has come.`;
  const more = `${amountText(amount)} too many: ${amountText(need)} needed${inStock}, ${amountText(onOrder)} on order`;
  if (line.status === "held")
    return saves === undefined ? `${more}. Strike it out before the order goes.` : `${more}. Cancel ${amountText(amount)} and save ${moneyText(saves)}.`;
  const when = due === undefined ? "" : `, due ${due}`;
  if (line.status === "sent")
    return `${more}. The order is sent${when}: it is too late to cancel, so ask whether it can go back${saves === undefined ? "" : `, which saves ${moneyText(saves)} less the carriage`}.`;
  return `${more}. The order is placed${when}: ask whether it can still be cancelled${saves === undefined ? "" : `, which saves ${moneyText(saves)}`}.`;
}

/** Orders in a file for others to use are for the jobs that use it: by itself it needs nothing, and everything would be too much. */
export function isOnlyData(story: Story): boolean {
  const { job } = story;
  return (
    job.sheet === undefined &&
    story.visits.length === 0 &&
    story.findings.length === 0 &&
    story.readings.length === 0 &&
    !job.own.sheet.entries.some((entry) => entry.kind === "need")
  );
}
