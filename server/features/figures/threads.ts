// What a thread is, and what a bolt of it holds: `1/2-20 UNF grade 5`, `M10 class 8.8`, `2 BA`; the threads of a size; a grade or class by itself.
import { type Exact, compare, exact, figure } from "../../quantities/exact.ts";
import { unitOf } from "../../quantities/units.ts";
import { iso898, j429, nutFactors, proofLoad, strengthOf } from "../../trade/bolts.ts";
import type { Sourced } from "../../trade/source.ts";
import { suitablePin } from "../../trade/split-pins.ts";
import { asWhitworth, diametersOf, formOf } from "../../trade/thread-forms.ts";
import { inchRows, inchSource, metricRows, metricSource, otherRows, otherSource } from "../../trade/thread-tables.ts";
import type { Thread, ThreadFamily } from "../../trade/thread.ts";
import { type Answer, type Known, type Value, known, notKnown, shown, value, word } from "./answer.ts";
import { type Question, bare, take, takeAll } from "./question.ts";
import { type Bolt, takeBolt, unknownThread } from "./threads-read.ts";
import { takeQuantity } from "./words.ts";

const about =
  /\b(?:stress area|tensile(?: stress area)?|proof (?:load|stress|strength)|proof|strength|strong|yield|pitch|tpi|threads? per inch|threads?|(?:major|minor|core|root|effective|pitch|outside|crest|nominal) (?:and (?:effective|core|minor|major) )?(?:diameters?|dia\.?)|core|effective|diameters?|over the crests?|across the crests?|bolts?|screws?|studs?|nuts?|steel|form|class|inch|(?:spark|sump|drain) plugs?|in (?:mm|inches)|dimensions?|details?|data)\b/i;

export function threadFigure(q: Question): Answer | undefined {
  const bolt = takeBolt(q);
  if (bolt.thread === undefined && bolt.unknown === undefined && bolt.grade === undefined && bolt.class === undefined) return undefined;
  if (bolt.thread !== undefined) {
    takeAll(q, about);
    return boltAnswer(bolt.thread, bolt);
  }
  if (bolt.unknown !== undefined) {
    takeAll(q, about);
    return bare(q.left) === "" ? unknownThread(bolt.unknown) : undefined;
  }
  return strengthAnswer(bolt, q);
}

export function boltAnswer(thread: Thread, bolt: Bolt): Known {
  const said: string[] = [];
  const values: Value[] = [];
  const from: Sourced[] = [thread];
  const inch = unitOf("in") as NonNullable<ReturnType<typeof unitOf>>;
  const inches = thread.tpi !== undefined;
  values.push(word("thread", thread.leftHand ? `${thread.designation} LH` : thread.designation));
  values.push(...bothIn("major diameter", thread.majorMm, inches));
  if (thread.tpi !== undefined) values.push(value("threads per inch", figure(String(thread.tpi))));
  values.push(value("pitch", thread.pitchMm, "mm"), value("flank angle", figure(String(thread.flankAngle)), "deg"));
  said.push(
    `${thread.designation}${thread.leftHand ? " LH, done up by turning to the left" : ""}: ${inches ? `${shown(thread.majorMm.div(inch.factor))} in (${shown(thread.majorMm, 6)} mm)` : `${shown(thread.majorMm)} mm (${shown(thread.majorMm.div(inch.factor), 4)} in)`} across, ${thread.tpi === undefined ? "" : `${thread.tpi} threads an inch, `}pitch ${shown(thread.pitchMm)} mm, flanks at ${thread.flankAngle}\u00b0`,
  );
  const fine = thread.family === "M" ? metricRows.find((it) => `M${it.major}` === thread.size) : undefined;
  if (fine !== undefined) {
    values.push(value("coarse pitch", figure(fine.coarse), "mm"), ...[...fine.fine, ...fine.fineFromMemory].map((it) => value("fine pitch", figure(it), "mm")));
    if (fine.fine.length > 0) said.push(`coarse ${fine.coarse}, fine ${fine.fine.join(", ")} mm`);
  }
  diameterParts(thread, said, values, from);
  if (thread.stressAreaMm2 !== undefined) {
    const area = thread.stressAreaMm2.div(inch.factor).div(inch.factor);
    values.push(value("stress area", thread.stressAreaMm2, "mm2", 6), value("stress area", area, "in2", 6));
    said.push(`stress area ${inches ? `${shown(area)} in\u00b2 (${shown(thread.stressAreaMm2)} mm\u00b2)` : `${shown(thread.stressAreaMm2)} mm\u00b2`}`);
    from.push({ source: thread.family === "M" ? "stress area: ISO 898-1 formula" : "stress area: ASME B1.1 formula", mark: "computed" });
  } else if (bolt.grade === undefined && bolt.class === undefined) said.push("no stress area is known here for this family");
  if (bolt.grade !== undefined || bolt.class !== undefined) strengthParts(thread, bolt, said, values, from);
  const pin = suitablePin(thread);
  if (pin !== undefined) {
    values.push(value("usual split pin", figure(pin.pin.figure), pin.pin.unit));
    said.push(`usual split pin ${pin.pin.figure} ${pin.pin.unit} in a hole of ${pin.hole}${pin.mark === "memory" ? " (from memory)" : ""}`);
    from.push({ source: `split pin: ${pin.source}`, mark: pin.mark });
  }
  return known(`${said.join("; ")}.`, values, from, ["The maker's figures for the machine in hand rule over every table."]);
}

