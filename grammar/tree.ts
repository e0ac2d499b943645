// The shape of a sheet that has been read: entries, their detail lines, and what each line says.
// Every field but the kind may be absent, for a line may be broken or half typed; a consumer takes what was read and no more.
// Invariant: columns only. No node holds an absolute line, so an edit above leaves every node as it is.

/** Columns in one line, in UTF-16 units; `to` is exclusive. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A word that names something or is a keyword; `text` in NFC. */
export interface Name {
  readonly text: string;
  readonly at: Span;
}

/** A quoted text: quotes taken off, `\"` and `\\` undone. `at` includes the quotes. */
export interface Text {
  readonly value: string;
  readonly at: Span;
}

/** A figure as written: `12`, `.005`, `5/8`, `1-1/4`, with a leading `-` or `+` where one stands. */
export interface Figure {
  readonly text: string;
  readonly at: Span;
  /** Written with a decimal comma (`0,38`): its value is not to be used; the rule `decimal-comma` speaks. */
  readonly comma?: true;
}

/** `unit` is absent where none was written at this figure. In a list or range one unit at the end may serve all. */
export interface Quantity {
  readonly figure: Figure;
  readonly unit?: Name;
  readonly at: Span;
}

export interface DateText {
  /** `2026-04-11`, as written: eight digits in the right shape, though perhaps no such day. */
  readonly text: string;
  readonly at: Span;
}

export interface Money {
  readonly figure: Figure;
  readonly currency?: Name;
  readonly at: Span;
}

export type Range =
  | { readonly kind: "between"; readonly low: Quantity; readonly high: Quantity; readonly at: Span }
  | { readonly kind: "max" | "min"; readonly end: Quantity; readonly at: Span }
  /** `25 +0.021 0 mm`: the signs stand in the figures of `first` and `second`; the unit may stand at the end only. */
  | { readonly kind: "deviations"; readonly nominal: Quantity; readonly first: Quantity; readonly second: Quantity; readonly at: Span }
  | { readonly kind: "plus-minus"; readonly nominal: Quantity; readonly tolerance: Quantity; readonly at: Span }
  /** `25 H7 mm` */
  | { readonly kind: "fit"; readonly nominal: Quantity; readonly fit: Name; readonly at: Span }
  /** One figure where a range is needed; the rule `range-bare` speaks. */
  | { readonly kind: "bare"; readonly only: Quantity; readonly at: Span };

/** `designation` has single spaces and the spelling as written: `5/8-18 UNF`, `M10x1.25`, `2 BA`, or the quoted text. */
export interface Thread {
  readonly designation: string;
  readonly free: boolean;
  readonly leftHand?: Span;
  readonly at: Span;
}

export type LockingKind =
  | "split pin"
  | "lock wire"
  | "tab washer"
  | "lock plate"
  | "staking"
  | "roll pin"
  | "taper pin"
  | "circlip"
  | "R clip"
  | "grub screw"
  | "spring washer"
  | "lock nut"
  | "self-locking nut"
  | "thread lock"
  /** `part NAME` */
  | "part"
  /** `nothing "why"` */
  | "nothing"
  /** `cotter`, `cotter pin`: the rule `word-ambiguous` speaks. */
  | "ambiguous";

export interface Locking {
  readonly kind: LockingKind;
  /** The words as written: `jam nut`, `split pin`, `cotter`. */
  readonly words: string;
  /** `1/8 x 1-1/4 in`: one or two quantities, the unit perhaps at the last only. */
  readonly size: readonly Quantity[];
  readonly grade?: Text;
  readonly part?: Name;
  readonly why?: Text;
  readonly at: Span;
}

/** What can be bought, stocked, ordered. */
export type Item =
  | { readonly kind: "name"; readonly name: Name; readonly at: Span }
  | { readonly kind: "locking"; readonly locking: Locking; readonly at: Span }
  | { readonly kind: "text"; readonly text: Text; readonly at: Span };

export type Expression =
  | { readonly kind: "quantity"; readonly quantity: Quantity; readonly at: Span }
  | { readonly kind: "name"; readonly name: Name; readonly at: Span }
  | { readonly kind: "negate"; readonly operand: Expression; readonly at: Span }
  | { readonly kind: "binary"; readonly operator: "+" | "-" | "*" | "/"; readonly left: Expression; readonly right: Expression; readonly at: Span }
  | { readonly kind: "call"; readonly function: Name; readonly arguments: readonly Expression[]; readonly at: Span };

