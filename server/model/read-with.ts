// What is in, and what is tight, as a limit is read or a check is seen: “big end bore, shells in, bolts pulled”; a brake that bites. What was read or seen without
// them is of something else.
// Invariant: a line `with …` is taken at its word; a title only where it can mean one thing of those that are declared.
import { allWords } from "./titles.ts";
import type { Job } from "./job.ts";
import { memo } from "./memo.ts";
import type { Check, Fastener, Fluid, Limit, Part, Thing } from "./things.ts";
import { bandOf } from "./values.ts";

export function readWith(job: Job, thing: Limit | Check): readonly (Part | Fastener)[] {
  return allOf(job).get(thing.name) ?? none;
}

const none: readonly never[] = [];

const allOf = memo((job: Job): ReadonlyMap<string, readonly (Part | Fastener)[]> => {
  const all = new Map<string, readonly (Part | Fastener)[]>();
  for (const limit of job.things.values()) {
    if (limit.kind !== "limit" && limit.kind !== "check") continue;
    const said = (limit.with.length > 0 ? limit.with : limit.kind === "check" && isTried(limit) ? limit.of : [])
      .map((name) => job.things.get(name.text))
      .filter(isPiece);
    if (limit.with.length === 0) said.push(...titled(job, limit), ...(limit.kind === "limit" ? madeInPlace(job, limit) : none));
    if (limit.with.length === 0 && limit.kind === "limit" && isReadMounted(limit))
      said.push(...limit.of.map(({ text }) => job.things.get(text)).filter(isPiece));
    if (limit.with.length === 0 && limit.kind === "limit" && isOfTeeth(limit)) said.push(...inMesh(job, limit));
    if (limit.with.length === 0 && isReadBoltedUp(limit)) said.push(...boltedUp(job, limit));
    if (limit.with.length === 0 && limit.kind === "limit") said.push(...setOf(job, limit));
    if (said.length > 0) all.set(limit.name, [...new Set(said)]);
  }
  return all;
});

function isPiece(thing: Thing | undefined): thing is Part | Fastener {
  return (thing?.kind === "part" || thing?.kind === "fastener") && !thing.implied;
}

/** What shows only when the thing is in and works: it bites, pulls, engages, does not leak. What says that it is seen on the bench is not meant. */
const works =
  /\b(overrun|on the road|comes? out|flows?|dry (at|after|all)|after (a|the|its) (run|drive)|bites?|braking|brakes? (hard|hold|work|come|pull|drag)\w*|pedal|leaks?|leak-?free|weeps?|drips?|pulls?|push|pushes|steers?|(dis)?engages?|selects?|(go(es)?|slips?|slides?) in(to)? (gear )?and (stays?|holds?)|stays? in gear|drives?|runs? (quiet|true|smooth|dry)\w*|runs? (free|freely|easy|easily|clear) (in|through|over|past) (its|their|the)|starts?|stops|tried|holds? (the|a|its|on|every|each|all|in)|(all|both) (two |three |four |six )?(wheels )?locks?|locks? (within|up|at once)|within (a|one|two|three|\d+) (seconds?|s|turns?|revolutions?|yards?|metres?)|slow in|returns?|falls? both ways|lock to lock|(at|on) (full|each|either|both) locks?)\b/i;

/** What can only be seen of a machine that runs: nothing critical of it is off, and no fluid out. */
const runs =
  /\b(overrun|on the road|road test|after (a|the|its|some) (run|drive|trip|miles?)|under (load|steam|way|power|stones|(a |half a )?(ton|tonne|hundredweight)|\d[\d.]* ?(t|tons?|tonnes?|kg|cwt))|(engine|motor) (running|turning)|at (idle|tick-?over)|with (the|its) [\w -]{2,20} (running|turning|going)|(two|three|four|five|six|ten|twelve|twenty|\d+) (rounds(?! of)|laps|circuits)|(hours?|minutes?) (running|turning|of (running|grinding|turning|work)|at (work|speed|full speed)|under (?!\d|pressure|water|air|oil|vacuum|test)\w+))\b/i;

export function isSeenRunning(check: Check): boolean {
  const text = allWords(check);
  return runs.test(text) && !onBench.test(text) && !isOfSurface(check);
}

const onBench =
  /\bbench\b|\bvice\b|before it goes|\bbetween (its |the )?cent(res|ers)\b|\b(on|in) (the |its |two )?(v[- ]?blocks|rollers|mandrel|knife[- ]edges|lathe|balancer)\b/i;

/** It says that it is read or seen on the bench, between centres, on a mandrel. */
export function isOnBench(text: string): boolean {
  return onBench.test(text);
}

/** How a surface or a mesh looks, and no look for leaks: a contact pattern, blue, a crack test. It is seen dry. */
export function isOfSurface(check: Check): boolean {
  const words = allWords(check);
  const text = byLever.test(words) ? words.replace(atNotch, " ") : words;
  return surface.test(text) && !leaks.test(text) && !isOfMarksMeeting(check);
}

