// What keeps a fastener from turning or coming out: the words for it, what becomes of it when the fastener is opened, and whether its size is written.
// How often each serves is common practice of the trade; the maker's data go before it.

interface LockingRow {
  readonly kind: string;
  /** As written, the usual words first. */
  readonly words: readonly string[];
  /** `once`: a new one each time. `goes-back`: the old one serves. `once-if-critical`: a new one each time on a critical fastener. */
  readonly life: "once" | "goes-back" | "once-if-critical";
  /** Holds by friction alone. */
  readonly friction: boolean;
  /** Staking is made on the spot and never bought. */
  readonly bought: boolean;
  /** Whether a size stands behind the words; `written` where something of this kind can't be bought without one. */
  readonly size: "written" | "may" | "none";
  readonly syntax: string;
  readonly says: string;
}

const rows = [
  {
    kind: "split pin",
    words: ["split pin"],
    life: "once",
    friction: false,
    bought: true,
    size: "written",
    syntax: "split pin 1/8 x 1-1/4 in",
    says: "Through the nut's slots, its legs bent. Used once.",
  },
  {
    kind: "lock wire",
    words: ["lock wire", "safety wire"],
    life: "once",
    friction: false,
    bought: true,
    size: "written",
    syntax: "lock wire 1 mm x 180 mm",
    says: "Pulls in the sense of tightening. Used once.",
  },
  {
    kind: "tab washer",
    words: ["tab washer"],
    life: "once",
    friction: false,
    bought: true,
    size: "may",
    syntax: "tab washer 30 mm",
    says: "Bent up against a flat. Used once.",
  },
  {
    kind: "lock plate",
    words: ["lock plate"],
    life: "once",
    friction: false,
    bought: true,
    size: "may",
    syntax: "lock plate",
    says: "Bent up against the flats. Used once.",
  },
  {
    kind: "staking",
    words: ["staking", "peening"],
    life: "once",
    friction: false,
    bought: false,
    size: "none",
    syntax: "staking",
    says: "Metal driven into a slot or a thread. Made anew each time, never bought.",
  },
  {
    kind: "roll pin",
    words: ["roll pin"],
    life: "once",
    friction: false,
    bought: true,
    size: "written",
    syntax: "roll pin 4 x 30 mm",
    says: "A sprung tube through both. Used once.",
  },
  {
    kind: "taper pin",
    words: ["taper pin"],
    life: "goes-back",
    friction: false,
    bought: true,
    size: "written",
    syntax: "taper pin 1/4 x 1-1/2 in",
    says: "Driven in a reamed hole. Goes back.",
  },
  {
    kind: "circlip",
    words: ["circlip"],
    life: "goes-back",
    friction: false,
    bought: true,
    size: "written",
    syntax: "circlip 30 mm",
    says: "Sprung into a groove. Goes back.",
  },
  {
    kind: "R clip",
    words: ["R clip"],
    life: "goes-back",
    friction: false,
    bought: true,
    size: "may",
    syntax: "R clip",
    says: "Through a hole in a clevis pin. Goes back.",
  },
  {
    kind: "grub screw",
    words: ["grub screw"],
    life: "goes-back",
    friction: false,
    bought: true,
    size: "may",
    syntax: "grub screw",
    says: "A screw across the thread. Goes back.",
  },
  {
    kind: "spring washer",
    words: ["spring washer"],
    life: "goes-back",
    friction: true,
    bought: true,
    size: "may",
    syntax: "spring washer",
    says: "Holds by friction.",
  },
  {
    kind: "lock nut",
    words: ["lock nut", "jam nut"],
    life: "goes-back",
    friction: true,
    bought: true,
    size: "may",
    syntax: "lock nut",
    says: "A second nut against the first. Holds by friction.",
  },
  {
    kind: "self-locking nut",
    words: ["self-locking nut", "nylon insert"],
    life: "once-if-critical",
    friction: true,
    bought: true,
    size: "may",
    syntax: "self-locking nut",
    says: "Holds by friction; used once on a critical fastener.",
  },
  {
    kind: "thread lock",
    words: ["thread lock"],
    life: "once-if-critical",
    friction: true,
    bought: true,
    size: "none",
    syntax: 'thread lock "grade"',
    says: "Holds by friction; used once on a critical fastener.",
  },
] as const satisfies readonly LockingRow[];

/** `part NAME`; `nothing "why"`; `cotter` and `cotter pin` are `ambiguous`: the rule `word-ambiguous` speaks. */
export type LockingKind = (typeof rows)[number]["kind"] | "part" | "nothing" | "ambiguous";
export interface LockingWord extends LockingRow {
  readonly kind: Exclude<LockingKind, "part" | "nothing" | "ambiguous">;
}
export const lockings: readonly LockingWord[] = rows;

/** Undefined for `part`, `nothing` and `ambiguous`, of which the kind alone says nothing. */
export function lockingInfo(kind: LockingKind): LockingWord | undefined {
  return byKind.get(kind);
}

const byKind: ReadonlyMap<LockingKind, LockingWord> = new Map(lockings.map((it) => [it.kind, it]));

/** Which locking a phrase is: `jam nut` → lock nut. `cotter` and `cotter pin` are `ambiguous`. */
export const lockingPhrases: ReadonlyMap<string, LockingKind> = new Map([
  ...lockings.flatMap((it) => it.words.map((words) => [words, it.kind] as const)),
  ["cotter", "ambiguous"],
  ["cotter pin", "ambiguous"],
]);
