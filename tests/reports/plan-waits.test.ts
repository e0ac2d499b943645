// What a planned step waits for by the facts of the sheet, each beside a twin in which the fact is gone: worked out by hand, as a fitter would.
import { describe, expect, test } from "vitest";
import { planOfText, waitsOfStep } from "./plan-sheets.ts";

/** What each of these steps waits for. */
const waits = (text: string, ...steps: string[]) => {
  const report = planOfText(text);
  return steps.map((step) => waitsOfStep(report, step));
};
/** What no step makes so, in the words of the plan. */
const unmet = (text: string, step: string) => waits(text, step)[0]?.map((it) => it.replace(/^\w+: /, ""));
const head = 'sheet "Hub"\nplaces side left, right\n';
const step = (name: string, ...lines: string[]) => `step ${name} "${name}"\n${lines.map((it) => `  ${it}\n`).join("")}`;
/** A hub on its nut, behind its cap. */
const hub = `${head}part hub "Hub"
  held by nut
  behind cap
part cap "Cap"
fastener nut "Hub nut"
  torque 10 .. 20 N.m
`;

describe("a part that comes off", () => {
  test("waits for what holds it and for what is in front of it", () =>
    expect(waits(hub + step("face", "remove cap") + step("loosen", "undo nut") + step("off", "remove hub"), "off")).toEqual([["face", "loosen"]]));
  test("waits for no step that only slackens what holds it", () =>
    expect(waits(hub + step("face", "remove cap") + step("loosen", "slacken nut") + step("off", "remove hub"), "off", "loosen")[0]).not.toContain("loosen"));
  test("says what no step undoes or removes", () => {
    expect(unmet(hub + step("off", "remove hub"), "off")).toEqual([
      "hub nut is still done up, and no step undoes it",
      "cap is still on, and no step removes it",
    ]);
  });
  test("waits for one that is written behind it, for the facts are stronger than the order of the lines", () =>
    expect(waits(hub + step("off", "remove hub") + step("loosen", "undo nut") + step("face", "remove cap"), "off")).toEqual([["loosen", "face"]]));
  test("waits for nothing where that is done", () =>
    expect(waits(hub + step("bare", "remove cap", "undo nut", "done 2026-05-01") + step("off", "remove hub"), "off")).toEqual([[]]));
  test("and within one step nothing waits", () => expect(waits(hub + step("all", "remove cap", "undo nut", "remove hub"), "all")).toEqual([[]]));
});

describe("a part that goes on, and what holds it", () => {
  const bare = `${hub}${step("strip", "remove cap", "undo nut", "remove hub", "done 2026-05-01")}`;
  test("goes on behind what is in front of it, and is done up when it is on", () =>
    expect(
      waits(
        bare + step("hub-on", "fit hub") + step("nut-on", "fit nut") + step("tight", "tighten nut to 15 N.m") + step("cap-on", "fit cap"),
        "nut-on",
        "cap-on",
      ),
    ).toEqual([["hub-on"], ["hub-on"]]));
  test("says what no step fits", () => {
    expect(unmet(bare + step("cap-on", "fit cap"), "cap-on")).toEqual(["hub behind it is still off, and no step fits it"]);
    expect(unmet(bare + step("tight", "tighten nut to 15 N.m"), "tight")).toEqual(["hub is still off, and no step fits it"]);
  });
  test("what is discarded is not missed", () => {
    const gone = `${bare}finding hub\n  is cracked\n  decision discard\n`;
    expect(waits(gone + step("cap-on", "fit cap"), "cap-on")).toEqual([[]]);
    expect(waits(gone + step("tight", "tighten nut to 15 N.m"), "tight")).toEqual([[]]);
  });
  test("is not asked for by a nut that is only put on its stud", () => expect(waits(bare + step("nut-on", "fit nut"), "nut-on")).toEqual([[]]));
});

describe("an open question", () => {
  const cap = `${head}part cap "Cap"
${step("strip", "remove cap", "done 2026-05-01")}question which "Which side is out?"
  about cap
`;
  test("holds the step that puts back what it is about", () =>
    expect(planOfText(cap + step("on", "fit cap")).steps.find((it) => it.step === "on")?.state).toBe("waiting"));
  test("holds none that puts it on for now", () =>
    expect(planOfText(cap + step("on", 'fit cap for now "to keep the dirt out"')).steps.find((it) => it.step === "on")?.state).toBe("ready"));
  test("nor one that takes it off", () => {
    const on = cap.replace(step("strip", "remove cap", "done 2026-05-01"), "");
    expect(planOfText(on + step("off", "remove cap")).steps.find((it) => it.step === "off")?.state).toBe("ready");
  });
  test("holds a fill with the fluid that it is about", () => {
    const oil = `${head}part box "Box"\nfluid oil "Oil"\n  in box\n${step("let-out", "drain oil", "done 2026-05-01")}question grade "Which oil?"\n  about oil\n`;
    expect(planOfText(oil + step("fill-up", "fill oil 1 l")).steps.find((it) => it.step === "fill-up")?.state).toBe("waiting");
  });
});