/** One change to the line that the fault stands on. */
export interface LineEdit {
  readonly at: Span;
  readonly text: string;
}

export interface LineFix {
  readonly title: string;
  readonly edits: readonly LineEdit[];
}

/** Why a line can't be read, in plain words; at most one a line. */
export interface Fault {
  readonly at: Span;
  readonly message: string;
  readonly fixes: readonly LineFix[];
}

/** What every line has. */
export interface Line {
  /** Rows below the head of its entry; a head has 0. */
  readonly row: number;
  /** From the first word to the end of the last token, comments left out. */
  readonly at: Span;
  /** The keyword, or for a reading its first word or figure. */
  readonly keyword: Span;
  readonly fault?: Fault;
  /**
   * What is left blank, `___`, to be filled in later: where each stands. Absent where nothing is.
   * The line is read without a fault, and the field that a blank stands in is absent (a list is without it). So whoever reads a line must ask:
   * a line with blanks that is done, measured, seen, found or declared counts as unsaid, as one with a fault does, though what is absent there was not
   * forgotten, so that nothing is said of its absence; in a planned step it counts as far as it is written; and each blank is open until it is filled in.
   * A head with blanks takes its details all the same. `unsaid` in `blanks.ts` asks for both.
   */
  readonly blanks?: readonly Span[];
  /** A line with a fault, as written (its first 400 characters), so that a change in it is a change in the entry. */
  readonly written?: string;
}

// ---------------------------------------------------------------- details

export interface NoteDetail extends Line {
  readonly kind: "note";
  readonly text?: Text;
}
export interface PhotoDetail extends Line {
  readonly kind: "photo";
  readonly path?: Text;
}
export interface AcceptDetail extends Line {
  readonly kind: "accept";
  readonly rule?: Name;
  readonly why?: Text;
}

/** `admit RULE "what came of it" by "NAME"` under a step: of a moment that is over. */
export interface AdmitDetail extends Line {
  readonly kind: "admit";
  readonly rule?: Name;
  readonly what?: Text;
  readonly by?: Text;
}

// sheet
export interface MachineDetail extends Line {
  readonly kind: "machine";
  readonly text?: Text;
}
export interface SerialDetail extends Line {
  readonly kind: "serial";
  readonly text?: Text;
}
export interface ByDetail extends Line {
  readonly kind: "by";
  readonly text?: Text;
}
export interface OpenedDetail extends Line {
  readonly kind: "opened";
  readonly date?: DateText;
}
export interface CurrencyDetail extends Line {
  readonly kind: "currency";
  readonly code?: Name;
}
/** The machine's counter: `reading 41210 mi`. */
export interface CounterDetail extends Line {
  readonly kind: "counter";
  readonly quantity?: Quantity;
}

// part, fastener, fluid, limit, shims, step
export interface EachDetail extends Line {
  readonly kind: "each";
  readonly placeKind?: Name;
  readonly count?: Figure;
}
export interface QtyDetail extends Line {
  readonly kind: "qty";
  readonly count?: Figure;
}
export interface NumberDetail extends Line {
  readonly kind: "number";
  readonly text?: Text;
}
export interface CriticalDetail extends Line {
  readonly kind: "critical";
  readonly what?: Text;
}
/** `renew`, `renew with PART…`, `renew in pairs` */
export interface RenewDetail extends Line {
  readonly kind: "renew";
  readonly with: readonly Name[];
  readonly inPairs: boolean;
}
export interface HeldDetail extends Line {
  readonly kind: "held";
  readonly by: readonly Name[];
}
export interface BehindDetail extends Line {
  readonly kind: "behind";
  readonly parts: readonly Name[];
}
export interface MatchedDetail extends Line {
  readonly kind: "matched";
  readonly with: readonly Name[];
}
export interface KeepsDetail extends Line {
  readonly kind: "keeps";
}
export interface FitsDetail extends Line {
  readonly kind: "fits";
  readonly text?: Text;
}
export interface MaterialDetail extends Line {
  readonly kind: "material";
  readonly material?: Name;
}
export interface MassDetail extends Line {
  readonly kind: "mass";
  readonly mass?: Quantity;
}

