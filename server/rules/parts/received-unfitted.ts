// A new one came, the thing went back, and nobody wrote which one went on.
import { ordersOf } from "../../model/orders.ts";
import { neverGoesBack } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { decidedAt } from "../../story/decisions.ts";
import { byLine } from "../by-line.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment } from "../../story/story.ts";
import { type JobRule, newColumn } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "received-unfitted",
  group: "Parts",
  severity: "warning; open at release",
  safety: false,
  title: "A new one was received, the old one came off and one went back, and no line says that it was the new one",
  why: "Old and new lie on one bench, and one of them went on. If it was the new one, write `new`; if the old one is right and the new one stays on the shelf, accept that with the reason. A record that leaves it open tells nobody what is in the machine.",
  wrong: `part bearing "Hub bearing"
supplier holm
order "H-1" to holm
  status received 2026-05-03
  item bearing 1
step on "Bearing off and on"
  remove bearing
  fit bearing
#     ^^^^^^^ warning received-unfitted (fix)
  done 2026-05-04
release by "A. Moor" 2026-05-10
`,
  right: `part bearing "Hub bearing"
supplier holm
order "H-1" to holm
  status received 2026-05-03
  item bearing 1
step on "Bearing off and on"
  remove bearing
  fit bearing new
  done 2026-05-04
release by "A. Moor" 2026-05-10
`,
  fixed: `part bearing "Hub bearing"
supplier holm
order "H-1" to holm
  status received 2026-05-03
  item bearing 1
step on "Bearing off and on"
  remove bearing
  fit bearing new
  note "___"
  done 2026-05-04
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check({ job, story, report }) {
    if (story.release === undefined) return;
    const mustBeNew = (cell: PartCell | FastenerCell) =>
      neverGoesBack(cell.thing) || decidedAt(story, cell.thing.name, cell.place, cell.total).some((it) => it.says === "new");
    for (const [name, lines] of ordersOf(job).items) {
      const came = lines.find((it) => it.status?.status === "received");
      // Which shims are in is for `fitted` to say.
      if (came === undefined || job.things.get(name)?.kind === "shims") continue;
      const cells = story.cells(name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
      // What must be new is said by the rules that say so.
      if (cells.some((cell) => mustBeNew(cell) || cell.unsure || moments(cell).some((it) => it.phase === "done" && it.isNew && it.verb === "fit"))) continue;
      const day = came.status?.date?.text;
      // Nuts and bolts that came off are often written back by `tighten` alone.
      const back = (it: PartMoment | FastenerMoment) =>
        (it.verb === "fit" || (it.verb === "tighten" && it.after.on > it.before.on)) &&
        it.phase === "done" &&
        !it.forNow &&
        (day === undefined || it.day === undefined || it.day >= day);
      for (const cell of byLine<PartCell | FastenerCell, PartMoment | FastenerMoment>(cells, back as never).slice(0, 1)) {
        const { moment, action } = cell;
        const fitted = action.verb === "fit";
        const { name } = cell.cell.thing;
        report({
          where: moment.where,
          severity: "warning",
          open: true,
          message: `A new ${called(cell.cell.thing).toLowerCase()} came, and ${fitted ? "this one isn't written `new`" : `no line says \`fit ${name} new\``}: which one went on? Write \`${fitted ? "new" : `fit ${name} new`}\`, or accept received-unfitted and say why.`,
          related: [{ where: where(came.file, came.entry, came.detail.row, came.detail.keyword), message: "Received by this order." }],
          ...(fitted ? { fixes: [{ title: "Write `new`", edits: [{ where: { ...moment.where, at: newColumn(action) }, text: " new" }] }] } : {}),
        });
      }
    }
  },
};

function moments(cell: PartCell | FastenerCell): readonly (PartMoment | FastenerMoment)[] {
  return cell.history;
}
