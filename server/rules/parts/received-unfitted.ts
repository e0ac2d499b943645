// A new one came, the thing went back, and nobody wrote which one went on.
import type { FindingEntry, OrderEntry, StepEntry } from "../../../grammar/tree.ts";
import { memo } from "../../model/memo.ts";
import { ordersOf } from "../../model/orders.ts";
import { neverGoesBack } from "../../model/things.ts";
import { where } from "../../model/where.ts";
import { compare, ratio } from "../../quantities/exact.ts";
import { decidedAt, findingsOf } from "../../story/decisions.ts";
import { saysAllOrNone } from "../all-or-none.ts";
import { byLine } from "../by-line.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { piecesCame } from "../../supply/beyond-orders.ts";
import { type JobRule, newColumn } from "../rule.ts";
import { called, midSentence } from "../wording.ts";

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
    // What was worked on is condemned no more by its decision: which of the two that was is asked here.
    const isWorkedOn = (cell: PartCell | FastenerCell) => moments(cell).some((it) => it.phase === "done" && it.verb === "repair");
    const mustBeNew = (cell: PartCell | FastenerCell) =>
      neverGoesBack(cell.thing) || (!isWorkedOn(cell) && decidedAt(story, cell.thing.name, cell.place, cell.total).some((it) => it.says === "new"));
    for (const [name, lines] of ordersOf(job).items) {
      const came = lines.find((it) => it.status?.status === "received");
      // Which shims are in is for `fitted` to say.
      if (came === undefined || job.things.get(name)?.kind === "shims") continue;
      const cells = story.cells(name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
      // What must be new is said by the rules that say so.
      const short = fewerThanCame(story, name, cells);
      const asked = short === undefined ? cells : cells.filter((cell) => !mustBeNew(cell) && isToGo(story, cell));
      if (short === undefined && cells.some((cell) => mustBeNew(cell) || cell.unsure || moments(cell).some(isFittedNew))) continue;
      const day = came.status?.date?.text;
      // Nuts and bolts that came off are often written back by `tighten` alone.
      const back = (it: PartMoment | FastenerMoment) =>
        (it.verb === "fit" || (it.verb === "tighten" && it.after.on > it.before.on)) &&
        it.phase === "done" &&
        !it.forNow &&
        (day === undefined || it.day === undefined || it.day >= day) &&
        (short === undefined ||
          (it.verb === "fit" && it.moved.length > 0 && it.moved.every((lot) => !lot.isNew) && (it.visit === undefined || !tellsOfASpare(it.visit.entry))));
      for (const cell of byLine<PartCell | FastenerCell, PartMoment | FastenerMoment>(asked, back as never).slice(0, 1)) {
        const { moment, action } = cell;
        const fitted = action.verb === "fit";
        const { name } = cell.cell.thing;
        report({
          where: moment.where,
          severity: "warning",
          open: true,
          message:
            short === undefined
              ? `A new ${called(cell.cell.thing).toLowerCase()} came, and ${fitted ? "this one isn't written `new`" : `no line says \`fit ${name} new\``}: which one went on? Write \`${fitted ? "new" : `fit ${name} new`}\`, or accept received-unfitted and say why.`
              : `${short.came} new ones of the ${midSentence(cell.cell.thing)} came and ${short.fitted === 1 ? "only one" : `only ${short.fitted}`} went in: is this the old one? Write \`new\`, decide \`reuse\` in a finding of it, or note where the spare lies.`,
          related: [{ where: where(came.file, came.entry, came.detail.row, came.detail.keyword), message: "Received by this order." }],
          ...(fitted ? { fixes: [{ title: "Write `new`", edits: [{ where: { ...moment.where, at: newColumn(action) }, text: " new" }] }] } : {}),
        });
      }
    }
  },
};

/** As many new ones came as there are of it in the machine, and fewer of them went in. What is sold by the pack, or may be a spare by the words of its order, is no such. */
function fewerThanCame(
  story: Story,
  name: string,
  cells: readonly (PartCell | FastenerCell)[],
): { readonly came: number; readonly fitted: number } | undefined {
  const fitted = cells.reduce((sum, cell) => sum + moments(cell).reduce((n, it) => n + (isFittedNew(it) ? it.count : 0), 0), 0);
  const total = cells.reduce((sum, { total }) => sum + total, 0);
  if (fitted === 0 || fitted >= total || cells.some(({ unsure, thing }) => unsure || thing.implied || neverGoesBack(thing))) return undefined;
  const { items, work } = ordersOf(story.job);
  if (work.has(name) || (items.get(name) ?? []).some(({ entry }) => tellsOfASpare(entry))) return undefined;
  const came = piecesCame(story, name);
  return came !== undefined && compare(came, ratio(total)) === 0 ? { came: total, fitted } : undefined;
}

/** Its own finding says that it is renewed, and no word keeps it or mends it. Where none says so, the second one may be a spare. */
function isToGo(story: Story, cell: PartCell | FastenerCell): boolean {
  const findings = (findingsOf(story).get(cell.thing.name) ?? []).filter((it) => it.places.includes(cell.place));
  return (
    findings.some(({ entry }) =>
      entry.details.some((it) => it.kind === "because" && (renewed.test(it.text?.value ?? "") || saysAllOrNone(it.text?.value ?? ""))),
    ) &&
    !findings.some(({ entry }) => tellsOfASpare(entry)) &&
    !moments(cell).some((it) => it.verb === "repair") &&
    !decidedAt(story, cell.thing.name, cell.place, cell.total).some((it) => it.says === "otherwise" && it.inWords)
  );
}

const renewed =
  /^(?!.*\b(not|never|un|last|was|had|been)\b).*\b(renewed|replaced) (with|all|both|together|as well|too|anyway|the same)|\b(both|all) (are |to be )?renewed\b/iu;

function isFittedNew(it: PartMoment | FastenerMoment): boolean {
  return it.phase === "done" && it.isNew && it.verb === "fit";
}

const tellsOfASpare = memo(({ details }: OrderEntry | FindingEntry | StepEntry) =>
  (details as readonly { readonly text?: unknown }[]).some(
    ({ text }) => typeof text === "object" && text !== null && "value" in text && typeof text.value === "string" && spare.test(text.value),
  ),
);

const spare = /\b(spares?|shel(f|ves)|stock|drawer|next time|other one|the second|kept|keep|put by|over|for (later|another))\b/i;

function moments(cell: PartCell | FastenerCell): readonly (PartMoment | FastenerMoment)[] {
  return cell.history;
}
