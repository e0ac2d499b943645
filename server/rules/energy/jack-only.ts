// Somebody underneath, or a wheel or an axle off, with only a jack holding.
import { memo } from "../../model/memo.ts";
import { hasAction } from "../../model/has.ts";
import { lastBefore } from "../../story/looked-up.ts";
import { type Moment, type PartCell, type PartMoment, type Story, type SupportState, hangsOn } from "../../story/story.ts";
import { wholeNumber } from "../../model/declare.ts";
import { putInto } from "../../model/grouped.ts";
import { bearsFrame, rollsOrCarries } from "../../model/carries.ts";
import { allWords } from "../../model/titles.ts";
import { type JobRule, addLine } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "jack-only",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "`under`, or a wheel or axle off, with only a jack holding; the wheels of both sides off over one stand; bricks and boxes under it",
  why: "A jack lifts; it does not hold. Most deaths in vehicle repair come from being trapped under a vehicle that was badly supported (UK HSE, motor vehicle repair). Set it on stands, on firm ground, before anybody goes underneath or anything that it rolls on comes off.",
  wrong: `step up "Up and under"
  chock
  raise on jack
  under
# ^^^^^ error jack-only (fix)
  done
`,
  right: `step up "Up and under"
  chock
  raise on jack
  support on 2 stands under "frame, behind the springs" rated 2000 kg each load 900 kg
  under
  done
`,
  fixed: `step up "Up and under"
  chock
  raise on jack
  support on stands under "___"
  under
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "raise")) return;
    const { story } = context;
    const say = (
      it: { readonly where: (typeof story.support)[number]["where"]; readonly support?: SupportState },
      message: string,
      column: number,
      related: Parameters<typeof report>[0]["related"],
    ) =>
      report({
        where: it.where,
        severity: "error",
        message,
        ...(related === undefined ? {} : { related }),
        fixes: [
          {
            title: "Write `support on stands` above",
            edits: [{ where: { ...it.where, at: { from: column, to: column } }, text: 'support on stands under "___"\n  ' }],
          },
        ],
      });
    for (const it of story.support) {
      // A crane is never stood under, no more than a jack.
      const hung = hangsOn(it.after);
      if (it.verb === "under" && (hung === "jack" || hung === "crane")) {
        say(
          it,
          `Somebody goes underneath while only a ${hung} holds it. Set it on stands first.`,
          it.action.at.from,
          it.after.raised === undefined ? undefined : [{ where: it.after.raised.moment.where, message: "Raised on the jack here." }],
        );
      }
    }
    // A wheel that is off already makes a jack the only thing that holds, from the raise on, unless stands follow in the same step.
    for (const [i, it] of story.support.entries()) {
      if (it.verb !== "raise" || hangsOn(it.after) !== "jack") continue;
      let stands = false;
      // What one step does stands together in the story.
      for (let at = i + 1; !stands && story.support[at] !== undefined && story.support[at]?.visit === it.visit; at++) {
        const next = story.support[at] as (typeof story.support)[number];
        stands = next.verb === "lower" || hangsOn(next.after) !== "jack";
      }
      const off = stands
        ? undefined
        : story.parts.find((cell) => rollsOrCarries(cell.thing) && (lastBefore(cell.history, it.seq, any)?.after.on ?? cell.total) < cell.total);
      if (off === undefined) continue;
      const last = lastBefore(off.history, it.seq, any);
      report({
        where: it.where,
        severity: "error",
        message: `${called(off.thing, off.place)} ${agreeing(off.thing, "is")} off, and only a jack holds the machine from here. Set it on stands.`,
        ...(last === undefined ? {} : { related: [{ where: last.where, message: "It came off here." }] }),
        fixes: [addLine("Write `support on stands` below", it.where, 'support on stands under "___"')],
      });
    }
    const said = new Set<object>();
    for (const cell of story.parts) {
      if (!rollsOrCarries(cell.thing)) continue;
      for (const it of cell.history) {
        if (it.verb !== "remove" || it.action === undefined || hangsOn(it.support) !== "jack" || said.has(it.action)) continue;
        said.add(it.action);
        say(
          it,
          `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "comes")} off while only a jack holds the machine. Set it on stands first.`,
          it.action.at.from,
          it.support.raised === undefined ? undefined : [{ where: it.support.raised.moment.where, message: "Raised on the jack here." }],
        );
      }
    }
    for (const { cell, moment } of offItsFrame(story)) {
      const raised = moment.support.raised?.moment;
      report({
        where: moment.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "comes")} off, and of what stands under the frame that rests on it nothing is written: only the jack holds it. Set it on stands.`,
        ...(raised === undefined ? {} : { related: [{ where: raised.where, message: "Raised on the jack here." }] }),
      });
    }
    for (const it of story.support) {
      const text = it.action.underText?.value ?? "";
      if (it.verb !== "support" || it.action.things.length > 0 || !crushes.test(text)) continue;
      report({
        where: it.where,
        severity: "error",
        message: `It stands on “${text}”: that crushes or splits without a warning. Set it on stands, or on sound timber, and write what they are under.`,
      });
    }
    for (const { cell, moment, stand } of overOneStand(story))
      report({
        where: moment.where,
        severity: "error",
        message: `${called({ name: cell.thing.name, ...(cell.thing.title === undefined ? {} : { title: cell.thing.title }) }, "")}${cell.place === "" ? "" : " at either side"} ${agreeing(cell.thing, "is")} off over one stand: it tips. Set another under the other side, or write how many there are.`,
        related: [{ where: stand.where, message: "One stand here." }],
      });
  },
};

