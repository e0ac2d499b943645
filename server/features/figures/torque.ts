// Torque at the bench: what T = K·d·F makes of a bolt, the wrench with an extension, the stress of a load, a joint under load.
// Invariant: what a torque does to a bolt is an estimate and is called one each time; no K is ever taken that was not said.
import { type Exact, compare, exact, figure, ratio } from "../../quantities/exact.ts";
import type { Measured } from "../../quantities/quantity.ts";
import { type Unit, unitOf } from "../../quantities/units.ts";
import { nutFactors, overProof, proofLoad, strengthOf, torqueFor, forceFor, usualShare, wrenchSetting } from "../../trade/bolts.ts";
import { jointSource, jointUnder } from "../../trade/joint.ts";
import type { Thread } from "../../trade/threads.ts";
import { type Answer, type Value, asWritten, known, notKnown, shown, value } from "./answer.ts";
import { type Bolt, boltIn, unknownThread } from "./threads.ts";
import { figureIn, listIn, partsOf, quantityIn, readQuantity } from "./words.ts";

const unit = (spelling: string) => unitOf(spelling) as Unit;
const askTorque = ["torque 1/2-20 UNF grade 5 K 0.2", "torque 50 lbf.ft with extension 6 in on 18 in at 30 deg"];
const estimate =
  "T = K\u00b7d\u00b7F is an estimate: ten bolts of one lot at one torque may differ by a sixth or more either way. The maker's torque rules; a nut that adjusts a bearing is never set by it.";

export function torqueFigure(query: string): Answer | undefined {
  if (/^(?:torque )?joint\b/i.test(query)) return jointFigure(query);
  if (/^stress\b(?! area)/i.test(query)) return stressFigure(query);
  if (!/^(?:torque|preload|wrench|tighten)\b/i.test(query)) return undefined;
  if (/\b(?:extension|crow-?foot|adaptor|adapter)\b/i.test(query)) return extensionFigure(query);
  return boltTorque(query.replace(/^(?:torque|preload|wrench|tighten)\b(?: setting)?(?: of| for)? ?/i, ""));
}

function extensionFigure(query: string): Answer {
  const parts = partsOf(query, {
    torque: "torque|wrench setting(?: for)?",
    extension: "(?:with )?(?:an )?(?:extension|crow-?foot|adaptor|adapter)(?: of)?",
    on: "on|length|wrench(?: of)?|lever|handle",
    at: "at|angle",
  });
  const wanted = readQuantity(parts.get("torque") ?? "");
  const arm = readQuantity(parts.get("extension") ?? "");
  const length = readQuantity(parts.get("on") ?? "");
  const said = parts.get("at") ?? "";
  const angle = said === "" || /^in line/i.test(said) ? ratio(0) : figureIn(said);
  const ask = askTorque[1] as string;
  if (wanted === undefined || arm === undefined || length === undefined || angle === undefined)
    return notKnown("Say the torque at the nut, the extension from drive to nut, the wrench from hand to drive, and the angle between them.", ask);
  const [e, l] = arm.measured !== undefined && length.measured !== undefined ? [arm.measured.value, length.measured.value] : [arm.figure, length.figure];
  const oneUnit =
    (arm.measured === undefined) === (length.measured === undefined) &&
    (arm.measured === undefined || (arm.measured.unit.dimension === "length" && length.measured?.unit.dimension === "length"));
  const t = wanted.measured;
  if (!oneUnit || wanted.strange !== undefined || (t !== undefined && t.unit.dimension !== "torque"))
    return notKnown("Say the torque in a unit of torque, and both lengths in units of length.", ask);
  const degrees = quantityIn(said);
  if (degrees !== undefined && degrees.unit.dimension !== "angle") return notKnown("Say the angle in degrees: 0 in line, 90 square to the wrench.", ask);
  const turned = (degrees?.value ?? angle).valueOf();
  const setting = wrenchSetting(wanted.figure, l, e, turned);
  if (setting === undefined || compare(e, ratio(0)) < 0)
    return notKnown("With that extension the hand and the nut come together: no setting gives that torque.", ask);
  const name = t?.unit.name ?? "";
  const values: Value[] = [value("setting", setting, name)];
  if (t !== undefined) values.push(value("setting", t.unit.factor.mul(setting), "N.m"));
  return known(
    `Set the wrench to ${shown(setting)} ${name} for ${wanted.text} ${name} at the nut.`.replace(/ +/g, " "),
    values,
    [
      {
        source: "T\u00b7L/(L + E\u00b7cos \u03b8), by the lever: \u03b8 0 in line away from the hand, 90\u00b0 square to it, 180\u00b0 back over the handle",
        mark: "computed",
      },
    ],
    ["The lever is counted from the hand: hold the wrench at the middle of its grip, and measure to there. At 90\u00b0 nothing is to be corrected."],
  );
}

