// Words that people write and the language does not read, with the words that are meant: they are answered, never guessed at in silence.
// Invariant: none of them is a word of the language where it is looked for; where two words may be meant both are offered.

import type { EntryKind } from "./entry-words.ts";

export interface MeantWord {
  /** One word or two, in small letters. */
  readonly typed: string;
  /** `action`, `condition`, `decision`, `locking`, `entry`, `stage`, `verdict`: what stands there; else the entry whose line begins so. */
  readonly where: "action" | "condition" | "decision" | "locking" | "entry" | "stage" | "verdict" | EntryKind;
  /** What may be written instead; empty where the word is left out. */
  readonly write: readonly string[];
}

function rows(where: MeantWord["where"], write: readonly string[], typed: string): MeantWord[] {
  return typed.split(", ").map((it) => ({ typed: it, where, write }));
}

export const meantWords: readonly MeantWord[] = [
  ...rows(
    "action",
    ["remove"],
    "drive out, press out, drift out, knock out, tap out, pull out, pull off, take off, take out, lift out, lift off, draw off, draw out, took off, took out",
  ),
  ...rows("action", ["mark"], "marked"),
  ...rows("action", ["remove"], "pull, withdraw, extract, detach, dismantle, disconnect, prise off, unship, strip out"),
  ...rows(
    "action",
    ["fit"],
    "fitted, refit, install, reinstall, mount, replug, drive in, press in, drift in, knock in, tap in, push in, put back, put on, put in, slide on, reconnect, connect",
  ),
  ...rows("action", ["fit", "remove"], "press, drive, drift"),
  ...rows("action", ["slacken"], "loosen, slack off, back off, ease off, crack off"),
  ...rows("action", ["undo"], "undid, unscrew, unbolt, undone, unfasten"),
  ...rows("action", ["tighten"], "retighten, do up, nip up, screw up, bolt up, torque up, retorque"),
  ...rows("action", ["tighten", "slacken"], "adjust, readjust"),
  ...rows("action", ["lock"], "relock, pin, wire, stake, peen, secure, split-pin, wire-lock, lockwire"),
  ...rows("action", ["safe"], "make safe, made safe"),
  ...rows("action", ["takes"], "took, time"),
  ...rows("action", ["done"], "finished, completed"),
  ...rows("action", ["support on stands"], "axle stands"),
  ...rows("action", ["clean"], "wash, degrease, wipe, deburr, wire-brush, wash out"),
  ...rows("action", ["oil", "grease"], "lubricate, lube"),
  ...rows("action", ["fill"], "refill, top up"),
  ...rows("action", ["drain"], "empty"),
  ...rows("action", ["raise on jack"], "jack up, jack"),
  ...rows("action", ["raise on jack", "raise on lift", "raise on crane"], "hoist, lift up"),
  ...rows("action", ["lower"], "put down, let down, set down, down, off stands, off jack"),
  ...rows("action", ["support on", "raise on"], "on"),
  ...rows("action", ["let back"], "turn back, back"),
  ...rows("action", ["inspect"], "examine, look at, look over, checked"),
  ...rows("action", ["heat"], "warm, warm up"),
  ...rows("action", ["repair"], "mend, fettle, dress, straighten, rebuild"),

  ...rows("entry", ["finding"], "found, fault, defect"),
  ...rows("entry", ["question"], "ask, query"),
  ...rows("entry", ["stock"], "shelf"),
  ...rows("entry", ["release"], "signed, sign, released"),
  ...rows("entry", ["measure"], "measured"),
  ...rows("entry", ["day"], "date"),

  ...rows("stage", ["found", "trial"], "before, initial, initially"),
  ...rows("stage", ["final", "trial"], "after, afterwards, finally"),
  ...rows("verdict", ["good"], "ok, okay, fine, pass, passed"),
  ...rows("verdict", ["bad"], "poor, wrong, fail, failed, faulty"),

  ...rows("condition", ["serviceable"], "tight, locked, ok, okay, fine, sound, good, usable, reusable, intact, undamaged, unworn"),
  ...rows("condition", [], "very, badly, slightly, heavily, lightly, severely, somewhat, rather, quite, too, a, bit, partly"),
  ...rows("condition", ["corroded"], "rusty, rusted, rotten"),
  ...rows("condition", ["broken"], "snapped, fractured, split"),
  ...rows("condition", ["loose"], "slack, undone, untight"),
  ...rows("condition", ["unlocked"], "unpinned, unwired"),
  ...rows("condition", ["seized"], "stuck, jammed"),
  ...rows("condition", ["scored"], "scratched, grooved, galled"),
  ...rows("condition", ["bent"], "twisted, buckled, distorted"),
  ...rows("condition", ["damaged"], "chipped, dented, burred, torn, perished, fretted, blue, blued, overheated, burnt"),
  ...rows("condition", ["damaged"], "frayed, kinked, glazed, charred"),
  ...rows("condition", ["worn", "damaged"], "noisy, rumbling, notchy, rough, gritty"),
  ...rows("condition", ["missing"], "absent, gone, lost"),
  ...rows("condition", ["reversed"], "upside-down, backwards, inverted"),
  ...rows("condition", ["blocked"], "clogged, choked"),
  ...rows("condition", ["contaminated", "corroded"], "dirty, filthy"),

  ...rows("decision", ["renew"], "new, buy"),
  ...rows("decision", ["reuse"], "keep, refit, ok"),
  ...rows("decision", ["discard"], "scrap, bin"),

  ...rows("locking", ["circlip", "R clip"], "spring clip, clip, wire clip"),
  ...rows("locking", ["circlip"], "snap ring, retaining ring, spring ring, retaining clip, e clip, c clip, circlips, internal circlip, external circlip"),
  ...rows(
    "locking",
    ["R clip"],
    "hairpin clip, hairpin, hairpin cotter, hitch pin, hitch clip, linch pin, linchpin, lynch pin, lynchpin, beta pin, beta clip, r pin, pin clip",
  ),
  ...rows("locking", ["roll pin"], "spring pin, tension pin, spiral pin, slotted pin"),
  ...rows("locking", ["tab washer", "spring washer"], "lock washer, lockwasher, locking washer"),
  ...rows("locking", ["spring washer"], "split washer, shakeproof washer, star washer, wave washer, serrated washer, spring lockwasher"),
  ...rows("locking", ["tab washer"], "tabbed washer, locking tab, lock tab, tab, tongued washer"),
  ...rows("locking", ["lock plate"], "locking plate, tab plate, locking strip, tab strip"),
  ...rows("locking", ["lock nut"], "locking nut, check nut, back nut, half nut, second nut"),
  ...rows("locking", ["self-locking nut"], "nylon nut, stiff nut, stiffnut"),
  ...rows("locking", ["lock wire"], "locking wire, wire, binding wire, iron wire"),
  ...rows("locking", ["thread lock"], "thread locker, threadlocker, locking compound, locking fluid, thread compound"),
  ...rows("locking", ["staking"], "centre pop, centre punch, centre punched, center punch, punch marks, caulking, peened, staked"),
  ...rows("locking", ["grub screw"], "set screw, setscrew"),
  ...rows("locking", ["split pin", "taper pin", "roll pin"], "pin"),

  ...rows("sheet", ["reading"], "odometer, mileage, hours"),
  ...rows("sheet", ["opened"], "date, dated"),
  ...rows("sheet", ["machine"], "make, model, vehicle"),
  ...rows("part", ["mass"], "weight, weighs"),
  ...rows("part", ["qty"], "quantity, count"),
  ...rows("fastener", ["qty"], "quantity, count"),
  ...rows("fastener", ["locked by"], "locking"),
  ...rows("fluid", ["capacity"], "quantity, volume"),
  ...rows("fluid", ["grade"], "type"),
  ...rows("limit", ["worn max"], "wear max, max wear, maximum wear"),
  ...rows("limit", ["worn min"], "wear min, min wear, minimum wear"),
  ...rows("limit", ["worn max", "worn min"], "wear limit, wear, service limit"),
  ...rows("limit", ["worn max", "new max"], "max, maximum"),
  ...rows("limit", ["worn min", "new min"], "min, minimum"),
  ...rows("gauge", ["uncertainty"], "accuracy"),
  ...rows("gauge", ["uncertainty"], "accurate to"),
  ...rows("gauge", ["checked"], "calibrated"),
  ...rows("gauge", ["resolution", "range"], "reads, graduated"),
  ...rows("finding", ["is"], "was, found, looks, seems"),
  ...rows("finding", ["decision"], "decide, decided"),
  ...rows("finding", ["because"], "cause, reason, why"),
  ...rows("release", ["test"], "road test, tested, tried, trial run"),
  ...rows("supplier", ["freight"], "carriage, postage, shipping, delivery"),
  ...rows("supplier", ["tax"], "vat"),
  ...rows("offer", ["lead"], "delivery"),
  ...rows("offer", ["price"], "cost, costs"),
  ...rows("order", ["status placed"], "ordered"),
  ...rows("order", ["status received", "received"], "arrived, came, delivered, got"),
  ...rows("order", ["status returned"], "sent back"),
];

/** What is meant by one word or two, where they are looked for. */
export function meantBy(typed: string, where: MeantWord["where"]): MeantWord | undefined {
  return byWords.get(`${where} ${typed.toLowerCase()}`);
}

const byWords: ReadonlyMap<string, MeantWord> = new Map(meantWords.map((it) => [`${it.where} ${it.typed}`, it]));
