// The bench's questions: what is said beside the figures, what is not known, and that nothing typed can break it.
import { describe, expect, test } from "vitest";
import { examples, figure } from "../../server/features/figure.ts";
import { thinned, times } from "../sampled.ts";
import { known, numberOf } from "./figure-answers.ts";

describe("what is said", () => {
  test("every example has an answer in one line, with a source", () => {
    for (const query of examples) {
      const it = known(query);
      expect(it.line, query).not.toContain("\n");
      expect(it.source, query).not.toBe("");
      expect(it.values.length, query).toBeGreaterThan(0);
    }
  });
  test("each value is a decimal or a plain word, never an exponent or a float's tail", () => {
    for (const query of examples) for (const it of known(query).values) expect(`${it.value}`, query).not.toMatch(/\de[+-]?\d|NaN|Infinity|^$/);
  });
  test("estimates and figures from memory say so in the line, each time", () => {
    for (const query of [
      ...examples,
      "bush 1.25 in",
      "normal 95 %",
      "hub float truck",
      "joint 3/4-16 UNF preload 25000 lbf load 6000 lbf stiffness 6.5, 13.8",
      "slot travel for 3/4-16 UNF",
      "split pin 4 mm",
    ]) {
      const it = known(query);
      if (it.confidence === "estimate") expect(it.line, query).toMatch(/estimate|not a limit/i);
      if (it.confidence === "from memory") expect(it.line + it.source, query).toMatch(/from memory/);
    }
  });
});

