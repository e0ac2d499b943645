// A currency code that ISO 4217 has not got, or more decimals than the currency has.
import type { Money, Name } from "../../../grammar/tree.ts";
import { type Where, where } from "../../model/where.ts";
import { trimmed } from "../../quantities/exact.ts";
import { currencyDigits, money as readMoney } from "../../quantities/money.ts";
import { type EntryContext, type EntryRule, rewrite } from "../rule.ts";
import { counted } from "../wording.ts";
import { figuresOf } from "../units/shared/figures.ts";

export const rule: EntryRule = {
  id: "currency-unknown",
  group: "Getting the parts",
  severity: "error",
  safety: false,
  title: "No such currency, or more decimals than it has",
  why: "Money is a figure followed by its ISO 4217 code, in capitals: 9.40 GBP. A price in a currency that can't be recognised is left out of every sum. A third decimal of a penny is a slip, or a rate.",
  wrong: `supplier holt "Holt and Marling Fasteners"
  currency gbp
#          ^^^ error currency-unknown (fix)
`,
  right: `supplier holt "Holt and Marling Fasteners"
  currency GBP
  freight 6.50 GBP
`,
  fixed: `supplier holt "Holt and Marling Fasteners"
  currency GBP
`,
  scope: "entry",
  check(context) {
    const { file, entry } = context;
    const { money, codes } = figuresOf(entry);
    for (const { row, code } of codes) ofCode(context, code, where(file, entry, row, code.at));
    for (const { row, money: it, rate } of money) {
      const { currency } = it;
      if (currency === undefined) continue;
      if (currencyDigits(currency.text) === undefined) ofCode(context, currency, where(file, entry, row, currency.at));
      else if (!rate) ofFigure(context, it, currency, where(file, entry, row, it.at));
    }
  },
};

function ofCode({ report }: EntryContext, code: Name, at: Where): void {
  if (currencyDigits(code.text) !== undefined) return;
  const capitals = code.text.toUpperCase();
  const near = currencyDigits(capitals) === undefined ? undefined : capitals;
  report({
    where: at,
    severity: "error",
    message: `\`${code.text}\` isn't an ISO 4217 currency. ${near === undefined ? "Write its three letters, such as GBP, EUR or USD." : `Write ${near}, in capitals.`}`,
    fixes: near === undefined ? [] : [rewrite(`Write ${near}`, at, near)],
  });
}

function ofFigure({ report }: EntryContext, { figure }: Money, code: Name, at: Where): void {
  if (figure.comma) return;
  const read = readMoney(figure.text, code.text);
  if (read.kind === "too-fine") {
    const [whole = "", decimals = ""] = figure.text.split(".");
    const short = decimals.slice(0, read.digits);
    const same = trimmed(figure.text) === trimmed(short === "" ? whole : `${whole}.${short}`);
    const text = short === "" ? whole : `${whole}.${short}`;
    report({
      where: at,
      severity: "error",
      message: `${figure.text} has ${counted(read.written, "decimal")}, and ${code.text} has ${read.digits === 0 ? "none" : read.digits}. Write what is paid${same ? `: ${text} ${code.text}` : ""}.`,
      fixes: same ? [rewrite(`Write ${text} ${code.text}`, { ...at, at: figure.at }, text)] : [],
    });
  } else if (read.kind === "unreadable") {
    report({ where: at, severity: "error", message: `${figure.text} isn't an amount of money. Write it with a point: 9.40 ${code.text}.` });
  }
}
