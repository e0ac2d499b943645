// Money against the ISO 4217 list that a registry package carries (currency-codes, from the list of 2024-06-25).
import { data } from "currency-codes";
import { expect, test } from "vitest";
import { figure } from "../../server/quantities/exact.ts";
import { currencyDigits, money, moneyText } from "../../server/quantities/money.ts";

/** ISO 4217 gives these no minor unit (“N.A.”); the package says 0. */
const withoutMinorUnit = ["XAG", "XAU", "XBA", "XBB", "XBC", "XBD", "XDR", "XPD", "XPT", "XSU", "XTS", "XUA", "XXX"];

test("every currency has the decimals of the list", () => {
  expect(data.length).toBeGreaterThan(170);
  for (const { code, digits } of data) expect(currencyDigits(code), code).toBe(withoutMinorUnit.includes(code) ? undefined : digits);
});

test("no currency but those of the list, and the one that came after it", () => {
  const listed = new Set(data.map((it) => it.code));
  const letters = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"];
  const codes = letters.flatMap((a) => letters.flatMap((b) => letters.map((c) => a + b + c)));
  // XCG, the Caribbean guilder, came in 2025.
  expect(codes.filter((it) => currencyDigits(it) !== undefined && !listed.has(it))).toEqual(["XCG"]);
});

test("HUF, IQD and MGA by ISO 4217, whatever the platform's own list says", () => {
  // Intl follows another list: HUF, IQD and MGA have 2, 3 and 2 in ISO 4217.
  expect([currencyDigits("HUF"), currencyDigits("IQD"), currencyDigits("MGA")]).toEqual([2, 3, 2]);
});

test("amounts are read exactly, and too many decimals are told", () => {
  expect(money("9.40", "GBP")).toMatchObject({ kind: "money", code: "GBP" });
  expect(money("9.405", "GBP")).toEqual({ kind: "too-fine", code: "GBP", digits: 2, written: 3 });
  expect(money("100.5", "JPY")).toMatchObject({ kind: "too-fine", digits: 0 });
  expect(money("1.234", "KWD")).toMatchObject({ kind: "money" });
  expect(money("9.40", "gbp")).toEqual({ kind: "unknown-currency", code: "gbp" });
  expect(money("9.40", "XXX")).toEqual({ kind: "unknown-currency", code: "XXX" });
  expect(money("1/2", "GBP")).toEqual({ kind: "unreadable" });
  expect(money("9,40", "GBP")).toEqual({ kind: "unreadable" });
});

test("is written with the currency's decimals, half to even", () => {
  expect(moneyText({ amount: figure("9.4"), code: "GBP" })).toBe("9.40 GBP");
  expect(moneyText({ amount: figure("2.665"), code: "GBP" })).toBe("2.66 GBP");
  expect(moneyText({ amount: figure("2.675"), code: "GBP" })).toBe("2.68 GBP");
  expect(moneyText({ amount: figure("1234.5"), code: "JPY" })).toBe("1234 JPY");
  expect(moneyText({ amount: figure("4.35").mul(3), code: "GBP" })).toBe("13.05 GBP");
});
