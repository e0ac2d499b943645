// Money: the currencies of ISO 4217 with their decimals, amounts read, rounded and written.
// Invariant: exact; an amount never passes through a float, and rounding is half to even and only where it is asked for.
import { type Exact, decimalText, exact, roundedTo } from "./exact.ts";
import { placesWritten } from "./quantity.ts";

export interface Money {
  readonly amount: Exact;
  /** ISO 4217, in capitals. */
  readonly code: string;
}

/** What a price as written may turn out to be. */
export type MoneyRead =
  | ({ readonly kind: "money" } & Money)
  | { readonly kind: "unknown-currency"; readonly code: string }
  /** More decimals than the currency has. */
  | { readonly kind: "too-fine"; readonly code: string; readonly digits: number; readonly written: number }
  | { readonly kind: "unreadable" };

/** Where the table comes from, for what is shown. */
export const moneySource = "ISO 4217 list one, as published 2024-06-25; XCG (2025) from memory";

const byDigits: readonly (readonly [digits: number, codes: string])[] = [
  [0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"],
  [
    2,
    "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG",
  ],
  [3, "BHD IQD JOD KWD LYD OMR TND"],
  [4, "CLF UYW"],
];

const digitsOf = new Map<string, number>();
for (const [digits, codes] of byDigits) for (const code of codes.split(" ")) digitsOf.set(code, digits);

/** Decimals of a currency by ISO 4217. Undefined for what is none, and for the codes that have no minor unit (XXX, XTS, XAU …). */
export function currencyDigits(code: string): number | undefined {
  return digitsOf.get(code);
}

/** Reads an amount. Money is a decimal: a fraction is unreadable. Zeros beyond the currency's decimals are too fine like any other figure there. */
export function money(figureText: string, code: string): MoneyRead {
  const digits = digitsOf.get(code);
  if (digits === undefined) return { kind: "unknown-currency", code };
  const written = placesWritten(figureText);
  const amount = written < 0 ? undefined : exact(figureText);
  if (amount === undefined) return { kind: "unreadable" };
  if (written > digits) return { kind: "too-fine", code, digits, written };
  return { kind: "money", amount, code };
}

/** Rounded half to even to the currency's decimals; 2 where the currency is unknown. */
export function roundedMoney(it: Money): Money {
  return { amount: roundedTo(it.amount, digitsOf.get(it.code) ?? 2), code: it.code };
}

/** `9.40 GBP`, rounded half to even to the currency's decimals. */
export function moneyText(it: Money): string {
  return `${decimalText(it.amount, digitsOf.get(it.code) ?? 2)} ${it.code}`;
}
