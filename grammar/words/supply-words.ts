// Getting the parts and going back to work: suppliers, offers, orders, shims, the release.
// Invariant: a row is all of a word; its line's type and reading follow from it.
import type { DateText, Figure, Item, Money, Name, Quantity, ReceivedItem, ShimCount, Span, Text } from "../tree.ts";
import type { DetailWord } from "./detail-words.ts";
import { date, line, money, quantity, text } from "./shape.ts";

const shims = ["shims"] as const;

export const supplyWords = [
  {
    word: "freight",
    kind: "freight",
    shape: line<{
      readonly money?: Money;
      readonly freeOver?: Money;
    }>((it) => it.freightLine()),
    under: ["supplier"],
    syntax: "freight MONEY [free over MONEY]",
    says: "What sending costs.",
    example: "freight 8.50 GBP free over 150 GBP",
  },
  {
    word: "least",
    kind: "least-order",
    shape: line<{
      readonly money?: Money;
    }>((it) => it.leastLine()),
    under: ["supplier"],
    syntax: "least order MONEY",
    says: "Less than that is not sent.",
    example: "least order 15.00 GBP",
  },
  {
    word: "tax",
    kind: "tax",
    shape: quantity("percent"),
    under: ["supplier"],
    syntax: "tax N %",
    says: "What the seller adds to prices that are without it.",
    example: "tax 20 %",
  },
  { word: "duty", kind: "duty", shape: quantity("percent"), under: ["supplier"], syntax: "duty N %", says: "Duty on the goods.", example: "duty 4 %" },
  {
    word: "lead",
    kind: "lead",
    shape: quantity("time"),
    under: ["supplier", "offer"],
    syntax: "lead Q",
    says: "How long it takes to come.",
    example: "lead 5 d",
  },
  {
    word: "prices",
    kind: "prices",
    shape: text("path"),
    under: ["supplier"],
    syntax: 'prices "price-list.csv"',
    says: "A price list as CSV, by its path from this sheet: see below.",
    example: 'prices "tarn-2026.csv"',
  },

  {
    word: "price",
    kind: "price",
    shape: line<{
      readonly money?: Money;
      readonly each?: Span;
      readonly aPack?: Span;
    }>((it) => it.priceLine()),
    under: ["offer"],
    syntax: "price MONEY [each | a pack]",
    says: "What it costs.",
    example: "price 2.10 GBP a pack",
  },
  {
    word: "price",
    kind: "price-from",
    shape: line<{
      readonly money?: Money;
      readonly each?: Span;
      readonly aPack?: Span;
      readonly from?: Figure;
    }>((it) => it.priceLine()),
    under: ["offer"],
    syntax: "price MONEY [each | a pack] from N",
    says: "What it costs where so many or more are bought together.",
    example: "price 1.80 GBP each from 10",
  },
  {
    word: "pack",
    kind: "pack",
    shape: quantity("amount"),
    under: ["offer"],
    syntax: "pack N|Q",
    says: "How many, or how much, in one pack.",
    example: "pack 25",
  },
  {
    word: "quoted",
    kind: "quoted",
    shape: date("date"),
    under: ["offer"],
    syntax: "quoted DATE",
    says: "The day of that price.",
    example: "quoted 2026-03-04",
  },
  {
    word: "exchange",
    kind: "exchange",
    shape: money("money"),
    under: ["offer"],
    syntax: "exchange MONEY",
    says: "Paid besides, and given back for the old one: for each, or for a pack, as the price is.",
    example: "exchange 20.00 GBP",
  },
  {
    word: "equal",
    kind: "equal",
    shape: line<{
      readonly text?: Text;
    }>((it) => it.equalLine()),
    under: ["offer"],
    syntax: 'equal to "what differs"',
    says: "Not the maker's own: what is different.",
    example: 'equal to "Rubber lip instead of leather"',
  },

  {
    word: "status",
    kind: "status",
    shape: line<{
      readonly status?: "held" | "placed" | "sent" | "received" | "cancelled" | "returned";
      readonly word?: Span;
      readonly date?: DateText;
    }>((it) => it.statusLine()),
    under: ["order"],
    syntax: "status held|placed|sent|received|cancelled|returned [DATE]",
    says: "The order's status.",
    example: "status placed 2026-03-05",
  },
  {
    word: "received",
    kind: "received",
    shape: line<{
      readonly items: readonly ReceivedItem[];
      readonly date?: DateText;
    }>((it) => it.receivedLine(), { items: true }),
    under: ["order"],
    syntax: "received ITEM N|Q, ITEM N|Q… [on DATE]",
    says: "Some of it came. `status received` says that all of it did.",
    example: "received liner 1, split pin 1/8 x 1 in 25 on 2026-03-14",
  },
  {
    word: "item",
    kind: "item",
    shape: line<{
      readonly item?: Item;
      readonly amount?: Quantity;
      readonly price?: Money;
    }>((it) => it.itemLine()),
    under: ["order"],
    syntax: "item ITEM N|Q [price MONEY]",
    says: "What was ordered, in pieces, not packs; of a fastener with its thread or hand, where it has several, and its grade or class: `hub-nut thread 7/8-14 UNF LH 1`, `stud class 10.9 4`.",
    example: "item liner 1 price 64.00 GBP",
  },
  {
    word: "work",
    kind: "work",
    shape: line<{
      readonly part?: Name;
      readonly count?: Figure;
      readonly places: readonly Name[];
      readonly text?: Text;
      readonly price?: Money;
    }>((it) => it.workLine(), { places: true }),
    under: ["order"],
    syntax: 'work PART [N] [PLACE…] "what is to be done" [price MONEY]',
    says: "Sent out to be worked on: the part is away until received.",
    example: 'work crankshaft "Grind 0.020 in under" price 90.00 GBP',
  },

  {
    word: "have",
    kind: "have",
    shape: line<{
      readonly stacks: readonly ShimCount[];
    }>((it) => it.stacksLine(), { stacks: true }),
    under: shims,
    syntax: "have Q x N, Q x N…",
    says: "The shims that there are.",
    example: "have 0.05 mm x 6, 0.1 mm x 4",
  },
  {
    word: "fitted",
    kind: "fitted",
    shape: line<{
      readonly stacks: readonly ShimCount[];
    }>((it) => it.stacksLine(), { stacks: true }),
    under: shims,
    syntax: "fitted Q x N, Q x N…",
    says: "The shims that are in.",
    example: "fitted 0.1 mm x 2",
  },
  {
    word: "effect",
    kind: "effect",
    shape: line<{
      readonly figure?: Figure;
    }>((it) => it.signedLine("figure")),
    under: shims,
    syntax: "effect R",
    says: "The reading changes by R times the thickness; 1, where unsaid.",
    example: "effect 0.5",
  },

  {
    word: "test",
    kind: "test",
    shape: line<{
      readonly text?: Text;
      /** `load 500 kg`: a proof load of lifting gear. */
      readonly load?: Quantity;
      /** `of hook`: what it hung on, where the sheet has more than one that lifts. */
      readonly of?: Name;
    }>((it) => it.testLine()),
    under: ["release"],
    syntax: 'test "…" [of NAME] [load Q]',
    says: "What was tried, and what it showed; of lifting gear the proof load, and what it hung on.",
    example: 'test "Run light for an hour, no knock"',
  },
  {
    word: "recheck",
    kind: "recheck",
    shape: line<{
      readonly name?: Name;
      readonly after?: Quantity;
      readonly done?: DateText;
      readonly doneAt?: Quantity;
    }>((it) => it.recheckLine()),
    under: ["release"],
    syntax: "recheck NAME after Q [done DATE [at Q]]",
    says: "What is to be tried again, and when it was; `at` is what the counter read, where it goes by that and not by days.",
    example: "recheck cap-nut after 20 h",
  },
] as const satisfies readonly DetailWord[];
