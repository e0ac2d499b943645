// What the words of a test or of a look say of themselves: that it went badly, and that all is well in words that sound alike.
// The words are made up, as somebody at a bench might write them; which of them tell of a fault is common practice.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { isNoTest, isOnlyALook, saysWhere } from "../../server/rules/test-words.ts";

describe("went badly", () => {
  test.each([
    "Bearing ran hot half an hour, dry",
    "Ran hot half an hour",
    "Hub ran hot for ten minutes, no leak",
    "Ran hot for ten minutes, then seized, dry",
    "Hoisted: the band let it slip",
    "The band slipped at half load",
    "Held, then slipped two inches",
    "Brake slips when hot",
    "Four wagons behind: ran on past the board",
    "Ground two sacks, still growls under load",
    "Ground one sack, a cog let go",
    "Not ground yet",
    "Tail bearing smoked",
    "Stopped, then started again by itself",
    "Screams again when warm",
    "Stopped once in three",
    "Rope still climbs a little",
    "When the snow comes",
    "Clutch slipped on the hill",
    "The load dropped an inch",
    "Load came down by itself",
    "The ram sank a little",
    "It rolled back on the hill",
    "Hook ran back a turn",
    "The pawl jumped a tooth",
    "The pawl missed two teeth",
    "Brake grabs on the left",
    "Brakes snatched",
    "Pedal went to the floor",
    "Pedal goes soft",
    "Spongy pedal",
    "Steering binds at full lock",
    "Steering stuck to the left",
    "Vibrated badly above 30",
    "Shook badly",
    "Bearing too hot to touch",
    "Knocked under load",
    "Knocking at idle",
    "Rumble from the left",
    "Grinding noise",
    "Smoke from the drum",
    "Lost a bolt",
    "A nut worked loose",
    "Bolt came out",
    "Snapped",
    "Shaft cracked",
    "Hook bent",
    "Rope jumped the sheave",
    "Chain came off",
    "Brake did not hold on the hill",
    "Would not stop within 20 yards",
    "Only one brake works",
    "No brakes on the left",
    "Oil leak at the flange",
    "Leaking at the rear",
    "Lost pressure",
    "Nearly went into the ditch",
    "Not right",
    "Not good",
    "Poor",
    "Bad",
    "Fail",
    "FAILED",
    "Rubs on the arch",
    "Tyre rubs",
    "Play still there",
    "Wobble at the front",
    "Wheel fell off",
    "Pulls left",
    "Brake dragged",
    "Dragging on the right",
    "Hub got hot",
  ])("%s", (text) => expect(isNoTest(text)).toBe(true));
});

describe("all is well", () => {
  test.each([
    "Ran hot half an hour, dry",
    "Ran hot for 20 minutes, no leaks",
    "Hoisted 500 kg: the band held, no slip",
    "Never slipped",
    "The limiter slipped at 12 N.m, as set",
    "Clutch slips at 40 lbf.ft as it should",
    "Pawl slipped over each tooth and dropped in",
    "Brake let the load down gently",
    "Slipped into every gear",
    "The load came down when lowered, stopped dead",
    "Dropped into each tooth",
    "Rolled back and forth, quiet",
    "Held on the hill, did not roll back",
    "Steering free from lock to lock, nothing binds",
    "No knock, no rumble",
    "Hub cool after ten miles",
    "Not hot",
    "Warm, not hot",
    "Pedal firm, held a minute",
    "Both brakes lock on gravel",
    "All four wheels locked up together from 20 mph",
    "The horn was stuck before; steers straight",
    "Bad road, ran straight",
    "No bad noises",
    "Poor weather, brakes held",
    "Failed to find any play",
    "Oil leak at the flange gone",
    "Not a drop",
    "Runs quiet; old knock gone",
    "Smoke at first, then clear",
    "Bolt shackle 2 t, held ten minutes",
    "Chain ran through all sheaves",
    "Stopped in 8 yards, rolled away straight",
    "Spring let go and returned",
    "Dropped the load on the brake three times: held",
    "Lowered and caught on the pawl at every tooth",
    "It stuck fast at the stop as it must",
    "Rope paid out, no kink",
    "Play 0.1 mm, was 1 mm",
    "Emergency stop: pulled up square",
    "Slipped the clutch up the ramp, held",
    "Fell to 40 psi hot, which is right",
    "An hour at 540 in the yard: clutch slipped once in a lump and held",
    "Belt slipped on by hand, ran true",
    "Load dropped a foot and was caught by the pawl",
    "Pin came out for a last look, back in",
    "A knock from the shed, none from the box",
    "Both ran back to back",
    "Ran on past dusk, two hours",
    "Bearings smoked a little, then cool",
    "When the drum was full it stopped by itself",
    "Held twice in ten minutes on the bank",
    "Tried three times, stopped three times",
    "The old van climbs the hill in top",
    "Ran on to the stop and no further",
    "Knocked off after six miles, all quiet",
    "Not too hot to hold",
    "Leak at the union nipped up: dry",
    "Nothing badly worn to be felt",
  ])("%s", (text) => expect(isNoTest(text)).toBe(false));
});

// Lines of several hands that had not seen what is taken for a fault: of a test that went badly, and of one that went well in words that sound alike. The reader of each line said which
// it is; `untold` and `taken-wrongly` are what this reads wrongly, so that whoever mends one is told to move it.
describe("in many hands", () => {
  const lines = (name: string) =>
    readFileSync(new URL(`test-words/${name}.txt`, import.meta.url), "utf8")
      .trim()
      .split("\n");

  test("what tells of a fault is told, but for what is known to be missed", () => {
    expect(lines("told").filter((it) => !isNoTest(it))).toEqual([]);
    expect(lines("untold").filter((it) => isNoTest(it))).toEqual([]);
  });

  test("what went well is taken so, but for what is known to be taken wrongly", () => {
    expect(lines("well").filter((it) => isNoTest(it))).toEqual([]);
    expect(lines("taken-wrongly").filter((it) => !isNoTest(it))).toEqual([]);
  });

  test("of two hundred lines that went well fewer than one is taken for a fault", () => {
    expect(lines("taken-wrongly").length).toBeLessThan(lines("well").length / 200);
  });

  test("the words that say so are quoted, and only those", () => {
    expect(saysWhere("Ten miles, brakes even, a light knock at tick-over; hubs cool")).toBe("a light knock at tick-over");
    expect(saysWhere("Ten miles, no knock; left hub hot")).toBe("left hub hot");
    expect(saysWhere("Ten miles, no knock; hubs cool")).toBeUndefined();
  });

  test("a text that was made to be slow is read", () => {
    const words = [
      "he ",
      "has ",
      "with some ",
      "saw ",
      "pressure ",
      "a bit ",
      "is still ",
      "too ",
      "needs to be ",
      "not quite ",
      "knock",
      "it ",
      "and then a ",
    ];
    for (const word of words) {
      const text = word.repeat(Math.ceil(3900 / word.length));
      expect(typeof isNoTest(text)).toBe("boolean");
      expect(typeof isOnlyALook(text)).toBe("boolean");
    }
  });
});