/** A length in the thread's own unit first, and in the other. */
function bothIn(name: string, mm: Exact, inches: boolean): Value[] {
  const both = [value(name, mm, "mm", 6), value(name, mm.div(figure("25.4")), "in", 6)];
  return inches ? both.reverse() : both;
}

/** Effective and core diameter by the thread's form; where sources disagree about the form, both. */
function diameterParts(thread: Thread, said: string[], values: Value[], from: Sourced[]): void {
  const inches = thread.tpi !== undefined;
  const form = formOf(thread.family);
  const { effectiveMm, coreMm } = diametersOf(thread);
  const text = (mm: Exact) => (inches ? `${shown(mm.div(figure("25.4")), 4)} in (${shown(mm)} mm)` : `${shown(mm)} mm`);
  values.push(
    ...bothIn("effective diameter", effectiveMm, inches),
    ...bothIn("core diameter", coreMm, inches),
    value("depth of thread", thread.pitchMm.mul(form.depth), "mm", 6),
  );
  said.push(`effective diameter ${text(effectiveMm)}, core ${text(coreMm)}, basic`);
  from.push({ source: `diameters: form of ${form.of}, ${form.source}`, mark: form.mark === "memory" ? "memory" : "computed" });
  if (thread.family === "BSC" && thread.tpi === 20) {
    const other = asWhitworth(thread);
    values.push(...bothIn("core diameter if of Whitworth form", other.coreMm, true));
    said.push(
      `sources disagree: BS 811 notes a customary series of 20 threads an inch with Whitworth flanks at 55\u00b0, whose core is ${text(other.coreMm)}; measure the angle of the flanks`,
    );
  }
  if (thread.family === "BSC" && thread.tpi === 26 && otherRows.some((it) => it.family === "BSC" && it.size === thread.size && it.tpi === 20))
    said.push(`${thread.size} in is also found as a cycle thread of 20 an inch: count them`);
  if (thread.family === "R" || thread.family === "NPT") said.push("tapered 1 in 16: diameters at the gauge plane");
}

