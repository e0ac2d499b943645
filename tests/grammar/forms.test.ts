// Every entry, detail, action and form of figure: that it is read, and as what.
import { describe, expect, it } from "vitest";
import { factsKey, readSheet, textOf } from "../../grammar/sheet-text.ts";
import type { ActionDetail, Detail, Entry, IsDetail, LimitEntry, Locking, LockedDetail, Range, TorqueDetail } from "../../grammar/tree.ts";
import { actionWords, conditions, detailWords, entryWords, lockingInfo, lockings } from "../../grammar/words.ts";
import { detailIn, faultsIn, withoutColumns } from "./reading.ts";

/** A head for each kind of entry, to stand over one of its details. */
const heads: Readonly<Record<string, string>> = Object.fromEntries(entryWords.map((it) => [it.word, it.example.split("\n")[0] as string]));

const entry = (line: string): Entry => {
  const sheet = readSheet(line);
  expect(faultsIn(line), line).toEqual([]);
  return sheet.entries[0] as Entry;
};
const detail = <T extends Detail>(under: string, line: string): T => {
  const it = detailIn(heads[under] as string, line);
  expect(it.fault, line).toBeUndefined();
  return it as T;
};
const meant = (value: unknown) => JSON.parse(JSON.stringify(withoutColumns(value)));

describe("each word of the table", () => {
  it.each(entryWords)("$word: its example is read", ({ word, example }) => {
    expect(faultsIn(example)).toEqual([]);
    expect(readSheet(example).entries.map((it) => it.kind)).toEqual([word]);
  });
  it.each(detailWords)("$word ($kind): its example is read under each of its entries", ({ kind, under, example }) => {
    for (const it of under === "any" ? entryWords.map((row) => row.word) : under) {
      const read = detailIn(heads[it] as string, example);
      expect(read.fault, `${it} / ${example}`).toBeUndefined();
      expect(read.kind).toBe(kind);
    }
  });
  it.each(actionWords)("$word: its example is read in a step", ({ word, example }) => {
    const read = detail<ActionDetail>("step", example);
    expect([read.kind, read.verb]).toEqual(["action", word]);
  });
  it.each(conditions)("$word is a condition", ({ word, syntax }) => {
    const line = syntax.replaceAll(/[[\]]/g, "").replace("N", "2").replace("PART", "sump").replace("Q", "200 ml");
    const read = detail<IsDetail>("finding", `is worn, ${line}, bent`);
    expect(read.conditions.map((it) => it.kind)).toEqual(["worn", word, "bent"]);
  });
  it.each(lockings)("$kind is a locking by each of its words", ({ kind, words, syntax }) => {
    for (const it of words) {
      const line = syntax.replace(words[0] as string, it);
      expect(detail<LockedDetail>("fastener", `locked by ${line}`).locking).toMatchObject({ kind, words: it });
      expect(detail<LockedDetail>("fastener", `retained by ${it}${kind === "thread lock" ? ' "x"' : ""} for 2`)).toMatchObject({
        locking: { kind },
        serves: { text: "2" },
      });
    }
    expect(lockingInfo(kind)?.kind).toBe(kind);
  });
  it("no first word is an entry's and a detail's at once", () => {
    const entries = new Set<string>(entryWords.map((it) => it.word));
    expect([...detailWords, ...actionWords].filter((it) => entries.has(it.word))).toEqual([]);
  });
});

const figure = (text: string) => ({ figure: { text } });
const q = (text: string, unit?: string) => (unit === undefined ? figure(text) : { figure: { text }, unit: { text: unit } });
const range = (line: string): Range => detail<Extract<Detail, { kind: "new" }>>("limit", `new ${line}`).range as Range;

