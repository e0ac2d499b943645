// An amount as the order tells it: its figure as a decimal string, and its unit.
import { plainText } from "../../quantities/exact.ts";
import { type Amount, figureOf } from "../../supply/items.ts";

export function figureText(amount: Amount): string {
  return plainText(figureOf(amount));
}

export function unitText(amount: Amount): string | null {
  return amount.unit?.spelling ?? null;
}
