// The verb that goes with what a thing is called. The titles are such as stand in sheets; what each takes is plain English.
import { expect, test } from "vitest";
import { agreeing } from "../../server/model/titles.ts";

const verb = (title: string | undefined, one: "is" | "has" = "is", kind = "part") =>
  agreeing({ name: "blades", kind, ...(title === undefined ? {} : { title }) }, one);

test.each([
  "Girder blades",
  "Big end shells",
  "Road wheels",
  "Half brasses of the crank",
  "Thrust washers of the relay",
  "Shims between bearing and distance piece",
  "Springs behind the drag link plugs",
  "Hub bolts and locknuts",
  "Gear teeth to the body",
  "Shafts that drop",
  "King pin bushes",
  "Sheaves",
  "Blades (the two outer)",
  "Pads, off side",
])("“%s” are", (title) => {
  expect([verb(title), verb(title, "has")]).toEqual(["are", "have"]);
});

test.each([
  "Hub nut",
  "Brass",
  "Big end brass",
  "Safety valve boss",
  "Hooke joint cross",
  "Brake lining thickness",
  "Chassis",
  "Jockey wheel axis",
  "Bus",
  "Spigot radius",
  "Mains",
  "Single phase mains",
  "Thrust block between the half shafts",
  "Shim between the brasses",
  "Iron link between the segments",
  "Brake backplate with its shoes",
  "Toe-in at the rims",
  "Rim run-out sideways",
  "Wind turns the sails",
  "Boom comes down",
  "Axle turns",
  "Safety valve lifts at",
  "Worm bearing cage with balls",
  "Over the wings",
  "Fitter's mate's",
])("“%s” is", (title) => {
  expect([verb(title), verb(title, "has")]).toEqual(["is", "has"]);
});

test("what is called by its name is one, and so is a check", () => {
  expect(verb(undefined)).toBe("is");
  expect(verb("No cracks", "is", "check")).toBe("is");
});