describe("quantities and ranges", () => {
  it.each<[string, object]>([
    ["0.004 .. 0.008 in", { kind: "between", low: q("0.004"), high: q("0.008", "in") }],
    ["0.004..0.008in", { kind: "between", low: q("0.004"), high: q("0.008", "in") }],
    ["1..2", { kind: "between", low: q("1"), high: q("2") }],
    [".5 to 1 mm", { kind: "between", low: q(".5"), high: q("1", "mm") }],
    ["1 mm .. 0.1 cm", { kind: "between", low: q("1", "mm"), high: q("0.1", "cm") }],
    ["-10 .. 40 degC", { kind: "between", low: q("-10"), high: q("40", "degC") }],
    ["max 5 thou", { kind: "max", end: q("5", "thou") }],
    ["min 1-1/4 in", { kind: "min", end: q("1-1/4", "in") }],
    ["25 +0.021 0 mm", { kind: "deviations", nominal: q("25"), first: q("+0.021"), second: q("0", "mm") }],
    ["25 -0.01 -0.03 mm", { kind: "deviations", nominal: q("25"), first: q("-0.01"), second: q("-0.03", "mm") }],
    ["25 mm +0.2 mm -0.1 mm", { kind: "deviations", nominal: q("25", "mm"), first: q("+0.2", "mm"), second: q("-0.1", "mm") }],
    ["50 +/- 2 N.m", { kind: "plus-minus", nominal: q("50"), tolerance: q("2", "N.m") }],
    ["50 ± 2 N·m", { kind: "plus-minus", nominal: q("50"), tolerance: q("2", "N·m") }],
    ["25 H7 mm", { kind: "fit", nominal: q("25", "mm"), fit: { text: "H7" } }],
    ["25 js6 mm", { kind: "fit", nominal: q("25", "mm"), fit: { text: "js6" } }],
    ["40f7 mm", { kind: "fit", nominal: q("40", "mm"), fit: { text: "f7" } }],
    ["50 lbf.ft", { kind: "bare", only: q("50", "lbf.ft") }],
    ["25H7mm", { kind: "bare", only: q("25", "H7mm") }],
  ])("%s", (line, wanted) => {
    expect(meant(range(line))).toEqual(wanted);
  });
  it("a figure with a decimal comma is read and marked", () => {
    const read = entry("measure float found\n  left 0,38 mm").details[0];
    expect(meant((read as Extract<Detail, { kind: "reading" }>).figures)).toEqual([{ figure: { text: "0,38", comma: true }, unit: { text: "mm" } }]);
  });
  it.each<[string, string[]]>([
    ["0.014,0.015 in", ["0.014", "0.015"]],
    ["14, 15 thou", ["14", "15"]],
    ["14,15 thou", ["14,15"]],
    ["14,15.5 thou", ["14", "15.5"]],
    ["1/2,3/4 in", ["1/2", "3/4"]],
    ["-0.002, .001 in", ["-0.002", ".001"]],
  ])("readings %s", (line, wanted) => {
    const read = entry(`measure float found\n  left top again ${line}`).details[0] as Extract<Detail, { kind: "reading" }>;
    expect(read.words.map((it) => it.text)).toEqual(["left", "top"]);
    expect(read.again).toBeDefined();
    expect(read.figures.map((it) => it.figure.text)).toEqual(wanted);
    expect(read.figures.at(-1)?.unit?.text).toBe(line.split(" ").at(-1));
  });
  it.each(["lower 0.1 in", "worn 0.1 in", "0.1 in"])("under measure `%s` is a reading", (line) => {
    expect(entry(`measure float found\n  ${line}`).details.map((it) => it.kind)).toEqual(["reading"]);
  });
  it.each(["45 lbf.ft", "12mm", "10 °C", "5 %", "3 km/h", "20 µm", "7 lbs", "2 min", "2 in", "4 ft-lb"])("a word behind a figure is its unit: %s", (line) => {
    const read = detail<Extract<Detail, { kind: "mass" }>>("part", `mass ${line}`);
    expect(read.mass?.unit?.text).toBe(/[^\d\s.]\S*$/.exec(line)?.[0]);
  });
});

