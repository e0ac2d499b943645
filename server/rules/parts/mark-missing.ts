// A part that keeps its place comes off unmarked.
import type { StepEntry } from "../../../grammar/tree.ts";
import { memo } from "../../model/memo.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";
import type { PartCell, PartMoment, Story } from "../../story/story.ts";
import { putsOff } from "../doubt-words.ts";
import { byLine } from "../by-line.ts";
import { calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "mark-missing",
  group: "Parts",
  severity:
    "warning, which holds where several that are critical lay beside one another and went back, or bear one mark; hint when it was marked after all, in the step that took it off or by words that say how it was known",
  safety: true,
  title: "A part that keeps its place comes off unmarked, or with the mark of its fellow",
  why: "Parts that have run together go back where they came from. On the bench left and right look alike: mark them before they come off (dots from a centre punch on a face that does no work, or a label).",
  wrong: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step strip "Caps off"
  remove cap
#        ^^^ warning mark-missing (fix)
  done
`,
  right: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step strip "Caps off"
  mark cap "dots: one and two"
  remove cap
  done
`,
  fixed: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step strip "Caps off"
  mark cap "___"
  remove cap
  done
`,
  scope: "job",
  check(context) {
    const lines = byLine<PartCell, PartMoment>(
      context.story.parts,
      (it, cell) => cell.thing.keepsPlace && !cell.unsure && it.verb === "remove" && !it.before.marked && it.before.on > 0,
    );
    const told = new Map<PartCell, PartMoment>();
    for (const { cell, moment: it, cells, places, action } of lines) {
      if (cells.every((one) => isToldBefore(one, told.get(one), it))) continue;
      for (const one of cells) told.set(one, it);
      const marked = cells.map((one) => {
        const later = one.history.find((other) => other.seq > it.seq && other.verb === "mark" && !isLate(other, it));
        return later === undefined ? undefined : { moment: later, planned: later.phase === "planned" && it.phase === "done" };
      });
      const column = action.at.from;
      const mixed = cell.thing.critical && isMixed(context.story, cell);
      const what = `${calledAt(cell.thing, places)} keeps its place and comes off unmarked${mixed ? ", and several went back" : ""}.`;
      const said = curedReport(
        context,
        it.where,
        "warning",
        `${what} ${mixed ? "Write by what each was known: `mark` above, or a note where it went back." : "Mark it before it leaves, and write how."}`,
        marked,
        [
          {
            title: `Write \`mark ${cell.thing.name}\` above`,
            edits: [{ where: { ...it.where, at: { from: column, to: column } }, text: `mark ${cell.thing.name} "___"\n  ` }],
          },
        ],
      );
      context.report({ ...said, ...(mixed && said.severity === "warning" ? { open: true } : {}) });
    }
    for (const cell of context.story.parts) {
      const alike = cell.thing.keepsPlace && !cell.unsure ? markedAlike(context.story, cell) : undefined;
      if (alike === undefined) continue;
      const { mark, other, text } = alike;
      context.report({
        where: mark.where,
        severity: "warning",
        open: cell.thing.critical,
        message: `${calledAt(cell.thing, [cell.place])} keeps its place and is marked “${text}”, as is the one at ${other.place}: on the bench nothing tells them apart. Write what is on it.`,
        related: [{ where: other.mark.where, message: "Marked so here as well." }],
      });
    }
  },
};

interface Alike {
  readonly mark: PartMoment;
  readonly text: string;
  readonly other: { readonly place: string; readonly mark: PartMoment };
}

/**
 * Its only mark is that of its fellow: the letters or the number of the other place, which that one bears too, in lines of their own; and both came off, and neither was renewed. A dot, a line, an
 * arrow tell which way round it goes and not whose it is: of those nothing is said.
 */
function markedAlike(story: Story, cell: PartCell): Alike | undefined {
  const own = onlyMark(cell);
  if (own === undefined || bearsPlace(own.code, cell.place)) return undefined;
  for (const fellow of story.cells(cell.thing.name)) {
    if (fellow.kind !== "part" || fellow === cell || fellow.unsure || !bearsPlace(own.code, fellow.place)) continue;
    const other = onlyMark(fellow);
    if (other?.code === own.code) return { mark: own.mark, text: own.text, other: { place: fellow.place, mark: other.mark } };
  }
  return undefined;
}

function onlyMark({ history }: PartCell): { readonly mark: PartMoment; readonly text: string; readonly code: string } | undefined {
  const done = history.filter((it) => it.phase === "done");
  const [mark, ...others] = done.filter((it) => it.verb === "mark");
  const text = mark?.action?.places.length === 1 ? mark.action.text?.value : undefined;
  const code = text === undefined ? undefined : codeIn.exec(text)?.[1];
  if (mark === undefined || others.length > 0 || text === undefined || code === undefined) return undefined;
  return done.some((it) => it.verb === "remove" && it.seq > mark.seq) && !done.some((it) => it.isNew) ? { mark, text, code } : undefined;
}