describe("what is dangerous", () => {
  const feed = `${head}part cover "Cover"
hazard feed "Mains feed"
  safe before cover
  restore after cover
`;
  test("is made safe before what it bars is opened, and live when that is back", () =>
    expect(
      waits(feed + step("isolate", "safe feed") + step("open", "remove cover") + step("close", "fit cover") + step("live", "restore feed"), "open", "live"),
    ).toEqual([["isolate"], ["isolate", "close"]]));
  test("says so where no step does it", () => {
    expect(unmet(feed + step("open", "remove cover"), "open")).toEqual(["mains feed is live, and no step makes it safe"]);
    const open = feed + step("isolate", "safe feed") + step("open", "remove cover") + step("live", "restore feed");
    expect(unmet(open, "live")).toContain("cover is not back, and no step puts it back");
  });
});

describe("what drains", () => {
  const box = `${head}part box "Box"\nfluid oil "Oil"\n  in box\n`;
  test("is let out before what it is in comes off", () =>
    expect(waits(box + step("let-out", "drain oil") + step("off", "remove box"), "let-out", "off")).toEqual([[], ["let-out"]]));
  test("is not waited for where it is let out of what lies on the bench", () =>
    expect(waits(box + step("off", "remove box") + step("let-out", "drain oil"), "off")).toEqual([[]]));
});

describe("two sides", () => {
  const hub = `${head}part hub "Hub"
  each side
  held by nut
fastener nut "Hub nut"
  each side
  torque 10 .. 20 N.m
`;
  const left = step("loosen-left", "undo nut left") + step("off-left", "remove hub left");
  const right = step("loosen-right", "undo nut right") + step("off-right", "remove hub right");
  test("wait for nothing of one another", () => expect(waits(hub + left + right, "off-left", "off-right")).toEqual([["loosen-left"], ["loosen-right"]]));
  test("an `after` between two steps of either side holds side by side", () =>
    expect(
      planOfText(`${hub}${step("loosen", "undo nut")}${step("off", "after loosen", "remove hub")}`)
        .steps.filter((it) => it.step === "off")
        .map((it) => it.waitsFor.length),
    ).toEqual([1]));
});

describe("a machine that is raised", () => {
  const hub = `${head}part hub "Hub"\n`;
  test("is raised and stands before anything comes off, and is let down when all is done above that", () =>
    expect(
      waits(
        hub + step("up", "raise on jack") + step("stand", "support on stands") + step("off", "remove hub") + step("on", "fit hub") + step("down", "lower"),
        "stand",
        "off",
        "down",
      ),
    ).toEqual([["up"], ["stand"], ["on"]]));
  test("what is written below that is done on the ground", () =>
    expect(
      waits(
        `${hub}part cap "Cap"\n${step("off", "remove cap", "done 2026-05-01")}${step("up", "raise on jack")}${step("down", "lower")}${step("cap-on", "fit cap")}`,
        "cap-on",
      ),
    ).toEqual([["down"]]));
});

describe("work that is to go out", () => {
  const spring = (status: string, place = "") => `${head}part spring "Spring"
  each side
supplier weir "Weir Springs"
  lead 20 d
order "W-8" to weir
${status}  work spring${place} "New main leaf"
${step("off", "takes 2 d", "remove spring")}${step("on", "takes 1 d", "fit spring")}`;
  const start = (text: string) => Number(planOfText(text).steps.find((it) => it.step === "on")?.earliestStart?.days);
  // Off on the evening of the second day, it goes out then and is twenty days away; what waits for no work begins when it is off.
  test("goes when a planned step has taken it off", () => expect(start(spring(""))).toBe(21));
  test("that has come back holds nothing", () => expect(start(spring("  status received 2026-05-20\n"))).toBe(2));
  test("that was called off holds nothing", () => expect(start(spring("  status cancelled 2026-05-20\n"))).toBe(2));
  test("at one side holds the step that fits that side", () => expect(start(spring("", " left").replace("fit spring\n", "fit spring right\n"))).toBe(2));
});

describe("what lies on the shelf", () => {
  const seal = (stock: string) => `${head}part seal "Seal"
  qty 2
supplier weir "Weir Lane"
  lead 5 d
offer seal from weir
  price 1.00 GBP each
${stock}${step("one", "takes 1 h", "fit seal 1 new")}${step("two", "takes 1 h", "fit seal 1 new")}`;
  const parcelsOf = (text: string) => planOfText(text).parcels.map((it) => it.items.map((item) => [item.item, item.quantity, item.steps]));
  test("serves the first step, and the second waits for what is to be ordered", () => {
    expect(parcelsOf(seal('stock seal 1 "Shelf" 2026-05-01\n'))).toEqual([[["seal", "1", ["two"]]]]);
    expect(planOfText(seal('stock seal 1 "Shelf" 2026-05-01\n')).steps.map((it) => [it.step, it.state])).toEqual([
      ["one", "ready"],
      ["two", "waiting"],
    ]);
  });
  test("serves both where there are two, and neither where there are none", () => {
    expect(parcelsOf(seal('stock seal 2 "Shelf" 2026-05-01\n'))).toEqual([]);
    expect(planOfText(seal("")).steps.map((it) => it.state)).toEqual(["waiting", "waiting"]);
  });
});
