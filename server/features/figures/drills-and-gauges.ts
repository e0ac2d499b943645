// Drills by number and letter, sheet and wire by gauge: `No 7 drill`, `letter F drill in mm`, `14 SWG`, `22 AWG in mm`, `drill near 5.2 mm`.
import { figure } from "../../quantities/exact.ts";
import { type NamedDrill, drillNamed, drillSource, nearestDrills } from "../../trade/drill-sizes.ts";
import { type Gauge, awgOf, swgOf } from "../../trade/wire-gauges.ts";
import { type Answer, known, notKnown, shown, value, word } from "./answer.ts";
import { type Question, take, takeAll } from "./question.ts";
import { above, takeQuantity } from "./words.ts";

const inch = figure("25.4");

export function drillFigure(q: Question): Answer | undefined {
  if (!/\bdrills?\b/i.test(q.left)) return undefined;
  const number = take(q, /(?:\b(?:no|number)\b\.? ?|#)(\d{1,3})(?![\d./])/i);
  const letter = number === undefined ? take(q, /\b(?:letter ([A-Z])(?: drill| bit)?|([A-Z]) drill|drill (?:letter )?([A-Z])(?= ?$| in\b))\b/i) : undefined;
  takeAll(
    q,
    /\b(?:(?:twist )?drills?|drill bits?|bits?|diameter|in (?:mm|inches)|mm and inches|(?:in )?millimet(?:re|er)s|nearest|closest|near|number|letter|equivalent|hole)\b/i,
  );
  if (number !== undefined || letter !== undefined) {
    const name = number === undefined ? (letter?.[1] ?? letter?.[2] ?? letter?.[3] ?? "").toUpperCase() : `#${number[1]}`;
    const found = drillNamed(name);
    return found === undefined
      ? notKnown(`There is no drill ${name}: numbers go from 1 to 80, letters from A to Z.`, "No 7 drill in mm", "letter F drill in mm")
      : drill(found);
  }
  const size = takeQuantity(q, "length");
  if (size === undefined) return notKnown("Say the drill's number or letter, or a size.", "No 7 drill in mm", "letter F drill in mm", "drill near 5.2 mm");
  if (!above(size)) return notKnown("A drill is larger than nothing.", "drill near 5.2 mm");
  const { named, fraction } = nearestDrills(size.value.div(inch));
  const near = [named, fraction].filter((it) => it !== undefined);
  if (near.length === 0) return notKnown("No drill of the tables here is near that size.", "drill near 5.2 mm");
  return known(
    `Near ${size.figure} ${size.unit.name} (${shown(size.value, 5)} mm): ${near.map(text).join(", ")}.`,
    near.flatMap((it) => [word("drill", it.name.replace(/ in$/, "")), value(it.name, it.inches, "in"), value(it.name, it.inches.mul(inch), "mm", 6)]),
    [drillSource],
  );
}

function text(it: NamedDrill): string {
  return `${it.name} is ${shown(it.inches, 5)} in (${shown(it.inches.mul(inch), 5)} mm)`;
}

function drill(it: NamedDrill): Answer {
  return known(`Drill ${text(it)}.`, [value("diameter", it.inches, "in"), value("diameter", it.inches.mul(inch), "mm")], [drillSource]);
}

export function gaugeFigure(q: Question): Answer | undefined {
  const american = take(q, /\b(?:AWG|American wire gauge|(?:brown (?:&|and) sharpe|B ?& ?S) gauge)\b/i) !== undefined;
  const british = !american && take(q, /\bS\.?W\.?G\b\.?|\b(?:imperial )?standard wire gauge\b/i) !== undefined;
  if (!american && !british && !/(?<!feeler |thread |dial |bore |pressure )\b(?:gauge|gage)\b/i.test(q.left)) return undefined;
  takeAll(q, /\b(?:gauge|gage|sheet|wire|plate|steel|thick(?:ness)?|no\.?|number|diameter|(?:in|to) (?:mm|inches|thou))\b/i);
  takeAll(q, /[()]/);
  const number = take(q, /(?<![\d./-])(\d\/0|0{2,7}|\d{1,3})(?![\d./])/)?.[1];
  if (number === undefined) return american || british ? notKnown("Say the number of the gauge.", "14 SWG in mm", "22 AWG in mm") : undefined;
  if (!american && !british)
    return notKnown(`Which gauge? ${number} means different sizes in the imperial standard wire gauge and the American.`, `${number} SWG`, `${number} AWG`);
  const found = american ? awgOf(number) : swgOf(number);
  if (found === undefined)
    return notKnown(
      `There is no ${number} ${american ? "AWG here: it goes from 4/0 to 40" : "SWG here: it goes from 7/0 to 50"}.`,
      american ? "22 AWG in mm" : "14 SWG in mm",
    );
  return gauge(found, american);
}

function gauge(it: Gauge, american: boolean): Answer {
  const mm = it.inches.mul(inch);
  return known(
    `${it.name} is ${shown(it.inches, 4)} in (${shown(mm, 4)} mm)${american ? "" : "; the American gauge of that number is another size"}.`,
    [value("thickness", it.inches, "in"), value("thickness", mm, "mm", 6)],
    [it],
  );
}