/** How far a lever or a pawl is up: “locks with the lever on the sixth tooth” speaks of no surface. */
const byLever = /\b(lever|hand ?brake|pawl|ratchet)\b/i;
const atNotch =
  /\b(on|at|by|before|within|in) (the )?(first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|two|three|four|five|six|seven|eight|nine|ten|\d+(st|nd|rd|th)?) (tooth|teeth|notch(es)?|clicks?)\b/gi;

/** Marks of several that meet, as they are put together: timing dots, arrows in line. Nobody sees it of what lies on the bench, and off and on again it is to be seen anew. */
export function isOfMarksMeeting(check: Check): boolean {
  const text = allWords(check);
  return markings.test(text) && meeting.test(text);
}

const markings = /\b(dots?|marks?|punch ?marks?|arrows?|timing|scribe\w*|notch(es)?|pops?|(marked|bright|copper) (teeth|tooth|links?))\b/i;
const meeting =
  /\b(meets?|met|line up|lined up|lines up|in line|coincides?|opposite|face each other|facing|together|agrees?|aligned?|to (the )?(dot|mark)s?)\b/i;

/** How two wheels mesh: nobody sees it of one alone. */
export function isSeenOfTwoWheels(check: Check): boolean {
  const text = allWords(check);
  return check.of.length > 1 && meshed.test(text) && wheels.test(text) && !cracks.test(text);
}

const meshed = /\b(contact|patterns?|mesh(es)?|mark(s|ed|ing)?|chalk|blued?|blue?ing|bedd(s|ed|ing)|toe|heel)\b/i;
const wheels = /\b(mesh(es)?|tooth|teeth|flanks?|pinions?|crown ?wheels?|gears?|cogs?|bevels?|worms?)\b/i;

/** By what a crack is looked for. */
export const looksForCracksBy = String.raw`dyed?|magnetic\w*|magnaflux|mpi|ndt|penetrant|(iron|magnetic) dust|x-?ray\w*|ultra-?so(und|nic)\w*`;
const ofCracks = String.raw`crack\w*|no lines?|rings true|${looksForCracksBy}`;

/** Words that name by what a crack was looked for, and that it shows none: “dye shows none”, “no line under dye”. Any word of doubt, and it is no such look. */
export function showsNoCrack(text: string): boolean {
  return (lookedAndNone.test(text) || noneWhenLooked.test(text)) && !doubtful.test(text.replace(/\bonly an? \w+( \w+)?/giu, " "));
}

/** Words that speak of a crack and do not say that it is none, or that leave a doubt: “the crack is short”, “not dyed yet”. */
export function tellsCrack(text: string): boolean {
  return doubtful.test(text) || ofACrack.test(text.replace(noSuchCrack, " "));
}

const ofACrack = /\b(crack(s|ed)?|hair[- ]?(line|crack)s?|fractures?d?|splits?|fissures?|bleeds?)\b/iu;
const noSuchCrack = /\b(no|not an?|never an?|isn't an?|wasn't an?|not|none of it) (\w+ )?(cracks?|cracked|hair[- ]?lines?|fractures?)\b/giu;

