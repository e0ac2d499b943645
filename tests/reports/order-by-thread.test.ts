// A fastener with one thread here and another there: each thread is a thing of its own to buy, and none serves for another.
import { describe, expect, test } from "vitest";
import { loadSolver } from "../../server/disk/load-solver.ts";
import { orderLetter } from "../../server/reports/order/letter.ts";
import { orderTable } from "../../server/reports/order/table.ts";
import { filesFrom, orderOf } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

const solver = await loadSolver();
const chosen = (text: string) => partsOrder(filesFrom({ "job.jobsheet": text }), ["job.jobsheet"], { way: "cheapest", solver });

const hands = (rest: string, threads = "  thread 7/8-14 UNF LH at left\n  thread 7/8-14 UNF at right\n") => `sheet "Hands"
  currency GBP
  opened 2026-03-01
places side left, right
fastener hub-nut "Hub nut"
  each side
${threads}  torque 60 .. 70 lbf.ft
  source "Book"
supplier a "A"
supplier b "B"
supplier c "C"
offer hub-nut from a
  price 4 GBP each
  thread 7/8-14 UNF at right
offer hub-nut from b
  price 6 GBP each
  thread 7/8-14 UNF LH
finding hub-nut left
  is stripped
  decision renew
finding hub-nut right
  is stripped
  decision renew
${rest}`;

const rows = (text: string) => orderOf(text).lines.map((it) => [it.name, it.need, it.stock, it.onOrder, it.toOrder, it.supplier]);

test("a left-hand nut and a right-hand nut are two rows, each from who sells it", () => {
  const expected = [
    ["Hub nut, 7/8-14 UNF LH", "1", "0", "0", "1", "b"],
    ["Hub nut, 7/8-14 UNF", "1", "0", "0", "1", "a"],
  ];
  expect(rows(hands(""))).toEqual(expected);
  expect(chosen(hands("")).lines.map((it) => [it.name, it.supplier, it.total])).toEqual([
    ["Hub nut, 7/8-14 UNF LH", "b", "6.00"],
    ["Hub nut, 7/8-14 UNF", "a", "4.00"],
  ]);
  expect(orderLetter(orderOf(hands("")), "b")).toContain("1 × Hub nut, 7/8-14 UNF LH");
});

test("what nobody sells in the thread has no source, however cheap another is", () => {
  const text = hands("").replace(/offer hub-nut from b\n.*\n.*\n/, "");
  expect(orderOf(text).lines.map((it) => [it.name, it.standing])).toEqual([
    ["Hub nut, 7/8-14 UNF LH", "no source"],
    ["Hub nut, 7/8-14 UNF", "to order"],
  ]);
  expect(orderTable(orderOf(text))).toContain("The offer of A is left out: its thread is not the fastener's own.");
});

test("a price that says no thread serves, and it is asked for", () => {
  const text = hands("offer hub-nut from c\n  price 1 GBP each\n");
  expect(orderOf(text).lines.map((it) => it.supplier)).toEqual(["c", "c"]);
  expect(orderTable(orderOf(text))).toContain("The offer of C does not say its thread: ask for 7/8-14 UNF LH.");
});

test("of the same thread at both places, and of a strength that differs", () => {
  expect(rows(hands("", "  thread 7/8-14 UNF at left\n  thread 7/8-14 UNF at right\n"))).toEqual([["Hub nut", "2", "0", "0", "2", "a"]]);
  expect(rows(hands("", "  thread 7/8-14 UNF grade 8 at left\n  thread 7/8-14 UNF grade 5\n")).map(([name]) => name)).toEqual([
    "Hub nut, 7/8-14 UNF grade 8",
    "Hub nut, 7/8-14 UNF grade 5",
  ]);
});

