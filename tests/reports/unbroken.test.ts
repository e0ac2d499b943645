// What a page keeps together at the end of a line.
import { expect, test } from "vitest";
import { html } from "../../server/reports/draw/html.ts";
import { unbroken } from "../../server/reports/draw/unbroken.ts";

const kept = (text: string) => [...html`${unbroken(text)}`.text.matchAll(/<span class="unbroken">([^<]*)<\/span>/g)].map(([, it]) => it);

test.each([
  ["read on 2026-04-11, again on 2026-05-02", ["2026-04-11", "2026-05-02"]],
  ["uncertainty \u00b1 0.015 mm", ["\u00b1 0.015 mm"]],
  ["new split pin 5/32 x 1-1/4 in.", ["5/32 x 1-1/4 in"]],
  ["set 0.10 .. 0.18 mm; worn max 0.35 mm", ["0.10 .. 0.18 mm", "0.35 mm"]],
  ["tightened to 47.5 lbf.ft, for 1,200.00 GBP", ["47.5 lbf.ft", "1,200.00 GBP"]],
  ["4 d 7 h to spare", ["4 d", "7 h"]],
])("%s", (text, whole) => expect(kept(text)).toEqual(whole));

test("a count and a number inside a name are no figures", () => expect(kept("2 of Rear hub seal, order SH-2214, M10x1.25")).toEqual([]));

test("nothing of the text is lost, and it is escaped", () => {
  const text = "a <b> 3 mm & 4 x 5 in, 2026-01-01.";
  expect(html`${unbroken(text)}`.text.replace(/<[^>]*>/g, "").replace(/&#(\d+);/g, (_, code: string) => String.fromCharCode(Number(code)))).toBe(text);
});
