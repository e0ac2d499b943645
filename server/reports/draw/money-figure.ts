// The figure of money as it is shown: all the decimals of its currency, the code apart.
import { decimalText } from "../../quantities/exact.ts";
import { type Money, currencyDigits } from "../../quantities/money.ts";

/** Rounded half to even; two decimals where ISO 4217 does not know the code. */
export function moneyFigure(it: Money): string {
  return decimalText(it.amount, currencyDigits(it.code) ?? 2);
}
