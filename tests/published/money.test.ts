// Money: decimals of ISO 4217 (list one, SIX) and half-even rounding, against published figures and where binary floats go wrong.
import { expect, test } from "vitest";
import { decimalText, figure } from "../../server/quantities/exact.ts";
import { currencyDigits, moneyText } from "../../server/quantities/money.ts";

test.each([
  [0, "JPY KRW CLP ISK VND UGX"],
  [2, "USD EUR GBP AUD CHF HUF MGA MRU"],
  [3, "KWD BHD OMR JOD TND IQD LYD"],
  [4, "CLF UYW"],
  [undefined, "XXX XTS"],
])("%s decimals: %s", (digits, codes) => {
  for (const code of codes.split(" ")) expect(currencyDigits(code), code).toBe(digits);
});

test("half to even: 2.665 is 2.66, 1234.5 JPY is 1234; 3 packs at 4.35 are 13.05", () => {
  expect(decimalText(figure("2.665"), 2)).toBe("2.66");
  expect(moneyText({ amount: figure("1234.5"), code: "JPY" })).toBe("1234 JPY");
  expect(moneyText({ amount: figure("4.35").mul(3), code: "GBP" })).toBe("13.05 GBP");
});

test("1.005 is a tie and not below one, as it is in binary: half to even keeps 1.00 for the right reason, 1.015 shows it", () => {
  expect(Number(1.005).toFixed(2)).toBe("1.00");
  expect(Number(1.015).toFixed(2)).toBe("1.01");
  expect(decimalText(figure("1.015"), 2)).toBe("1.02");
  expect(decimalText(figure("1.0050000001"), 2)).toBe("1.01");
});
