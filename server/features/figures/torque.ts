// Torque at the bench: what T = K·d·F makes of a bolt, the wrench with an extension, the stress of a load, a joint under load.
// Invariant: what a torque does to a bolt is an estimate and is called one each time; no K is ever taken that was not said.
import { type Exact, compare, exact, figure, ratio } from "../../quantities/exact.ts";
import type { Measured } from "../../quantities/quantity.ts";
import { type Unit, unitOf } from "../../quantities/units.ts";
import { nutFactors, overProof, proofLoad, strengthOf, torqueFor, forceFor, usualShare, wrenchSetting } from "../../trade/bolts.ts";
import { jointSource, jointUnder } from "../../trade/joint.ts";
import type { Thread } from "../../trade/thread.ts";
import { type Answer, type Value, asWritten, known, notKnown, shown, value } from "./answer.ts";
import { type Bolt, takeBolt, unknownThread } from "./threads-read.ts";
import { type Part, type Question, bare, partsOf, take, takeAll } from "./question.ts";
import { above, figureIn, listIn, quantityIn, readQuantity, takeQuantity } from "./words.ts";

const unit = (spelling: string) => unitOf(spelling) as Unit;
const askTorque = ["torque 1/2-20 UNF grade 5 K 0.2", "torque 50 lbf.ft with extension 6 in on 18 in at 30 deg"];
/** A surface as it is said, and as the table of nut factors has it. */
const surfaces: readonly (readonly [RegExp, string])[] = [
  [/\bnon[- ]plated\b|\bunplated\b|\bself[- ]colour(?:ed)?\b/i, "non-plated"],
  [/\bzinc[- ]?plated\b|\bzinc\b|\bgalvani[sz]ed\b/i, "zinc-plated"],
  [/\bcadmium[- ]?plated\b|\bcadmium\b|\bcad[- ]plated\b/i, "cadmium-plated"],
  [/\banti[- ]?seize\b/i, "anti-seize"],
  [/\blubricated\b|\boiled\b/i, "lubricated"],
];
const estimate =
  "T = K\u00b7d\u00b7F is an estimate: ten bolts of one lot at one torque may differ by a sixth or more either way. The maker's torque rules; a nut that adjusts a bearing is never set by it.";

