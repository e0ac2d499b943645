// Taken off while something still holds it, or stands before it.
import type { JobRule } from "../rule.ts";
import { called, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "part-still-held",
  group: "Parts",
  severity: "error",
  safety: false,
  title: "Removed while a fastener that holds it is done up, or a part before it is on",
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
  done
`,
  scope: "job",
  check({ story, report }) {
    const said = new Map<object, Set<string>>();
    for (const cell of story.parts) {
      if (cell.unsure) continue;
      for (const it of cell.history) {
        if (it.verb !== "remove" || it.action === undefined || (it.stillHeld.length === 0 && it.stillBehind.length === 0)) continue;
        // One line that draws both sides is one mistake.
        const names = said.get(it.action) ?? new Set();
        said.set(it.action, names);
        if (names.has(cell.thing.name)) continue;
        names.add(cell.thing.name);
        const held = it.stillHeld.map((by) => `${midSentence(by.thing, by.place)} is still done up`);
        const behind = it.stillBehind.map((by) => `${midSentence(by.thing, by.place)} is still on`);
        const first = it.stillHeld.length > 0 ? `undo ${[...new Set(it.stillHeld.map((by) => by.thing.name))].join(", ")}` : `remove ${[...new Set(it.stillBehind.map((by) => by.thing.name))].join(", ")}`;
        report({
          where: it.where,
          severity: "error",
          message: `${called(cell.thing, cell.place)} comes off while ${listed([...held, ...behind])}. Write \`${first}\` before this line.`,
          fixes: [{ title: `Write \`${first}\` above`, edits: [{ where: { ...it.where, at: { from: it.action.at.from, to: it.action.at.from } }, text: `${first}\n  ` }] }],
        });
      }
    }
  },
};
