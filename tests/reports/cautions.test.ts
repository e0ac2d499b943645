// Which cautions a job calls for: the sheet's own first, those of its own kind of machine, and none of another's.
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { asMarkdown } from "../../server/reports/draw/as-markdown.ts";
import { planning } from "../../server/reports/plan/plan.ts";
import { planSections } from "../../server/reports/plan/sections.ts";
import { wayBackSections } from "../../server/reports/way-back/sections.ts";
import type { WayBack } from "../../server/reports/way-back/way-back.ts";
import { type Caution, cautions } from "../../server/trade/cautions.ts";
import { kindOfMachine } from "../../server/trade/kind-of-machine.ts";
import { filesFrom } from "./sheets.ts";
import { releaseReport, wayBack } from "../in-one-go.ts";

const of = (text: string): readonly Caution[] => releaseReport(filesFrom({ "job.jobsheet": text }), "job.jobsheet")?.cautions ?? [];
const about = (text: string) => of(text).map((it) => it.about);

const job = (machine: string, parts: string, step: string) => `sheet "Job"
  machine "${machine}"
${parts}day 2026-03-01
step a "A"
  ${step}
  done
`;

describe("the kind of machine, by the words for it", () => {
  test.each<[string, string, Partial<ReturnType<typeof kindOfMachine>>]>([
    ["Pellworth 15 cwt van, 1952", "", { road: true, lifts: false, driven: false, boat: false }],
    ["Half-tonne chain hoist", "Load brake disc\nLoad wheel", { road: false, lifts: true }],
    ["6 in lathe", "Handwheel\nAxle pin", { road: false, driven: true }],
    ["Glider: elevator heavy", "Elevator\nQuadrant", { road: false, lifts: false }],
    ["Grain elevator, bucket and chain", "Bucket", { lifts: true }],
    ["Glider winch", "Drum", { lifts: true }],
    ["22 ft work boat", "Steering cable", { road: false, boat: true }],
    ["Goods lift 750 kg, 1938", "Coupling and brake drum\nBrake shoe", { road: false, lifts: true }],
    ["Torvik fork-lift, 2 t, 1974", "Chain anchor", { road: false, lifts: true }],
    ["Six-seat swing boat with hand winch, 1949", "Hanger", { boat: false, lifts: true }],
    ["Corrigan four-boat swing, about 1926", "Hanger", { boat: false, ride: true, road: false }],
    ["0-4-0 saddle tank, quarry loco", "Leading axle", { road: false, rails: true }],
    ["Railway coach, 1911", "Axlebox", { road: false, rails: true }],
    ["Motor coach, 1934", "Rear axle", { road: true, rails: false }],
    ["Two-seat glider, 1957", "Release hook", { flies: true, road: false }],
    ["8-ton steam roller, 1924", "Connecting rod", { road: true }],
    // Its name says nothing: its parts do.
    ["Porter 3-ton, 1949", "Half shaft\nRoad wheel", { road: true }],
    ["Garrow twin, 1962", "Cylinder\nPump rod", { road: false, lifts: false, driven: false, boat: false }],
  ])("%s", (names, parts, kind) => expect(kindOfMachine(names, parts)).toMatchObject(kind));
});