export function torqueFigure(q: Question): Answer | undefined {
  // What a torque clamps with is the preload of the bolt.
  q.left = q.left.replace(/\b(?:clamp(?:ing|ed)?|bolt) (?:force|load|tension)\b(?: (?:of|in|on|for|from))?/i, "preload");
  if (take(q, /^(?:torque )?joint\b/i) !== undefined) return jointFigure(q);
  if (/^stress\b(?! area)/i.test(q.left)) return stressFigure(q);
  if (!/\b(?:torques?|preload|wrench|tight(?:en)?|tightened|tightening|extension|crow-?('s )?foot|adaptor|adapter)\b/i.test(q.left)) return undefined;
  if (/\b(?:angle torque|torque[- ]angle|degrees? more|then (?:turn|another)|torque to yield)\b/i.test(q.left)) return angleFigure(q);
  if (/\b(?:extension|crow[ -]?(?:s )?foot|adaptor|adapter)\b/i.test(q.left)) return extensionFigure(q);
  if (
    take(q, /\b(?:torques?|preload(?! of)|torque wrench|wrench|tight(?:en)?|tightened|tightening)\b(?: (?:torque|setting|figure)s?)?(?: of| for)?/i) ===
    undefined
  )
    return undefined;
  takeAll(q, /\b(?:bolts?|nuts?|screws?|studs?|thread|head|do up|setting|tight(?:en(?:ed|ing)?)?|torque)\b/i);
  return boltTorque(q);
}

/** Torque and then an angle: the angle is how far it is turned, and what comes of it hangs on the joint. */
function angleFigure(q: Question): Answer {
  const bolt = takeBolt(q);
  const turn = takeQuantity(q, "angle");
  takeAll(
    q,
    /\b(?:angle torque|torque[- ]angle|torque to yield|degrees? more|then|turn(?:ed)?|another|more|torque|tighten(?:ed)?|tightening|bolts?|nuts?|head)\b/i,
  );
  const { thread } = bolt;
  if (thread === undefined || turn === undefined)
    return notKnown(
      "A torque and then an angle is the maker's own: its figures are not in any table. With a thread and an angle the stretch can be worked out.",
      "torque angle M10 90 deg",
    );
  if (!above(turn) || compare(turn.value, ratio(720)) > 0)
    return notKnown("Say an angle above nothing, and not more than two turns.", `torque angle ${thread.designation} 90 deg`);
  const travel = thread.pitchMm.mul(turn.value).div(360);
  return known(
    `${asWritten(turn)} on ${thread.designation} moves the nut ${shown(travel)} mm (${shown(travel.div(figure("25.4")))} in) along the thread: pitch times turn. How much of it stretches the bolt hangs on the joint, so no torque follows from it.`,
    [value("travel", travel, "mm"), value("travel", travel.div(figure("25.4")), "in"), value("turn", turn.value, "deg")],
    [{ source: "pitch times turn", mark: "computed" }, thread],
    ["Torque and angle are the maker's alone. A bolt tightened so may be good once only: ask before it is used again."],
  );
}

function extensionFigure(q: Question): Answer {
  const square = take(q, /\b(?:at )?(?:a )?right angles?(?: to (?:the )?wrench)?|\bsquare(?: to (?:the )?wrench)?\b/i) !== undefined;
  take(q, /\bin line\b/i);
  const extensionWord = "(?:extension|crow[ -]?(?:s )?foot|adaptor|adapter)";
  const said = (word: string) =>
    take(
      q,
      new RegExp(
        `(?<![\\d./+-])((?:\\d+-\\d+/\\d+|\\d+/\\d+|\\d+(?:\\.\\d+)?|\\.\\d+) ?(?:in|inch|inches|mm|cm|ft|m))(?: long)? ${word}\\b(?! (?:of )?\\d)`,
        "i",
      ),
    )?.[1];
  // The length stands before its word as often as behind it.
  const before = { extension: said(extensionWord), on: said("(?:torque )?wrench") };
  const parts = partsOf(q, {
    torque: "torque|wrench setting(?: for)?|tighten(?: to)?",
    extension: `(?:with )?(?:an? )?${extensionWord}(?: of)?`,
    on: "on|length|(?:torque )?wrench(?: of)?|lever|handle",
    at: "at|angle",
  });
  for (const part of parts.values()) takeAll(part, /\b(?:nut|long|set|setting|wrench|torque)\b/i);
  const lead = parts.get("torque");
  const wanted = readQuantity(lead !== undefined && bare(lead.left) !== "" ? lead : parts.get(""));
  const arm = before.extension === undefined ? readQuantity(parts.get("extension")) : readQuantity({ left: before.extension });
  const length = before.on === undefined ? readQuantity(parts.get("on")) : readQuantity({ left: before.on });
  const turnedPart = parts.get("at");
  const turn = turnedPart === undefined || bare(turnedPart.left) === "" ? undefined : readQuantity(turnedPart);
  const angle = square ? ratio(90) : turnedPart === undefined || turn === undefined ? ratio(0) : turn.figure;
  const ask = askTorque[1] as string;
  if (wanted === undefined || arm === undefined || length === undefined)
    return notKnown("Say the torque at the nut, the extension from drive to nut, the wrench from hand to drive, and the angle between them.", ask);
  const [e, l] = arm.measured !== undefined && length.measured !== undefined ? [arm.measured.value, length.measured.value] : [arm.figure, length.figure];
  const oneUnit =
    (arm.measured === undefined) === (length.measured === undefined) &&
    (arm.measured === undefined || (arm.measured.unit.dimension === "length" && length.measured?.unit.dimension === "length"));
  const t = wanted.measured;
  if (!oneUnit || wanted.strange !== undefined || (t !== undefined && t.unit.dimension !== "torque"))
    return notKnown("Say the torque in a unit of torque, and both lengths in units of length.", ask);
  const degrees = turn?.measured;
  if (degrees !== undefined && degrees.unit.dimension !== "angle") return notKnown("Say the angle in degrees: 0 in line, 90 square to the wrench.", ask);
  const turned = (degrees?.value ?? angle).valueOf();
  if (compare(wanted.figure, ratio(0)) <= 0 || compare(l, ratio(0)) <= 0) return notKnown("The torque and the wrench are above nothing.", ask);
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

function boltTorque(q: Question): Answer | undefined {
  const bolt = takeBolt(q);
  if (bolt.unknown !== undefined) return unknownThread(bolt.unknown);
  const { thread } = bolt;
  const surface = surfaces.find(([word]) => take(q, word) !== undefined)?.[1];
  const permanent = take(q, /\bpermanent(?:ly)?\b/i) !== undefined;
  const parts = partsOf(q, { k: "K|nut factor", force: "force|load|preload(?: of)?|clamp(?:ing)?(?: force)?", share: "at|share|to" });
  if (thread === undefined) return notKnown("Say the thread, its grade or class, and K; or the torque and the extension.", ...askTorque);
  const surfaceK = nutFactors.find((it) => it.surface === surface)?.k;
  if (parts.has("k")) take(parts.get("k") as Part, /^[=: ]+/);
  const k = parts.has("k") ? figureIn(parts.get("k")) : surfaceK === undefined ? undefined : figure(surfaceK);
  const named = `${thread.designation}${bolt.grade === undefined ? (bolt.class === undefined ? "" : ` class ${bolt.class}`) : ` grade ${bolt.grade}`}`;
  const strong = strengthOf(thread, bolt);
  const complete =
    strong !== undefined && proofLoad(thread, strong) !== undefined
      ? `torque ${named} K 0.2`
      : thread.family === "M"
        ? `torque ${thread.designation} class 8.8 K 0.2`
        : `torque ${thread.designation} K 0.2 force 2000 lbf`;
  if (parts.has("k") && surfaceK !== undefined) return notKnown("Say K or the surface, not both.", complete);
  if (k === undefined || compare(k, ratio(0)) <= 0 || compare(k, ratio(1)) > 0)
    return notKnown(
      "K must be said, for it decides the torque: non-plated 0.30, zinc-plated 0.20, lubricated 0.18, cadmium-plated 0.16, anti-seize 0.12 (Shigley table 8-15). It is above 0, and not above 1.",
      complete,
    );
  const given = ["", "share"]
    .map((name) => parts.get(name))
    .map((part) => (part === undefined ? undefined : takeQuantity(part, "torque")))
    .find((it) => it !== undefined);
  if (given !== undefined) return above(given) ? forceOf(thread, bolt, k, given) : notKnown("The torque is above nothing.", complete);
  const force = ["force", ""]
    .map((name) => parts.get(name))
    .map((part) => (part === undefined ? undefined : takeQuantity(part, "force")))
    .find((it) => it !== undefined);
  if (force !== undefined && !above(force)) return notKnown("The force is above nothing.", complete);
  if (force !== undefined) return torqueOf(thread, k, force.value, `${asWritten(force)} of preload`, []);
  const strength = strengthOf(thread, bolt);
  const load = strength === undefined ? undefined : proofLoad(thread, strength);
  if (strength === undefined || load === undefined)
    return notKnown(
      `The strength of ${thread.designation}${bolt.grade !== undefined ? ` grade ${bolt.grade}` : bolt.class !== undefined ? ` class ${bolt.class}` : ""} is not in the tables here. Say the force instead.`,
      `torque ${thread.designation} K 0.2 force 20 kN`,
    );
  const part = parts.get("share");
  const said = part === undefined || bare(part.left) === "" ? undefined : readQuantity(part);
  if (said?.measured !== undefined && said.measured.unit.dimension !== "ratio")
    return notKnown("Say a share of proof load from 1 to 100 %.", `torque ${named} K 0.2 at 75 %`);
  const percent = said?.measured !== undefined || (part !== undefined && take(part, /^ ?per ?cent\b/i) !== undefined);
  for (const it of parts.values()) takeAll(it, /\bproof(?: load)?\b/i);
  const share = said === undefined ? (permanent ? usualShare.permanent : usualShare.reused) : percent ? said.figure.div(100) : said.figure;
  if (compare(share, ratio(0)) <= 0 || compare(share, ratio(1)) > 0)
    return notKnown("Say a share of proof load from 1 to 100 %.", `torque ${named} K 0.2 at 75 %`);
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
function stressFigure(q: Question): Answer {
  take(q, /^stress\b(?: of| from)?/i);
  const bolt = takeBolt(q);
  const force = takeQuantity(q, "force");
  const ask = "stress 25000 lbf on 3/4-16 UNF";
  if (bolt.unknown !== undefined) return unknownThread(bolt.unknown);
  if (bolt.thread === undefined || force === undefined || force.unit.dimension !== "force" || !above(force))
    return notKnown("Say the force and the thread.", ask);
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
function jointFigure(q: Question): Answer {
  const bolt = takeBolt(q);
  const parts = partsOf(q, { preload: "preload|clamp(?:ing)?", load: "load|pull", stiffness: "stiffness(?: of)?" });
  const [preload, load] = [quantityIn(parts.get("preload")), quantityIn(parts.get("load"))];
  const both = parts.get("stiffness");
  if (both !== undefined) both.left = both.left.replace(/(?<=\s)\/(?=\s)|\bto\b|:/g, ",").replace(/\b(?:bolt|parts?|members?)\b/gi, " ");
  const stiff = listIn(both);
  const [kb, km] = stiff?.length === 2 ? stiff : [];
  const ask = "joint 3/4-16 UNF preload 25000 lbf load 6000 lbf stiffness 6.5, 13.8";
  if (bolt.unknown !== undefined) return unknownThread(bolt.unknown);
  if (preload?.unit.dimension !== "force" || !above(preload) || load?.unit.dimension !== "force" || kb === undefined || km === undefined)
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