describe("torque, threads, locking", () => {
  it.each<[string, object]>([
    ["25 .. 30 lbf.ft dry K 0.2", { range: { kind: "between" }, condition: { text: "dry" }, k: { text: "0.2" } }],
    ["25 .. 30 K", { range: { kind: "between", high: { unit: { text: "K" } } } }],
    ["50 lbf.ft oiled", { range: { kind: "bare" }, condition: { text: "oiled" } }],
    ['by feel "a hand spanner"', { byFeel: { value: "a hand spanner" } }],
    ["none", { none: {} }],
    ["20, 40 lbf.ft", { stages: [{ kind: "bare" }, { kind: "bare", only: q("40", "lbf.ft") }] }],
    ["20 lbf.ft + 90 deg", { stages: [{ kind: "bare", only: q("20", "lbf.ft") }], angle: { kind: "bare", only: q("90", "deg") } }],
    ["20, 38 .. 42 N.m +85 .. 95 deg oiled", { stages: [{}, { kind: "between" }], angle: { kind: "between" }, condition: { text: "oiled" } }],
    ["25 +2 -1 N.m", { range: { kind: "deviations" } }],
    ["25 +2 0 N.m K 0.2", { range: { kind: "deviations" }, k: { text: "0.2" } }],
  ])("torque %s", (line, wanted) => {
    expect(detail<TorqueDetail>("fastener", `torque ${line}`)).toMatchObject(wanted);
  });
  it.each<[string, string, object]>([
    ["5/8-18 UNF LH grade 5 at left", "5/8-18 UNF", { leftHand: {}, free: false }],
    ["1-8 UNC", "1-8 UNC", {}],
    ["1-1/8-7 UNC", "1-1/8-7 UNC", {}],
    ["No.10-32 UNF", "No.10-32 UNF", {}],
    ["10-32 UNF", "10-32 UNF", {}],
    ["1/2 BSF", "1/2 BSF", {}],
    ["2 BA", "2 BA", {}],
    ["M10", "M10", {}],
    ["M10x1.25 LH", "M10x1.25", { leftHand: {} }],
    ["M10 x 1.25", "M10x1.25", {}],
    ["M10×1", "M10×1", {}],
    ["5/8-18", "5/8-18", {}],
    ['"26 cycle"', "26 cycle", { free: true }],
  ])("thread %s", (line, designation, more) => {
    expect(detail("fastener", `thread ${line}`)).toMatchObject({ thread: { designation, ...more } });
  });
  it("class and place", () => {
    expect(detail("fastener", "thread M12 class 8.8 at right")).toMatchObject({ class: { text: "8.8" }, places: [{ text: "right" }] });
    expect(detail("offer", "thread M12 LH")).toMatchObject({ thread: { designation: "M12" } });
  });
  it.each<[string, Partial<Record<keyof Locking, unknown>>]>([
    ["split pin 1/8 x 1-1/4 in", { kind: "split pin", size: [q("1/8"), q("1-1/4", "in")] }],
    ["split pin 1/8x1-1/4in", { kind: "split pin", size: [q("1/8"), q("1-1/4", "in")] }],
    ["split pin 3.2×40 mm", { kind: "split pin", size: [q("3.2"), q("40", "mm")] }],
    ["lock wire 1 mm X 180 mm", { kind: "lock wire", size: [q("1", "mm"), q("180", "mm")] }],
    ["split pin", { kind: "split pin", size: [] }],
    ["circlip 30", { kind: "circlip", size: [q("30")] }],
    ["jam nut", { kind: "lock nut", words: "jam nut" }],
    ['thread lock "222"', { kind: "thread lock" }],
    ["part lock-plate-31", { kind: "part" }],
    ['nothing "a conical seat"', { kind: "nothing" }],
    ["cotter", { kind: "ambiguous", words: "cotter" }],
    ["cotter pin 1/8 x 1 in", { kind: "ambiguous", words: "cotter pin" }],
  ])("locked by %s", (line, wanted) => {
    expect(meant(detail<LockedDetail>("fastener", `locked by ${line}`).locking)).toMatchObject(wanted);
  });
});