function strengthParts(thread: Thread, bolt: Bolt, said: string[], values: Value[], from: Sourced[]): void {
  const strength = strengthOf(thread, bolt);
  const named = bolt.grade === undefined ? `class ${bolt.class}` : `grade ${bolt.grade}`;
  if (strength === undefined) {
    said.push(`the strength of ${named} at this thread is not in the tables here, so no load is given`);
    return;
  }
  from.push({ source: strength.source, mark: strength.mark });
  values.push(word("strength", strength.name));
  const [proofFigure = "", proofUnit = ""] = strength.proof.split(" ");
  const row = j429.find((it) => strength.name.endsWith(`grade ${it.grade}`) && `${it.proofKsi} ksi` === strength.proof);
  const tensile = row === undefined ? strength.tensileMPa : figure(String(row.tensileKsi));
  values.push(value("proof stress", figure(proofFigure), proofUnit), value("tensile strength", tensile, proofUnit));
  if (row !== undefined) values.push(value("yield", figure(String(row.yieldKsi)), "ksi"));
  said.push(`${strength.name}: proof stress ${strength.proof}, tensile strength at least ${shown(tensile)} ${proofUnit}`);
  const load = proofLoad(thread, strength);
  if (load === undefined) return;
  const pounds = load.div(unitOf("lbf")?.factor ?? figure("1"));
  values.push(value("proof load", load, "N", 6), value("proof load", pounds, "lbf", 6));
  said.push(`proof load ${row === undefined ? `${shown(load.div(1000))} kN (${shown(pounds)} lbf)` : `${shown(pounds)} lbf (${shown(load.div(1000))} kN)`}`);
}

/** A grade or class without a thread: every range of sizes that it has, or the one of the size that was said. */
function strengthAnswer(bolt: Bolt, q: Question): Answer | undefined {
  const wide = take(q, /\b(?:over|above)\b|>/i) !== undefined;
  takeAll(q, /[\u2264=<()]|\bd(?= ?;)|\b(?:up to|size|d)\b/i);
  takeAll(q, about);
  const across = sizeIn(q, bolt.grade !== undefined ? "in" : "mm");
  if (bolt.grade !== undefined) {
    const rows = j429.filter((it) => it.grade === bolt.grade && (across === undefined || covers(it.over, it.to, across, wide)));
    if (rows.length === 0)
      return notKnown(`SAE J429 grade ${bolt.grade} ${across === undefined ? "" : "in that size "}is not in the tables here.`, "grade 5 1/2 in", "grade 8");
    const values = rows.flatMap((it) => [
      value("proof stress", figure(String(it.proofKsi)), "ksi"),
      value("yield", figure(String(it.yieldKsi)), "ksi"),
      value("tensile strength", figure(String(it.tensileKsi)), "ksi"),
    ]);
    const said = rows.map(
      (it) => `${it.over === "0" ? "1/4" : `over ${it.over}`} to ${it.to} in: proof ${it.proofKsi}, yield ${it.yieldKsi}, tensile ${it.tensileKsi} ksi`,
    );
    return known(
      `SAE J429 grade ${bolt.grade}, ${said.join("; ")}.`,
      values,
      rows.map((it) => ({ source: "SAE J429", mark: it.mark })),
    );
  }
  const rows = iso898.filter((it) => it.class === bolt.class && (across === undefined || covers(String(it.over), String(it.to), across, wide)));
  if (rows.length === 0)
    return notKnown(`ISO 898-1 class ${bolt.class} ${across === undefined ? "" : "in that size "}is not in the tables here.`, "class 8.8 M12", "class 10.9");
  const values = rows.flatMap((it) => [
    value("proof stress", figure(String(it.proofMPa)), "MPa"),
    value("tensile strength", figure(String(it.tensileMPa)), "MPa"),
  ]);
  const said = rows.map((it) => `${it.over === 0 ? "up to" : `over M${it.over} to`} M${it.to}: proof ${it.proofMPa}, tensile at least ${it.tensileMPa} MPa`);
  return known(
    `ISO 898-1 class ${bolt.class}, ${said.join("; ")}.`,
    values,
    rows.map((it) => ({ source: "ISO 898-1:2013 table 3", mark: it.mark })),
  );
}

