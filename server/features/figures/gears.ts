// Backlash of bevel gears: what an axial move does to it, the usual backlash by pitch, a dial read off the pitch circle. All of it estimates or recommendations.
// Invariant: no figure here is a limit, and each answer says so.
import { atPitchRadius, backlashPerMove, backlashSource, pitchAngleOfWheel, usualBacklashFor } from "../../trade/backlash.ts";
import { type Exact, figure } from "../../quantities/exact.ts";
import { type Answer, type Value, known, notKnown, plainFloat, roughly, value, word } from "./answer.ts";
import { type Part, type Question, bare, partsOf, take, takeAll } from "./question.ts";
import { above, figureIn, inUnitOf, quantityIn, readQuantity } from "./words.ts";

const ask = ["backlash 0.1 mm teeth 11/43 pressure 20 deg", "backlash 0.010 to 0.006 in teeth 11/40 pressure 20 deg", "backlash DP 4"];
const notALimit = "An estimate: the maker's backlash rules. Move a little, measure again at three teeth or more, and look at the contact pattern.";

export function gearFigure(q: Question): Answer | undefined {
  const asked = q.left;
  if (!/\b(?:backlash|axial move|crown ?wheel|bevel)\b/i.test(asked)) return undefined;
  takeAll(q, /\b(?:backlash|axial move(?: of)?|crown ?wheel(?: and pinion)?|bevel(?: gears?)?|change)\b/i);
  // What is usual in a car or a lorry is common practice, asked for elsewhere.
  if (/\b(?:cars?|heavy|trucks?|lorr(?:y|ies)|pre-?war|light)\b/i.test(q.left)) return undefined;
  q.left = q.left
    .replace(/(\d) ?: ?(\d)/g, "$1/$2")
    // Said in either order.
    .replace(/(?<![\d./-])(\d+(?:\.\d+)?) ?(?:DP|D\.P\.?|diametral pitch)(?![\p{L}\d]| ?\d)/iu, " DP $1 ");
  const noFigure = !/\d/.test(q.left);
  const parts = partsOf(q, {
    teeth: "teeth|ratio",
    pressure: "pressure(?: angle)?",
    spiral: "spiral(?: angle)?",
    shaft: "shafts?(?: angle)?",
    pitch: "DP|diametral pitch",
    module: "module",
    radius: "pitch radius|(?:at|on) the pitch circle(?: of)?",
    at: "(?:read |taken )?at(?: radius)?",
  });
  if (parts.has("pitch") || parts.has("module")) return usual(parts.get("pitch"), parts.get("module"));
  if (parts.has("radius")) return atPitchCircle(parts.get(""), parts.get("at"), parts.get("radius"));
  // A question without teeth may be for what is usual in a car or a lorry.
  if (!parts.has("teeth"))
    return !noFigure || /^backlash\b/i.test(asked) ? notKnown("Say the teeth of pinion and wheel, and the pressure angle.", ...ask) : undefined;
  const teeth = take(parts.get("teeth") as Part, /(?<![\d.])(\d{1,4})\s*(?:\/|to|and|,|x)\s*(\d{1,4})(?![\d.])/);
  const pressure = angleIn(parts.get("pressure"));
  const [spiral, shaft] = [angleIn(parts.get("spiral")), angleIn(parts.get("shaft"))];
  if (teeth === undefined || pressure === undefined || (parts.has("spiral") && spiral === undefined) || (parts.has("shaft") && shaft === undefined))
    return notKnown("Say the teeth of pinion and wheel, and the pressure angle.", ...ask);
  const [a, b] = [Number(teeth[1]), Number(teeth[2])];
  // The wheel is the one with more teeth, in whichever order they were said.
  const pair = {
    teethOfPinion: Math.min(a, b),
    teethOfWheel: Math.max(a, b),
    pressureAngle: pressure,
    spiralAngle: spiral ?? 0,
    shaftAngle: shaft ?? 90,
  };
  const per = backlashPerMove(pair);
  if (per === undefined) return notKnown("Angles so far from the usual, or no teeth, give no estimate.", ...ask);
  const values: Value[] = [
    roughly("wheel, per unit of move", per.wheel),
    roughly("pinion, per unit of move", per.pinion),
    roughly("wheel, square to the tooth", per.normalWheel),
    roughly("pitch angle of the wheel", pitchAngleOfWheel(pair), "deg"),
  ];
  const said = bare(parts.get("")?.left ?? "") !== "";
  const change = changeIn(parts.get(""));
  if (change === undefined && said) return notKnown("Say the backlash as a length, or from one length to another.", ...ask);
  if (change?.by.n === 0n) return notKnown("A change of nothing needs no move.", ...ask);
  const source = { source: backlashSource, mark: "estimate" } as const;
  const factors = `${plainFloat(Number(per.wheel.toFixed(4)))} of backlash along the pitch circle for 1 of axial move of the wheel, ${plainFloat(Number(per.pinion.toFixed(4)))} for 1 of the pinion`;
  if (change === undefined) return known(`Estimate: ${factors}.`, values, [source], [notALimit]);
  const by = Math.abs(change.by.valueOf());
  const move = (k: number) => by / k;
  values.push(
    roughly("move of the wheel", move(per.wheel), change.unit),
    roughly("move of the pinion", move(per.pinion), change.unit),
    roughly("backlash for that move of the wheel", by * per.wheel, change.unit),
  );
  const towards = change.by.s < 0n ? "towards the pinion" : "away from the pinion";
  const which = change.from === undefined ? "" : `, ${towards}`;
  if (change.from !== undefined) values.push(word("direction", towards));
  return known(
    `Estimate: to change the backlash by ${plainFloat(by)} ${change.unit}, move the wheel ${plainFloat(Number(move(per.wheel).toPrecision(4)))} ${change.unit} along its axis${which} (${factors}). Moved by ${plainFloat(by)} ${change.unit}, the wheel changes it by ${plainFloat(Number((by * per.wheel).toPrecision(4)))} ${change.unit}.`,
    values,
    [source],
    [notALimit, "On two sides what is taken from one goes to the other, so that the bearings keep their preload."],
  );
}