describe("what else a line may say", () => {
  const n = (text: string) => ({ text });
  it.each<[string, string, object]>([
    ["fastener", "let back 1 flat", { kind: "let-back", back: { flats: n("1") } }],
    ["fastener", "let back 2 flats", { back: { flats: n("2") } }],
    ["fastener", "let back 1/6 turn", { back: { turns: n("1/6") } }],
    ["fastener", "let back 30 deg", { back: { angle: q("30", "deg") } }],
    ["part", 'may serve again "Unworn"', { kind: "may-serve", why: { value: "Unworn" } }],
    [
      "step",
      'admit jack-only "Nobody was under it" by "M. Orr"',
      { kind: "admit", rule: n("jack-only"), what: { value: "Nobody was under it" }, by: { value: "M. Orr" } },
    ],
    ["gauge", "uncertainty 4 %", { kind: "uncertainty", percent: q("4", "%") }],
    ["gauge", "uncertainty 0.4 N.m", { quantity: q("0.4", "N.m") }],
    ["offer", "price 2.10 GBP each from 10", { kind: "price-from", money: {}, each: {}, from: n("10") }],
    ["offer", "price 20 GBP a pack from 3", { kind: "price-from", aPack: {}, from: n("3") }],
    ["offer", "price 2.10 GBP each", { kind: "price" }],
    ["supplier", "least order 15.00 GBP", { kind: "least-order", money: { figure: n("15.00") } }],
    ["supplier", "tax 20 %", { kind: "tax", percent: q("20", "%") }],
    [
      "order",
      "received bearing 1, seal 2 on 2026-05-04",
      { kind: "received", items: [{ amount: q("1") }, { item: { name: n("seal") }, amount: q("2") }], date: n("2026-05-04") },
    ],
    ["order", "received split pin 1/8 x 1 in 25 2026-05-04", { items: [{ item: { kind: "locking" }, amount: q("25") }], date: {} }],
    ["order", 'work stud 2 left "grind"', { kind: "work", part: n("stud"), count: n("2"), places: [n("left")] }],
    ["release", 'test "held" load 500 kg', { kind: "test", text: { value: "held" }, load: q("500", "kg") }],
    [
      "finding",
      'is worn "step of 10 thou", missing 2 "at the top"',
      {
        conditions: [
          { kind: "worn", text: { value: "step of 10 thou" } },
          { count: n("2"), text: {} },
        ],
      },
    ],
    ["finding", 'is metallic from big-end "grey"', { conditions: [{ kind: "metallic", from: n("big-end"), text: { value: "grey" } }] }],
  ])("%s: %s", (under, line, wanted) => {
    expect(detail(under, line)).toMatchObject(wanted);
  });
  it("a torque in stages or with an angle has no range by itself", () => {
    for (const line of ["torque 20, 40 lbf.ft", "torque 20 .. 22 lbf.ft + 90 deg"]) expect(detail("fastener", line)).not.toHaveProperty("range");
    expect(detail("step", "tighten a to 20 lbf.ft + 90 deg")).not.toHaveProperty("stages");
  });
});

describe("items", () => {
  it.each<[string, object, object]>([
    ["hub-seal 4", { kind: "name", name: { text: "hub-seal" } }, q("4")],
    ["hub-grease 400 ml", { kind: "name" }, q("400", "ml")],
    ["split pin 1/8 x 1 in 12", { kind: "locking", locking: { kind: "split pin", size: [q("1/8"), q("1", "in")] } }, q("12")],
    ["lock wire 1 mm 10 m", { kind: "locking", locking: { size: [q("1", "mm")] } }, q("10", "m")],
    ["circlip 4", { kind: "name", name: { text: "circlip" } }, q("4")],
    ["circlip 30 mm 4", { kind: "locking", locking: { size: [q("30", "mm")] } }, q("4")],
    ["tab washer 6", { kind: "locking", locking: { size: [] } }, q("6")],
    ["staking 1", { kind: "name" }, q("1")],
    ['"Sealant, tube" 1', { kind: "text", text: { value: "Sealant, tube" } }, q("1")],
  ])("stock %s", (line, item, amount) => {
    const read = entry(`stock ${line} "Drawer 3" 2026-04-01`) as Extract<Entry, { kind: "stock" }>;
    expect(meant(read.item)).toMatchObject(item);
    expect(meant(read.amount)).toEqual(amount);
    expect(meant(entry(`need ${line} "why"`))).toMatchObject({ item, amount });
    expect(meant(detail("order", `item ${line} price 3 GBP`))).toMatchObject({ item, amount, price: { figure: { text: "3" } } });
  });
  it("an offer may come from anything called anything", () => {
    expect(entry("offer from from from")).toMatchObject({ item: { name: { text: "from" } }, from: { text: "from" } });
  });
});