/** Takes a size; a bare figure is in the unit of the table. */
function sizeIn(q: Question, unit: "in" | "mm"): Exact | undefined {
  const found = take(q, new RegExp(`(?<![\\p{L}\\d./+-])(?:M ?)?(\\d+-\\d+/\\d+|\\d+/\\d+|\\d+(?:\\.\\d+)?)(?: ?(${unit}))?(?![\\p{L}\\d./])`, "iu"));
  return found === undefined ? undefined : exact(found[1] as string);
}

/** `over` asks for the range that begins there. */
function covers(over: string, to: string, across: Exact, wide: boolean): boolean {
  const above = compare(across, figure(over));
  return (wide ? above >= 0 : above > 0) && compare(across, figure(to)) <= (wide ? -1 : 0);
}

/** Families as they are said, where no size stands with them. */
const familyNames: readonly (readonly [RegExp, ThreadFamily])[] = [
  [/\b(?:unified|UNC|UNF|UNEF|UNS|UN|American)\b/i, "UNC"],
  [/\b(?:ISO )?metric\b|\bISO\b|\bM\b/, "M"],
  [/\b60[ -]?deg(?:ree)?s?\b/i, "M"],
  [/\b(?:BSP[PT]?|pipe|G)\b/i, "G"],
  [/\b(?:BSW|BSF|whit(?:worth)?|BSB|brass|ME|55[ -]?deg(?:ree)?s?)\b/i, "BSW"],
  [/\b(?:BA|47\.5[ -]?deg(?:ree)?s?)\b/i, "BA"],
  [/\b(?:NPT)\b/i, "NPT"],
  [/\b(?:BSC|CEI|cycle)\b/i, "BSC"],
];

/** `threads of 1/2 in`, `flank angle of BA`, `depth of thread BSW`, `K lubricated`, `stress area formula`. */
export function threadTableFigure(q: Question): Answer | undefined {
  if (take(q, /^(?:K|nut factor(?: K)?)\b,?/i) !== undefined) return nutFactorAnswer(q);
  if (/\bformula\b/i.test(q.left) && /\bstress area\b/i.test(q.left)) return stressAreaFormula(q);
  if (/\b(?:flanks?|angle|depth|deep|form|comes off|triangle|H)\b/.test(q.left)) return formAnswer(q);
  if (take(q, /^(?:threads?(?: per inch)?|tpi)\b(?: of| in| for| at| on)?(?= \d)/i) === undefined) return undefined;
  return sizeAnswer(q);
}

function stressAreaFormula(q: Question): Answer {
  const metric = take(q, /\b(?:ISO )?metric\b/i) !== undefined;
  takeAll(q, /\b(?:formula|tensile|stress area|unified|UNC|UNF|UN|threads?|bolts?)\b/i);
  const off = figure(metric ? "0.9382" : "0.9743");
  const line = metric
    ? "As = \u03c0/4\u00b7(d \u2212 0.9382\u00b7p)\u00b2, d and p in mm (ISO 898-1)."
    : "As = 0.7854\u00b7(D \u2212 0.9743/n)\u00b2, D in inches, n threads an inch (ASME B1.1).";
  return known(
    `Stress area: ${line}`,
    [value("pitch taken off the major diameter", off), value("pi over 4", figure("0.785398"))],
    [{ source: metric ? "ISO 898-1" : "ASME B1.1", mark: "table" }],
  );
}

function nutFactorAnswer(q: Question): Answer {
  const wanted = bare(q.left).toLowerCase().replace(/ /g, "-");
  q.left = "";
  const rows =
    wanted === ""
      ? nutFactors
      : nutFactors.filter((it) => wanted.includes(it.surface) || it.surface.includes(wanted) || it.surface.startsWith(wanted.split("-")[0] ?? "?"));
  const exactRow = rows.find((it) => it.surface === wanted);
  const shownRows = exactRow === undefined ? rows : [exactRow];
  if (shownRows.length === 0) return notKnown("No nut factor is known here for that surface.", ...nutFactors.map((it) => `K ${it.surface}`));
  const line = `Nut factor K, ${shownRows.map((it) => `${it.surface} ${it.k}`).join(", ")}. A guess about friction: an estimate each time that a torque is worked out with it.`;
  return known(
    line,
    shownRows.map((it) => value(`K ${it.surface}`, figure(it.k))),
    shownRows,
  );
}