/** Also in an `offer`. */
export interface ThreadDetail extends Line {
  readonly kind: "thread";
  readonly thread?: Thread;
  readonly grade?: Figure;
  readonly class?: Figure;
  readonly place?: Name;
}
export interface TorqueDetail extends Line {
  readonly kind: "torque";
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
}
/** `locked by` and `retained by`. */
export interface LockedDetail extends Line {
  readonly kind: "locked";
  readonly locking?: Locking;
  readonly serves?: Figure;
}
/** How far a fastener is let back: one of the three. A flat is a sixth of a turn of a hexagon. */
export interface LetBack {
  readonly flats?: Figure;
  readonly turns?: Figure;
  readonly angle?: Quantity;
  readonly at: Span;
}
/** `let back 1 flat` of a fastener: behind its torque, for a bearing that is set so. */
export interface LetBackDetail extends Line {
  readonly kind: "let-back";
  readonly back?: LetBack;
}
/** `may serve again "why"` of a part that locks, or of a fastener whose locking is used once. */
export interface MayServeDetail extends Line {
  readonly kind: "may-serve";
  readonly why?: Text;
}
export interface SourceDetail extends Line {
  readonly kind: "source";
  readonly text?: Text;
}
/** `recheck after Q` of a fastener. */
export interface RecheckAfterDetail extends Line {
  readonly kind: "recheck-after";
  readonly after?: Quantity;
}

export interface InDetail extends Line {
  readonly kind: "in";
  readonly parts: readonly Name[];
}
export interface CapacityDetail extends Line {
  readonly kind: "capacity";
  readonly quantity?: Quantity;
}
export interface GradeDetail extends Line {
  readonly kind: "grade";
  readonly text?: Text;
}
/** `bleed` of a fluid: it must be bled when it was opened. */
export interface NeedsBleedDetail extends Line {
  readonly kind: "needs-bleed";
}

// limit, check
export interface NewDetail extends Line {
  readonly kind: "new";
  readonly range?: Range;
}
export interface WornDetail extends Line {
  readonly kind: "worn";
  readonly range?: Range;
}
/** `set RANGE by …` of a limit; `set by …` of a check has no range. */
export interface SetDetail extends Line {
  readonly kind: "set";
  readonly range?: Range;
  readonly by: readonly Name[];
}
export interface OfDetail extends Line {
  readonly kind: "of";
  readonly names: readonly Name[];
}
export interface SpreadDetail extends Line {
  readonly kind: "spread";
  readonly max?: Quantity;
}
export interface OvalityDetail extends Line {
  readonly kind: "ovality";
  readonly max?: Quantity;
}
export interface TaperDetail extends Line {
  readonly kind: "taper";
  readonly max?: Quantity;
}
export interface ReadAtDetail extends Line {
  readonly kind: "read-at";
  readonly positions: readonly Name[];
}
export interface EqualsDetail extends Line {
  readonly kind: "equals";
  readonly expression?: Expression;
}

// gauge
export interface ResolutionDetail extends Line {
  readonly kind: "resolution";
  readonly quantity?: Quantity;
}
export interface UncertaintyDetail extends Line {
  readonly kind: "uncertainty";
  /** Absolute, in the unit of what is read. */
  readonly quantity?: Quantity;
  /** `4 %`: of the reading. Both may be given, on two lines. */
  readonly percent?: Quantity;
}
export interface GaugeRangeDetail extends Line {
  readonly kind: "range";
  readonly range?: Range;
}
export interface CheckedDetail extends Line {
  readonly kind: "checked";
  readonly date?: DateText;
  readonly months?: Figure;
}

// hazard
export interface SafeBeforeDetail extends Line {
  readonly kind: "safe-before";
  readonly names: readonly Name[];
}
export interface RestoreAfterDetail extends Line {
  readonly kind: "restore-after";
  readonly names: readonly Name[];
}
/** Also of a step. */
export interface CautionDetail extends Line {
  readonly kind: "caution";
  readonly text?: Text;
}
export interface FromDetail extends Line {
  readonly kind: "from";
  readonly step?: Name;
}

