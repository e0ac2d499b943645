// The columns and rows of a program as they are written one after the other, and what a sum of money is in it: coins of the currency that all is reckoned in.
import { type Exact, ratio } from "../quantities/exact.ts";
import { currencyDigits } from "../quantities/money.ts";
import type { Column, Row } from "./solver.ts";

/** A row that is being written, or a part of one: columns, each by its factor. */
export type Terms = Row["terms"];

export interface OrderProgram {
  readonly columns: Column[];
  readonly rows: Row[];
  /** All sums of money so far are whole numbers of coins. */
  isWhole(): boolean;
  /** A sum in coins. */
  cost(amount: Exact, code: string): number;
  /** The number of a new column: what one of it costs, and how many there may be. */
  column(money: number, high: number, limits?: { readonly whole?: boolean; readonly low?: number }): number;
  atMost(high: number, ...terms: Terms): void;
  atLeast(low: number, ...terms: Terms): void;
}

/** `worth`: what one of a currency counts for. */
export function newProgram(currency: string | undefined, worth: (code: string) => Exact): OrderProgram {
  const columns: Column[] = [];
  const rows: Row[] = [];
  const coins = 10 ** (currencyDigits(currency ?? "") ?? 2);
  let isWhole = true;
  return {
    columns,
    rows,
    isWhole: () => isWhole,
    cost(amount, code) {
      const value = amount.mul(worth(code)).mul(coins);
      if (value.d !== 1n) isWhole = false;
      return numberOf(value);
    },
    column: (money, high, { whole = true, low = 0 } = {}) => columns.push({ cost: money, low, high, whole }) - 1,
    atMost: (high, ...terms) => rows.push({ low: Number.NEGATIVE_INFINITY, high, terms }),
    atLeast: (low, ...terms) => rows.push({ low, high: Number.POSITIVE_INFINITY, terms }),
  };
}

/** The smallest coins in one of a currency. */
export function coinsOf(code: string): Exact {
  return ratio(10n ** BigInt(currencyDigits(code) ?? 2));
}

export function numberOf(value: Exact): number {
  return (value.s < 0n ? -1 : 1) * (Number(value.n) / Number(value.d));
}
