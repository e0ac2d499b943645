// Which rule of the grammar reads a line, by its first word: the one place where a word of the language meets its shape.
import type { Grammar } from "./line-grammar.ts";
import type { Detail } from "./tree.ts";
import type { EntryKind } from "./words.ts";

export interface Shape<Kind extends string> {
  readonly kind: Kind;
  readonly read: (grammar: Grammar) => void;
}

const titled = (it: Grammar) => it.titledLine();

export const headShapes: ReadonlyMap<string, Shape<EntryKind>> = new Map(
  Object.entries({
    sheet: (it) => it.textLine("title"),
    places: (it) => it.placesLine(),
    use: (it) => it.textLine("path"),
    day: (it) => it.dateLine("date"),
    rate: (it) => it.rateLine(),
    part: titled,
    fastener: titled,
    fluid: titled,
    limit: titled,
    check: titled,
    gauge: titled,
    hazard: titled,
    step: titled,
    measure: (it) => it.measureLine(),
    seen: (it) => it.seenLine(),
    finding: (it) => it.findingLine(),
    question: (it) => it.nameTextLine("name", "title"),
    concession: (it) => it.concessionLine(),
    pause: (it) => it.pauseLine(),
    supplier: titled,
    offer: (it) => it.offerLine(),
    stock: (it) => it.stockLine(),
    order: (it) => it.orderLine(),
    need: (it) => it.needLine(),
    shims: titled,
    release: (it) => it.releaseLine(),
  } satisfies Record<EntryKind, (grammar: Grammar) => void>).map(([word, read]) => [word, { kind: word as EntryKind, read }]),
);

type DetailShape = Shape<Detail["kind"]>;

const shape = (kind: Detail["kind"], read: (grammar: Grammar) => void): DetailShape => ({ kind, read });
const text = (kind: Detail["kind"], field = "text") => shape(kind, (it) => it.textLine(field));
const quantity = (kind: Detail["kind"], field: string) => shape(kind, (it) => it.quantityLine(field));
const names = (kind: Detail["kind"], field: string) => shape(kind, (it) => it.namesLine(field));
const range = (kind: Detail["kind"]) => shape(kind, (it) => it.rangeLine("range"));
const max = (kind: Detail["kind"]) => shape(kind, (it) => it.maxLine("max"));
const things = shape("action", (it) => it.thingsLine());
const alone = shape("action", (it) => it.aloneLine());