describe("what a job calls for", () => {
  const brake = 'part brake "Brake drum"\n  critical "the brake"\n';
  test("a van's brake: dust and licensed people; raised on a jack, stands", () =>
    expect(about(job("van", brake, "raise on jack\n  remove brake"))).toEqual(["support", "jack", "asbestos", "licence"]));
  test("a hoist's brake: none of the road's, and an examination before it lifts", () =>
    expect(about(job("chain hoist", brake, "remove brake"))).toEqual(["examined"]));
  test("a boat: none of the road's", () => expect(about(job("work boat", 'part wheel "Steering wheel"\n', "remove wheel"))).toEqual([]));
  test("a lining is dust on any machine", () => expect(about(job("winch", 'part lining "Brake lining"\n', "remove lining"))).toContain("asbestos"));
  test("a lathe: what turns", () => expect(about(job("lathe", 'part belt "Drive belt"\n', "remove belt"))).toEqual(["rotating"]));
  test("petrol, brake fluid and coolant have their own, and are no oil", () => {
    const fluid = (title: string) => about(job("tractor", `part tank "Tank"\nfluid f "${title}"\n  in tank\n  capacity 2 l\n`, "drain f"));
    expect(fluid("Petrol")).toEqual(["fuel"]);
    expect(fluid("Brake fluid")).toEqual(["brake-fluid"]);
    expect(fluid("Coolant")).toEqual(["hot"]);
    expect(fluid("Gear oil")).toEqual(["oil"]);
  });
  test("diesel comes at a pressure that goes through skin, petrol as a vapour; a boiler's injector is neither", () => {
    const injector = (machine: string) => about(job(machine, 'part injector "Injector"\n', "remove injector"));
    expect(injector("marine diesel")).toEqual(["jet"]);
    expect(injector("petrol engine")).toEqual(["fuel"]);
    expect(injector("steam engine, 1911")).toEqual([]);
    const tank = (machine: string, title: string) => about(job(machine, `part tank "Tank"\nfluid f "${title}"\n  in tank\n`, "drain f"));
    expect(tank("tractor", "Diesel")).toEqual(["jet"]);
    expect(tank("diesel tractor", "Fuel")).toEqual(["jet"]);
    expect(tank("diesel tractor, petrol starting engine", "Petrol")).toEqual(["fuel"]);
    expect(tank("tractor", "Fuel")).toEqual(["fuel"]);
  });
  test("a spring washer is no spring", () => expect(about(job("lathe", 'part w "Spring washer"\n', "remove w"))).toEqual([]));
  test("a starter battery is no mains", () =>
    expect(about(job("boat", 'hazard battery "Starter battery"\n  safe before cover\npart cover "Cover"\n', 'safe battery "lead off"'))).toEqual([]));

  test("the sheet's own caution comes first, then the usual one", () => {
    const list = of(
      job(
        "lathe",
        'hazard mains "Mains to the motor"\n  safe before guard\n  caution "Isolator off, key in the pocket."\npart guard "Guard"\n',
        'safe mains "off"',
      ),
    );
    expect(list.map((it) => it.about)).toEqual(["own", "mains"]);
    expect(list[0]?.words).toBe("Mains to the motor: Isolator off, key in the pocket.");
  });
  test("a hazard that the job comes nowhere near brings none", () =>
    expect(about(job("lathe", 'hazard mains "Mains"\n  safe before guard\n  caution "Off."\npart guard "Guard"\npart bed "Bed"\n', "remove bed"))).toEqual([]));
});

test("British sources stand before American", () => {
  for (const { source } of cautions) {
    const [british, american] = [source.search(/\bUK\b/), source.search(/\bUS\b/)];
    if (british >= 0 && american >= 0) expect(british, source).toBeLessThan(american);
  }
});

test("with nothing left to do the plan and the way back warn of nothing; the record does", () => {
  const off = `sheet "Van"\n  machine "van"\npart seal "Seal"\nstep a\n  chock\n  raise on jack\n  support on 2 stands\n  remove seal\n  done 2026-03-01\n`;
  const on = `${off}step b\n  fit seal new\n  lower\n  done 2026-03-02\n`;
  const files = (text: string) => filesFrom({ "job.jobsheet": text });
  const plan = (text: string) => {
    const report = runThrough(planning(files(text), ["job.jobsheet"], { from: "2026-03-03", hoursADay: 8 }));
    return report === undefined ? "" : asMarkdown(planSections(report));
  };
  const back = (text: string) => asMarkdown(wayBackSections(wayBack(files(text), "job.jobsheet") as WayBack));
  expect([plan(off), back(off)].map((it) => it.includes("axle stands"))).toEqual([true, true]);
  expect([plan(on), back(on)].map((it) => it.includes("axle stands"))).toEqual([false, false]);
  expect(of(on).length).toBeGreaterThan(0);
});
