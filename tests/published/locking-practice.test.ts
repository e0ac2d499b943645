// How locking is done, asked at the bench: each figure stands here with its source.
import { describe, expect, test } from "vitest";
import { figure } from "../../server/features/figure.ts";
import { known, numberOf } from "../features/figure-answers.ts";

describe("locking practice", () => {
  // FAA AC 43.13-1B chapter 7, as public pages quote it.
  test.each([
    ["lock wire", "fasteners in a row, 4 to 6 in apart, most", 3],
    ["lock wire", "apart, most", 6],
    ["safety wire", "wire for a close group, most", 24],
    ["lock-wire pigtail", "pigtail, least", 0.25],
    ["lock wire pigtail", "pigtail, most", 0.5],
    ["lock wire 0.032 in", "twists an inch, 0.032 in wire, least", 6],
    ["lock wire 0.032 in", "twists an inch, 0.032 in wire, most", 8],
    ["split pin rule", "of the pin's diameter above the castellation, most", 50],
    ["cotter pin above the castellation", "washers, most", 2],
  ])("%s: %s is %d", (query, name, expected) => expect(numberOf(query, name)).toBe(expected));

  // Bearing makers' practice as quoted: a car's hub 0.001 to 0.007 in, a truck's 0.001 to 0.005 in.
  test("a hub's bearing is adjusted the other way", () => {
    expect(numberOf("hub nut slot", "end play, car, most")).toBe(0.007);
    expect(numberOf("hub nut slot", "end play, truck or trailer, most")).toBe(0.005);
    expect(known("adjusting nut slot").line).toMatch(/back off/);
    expect(known("castle nut").line).toMatch(/never slacken/);
    expect(known("castle nut").line).not.toMatch(/back off/);
  });

  test("what is from memory says so", () => {
    expect(known("tab washer").confidence).toBe("from memory");
    expect(known("tab washer").line).toMatch(/renew/);
  });

  test("a size asks the tables, not the rules", () => expect(known("castle nut M12").source).toMatch(/DIN 935/));
});

describe("cautions", () => {
  test.each([
    ["caution jack", /only a jack/, /1910\.244/],
    ["caution about asbestos", /no compressed air/, /1910\.1001/],
    ["cautions for springs", /compressor/, /HSG261/],
  ])("%s", (query, words, source) => {
    expect(known(query).line).toMatch(words);
    expect(known(query).source).toMatch(source);
  });
  test("one that is not known names those that are", () => {
    const answer = figure("caution zebra");
    expect(answer.known).toBe(false);
    if (!answer.known) expect(answer.ask).toContain("caution jack");
  });
});
