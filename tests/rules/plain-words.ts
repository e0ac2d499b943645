// What is said is short and in the trade's own English: asked of whatever a test has had said anyway.
import { expect, test } from "vitest";
import type { Diagnostic } from "../../server/rules/check.ts";

/** Rules that name two threads, or another sheet's matters: they need more room, and still have an end. */
const longer: ReadonlySet<string> = new Set(["thread-unlike", "release-blocked", "other-sheet-open"]);

/** The tests of it. `said` is asked when they run; `many`: how much there is to read at least. */
export function plainWords(said: () => readonly Diagnostic[], many: number): void {
  test("there is much to read", () => expect(said().length).toBeGreaterThan(many));

  test("no message is longer than two lines of a screen", () => {
    expect(
      said()
        .filter((it) => it.message.length > (longer.has(it.rule) ? 240 : 180))
        .map((it) => `${it.rule} ${it.message.length}: ${it.message}`),
    ).toEqual([]);
  });

  test("none has the words that ring foreign", () => {
    const foreign =
      /\b(put right|made fast|hangs on (?:it|the same)|reckoned|is no (?:unit|day|condition|locking|currency|function|figure)|the most allowed|stands? (?:right )?behind|there stand)\b/i;
    expect(
      said()
        .filter((it) => foreign.test(it.message) || (it.related ?? []).some((one) => foreign.test(one.message)))
        .map((it) => `${it.rule}: ${it.message}`),
    ).toEqual([]);
  });
}