function boltTorque(text: string): Answer | undefined {
  const bolt = boltIn(text);
  if (bolt.unknown !== undefined) return unknownThread(bolt.unknown);
  const { thread } = bolt;
  if (thread === undefined) return notKnown("Say the thread, its grade or class, and K; or the torque and the extension.", ...askTorque);
  const parts = partsOf(bolt.rest, { k: "K|nut factor", force: "force|load|preload|clamp(?:ing)?", share: "at|share|to" });
  const surface = nutFactors.find((it) =>
    new RegExp(`(?<![\\w-])${it.surface}(?![\\w-])`, "i").test(
      bolt.rest.replace(/(zinc|cadmium|non) plated/i, "$1-plated").replace(/anti seize/i, "anti-seize"),
    ),
  );
  const k = parts.has("k") ? figureIn((parts.get("k") ?? "").replace(/^[=: ]+/, "")) : surface === undefined ? undefined : figure(surface.k);
  if (k === undefined || compare(k, ratio(0)) <= 0)
    return notKnown(
      "K must be said, for it decides the torque: non-plated 0.30, zinc-plated 0.20, lubricated 0.18, cadmium-plated 0.16, anti-seize 0.12 (Shigley table 8-15).",
      `torque ${thread.designation}${bolt.grade === undefined ? (bolt.class === undefined ? "" : ` class ${bolt.class}`) : ` grade ${bolt.grade}`} K 0.2`,
    );
  const given = [parts.get("") ?? "", parts.get("share") ?? ""].map(quantityIn).find((it) => it?.unit.dimension === "torque");
  if (given !== undefined) return forceOf(thread, bolt, k, given);
  const force = quantityIn(parts.get("force")) ?? quantityIn(parts.get(""));
  if (force !== undefined && force.unit.dimension === "force") return torqueOf(thread, k, force.value, `${asWritten(force)} of preload`, []);
  const strength = strengthOf(thread, bolt);
  const load = strength === undefined ? undefined : proofLoad(thread, strength);
  if (strength === undefined || load === undefined)
    return notKnown(
      `The strength of ${thread.designation}${bolt.grade !== undefined ? ` grade ${bolt.grade}` : bolt.class !== undefined ? ` class ${bolt.class}` : ""} is not in the tables here. Say the force instead.`,
      `torque ${thread.designation} K 0.2 force 20 kN`,
    );
  const said = figureIn(parts.get("share"));
  const percent = /%|per ?cent/i.test(parts.get("share") ?? "");
  const share = said === undefined ? (/permanent/i.test(bolt.rest) ? usualShare.permanent : usualShare.reused) : percent ? said.div(100) : said;
  if (compare(share, ratio(0)) <= 0 || compare(share, ratio(1)) > 0)
    return notKnown("Say a share of proof load from 1 to 100 %.", `torque ${thread.designation} K 0.2 at 75 %`);
  return torqueOf(thread, k, load.mul(share), `${shown(share.mul(100))} % of proof load, ${strength.name}`, [{ source: strength.source, mark: strength.mark }]);
}

function torqueOf(thread: Thread, k: Exact, force: Exact, why: string, from: { source: string; mark: "table" | "memory" | "computed" | "data" }[]): Answer {
  const torque = torqueFor(k, thread.majorMm, force);
  const [pounds, foot] = [force.div(unit("lbf").factor), torque.div(unit("lbf.ft").factor)];
  const values = [
    value("torque", foot, "lbf.ft", 6),
    value("torque", torque, "N.m", 6),
    value("torque", torque.div(unit("lbf.in").factor), "lbf.in", 6),
    value("preload", pounds, "lbf", 6),
    value("preload", force, "N", 6),
  ];
  const both =
    thread.tpi === undefined
      ? `${shown(torque, 4)} N.m (${shown(foot, 4)} lbf.ft) for ${shown(force.div(1000))} kN`
      : `${shown(foot, 4)} lbf.ft (${shown(torque, 4)} N.m) for ${shown(pounds)} lbf`;
  return known(
    `Estimate: ${thread.designation} at K ${shown(k)}, about ${both}, ${why}.`,
    values,
    [{ source: "T = K\u00b7d\u00b7F (Shigley eq. 8-27, 8-31)", mark: "estimate" }, ...from],
    [estimate],
  );
}

