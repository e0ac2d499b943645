// What a thread is, and what a bolt of it holds: `1/2-20 UNF grade 5`, `M10 class 8.8`, `2 BA`; the threads of a size; a grade or class by itself.
import { type Exact, compare, exact, figure } from "../../quantities/exact.ts";
import { unitOf } from "../../quantities/units.ts";
import { iso898, j429, nutFactors, proofLoad, strengthOf } from "../../trade/bolts.ts";
import type { Sourced } from "../../trade/source.ts";
import { suitablePin } from "../../trade/split-pins.ts";
import { flankAngles, whitworthDepth } from "../../trade/thread-forms.ts";
import { inchRows, inchSource, metricRows, metricSource } from "../../trade/thread-tables.ts";
import { type Thread, dangerousThread, nearestThread, threadOf, threadReadings } from "../../trade/threads.ts";
import { type Answer, type Value, known, notKnown, shown, value, valueIn, word } from "./answer.ts";
import { quantityIn } from "./words.ts";

export interface Bolt {
  readonly thread?: Thread;
  /** As written, where it is no thread of the tables. */
  readonly unknown?: string;
  readonly grade?: string;
  readonly class?: string;
  /** What else was said. */
  readonly rest: string;
}

const size = "(?:No\\.? ?\\d{1,2}|#\\d{1,2}|\\d+-\\d+/\\d+|\\d+/\\d+|\\d+)";
const series = "(?:UNC|UNF|UNS|UNEF|BSW|BSF|BSC|WHITWORTH|WHIT|CYCLE|BA|BSPP|BSP|NPT)";
const designation = new RegExp(
  `(?<![\\p{L}\\p{N}./-])(?:M ?\\d+(?:\\.\\d+)?(?: ?x ?\\d*\\.?\\d+)?|${size}(?: ?in)?(?: ?- ?\\d+)? ?${series}|G ?\\d+(?:/\\d+)?|${size} ?- ?\\d+)(?![\\p{L}\\p{N}/])`,
  "iu",
);

/** The thread, the grade or class and the hand that a text speaks of, wherever they stand in it. */
export function boltIn(text: string): Bolt {
  let rest = text;
  const take = (shape: RegExp): string | undefined => {
    const found = shape.exec(rest);
    if (found === null) return undefined;
    rest = `${rest.slice(0, found.index)} ${rest.slice(found.index + found[0].length)}`;
    return found[1] ?? found[0];
  };
  take(/\b(?:SAE )?J429\b/i);
  take(/\bISO 898(?:-1)?\b/i);
  const grade = take(/\b(?:grade|gr\.?) ?(\d(?:\.\d)?)(?![\d.])/i);
  const boltClass =
    take(/\b(?:property )?class (\d{1,2}\.\d)\b/i) ?? take(/(?<=M ?\d[\dx. ]* )(?:4\.6|4\.8|5\.6|5\.8|6\.8|8\.8|9\.8|10\.9|12\.9)(?![\d.]| ?mm)/i);
  const leftHand = take(/(?<![\p{L}])(?:LH|left[ -]hand(?:ed)?)(?![\p{L}])/iu) !== undefined;
  const written = take(designation);
  const plain = written?.replace(/ ?in(?=[ -])/i, "").replace(/^m ?(?=\d)/i, "M");
  const thread = plain === undefined ? undefined : threadOf(plain, leftHand);
  return {
    ...(thread === undefined ? {} : { thread }),
    ...(thread === undefined && written !== undefined ? { unknown: written.trim() } : {}),
    ...(grade === undefined ? {} : { grade }),
    ...(boltClass === undefined ? {} : { class: boltClass }),
    rest: rest.replace(/ +/g, " ").trim(),
  };
}

/** A designation that the tables do not know, with what may be meant. */
export function unknownThread(written: string): Answer {
  const readings = threadReadings(written);
  if (readings.length > 1) return notKnown(`${written} is a thread of more than one series. Say which.`, ...readings);
  const dangerous = dangerousThread(written);
  if (dangerous !== undefined) return notKnown(dangerous.why, dangerous.meant);
  const near = readings[0] ?? nearestThread(written);
  return notKnown(
    `${written} is not in the tables of threads here, so nothing is judged by it.`,
    ...(near === undefined ? ["1/2-20 UNF", "M10", "2 BA"] : [near]),
  );
}

const asked =
  /^(?:(?:what is|the|a|threads?|bolts?|screws?|studs?|stress area|tensile|proof load|proof stress|proof|strength|pitch|tpi|threads per inch|major diameter|of|for|on)\b ?)+/i;

export function threadFigure(query: string): Answer | undefined {
  const bolt = boltIn(query.replace(asked, ""));
  const rest = bolt.rest.replace(asked, "").trim();
  if (bolt.thread !== undefined) return rest === "" ? boltAnswer(bolt.thread, bolt) : undefined;
  if (bolt.grade !== undefined || bolt.class !== undefined) return strengthAnswer(bolt, rest);
  if (bolt.unknown !== undefined && rest === "") return unknownThread(bolt.unknown);
  return undefined;
}