// step
export interface AtDetail extends Line {
  readonly kind: "at";
  readonly places: readonly Name[];
}
export interface AfterDetail extends Line {
  readonly kind: "after";
  readonly steps: readonly Name[];
}
export interface ToolDetail extends Line {
  readonly kind: "tool";
  readonly text?: Text;
}
export interface TakesDetail extends Line {
  readonly kind: "takes";
  readonly time?: Quantity;
}
export interface DoneDetail extends Line {
  readonly kind: "done";
  readonly date?: DateText;
  readonly places: readonly Name[];
  readonly by?: Text;
}

export type ActionVerb =
  | "chock"
  | "raise"
  | "support"
  | "lower"
  | "under"
  | "clear"
  | "safe"
  | "restore"
  | "slacken"
  | "undo"
  | "remove"
  | "drain"
  | "mark"
  | "clean"
  | "oil"
  | "grease"
  | "bleed"
  | "repair"
  | "fit"
  | "tighten"
  | "lock"
  | "fill"
  | "heat"
  /** A look that proves nothing: what it showed is a finding, a check or a measure. */
  | "inspect"
  /** `let back F by 1 flat` */
  | "let"
  /** `replace X`: means two things; the rule `word-ambiguous` speaks. */
  | "replace";

export interface Thing {
  readonly name: Name;
  /** How many: `shim 2`. */
  readonly count?: Figure;
}

/** One action of a step. Which fields may stand is decided by the verb. */
export interface ActionDetail extends Line {
  readonly kind: "action";
  readonly verb: ActionVerb;
  /** Parts, fasteners, fluids or the hazard, in the order written. For `support`, the part supported; for `lower`, the part set down, or none: the machine. */
  readonly things: readonly Thing[];
  readonly places: readonly Name[];
  /** The text of `chock`, `safe`, `restore`, `mark`, `repair`; where `lower PART on "…"` puts it. */
  readonly text?: Text;
  /** `raise on WORD`, `support on WORD`, `lower PART on WORD`: see `lifters`, `bearers` and `rests` in words.ts; hoist is ambiguous. */
  readonly on?: Name;
  /** `support on 4 stands` */
  readonly standCount?: Figure;
  /** What `support … under` bears on: a part, or a text that says where. */
  readonly underPart?: Name;
  readonly underText?: Text;
  readonly rated?: Quantity;
  /** `rated Q each`, `rated Q together` */
  readonly ratedEach?: Span;
  readonly ratedTogether?: Span;
  readonly load?: Quantity;
  /** `drain`, `fill`: how much. */
  readonly amount?: Quantity;
  /** The word `new`, in `fit`, in `lock … new` and in `lock … with new …`. */
  readonly isNew?: Span;
  /** `fit … from PLACE` */
  readonly from?: Name;
  /** `for now "why"` */
  readonly forNow?: Text;
  readonly forNowAt?: Span;
  /** `tighten … to Q`, `by GAUGE`. Of several stages the last. */
  readonly to?: Quantity;
  /** `tighten … to 20, 40 lbf.ft`: all stages, the last being `to`; the unit may stand at the last only. Absent where there is one. */
  readonly stages?: readonly Quantity[];
  /** `tighten … to 20 lbf.ft + 90 deg` */
  readonly angle?: Quantity;
  /** `let back … by` */
  readonly back?: LetBack;
  /** `heat … to` */
  readonly temperature?: Quantity;
  readonly by?: Name;
  /** `lock … with LOCKING` */
  readonly with?: Locking;
}

/** A line of figures under `measure`. */
export interface ReadingDetail extends Line {
  readonly kind: "reading";
  /** The words before the figures, at most two of them: `left`, `left top`, `top`. Which is the place is decided by the limit. */
  readonly words: readonly Name[];
  readonly again?: Span;
  readonly figures: readonly Quantity[];
}

export type ConditionKind =
  | "serviceable"
  | "worn"
  | "cracked"
  | "broken"
  | "bent"
  | "pitted"
  | "scored"
  | "corroded"
  | "seized"
  | "damaged"
  | "missing"
  | "extra"
  | "wrong"
  | "reversed"
  | "swapped"
  | "dry"
  | "blocked"
  | "contaminated"
  | "leaking"
  | "loose"
  | "unlocked"
  | "stripped"
  | "sheared"
  | "undrilled"
  | "clean"
  | "metallic"
  | "fragments"
  | "milky"
  | "low";

