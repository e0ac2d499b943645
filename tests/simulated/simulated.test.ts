// A machine simulated, as the judge of the gate: what happened to it is known by construction, the sheet is written as a practitioner would, and the gate must agree.
//
// SPLITPIN_STORIES=10000 goes deeper; SPLITPIN_SEED=n begins elsewhere; SPLITPIN_KIND=name [SPLITPIN_SEED=n] prints one story and what was said.
import { describe, expect, test } from "vitest";
import { thinned, times } from "../sampled.ts";
import { disagrees, shown } from "./compare.ts";
import { ask } from "./gate.ts";
import { judge, told as toldFaults } from "./judge.ts";
import { kinds, tell } from "./kinds.ts";
import { known } from "./known.ts";
import { write } from "./sheet.ts";
import { shrink } from "./shrink.ts";
import { speakable } from "./speakable.ts";

const from = Number(process.env.SPLITPIN_SEED ?? 1);
const asked = kinds.filter((it) => process.env.SPLITPIN_KIND === undefined || it.name === process.env.SPLITPIN_KIND);
const stories = Number(process.env.SPLITPIN_STORIES ?? asked.length);
/** A known kind may be right in most of its stories: so many are tried before it is called right. */
const triesOfTheKnown = 12;

const silent = asked.filter((it) => it.needs !== undefined && !speakable(it.needs));
const spoken = asked.filter((it) => !silent.includes(it));

if (process.env.SPLITPIN_KIND !== undefined) {
  test("one kind, printed", () => {
    for (const kind of asked) {
      const it = tell(kind, from);
      const page = write(it.story);
      console.log(`machine: ${toldFaults(judge(it.story)) || "sound"}`);
      console.log(shown(it, disagrees(it) ?? { what: "agreed", words: ask(page.text).words, page }));
    }
    expect(asked.length).toBe(1);
  });
}

describe("the model", () => {
  test("has at least sixty kinds of mistakes and thirty that mean no harm, none twice", () => {
    expect(kinds.filter((it) => it.gate !== "released").length).toBeGreaterThanOrEqual(60);
    expect(kinds.filter((it) => it.gate === "released").length).toBeGreaterThanOrEqual(30);
    expect(new Set(kinds.map((it) => it.name)).size).toBe(kinds.length);
    expect(Object.keys(known).filter((name) => !kinds.some((it) => it.name === name))).toEqual([]);
  });

  test("knows of each kind by the machine alone whether it is sound", () => {
    const wrong: string[] = [];
    for (const kind of asked) {
      for (let seed = from; seed < from + times({ plain: 1, run: 4, full: 4 }); seed++) {
        const it = tell(kind, seed);
        const faults = judge(it.story);
        const sound = faults.length === 0 || (kind.mayWarn === true && kind.gate === "released");
        if (sound !== (kind.gate === "released")) wrong.push(`${kind.name} ${seed} on ${it.on}: ${toldFaults(faults) || "sound"}`);
      }
    }
    expect(wrong).toEqual([]);
  });
});

describe(`the gate agrees with the machine (seed ${from}, ${Math.max(stories, spoken.length)} stories)`, () => {
  if (silent.length > 0) console.log(`Not yet speakable: ${silent.map((it) => `${it.name} (${it.needs})`).join(", ")}`);
  const rounds = Math.max(1, Math.ceil(stories / asked.length));

  for (const kind of thinned(spoken, process.env.SPLITPIN_KIND === undefined ? 4 : 1)) {
    test(kind.name, () => {
      const wrong = [];
      for (let seed = from; seed < from + (kind.name in known ? Math.max(rounds, triesOfTheKnown) : rounds); seed++) {
        const it = tell(kind, seed);
        if (disagrees(it) === undefined) continue;
        wrong.push(it);
        break;
      }
      const first = wrong[0];
      if (kind.name in known) {
        expect(first !== undefined, `${kind.name} is right in all its stories: take it out of known.ts`).toBe(true);
        return;
      }
      if (first === undefined) return;
      const small = shrink(first);
      const found = disagrees(small);
      expect.fail(found === undefined ? kind.name : shown(small, found));
    });
  }
});
