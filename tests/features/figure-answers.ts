// Asks a question, and takes one value out of the answer by its name and unit.
import { expect } from "vitest";
import { type Known, figure } from "../../server/features/figure.ts";

export function known(query: string): Known {
  const answer = figure(query);
  if (!answer.known) return expect.fail(`${query}: ${answer.line}`);
  return answer;
}

/** The first value of that name, in that unit where one is said. */
export function figureOf(query: string, name: string, unit?: string): string {
  const found = known(query).values.find((it) => it.name === name && (unit === undefined || it.unit === unit));
  return found?.value ?? expect.fail(`${query} has no ${name} ${unit ?? ""}: ${JSON.stringify(known(query).values)}`);
}

export function numberOf(query: string, name: string, unit?: string): number {
  const text = figureOf(query, name, unit);
  const value = Number(text);
  expect(Number.isFinite(value), `${query}: ${text}`).toBe(true);
  return value;
}
