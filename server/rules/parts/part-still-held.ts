// Taken off while something still holds it, or stands before it.
import type { JobRule } from "../rule.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt, few, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "part-still-held",
  group: "Parts",
  severity: "error",
  safety: false,
  title: "Removed while a fastener that holds it is done up, or a part before it is on; fitted behind one that is on",
  why: "Either a line is missing, and what was undone will not be accounted for on the way back, or the part would have been forced. Write what was undone, in the order in which it was.",
  wrong: `fastener hub-nut "Hub nut"
part hub "Hub"
  held by hub-nut
step strip "Hub off"
  remove hub
#        ^^^ error part-still-held (fix)
  done
`,
  right: `fastener hub-nut "Hub nut"
part hub "Hub"
  held by hub-nut
step strip "Hub off"
  undo hub-nut
  remove hub
  done
`,
  fixed: `fastener hub-nut "Hub nut"
part hub "Hub"
  held by hub-nut
step strip "Hub off"
  undo hub-nut
  remove hub
  note "___"
  done
`,
  scope: "job",
  check({ story, report }) {
    const heldAt = (it: PartMoment) => it.stillHeld.filter((by) => !wereMissing(by, it.seq) && !letsGoSlack(by, it.seq));
    const behindAt = (it: PartMoment) => it.stillBehind.filter((by) => !wereMissing(by, it.seq));
    const lines = byLine<PartCell, PartMoment>(
      story.parts,
      (it, cell) => !cell.unsure && it.verb === "remove" && (heldAt(it).length > 0 || behindAt(it).length > 0),
    );
    for (const { cell, moment, moments, places, action } of lines) {
      const stillHeld = moments.flatMap(heldAt);
      const stillBehind = moments.flatMap(behindAt);
      const held = stillHeld.map((by) => `${midSentence(by.thing, by.place)} ${agreeing(by.thing, "is")} still done up`);
      const behind = stillBehind.map((by) => `${midSentence(by.thing, by.place)} ${agreeing(by.thing, "is")} still on`);
      const first =
        stillHeld.length > 0
          ? `undo ${[...new Set(stillHeld.map((by) => by.thing.name))].join(", ")}`
          : `remove ${[...new Set(stillBehind.map((by) => by.thing.name))].join(", ")}`;
      report({
        where: moment.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "comes")} off while ${few([...new Set([...held, ...behind])])}. Write \`${first}\` before this line.`,
        fixes: [
          {
            title: `Write \`${first}\` above`,
            edits: [{ where: { ...moment.where, at: { from: action.at.from, to: action.at.from } }, text: `${first}\n  ` }],
          },
        ],
      });
    }
    const behind = byLine<PartCell, PartMoment>(story.parts, (it, cell) => !cell.unsure && it.verb === "fit" && it.stillBehind.length > 0);
    for (const { cell, moment, moments, places } of behind) {
      const front = [...new Set(moments.flatMap((it) => it.stillBehind).map((by) => midSentence(by.thing, by.place)))];
      const never = moment.over.length > 0 ? " Nothing says that the old one came off." : "";
      report({
        where: moment.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "goes")} on behind what is still on: ${few(front)}.${never} Write what came off first.`,
      });
    }
  },
};

/** What clamps or pinches holds while it is tight: slackened, it stays on, and what it held draws out of it. */
function letsGoSlack({ thing, history }: FastenerCell, seq: number): boolean {
  const then = history.findLast((it) => it.seq < seq)?.after;
  return then !== undefined && then.on > 0 && !then.lots.some((lot) => lot.tight) && clamps.test(`${thing.name.replaceAll("-", " ")}, ${thing.title ?? ""}`);
}

const clamps = /\b(clamp\w*|pinch|grub|set screws?|hose clips?|bands?|gib)\b/iu;

/** Those that seem to be on were never there: found missing further down, before any went back. Many take apart first and write below what was not there. */
function wereMissing(cell: FastenerCell | PartCell, seq: number): boolean {
  const history = cell.history as readonly (FastenerMoment | PartMoment)[];
  const then = history.findLast((it) => it.seq < seq)?.after.on ?? cell.total;
  let gone = 0;
  for (const it of history) {
    if (it.seq <= seq) continue;
    if (it.verb === "fit" || it.verb === "tighten") break;
    if (it.verb === "found") gone += Math.max(0, it.before.on + it.before.off - it.after.on - it.after.off);
  }
  return gone > 0 && gone >= then;
}