describe("stock and orders name no thread", () => {
  const order = (to: string, n: number) => `order "X" to ${to}\n  status placed 2026-03-02\n  item hub-nut ${n}\n`;
  test("what a seller has in one thread only is that thread", () => {
    expect(rows(hands(order("a", 1))).map((it) => it.slice(3, 5))).toEqual([
      ["0", "1"],
      ["1", "0"],
    ]);
    // Two left-hand ones from B: one too many, and the right-hand one is still wanted.
    expect(rows(hands(order("b", 2))).map((it) => it.slice(3, 5))).toEqual([
      ["2", "0"],
      ["0", "1"],
    ]);
    expect(orderOf(hands(order("b", 2))).surplus).toMatchObject([{ name: "Hub nut, 7/8-14 UNF LH", quantity: "1" }]);
  });
  test("received from it, too; and fitted, it is used up", () => {
    const came = order("b", 1).replace("placed", "received");
    expect(rows(hands(came)).map((it) => it.slice(2, 5))).toEqual([
      ["1", "0", "0"],
      ["0", "0", "1"],
    ]);
    const fitted = `${came}step back\n  undo hub-nut left\n  fit hub-nut left new\n  done 2026-03-03\n`;
    expect(rows(hands(fitted))).toEqual([["Hub nut, 7/8-14 UNF", "1", "0", "0", "1", "a"]]);
    expect(orderOf(hands(fitted)).surplus).toEqual([]);
  });
  test("of which nobody says it, it serves once, and it is said that nobody says it", () => {
    const text = hands('stock hub-nut 1 "Drawer"\n');
    expect(rows(text).map((it) => it.slice(2, 5))).toEqual([
      ["1", "0", "0"],
      ["0", "0", "1"],
    ]);
    expect(orderTable(orderOf(text))).toContain("Nobody says which thread is in stock or on order");
    expect(orderOf(hands(order("c", 3))).surplus).toMatchObject([{ name: "Hub nut", quantity: "1" }]);
    expect(rows(hands(order("c", 2))).map((it) => it[4])).toEqual(["0", "0"]);
  });
});

describe("stock, orders and what came say their thread as a fastener does, or their hand alone", () => {
  const left = ["Hub nut, 7/8-14 UNF LH", "1"];
  const right = ["Hub nut, 7/8-14 UNF", "1"];

  test("two left-hand ones on the shelf serve the left side, and no more of them is counted for the right", () => {
    const expected = [
      [...left, "2", "0", "0", "b"],
      [...right, "0", "0", "1", "a"],
    ];
    expect(rows(hands("stock hub-nut LH 2\n"))).toEqual(expected);
    expect(rows(hands('stock hub-nut thread 7/8-14 UNF LH 2 "tin" 2026-03-01\n'))).toEqual(expected);
  });

  test("an order of each hand, of which one came", () => {
    const order = 'order "O" to a\n  status placed 2026-03-02\n  item hub-nut LH 1 price 4 GBP\n  item hub-nut thread 7/8-14 UNF 1\n';
    expect(rows(hands(`${order}order "O" to a\n  received hub-nut LH 1 on 2026-03-04\n`))).toEqual([
      [...left, "1", "0", "0", "b"],
      [...right, "0", "1", "0", "a"],
    ]);
  });

  test("what came without a word of its hand is what the order asks for", () => {
    const text = hands('order "O" to a\n  status placed 2026-03-02\n  item hub-nut LH 1\n  received hub-nut 1 on 2026-03-04\n');
    expect(rows(text)).toEqual([
      [...left, "1", "0", "0", "b"],
      [...right, "0", "0", "1", "a"],
    ]);
    expect(orderOf(text).notOrdered).toEqual([]);
  });

  test("a thread that it has nowhere serves for nothing, and what is on order of it is not needed", () => {
    const text = hands('order "O" to a\n  status placed 2026-03-02\n  item hub-nut thread 7/8-9 UNC 2\n');
    expect(rows(text)).toEqual([
      [...left, "0", "0", "1", "b"],
      [...right, "0", "0", "1", "a"],
    ]);
    expect(orderOf(text).surplus.map((it) => [it.name, it.quantity])).toEqual([["Hub nut, 7/8-9 UNC", "2"]]);
  });

  test("a nut of one thread everywhere: its own hand serves, the other does not", () => {
    const one = hands("", "  thread 7/8-14 UNF\n").replaceAll("  thread 7/8-14 UNF at right\n", "").replaceAll("  thread 7/8-14 UNF LH\n", "");
    expect(orderOf(`${one}stock hub-nut thread 7/8-14 UNF 2\n`).lines[0]?.standing).toBe("in stock");
    expect(orderOf(`${one}stock hub-nut LH 2\n`).lines[0]?.standing).toBe("to order");
  });
});
