// Money and packs: how many decimals a currency has, an amount rounded to them, packs for a need. `decimals of JPY`, `round 2.665 GBP`, `need 10 in packs of 5`.
import { exact, ratio, decimalText } from "../../quantities/exact.ts";
import { currencyDigits, moneySource, roundedMoney } from "../../quantities/money.ts";
import { type Answer, known, notKnown, value } from "./answer.ts";
import type { Question } from "./question.ts";

const table = { source: moneySource, mark: "table" } as const;

export function moneyFigure(q: Question): Answer | undefined {
  // Each of these shapes takes in the whole question.
  const query = q.left;
  q.left = "";
  const digits = /^(?:(?:decimals?|digits?|minor units?|currency|decimals? places?)(?: of| for)? )?([A-Za-z]{3})(?: (?:digits|decimals))?$/i.exec(query);
  if (digits !== null) return digitsAnswer((digits[1] as string).toUpperCase(), query);
  const round = /^round ([A-Z]{3} )?([\d.]+)(?: ?([A-Z]{3}))?$/i.exec(query);
  if (round !== null) return roundAnswer(round[2] as string, (round[3] ?? round[1] ?? "").trim().toUpperCase());
  const packs = /^need (\d{1,9}),?(?: in| of|,)? ?packs? (?:of )?(\d{1,9})$/i.exec(query);
  if (packs !== null) return packsAnswer(BigInt(packs[1] as string), BigInt(packs[2] as string));
  const times = /^(\d{1,6}) (?:packs?|pieces?|x) ?(?:at|@) ?([\d.]+) ?([A-Z]{3})?$/i.exec(query);
  if (times !== null) return timesAnswer(times[1] as string, times[2] as string, times[3]?.toUpperCase());
  return undefined;
}

function digitsAnswer(code: string, query: string): Answer | undefined {
  const digits = currencyDigits(code);
  if (digits !== undefined)
    return known(
      `${code} has ${digits === 0 ? "no decimals" : digits === 1 ? "1 decimal" : `${digits} decimals`}.`,
      [value("decimals", ratio(digits))],
      [table],
    );
  // A word of three letters may be anything; asked for as a currency it is answered.
  if (!/^(?:decimal|digit|minor|currency)/i.test(query) && !/^X/.test(code)) return undefined;
  return notKnown(`${code} isn't a currency with decimals in ISO 4217.`, "decimals of GBP");
}

function roundAnswer(text: string, code: string): Answer {
  const amount = exact(text);
  const digits = currencyDigits(code);
  if (amount === undefined || digits === undefined) return notKnown("Say an amount and its currency.", "round 2.665 GBP");
  const rounded = roundedMoney({ amount, code });
  const written = decimalText(rounded.amount, digits);
  return known(`${text} ${code} is ${written} ${code}, halves to the even figure.`, [{ name: "rounded", value: written, unit: code }], [table]);
}

function packsAnswer(need: bigint, pack: bigint): Answer {
  if (pack === 0n) return notKnown("A pack holds more than nothing.", "need 10 in packs of 5");
  const packs = (need + pack - 1n) / pack;
  const spare = packs * pack - need;
  return known(
    `${packs} ${packs === 1n ? "pack" : "packs"} of ${pack}: ${packs * pack} pieces, ${spare} to spare.`,
    [value("packs", ratio(packs)), value("pieces", ratio(packs * pack)), value("spare", ratio(spare))],
    [{ source: "rounded up to whole packs", mark: "computed" }],
  );
}

function timesAnswer(count: string, price: string, code: string | undefined): Answer {
  if (Number(count) === 0) return notKnown("Say how many, and the price with its currency.", "3 packs at 4.35 GBP");
  const each = exact(price);
  const digits = code === undefined ? 2 : currencyDigits(code);
  if (each === undefined || digits === undefined) return notKnown("Say how many, and the price with its currency.", "3 packs at 4.35 GBP");
  const whole = decimalText(each.mul(BigInt(count)), digits);
  return known(
    `${count} at ${price} make ${whole}${code === undefined ? "" : ` ${code}`}.`,
    [{ name: "sum", value: whole, unit: code ?? "" }],
    [{ source: "exact decimals", mark: "computed" }],
  );
}