export interface Condition {
  readonly kind: ConditionKind;
  /** The word and what belongs to it: `unlocked "a bent nail"`. `word` is the word alone. */
  readonly at: Span;
  readonly word: Span;
  /** `missing 2`, `extra 1` */
  readonly count?: Figure;
  readonly text?: Text;
  /** `fragments from PART`, `metallic from PART` */
  readonly from?: Name;
  /** `low 200 ml` */
  readonly amount?: Quantity;
}
export interface IsDetail extends Line {
  readonly kind: "is";
  readonly conditions: readonly Condition[];
}
export interface BecauseDetail extends Line {
  readonly kind: "because";
  readonly text?: Text;
}
export interface DecisionDetail extends Line {
  readonly kind: "decision";
  /** `replace` is read and means two things; the rule `word-ambiguous` speaks. */
  readonly decision?: "reuse" | "renew" | "repair" | "make" | "discard" | "exchange" | "ask" | "replace";
  readonly word?: Span;
  readonly how?: Text;
  readonly question?: Name;
}
export interface SeeDetail extends Line {
  readonly kind: "see";
  readonly path?: Text;
}

// question
export interface AboutDetail extends Line {
  readonly kind: "about";
  readonly names: readonly Name[];
}
export interface AnswerDetail extends Line {
  readonly kind: "answer";
  readonly text?: Text;
}

// supplier, offer, order, shims
export interface FreightDetail extends Line {
  readonly kind: "freight";
  readonly money?: Money;
  readonly freeOver?: Money;
}
export interface DutyDetail extends Line {
  readonly kind: "duty";
  readonly percent?: Quantity;
}
/** `tax 20 %` of a supplier: what is added to the goods. */
export interface TaxDetail extends Line {
  readonly kind: "tax";
  readonly percent?: Quantity;
}
/** `least order MONEY` of a supplier: less is not sent. */
export interface LeastOrderDetail extends Line {
  readonly kind: "least-order";
  readonly money?: Money;
}
export interface LeadDetail extends Line {
  readonly kind: "lead";
  readonly time?: Quantity;
}
export interface PricesDetail extends Line {
  readonly kind: "prices";
  readonly path?: Text;
}
export interface PriceDetail extends Line {
  readonly kind: "price";
  readonly money?: Money;
  readonly each?: Span;
  readonly aPack?: Span;
}
/** `price MONEY [each | a pack] from N`: what it costs for so many and more. */
export interface PriceFromDetail extends Line {
  readonly kind: "price-from";
  readonly money?: Money;
  readonly each?: Span;
  readonly aPack?: Span;
  readonly from?: Figure;
}
export interface PackDetail extends Line {
  readonly kind: "pack";
  readonly amount?: Quantity;
}
export interface QuotedDetail extends Line {
  readonly kind: "quoted";
  readonly date?: DateText;
}
export interface ExchangeDetail extends Line {
  readonly kind: "exchange";
  readonly money?: Money;
}
export interface EqualDetail extends Line {
  readonly kind: "equal";
  readonly text?: Text;
}
export interface StatusDetail extends Line {
  readonly kind: "status";
  readonly status?: "held" | "placed" | "sent" | "received" | "cancelled" | "returned";
  readonly word?: Span;
  readonly date?: DateText;
}
export interface ReceivedItem {
  readonly item: Item;
  readonly amount?: Quantity;
}
/** `received bearing 1, seal 2 on 2026-05-04`: some of an order came. What came of all of it is said by its status. */
export interface ReceivedDetail extends Line {
  readonly kind: "received";
  readonly items: readonly ReceivedItem[];
  readonly date?: DateText;
}
export interface ItemDetail extends Line {
  readonly kind: "item";
  readonly item?: Item;
  readonly amount?: Quantity;
  readonly price?: Money;
}
export interface WorkDetail extends Line {
  readonly kind: "work";
  readonly part?: Name;
  readonly count?: Figure;
  readonly place?: Name;
  readonly text?: Text;
  readonly price?: Money;
}
/** `4 thou x 3`: so many of one thickness. */
export interface ShimCount {
  readonly thickness: Quantity;
  readonly count?: Figure;
}
/** `have Q x N, …` and `fitted Q x N …` of shims. */
export interface HaveDetail extends Line {
  readonly kind: "have";
  readonly stacks: readonly ShimCount[];
}
export interface FittedDetail extends Line {
  readonly kind: "fitted";
  readonly stacks: readonly ShimCount[];
}
export interface EffectDetail extends Line {
  readonly kind: "effect";
  readonly figure?: Figure;
}

