// Drained or lost, and not filled to its capacity when the machine is released.
import type { Entry } from "../../../grammar/tree.ts";
import { isElsewhere } from "../../story/cells.ts";
import { measured, quantityText } from "../../model/values.ts";
import { type Exact, decimalText } from "../../quantities/exact.ts";
import type { FluidCell, FluidMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { headOf } from "../../model/read-with.ts";
import { allWords } from "../../model/titles.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Fluid } from "../../model/things.ts";
import type { JobRule, Report } from "../rule.ts";
import { agreeing, called, calledAt, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "fluid-left-out",
  group: "Energy and support",
  severity: "error at release; warning where the sheet says that no more ran out",
  safety: true,
  title: "Drained or lost and not filled to its capacity within a tenth, or filled while what closes it below was off",
  why: "An axle or an engine without its oil lasts minutes. A tenth more or less is what a filler plug or a dipstick tells apart (a rule of this tool).",
  wrong: `fluid oil "Axle oil"
  capacity 900 ml
step strip "Oil out"
  drain oil
#       ^^^ error fluid-left-out
  done
release by "A. Moor" 2026-05-10
`,
  right: `fluid oil "Axle oil"
  capacity 900 ml
step strip "Oil out"
  drain oil
  done
step refit "Oil in"
  fill oil 900 ml
  done
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check({ story, report, line }) {
    if (story.release === undefined) return;
    /** One line that fills it at several places: what is wrong alike at all of them is one mistake. */
    const said = new Map<Entry, Map<string, { readonly at: Report; readonly thing: Fluid; readonly places: string[] }>>();
    const sayOf = ({ thing, place }: FluidCell, { where: at, message, ...rest }: Report) => {
      const ofEntry = said.get(at.entry) ?? new Map<string, { readonly at: Report; readonly thing: Fluid; readonly places: string[] }>();
      said.set(at.entry, ofEntry);
      const key = `${at.row} ${thing.name} ${message}`;
      const known = ofEntry.get(key);
      if (known === undefined) ofEntry.set(key, { at: { where: at, message, ...rest }, thing, places: [place] });
      else known.places.push(place);
    };
    for (const cell of story.fluids) {
      const below = cell.unsure || !cell.now.full ? undefined : filledThroughBelow(story, cell);
      // Of what is bled, `not-bled` says that a hose was off.
      const open = below?.said === false && cell.thing.needsBleed ? undefined : below;
      if (open !== undefined) {
        const was = `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} filled while the ${midSentence(open.part.thing, open.part.place)} ${agreeing(open.part.thing, "was")} off`;
        report(
          open.said
            ? { where: open.fill.where, severity: "error", message: `${was}, in which it stands: it ran out. Fill it again and write how much.` }
            : {
                where: open.fill.where,
                severity: "warning",
                open: true,
                message: `${was}. If it stands in that it ran out: fill it again. If not, write \`holds ${cell.thing.name}\` under the part in which it stands.`,
              },
        );
        continue;
      }
      const capacity = measured(cell.thing.capacity);
      const filled = cell.now.filled;
      // What is bled runs out again at the nipples.
      const most = cell.thing.needsBleed ? 20 : 11;
      const over = capacity !== undefined && filled !== undefined && cell.now.full && filled.mul(10).compare(capacity.value.mul(most)) > 0;
      if ((cell.now.full && !over) || cell.unsure) continue;
      const out = cell.history.findLast((it) => it.phase === "done" && (it.verb === "drain" || it.verb === "lost"));
      if (out === undefined) continue;
      if (
        !cell.history.some((it) => it.verb === "fill" && it.seq > out.seq) &&
        out.verb === "lost" &&
        !cell.thing.needsBleed &&
        notesOf(out).some((text) => noneOut.test(text))
      ) {
        report({
          where: out.where,
          severity: "warning",
          message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} open here and, as it is noted, did not run out. Look at its level, and fill what is lacking.`,
        });
        continue;
      }
      const unit = cell.thing.capacity;
      const wants = unit === undefined ? "" : ` It takes ${quantityText(unit)}.`;
      const got =
        filled === undefined || capacity === undefined ? "" : `; ${decimalText(filled.div(capacity.unit.factor), 2)} ${capacity.unit.spelling} went in`;
      const how = out.verb === "lost" && out.with !== undefined ? `was lost when the ${midSentence(out.with.thing, out.with.place)} came off` : "was drained";
      const packed = filled === undefined ? greasedSince(story, cell, out.seq) : undefined;
      // Filled, and short or over: that line is the one to put right.
      const fill = filled === undefined || capacity === undefined ? undefined : cell.history.findLast((it) => it.phase === "done" && it.verb === "fill");
      if (fill !== undefined && filled !== undefined && !over && isToItsLevel(story, cell, fill, filled, out)) {
        sayOf(cell, {
          where: fill.where,
          severity: "warning",
          message: ` ${how}${got}.${wants} If it stands at its level, no more ${out.verb === "lost" ? "had run out" : "goes in"}. Look again.`,
        });
        continue;
      }
      // Packed by hand, what is too much for the housing is wiped off or pressed out: a slip of the unit is more than twice as much.
      if (fill !== undefined && over && isGrease(cell.thing) && filled !== undefined && filled.compare(capacity.value.mul(2)) <= 0) {
        sayOf(cell, {
          where: fill.where,
          severity: "warning",
          message: ` ${how}${got}.${wants} More grease than that runs hot, and past the seal: wipe out what is too much.`,
        });
        continue;
      }
      sayOf(cell, {
        where: fill?.where ?? out.where,
        severity: "error",
        message: ` ${how} and is not filled ${over ? "right: too much" : "up"}${got}.${wants} ${fill !== undefined && !over && out.verb === "lost" ? "Fill it up, or write in a finding what ran out: `is low Q`." : packed === undefined ? "Fill it and write how much." : `Packed by hand at line ${line(packed.where)}? Then write \`fill ${cell.thing.name}\` there too.`}`,
        ...(fill === undefined ? {} : { related: [{ where: out.where, message: out.verb === "lost" ? "Lost here." : "Drained here." }] }),
      });
    }
    for (const { at, thing, places } of [...said.values()].flatMap((it) => [...it.values()]))
      report({ ...at, message: `${calledAt(thing, places)}${at.message}` });
  },
};

/**
 * Not all of it ran out, or not all of it went in by the filler: a shaft came off, and a note of the step says that it was topped up to its plug, or that a cupful came;
 * the rest was poured over the gears; or so much went in as a line says that came out, and nobody found it low before.
 */
function isToItsLevel(story: Story, cell: FluidCell, fill: FluidMoment, filled: Exact, out: FluidMoment): boolean {
  const notes = notesOf(fill);
  const capacity = measured(cell.thing.capacity);
  // What was drained leaves little behind: a note of a level is believed of the most of it.
  const isMost = capacity !== undefined && filled.mul(3).compare(capacity.value.mul(2)) >= 0;
  if ((out.verb === "lost" || isMost) && notes.some((text) => toItsLevel.test(text) && !notYet.test(text))) return true;
  if (out.verb === "lost" && [...notes, ...notesOf(out)].some((text) => onlySome.test(text))) return true;
  if (isMost && notes.some((text) => theRest.test(text) && !notYet.test(text))) return true;
  const cameOut = out.verb === "drain" ? measured(out.action?.amount) : undefined;
  if (out.verb === "drain" && allOff(story, cell, out, fill)) return false;
  const isLow = cell.history.some(
    (it) => it.seq < out.seq && it.found?.conditions.some(({ condition }) => condition.kind === "low" || condition.kind === "missing"),
  );
  return cameOut !== undefined && !isLow && filled.mul(10).compare(cameOut.value.mul(9)) >= 0;
}

function notesOf({ where }: FluidMoment): readonly string[] {
  return where.entry.details.map((it) => (it.kind === "note" && it.text !== undefined ? it.text.value : ""));
}

/** All that it is in came off between the two: nothing of it stayed in there. */
function allOff(story: Story, { thing, place }: FluidCell, out: FluidMoment, fill: FluidMoment): boolean {
  return (
    thing.in.length > 0 &&
    thing.in.every(({ text }) =>
      story
        .cells(text)
        .some(
          (it) =>
            it.kind === "part" &&
            !it.unsure &&
            !isElsewhere(story.job, it.thing, it.place, place) &&
            it.history.some((was) => was.seq > out.seq && was.seq < fill.seq && was.verb === "remove" && was.after.on === 0),
        ),
    )
  );
}

const toItsLevel =
  /(to|at|up to|until|till) (the|its|his)? ?((level|filler|filling|upper|max|full) )?(plug|level|mark|hole|line|dipstick|brim|overflow|neck)|\b(ran|runs|came|comes|dripped|showed|shows|wept|trickled|spilled) (out )?(of|from|at|over) (the |its )?((level|filler|filling|overflow) )?(plug|hole|lip|neck)|\b(at|on|to) (the )?(full|upper|max)\b/i;
const onlySome = /\b(only|no more than|not more than|barely|hardly) [^.;]{1,30}\b(came|come|ran|run|lost|dripped|leaked|spilt|spilled|dribbled)\b/i;
const theRest =
  /\b(rest|remainder|balance|other (half|pint|litre|third|quarter))\b[^.;]{0,40}\b(poured|went|over|down|into|in|through)\b|\b(and|another|plus) [^.;]{0,25}\b(down|over|into|in|through) the (new )?(filter|gears?|tappets|galler\w+|shafts?|pump|wheels?|bearings?|cooler)\b/i;
const notYet = /\b(to follow|to be|tomorrow|later|when it comes|still|not|yet|short of|below|under)\b/i;
const noneOut =
  /\b(no|not a drop of|none of the) ((\w+ )?(oil|fluid|water|coolant|petrol|fuel) )(came|ran|was|were|got|dripped|escaped|lost|spilt|spilled)\b|\b(not a drop|nothing|none) (came|ran|got|dripped|escaped|was lost|lost|spilt|spilled)\b|\bwithout (losing|spilling) (any|a drop)\b|\ball (the )?(oil|fluid|of it) stayed in\b/i;

/** What a fluid stands in, by what it is called, where no part says `holds`: asked, and no more. A cover may be off, and the box be filled through its open top. */
const above = /\b(filler|filling|breather|vent|overflow|top|upper|header|dip ?stick|level)\b/i;
const closesBelow = /sump|(oil|drip) ?pan|tray|drain ?plug|bowl|hose|pipe\b|caliper|cylinder\b|lower (cover|casing)|\bhal(f|ves)\b/i;

/** A cap is packed on the bench, a worm before its cover is on: it stays where it is put. */
function isGrease(thing: Fluid): boolean {
  return /(^|[^\p{L}])grease/iu.test(`${thing.title ?? thing.name} ${thing.grade ?? ""}`);
}

/** Where what grease lies in, or a bearing behind it, was greased since it was lost: who packs bearings has filled it, and may have written so. */
function greasedSince(story: Story, { thing, place }: FluidCell, seq: number): PartMoment | undefined {
  if (!isGrease(thing)) return undefined;
  const { behind } = relationsOf(story.job);
  const names = thing.in.flatMap(({ text }) => [text, ...(behind.get(text) ?? []).map((it) => it.name)]);
  return names
    .flatMap((name) => story.cells(name))
    .filter((it): it is PartCell => it.kind === "part" && !isElsewhere(story.job, it.thing, it.place, place))
    .flatMap((it) => it.history.filter((was) => was.seq > seq && was.phase === "done" && was.verb === "other" && was.action?.verb === "grease"))
    .at(-1);
}

/** The last filling, and the part in which it stands that was off at that time; whether the sheet says that it stands there. */
function filledThroughBelow(story: Story, cell: FluidCell): { readonly fill: FluidMoment; readonly part: PartCell; readonly said: boolean } | undefined {
  const fill = cell.history.findLast((it) => it.phase === "done" && it.verb === "fill");
  if (fill === undefined || isGrease(cell.thing)) return undefined;
  const holders = relationsOf(story.job).standsIn.get(cell.thing.name) ?? [];
  const said = holders.length > 0;
  for (const { text } of said ? holders.map((it) => ({ text: it.name })) : cell.thing.in) {
    for (const part of story.cells(text)) {
      if (part.kind !== "part" || part.unsure || isElsewhere(story.job, part.thing, part.place, cell.place)) continue;
      const title = part.thing.title ?? part.thing.name;
      if (!said && (!closesBelow.test(title) || above.test(title))) continue;
      if ((part.history.findLast((it) => it.seq < fill.seq)?.after.on ?? part.total) < part.total) return { fill, part, said };
    }
  }
  const seal = said || notesOf(fill).some((text) => throughTheTop.test(text)) ? undefined : sealOff(story, cell, fill);
  return seal === undefined ? undefined : { fill, part: seal, said: false };
}

/** A box on its end or with its lid off is filled where its shaft still stands open above. */
const throughTheTop =
  /\b(through|by|from|at|into) (the |its )?((open|upper) )?(top|mouth|lid|opening)\b|\b(stood|standing|set) (up )?on (its |the )?(end|nose|tail)\b|\bupright\b/i;

/** A shaft seal with its lip to that fluid, off as it was filled in and fitted behind it: its `fits` says what it keeps in. */
function sealOff(story: Story, cell: FluidCell, fill: FluidMoment): PartCell | undefined {
  const [, kind] = fillsWith.exec(allWords(cell.thing)) ?? [];
  // Of two oils nobody knows which of them a lip is turned to.
  if (kind === undefined || story.fluids.some((it) => it.thing !== cell.thing && fillsWith.exec(allWords(it.thing))?.[1]?.toLowerCase() === kind.toLowerCase()))
    return undefined;
  const toIt = new RegExp(String.raw`\b${kind}\b`, "i");
  return story.parts.find(
    (part) =>
      !part.unsure &&
      headOf(part.thing) === "seal" &&
      toIt.test(part.thing.fits ?? "") &&
      !isElsewhere(story.job, part.thing, part.place, cell.place) &&
      (part.history.findLast((it) => it.seq < fill.seq)?.after.on ?? part.total) < part.total &&
      part.history.some((it) => it.seq > fill.seq && it.phase === "done" && it.verb === "fit"),
  );
}

const fillsWith = /\b(oil|water|coolant|fluid)\b/i;
