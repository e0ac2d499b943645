import { hasAction } from "../../model/has.ts";
import type { PartCell, Story, SupportMoment } from "../../story/story.ts";
import { bearsFrame, rollsOrCarries } from "../../model/carries.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called, few, midSentence } from "../wording.ts";
import { isOffWithItsPart, setOnItsWheels } from "./shared/on-wheels.ts";

export const rule: JobRule = {
  id: "lowered-open",
  group: "Energy and support",
  severity: "error; warning where it was never up and no wheel was off",
  safety: true,
  title: "Let down with a wheel, an axle or a spring that bears the frame off, or a critical fastener slack, or when nothing says that it was ever up",
  why: "Once it is on its wheels a slack nut carries load, and what is off is not there to carry it. A wheel that came off a machine that nobody raised stood on something that nobody wrote down. Finish what is critical before it comes down. A part alone that hangs on a crane may be set down.",
  wrong: `fastener wheel-nut "Wheel nut"
  critical "a wheel"
step strip "Wheel nuts slack"
  chock
  raise on jack
  slacken wheel-nut
  lower
# ^^^^^ error lowered-open
  done
`,
  right: `fastener wheel-nut "Wheel nut"
  critical "a wheel"
step strip "Wheel nuts slack and tight"
  chock
  raise on jack
  slacken wheel-nut
  tighten wheel-nut
  lower
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "lower")) return;
    const { story } = context;
    for (const it of story.support) {
      if (it.verb !== "lower") continue;
      // Nothing says that the machine was raised, and a line that can't be read may have said what else comes down.
      if (it.before.raised === undefined && it.before.unclear?.hold) continue;
      if (neverUp(story, it)) {
        const bared = story.parts.find((cell) => rollsOrCarries(cell.thing) && cell.history.some((was) => was.seq < it.seq && was.after.on < cell.total));
        const under = story.support.find((was) => was.verb === "under" && was.seq < it.seq);
        const what =
          bared !== undefined
            ? `${called(bared.thing, bared.place)} ${agreeing(bared.thing, "was")} off`
            : under !== undefined
              ? "somebody was underneath"
              : undefined;
        report({
          where: it.where,
          severity: what === undefined ? "warning" : "error",
          message: `Let down here, ${what === undefined ? "" : `${what} before, `}and nothing says that it was ever raised, nor on what it stood. Write \`raise on …\` and \`support on …\` where that was done.`,
        });
        continue;
      }
      const slung = slungAlone(story, it);
      const open = it.open
        .filter((cell) => !setOnItsWheels(story, cell, it) && !isOffWithItsPart(story, cell, it))
        .filter((cell) =>
          slung === undefined
            ? cell.kind === "part"
              ? rollsOrCarries(cell.thing) || (cell.thing.critical && bearsFrame(cell.thing))
              : cell.thing.critical
            : cell.kind === "fastener" && cell.thing.critical && slung.has(cell.thing.name),
        );
      if (open.length === 0) continue;
      const names = [...new Set(open.map((cell) => midSentence(cell.thing, cell.place)))];
      report({
        where: it.where,
        severity: "error",
        message: `It is let down while this is off or slack: ${few(names)}. Finish it first.`,
        related: open.flatMap((cell) => {
          const last = cell.history.findLast((moment) => moment.seq < it.seq);
          return last === undefined ? [] : [{ where: last.where, message: `${midSentence(cell.thing, cell.place)}: last here.` }];
        }),
      });
    }
  },
};

/** Nothing that was done before raised the machine, bore it, or bore a part of it. */
function neverUp(story: Story, it: SupportMoment): boolean {
  const before = (was: { readonly seq: number }) => was.seq < it.seq;
  return (
    !story.support.some((was) => before(was) && (was.verb === "raise" || was.verb === "support")) &&
    !story.blurred.some((was) => before(was) && was.after.unclear?.hold === true)
  );
}

/**
 * Where the machine itself never left the ground and only parts of it hang on the crane, those parts are set down, not the machine: what counts then
 * is what holds a part that is in its place. The names of those fasteners; nothing where the machine comes down.
 */
function slungAlone(story: Story, it: SupportMoment): ReadonlySet<string> | undefined {
  const { raised, supports } = it.before;
  if (raised !== undefined || !supports.some(({ on }) => on === "crane") || supports.some(({ part }) => part === undefined)) return undefined;
  const inPlace = supports.flatMap(({ part }) =>
    story
      .cells(part as string)
      .filter((cell): cell is PartCell => cell.kind === "part" && (cell.history.findLast(({ seq }) => seq < it.seq)?.after.on ?? cell.total) > 0),
  );
  return new Set(inPlace.flatMap((cell) => cell.thing.heldBy.map(({ text }) => text)));
}
