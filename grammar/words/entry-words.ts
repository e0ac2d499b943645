// The words that start an entry. A row is all of a word: what follows it and the fields that this gives its head, how it is written, what it says.
// The type of each entry is made from its row (`EntryOf`); a rule of its own stands in `line-grammar.ts`.
import type { DateText, EntryBase, Figure, Item, Money, Name, Quantity, Span, Stage, Text } from "../tree.ts";
import { type FieldsOf, type Flat, type Shape, date, line, nameAndText, text } from "./shape.ts";

interface EntryRow {
  readonly word: string;
  readonly shape: Shape<unknown>;
  /** The head as it is written: capitals stand for what is filled in, `[ ]` is optional, `|` a choice. */
  readonly syntax: string;
  readonly says: string;
  /** An entry as it may stand in a sheet. */
  readonly example: string;
}

const titled = line<{ readonly name?: Name; readonly title?: Text }>((it) => it.titledLine());

const rows = [
  {
    word: "sheet",
    shape: text("title"),
    syntax: 'sheet "TITLE"',
    says: "The job that this file is about. One a file; a file without one is a data file, for others to use.",
    example: 'sheet "Tailstock: play in the quill"\n  by "M. Orr"\n  opened 2026-03-02',
  },
  {
    word: "places",
    shape: line<{
      readonly placeKind?: Name;
      readonly names: readonly Name[];
    }>((it) => it.placesLine(), { names: true }),
    syntax: "places KIND NAME, NAME…",
    says: "Where there are several of a thing: two sides, four corners, six cylinders.",
    example: "places side left, right",
  },
  {
    word: "use",
    shape: text("path"),
    syntax: 'use "relative/path.jobsheet"',
    says: "What that file declares is known here.",
    example: 'use "lathe-data.jobsheet"',
  },
  {
    word: "day",
    shape: date("date"),
    syntax: "day DATE",
    says: "The day of what follows, so that `done` and readings need no date.",
    example: "day 2026-03-02",
  },
  {
    word: "rate",
    shape: line<{
      readonly one?: Money;
      readonly is?: Money;
      readonly date?: DateText;
    }>((it) => it.rateLine()),
    syntax: "rate 1 CODE = FIGURE CODE [DATE]",
    says: "What one currency was worth in another, for sums over suppliers.",
    example: "rate 1 USD = 0.79 GBP 2026-03-02",
  },
  {
    word: "part",
    shape: titled,
    syntax: 'part NAME ["Name"]',
    says: "A part of the machine. Without the text it adds details to a part that a used file declares, for this job.",
    example: 'part flywheel "Flywheel"\n  held by gib-key\n  critical "it breaks loose"',
  },
  {
    word: "fastener",
    shape: titled,
    syntax: 'fastener NAME ["Name"]',
    says: "What is done up and undone: nut, bolt, screw, clevis pin, key.",
    example: 'fastener cap-nut "Bearing cap nut"\n  qty 4\n  thread 1/2 BSF\n  torque 30 .. 35 lbf.ft dry\n  locked by tab washer 30 mm',
  },
  {
    word: "fluid",
    shape: titled,
    syntax: 'fluid NAME ["Name"]',
    says: "Oil, grease, coolant, brake fluid: what runs out when its part comes off.",
    example: 'fluid sump-oil "Sump oil"\n  in sump\n  capacity 4 l',
  },
  {
    word: "limit",
    shape: titled,
    syntax: 'limit NAME ["Name"]',
    says: "A dimension, clearance, float or torque that is measured, and what it may be.",
    example: 'limit crank-float "Crankshaft end float"\n  new 0.004 .. 0.008 in\n  worn max 0.012 in',
  },
  {
    word: "check",
    shape: titled,
    syntax: 'check NAME ["what good looks like"]',
    says: "What is seen, not measured: a contact pattern, blue on a taper, no leak.",
    example: 'check cone-seat "Blue all round the cone"\n  of drive-cone',
  },
  {
    word: "gauge",
    shape: titled,
    syntax: 'gauge NAME ["Name"]',
    says: "What readings are taken with, and how far it can be trusted.",
    example: 'gauge mic "Micrometer, 0-25 mm"\n  resolution 0.01 mm\n  uncertainty 0.004 mm',
  },
  {
    word: "hazard",
    shape: titled,
    syntax: 'hazard NAME ["Name"]',
    says: "Energy that can hurt: a loaded spring, pressure, mains, fuel. Live until it is made safe.",
    example: 'hazard mains "Mains supply to the motor"\n  safe before belt-guard\n  caution "Lock the isolator off and keep the key."',
  },
  {
    word: "step",
    shape: titled,
    syntax: 'step NAME ["Title"]',
    says: "Work, planned or done, its actions in order, one a line. It counts once it says `done`.",
    example: 'step strip-cap "Big end cap off"\n  undo cap-nut\n  remove big-end-cap\n  done',
  },
  {
    word: "measure",
    shape: line<{
      readonly limit?: Name;
      readonly stage?: Stage;
      readonly stageAt?: Span;
      readonly by?: Name;
      readonly date?: DateText;
    }>((it) => it.measureLine()),
    syntax: "measure LIMIT found|trial|final [by GAUGE] [DATE]",
    says: "Readings of a limit, one place a line below.",
    example: "measure crank-float found by dial\n  0.007, 0.008 in",
  },
  {
    word: "seen",
    shape: line<{
      readonly check?: Name;
      readonly stage?: Stage;
      readonly stageAt?: Span;
      readonly verdict?: "good" | "bad";
      readonly verdictAt?: Span;
      readonly text?: Text;
      readonly places: readonly Name[];
      readonly by?: Text;
      readonly date?: DateText;
    }>((it) => it.seenLine(), { places: true }),
    syntax: 'seen CHECK found|trial|final good|bad ["…"] [PLACE…] [by "…"] [DATE]',
    says: "What a check showed.",
    example: 'seen cone-seat final good "Blue over three quarters, evenly"',
  },
  {
    word: "finding",
    shape: line<{
      readonly of?: Name;
      readonly count?: Figure;
      readonly places: readonly Name[];
      readonly date?: DateText;
    }>((it) => it.findingLine(), { places: true }),
    syntax: "finding PART|FASTENER|FLUID [N] [PLACE…] [DATE]",
    says: "What was found, and what is decided about it.",
    example: "finding cap-nut 2\n  is loose\n  decision renew",
  },
  {
    word: "question",
    shape: nameAndText("name", "title"),
    syntax: 'question NAME "…?"',
    says: "What has to be found out before something can be decided.",
    example: 'question liner-size "Is the bore standard, or has it been sleeved?"\n  about liner',
  },
  {
    word: "concession",
    shape: line<{
      readonly of?: Name;
      readonly places: readonly Name[];
      readonly why?: Text;
      readonly by?: Text;
      readonly date?: DateText;
    }>((it) => it.concessionLine(), { places: true }),
    syntax: 'concession NAME [PLACE…] "why" by "…" [DATE]',
    says: "A thing accepted outside its limit, by somebody with a name.",
    example: 'concession crank-float "Runs an hour a year, unloaded" by "M. Orr"',
  },
  {
    word: "pause",
    shape: line<{
      readonly date?: DateText;
      readonly why?: Text;
    }>((it) => it.pauseLine()),
    syntax: 'pause [DATE] "why"',
    says: "The job is laid up from here on.",
    example: 'pause 2026-03-09 "Waiting for the liner"',
  },
  {
    word: "supplier",
    shape: titled,
    syntax: 'supplier NAME ["Name"]',
    says: "Who sells, with freight, duty and how long it takes.",
    example: 'supplier tarn "Tarn Bearings"\n  currency GBP\n  lead 5 d',
  },
  {
    word: "offer",
    shape: line<{
      readonly item?: Item;
      readonly from?: Name;
    }>((it) => it.offerLine()),
    syntax: "offer ITEM from SUPPLIER",
    says: "What somebody sells it for.",
    example: "offer liner from tarn\n  price 64.00 GBP\n  quoted 2026-03-04",
  },
  {
    word: "stock",
    shape: line<{
      readonly item?: Item;
      readonly amount?: Quantity;
      readonly where?: Text;
      readonly date?: DateText;
    }>((it) => it.stockLine()),
    syntax: 'stock ITEM N|Q ["where"] [DATE]',
    says: "What lay on that shelf that day; done work uses it up. Of a fastener its thread, its hand, its grade or class may stand behind its name: `hub-nut LH 2`.",
    example: 'stock split pin 3.2 x 40 mm 12 "Tin on the sill" 2026-03-01',
  },
  {
    word: "order",
    shape: line<{
      readonly reference?: Text;
      readonly to?: Name;
    }>((it) => it.orderLine()),
    syntax: 'order "REFERENCE" [to SUPPLIER]',
    says: "What was asked for, and its status. Written again further down of an order that stands above, it needs no `to`.",
    example: 'order "T-118" to tarn\n  status placed 2026-03-05\n  item liner 1',
  },
  {
    word: "need",
    shape: line<{
      readonly item?: Item;
      readonly amount?: Quantity;
      readonly why?: Text;
    }>((it) => it.needLine()),
    syntax: 'need ITEM N|Q "why"',
    says: "What no finding asks for: sealant, rags, a spare.",
    example: 'need "Jointing compound, tube" 1 "Sump joint"',
  },
  {
    word: "shims",
    shape: titled,
    syntax: 'shims NAME ["Name"]',
    says: "Shims that set a limit: which there are and which are fitted.",
    example: 'shims cap-shims "Bearing cap shims"\n  have 0.05 mm x 6, 0.1 mm x 4\n  fitted 0.1 mm x 2',
  },
  {
    word: "release",
    shape: line<{
      readonly by?: Text;
      readonly date?: DateText;
      readonly counter?: Quantity;
    }>((it) => it.releaseLine()),
    syntax: 'release by "…" [DATE] [at Q]',
    says: "The machine goes back to work, signed. All that is still open is an error here.",
    example: 'release by "M. Orr" 2026-04-18 at 1240 h\n  test "Run light for an hour, no knock"',
  },
] as const satisfies readonly EntryRow[];

type Row = (typeof rows)[number];
export type EntryKind = Row["word"];
/** The entry whose head a row gives. */
export type EntryOf<K extends EntryKind> = Flat<EntryBase & { readonly kind: K } & FieldsOf<Extract<Row, { readonly word: K }>>>;

export interface EntryWord extends EntryRow {
  readonly word: EntryKind;
}
export const entryWords: readonly EntryWord[] = rows;
