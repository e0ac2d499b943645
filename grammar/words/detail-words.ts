// The words that start a detail line: which entries it may stand under, how it is written, what it says, an example.
import type { Detail } from "../tree.ts";
import type { EntryKind } from "./entry-words.ts";

export type DetailKind = Exclude<Detail["kind"], "unread" | "reading">;

export interface DetailWord {
  /** The first word of the line. Several details may share one: `safe` of a hazard and `safe` in a step. */
  readonly word: string;
  readonly kind: DetailKind;
  readonly under: readonly EntryKind[] | "any";
  readonly syntax: string;
  readonly says: string;
  readonly example: string;
}

const any = "any";
const part = ["part"] as const;
const fastener = ["fastener"] as const;
const limit = ["limit"] as const;
const step = ["step"] as const;
const shims = ["shims"] as const;

export const detailWords: readonly DetailWord[] = [
  { word: "note", kind: "note", under: any, syntax: 'note "…"', says: "Anything worth keeping.", example: 'note "The left thread was chased"' },
  { word: "photo", kind: "photo", under: any, syntax: 'photo "path"', says: "A picture, by its path from this sheet.", example: 'photo "photos/cap.jpg"' },
  {
    word: "accept",
    kind: "accept",
    under: any,
    syntax: 'accept RULE "why"',
    says: "Takes what that rule says about this entry as known. Safety rules can't be accepted.",
    example: 'accept figure-slip "It really is that wide"',
  },

  {
    word: "machine",
    kind: "machine",
    under: ["sheet"],
    syntax: 'machine "…"',
    says: "Maker, model and year.",
    example: 'machine "Tolland 6 hp stationary engine, 1928"',
  },
  { word: "serial", kind: "serial", under: ["sheet"], syntax: 'serial "…"', says: "The machine's number.", example: 'serial "T 2207"' },
  { word: "by", kind: "by", under: ["sheet"], syntax: 'by "…"', says: "Who does the job.", example: 'by "M. Orr"' },
  { word: "opened", kind: "opened", under: ["sheet"], syntax: "opened DATE", says: "The day the job was begun.", example: "opened 2026-03-02" },
  {
    word: "currency",
    kind: "currency",
    under: ["sheet", "supplier"],
    syntax: "currency CODE",
    says: "The ISO 4217 code that sums are made in, or that a supplier asks.",
    example: "currency GBP",
  },
  { word: "reading", kind: "counter", under: ["sheet"], syntax: "reading Q", says: "The machine's counter: distance or hours run.", example: "reading 1180 h" },

  {
    word: "each",
    kind: "each",
    under: ["part", "fastener", "fluid", "limit", "check", "step", "shims"],
    syntax: "each KIND [N]",
    says: "At every place of that kind; N is how many at each.",
    example: "each side 2",
  },
  { word: "qty", kind: "qty", under: ["part", "fastener"], syntax: "qty N", says: "How many there should be; one, where unsaid.", example: "qty 4" },
  {
    word: "number",
    kind: "number",
    under: ["part", "fastener", "fluid", "offer"],
    syntax: 'number "…"',
    says: "The maker's number; in an offer the supplier's.",
    example: 'number "T-0418"',
  },
  {
    word: "critical",
    kind: "critical",
    under: ["part", "fastener", "limit", "check"],
    syntax: 'critical ["what is lost"]',
    says: "What is lost if it lets go: steering, brakes, a wheel, drive that also brakes.",
    example: 'critical "a wheel"',
  },
  {
    word: "renew",
    kind: "renew",
    under: part,
    syntax: "renew [with PART…] | renew in pairs",
    says: "Never goes back once disturbed, or whenever that part comes off: seals, gaskets.",
    example: "renew with sump",
  },
  { word: "held", kind: "held", under: part, syntax: "held by FASTENER…", says: "What must be undone before it comes off.", example: "held by cap-nut" },
  { word: "behind", kind: "behind", under: part, syntax: "behind PART…", says: "What must be off before it comes off.", example: "behind sump" },
  { word: "matched", kind: "matched", under: part, syntax: "matched with PART…", says: "Renewed and kept together.", example: "matched with crown-wheel" },
  {
    word: "keeps",
    kind: "keeps",
    under: part,
    syntax: "keeps its place",
    says: "Goes back where it came from; to be marked before it comes off.",
    example: "keeps its place",
  },
  {
    word: "fits",
    kind: "fits",
    under: part,
    syntax: 'fits "way round"',
    says: "Which way round it goes; printed on the way back.",
    example: 'fits "lip towards the bearing"',
  },
  {
    word: "material",
    kind: "material",
    under: part,
    syntax: "material steel|cast-iron|bronze|brass|aluminium|white-metal",
    says: "For heat: interference fits, cautions.",
    example: "material cast-iron",
  },
  { word: "mass", kind: "mass", under: part, syntax: "mass Q", says: "What it weighs.", example: "mass 38 kg" },

  {
    word: "thread",
    kind: "thread",
    under: ["fastener", "offer"],
    syntax: "thread THREAD [LH] [grade N] [class N] [at PLACE]",
    says: "The thread, with LH for left hand and its grade or class.",
    example: "thread 1/2-20 UNF grade 5",
  },
  {
    word: "torque",
    kind: "torque",
    under: fastener,
    syntax: 'torque RANGE [dry|oiled] [K N] | torque by feel "…" | torque none',
    says: "How tight. `none` for what is fitted and never tight: a clevis pin, a key.",
    example: "torque 30 .. 35 lbf.ft dry",
  },
  {
    word: "locked",
    kind: "locked",
    under: fastener,
    syntax: 'locked by LOCKING [for N] | locked by nothing "why"',
    says: "What keeps it from turning. `for N`: one serves N fasteners.",
    example: "locked by split pin 1/8 x 1 in",
  },
  {
    word: "retained",
    kind: "locked",
    under: fastener,
    syntax: 'retained by LOCKING [for N] | retained by nothing "why"',
    says: "What keeps it in place; read as `locked by`.",
    example: "retained by R clip",
  },
  {
    word: "source",
    kind: "source",
    under: ["part", "fastener", "fluid", "limit", "check", "gauge", "hazard", "question", "shims"],
    syntax: 'source "…"',
    says: "Where the figures are from.",
    example: 'source "Maker\'s handbook 1928, p. 31"',
  },
  {
    word: "recheck",
    kind: "recheck-after",
    under: fastener,
    syntax: "recheck after Q",
    says: "When its tightness is to be tried again.",
    example: "recheck after 50 mi",
  },

  { word: "in", kind: "in", under: ["fluid"], syntax: "in PART…", says: "Lost when that part comes off or apart, if it was not drained.", example: "in sump" },
  { word: "capacity", kind: "capacity", under: ["fluid"], syntax: "capacity Q", says: "How much it takes.", example: "capacity 4 l" },
  { word: "grade", kind: "grade", under: ["fluid"], syntax: 'grade "…"', says: "Which oil or grease.", example: 'grade "SAE 30, non-detergent"' },
  { word: "bleed", kind: "needs-bleed", under: ["fluid"], syntax: "bleed", says: "It must be bled when it was opened.", example: "bleed" },

  { word: "new", kind: "new", under: limit, syntax: "new RANGE", says: "As made.", example: "new 0.004 .. 0.008 in" },
  { word: "worn", kind: "worn", under: limit, syntax: "worn RANGE", says: "The limit of wear, outside which it is rejected.", example: "worn max 0.012 in" },
  {
    word: "set",
    kind: "set",
    under: limit,
    syntax: "set RANGE by NAME…",
    says: "A setting: what moves it, and what it must be left at.",
    example: "set 0.002 .. 0.005 in by hub-nut",
  },
  { word: "set", kind: "set", under: ["check"], syntax: "set by NAME…", says: "What moves it.", example: "set by cone-shims" },
  { word: "of", kind: "of", under: ["limit", "check"], syntax: "of NAME…", says: "What a reading past the limit of wear condemns.", example: "of crankshaft" },
  {
    word: "spread",
    kind: "spread",
    under: limit,
    syntax: "spread max Q",
    says: "Widest less narrowest of the readings: run-out, tooth to tooth.",
    example: "spread max 0.05 mm",
  },
  { word: "read", kind: "read-at", under: limit, syntax: "read at POSITION…", says: "Where it is measured.", example: "read at top, bottom" },
  { word: "ovality", kind: "ovality", under: limit, syntax: "ovality max Q", says: "Widest less narrowest at one position.", example: "ovality max 0.02 mm" },
  { word: "taper", kind: "taper", under: limit, syntax: "taper max Q", says: "Between the means of the positions.", example: "taper max 0.02 mm" },
  { word: "=", kind: "equals", under: limit, syntax: "= EXPRESSION", says: "Worked out from other limits' readings.", example: "= liner-bore - piston-skirt" },

  { word: "resolution", kind: "resolution", under: ["gauge"], syntax: "resolution Q", says: "The finest step that it shows.", example: "resolution 0.01 mm" },
  {
    word: "uncertainty",
    kind: "uncertainty",
    under: ["gauge"],
    syntax: "uncertainty Q",
    says: "Expanded, k = 2: how far a reading may be from the truth.",
    example: "uncertainty 0.004 mm",
  },
  { word: "range", kind: "range", under: ["gauge"], syntax: "range RANGE", says: "What it can read.", example: "range 0 .. 25 mm" },
  {
    word: "checked",
    kind: "checked",
    under: ["gauge"],
    syntax: "checked DATE [every N months]",
    says: "When it was last checked, and how long that holds.",
    example: "checked 2026-01-10 every 12 months",
  },

  {
    word: "safe",
    kind: "safe-before",
    under: ["hazard"],
    syntax: "safe before NAME…",
    says: "Not to be undone or removed while it is live.",
    example: "safe before belt-guard",
  },
  {
    word: "restore",
    kind: "restore-after",
    under: ["hazard"],
    syntax: "restore after NAME…",
    says: "Not to be made live again before these are back.",
    example: "restore after belt-guard",
  },
  {
    word: "caution",
    kind: "caution",
    under: ["hazard", "step"],
    syntax: 'caution "…"',
    says: "What somebody must know before they start.",
    example: 'caution "Lock the isolator off and keep the key."',
  },
  {
    word: "from",
    kind: "from",
    under: ["hazard"],
    syntax: "from STEP",
    says: "Live from that step on; from the start, where unsaid.",
    example: "from refill-tank",
  },

  { word: "at", kind: "at", under: step, syntax: "at PLACE…", says: "Where the step is done; everywhere, where unsaid.", example: "at left" },
  {
    word: "after",
    kind: "after",
    under: step,
    syntax: "after STEP…",
    says: "What comes first, beside what the facts already demand.",
    example: "after strip-cap",
  },
  { word: "tool", kind: "tool", under: step, syntax: 'tool "…"', says: "What it takes.", example: 'tool "three-leg puller"' },
  { word: "takes", kind: "takes", under: step, syntax: "takes Q", says: "How long.", example: "takes 40 min" },
  {
    word: "done",
    kind: "done",
    under: step,
    syntax: 'done [DATE] [PLACE…] [by "…"]',
    says: "It was done. Without this line the step is a plan.",
    example: "done 2026-03-02",
  },

  { word: "is", kind: "is", under: ["finding"], syntax: "is CONDITION, CONDITION…", says: "What is the matter with it.", example: "is worn, scored" },
  { word: "because", kind: "because", under: ["finding"], syntax: 'because "…"', says: "Why it is so, or why it is decided so.", example: 'because "Ran dry"' },
  {
    word: "decision",
    kind: "decision",
    under: ["finding"],
    syntax: 'decision reuse|renew|repair "how"|make "how"|discard|exchange|ask QUESTION',
    says: "What is done about it.",
    example: "decision renew",
  },
  {
    word: "see",
    kind: "see",
    under: ["finding"],
    syntax: 'see "other.jobsheet"',
    says: "A job of its own, opened by this.",
    example: 'see "magneto.jobsheet"',
  },

  { word: "about", kind: "about", under: ["question"], syntax: "about NAME…", says: "What waits for the answer.", example: "about liner, piston" },
  { word: "answer", kind: "answer", under: ["question"], syntax: 'answer "…"', says: "What came of it.", example: 'answer "Standard bore"' },

  {
    word: "freight",
    kind: "freight",
    under: ["supplier"],
    syntax: "freight MONEY [free over MONEY]",
    says: "What sending costs.",
    example: "freight 8.50 GBP free over 150 GBP",
  },
  { word: "duty", kind: "duty", under: ["supplier"], syntax: "duty N %", says: "Duty on the goods.", example: "duty 4 %" },
  { word: "lead", kind: "lead", under: ["supplier", "offer"], syntax: "lead Q", says: "How long it takes to come.", example: "lead 5 d" },
  {
    word: "prices",
    kind: "prices",
    under: ["supplier"],
    syntax: 'prices "price-list.csv"',
    says: "A price list as CSV, by its path from this sheet: see below.",
    example: 'prices "tarn-2026.csv"',
  },

  { word: "price", kind: "price", under: ["offer"], syntax: "price MONEY [each | a pack]", says: "What it costs.", example: "price 2.10 GBP a pack" },
  { word: "pack", kind: "pack", under: ["offer"], syntax: "pack N|Q", says: "How many, or how much, in one pack.", example: "pack 25" },
  { word: "quoted", kind: "quoted", under: ["offer"], syntax: "quoted DATE", says: "The day of that price.", example: "quoted 2026-03-04" },
  {
    word: "exchange",
    kind: "exchange",
    under: ["offer"],
    syntax: "exchange MONEY",
    says: "Paid besides, and given back for the old one: for each, or for a pack, as the price is.",
    example: "exchange 20.00 GBP",
  },
  {
    word: "equal",
    kind: "equal",
    under: ["offer"],
    syntax: 'equal to "what differs"',
    says: "Not the maker's own: what is different.",
    example: 'equal to "Rubber lip instead of leather"',
  },

  {
    word: "status",
    kind: "status",
    under: ["order"],
    syntax: "status held|placed|sent|received|cancelled|returned [DATE]",
    says: "How the order stands.",
    example: "status placed 2026-03-05",
  },
  {
    word: "item",
    kind: "item",
    under: ["order"],
    syntax: "item ITEM N|Q [price MONEY]",
    says: "What was ordered, in pieces, not packs.",
    example: "item liner 1 price 64.00 GBP",
  },
  {
    word: "work",
    kind: "work",
    under: ["order"],
    syntax: 'work PART [PLACE] "what is to be done" [price MONEY]',
    says: "Sent out to be worked on: the part is away until received.",
    example: 'work crankshaft "Grind 0.020 in under" price 90.00 GBP',
  },

  { word: "have", kind: "have", under: shims, syntax: "have Q x N, Q x N…", says: "The shims that there are.", example: "have 0.05 mm x 6, 0.1 mm x 4" },
  { word: "fitted", kind: "fitted", under: shims, syntax: "fitted Q x N, Q x N…", says: "The shims that are in.", example: "fitted 0.1 mm x 2" },
  {
    word: "effect",
    kind: "effect",
    under: shims,
    syntax: "effect R",
    says: "The reading changes by R times the thickness; 1, where unsaid.",
    example: "effect 0.5",
  },

  {
    word: "test",
    kind: "test",
    under: ["release"],
    syntax: 'test "…"',
    says: "What was tried, and what it showed.",
    example: 'test "Run light for an hour, no knock"',
  },
  {
    word: "recheck",
    kind: "recheck",
    under: ["release"],
    syntax: "recheck NAME after Q [done DATE at Q]",
    says: "What is to be tried again, and when it was.",
    example: "recheck cap-nut after 20 h",
  },
];