function angleIn(part: Part | undefined): number | undefined {
  const bare = figureIn(part);
  if (bare !== undefined) return bare.valueOf();
  const it = quantityIn(part);
  return it?.unit.dimension === "angle" ? it.value.valueOf() : undefined;
}

/** `0.1 mm`, or `0.010 to 0.006 in`, `from 0.010 in to 0.006 in`. */
function changeIn(part: Part | undefined): { readonly by: Exact; readonly unit: string; readonly from?: Exact } | undefined {
  if (part === undefined) return undefined;
  take(part, /^(?:of|from|by|,|\s)+/i);
  const first = readQuantity(part);
  if (first !== undefined && take(part, /^ ?(?:to\b|\.\.) ?/i) !== undefined) {
    const second = readQuantity(part)?.measured;
    if (second === undefined || second.unit.dimension !== "length") return undefined;
    const start = first.measured ?? inUnitOf(first, second.unit);
    if (start.unit.dimension !== "length") return undefined;
    const from = start.value.div(second.unit.factor);
    return { by: second.value.div(second.unit.factor).sub(from), unit: second.unit.name, from };
  }
  const only = first?.measured;
  return only === undefined || only.unit.dimension !== "length" ? undefined : { by: only.value.div(only.unit.factor), unit: only.unit.name };
}

function usual(pitch: Part | undefined, module: Part | undefined): Answer {
  const asked = (pitch ?? module) as Part;
  const read = take(asked, /^[=: ]*(\d+(?:\.\d+)?)(?:(?: ?(?:-|to|\.\.) ?)(\d+(?:\.\d+)?))?(?: ?mm\b)?(?![\d.])/i);
  const said = read === undefined ? undefined : Number(read[1]);
  const second = read?.[2];
  const dp =
    said === undefined ? undefined : pitch !== undefined ? (second === undefined ? said : (said + Number(second)) / 2) : said > 0 ? 25.4 / said : undefined;
  const rows = dp === undefined ? [] : usualBacklashFor(dp);
  if (rows.length === 0) return notKnown("The table of usual backlash goes from diametral pitch 1 to 20.", "backlash DP 4", "backlash module 5 mm");
  const values = rows.flatMap((it) => [
    value("quality 7 to 13, least", figure(it.fine[0]), "in"),
    value("quality 7 to 13, most", figure(it.fine[1]), "in"),
    value("quality 3 to 6, least", figure(it.coarse[0]), "in"),
    value("quality 3 to 6, most", figure(it.coarse[1]), "in"),
  ]);
  const text = rows.map(
    (it) =>
      `diametral pitch ${it.from} to ${it.to}: ${it.fine[0]} .. ${it.fine[1]} in for quality 7 to 13, ${it.coarse[0]} .. ${it.coarse[1]} in for quality 3 to 6`,
  );
  return known(`Recommended normal backlash of bevel and hypoid gears, ${text.join("; ")}.`, values, rows, [
    "A recommendation for new gears, not a limit: the maker's backlash rules.",
  ]);
}

function atPitchCircle(reading: Part | undefined, at: Part | undefined, radius: Part | undefined): Answer {
  const [r, a, p] = [quantityIn(reading), quantityIn(at), quantityIn(radius)];
  const unclear = () => notKnown("Say what the dial read, at what radius, and the pitch radius.", "backlash 0.009 in at 4.5 in pitch radius 4.0 in");
  if (r?.unit.dimension !== "length" || a?.unit.dimension !== "length" || p?.unit.dimension !== "length" || !above(a) || !above(p)) return unclear();
  const result = atPitchRadius(r.value.valueOf(), a.value.valueOf(), p.value.valueOf());
  if (result === undefined) return unclear();
  const exactly = r.value.mul(p.value).div(a.value).div(r.unit.factor);
  return known(
    `At the pitch radius of ${p.figure} ${p.unit.name} the backlash is ${plainFloat(result / r.unit.factor.valueOf())} ${r.unit.name}.`,
    [value("backlash", exactly, r.unit.name)],
    [{ source: "in proportion to the radius", mark: "computed" }],
  );
}