/** Details that stand under several entries in different shapes (`safe`, `restore`, `recheck`, `set`, `bleed`) are read by one rule; `entries` checks them. */
export const detailShapes: ReadonlyMap<string, DetailShape> = new Map<string, DetailShape>([
  ["note", text("note")],
  ["photo", text("photo", "path")],
  ["accept", shape("accept", (it) => it.nameTextLine("rule", "why"))],
  ["machine", text("machine")],
  ["serial", text("serial")],
  ["by", text("by")],
  ["opened", shape("opened", (it) => it.dateLine("date"))],
  ["currency", shape("currency", (it) => it.nameLine("code"))],
  ["reading", quantity("counter", "quantity")],
  ["each", shape("each", (it) => it.eachLine())],
  ["qty", shape("qty", (it) => it.countLine("count"))],
  ["number", text("number")],
  ["critical", shape("critical", (it) => it.maybeTextLine("what"))],
  ["renew", shape("renew", (it) => it.renewLine())],
  ["held", shape("held", (it) => it.byNamesLine())],
  ["behind", names("behind", "parts")],
  ["matched", shape("matched", (it) => it.withNamesLine())],
  ["keeps", shape("keeps", (it) => it.keepsLine())],
  ["fits", text("fits")],
  ["material", shape("material", (it) => it.materialLine())],
  ["mass", quantity("mass", "mass")],
  ["thread", shape("thread", (it) => it.threadLine())],
  ["torque", shape("torque", (it) => it.torqueLine())],
  ["locked", shape("locked", (it) => it.lockedLine())],
  ["retained", shape("locked", (it) => it.lockedLine())],
  ["source", text("source")],
  ["recheck", shape("recheck-after", (it) => it.recheckLine())],
  ["in", names("in", "parts")],
  ["capacity", quantity("capacity", "quantity")],
  ["grade", text("grade")],
  ["bleed", shape("needs-bleed", (it) => it.bleedLine())],
  ["new", range("new")],
  ["worn", range("worn")],
  ["set", shape("set", (it) => it.setLine())],
  ["of", names("of", "names")],
  ["spread", max("spread")],
  ["ovality", max("ovality")],
  ["taper", max("taper")],
  ["read", shape("read-at", (it) => it.readAtLine())],
  ["=", shape("equals", (it) => it.equalsLine())],
  ["resolution", quantity("resolution", "quantity")],
  ["uncertainty", shape("uncertainty", (it) => it.uncertaintyLine())],
  ["range", range("range")],
  ["checked", shape("checked", (it) => it.checkedLine())],
  ["safe", shape("action", (it) => it.hazardLine("safe-before"))],
  ["restore", shape("action", (it) => it.hazardLine("restore-after"))],
  ["caution", text("caution")],
  ["from", shape("from", (it) => it.nameLine("step"))],
  ["at", names("at", "places")],
  ["after", names("after", "steps")],
  ["tool", text("tool")],
  ["takes", quantity("takes", "time")],
  ["done", shape("done", (it) => it.doneLine())],
  ["is", shape("is", (it) => it.isLine())],
  ["because", text("because")],
  ["decision", shape("decision", (it) => it.decisionLine())],
  ["see", text("see", "path")],
  ["about", names("about", "names")],
  ["answer", text("answer")],
  ["freight", shape("freight", (it) => it.freightLine())],
  ["duty", quantity("duty", "percent")],
  ["lead", quantity("lead", "time")],
  ["prices", text("prices", "path")],
  ["price", shape("price", (it) => it.priceLine())],
  ["pack", quantity("pack", "amount")],
  ["quoted", shape("quoted", (it) => it.dateLine("date"))],
  ["exchange", shape("exchange", (it) => it.moneyLine("money"))],
  ["equal", shape("equal", (it) => it.equalLine())],
  ["status", shape("status", (it) => it.statusLine())],
  ["item", shape("item", (it) => it.itemLine())],
  ["work", shape("work", (it) => it.workLine())],
  ["have", shape("have", (it) => it.stacksLine())],
  ["fitted", shape("fitted", (it) => it.stacksLine())],
  ["effect", shape("effect", (it) => it.signedLine("figure"))],
  ["test", shape("test", (it) => it.testLine())],
  ["admit", shape("admit", (it) => it.admitLine())],
  ["may", shape("may-serve", (it) => it.mayServeLine())],
  ["let", shape("let-back", (it) => it.letBackLine())],
  ["least", shape("least-order", (it) => it.leastLine())],
  ["tax", quantity("tax", "percent")],
  ["received", shape("received", (it) => it.receivedLine())],
  ["chock", shape("action", (it) => it.chockLine())],
  ["raise", shape("action", (it) => it.raiseLine())],
  ["support", shape("action", (it) => it.supportLine())],
  ["lower", shape("action", (it) => it.lowerLine())],
  ["under", alone],
  ["clear", alone],
  ...["slacken", "undo", "remove", "drain", "mark", "clean", "oil", "grease", "repair", "fit", "tighten", "lock", "fill", "heat", "inspect", "replace"].map(
    (verb) => [verb, things] as const,
  ),
]);

/** The lists that a consumer takes as there, though the line be broken before them. */
export const listsOf: Readonly<Partial<Record<string, readonly string[]>>> = {
  places: ["names"],
  renew: ["with"],
  held: ["by"],
  behind: ["parts"],
  matched: ["with"],
  in: ["parts"],
  set: ["by"],
  of: ["names"],
  "read-at": ["positions"],
  "safe-before": ["names"],
  "restore-after": ["names"],
  at: ["places"],
  after: ["steps"],
  done: ["places"],
  action: ["things", "places"],
  is: ["conditions"],
  about: ["names"],
  have: ["stacks"],
  fitted: ["stacks"],
  reading: ["words", "figures"],
  received: ["items"],
};
