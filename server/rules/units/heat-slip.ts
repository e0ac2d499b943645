import type { Part, Thing } from "../../model/things.ts";
import { isLooseRing } from "../../model/read-with.ts";
import { measured, quantityText } from "../../model/values.ts";
import { type Measured, quantity } from "../../quantities/quantity.ts";
import { midSentence } from "../wording.ts";
import type { JobRule } from "../rule.ts";
import { wentOnSo } from "./shared/went-on-hot.ts";

export const rule: JobRule = {
  id: "heat-slip",
  group: "Units and figures",
  severity:
    "warning; open at release of something critical that rolls or is hardened, or of bronze, brass, aluminium or white metal, or of steel far hotter, and that went on so or is on",
  safety: false,
  title: "Heated to more than what is heated stands",
  why: "A rolling bearing that was above about 120 °C has lost hardness and size, and nothing is shrunk on above about 300 °C: steel loses its temper, bronze and aluminium their strength (common practice; the maker's figure goes before). White metal melts from about 223 °C (ASTM B23). Mostly it is a nought too many, or the other scale.",
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
    for (const visit of story.visits) {
      const { entry, file } = visit;
      for (const detail of entry.details) {
        if (detail.kind !== "action" || detail.fault !== undefined) continue;
        const heat = detail.verb === "heat" ? measured(detail.temperature) : undefined;
        if (heat?.unit.dimension !== "temperature" || detail.temperature === undefined) continue;
        const things = detail.things.map((it) => job.things.get(it.name.text)).filter((it) => it !== undefined);
        const spoilt = things.find((it) => heat.value.compare(mostOf(it)) > 0);
        if (spoilt === undefined && (things.length > 0 || heat.value.compare(most.any) <= 0)) continue;
        const what = spoilt ?? things[0];
        report({
          where: { file, entry, row: detail.row, at: detail.temperature.at },
          severity: "warning",
          // Warmed, of what melts, goes soft or loses its hardness at that, and critical: it went on so, or was on and stayed.
          ...(spoilt !== undefined && spoilt.kind === "part" && spoilt.critical && isSpoilt(spoilt, heat.value) && wentOnSo(story, spoilt, detail, visit)
            ? { open: true }
            : {}),
          message: `${quantityText(detail.temperature)}: ${what === undefined ? said.any : said[kindOf(what)]}. ${meant(heat)}If it was so, ${what === undefined ? "it" : `the ${midSentence(what)}`} is not to go back.`,
        });
      }
    }
  },
};

/** Nothing is warmed to less than that. */
const least = (quantity("45", "degC") as Measured).value;

type Kind = "bearing" | "white-metal" | "any";

const figure = (text: string) => (quantity(text, "degC") as Measured).value;
const most = { bearing: figure("150"), "white-metal": figure("220"), any: figure("350") };

const said: Readonly<Record<Kind, string>> = {
  bearing: "a rolling bearing is spoilt by that (common practice: about 120 degC at most)",
  "white-metal": "white metal melts at that (ASTM B23: from about 223 degC)",
  any: "steel loses its temper at that, bronze and aluminium their strength",
};

function kindOf(thing: Thing): Kind {
  const isLined =
    thing.kind === "part" &&
    (thing.material === "white-metal" || (bearingMetal.has(thing.material ?? "") && /\bwhite[- ]?metal|\bbabbitt/iu.test(thing.title ?? "")));
  return isLined ? "white-metal" : rolls(thing) ? "bearing" : "any";
}

/** Of these a brass or a shell is made, and lined. */
const bearingMetal: ReadonlySet<string> = new Set(["bronze", "brass", "steel", "cast-iron"]);

function mostOf(thing: Thing): Measured["value"] {
  return most[kindOf(thing)];
}

/** Of a metal that has lost its strength at that, or what has lost its hardness. */
function isSpoilt(thing: Part, heat: Measured["value"]): boolean {
  const { material, name, title = "" } = thing;
  if (kindOf(thing) !== "any") return true;
  return material === undefined || material === "steel" ? heat.compare(soft) >= 0 || hardened.test(`${name}\n${title}`) : material !== "cast-iron";
}

/** Well above what anything is shrunk on at: a forging that was tempered below it is soft (common practice: what steers, carries or stops is not made that hot). */
const soft = figure("450");

/** What is of hardened steel, by its words: common practice. */
const hardened =
  /(^|[^\p{L}])(pinions?|gears?|bevels?|crown[- ]?wheels?|worms?|cams?|camshafts?|springs?|(king|gudgeon|crank|swivel)[- ]?pins?)($|[^\p{L}])(?!(box|case|lever|cover|housing))/iu;

const loose: ReadonlySet<string> = new Set(["ball", "roller", "needle"]);

/** A ball or roller bearing, or a ring of one, by its words; a plain bearing is metalled hot. */
function rolls(thing: Thing): boolean {
  const { name, title = "" } = thing;
  if (thing.kind === "part" && isLooseRing(thing, loose)) return true;
  const words = `${name}\n${title}`;
  // “Ball bearing”, and “Hub bearing, ball” as a store writes it.
  if (/bearing/i.test(words) && /(^|[^\p{L}])(balls?|rollers?|needles?|rolling)($|[^\p{L}])/iu.test(words)) return true;
  return /bearing[- ](race|cone|cup|ring)|(inner|outer)[- ](race|ring|cone)|(^|[^\p{L}])races?($|[^\p{L}])/iu.test(words);
}

/** A tenth of it, where that is a heat to which things are warmed. */
function meant({ value, figure, unit }: Measured): string {
  if (!/^\d{2,}0$/.test(figure)) return "";
  const tenth = quantity(figure.slice(0, -1), unit.spelling);
  return tenth === undefined || tenth.value.compare(value) >= 0 || tenth.value.compare(least) < 0 ? "" : `Is ${tenth.figure} ${unit.spelling} meant? `;
}