describe("what must not be guessed", () => {
  test.each([
    ["M13", /not in the tables/],
    ["5/16-18", /more than one series/],
    ["10-32", /10 inches/],
    ["121 H7 mm", /not in the table/],
    ["25 H7/x6", /not in the table/],
    ["1 gal in l", /us\.gal or imp\.gal/],
    ["3 ton in kg", /us\.ton or imp\.ton or t/],
    ["0,38 mm in in", /decimal comma/],
    ["1 mm in kg", /can't be put/],
    ["torque 1/2-20 UNF grade 5", /K must be said/],
    ["torque 1/2 BSF grade 5 K 0.2", /not in the tables/],
    ["torque M10 grade 5 K 0.2", /not in the tables/],
    ["split pin for 2 BA", /No split pin/],
    ["doubt 0.138 mm U 0.012 in max 0.15 kg", /one kind/],
    ["mean 1 mm, 2 kg", /one kind/],
    ["currency XTS", /isn't a currency/],
    ["white metal grade 99", /not in the table/],
    ["torque 50 lbf.ft with extension 20 in on 18 in at 180 deg", /come together/],
    ["shims 0.43 mm to 0.10 .. 0.15 mm from 0.05", /could not be read/],
    ["", /does not know/],
    ["the colour of the barn", /does not know/],
  ])("%s", (query, why) => {
    const answer = figure(query);
    expect(answer.known).toBe(false);
    expect(answer.line).toMatch(why);
  });
  test("what it offers instead has an answer", () => {
    for (const query of [
      "5/16-18",
      "10-32",
      "1 gal in l",
      "0,38 mm in in",
      "M13",
      "torque 1/2-20 UNF grade 5",
      "IT7",
      "doubt",
      "shims",
      "heat",
      "backlash 5",
      "mean",
      "conicity",
      "normal",
      "uncertainty",
      "expand",
      "K paint",
      "expansion of tin",
      "roundness",
      "slots",
      "joint",
    ]) {
      const answer = figure(query);
      if (answer.known) expect.fail(query);
      const silent = answer.ask.filter((it) => !figure(it).known && !/, /.test(it));
      expect(silent, query).toEqual([]);
    }
  });
});

describe("cautions", () => {
  test("a white-metal lining is refused near its melting, whatever it is called, and the metal around it is what expands", () => {
    for (const query of [
      "heat 45 mm cast iron white-metal lined interference 0.06 mm clearance 0.05 mm",
      "heat 45 mm cast-iron interference 0.06 mm clearance 0.05 mm lined with white metal",
      "heat cast iron bush 45 mm babbitt lining interference 0.06 mm clearance 0.05 mm",
    ]) {
      const it = known(query);
      expect(it.line, query).toMatch(/^Do not heat it so/);
      expect(it.cautions.join(" "), query).toMatch(/white metal/);
      // (0.06 + 0.05)/(10.8e-6 · 45), by hand.
      expect(Math.abs(numberOf(query, "rise", "K") - 226.337), query).toBeLessThan(0.01);
    }
  });
  test("a bearing above 120 °C is refused; hardened steel is warned of", () => {
    expect(known("heat steel bearing 40 mm interference 0.04 mm clearance 0.05 mm").line).toMatch(/^Do not heat it so/);
    expect(known("heat 40 mm hardened steel ring interference 0.04 mm clearance 0.04 mm").cautions.join(" ")).toMatch(/temper/);
  });
  test("split pins are used once; a pin goes by the thread's family", () => {
    expect(known("split pin for 1/2 BSW").cautions.join(" ")).toMatch(/used once.*family/s);
  });
  test("the direction that shims were taken to work in is said", () => {
    expect(known("shims 0.43 mm to 0.10 .. 0.15 mm from 0.05 mm x 4, 0.10 mm x 3, 0.25 mm x 2").line).toContain(
      "Taken: each shim put in makes the reading less",
    );
    expect(known("shims 0.43 mm to 0.10 .. 0.15 mm from 0.05 mm x 4, 0.25 mm x 2 effect -1").line).not.toContain("Taken");
  });
});

describe("shims", () => {
  // By hand: 0.43 less 0.30 is 0.13, nearest to 0.125 of all that these make; 0.25 + 0.05 is the only way in two.
  test("nearest to the middle, then the fewest", () => {
    const query = "shims 0.43 mm to 0.10 .. 0.15 mm from 0.05 mm x 4, 0.10 mm x 3, 0.25 mm x 2";
    expect([numberOf(query, "total", "mm"), numberOf(query, "pieces"), numberOf(query, "reading then", "mm")]).toEqual([0.3, 2, 0.13]);
  });
  // By hand: 0.30 − 0.7·0.25 = 0.125; the whole stays 0.30 + 0.40.
  test("on two sides the total is kept", () => {
    const query = "shims 0.30 mm to 0.10 .. 0.15 mm first 0.10 mm x 3 second 0.10 mm x 2, 0.05 mm x 4 effect 0.7";
    expect([numberOf(query, "first total", "mm"), numberOf(query, "second total", "mm"), numberOf(query, "reading then", "mm")]).toEqual([0.05, 0.65, 0.125]);
  });
});

describe("nothing typed breaks it", () => {
  const words =
    "torque shims heat mean doubt K U x to from in on at 1/2-20 UNF M10 BA 25 H7/g6 0.015 in mm degF lbf.ft .. , - / 1/0 -5 1e9 99999999999999999999999999999999999999999 grade class 8.8 slots holes backlash teeth pressure LH look-alike and max min +/- \u0000 \ud800 \u202e # \" ' \\ ( ) % ° µm split pin for effect first second nu cone 1:0 conicity normal bush".split(
      " ",
    );
  const questions = times({ plain: 600, run: 3000, full: 3000 });
  test(`random questions, ${questions} of them, and examples cut short`, () => {
    let seed = 7;
    const random = (below: number) => {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      return Math.floor((seed / 2147483648) * below);
    };
    for (let i = 0; i < questions; i++) {
      const query = Array.from({ length: 1 + random(12) }, () => words[random(words.length)]).join(random(4) === 0 ? "" : " ");
      expect(() => figure(query), JSON.stringify(query)).not.toThrow();
    }
    for (const query of thinned(examples, 3))
      for (let end = 0; end <= query.length; end++) expect(() => figure(query.slice(0, end)), query.slice(0, end)).not.toThrow();
  });
  test.each([
    ["a", "a"],
    ["digits", "1"],
    ["digits and commas", "1,"],
    ["question marks", "?x"],
    ["dots", "."],
    ["and", " and "],
    ["threads", "1/2-20 UNF "],
    ["spaces", "        x"],
    ["readings", "1.1, "],
    ["quotes", '"# '],
  ])("10 kB and 100 kB of %s come to an end", (_, piece) => {
    for (const length of [10_000, 100_000]) {
      for (const lead of ["", "mean ", "shims ", "doubt 1 mm U "]) {
        expect(() => figure(lead + piece.repeat(Math.ceil(length / piece.length))), `${lead}${piece}`).not.toThrow();
      }
    }
  });
});
