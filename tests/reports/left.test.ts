// How a job was left: the state at each pause, read off the sheet by hand.
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { leftSections } from "../../server/reports/left/sections.ts";
import { asMarkdown } from "../../server/reports/draw/as-markdown.ts";
import { type Left, type LeftReport, reportingLeft } from "../../server/reports/left/left.ts";
import { filesFrom } from "./sheets.ts";
import { asPage } from "../in-one-go.ts";

const of = (text: string) => runThrough(reportingLeft(filesFrom({ "job.jobsheet": text }), "job.jobsheet")) as LeftReport;
const rows = (left: Left | undefined) => Object.fromEntries((left?.groups ?? []).map((it) => [it.name, it.rows.map((row) => row.text)]));

const sheet = `sheet "Hub"
places side left, right
part hub "Hub"
  each side
  held by hub-nut
fastener hub-nut "Hub nut"
  each side
  locked by split pin 1/8 x 1 in
  critical "a wheel"
fluid grease "Grease"
  in hub
  each side
hazard mains "Mains"
  safe before hub-nut
hazard spring "Spring"
limit float "End float"
  each side
  set 0.05 .. 0.10 mm by hub-nut
order "W-1" to somebody
  status sent 2026-03-01
  work hub right "bored"
day 2026-03-01
step down "Down"
  raise on jack
  safe mains "plug out"
  undo hub-nut
  remove hub
  done
pause 2026-03-02 "Dinner"
day 2026-03-05
step up "Up"
  support on stands under "frame"
  fit hub left for now "to move it"
  tighten hub-nut left
  done
measure float final
  left 0.08 mm
step again "Again"
  tighten hub-nut left
  done
pause 2026-03-06 "Rain"
step rest "The rest"
  fit hub right
`;

describe("how it was left", () => {
  const report = of(sheet);
  const line = (text: string) => sheet.split("\n").indexOf(text) + 1;

  test("the newest first, then each pause", () => {
    expect(report.pauses.map((it) => it.when)).toEqual(["Now", "2026-03-06: Rain", "2026-03-02: Dinner"]);
    expect(report.pauses.at(-1)?.line).toBe(line('pause 2026-03-02 "Dinner"'));
  });
  test("at the first pause: hanging, off on both sides, drained, away", () => {
    expect(rows(report.pauses[2])).toEqual({
      Hanging: ["on a jack, with nothing under it since"],
      Live: ["spring"],
      Off: ["left and right hub", "left and right hub nut"],
      Drained: ["left and right grease"],
      Away: ["right hub, order W-1"],
      "Made safe": ["mains (plug out)"],
    });
  });
  test("at the second: on stands, for now, tight without its pin, a reading older than the last move", () => {
    expect(rows(report.pauses[1])).toMatchObject({
      Off: ["right hub", "right hub nut"],
      "Not locked": ["left hub nut"],
      "In for now": ["left hub: to move it"],
      "Held up": ["on stands, under frame"],
    });
    expect(rows(report.pauses[1])["Not to be trusted"]).toEqual([
      `Left end float was read before left hub nut was moved or locked again (line ${sheet.split("\n").lastIndexOf("  tighten hub-nut left") + 1}).`,
    ]);
    expect(rows(report.pauses[1]).Hanging).toBeUndefined();
  });
  test("what was next is the step below the pause", () => {
    expect(report.pauses[2]?.next.map((it) => it.text)).toEqual(["Up", "Again", "The rest"]);
    expect(report.pauses[0]?.next.map((it) => it.text)).toEqual(["The rest"]);
  });
  test("each row leads to the line by which it came off", () => {
    expect(report.pauses[2]?.groups.find((it) => it.name === "Off")?.rows.map((it) => it.line)).toEqual([line("  remove hub"), line("  undo hub-nut")]);
  });
  test("texts of a sheet act nowhere", () => {
    const odd = of('sheet "<script>1</script>"\npart hub "<b>[x](y)"\nstep a "a"\n  remove hub\n  done\npause "<i>`z`"\n');
    expect(asPage(leftSections(odd))).not.toMatch(/<script>1|<b>\[|<i>/);
    expect(asMarkdown(leftSections(odd))).not.toMatch(/[^\\]<|\[x\]\(y\)/);
  });
});

test("a drum that was set down is held up until it is on again with all its nuts tight", () => {
  const drum = (rest: string) => `sheet "Winch"
part drum "Drum"
  held by nut
  mass 300 kg
fastener nut "Nut"
  qty 2
  torque 10 .. 12 N.m
  locked by nothing "x"
step off
  support drum on cradle
  undo nut
  remove drum
  done
step on
  fit drum
${rest}  done
`;
  const held = (rest: string) => rows(of(drum(rest)).pauses[0])["Held up"];
  expect(held("  tighten nut 1 to 11 N.m\n")).toEqual(["the drum on cradle"]);
  expect(held("  tighten nut to 11 N.m\n")).toBeUndefined();
});

test("a pause with nothing done since is not told twice; what was found since is", () => {
  const text = 'sheet "Hub"\npart hub "Hub"\nstep off\n  remove hub\n  done 2026-03-01\npause 2026-03-02 "Dinner"\nstep on\n  fit hub\n';
  expect(of(text).pauses.map((it) => it.asNow)).toEqual([false, true]);
  expect(asMarkdown(leftSections(of(text))).match(/^- hub/gm)).toHaveLength(1);
  expect(of(`${text}finding hub 2026-03-03\n  is worn\n`).pauses.map((it) => it.asNow)).toEqual([false, false]);
});

test("what was let out leads to the line that let it out, not to what was then found of it; what hangs or lies is called by its title", () => {
  const text = `sheet "Sump"
part sump "Sump"
part big-end "Big end assembly"
fluid oil "Sump oil"
  in sump
step out "Oil out"
  drain oil 2 l
  support big-end on cradle under "vee blocks"
  done 2026-03-01
finding oil 2026-03-02
  is metallic
`;
  const groups = of(text).pauses[0]?.groups ?? [];
  const group = (name: string) => groups.find((it) => it.name === name)?.rows.map((it) => [it.text, it.line]);
  expect(group("Drained")).toEqual([["sump oil", 7]]);
  expect(group("Held up")).toEqual([["the big end assembly on cradle, under vee blocks", 8]]);
});

test("a shaft that hung on a crane lies where it belongs once its caps are tight over it; of what is released no empty heading is drawn", () => {
  const shaft = (rest: string) => `sheet "Engine"
part crankshaft "Crankshaft"
  behind main-cap
part main-cap "Main cap"
  held by cap-nut
fastener cap-nut "Cap nut"
  qty 2
  torque 10 .. 12 N.m
  locked by nothing "x"
step off
  undo cap-nut
  remove main-cap
  remove crankshaft
  done
step on
  support crankshaft on crane under "slings"
  fit crankshaft
  fit main-cap
${rest}  done
`;
  const hanging = (rest: string) => rows(of(shaft(rest)).pauses[0]).Hanging;
  expect(hanging("")).toEqual(["the crankshaft on crane, under slings"]);
  expect(hanging("  tighten cap-nut to 11 N.m\n")).toBeUndefined();
  const drawn = (rest: string) => leftSections(of(shaft(rest))).parts.flatMap((it) => (it && it.kind === "section" ? [it.title] : []));
  expect(drawn("")).toEqual(["Now"]);
  expect(drawn("  tighten cap-nut to 11 N.m\n")).toEqual([]);
});