describe("actions", () => {
  const action = (line: string) => meant(detail<ActionDetail>("step", line));
  const n = (text: string) => ({ text });
  it.each<[string, object]>([
    ["remove hub, shim 2, seal left", { things: [{ name: n("hub") }, { name: n("shim"), count: n("2") }, { name: n("seal") }], places: [n("left")] }],
    ["undo new", { things: [{ name: n("new") }], places: [] }],
    ["undo hub-nut left, right", { things: [{ name: n("hub-nut") }], places: [n("left"), n("right")] }],
    [
      'fit hub 2 left new from right for now "trial"',
      { things: [{ name: n("hub"), count: n("2") }], isNew: "span", from: n("right"), forNow: { value: "trial" } },
    ],
    ["tighten nut left to 95 lbf.ft by wrench", { places: [n("left")], to: q("95", "lbf.ft"), by: n("wrench") }],
    ["tighten nut by wrench to 95 lbs", { to: q("95", "lbs"), by: n("wrench") }],
    ["lock lock with lock plate", { things: [{ name: n("lock") }], with: { kind: "lock plate" } }],
    ["lock nut left with new split pin 1/8 x 1 in", { isNew: "span", with: { kind: "split pin" } }],
    ["lock nut with new part lock-plate-31", { isNew: "span", with: { kind: "part", part: n("lock-plate-31") } }],
    ["lock nut new", { isNew: "span" }],
    ["drain oil left 2 l", { things: [{ name: n("oil") }], places: [n("left")], amount: q("2", "l") }],
    ["fill oil 4 l", { amount: q("4", "l") }],
    ['mark cap, rod left "two dots"', { text: { value: "two dots" }, places: [n("left")] }],
    ["replace hub left", { verb: "replace", things: [{ name: n("hub") }] }],
    ["raise on hoist", { on: n("hoist") }],
    ["support engine on crane", { things: [{ name: n("engine") }], on: n("crane") }],
    [
      "support on 4 stands under frame rated 2 t together load 900 kg",
      { standCount: n("4"), on: n("stands"), underPart: n("frame"), rated: q("2", "t"), ratedTogether: "span", load: q("900", "kg") },
    ],
    ['support on stands under "frame" rated 2000 kg each', { underText: { value: "frame" }, ratedEach: "span" }],
    ["support on on stands", { things: [{ name: n("on") }], on: n("stands") }],
    ["undo hub-nut 2 left", { things: [{ name: n("hub-nut"), count: n("2") }], places: [n("left")] }],
    ["slacken nut 2, bolt 3 left", { things: [{ count: n("2") }, { count: n("3") }], places: [n("left")] }],
    ["tighten big-end-nut 2 to 45 lbf.ft", { things: [{ name: n("big-end-nut"), count: n("2") }], to: q("45", "lbf.ft") }],
    ["lock nut 2 left new", { things: [{ count: n("2") }], places: [n("left")], isNew: "span" }],
    ['repair stud 2 "x"', { things: [{ count: n("2") }], text: { value: "x" } }],
    ['mark cap 2 left "x"', { things: [{ count: n("2") }], places: [n("left")], text: { value: "x" } }],
    ["tighten bolt to 20 lbf.ft + 90 deg by wrench", { to: q("20", "lbf.ft"), angle: q("90", "deg"), by: n("wrench") }],
    ["tighten bolt 4 to 20, 40 lbf.ft", { things: [{ count: n("4") }], to: q("40", "lbf.ft"), stages: [q("20"), q("40", "lbf.ft")] }],
    ["tighten bolt to 20 lbf.ft, 40 lbf.ft +60 deg", { to: q("40", "lbf.ft"), angle: q("60", "deg") }],
    ["let back hub-nut by 1 flat", { verb: "let", things: [{ name: n("hub-nut") }], back: { flats: n("1") } }],
    ["let back hub-nut 2 left, right by 1/4 turn", { things: [{ count: n("2") }], places: [n("left"), n("right")], back: { turns: n("1/4") } }],
    ["let back hub-nut by 30 deg", { back: { angle: q("30", "deg") } }],
    ["lower", { verb: "lower", things: [] }],
    ["lower gearbox", { verb: "lower", things: [{ name: n("gearbox") }] }],
    ["lower gearbox on bench", { things: [{ name: n("gearbox") }], on: n("bench") }],
    ['lower gearbox on "trolley"', { things: [{ name: n("gearbox") }], text: { value: "trolley" } }],
    ["raise on centre stand", { on: n("centre stand") }],
    ["raise on center stand", { on: n("centre stand") }],
    ["support engine on bench", { things: [{ name: n("engine") }], on: n("bench") }],
    ["heat hub left to 80 degC", { verb: "heat", things: [{ name: n("hub") }], places: [n("left")], temperature: q("80", "degC") }],
    ["heat bearing", { verb: "heat" }],
    ["inspect hub, drum left", { verb: "inspect", things: [{ name: n("hub") }, { name: n("drum") }], places: [n("left")] }],
    ["bleed brake-fluid left", { verb: "bleed", things: [{ name: n("brake-fluid") }], places: [n("left")] }],
  ])("%s", (line, wanted) => {
    expect(action(line)).toMatchObject({ kind: "action", ...wanted });
  });
  it("one word has another shape under another entry", () => {
    expect(detail("hazard", "safe before a, b")).toMatchObject({ kind: "safe-before", names: [{ text: "a" }, { text: "b" }] });
    expect(detail("hazard", "restore after a")).toMatchObject({ kind: "restore-after" });
    expect(detail("fluid", "bleed")).toMatchObject({ kind: "needs-bleed" });
    expect(detail("fastener", "recheck after 50 mi")).toMatchObject({ kind: "recheck-after" });
    expect(detail("release", "recheck nut after 50 mi done 2026-05-01 at 41310 mi")).toMatchObject({
      kind: "recheck",
      name: { text: "nut" },
      doneAt: { figure: { text: "41310" } },
    });
    expect(detail("check", "set by shims-a")).toMatchObject({ kind: "set", by: [{ text: "shims-a" }] });
    for (const [head, line] of [
      ["hazard", "safe mains"],
      ["step", "safe before a"],
      ["fluid", "bleed oil"],
      ["step", "bleed"],
      ["fastener", "recheck nut after 5 h"],
      ["release", "recheck after 5 h"],
      ["check", "set 1 .. 2 mm by a"],
      ["limit", "set by a"],
    ] as const) {
      const sheet = readSheet(`${heads[head]}\n  ${line}`);
      expect(faultsIn(textOf(sheet)), `${head} / ${line}`).toHaveLength(1);
      expect(sheet.entries[0]?.stray, `${head} / ${line}`).toHaveLength(0);
    }
  });
});