const any = () => true;

/** What nobody may trust with a machine, whatever it has borne before. */
const crushes =
  /\b(bricks?|brickwork|breeze ?blocks?|cinder ?blocks?|hollow (concrete )?blocks?|(beer |milk |tea )?crates?|tea chests?|paving slabs?|paint (tins?|drums?))\b/iu;

/** What it rolls on came off at both sides, and one stand is all that is written to bear that. Stands without a number may be any. */
function overOneStand(story: Story): { readonly cell: PartCell; readonly moment: PartMoment; readonly stand: Moment }[] {
  const off = new Map<string, { readonly cell: PartCell; readonly moment: PartMoment; readonly stand: Moment }[]>();
  for (const cell of story.parts) {
    if (
      !(rollsOrCarries(cell.thing) || bearsWheel(cell.thing)) ||
      cell.unsure ||
      !(cell.place === "" ? ofBothSides.test(allWords(cell.thing)) : /(^|-)(left|right|near|off|nearside|offside|ns|os|l|r)($|-)/iu.test(cell.place))
    )
      continue;
    const moment = cell.history.find((it) => it.verb === "remove" && it.before.on > 0 && it.after.on === 0);
    const stand = moment === undefined ? undefined : oneStand(moment.support);
    if (moment !== undefined && stand !== undefined) putInto(off, cell.thing.name, { cell, moment, stand });
  }
  return [...off.values()].flatMap((all) =>
    new Set(all.map(({ cell }) => cell.place)).size > 1 || all[0]?.cell.place === "" ? [all.at(-1) as (typeof all)[number]] : [],
  );
}

/** A spring between frame and axle that comes off on a jack, with stands under the axle alone or with none: the frame comes down on what is under it. The first of each line. */
function offItsFrame(story: Story): { readonly cell: PartCell; readonly moment: PartMoment }[] {
  const lines = new Set<object>();
  const out: { readonly cell: PartCell; readonly moment: PartMoment }[] = [];
  if (hasHazard(story)) return out;
  for (const cell of story.parts) {
    if (cell.unsure || !bearsFrame(cell.thing)) continue;
    for (const moment of cell.history) {
      if (moment.verb !== "remove" || moment.action === undefined || moment.after.on >= moment.before.on || lines.has(moment.action)) continue;
      if (!hangsByTheAxle(moment.support)) continue;
      lines.add(moment.action);
      out.push({ cell, moment });
    }
  }
  return out;
}

/** The sheet has a hazard for it: that it was made safe, or was not, is told there. The spring of a valve bears no frame. */
const hasHazard = memo((story: Story) =>
  story.hazards.some(
    ({ thing }) => /\b(springs?|frame|chassis)\b/iu.test(allWords(thing)) && !/\b(valves?|brakes?|clutch|return|governor|doors?)\b/iu.test(allWords(thing)),
  ),
);

function hangsByTheAxle({ raised, supports, unclear }: SupportState): boolean {
  if (raised?.on !== "jack" || unclear?.hold) return false;
  const since = supports.filter((it) => it.moment.seq > raised.moment.seq);
  const stands = since.filter((it) => it.part === undefined);
  // A frame that hangs in slings is a part of its own there.
  const count = stands.reduce((sum, { action }) => sum + (wholeNumber(action.standCount?.text) ?? 2), 0);
  // On four it stands with both its axles, and no jack is left that held it.
  if (stands.length === 0 || count > 3 || since.some((it) => it.part !== undefined && ofFrame.test(it.part))) return false;
  return stands.every(({ action: { underText } }) => underAxle.test(underText?.value ?? "") && !ofFrame.test(underText?.value ?? ""));
}

const underAxle = /\b(axles?|hubs?|wheels?|banjo|axle-?(tubes?|beam|cas(e|ing)))\b/iu;
const ofFrame =
  /\b(frames?|chassis|(side|sub|under)-?frames?|bearers?|body|bodies|sills?|soles?|solebars?|jacking|rails?|members?|cross-?members?|girders?|bed|hull|tub|tank|buffer|head-?stock|dumb ?irons?|hangers?|brackets?|outriggers?|side ?plates?|engine|gearbox|sump)\b/iu;

/** One part that bears both sides. The wheel of a motor-cycle is off over one stand, and so is its axle. */
const ofBothSides = /\b(wheel-?sets?|bogies?|trucks?|(two|both|pair of) wheels|axle (beam|casing|case|tube|housing)s?|beam axle)\b/iu;

/** Where its hub is off the wheel is off, though no line speaks of wheels. */
function bearsWheel({ name, title }: PartCell["thing"]): boolean {
  return (
    (/(^|-)hubs?$/iu.test(name) || /^(?:\w+ )?hubs?\b/iu.test(title ?? "")) &&
    !/clutch|fan|pulley|gear|blade|rotor|reel|beater/iu.test(`${name} ${title ?? ""}`)
  );
}

/** Nothing but one stand has been put under it since it was raised. */
function oneStand({ raised, supports, unclear }: SupportState): Moment | undefined {
  if ((raised?.on !== "jack" && raised?.on !== "crane") || unclear?.hold) return undefined;
  const [one, ...others] = supports.filter((it) => it.part === undefined && it.moment.seq > raised.moment.seq);
  return one?.on === "stands" && others.length === 0 && wholeNumber(one.action.standCount?.text) === 1 ? one.moment : undefined;
}