/** “HO cut in the seat”, “S, arrow forward”, “No. 2”: what a thing is told by, before what else is on it. */
const codeIn =
  /^\W*(?:no\.? ?|number )?([A-Z]{1,4}|\d{1,2})(?=$|[,;.:]|\s+(?:(?:cut|stamped|punched|chalked|painted|scribed|filed)\b|(?:and|in|on) (?:an?|the)\b))/u;

/** FO at fore-off, LH at left, 2 at cyl-2. */
function bearsPlace(code: string, place: string): boolean {
  const words = place.toLowerCase().split("-");
  const said = code.toLowerCase();
  const initials = words.map((it) => it[0] ?? "").join("");
  return words.includes(said) || said === initials || said === `${initials}h` || (/^\D/u.test(said) && words.join("").startsWith(said));
}

/** All of it came off unmarked before and went back, and that was told there: that it comes off once more, no new one and no mark between, says nothing new. */
function isToldBefore({ history }: PartCell, before: PartMoment | undefined, now: PartMoment): boolean {
  if (before === undefined || before.after.on > 0) return false;
  const between = history.filter((it) => it.seq > before.seq && it.seq < now.seq);
  return between.some((it) => it.verb === "fit") && !between.some((it) => it.isNew || it.verb === "mark");
}

/**
 * Two of it or more, old ones, that came off unmarked lay beside one another and went back, and no word of the steps says by what they were told apart: one may be where another was.
 */
function isMixed(story: Story, { thing }: PartCell): boolean {
  const cells = story.cells(thing.name).filter((it): it is PartCell => it.kind === "part" && !it.unsure);
  const own = cells.flatMap((cell) => {
    const off = cell.history.find((it) => it.phase === "done" && it.verb === "remove" && it.after.on < it.before.on);
    const back = cell.history.find((it) => it.phase === "done" && it.verb === "fit" && !it.isNew && off !== undefined && it.seq > off.seq);
    if (off === undefined || back === undefined || cell.history.some((it) => it.verb === "mark" && it.seq < back.seq && !isLate(it, off))) return [];
    return [{ off, back, count: offTogether(cell, off) }];
  });
  const beside = own.some((one) => {
    const others = own.filter((it) => it !== one && it.off.seq < one.back.seq && it.back.seq > one.off.seq);
    return one.count + others.reduce((sum, it) => sum + it.count, 0) > 1;
  });
  return beside && !own.some(({ off, back }) => [off, back].some(({ visit }) => visit !== undefined && toldApart(visit.entry)));
}

/** So many old ones lay off at one time and went back, be they told in one line or in several. */
function offTogether({ history }: PartCell, off: PartMoment): number {
  const since = history.filter((it) => it.phase === "done" && it.seq >= off.seq);
  const back = since.filter((it) => it.verb === "fit" && !it.isNew).reduce((sum, it) => sum + Math.max(0, it.after.on - it.before.on), 0);
  return Math.min(off.before.on - Math.min(...since.map((it) => it.after.on)), back);
}

/** Marked in a later step than it came off in, by words that do not say how it was known by then: which one was which is past. */
function isLate(mark: PartMoment, off: PartMoment): boolean {
  const [marked, removed] = [mark.visit?.entry, off.visit?.entry];
  if (marked === undefined || removed === undefined || marked === removed || mark.seq < off.seq || mark.before.on > 0) return false;
  return ![mark.action?.text?.value, marked.title?.value, ...marked.details.map((it) => (it.kind === "note" ? it.text?.value : undefined))].some((it) =>
    asTheyLay.test(it ?? ""),
  );
}

const toldApart = memo(({ title, details }: StepEntry): boolean =>
  [title?.value, ...details.map((it) => (it.kind === "note" || it.kind === "tool" ? it.text?.value : undefined))].some(
    (it) => it !== undefined && apart.test(it) && putsOff(it) === undefined,
  ),
);

/** How it was still known when it was marked. */
const asTheyLay =
  /\b(in (its|their) (own )?(order|place|turn)|order|row|rack\w*|tray\w*|laid|lay|boxed|in (\w+ )?box(es)?|bags?|label\w*|tag\w*|numbers?|handed|fit(s|ted)? only|only (goes|fits)|wear|where (it|they|each) (was|were|came)|as (it|they) came|by (its|their) (wear|shape|witness)\w*)\b/iu;

/** A rack with numbered holes, one side after the other, a stamp that was there. */
const apart =
  /\b(in (its|their) (own )?(order|place|turn|holes?|home|bores?|cylinders?|sides?)|(its|their) own|order|number\w*|rack\w*|tray\w*|apart|one (at a time|by one|side)|label\w*|tag\w*|mark\w*|stamp\w*|pop(ped)?|punch\w*|paint\w*|scrib\w*|wired?|boxed|in (\w+ )?box(es)?|bags?|laid out|where (it|they|each) (was|were|came))\b/iu;