describe("expressions", () => {
  const told = (it: LimitEntry["details"][number] | undefined): string => {
    const say = (e: NonNullable<Extract<Detail, { kind: "equals" }>["expression"]>): string =>
      e.kind === "quantity"
        ? `${e.quantity.figure.text}${e.quantity.unit?.text ?? ""}`
        : e.kind === "name"
          ? e.name.text
          : e.kind === "negate"
            ? `(-${say(e.operand)})`
            : e.kind === "call"
              ? `${e.function.text}(${e.arguments.map(say).join(" ")})`
              : `(${say(e.left)} ${e.operator} ${say(e.right)})`;
    return it?.kind === "equals" && it.expression !== undefined ? say(it.expression) : "";
  };
  it.each([
    ["= bore - shaft", "(bore - shaft)"],
    ["= a - b - c * 2", "((a - b) - (c * 2))"],
    ["= (a + b) / 2", "((a + b) / 2)"],
    ["= 1-1/4 in + 1/2 in", "(1-1/4in + 1/2in)"],
    ["= mean(a, b) * cos(30 deg)", "(mean(a b) * cos(30deg))"],
    ["= min + max", "(min + max)"],
    ["= - a + 2 min", "((-a) + 2min)"],
    ["= bore-shaft", "bore-shaft"],
  ])("%s", (line, wanted) => {
    expect(told(entry(`limit float\n  ${line}`).details[0])).toBe(wanted);
  });
});