const lookedFor = String.raw`${looksForCracksBy}|crack[- ]?(test|detect|check)\w*`;
const noCrack = String.raw`none|nothing|clean(?! (edge|cut|break|line))|clear(?! (edge|line))|(no|not a|never a) (\w+ )?(cracks?|lines?|indications?|flaws?|bleed\w*|signs?|trace)|not cracked`;
const lookedAndNone = new RegExp(String.raw`\b(${lookedFor})\b[^.;]{0,40}?\b(${noCrack})\b`, "iu");
const noneWhenLooked = new RegExp(String.raw`\b(${noCrack})\b( \w+){0,3} (by|under|in|with|to|after|from|on)( the| a)?( \w+)? (${lookedFor})\b`, "iu");
const doubtful =
  /\b(but|except|save|only|yet|to be|will|shall|should|need\w*|ought|without|never|un\w*(dyed|tested|tried)|(no|not|nor|nothing) (\w+ )?(dyed?|magnetic|magnaflux|mpi|ndt|penetrant|x-?ray\w*|ultra-?so\w*|tested|tried|used|done|looked)|stops?|stopped|ends?|ended|further|longer|deeper|elsewhere|still|until|before|unless|if|can(not|'t))\b|\b(found|finds?|shows?|showed|shown)\b(?!( up)? (none|no|nothing|clean|clear|not|never)\b)/iu;

const inBlue = "blued?|blue?ing|bedding|contact patterns?";
const cracks = new RegExp(String.raw`\b(${ofCracks})\b`, "i");
const bearing = new RegExp(String.raw`\b(${inBlue})\b`, "i");
const surface = new RegExp(
  String.raw`\b(${ofCracks}|${inBlue}|contact|patterns?|mark(s|ed|ing)?|bedd(s|ed)?|flanks?|tooth|teeth|mesh(es)?|witness|scor(es?|ing)|drawings?|numbers?|dots?|arrows?|way round)\b`,
  "i",
);

/** Whether something is tried by it: it moves, holds, stops, runs. A look for cracks, at blue, or at how it is made up tries nothing, whatever it shows. */
export function isTrial(check: Check): boolean {
  const text = allWords(check);
  return (works.test(text) || runs.test(text) || moves.test(text)) && !cracks.test(text) && !bearing.test(text);
}

/** A trial of what is together: it shows nothing that a surface on the bench would show as well. */
export function isTriedTogether(check: Check): boolean {
  return isTrial(check) && !isOfSurface(check);
}

/** “Rope runs in both grooves”: the word for what such a trial speaks of first, which is there then. Undefined for any other check. */
export function subjectOf(check: Check): string | undefined {
  return isTriedTogether(check) ? wordsOf(check.title ?? "").find((it) => !counting.has(it)) : undefined;
}

const counting: ReadonlySet<string> = new Set(
  "the a an all both each every two three four six either any whole new front rear back fore aft left right near upper lower inner outer".split(" "),
);

/**
 * Whether “Axle rocks freely” speaks of a part whose last word is that: a stub axle or a lay shaft is a thing of its own, and is not meant where the check is of
 * something that bears the word too, an axle beam, and does not say `stub`.
 */
export function isSubjectOf(job: Job, check: Check, part: Thing): boolean {
  const subject = subjectOf(check);
  if (subject === undefined || headOf(part) !== subject) return false;
  const own = wordsOf(allWords(part)).find((word) => ofItsOwn.has(word));
  if (own === undefined || check.of.some(({ text }) => text === part.name) || wordsOf(allWords(check)).includes(own)) return true;
  return !check.of.some(({ text }) => wordsOf(allWords(job.things.get(text) ?? part)).includes(subject));
}

const ofItsOwn: ReadonlySet<string> = new Set("stub half lay counter cross jack quill tail idler pilot swivel".split(" "));

/** It asks in so many words that something be tried: a look alone does not answer it. */
export function asksForATrial(check: Check): boolean {
  return isTrial(check) && trial.test(allWords(check));
}

const trial =
  /\b(tests?|tested|tried|road|driven|braked|lock to lock|grips|trips|catches|(holds?|releases?|stops?|latch(es)?|shuts?) (when|under|at|on|from|within|each|both))\b/i;
const moves =
  /\b(tests?|tested|try|tries|turn(s|ed|ing)?|spin(s|ning)?|spun|free(ly)?|move(s|d|ment)?|swings?|slides?|travel(s|led)?|rolls?|stop(s|ped|ping)?|hold(s|ing)?|held|brak(e|es|ed|ing)|steer(s|ed|ing)?|grips?|locks?|bind(s|ing)?|rub(s|bing)?|touch(es)?|shakes?|rocks?|slack|play|lash|knocks?|clonks?|nois[ey]|quiet(ly)?|rumbles?|drags?|lifts?|lowers?|lets? go|releases?|works?|working|goes|comes|clears?|efficiency|pull|wanders?|tracks?|runs?|running|driven|rides?|falls|drops|shuts?|opens?|load(ed)?|pace|both ways|all the way|hand[- ]?(warm|light)|hot|cold|cool|pressure|rpm)\b/i;

/** It looks for a crack: that stays with the piece, and is not put right by taking it off and on. */
export function isOfCracks(check: Check): boolean {
  return cracks.test(allWords(check));
}

/** It shows a bend: how straight, flat or true something is, or how it runs. */
export function isOfShape(thing: Limit | Check): boolean {
  return tellsOfShape(allWords(thing));
}

/** The same of any words. */
export function tellsOfShape(text: string): boolean {
  return straight.test(text);
}

const straight =
  /\b(bent|bends?|bow(ed)?|straight\w*|true|truth|runs?|run-?outs?|twist\w*|square\w*|parallel\w*|flat\w*|align\w*|line|centres?|centers?|jig|track|toe(-in)?|camber|castor|wobbles?|buckl\w*|shape|drawing|template)\b/i;

/** A bore, a diameter, a clearance, the shape of a piece: how large the pieces are, and not how they stand to one another or run. */
export function isOfSize(limit: Limit): boolean {
  const words = allWords(limit);
  return sizes.test(words) || (shapes.test(words) && !betweenPieces.test(words));
}

/** The shape of one piece, which goes with it: a rod's twist, an eye out of round with its cap pulled down. */
const shapes =
  /\b(roundness|out[- ]of[- ]round|oval(ity)?|taper(ed)?|twist(ed)?|bend|bent|straight(ness)?|width|wear|shells?|tunnels?|housings?|eyes?|centres|centers)\b/i;
const betweenPieces = /\b(run-?outs?|running|wobbles?|side to side|gaps?|rock|shake|lift|pre-?load|float|play|lash|backlash|bite|drag|turns?|spins?|true)\b/i;

/** The metal of one piece, which is the same on and off: how deep it is worn, how thick it is yet. No nut makes it more or less. */
export function isOfItsMetal(limit: Limit): boolean {
  const words = allWords(limit);
  return metal.test(words) && !betweenPieces.test(words) && !clearances.test(words) && !ofAMove.test(words);
}

const metal =
  /\b(bores?|diameters?|dia|journals?|thick(ness)?|depths?(?! of (mesh|engagement))|grooves?|width|wear|pits?|pitting|linings?|tread|ridges?|steps?|oval(ity)?|out[- ]of[- ]round|taper(ed)?|twist(ed)?|bend|bent|straight(ness)?)\b/i;

/** Read by moving it. */
const ofAMove = /\b(up and down|in and out|to and fro|fore and aft|end to end|(of|in) the (\w+ )?joints?)\b/i;

/** How true several that are bolted or keyed together run: the pull of the nut makes it. */
export function isOfRunOut(limit: Limit): boolean {
  return /\b(run-?outs?|wobbles?|runs? true|truth|side to side)\b/iu.test(allWords(limit)) && !isOfSize(limit);
}

/** How pieces stand to one another or run: new with each assembly. */
export function isBetweenPieces(limit: Limit): boolean {
  return betweenPieces.test(allWords(limit)) && !isOfSize(limit);
}

/** How they run, or how much room they leave one another: it is of all that are mounted together, whichever the limit names. */
export function isOfAllMounted(limit: Limit): boolean {
  return isBetweenPieces(limit) || clearances.test(allWords(limit));
}

/** A float, a backlash, a wire in a bearing: nothing of it is there until all are together, and none of it is read of a new piece in the hand. */
export function isReadTogether(limit: Limit): boolean {
  const words = allWords(limit);
  return together.test(words) || (playOf.test(words) && !isItself(limit));
}

const together = /\b(float|back ?lash|pre-?load|(lead|solder|fuse) wire|plastic (wire|thread|strip)|oil pressure)\b/i;
/** A wire or a strip that is squashed in the bearing, and read when the cap is off again. */
export function isSquashed(limit: Limit): boolean {
  const words = allWords(limit);
  return saysSquashed(words) || (byWire.test(words) && (clearances.test(words) || betweenPieces.test(words)));
}

/** In words that say it of any reading: a gauge's title, a note under the figures. */
export function saysSquashed(words: string): boolean {
  return squashed.test(words);
}

const squashed =
  /\b((lead|solder|fuse|gaug(e|ing)|clearance)[- ]wires?|by lead|plastic[- ]?(wire|thread|strip|gaug(e|ing))s?|squash\w*|(crush|squeeze|flatten)(ed)?[- ](wire|strip|thread|lead)s?)\b/iu;
const byWire = /\b(by|with|on) (a |the )?wires?\b/iu;

/** What pulls the cap down over what it is of: that which holds it, or the part that closes over it. Of several, of those alone that are in a bearing. */
export function pulledOver(job: Job, limit: Limit): readonly Fastener[] {
  const parts = limit.of.map(({ text }) => job.things.get(text)).filter((it): it is Part => isPiece(it) && it.kind === "part");
  const inBearing = parts.filter((it) => wordsOf(allWords(it)).some((word) => linesBearing.has(word)));
  const own = inBearing.length > 0 ? inBearing : parts.length === 1 && parts[0]?.behind.length === 1 ? parts : none;
  return [...new Set(own.flatMap((it) => holdersOver(job, it)))].filter((it): it is Fastener => it.kind === "fastener");
}

const linesBearing: ReadonlySet<string> = new Set(["shell", "brass", "bearing", "half", "halve", "bush", "cap", "keep", "liner", "lining"]);

/** What holds it; of what nothing holds, what holds the part that closes over it: a main cap over the shaft that lies in the main shell. */
function holdersOver(job: Job, part: Part): readonly (Part | Fastener)[] {
  const overs = (it: Part) => it.behind.map(({ text }) => job.things.get(text)).filter((one): one is Part => isPiece(one) && one.kind === "part");
  const by =
    part.heldBy.length > 0
      ? part.heldBy
      : overs(part).flatMap((over) => (over.heldBy.length > 0 ? over.heldBy : overs(over).flatMap((it) => (isOfOneName(it, part) ? it.heldBy : []))));
  return by.map(({ text }) => job.things.get(text)).filter(isPiece);
}

/** `main-cap` and `main-shell`. */
function isOfOneName(one: Part, other: Part): boolean {
  return one.name.includes("-") && one.name.split("-")[0] === other.name.split("-")[0];
}

const playOf = /\b(play|shake|rock|side clearance|side to side|up and down|lift (on|in)|float)\b/i;

/** A ball in its joint, a bearing by itself: what it has of play it has in the hand too. */
function isItself(limit: Limit): boolean {
  return limit.of.length < 2 && wordsOf(allWords(limit)).some((word) => playsByItself.has(word));
}

const playsByItself: ReadonlySet<string> = new Set(["ball", "joint", "bearing", "race", "chain", "hinge", "key"]);
const clearances = /\b(clearances?|interference|slack|side ?play|end ?float)\b/i;
const sizes = /\b(bores?|bored|clearances?|diameters?|dia|sizes?|journals?|thick(ness)?|nip|crush|interference)\b/i;

/** It speaks of a leak: dry, no weep at the seal, holds its pressure. */
export function isOfLeaks(text: string): boolean {
  return leaks.test(text);
}

const leaks =
  /\b(leak\w*|weep\w*|drip\w*|(no|not a) drops?|drops? of|seep\w*|sweat\w*|dry|damp|wet|moist|tight(?! (places?|spots?|points?|patch(es)?|part))|(no|without|free of|any|mark of|spot of) oil|pressure|holds)\b/i;

function isTried(check: Check): boolean {
  const text = allWords(check);
  return works.test(text) && !onBench.test(text);
}

/** “shells in”, “links on”, “with its bearing fitted”: a word or several, and that they are in. */
const isIn =
  /(?:^|[,;(]|\bwith\b|\band\b)\s*(?:(?:the|its|both|new)\s+)*(\p{L}[\p{L}\s-]*?)\s+(?:in|on|in place|fitted|built in)\s*(?=$|[,;:)]|and\b|bolts?\b|caps?\b)/giu;

function titled(job: Job, limit: Limit | Check): readonly (Part | Fastener)[] {
  const title = limit.title;
  if (title === undefined || !/\b(in|on|fitted)\b/i.test(title)) return none;
  const found = new Set<Part | Fastener>();
  for (const [, words = ""] of title.matchAll(isIn)) {
    const said = wordsOf(words);
    const last = said.at(-1);
    if (last === undefined) continue;
    const called = [...job.things.values()].filter((it): it is Part => isPiece(it) && it.kind === "part" && headOf(it) === last);
    const own = called.filter((it) => limit.of.some((name) => name.text === it.name));
    const near = called.filter((it) => shares(it, limit) || said.slice(0, -1).some((word) => wordsOf(it.name).includes(word)));
    for (const it of own.length > 0 ? own : near.length > 0 ? near : called.length === 1 ? called : none) found.add(it);
  }
  return [...found];
}

/** A backlash: there is none of one wheel alone. */
export function isOfTeeth(limit: Limit): boolean {
  return limit.of.length > 0 && /\bback-?lash\b/iu.test(allWords(limit)) && !onBench.test(allWords(limit));
}

/** Both wheels, and the shafts that carry them: a wheel that stays in the box has none with its shaft on the bench. */
function inMesh(job: Job, limit: Limit): readonly (Part | Fastener)[] {
  const pieces = (names: readonly { readonly text: string }[]) => names.map(({ text }) => job.things.get(text)).filter(isPiece);
  const own = pieces(limit.of);
  const all = own.length > 1 ? own : own.flatMap((it) => (it.kind === "part" ? [it, ...pieces(it.matchedWith)] : [it]));
  const shafts = all.flatMap((it) => (it.kind === "part" ? pieces(it.behind) : [])).filter((it) => carriers.has(headOf(it) ?? ""));
  return [...all, ...shafts];
}

const carriers: ReadonlySet<string> = new Set("shaft layshaft countershaft driveshaft camshaft crankshaft spindle axle arbor mandrel quill carrier".split(" "));

/** “Run-out of the drum on its hub”: of what lies on the bench nobody reads it. */
function isReadMounted(limit: Limit): boolean {
  return mounted.test(limit.title ?? "") && !onBench.test(allWords(limit));
}

const mounted =
  /\b(run-?out|wobble|float|backlash|play|rock|lift)\b.*\b(on (its|the|their) (own )?(hub|flange|axle|spindle|stub axle|stub)|in (its|the|their) (cases?|crankcase|box|gearbox|housing|casing|axle|place))s?\s*($|[,;(])/iu;

/** “Crank end float, bolted up”: its title says that it is read or seen with all that holds it tight. A bore bolted up is read on the bench as well. */
export function isReadBoltedUp(thing: Limit | Check): boolean {
  return !(thing.kind === "limit" && isOfSize(thing)) && /\bbolted (up|down|together|tight)\b/iu.test(thing.title ?? "");
}

/** What it is of, or the one part that its title names, and what holds that; of what nothing holds, what holds the part that closes over it. */
function boltedUp(job: Job, thing: Limit | Check): readonly (Part | Fastener)[] {
  const words = wordsOf((thing.title ?? "").split(/[,;(]/)[0] as string);
  const named = [...job.things.values()].filter((it): it is Part => isPiece(it) && it.kind === "part" && words.includes(it.name));
  const isOfPart = (it: Thing | undefined): it is Part => isPiece(it) && it.kind === "part";
  const of = thing.of.length > 0 ? thing.of.map(({ text }) => job.things.get(text)).filter(isOfPart) : named.length === 1 ? named : [];
  return [...of, ...of.flatMap((part) => holdersOver(job, part))];
}

/** “Primary chain, up and down in the middle”, which is set by the engine's bolts: of a part that bears just that title, and is on as its slack is read. */
export function setOf(job: Job, { title = "", setBy, of }: Limit): readonly Part[] {
  if (setBy.length === 0 || of.length > 0) return none;
  const [, what = ""] = /^([^,;:(]*?)(?:'s)?(?: (?:slack|tension|sag|gap|clearance|play|float|run-?out|travel))?\s*(?:[,;:(]|$)/iu.exec(title) ?? [];
  const named = [...job.things.values()].filter(
    (it): it is Part =>
      it.kind === "part" &&
      !it.implied &&
      what !== "" &&
      (it.title ?? "")
        .split(/[,;:(]/u)[0]
        ?.trim()
        .toLowerCase() === what.trim().toLowerCase(),
  );
  return named.length === 1 ? named : none;
}

/** A bush that is reamed or bored has its size when it is pressed in, and none that counts before. */
function madeInPlace(job: Job, limit: Limit): readonly (Part | Fastener)[] {
  if (!/\b(reamed|honed|bored|scraped|lapped|line-?bored|broached|pressed in)\b/i.test(allWords(limit))) return none;
  return limit.of.map((name) => job.things.get(name.text)).filter((it): it is Part => isPiece(it) && it.kind === "part" && pressedIn.has(headOf(it) ?? ""));
}

/** What a title says is out as it is read: “rocker shaft out”, “links off”, “no crown wheel”. Each part that may be meant; a brake that is off, or a lever that is out, is let go and stays where it is. */
export const outAsRead: (job: Job, thing: Limit | Check) => readonly Part[] = (job, thing) => allOut(job).get(thing.name) ?? none;

const allOut = memo((job: Job): ReadonlyMap<string, readonly Part[]> => {
  const all = new Map<string, readonly Part[]>();
  for (const thing of job.things.values()) {
    if (thing.kind !== "limit" && thing.kind !== "check") continue;
    const parts: Part[] = [];
    for (const clause of (thing.title ?? "").split(/[,;:()]/)) {
      const words = wordsOf((isOut.exec(clause) ?? (thing.kind === "limit" ? isNone.exec(clause) : null))?.groups?.what ?? "");
      if (words.length === 0 || letGo.has(words.at(-1) as string)) continue;
      for (const it of job.things.values()) if (it.kind === "part" && !it.implied && isCalled(it, words)) parts.push(it);
    }
    if (parts.length > 0) all.set(thing.name, parts);
  }
  return all;
});

/** “No crown wheel”: of a look it would tell what is not to be seen. */
const isNone = /^ *(?:no|without) (?:the |its )?(?<what>\p{L}+(?:[ -]\p{L}+){0,2}) *$/iu;
const isOut = /^(?:.*\bwith)? *(?:the )?(?<what>\p{L}+(?:[ -]\p{L}+){0,2}) (?:out|off|removed) *$/iu;
const letGo: ReadonlySet<string> = new Set([
  "brake",
  "handbrake",
  "clutch",
  "lever",
  "load",
  "pawl",
  "plunger",
  "catch",
  "engine",
  "motor",
  "pump",
  "cock",
  "tap",
  "valve",
  "lamp",
]);

/** Its name, or its title, ends in these words. */
function isCalled(part: Part, words: readonly string[]): boolean {
  return [part.name, (part.title ?? "").split(/[,;(]/)[0] as string].some((it) => {
    const own = wordsOf(it);
    return own.length >= words.length && words.every((word, i) => own[own.length - words.length + i] === word);
  });
}

const pressedIn: ReadonlySet<string> = new Set(["bush", "bushing", "liner", "sleeve"]);

/** The parts that the title of shims names: what they stand between or under. And what those are behind, where the figure that they set is “in” it: a crankshaft's float in the cases. */
export function besideShims(job: Job, limit: Limit | Check): readonly Part[] {
  const words = new Set(limit.setBy.map(({ text }) => job.things.get(text)).flatMap((it) => (it?.kind === "shims" ? wordsOf(allWords(it)) : [])));
  const parts = [...job.things.values()].filter((it): it is Part => isPiece(it) && it.kind === "part");
  const beside = parts.filter((it) => words.has(headOf(it) ?? "") || wordsOf(it.name).every((word) => words.has(word)));
  const [inside] = wordsOf(/\bin (?:the |its )?(\p{L}{4,})$/iu.exec((limit.title ?? "").split(/[,;(]/)[0] as string)?.[1] ?? "");
  if (inside === undefined) return beside;
  const closing = new Set(beside.flatMap((it) => it.behind.map(({ text }) => text)));
  return [...beside, ...parts.filter((it) => closing.has(it.name) && wordsOf(it.name).at(-1)?.endsWith(inside) === true)];
}

/**
 * Of what only shims set, those among some parts with which it is read (`areNamed`), by its `with` or by the shims' own title; where none of those is among them, what is critical for
 * the same, for the rest may be of anything.
 */
export function readBesideShims(job: Job, thing: Limit | Check, among: readonly Part[]): { readonly parts: readonly Part[]; readonly areNamed: boolean } {
  const beside = thing.with.length > 0 ? none : besideShims(job, thing);
  const named = among.filter((it) => (thing.with.length > 0 ? thing.with.some(({ text }) => text === it.name) : beside.includes(it)));
  if (named.length > 0) return { parts: named, areNamed: true };
  return { parts: among.filter((it) => it.critical && (thing.criticalWhat === undefined || it.criticalWhat === thing.criticalWhat)), areNamed: false };
}

/** What a part is in one word, the last of its title or its name: `big-end-shell` is a shell. */
export function headOf(thing: Thing): string | undefined {
  return wordsOf((thing.title ?? thing.name).split(/[,;(]/)[0] as string).at(-1) ?? wordsOf(thing.name).at(-1);
}

/** Balls, rollers or needles as `kinds` name them, and so many at a place that they make a bearing: fewer may be a valve, a catch, anything that is round. */
export function isLooseRing(part: Part, kinds: ReadonlySet<string>): boolean {
  return (part.perPlace ?? 1) >= 6 && kinds.has(headOf(part) ?? "");
}

/** They have a word in common that tells which of several: the big end bore, and the big end shell. */
function shares(thing: Thing, limit: Limit | Check): boolean {
  const words = new Set([
    ...wordsOf(limit.name),
    ...wordsOf((limit.title ?? "").split(/[,;(]/)[0] as string),
    ...limit.of.flatMap((name) => wordsOf(name.text)),
  ]);
  return wordsOf(`${thing.name} ${thing.title ?? ""}`).some((word) => word !== headOf(thing) && words.has(word));
}

/** In small letters, and each as one of several: `shells` is `shell`, `bushes` is `bush`. */
export function wordsOf(text: string): string[] {
  return (text.toLowerCase().match(/\p{L}+/gu) ?? []).map((word) => word.replace(/(ss|sh|ch|x)es$/, "$1").replace(/([^s])s$/, "$1"));
}

/** Read of the whole as it works, and of no piece on the bench: a force, a pressure, a speed; a travel or a play. */
export function isWorking(limit: Limit): boolean {
  const dimension = (bandOf(limit.set) ?? bandOf(limit.worn) ?? bandOf(limit.new))?.unit.dimension;
  if (dimension !== undefined && worksIn.has(dimension)) return true;
  return workingWords.test(allWords(limit)) && !/\bbench\b|\bfree length\b/i.test(limit.title ?? "");
}

const worksIn: ReadonlySet<string> = new Set(["force", "pressure", "speed", "rotation", "power", "ratio", "time"]);
const workingWords = /\b(braking|brake (effort|travel)|pedal|travel|stroke|toe|camber|castor|sinks?|sinking|lift|slide|run-?out|play at|pull)\b/i;

/** A run-out or a play is read of what stands still; a travel, a force, a pressure of what works. */
export function isAtWork(limit: Limit): boolean {
  return isWorking(limit) && !/\b(run-?out|play|slide|valve lift|cam lift|toe|camber|cast[oe]r)\b/i.test(allWords(limit));
}

/** How fast an engine runs, by its words: it is together, and has its oil. */
export function isReadRunning(limit: Limit): boolean {
  const dimension = (bandOf(limit.set) ?? bandOf(limit.worn) ?? bandOf(limit.new))?.unit.dimension;
  return dimension === "rotation" && ofEngine.test(allWords(limit)) && !isOnBench(allWords(limit));
}

const ofEngine = /\b(governed (speed|revs|rpm)|tick-?over|idle|idling|slow running|off load|run-?away)\b/iu;

export interface FluidAsRead {
  readonly fluid: Fluid;
  readonly filled: boolean;
  readonly bled: boolean;
}

/**
 * What is filled, or without air, as a limit is read or a check is seen: all that is in what runs; the oil, for its pressure, where it is seen to come back, and where there is to be none; what is in
 * the thing that is read as it works; the brakes, for the travel of their pedal.
 */
export function fluidsAsRead(job: Job, thing: Limit | Check): readonly FluidAsRead[] {
  return fluidsOf(job).get(thing.name) ?? none;
}

const fluidsOf = memo((job: Job): ReadonlyMap<string, readonly FluidAsRead[]> => {
  const all = new Map<string, readonly FluidAsRead[]>();
  const fluids = [...job.things.values()].filter((it) => it.kind === "fluid");
  if (fluids.length === 0) return all;
  for (const thing of job.things.values()) {
    if (thing.kind !== "limit" && thing.kind !== "check") continue;
    const spoken = thing.kind === "check" ? flowing(thing) : pressing(thing);
    const runs = thing.kind === "check" ? isSeenRunning(thing) : isReadRunning(thing);
    const works = thing.kind === "limit" && thing.critical && isAtWork(thing);
    const isPedal = works && /\b(pedal|lever|travel|stroke)\b/i.test(thing.title ?? "");
    const leaking = thing.kind === "check" ? keptBack(thing, fluids) : undefined;
    const list = fluids.flatMap((fluid) => {
      const filled =
        runs ||
        fluid === leaking ||
        spoken?.test(allWords(fluid)) === true ||
        (works && fluid.in.some((name) => thing.of.some(({ text }) => text === name.text)));
      const bled = isPedal && fluid.needsBleed && fluid.in.some((name) => sharesWhat(job.things.get(name.text), thing));
      return filled || bled ? [{ fluid, filled, bled }] : [];
    });
    if (list.length > 0) all.set(thing.name, list);
  }
  return all;
});

function sharesWhat(part: Thing | undefined, { criticalWhat }: Limit | Check): boolean {
  return part?.kind === "part" && part.critical && part.criticalWhat === criticalWhat;
}

/** “Oil comes back at the return”: what is seen to flow is in. The name of it. */
function flowing({ title = "" }: Check): RegExp | undefined {
  // It is put there for the trial: what the machine runs on need not be in.
  if (/\b((oil|the|a|an) ?-?can|syringe|squirt gun|oil gun|grease gun|funnel)\b/iu.test(title)) return undefined;
  const [, name] =
    /(?<!\b(?:no|without|free of|any|not) )\b(oil|fuel|petrol|water|coolant)\b[^.;,]*\b(?:comes? (?:back|out|up|through)|flows?|returns|runs out|(?<!\b(?:no|none|not|nor|never|nothing|isn't) )(?:seen|shows?|reaches|arrives|gets to|drips? from|spits|squirts))\b/iu.exec(
      title,
    ) ?? [];
  return name === undefined ? undefined : named(name);
}

/** “No oil at the nose”: of the one oil that there is, wherever it lies; while that is out there is none to leak. */
function keptBack(check: Check, fluids: readonly Fluid[]): Fluid | undefined {
  if (!noOilAt.test(check.title ?? "")) return undefined;
  const oils = fluids.filter((it) => /\boil\b/iu.test(allWords(it)));
  return oils.length === 1 ? oils[0] : undefined;
}

const noOilAt = /\b(no|nor|not a drop of|without|free (of|from)|any) oil\b(?! (pressure|flows?|comes))/iu;

/** “Oil pressure, hot”: of what presses. The name of it. */
function pressing({ title = "" }: Limit): RegExp | undefined {
  const [, name] = /\b(oil|fuel|water|coolant)\b[^.;,]*\bpressure\b/iu.exec(title) ?? [];
  return name === undefined ? undefined : named(name);
}

function named(name: string): RegExp {
  return new RegExp(`(^|[^\\p{L}])${name}($|[^\\p{L}])`, "iu");
}

/** Read of the machine as it stands on its wheels, by its words. */
export function isOfStanding(limit: Limit): boolean {
  const words = allWords(limit);
  return !hanging.test(words) && (standing.test(words) || (onTheFlat.test(words) && ofTheWhole.test(words)));
}

/** How it stands: common practice of the trade, who measures these on a level floor and never on stands. */
const standing = /\b(ride height|trim height|standing height|on its wheels|on level ground|laden|kerb weight|tanks? full)\b/i;
/** A floor, where it is the whole that is measured; a nut and a cam have flats of their own. */
const onTheFlat = /\bon (the flat|a level floor|the level)\b/i;
const ofTheWhole = /\b(height|arch|lip|sill|ground|floor to|frame|chassis|body|bumper|camber|cast[oe]r|toe)\b/i;
/** It says itself that no wheel bears it. */
const hanging = /\b(on (axle )?stands|hang(s|ing)|droop|wheels? off|on the (bench|press))\b/i;
