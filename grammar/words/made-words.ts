// What the machine is made of: the sheet itself, parts, fasteners, fluids, and what may stand under any entry.
// Invariant: a row is all of a word; its line's type and reading follow from it.
import type { Figure, LetBack, Locking, Name, Quantity, Range, Span, Text, Thread } from "../tree.ts";
import type { DetailWord } from "./detail-words.ts";
import { count, date, line, maybeText, name, nameAndText, names, quantity, text } from "./shape.ts";

const any = "any";
const part = ["part"] as const;
const fastener = ["fastener"] as const;
const step = ["step"] as const;

/** `locked by` and `retained by`. */
const lockedShape = line<{
  readonly locking?: Locking;
  readonly serves?: Figure;
}>((it) => it.lockedLine());
/** `renew`, `renew with …` and `renew in pairs` of a part; `renew` of a fastener. */
const renewShape = line<{
  readonly with: readonly Name[];
  readonly inPairs: boolean;
}>((it) => it.renewLine(), { with: true });

export const madeWords = [
  {
    word: "note",
    kind: "note",
    shape: text("text"),
    under: any,
    syntax: 'note "…"',
    says: "Anything worth keeping.",
    example: 'note "The left thread was chased"',
  },
  {
    word: "photo",
    kind: "photo",
    shape: text("path"),
    under: any,
    syntax: 'photo "path"',
    says: "A picture, by its path from this sheet.",
    example: 'photo "photos/cap.jpg"',
  },
  {
    word: "accept",
    kind: "accept",
    shape: nameAndText("rule", "why"),
    under: any,
    syntax: 'accept RULE "why"',
    says: "Takes what that rule says about this entry as known. Safety rules can't be accepted, nor a guess by which something critical passes.",
    example: 'accept figure-slip "It really is that wide"',
  },

  {
    word: "admit",
    kind: "admit",
    shape: line<{
      readonly rule?: Name;
      readonly what?: Text;
      readonly by?: Text;
    }>((it) => it.admitLine()),
    under: step,
    syntax: 'admit RULE "what came of it" by "…"',
    says: "Owns up to what that rule says of a moment that is over and left nothing in the machine. It stays in the record.",
    example: 'admit chocks-missing "It stood on level ground and did not move" by "M. Orr"',
  },

  {
    word: "machine",
    kind: "machine",
    shape: text("text"),
    under: ["sheet"],
    syntax: 'machine "…"',
    says: "Maker, model and year.",
    example: 'machine "Tolland 6 hp stationary engine, 1928"',
  },
  { word: "serial", kind: "serial", shape: text("text"), under: ["sheet"], syntax: 'serial "…"', says: "The machine's number.", example: 'serial "T 2207"' },
  { word: "by", kind: "by", shape: text("text"), under: ["sheet"], syntax: 'by "…"', says: "Who does the job.", example: 'by "M. Orr"' },
  {
    word: "opened",
    kind: "opened",
    shape: date("date"),
    under: ["sheet"],
    syntax: "opened DATE",
    says: "The day the job was begun.",
    example: "opened 2026-03-02",
  },
  {
    word: "currency",
    kind: "currency",
    shape: name("code"),
    under: ["sheet", "supplier"],
    syntax: "currency CODE",
    says: "The ISO 4217 code that sums are made in, or that a supplier asks.",
    example: "currency GBP",
  },
  {
    word: "reading",
    kind: "counter",
    shape: quantity("quantity"),
    under: ["sheet"],
    syntax: "reading Q",
    says: "The machine's counter: distance or hours run.",
    example: "reading 1180 h",
  },

  {
    word: "each",
    kind: "each",
    shape: line<{
      readonly placeKind?: Name;
      readonly count?: Figure;
    }>((it) => it.eachLine()),
    under: ["part", "fastener", "fluid", "limit", "check", "step", "shims"],
    syntax: "each KIND [N]",
    says: "At every place of that kind; N is how many at each.",
    example: "each side 2",
  },
  {
    word: "qty",
    kind: "qty",
    shape: count("count"),
    under: ["part", "fastener"],
    syntax: "qty N",
    says: "How many there should be; one, where unsaid.",
    example: "qty 4",
  },
  {
    word: "number",
    kind: "number",
    shape: text("text"),
    under: ["part", "fastener", "fluid", "offer"],
    syntax: 'number "…"',
    says: "The maker's number; in an offer the supplier's.",
    example: 'number "T-0418"',
  },
  {
    word: "critical",
    kind: "critical",
    shape: maybeText("what"),
    under: ["part", "fastener", "limit", "check"],
    syntax: 'critical ["what is lost"]',
    says: "What is lost if it lets go: steering, brakes, a wheel, drive that also brakes.",
    example: 'critical "a wheel"',
  },
  {
    word: "renew",
    kind: "renew",
    shape: renewShape,
    under: part,
    syntax: "renew [with PART…] | renew in pairs",
    says: "Never goes back once disturbed, or whenever that part comes off: seals, gaskets.",
    example: "renew with sump",
  },
  {
    word: "renew",
    kind: "renew",
    shape: renewShape,
    under: fastener,
    syntax: "renew",
    says: "Used once: bolts that stretch. Undone or slackened, it never goes back.",
    example: "renew",
  },
  {
    word: "held",
    kind: "held",
    shape: line<{
      readonly by: readonly Name[];
    }>((it) => it.byNamesLine(), { by: true }),
    under: part,
    syntax: "held by FASTENER…",
    says: "What must be undone before it comes off.",
    example: "held by cap-nut",
  },
  {
    word: "behind",
    kind: "behind",
    shape: names("parts"),
    under: part,
    syntax: "behind PART…",
    says: "What must be off before it comes off.",
    example: "behind sump",
  },
  {
    word: "matched",
    kind: "matched",
    shape: line<{
      readonly with: readonly Name[];
    }>((it) => it.withNamesLine(), { with: true }),
    under: part,
    syntax: "matched with PART…",
    says: "Renewed and kept together.",
    example: "matched with crown-wheel",
  },
  {
    word: "keeps",
    kind: "keeps",
    shape: line<object>((it) => it.keepsLine()),
    under: part,
    syntax: "keeps its place",
    says: "Goes back where it came from; to be marked before it comes off.",
    example: "keeps its place",
  },
  {
    word: "fits",
    kind: "fits",
    shape: text("text"),
    under: part,
    syntax: 'fits "way round"',
    says: "Which way round it goes; printed on the way back.",
    example: 'fits "lip towards the bearing"',
  },
  {
    word: "material",
    kind: "material",
    shape: line<{
      readonly material?: Name;
    }>((it) => it.materialLine()),
    under: part,
    syntax: "material steel|cast-iron|bronze|brass|aluminium|white-metal",
    says: "For heat: interference fits, cautions.",
    example: "material cast-iron",
  },
  {
    word: "rated",
    kind: "rated",
    shape: line<{
      /** The most that it may carry. */
      readonly load?: Quantity;
      readonly source?: Text;
    }>((it) => it.ratedLine()),
    under: ["sheet", "part", "fastener"],
    syntax: 'rated Q ["where that is from"]',
    says: "The most that it may lift or carry, as its plate or its maker has it: its safe working load. A proof load is compared with it.",
    example: 'rated 500 kg "Plate on the jib"',
  },
  { word: "mass", kind: "mass", shape: quantity("mass"), under: part, syntax: "mass Q", says: "What it weighs.", example: "mass 38 kg" },
  {
    word: "holds",
    kind: "holds",
    shape: names("fluids"),
    under: part,
    syntax: "holds FLUID…",
    says: "The fluid lies in it: filled while this part is off, it runs out. It is lost with it too.",
    example: "holds sump-oil",
  },

  {
    word: "thread",
    kind: "thread",
    shape: line<{
      readonly thread?: Thread;
      readonly grade?: Figure;
      readonly class?: Figure;
      readonly places: readonly Name[];
    }>((it) => it.threadLine(), { places: true }),
    under: ["fastener", "offer"],
    syntax: "thread THREAD [LH] [grade N] [class N] [at PLACE…]",
    says: "The thread, with LH for left hand and its grade or class.",
    example: "thread 1/2-20 UNF grade 5",
  },
  {
    word: "torque",
    kind: "torque",
    shape: line<{
      /** Absent where the torque is in stages or an angle follows it: then `stages` holds all of it. */
      readonly range?: Range;
      /** `20, 40 lbf.ft`, `20 lbf.ft + 90 deg`: pulled to one after the other, the last the final one. The unit may stand at the last only; one figure alone (`bare`) is right here. */
      readonly stages?: readonly Range[];
      /** `+ 90 deg`: turned so much further behind the last stage. */
      readonly angle?: Range;
      readonly condition?: Name;
      readonly k?: Figure;
      readonly byFeel?: Text;
      /** The word `none`. */
      readonly none?: Span;
    }>((it) => it.torqueLine()),
    under: fastener,
    syntax: 'torque RANGE, RANGE… [+ Q] [dry|oiled] [K N] | torque by feel "…" | torque none',
    says: "How tight: one range, or stages in turn, and an angle further. `none` for what is fitted and never tight: a clevis pin, a key.",
    example: "torque 30 .. 35 lbf.ft dry",
  },
  {
    word: "locked",
    kind: "locked",
    shape: lockedShape,
    under: fastener,
    syntax: 'locked by LOCKING [for N] | locked by nothing "why"',
    says: "What keeps it from turning. `for N`: one serves N fasteners.",
    example: "locked by split pin 1/8 x 1 in",
  },
  {
    word: "retained",
    kind: "locked",
    shape: lockedShape,
    under: fastener,
    syntax: 'retained by LOCKING [for N] | retained by nothing "why"',
    says: "What keeps it in place; read as `locked by`.",
    example: "retained by R clip",
  },
  {
    word: "let",
    kind: "let-back",
    shape: line<{
      readonly back?: LetBack;
    }>((it) => it.letBackLine()),
    under: fastener,
    syntax: "let back N flats|N turns|Q",
    says: "How far it is turned back after its torque: a bearing that is set so.",
    example: "let back 1 flat",
  },
  {
    word: "may",
    kind: "may-serve",
    shape: line<{
      readonly why?: Text;
    }>((it) => it.mayServeLine()),
    under: ["part", "fastener"],
    syntax: 'may serve again "why"',
    says: "A part that locks, or this fastener's locking, is not used up by one opening, and why.",
    example: 'may serve again "Plate bends to a fresh tab each time; maker\'s note 14"',
  },
  {
    word: "source",
    kind: "source",
    shape: text("text"),
    under: ["part", "fastener", "fluid", "limit", "check", "gauge", "hazard", "question", "shims"],
    syntax: 'source "…"',
    says: "Where the figures are from.",
    example: 'source "Maker\'s handbook 1928, p. 31"',
  },
  {
    word: "recheck",
    kind: "recheck-after",
    shape: line<{
      readonly after?: Quantity;
    }>((it) => it.recheckLine()),
    under: fastener,
    syntax: "recheck after Q",
    says: "When its tightness is to be tried again.",
    example: "recheck after 50 mi",
  },

  {
    word: "in",
    kind: "in",
    shape: names("parts"),
    under: ["fluid"],
    syntax: "in PART…",
    says: "Lost when that part comes off or apart, if it was not drained.",
    example: "in sump",
  },
  {
    word: "capacity",
    kind: "capacity",
    shape: quantity("quantity"),
    under: ["fluid"],
    syntax: "capacity Q",
    says: "How much it takes.",
    example: "capacity 4 l",
  },
  {
    word: "grade",
    kind: "grade",
    shape: text("text"),
    under: ["fluid"],
    syntax: 'grade "…"',
    says: "Which oil or grease.",
    example: 'grade "SAE 30, non-detergent"',
  },
  {
    word: "bleed",
    kind: "needs-bleed",
    shape: line<object>((it) => it.bleedLine()),
    under: ["fluid"],
    syntax: "bleed",
    says: "It must be bled when it was opened.",
    example: "bleed",
  },
] as const satisfies readonly DetailWord[];
