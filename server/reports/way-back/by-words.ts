// What the words of a limit or a check say of when it can be read or seen. No line of the language says it, so they count only for where it is written, which a person may move.
import type { Check, Fluid, Hazard, Limit, Part, Thing } from "../../model/things.ts";
import { isOfStanding, isSeenRunning } from "../../model/read-with.ts";
import { bandOf } from "../../model/values.ts";

/** By its words, for nothing else says so: whether it leaks is seen when what could leak is in. */
export function isLeak(thing: Limit | Check): boolean {
  return /\b(?:leaks?|leaking|dry|weeps?|drips?|seeps?|no oil|oil-?tight|water-?tight)\b/i.test(`${thing.title ?? ""} ${thing.name}`);
}

/** By its words: what it looks for is a fluid that comes or goes, and so it is in. */
export function isSeenToFlow(thing: Check): boolean {
  return /\b(?:flows?|returns|comes? (?:back|out|up|through)|runs out)\b/i.test(`${thing.title ?? ""} ${thing.name}`);
}

/** Mains, a battery: what can be seen with it off is seen before it is live again. */
export function isCurrent(hazard: Hazard): boolean {
  return /\b(?:mains|electric\w*|current|isolator|battery|supply|volts?|phase)\b/i.test(`${hazard.title ?? ""} ${hazard.name}`);
}

/** By its words: what somebody must know who makes it live again, which is not what was to be known for making it safe (common practice). */
export function restoredWords(hazard: Hazard): string {
  const words = `${hazard.title ?? ""} ${hazard.name}`.replaceAll("-", " ");
  if (/\b(?:springs?|torsion|wound|tension(?:ed)?|counterweights?)\b/i.test(words))
    return "under load again from here on: out of its line, nobody\u2019s hand in it";
  if (isCurrent(hazard)) return "live again from here on: everybody clear, guards and covers back";
  if (/\b(?:pressure|steam|air|hydraulic\w*|gas|fuel|petrol|paraffin|diesel|water|ram|accumulator|boiler)\b/i.test(words))
    return "comes back slowly, with everybody clear: look for leaks";
  return "live again from here on: everybody clear";
}

/** By its words: read between the wheels, on the ground that they stand on (common practice). */
export function isOfWheels(thing: Limit | Check): boolean {
  return (
    thing.kind === "limit" &&
    (isOfStanding(thing) || /\b(?:toe|toe-in|toe-out|camber|castor|lean-out|wheel alignment)\b/i.test(`${thing.title ?? ""} ${thing.name}`))
  );
}

/** By its words: seen when the machine works again, or measured as a testing station does. */
export function inUse(thing: Limit | Check): boolean {
  const words = `${thing.title ?? ""} ${thing.name}`;
  if (/\b(?:decelerometer|rolling road|brake tester|on the rollers?)\b/i.test(words)) return true;
  // How warm a bearing gets shows when it has run.
  if (thing.kind === "limit" && (bandOf(thing.worn) ?? bandOf(thing.set) ?? bandOf(thing.new))?.unit.dimension === "temperature") return true;
  return (
    thing.kind === "check" &&
    /\b(?:on the road|road test|lock to lock|stop to stop|overrun|under load|at speed|after a (?:run|ride|drive)|when (?:running|hot|warm)|idles?|idling|brakes? from|test (?:run|drive)|at (?:a|the) (?:walk|trot|canter)|on the (?:gravel|hill|slope))\b/i.test(
      words,
    )
  );
}

/** By its words: seen after it has run, and so after what is tried by hand. */
export function isSeenHot(thing: Limit | Check): boolean {
  return thing.kind === "check" && (isSeenRunning(thing) || /\b(?:hot|warmed up|after (?:a|the) run)\b/i.test(`${thing.title ?? ""} ${thing.name}`));
}

/** By its words: read where a hand or a foot moves it, and so with all that is between. */
export function isAtControl(thing: Limit | Check): boolean {
  return /\b(?:at|of) the (?:rim|steering wheel|hand ?wheel|pedal|lever|handle|handlebars?|tiller|knob)\b|\b(?:pedal|lever|handle) (?:play|travel|slack)\b/i.test(
    thing.title ?? "",
  );
}

/** What no piece has by itself: it is there when the pieces are together. */
export function isPlay(thing: Limit | Check): boolean {
  return /\b(?:play|float|backlash|lash|clearance|slack|drag|preload|rock)\b/i.test(`${thing.title ?? ""} ${thing.name}`);
}