function forceOf(thread: Thread, bolt: Bolt, k: Exact, torque: Measured): Answer {
  const force = forceFor(k, thread.majorMm, torque.value) as Exact;
  const pounds = force.div(unit("lbf").factor);
  const proof = overProof(thread, bolt, k.toFraction(), torque.value) ?? overProof(thread, bolt, k.toString(), torque.value);
  const values = [
    value("preload", pounds, "lbf", 6),
    value("preload", force, "N", 6),
    ...(proof === undefined ? [] : [value("per cent of proof load", exact(proof.percent) ?? ratio(0), "%")]),
  ];
  const share = proof === undefined ? "" : `, ${proof.percent} % of proof load (${proof.strength.name})${proof.over ? ": too much, above 90 %" : ""}`;
  return known(
    `Estimate: ${asWritten(torque)} on ${thread.designation} at K ${shown(k)} gives about ${shown(pounds, 4)} lbf (${shown(force.div(1000), 4)} kN)${share}.`,
    values,
    [{ source: "T = K\u00b7d\u00b7F (Shigley eq. 8-27)", mark: "estimate" }, ...(proof === undefined ? [] : [proof.strength])],
    [estimate],
  );
}

/** `stress 25000 lbf on 3/4-16 UNF`. */
function stressFigure(query: string): Answer {
  const bolt = boltIn(query.replace(/^stress\b(?: of| from)?/i, ""));
  const force = quantityIn(bolt.rest.replace(/^\D*?(?=[\d.])/, ""));
  const ask = "stress 25000 lbf on 3/4-16 UNF";
  if (bolt.unknown !== undefined) return unknownThread(bolt.unknown);
  if (bolt.thread === undefined || force === undefined || force.unit.dimension !== "force") return notKnown("Say the force and the thread.", ask);
  const area = bolt.thread.stressAreaMm2;
  if (area === undefined) return notKnown(`No stress area of ${bolt.thread.designation} is known here.`, ask);
  return stressAnswer(bolt.thread, force.value, `${asWritten(force)} on ${bolt.thread.designation}`, [], []);
}

function stressAnswer(thread: Thread, force: Exact, what: string, more: Value[], from: { source: string; mark: "estimate" }[]): Answer {
  const pascal = force.div(thread.stressAreaMm2 ?? ratio(1)).mul(1000000);
  const ksi = pascal.div(unit("ksi").factor);
  const values = [...more, value("stress", ksi, "ksi", 6), value("stress", pascal.div(1000000), "MPa", 6)];
  const mean = { source: `force over the stress area of ${thread.source}`, mark: "computed" as const };
  return known(
    `${from.length > 0 ? "Estimate: " : ""}${what}: ${shown(ksi, 4)} ksi (${shown(pascal.div(1000000), 4)} MPa).`,
    values,
    [mean, ...from],
    from.length > 0 ? ["An estimate: the stiffness of a joint is seldom known, and the preload is a guess about friction."] : [],
  );
}

/** `joint 3/4-16 UNF preload 25000 lbf load 6000 lbf stiffness 6.5 / 13.8`: bolt first, then the parts. */
function jointFigure(query: string): Answer {
  const bolt = boltIn(query.replace(/^(?:torque )?joint\b/i, ""));
  const parts = partsOf(bolt.rest, { preload: "preload|clamp(?:ing)?", load: "load|pull", stiffness: "stiffness(?: of)?" });
  const [preload, load] = [quantityIn(parts.get("preload")), quantityIn(parts.get("load"))];
  const stiff = listIn((parts.get("stiffness") ?? "").replace(/(?<=\s)\/(?=\s)|\bto\b|:/g, ",").replace(/\b(?:bolt|parts?|members?)\b/gi, " "));
  const [kb, km] = stiff ?? [];
  const ask = "joint 3/4-16 UNF preload 25000 lbf load 6000 lbf stiffness 6.5, 13.8";
  if (preload?.unit.dimension !== "force" || load?.unit.dimension !== "force" || kb === undefined || km === undefined)
    return notKnown("Say the preload, the load, and the stiffness of the bolt and of the parts, in that order and in one unit.", ask);
  const joint = jointUnder(preload.value, load.value, kb.value?.value ?? kb.figure, km.value?.value ?? km.figure);
  if (joint === undefined) return notKnown("A stiffness must be above zero.", ask);
  const pounds = (x: Exact) => x.div(unit("lbf").factor);
  const values = [
    value("share of the load", joint.share, "", 6),
    value("force in the bolt", pounds(joint.inBolt), "lbf", 8),
    value("clamping left", pounds(joint.clamping), "lbf", 8),
  ];
  const from = [{ source: jointSource, mark: "estimate" as const }];
  const parted = compare(joint.clamping, ratio(0)) <= 0 ? " The parts come apart: the bolt then takes the whole load, and this no longer holds." : "";
  const what = `the bolt takes ${shown(joint.share, 3)} of the load, ${shown(pounds(joint.inBolt))} lbf in all, and ${shown(pounds(joint.clamping))} lbf of clamping is left`;
  if (bolt.thread?.stressAreaMm2 === undefined)
    return known(`Estimate: ${what}.${parted}`, values, from, [
      "An estimate: the stiffness of a joint is seldom known, and the preload is a guess about friction.",
    ]);
  return stressAnswer(bolt.thread, joint.inBolt, `${what}; in ${bolt.thread.designation}`, values, from);
}
