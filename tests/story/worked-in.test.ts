// What is done to a face, by its words: each line read as a fitter would read it.
import { expect, test } from "vitest";
import { addsNothing, onlyCuts } from "../../server/story/worked-in.ts";

test("a scraper, a file, a wheel or a blast takes a little off and does no more", () => {
  for (const text of [
    "Scraped to the marking",
    "faces filed",
    "re-ground",
    "Grinds the seat",
    "Reamered by hand",
    "lightly polished; dressed",
    "Vapour-blasted",
    "sandpapered",
    "lap the face",
    "Emery and buffed",
    "turned on centres",
  ])
    expect(onlyCuts(text), text).toBe(true);
});

test("what only begins like such a verb is none", () => {
  for (const text of [
    "Buffers fitted",
    "Sandwich plate fitted",
    "Scrapped",
    "Turnbuckle fitted",
    "Miller's clamp",
    "Emergency clamp fitted",
    "Filler in it",
    "Stoneware ring",
  ])
    expect(onlyCuts(text), text).toBe(false);
  for (const text of ["Buffer fitted", "lap joint", "sandwich plate"]) expect(addsNothing(text), text).toBe(false);
});

test("what is known and gives no metal", () => {
  for (const text of ["burrs off with a stone", "hook straightened", "wire brushed, painted outside", "sandpapered and oiled"])
    expect(addsNothing(text), text).toBe(true);
});