/** By its words: read before that is on, “pinion drag, no crown wheel”, “with the wheel off”. */
export function isReadWithout(thing: Limit | Check, part: Part | undefined): boolean {
  if (part === undefined || thing.title === undefined) return false;
  const [name] = (part.title ?? part.name.replaceAll("-", " ")).split(",");
  const escaped = (name ?? "").trim().replace(/[.*+?^${}()|[\]\\]/gu, "\\$&");
  return escaped !== "" && new RegExp(`\\b(?:no|without)(?: the)? ${escaped}\\b|\\b${escaped} (?:off|out|away)\\b`, "iu").test(thing.title);
}

/** How true it runs, which is read where it runs. */
export function isOfRunning(thing: Limit): boolean {
  return thing.spread !== undefined || /\b(?:run-?out|true|wobbles?|eccentric\w*|out of line|alignment|throw)\b/i.test(`${thing.title ?? ""} ${thing.name}`);
}

/** Between two that run together: there is none until both are in. */
export function needsItsMate(thing: Limit | Check): boolean {
  return /\b(?:backlash|lash|mesh|contact|tooth pattern)\b/i.test(`${thing.title ?? ""} ${thing.name}`);
}

/** Seen with blue or dye on the piece itself, and it is bare for that: before it goes in for good. */
export function isBlueing(thing: Limit | Check): boolean {
  return thing.kind === "check" && /\b(?:blue|blued|blueing|bluing|dye|crack-test|cracks?|magnetic)\b/i.test(`${thing.title ?? ""} ${thing.name}`);
}

/** Nothing that anybody puts back: what was wetted or let off, or has cooled down. A sheet that says after what it is live again says that it is. */
export function isSpent(hazard: Hazard): boolean {
  return (
    hazard.restoreAfter.length === 0 &&
    /\b(?:dust|asbestos|lint|fumes?|vapou?r|gas|hot|heat|scald(?:ing)?|pressure)\b/i.test(`${hazard.title ?? ""} ${hazard.name}`)
  );
}

/** A road wheel: brakes are bled with it off as well (common practice). */
export function isWheel(part: Part | undefined): boolean {
  return part !== undefined && /^(?:(?:road|front|rear|left|right|nearside|offside)\s+)*wheels?$/i.test((part.title ?? part.name).trim());
}

/** What slides in oil, or drinks it (common practice); a rolling bearing is packed with grease. Its maker's word goes before. */
export function isOiled(part: Part): boolean {
  return /\b(?:oil\w*|chains?|cables?|ropes?|leathers?|brass|brasses|white ?metal|shells?|shoes?|pistons?|cylinders?|slides?|axle ?box\w*)\b/i.test(
    `${part.title ?? ""} ${part.name.replaceAll("-", " ")}`,
  );
}

/** Where a fluid goes in, or shows how high it stands: shut when it is filled (common practice). A plug that drains as well is shut before. */
export function isFiller(thing: Thing | undefined): boolean {
  if (thing?.kind !== "part" && thing?.kind !== "fastener") return false;
  const words = `${thing.title ?? ""} ${thing.name}`.replaceAll("-", " ");
  return (
    /\b(?:fillers?|filling|fill plug|level plug|level screw|dip ?sticks?|breathers?|(?:oil|radiator|reservoir|header|expansion|fuel|tank) caps?)\b/i.test(
      words,
    ) && !/\bdrain/i.test(words)
  );
}

/** Of those words, what tells no fluid from another. */
export function isWordOfFillers(word: string): boolean {
  return /^(?:fillers?|filling|fill|plugs?|levels?|screws?|dip|sticks?|dipsticks?|breathers?|caps?|tank)$/i.test(word);
}

/** Packed into what it is in while that is open, not poured into it when it is shut (common practice). */
export function isGrease(fluid: Fluid): boolean {
  return /\bgreases?\b|\bNLGI\b/i.test(`${fluid.title ?? ""} ${fluid.name} ${fluid.grade ?? ""}`);
}

/** The words of where it is read: “Backlash at the sheave rim” at a sheave, or a rim. None of most. */
export function placeWords(thing: Limit | Check): Set<string> {
  const said = /\b(?:at|off) the ([^,;:(]+)/i.exec(thing.title ?? "")?.[1];
  return said === undefined ? new Set() : wordsOf(said);
}

/** In small letters, but for those that name no piece. */
export function wordsOf(text: string): Set<string> {
  return new Set((text.toLowerCase().match(/\p{L}{4,}/gu) ?? []).filter((it) => !nowhere.has(it)));
}

const nowhere: ReadonlySet<string> = new Set([
  "back",
  "both",
  "each",
  "front",
  "full",
  "half",
  "inner",
  "left",
  "line",
  "middle",
  "near",
  "outer",
  "pitch",
  "rear",
  "right",
  "side",
  "thinnest",
  "with",
]);
