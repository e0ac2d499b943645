// What a page says once for all rows that it holds of, names by titles, and draws of a limit of spread: read out of the pages of samples and small sheets.
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { reports } from "../../server/reports/all.ts";
import { planSections } from "../../server/reports/plan/sections.ts";
import { filesAround } from "../reread.ts";
import { planOfText } from "./plan-sheets.ts";
import { asPage } from "../in-one-go.ts";

async function pageOf(report: string, sample: string): Promise<string> {
  const path = fileURLToPath(new URL(`../../samples/${sample}.jobsheet`, import.meta.url));
  const made = (await reports
    .find((it) => it.name === report)
    ?.make(filesAround(path, readFileSync(path, "utf8")), [basename(path)], {}, { today: "2026-06-01", width: 100 })) as { draw(format: string): string };
  return made.draw("html");
}

const times = (page: string, words: string) => page.split(words).length - 1;

describe("the way back of the stationary engine", () => {
  test("names the step before which a pin is measured by its title, and what the pin may measure once", async () => {
    const page = (await pageOf("way-back", "stationary-engine/bottom-end")).replace(/<pre>[\s\S]*?<\/pre>/u, "");
    expect(page).toContain("Measure before “Shells, shaft, caps”: Crank pin diameter");
    expect(page).not.toContain("shaft-in");
    expect(times(page.replace(/<[^>]*>/g, ""), "worn min 2.4900 in, new 2.4980 .. 2.4990 in, ovality max 0.0020 in, taper max 0.0020 in")).toBe(1);
    // Both places as wide as the longer, of 13 letters.
    expect([times(page, '<span class="f c13">wheel-side</span>'), times(page, '<span class="f c13">governor-side</span>')]).toEqual([1, 1]);
  });
});

test("in a record what one person did all of is told once", async () => {
  const page = await pageOf("release", "steering-box/steering-box");
  const done = page.slice(page.indexOf(">What was done"), page.indexOf(">Fitted new")).replace(/<[^>]*>/g, "");
  expect([times(done, "What was done, by M. Dragomir"), times(done, "by M. Dragomir")]).toEqual([1, 1]);
});

describe("a parcel of the plan", () => {
  const sheet = (second: string) => `sheet "Hub"
supplier near "Near"
  lead 2 d
offer cap-a from near
  price 1.00 GBP each
offer cap-b from near
  price 1.00 GBP each
part cap-a "Grease cap"
part cap-b "${second}"
step on "On"
  fit cap-a new
  fit cap-b new
  takes 1 h
`;
  const parcels = (second: string) => asPage(planSections(planOfText(sheet(second)))).split("<h2>Parcels")[1] ?? "";
  test("tells its things by their titles", () =>
    expect([times(parcels("Dust cap"), "1 × grease cap<"), times(parcels("Dust cap"), "1 × dust cap<")]).toEqual([1, 1]));
  test("and by their names too where two have one title", () =>
    expect([times(parcels("Grease cap"), "grease cap (cap-a)<"), times(parcels("Grease cap"), "grease cap (cap-b)<")]).toEqual([1, 1]));
});

test("a limit of spread is a rod as long as that: 0.030 in is half as long again as from 0.00 to 0.02 on its axis, and 0.048 in lies past its end", async () => {
  const page = await pageOf("readings", "stationary-engine/bottom-end");
  const picture = /<svg class="readings"[^>]*aria-label="Flywheel rim[\s\S]*?<\/svg>/u.exec(page)?.[0] ?? "";
  const [, from, to] = /<text class="faint" x="0" y="\d+">spread<\/text><line class="line" x1="([\d.]+)" y1="\d+" x2="([\d.]+)"/u.exec(picture) ?? [];
  const tick = (figure: string) => Number(new RegExp(`x="([\\d.]+)" y="\\d+" text-anchor="middle">${figure}<`, "u").exec(picture)?.[1]);
  const wide = Number(to) - Number(from);
  expect(Math.abs(wide / (tick("0.02") - tick("0.00")) - 1.5)).toBeLessThan(0.01);
  expect(Number(from)).toBe(tick("0.00"));
  const spots = [...picture.matchAll(/<line class="line" x1="([\d.]+)" y1="\d+" x2="\1" y2="\d+"\/>/gu)].map(([, x]) => Number(x));
  expect(Math.max(...spots)).toBeGreaterThan(Number(to));
  expect(picture).toContain("max 0.030 in");
});