// release
export interface TestDetail extends Line {
  readonly kind: "test";
  readonly text?: Text;
  /** `load 500 kg`: a proof load of lifting gear. */
  readonly load?: Quantity;
}
export interface RecheckDetail extends Line {
  readonly kind: "recheck";
  readonly name?: Name;
  readonly after?: Quantity;
  readonly done?: DateText;
  readonly doneAt?: Quantity;
}

/** A line that can't be read. `guess` is the detail's keyword that was nearest, where one was. */
export interface UnreadDetail extends Line {
  readonly kind: "unread";
  readonly guess?: string;
}

export type Detail =
  | NoteDetail
  | PhotoDetail
  | AcceptDetail
  | AdmitDetail
  | MachineDetail
  | SerialDetail
  | ByDetail
  | OpenedDetail
  | CurrencyDetail
  | CounterDetail
  | EachDetail
  | QtyDetail
  | NumberDetail
  | CriticalDetail
  | RenewDetail
  | HeldDetail
  | BehindDetail
  | MatchedDetail
  | KeepsDetail
  | FitsDetail
  | MaterialDetail
  | MassDetail
  | ThreadDetail
  | TorqueDetail
  | LockedDetail
  | LetBackDetail
  | MayServeDetail
  | SourceDetail
  | RecheckAfterDetail
  | InDetail
  | CapacityDetail
  | GradeDetail
  | NeedsBleedDetail
  | NewDetail
  | WornDetail
  | SetDetail
  | OfDetail
  | SpreadDetail
  | OvalityDetail
  | TaperDetail
  | ReadAtDetail
  | EqualsDetail
  | ResolutionDetail
  | UncertaintyDetail
  | GaugeRangeDetail
  | CheckedDetail
  | SafeBeforeDetail
  | RestoreAfterDetail
  | CautionDetail
  | FromDetail
  | AtDetail
  | AfterDetail
  | ToolDetail
  | TakesDetail
  | DoneDetail
  | ActionDetail
  | ReadingDetail
  | IsDetail
  | BecauseDetail
  | DecisionDetail
  | SeeDetail
  | AboutDetail
  | AnswerDetail
  | FreightDetail
  | DutyDetail
  | TaxDetail
  | LeastOrderDetail
  | LeadDetail
  | PricesDetail
  | PriceDetail
  | PriceFromDetail
  | PackDetail
  | QuotedDetail
  | ExchangeDetail
  | EqualDetail
  | StatusDetail
  | ReceivedDetail
  | ItemDetail
  | WorkDetail
  | HaveDetail
  | FittedDetail
  | EffectDetail
  | TestDetail
  | RecheckDetail
  | UnreadDetail;

// ---------------------------------------------------------------- entries

/** What every entry has: its head line and the lines below it. */
export interface EntryBase extends Line {
  readonly row: 0;
  readonly details: readonly Detail[];
  /** Details of another entry that stand here: flagged by a fault of their own, never applied. */
  readonly stray: readonly Detail[];
  /** How many lines the entry takes, up to the next head: blank and comment lines included. */
  readonly rows: number;
}