describe("lines and names", () => {
  it("keywords may be names, and the keyword wins where both may stand", () => {
    expect(entry('part step "Step"')).toMatchObject({ name: { text: "step" } });
    expect(entry("finding left right")).toMatchObject({ of: { text: "left" }, places: [{ text: "right" }] });
  });

  it.each([
    ["finding hub-nut 2 left, right 2026-03-02", "finding"],
    ['seen blue final good "All round" left, right by "A" 2026-03-02', "seen"],
    ['concession float left, right "why" by "A"', "concession"],
  ])("%s: takes a list of places", (line, kind) => {
    expect(entry(line)).toMatchObject({ kind, places: [{ text: "left" }, { text: "right" }] });
  });

  it.each([
    ["order", 'work hub 2 left, right "Skim" price 4 GBP'],
    ["fastener", "thread M20x1.5 LH at left, right"],
  ])("under %s, %s: takes a list of places", (under, line) => {
    expect(detail(under, line)).toMatchObject({ places: [{ text: "left" }, { text: "right" }] });
  });
  it("names are compared composed, in any script", () => {
    expect(entry('part bride-arrie\u0300re "x"')).toMatchObject({ name: { text: "bride-arri\u00e8re" } });
    expect(entry('part Втулка-2 "x"')).toMatchObject({ name: { text: "Втулка-2" } });
    expect(entry('part \u{10400}\u{10428} "x"')).toMatchObject({ name: { text: "\u{10400}\u{10428}", at: { from: 5, to: 9 } } });
  });
  it("escapes in texts", () => {
    expect(entry('part a "5\\" wide \\\\ x" # comment')).toMatchObject({ title: { value: '5" wide \\ x' } });
  });
  it("comments begin at a line's start or behind a space; a blank of any kind is a space", () => {
    expect(entry("# first\n\u00a0\tpart\u2003a\t#b").kind).toBe("part");
    expect(faultsIn('part a#b "x"')).toHaveLength(1);
  });
  it("a byte order mark and any line ends are kept", () => {
    const text = '\ufeffsheet "x"\r\n  by "a"\rpart b\n\n  each side\n';
    const sheet = readSheet(text);
    expect(textOf(sheet)).toBe(text);
    expect(faultsIn(text)).toEqual([]);
    expect(sheet.entries.map((it) => it.kind)).toEqual(["sheet", "part"]);
    expect([sheet.newline, sheet.lineCount, sheet.starts]).toEqual(["\r\n", 6, [0, 2]]);
  });
});

describe("a facts key", () => {
  const key = (text: string) => factsKey(readSheet(text).entries[0] as Entry);
  it("does not change with words in notes, photos, reasons and comments", () => {
    expect(key('part a\n  note "x"\n  each side # c')).toBe(key('part a\n  note "other"\n  each side # d'));
    expect(key('finding a\n  because "x"\n  photo "p"')).toBe(key('finding a\n  because "y y"\n  photo "qq"'));
  });
  it("changes with a name, a column, a row, a fault", () => {
    const base = key("part a\n  each side");
    for (const other of ["part b\n  each side", "part a\n   each side", "part a\n\n  each side", "part a\n  each side 2", "part a\n  each left side"])
      expect(key(other)).not.toBe(base);
    expect(key("part a\n  zzzz left")).not.toBe(key("part a\n  zzzz lift"));
  });
});