/** The form of a family: angle, triangle, depth, and what comes off the major diameter, each over the pitch. */
function formAnswer(q: Question): Answer | undefined {
  const found = familyNames.find(([shape]) => take(q, shape) !== undefined);
  if (found === undefined) return undefined;
  takeAll(q, found[0]);
  takeAll(
    q,
    /\b(?:(?:included )?flank angles?|flanks?|angles?|(?:depth|height)(?: of)?(?: the)? threads?|thread depth|depth|deep|basic form|form|comes off|triangle|outside|major|effective|core|minor|diameters?|H|in terms of its pitch|per pitch|pitch|threads?|and)\b/,
  );
  const form = formOf(found[1]);
  const values = [
    value("flank angle", figure(form.degrees), "deg"),
    value("triangle height over pitch", form.triangle),
    value("depth over pitch", form.depth),
    value("effective below major, over pitch", form.effectiveOff),
    value("core below major, over pitch", form.coreOff),
    ...(form.radius === undefined ? [] : [value("radius over pitch", form.radius)]),
  ];
  const radius = form.radius === undefined ? "" : `, rounded at ${shown(form.radius, 6)} p`;
  return known(
    `${capital(form.of)}: flanks at ${form.degrees}\u00b0; with p for the pitch the triangle is ${shown(form.triangle, 6)} p high, the thread ${shown(form.depth, 6)} p deep${form.depthOf === undefined ? "" : ` (${form.depthOf})`}${radius}; the effective diameter is ${shown(form.effectiveOff, 6)} p and the core ${shown(form.coreOff, 7)} p less than the major.`,
    values,
    [form],
  );
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** `1/2 in`, `M10`, `10 mm`: the threads of a size. */
function sizeAnswer(q: Question): Answer | undefined {
  const unit = takeQuantity(q, "length");
  const across = unit === undefined ? sizeIn(q, "in") : unit.unit.name === "in" ? exact(unit.figure) : undefined;
  const row = across === undefined ? undefined : inchRows.find((it) => exact(it.size)?.equals(across) === true);
  if (row === undefined) {
    const metric = metricRows.find((it) => figure(it.major).equals(unit?.unit.name === "mm" ? unit.value : (across ?? figure("0"))));
    return metric === undefined
      ? notKnown("No threads of that size are in the tables here.", "threads of 1/2 in", "threads of 10 mm")
      : known(
          `M${metric.major}: coarse ${metric.coarse} mm${metric.fine.length > 0 ? `, fine ${metric.fine.join(", ")} mm` : ""}.`,
          [value("coarse pitch", figure(metric.coarse), "mm"), ...metric.fine.map((it) => value("fine pitch", figure(it), "mm"))],
          [{ source: metricSource, mark: metric.mark }],
        );
  }
  const families = (["UNC", "UNF", "BSW", "BSF"] as const).flatMap((it) =>
    row[it] === undefined ? [] : [{ family: it, tpi: row[it], source: inchSource[it], mark: row.mark }],
  );
  // Pipe threads are named by the bore: they are no threads of that size. A special thread may have any count.
  const others = otherRows
    .filter((it) => it.size === row.size && it.majorMm === undefined && it.family !== "UNS")
    .map((it) => ({ family: it.family, tpi: it.tpi, source: otherSource[it.family], mark: it.mark }));
  const all = [...families, ...others];
  const values = all.map((it) => value(`threads per inch ${it.family}`, figure(String(it.tpi))));
  return known(`${row.size} in: ${all.map((it) => `${it.family} ${it.tpi}`).join(", ")} threads an inch.`, values, all);
}
