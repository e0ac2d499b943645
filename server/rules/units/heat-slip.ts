// Heated further than what is heated stands: a nought too many, or a bearing that is spoilt.
import type { Thing } from "../../model/things.ts";
import { measured, quantityText } from "../../model/values.ts";
import { type Measured, quantity } from "../../quantities/quantity.ts";
import { midSentence } from "../wording.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "heat-slip",
  group: "Units and figures",
  severity: "warning; open at release of something critical of bronze, brass, aluminium or white metal that was fitted so",
  safety: false,
  title: "Heated to more than what is heated stands",
  why: "A rolling bearing that was above about 120 °C has lost hardness and size, and nothing is shrunk on above about 300 °C: steel loses its temper, bronze and aluminium their strength (common practice; the maker's figure goes before). Mostly it is a nought too many, or the other scale.",
  wrong: `part race "Inner race of the bearing"
step a "Race on"
  heat race to 400 degC
#              ^^^^^^^^ warning heat-slip
  fit race
  done
`,
  right: `part race "Inner race of the bearing"
step a "Race on"
  heat race to 90 degC
  fit race
  done
`,
  scope: "job",
  check({ job, story, report }) {
    for (const { entry, file } of story.visits) {
      for (const detail of entry.details) {
        if (detail.kind !== "action" || detail.fault !== undefined) continue;
        const heat = detail.verb === "heat" ? measured(detail.temperature) : undefined;
        if (heat?.unit.dimension !== "temperature" || detail.temperature === undefined) continue;
        const things = detail.things.map((it) => job.things.get(it.name.text)).filter((it) => it !== undefined);
        const bearing = things.find(rolls);
        if (heat.value.compare(bearing === undefined ? most.any : most.bearing) <= 0) continue;
        const what = bearing ?? things[0];
        report({
          where: { file, entry, row: detail.row, at: detail.temperature.at },
          severity: "warning",
          // Warmed to go on, of what melts or goes soft below that, and critical: it is in.
          ...(entry.details.some(
            (it) =>
              it.kind === "action" && it.verb === "fit" && it.things.some(({ name }) => things.some((thing) => thing.name === name.text && isSoft(thing))),
          )
            ? { open: true }
            : {}),
          message: `${quantityText(detail.temperature)}: ${bearing === undefined ? "steel loses its temper at that, bronze and aluminium their strength" : `a rolling bearing is spoilt by that (common practice: about 120 degC at most)`}. ${meant(heat)}If it was so, ${what === undefined ? "it" : `the ${midSentence(what)}`} is not to go back.`,
        });
      }
    }
  },
};

const most = { bearing: (quantity("150", "degC") as Measured).value, any: (quantity("350", "degC") as Measured).value };

/** Of a metal that has lost its strength at that. */
function isSoft(thing: Thing): boolean {
  return thing.kind === "part" && thing.critical && thing.material !== undefined && thing.material !== "steel" && thing.material !== "cast-iron";
}

/** A ball or roller bearing, or a ring of one, by its words; a plain bearing is metalled hot. */
function rolls({ name, title = "" }: Pick<Thing, "name" | "title">): boolean {
  return /(ball|roller|needle|rolling)[- ](\p{L}+[- ])?bearing|bearing[- ](race|cone|cup|ring)|(inner|outer)[- ](race|ring|cone)|(^|[^\p{L}])races?($|[^\p{L}])/iu.test(
    `${name}\n${title}`,
  );
}

/** A tenth of it, where that is a heat to which things are warmed. */
function meant({ value, figure, unit }: Measured): string {
  if (!/^\d{2,}0$/.test(figure)) return "";
  const tenth = quantity(figure.slice(0, -1), unit.spelling);
  return tenth === undefined || tenth.value.compare(value) >= 0 ? "" : `Is ${tenth.figure} ${unit.spelling} meant? `;
}