export interface SheetEntry extends EntryBase {
  readonly kind: "sheet";
  readonly title?: Text;
}
export interface PlacesEntry extends EntryBase {
  readonly kind: "places";
  readonly placeKind?: Name;
  readonly names: readonly Name[];
}
export interface UseEntry extends EntryBase {
  readonly kind: "use";
  readonly path?: Text;
}
export interface DayEntry extends EntryBase {
  readonly kind: "day";
  readonly date?: DateText;
}
/** `rate 1 USD = 0.79 GBP [DATE]` */
export interface RateEntry extends EntryBase {
  readonly kind: "rate";
  readonly one?: Money;
  readonly is?: Money;
  readonly date?: DateText;
}
export interface PartEntry extends EntryBase {
  readonly kind: "part";
  readonly name?: Name;
  readonly title?: Text;
}
export interface FastenerEntry extends EntryBase {
  readonly kind: "fastener";
  readonly name?: Name;
  readonly title?: Text;
}
export interface FluidEntry extends EntryBase {
  readonly kind: "fluid";
  readonly name?: Name;
  readonly title?: Text;
}
export interface LimitEntry extends EntryBase {
  readonly kind: "limit";
  readonly name?: Name;
  readonly title?: Text;
}
export interface CheckEntry extends EntryBase {
  readonly kind: "check";
  readonly name?: Name;
  readonly title?: Text;
}
export interface GaugeEntry extends EntryBase {
  readonly kind: "gauge";
  readonly name?: Name;
  readonly title?: Text;
}
export interface HazardEntry extends EntryBase {
  readonly kind: "hazard";
  readonly name?: Name;
  readonly title?: Text;
}
export interface StepEntry extends EntryBase {
  readonly kind: "step";
  readonly name?: Name;
  readonly title?: Text;
}
export type Stage = "found" | "trial" | "final";
export interface MeasureEntry extends EntryBase {
  readonly kind: "measure";
  readonly limit?: Name;
  readonly stage?: Stage;
  readonly stageAt?: Span;
  readonly by?: Name;
  readonly date?: DateText;
}
export interface SeenEntry extends EntryBase {
  readonly kind: "seen";
  readonly check?: Name;
  readonly stage?: Stage;
  readonly stageAt?: Span;
  readonly verdict?: "good" | "bad";
  readonly verdictAt?: Span;
  readonly text?: Text;
  readonly place?: Name;
  readonly by?: Text;
  readonly date?: DateText;
}
export interface FindingEntry extends EntryBase {
  readonly kind: "finding";
  readonly of?: Name;
  readonly count?: Figure;
  readonly place?: Name;
  readonly date?: DateText;
}
export interface QuestionEntry extends EntryBase {
  readonly kind: "question";
  readonly name?: Name;
  readonly title?: Text;
}
export interface ConcessionEntry extends EntryBase {
  readonly kind: "concession";
  readonly of?: Name;
  readonly place?: Name;
  readonly why?: Text;
  readonly by?: Text;
  readonly date?: DateText;
}
export interface PauseEntry extends EntryBase {
  readonly kind: "pause";
  readonly date?: DateText;
  readonly why?: Text;
}
export interface SupplierEntry extends EntryBase {
  readonly kind: "supplier";
  readonly name?: Name;
  readonly title?: Text;
}
export interface OfferEntry extends EntryBase {
  readonly kind: "offer";
  readonly item?: Item;
  readonly from?: Name;
}
export interface StockEntry extends EntryBase {
  readonly kind: "stock";
  readonly item?: Item;
  readonly amount?: Quantity;
  readonly where?: Text;
  readonly date?: DateText;
}
export interface OrderEntry extends EntryBase {
  readonly kind: "order";
  readonly reference?: Text;
  readonly to?: Name;
}
export interface NeedEntry extends EntryBase {
  readonly kind: "need";
  readonly item?: Item;
  readonly amount?: Quantity;
  readonly why?: Text;
}
export interface ShimsEntry extends EntryBase {
  readonly kind: "shims";
  readonly name?: Name;
  readonly title?: Text;
}
export interface ReleaseEntry extends EntryBase {
  readonly kind: "release";
  readonly by?: Text;
  readonly date?: DateText;
  readonly counter?: Quantity;
}
/** A head that can't be read, with all that follows it up to the next entry. `guess` is the entry keyword that was nearest. */
export interface UnreadEntry extends EntryBase {
  readonly kind: "unread";
  readonly guess?: string;
}
/** Details that stand above every entry. */
export interface HeadlessEntry extends EntryBase {
  readonly kind: "headless";
}

export type Entry =
  | SheetEntry
  | PlacesEntry
  | UseEntry
  | DayEntry
  | RateEntry
  | PartEntry
  | FastenerEntry
  | FluidEntry
  | LimitEntry
  | CheckEntry
  | GaugeEntry
  | HazardEntry
  | StepEntry
  | MeasureEntry
  | SeenEntry
  | FindingEntry
  | QuestionEntry
  | ConcessionEntry
  | PauseEntry
  | SupplierEntry
  | OfferEntry
  | StockEntry
  | OrderEntry
  | NeedEntry
  | ShimsEntry
  | ReleaseEntry
  | UnreadEntry
  | HeadlessEntry;
