// Oil or grease on what a brake holds by.
import { allWords } from "../../model/titles.ts";
import { relationsOf } from "../../model/relations.ts";
import type { PartCell, PartMoment } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "friction-oiled",
  group: "Parts",
  severity: "warning",
  safety: false,
  title: "A brake drum, disc, band or lining that was oiled or greased, and not cleaned since",
  why: "A brake holds by dry friction, and a film of oil on its face takes most of that away; a lining that has soaked it up does not give it back. Clean the face, or accept it where the brake is one that runs in oil.",
  wrong: `part drum "Brake drum"
  critical "brakes"
step refit "Drum back"
  remove drum
  oil drum
#     ^^^^ warning friction-oiled
  fit drum
  done
`,
  right: `part drum "Brake drum"
  critical "brakes"
step refit "Drum back"
  remove drum
  oil drum
  clean drum
  fit drum
  done
`,
  scope: "job",
  check({ job, story, report }) {
    for (const cell of story.parts) {
      const { name, title = "" } = cell.thing;
      const names = [name.replaceAll("-", " "), ...title.split(/[,:(]/)].map((it) => it.trim());
      if (
        cell.thing.implied ||
        cell.unsure ||
        !names.some((it) => face.test(it)) ||
        inOil.test(allWords(cell.thing)) ||
        relationsOf(job).fluidsIn.has(cell.thing.name)
      )
        continue;
      const moment = cell.history.findLast(isOiled);
      if (moment === undefined || isCleanSince(cell, moment)) continue;
      report({
        where: moment.where,
        severity: "warning",
        open: cell.thing.critical,
        message: `${called(cell.thing, cell.place)} is oiled here, and a brake holds by a dry face. Clean it, and write that, or write what was oiled.`,
      });
    }
  },
};

/** By the words for what rubs, at the end of a name or of a title: a drum's bearing and a shoe's pivot live by their grease. */
const face = /\b(?:(?:brake|winch)[- ](?:drum|dis[ck]|band|pad|block)|lining)s?$/i;

/** Some brakes run in oil, and some linings are cut for it. */
const inOil = /\boil|\bwet\b/i;

function isOiled(it: PartMoment): boolean {
  return it.phase === "done" && (it.action?.verb === "oil" || it.action?.verb === "grease");
}

/** Cleaned, mended, or another one is on. */
function isCleanSince(cell: PartCell, { seq }: PartMoment): boolean {
  return cell.history.some(
    (it) => it.seq > seq && it.phase === "done" && (it.action?.verb === "clean" || it.verb === "repair" || (it.verb === "fit" && it.isNew)),
  );
}