function boltAnswer(thread: Thread, bolt: Bolt): Answer {
  const said: string[] = [];
  const values: Value[] = [];
  const from: Sourced[] = [thread];
  const inch = unitOf("in") as NonNullable<ReturnType<typeof unitOf>>;
  const inches = thread.tpi !== undefined;
  values.push(word("thread", thread.leftHand ? `${thread.designation} LH` : thread.designation));
  values.push(inches ? valueIn("major diameter", thread.majorMm, inch) : value("major diameter", thread.majorMm, "mm"));
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
  if (thread.family === "BSW" || thread.family === "BSF") {
    values.push(value("depth of thread", thread.pitchMm.mul(whitworthDepth.perPitch), "mm"));
    from.push(whitworthDepth);
  }
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
function strengthAnswer(bolt: Bolt, rest: string): Answer | undefined {
  if (bolt.grade !== undefined) {
    const wide = /over|above|>/i.test(rest);
    const across = sizeIn(rest.replace(/.*?(?:over|above|>)/i, ""), "in");
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
  const wide = /over|above|>/i.test(rest);
  const across = sizeIn(rest.replace(/[\u2264=<]/g, "").replace(/.*?(?:over|above|>)/i, ""), "mm");
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

function sizeIn(text: string, unit: "in" | "mm"): Exact | undefined {
  const found = /(\d+-\d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?)(?: ?(in|mm))?/.exec(text);
  if (found === null || (found[2] !== undefined && found[2] !== unit)) return undefined;
  return exact(found[1] as string);
}

/** `over` asks for the range that begins there. */
function covers(over: string, to: string, across: Exact, wide: boolean): boolean {
  const above = compare(across, figure(over));
  return (wide ? above >= 0 : above > 0) && compare(across, figure(to)) <= (wide ? -1 : 0);
}

const familyNames = /^(UNC|UNF|UNS|UN|unified|BSW|BSF|BSP|G|Whitworth|Whit|BA|NPT|BSC|M|metric|ISO metric)$/i;

/** `threads of 1/2 in`, `flank angle of BA`, `depth of thread BSW`, `K lubricated`. */
export function threadTableFigure(query: string): Answer | undefined {
  const k = /^(?:K|nut factor(?: K)?)\b(?:,| of| for)? ?(.*)$/i.exec(query);
  if (k !== null) return nutFactorAnswer(k[1] ?? "");
  const family = /^(?:(?:included )?flank angles?|angle|depth(?: of)? thread|thread depth|depth)(?: of| for)? (?:a |the )?(.+?)(?: threads?)?$/i.exec(
    query,
  )?.[1];
  if (family !== undefined && familyNames.test(family.trim())) return formAnswer(family.trim().toUpperCase(), /depth/i.test(query));
  const across = /^(?:threads?(?: per inch)?|tpi)(?: of| in| for| at)? (\d.*)$/i.exec(query)?.[1];
  return across === undefined ? undefined : sizeAnswer(across);
}

function nutFactorAnswer(surface: string): Answer {
  const wanted = surface.toLowerCase().replace(/ /g, "-");
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

function formAnswer(family: string, depth: boolean): Answer | undefined {
  const key = /^UN(IFIED)?$/.test(family) ? "UNC" : /WHIT/.test(family) ? "BSW" : family === "BSP" ? "G" : /METRIC/.test(family) ? "M" : family;
  const row = flankAngles.find((it) => (it.families as readonly string[]).includes(key));
  if (row === undefined) return undefined;
  if (!depth) return known(`The flanks of ${row.of} stand at ${row.degrees}\u00b0.`, [value("flank angle", figure(row.degrees), "deg")], [row]);
  if (row.degrees !== "55") return notKnown(`The depth of ${row.of} is not in the tables here.`, "depth of thread BSW");
  return known("The Whitworth form is 0.640327 of its pitch deep.", [value("depth over pitch", whitworthDepth.perPitch)], [whitworthDepth]);
}

function sizeAnswer(text: string): Answer | undefined {
  const unit = quantityIn(text);
  const across = unit === undefined ? sizeIn(text, "in") : unit.unit.name === "in" ? exact(unit.figure) : undefined;
  const row = across === undefined ? undefined : inchRows.find((it) => exact(it.size)?.equals(across) === true);
  if (row === undefined) {
    const metric = metricRows.find((it) => it.major === (unit?.unit.name === "mm" ? unit.figure : text.trim()));
    return metric === undefined
      ? undefined
      : known(
          `M${metric.major}: coarse ${metric.coarse} mm${metric.fine.length > 0 ? `, fine ${metric.fine.join(", ")} mm` : ""}.`,
          [value("coarse pitch", figure(metric.coarse), "mm"), ...metric.fine.map((it) => value("fine pitch", figure(it), "mm"))],
          [{ source: metricSource, mark: metric.mark }],
        );
  }
  const families = (["UNC", "UNF", "BSW", "BSF"] as const).flatMap((it) => (row[it] === undefined ? [] : [{ family: it, tpi: row[it] as number }]));
  const values = families.map((it) => value(`threads per inch ${it.family}`, figure(String(it.tpi))));
  return known(
    `${row.size} in: ${families.map((it) => `${it.family} ${it.tpi}`).join(", ")} threads an inch.`,
    values,
    families.map((it) => ({ source: inchSource[it.family], mark: row.mark })),
  );
}
