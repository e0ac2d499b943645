// What is needed and what is not, one case at a time: each answer follows from the lines and is worked out by hand.
import { describe, expect, test } from "vitest";
import { filesFrom, orderOf, rowsOf } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

/** The item and the number needed. */
function needs(text: string): string[] {
  return orderOf(text).lines.map((row) => `${row.item}: ${row.need === null ? "?" : row.unit === null ? row.need : `${row.need} ${row.unit}`}`);
}

const nut = `places side near, far
fastener nut "Axle nut, slotted"
  each side 2
  locked by split pin 3.2 x 25 mm
  critical "a wheel"
`;

describe("a seal at each end, renewed with what has no place", () => {
  const seals = (more: string) => `places end front, rear
part box "Box"
part seal "Seal"
  each end
${more}  renew with box
step a "Off"
  remove box
  remove seal front
  done
`;
  test("both lie behind it: both are bared, and the other is needed before anybody has touched it", () => {
    expect(needs(seals("  behind box\n"))).toEqual(["seal: 2"]);
  });
  test("nothing says that they lie behind it: the one that the sheet takes off", () => {
    expect(needs(seals(""))).toEqual(["seal: 1"]);
  });
});

describe("one of several is missing, and those that were there are to be renewed", () => {
  const balls = (more: string) => `part ball "Ball"\n  qty 28\n${more}`;
  const missing = "finding ball 1\n  is missing\n";
  test("as many as belong there, whichever way it is said", () => {
    expect(needs(balls(`${missing}finding ball\n  is pitted\n  decision renew\n`))).toEqual(["ball: 28"]);
    expect(needs(balls(`${missing}finding ball 27\n  is pitted\n  decision renew\n`))).toEqual(["ball: 28"]);
    expect(needs(balls("finding ball\n  is pitted\n  decision renew\n"))).toEqual(["ball: 28"]);
  });
  test("a new one in the missing one's place, and the others pitted later", () => {
    expect(needs(balls(`${missing}step a\n  fit ball 1 new\n  done\nfinding ball 27\n  is pitted\n  decision renew\n`))).toEqual(["ball: 27"]);
  });
});

describe("locking that is used once", () => {
  test("undone, or found unlocked, or both: once", () => {
    expect(needs(`${nut}step a "A"\n  undo nut near\n  done\n`)).toEqual(["split pin 3.2 x 25 mm: 2"]);
    expect(needs(`${nut}finding nut 1 near\n  is unlocked\n  decision reuse\n`)).toEqual(["split pin 3.2 x 25 mm: 1"]);
    expect(needs(`${nut}finding nut 1 near\n  is unlocked\n  decision reuse\nstep a "A"\n  undo nut\n  done\n`)).toEqual(["split pin 3.2 x 25 mm: 4"]);
    expect(needs(`${nut}step a "A"\n  undo nut near\n  done\nfinding nut 1 near\n  is undrilled\n  decision reuse\n`)).toEqual(["split pin 3.2 x 25 mm: 2"]);
    expect(needs(`${nut}finding nut 1 near\n  is unlocked\nfinding nut 1 near\n  is undrilled\n`)).toEqual(["split pin 3.2 x 25 mm: 2"]);
    expect(needs(`${nut}step a "A"\n  slacken nut far\n  done\n`)).toEqual(["split pin 3.2 x 25 mm: 2"]);
  });
  test("locked again with new it is no longer needed, and opened again it is", () => {
    const back = `${nut}step a "A"\n  undo nut near\n  tighten nut near\n  lock nut near new\n  done\n`;
    expect(needs(back)).toEqual([]);
    expect(needs(`${back}step b "B"\n  undo nut near\n  done\n`)).toEqual(["split pin 3.2 x 25 mm: 2"]);
    expect(needs(`${nut}step a "A"\n  undo nut near\n  tighten nut near\n  lock nut near\n  done\n`)).toEqual(["split pin 3.2 x 25 mm: 2"]);
  });
  test("planned work counts, each opening once", () => {
    expect(needs(`${nut}step a "A"\n  undo nut near\n`)).toEqual(["split pin 3.2 x 25 mm: 2"]);
    expect(needs(`${nut}step a "A"\n  undo nut near\n  tighten nut near\n  lock nut near new\n`)).toEqual(["split pin 3.2 x 25 mm: 2"]);
    expect(needs(`${nut}step a "A"\n  undo nut near\n  done\nstep b "B"\n  lock nut near new\n`)).toEqual(["split pin 3.2 x 25 mm: 2"]);
    expect(needs(`${nut}step a "A"\n  undo nut near\n  lock nut near new\n  undo nut near\n  lock nut near new\n`)).toEqual(["split pin 3.2 x 25 mm: 4"]);
  });
  test("locked with another kind, it is the other kind that is bought", () => {
    expect(needs(`${nut}step a "A"\n  undo nut near\n  done\nstep b "B"\n  lock nut near with new lock wire 1 mm x 200 mm\n`)).toEqual([
      "lock wire 1 mm: 400 mm",
    ]);
  });
  test("staking is never bought; what goes back is bought only where it was found missing", () => {
    const other = (locking: string) => `fastener pin "Pin"\n  qty 2\n  locked by ${locking}\n  critical "the lever"\nstep a "A"\n  undo pin\n  done\n`;
    expect(needs(other("staking"))).toEqual([]);
    expect(needs(other("circlip 20 mm"))).toEqual([]);
    expect(needs(`${other("circlip 20 mm")}finding pin 1\n  is unlocked\n`)).toEqual(["circlip 20 mm: 1"]);
    expect(needs(other("self-locking nut"))).toEqual(["self-locking nut: 2"]);
    expect(needs(other("self-locking nut").replace('  critical "the lever"\n', ""))).toEqual([]);
  });
  test("a self-locking nut is needed for each opening, whatever is renewed beside it; fitted new it is its own locking", () => {
    const text = `fastener nut "Nut"\n  qty 4\n  locked by self-locking nut\n  critical "the lever"\nstep a "A"\n  undo nut\n  done\n`;
    expect(needs(text)).toEqual(["self-locking nut: 4"]);
    expect(needs(`${text}finding nut 1\n  is stripped\n  decision renew\n`)).toEqual(["nut: 1", "self-locking nut: 4"]);
    expect(needs(`${text}step b "B"\n  fit nut new\n  done\n`)).toEqual([]);
  });
  test("one for N fasteners, rounded up at each place", () => {
    const text = `places side near, far\nfastener stud "Stud nut"\n  each side 3\n  locked by lock plate for 2\nstep a "A"\n  undo stud\n  done\n`;
    expect(needs(text)).toEqual(["lock plate: 4"]);
  });
  test("a part that locks counts once with what else renews it", () => {
    const text = `part tab "Tab plate"\n  renew\n  held by nut\nfastener nut "Nut"\n  locked by part tab\nstep a "A"\n  undo nut\n  remove tab\n  done\n`;
    expect(needs(text)).toEqual(["tab: 1"]);
    expect(needs(`${text}step b "B"\n  fit tab new\n  tighten nut\n  lock nut new\n  done\n`)).toEqual([]);
    expect(needs(`${text}step b "B"\n  tighten nut\n  lock nut new\n  done\n`)).toEqual([]);
  });
});

const gear = `places side near, far
part gear "Gear"
  each side
part cover "Cover"
part gasket "Gasket"
  renew with cover
`;

describe("parts", () => {
  test("a finding decides", () => {
    const said = (decision: string, is = "worn") => needs(`${gear}finding gear near\n  is ${is}\n${decision === "" ? "" : `  decision ${decision}\n`}`);
    expect(said("renew")).toEqual(["gear: 1"]);
    expect(said("exchange")).toEqual(["gear: 1"]);
    for (const decision of ["reuse", 'repair "built up"', 'make "new one, of bronze"', "discard"]) expect(said(decision)).toEqual([]);
    expect(said("")).toEqual([]);
    expect(said("", "missing")).toEqual(["gear: 1"]);
    expect(said("", "damaged")).toEqual(["gear: 1"]);
    expect(said('make "a new one"', "missing")).toEqual([]);
  });
  test("the last word counts", () => {
    expect(needs(`${gear}finding gear near\n  is damaged\nfinding gear near\n  is damaged\n  decision reuse\n`)).toEqual([]);
    expect(needs(`${gear}finding gear near\n  is worn\n  decision reuse\nfinding gear near\n  is worn\n  decision renew\n`)).toEqual(["gear: 1"]);
  });
  test("counted pieces are other pieces until there are no more", () => {
    const bolts = (a: string, b: string) =>
      needs(`fastener bolt "Bolt"\n  qty 6\nfinding bolt ${a}\n  is stripped\n  decision renew\nfinding bolt ${b}\n  is bent\n  decision renew\n`);
    expect(bolts("2", "1")).toEqual(["bolt: 3"]);
    expect(bolts("4", "3")).toEqual(["bolt: 6"]);
    expect(needs('fastener bolt "Bolt"\n  qty 6\nfinding bolt\n  is missing 2\n')).toEqual(["bolt: 2"]);
    expect(needs('places side near, far\nfastener bolt "Bolt"\n  each side 2\nfinding bolt 3\n  is sheared\n  decision renew\n')).toEqual(["bolt: 3"]);
  });
  test("done work takes the need away", () => {
    expect(needs(`${gear}finding gear near\n  is cracked\n  decision renew\nstep a "A"\n  fit gear near new\n  done\n`)).toEqual([]);
    expect(needs(`${gear}finding gear near\n  is cracked\n  decision renew\nstep a "A"\n  fit gear near\n  done\n`)).toEqual(["gear: 1"]);
    expect(needs(`${gear}finding gear near\n  is missing\nstep a "A"\n  fit gear near\n  done\n`)).toEqual([]);
    expect(needs(`${gear}finding gear near\n  is damaged\nstep a "A"\n  repair gear near "dressed"\n  done\n`)).toEqual([]);
  });
  test("disturbed", () => {
    expect(needs(`${gear}step a "A"\n  remove cover\n  done\n`)).toEqual(["gasket: 1"]);
    expect(needs(`${gear}step a "A"\n  remove gasket\n`)).toEqual(["gasket: 1"]);
    expect(needs(`${gear}step a "A"\n  remove cover, gasket\n  fit gasket new\n  fit cover\n  done\n`)).toEqual([]);
    expect(needs('part ring "Sealing ring"\n  renew\n  held by plug\nfastener plug "Plug"\nstep a "A"\n  undo plug\n  done\n')).toEqual(["ring: 1"]);
  });
  test("worn past use, and nobody decided otherwise", () => {
    const limit = `${gear}limit tooth "Tooth, chordal"\n  each side\n  worn min 5.0 mm\n  of gear\n  source "Maker's plate"\ngauge vernier "Vernier"\n  uncertainty 0.05 mm\n`;
    expect(needs(`${limit}measure tooth found\n  near 4.9 mm\n  far 5.2 mm\n`)).toEqual(["gear: 1"]);
    expect(needs(`${limit}measure tooth found by vernier\n  near 4.97 mm\n`)).toEqual([]);
    expect(needs(`${limit}measure tooth trial\n  near 4.9 mm\n`)).toEqual([]);
    expect(needs(`${limit}measure tooth found\n  near 4.9 mm\nfinding gear near\n  is worn\n  decision repair "built up and cut"\n`)).toEqual([]);
    expect(needs(`${limit}measure tooth found\n  near 4.9 mm\nfinding gear near\n  is worn\n  decision renew\n`)).toEqual(["gear: 1"]);
    expect(needs(`${limit}measure tooth found\n  near 4.9 mm\nconcession tooth near "Runs by hand only" by "A. Lowe"\n`)).toEqual([]);
    expect(
      needs(`${limit}measure tooth found\n  near 4.9 mm\nstep a "A"\n  repair gear near "built up"\n  done\nmeasure tooth final\n  near 5.4 mm\n`),
    ).toEqual([]);
  });
  test("matched and in pairs", () => {
    const set = `part pinion "Pinion"\n  matched with crown\npart crown "Crown wheel"\n`;
    expect(needs(`${set}finding crown\n  is broken\n  decision renew\n`)).toEqual(["pinion: 1", "crown: 1"]);
    expect(needs(`${set}finding crown\n  is broken\n  decision renew\nstep a "A"\n  fit crown new\n  done\n`)).toEqual(["pinion: 1"]);
    expect(needs(`${set}finding crown\n  is broken\n  decision renew\nstep a "A"\n  fit pinion, crown new\n  done\n`)).toEqual([]);
    expect(needs(`${set}step a "A"\n  fit pinion new\n  fit crown new\n  done\n`)).toEqual([]);
    expect(needs(`${set}step a "A"\n  fit pinion new\n`)).toEqual(["pinion: 1", "crown: 1"]);
    const pair = `places side near, far\npart spring "Spring"\n  each side\n  renew in pairs\n`;
    expect(needs(`${pair}finding spring far\n  is broken\n  decision renew\n`)).toEqual(["spring: 2"]);
    expect(needs(`${pair}finding spring far\n  is broken\n  decision renew\nstep a "A"\n  fit spring far new\n  done\n`)).toEqual(["spring: 1"]);
    expect(needs('part spring "Spring"\n  qty 2\n  renew in pairs\nfinding spring 1\n  is broken\n  decision renew\n')).toEqual(["spring: 2"]);
  });
  test("a set of a hundred, each asked for by all others: all of it, and of the lines so many are named as can be read", () => {
    const chain = Array.from({ length: 100 }, (_, i) => `part p${i} "P${i}"\n${i > 0 ? `  matched with p${i - 1}\n` : ""}`).join("");
    const worn = Array.from({ length: 100 }, (_, i) => `finding p${i}\n  is worn\n  decision renew\n`).join("");
    const fitted = (last: number) => `step a "A"\n${Array.from({ length: last }, (_, i) => `  fit p${i} new\n`).join("")}  done\n`;
    expect(needs(`${chain}finding p0\n  is worn\n  decision renew\n`)).toEqual(Array.from({ length: 100 }, (_, i) => `p${i}: 1`));
    expect(needs(`${chain}${worn}${fitted(99)}`)).toEqual(["p99: 1"]);
    expect(needs(`${chain}${worn}${fitted(100)}`)).toEqual([]);
    const reasons = orderOf(`${chain}${worn}`).lines.map((row) => row.why.map((it) => it.text));
    for (const it of reasons) expect(it.length).toBeLessThan(40);
    for (const it of reasons) expect(it.join()).toContain("; 100 lines ask for the whole set, and not all are named");
  });
  test("planned to be fitted new, once with what asks for it", () => {
    expect(needs(`${gear}step a "A"\n  fit gear new\n`)).toEqual(["gear: 2"]);
    expect(needs(`${gear}finding gear near\n  is worn\n  decision renew\nstep a "A"\n  fit gear near new\n`)).toEqual(["gear: 1"]);
  });
});

// A nut with a pin each, four of them; every pin that was drawn wants a new one, and each new one that went in is one fewer.
describe("some of several are opened, or locked again", () => {
  const nuts = `fastener nut "Axle nut, slotted"\n  qty 4\n  torque 10 .. 20 N.m\n  locked by split pin 3.2 x 25 mm\n`;
  const step = (...lines: string[]) => `${nuts}step a "A"\n${lines.map((it) => `  ${it}\n`).join("")}  done\n`;
  const pins = (n: number) => (n === 0 ? [] : [`split pin 3.2 x 25 mm: ${n}`]);
  test.each([
    [2, ["undo nut 1", "undo nut 1"]],
    [4, ["undo nut 2", "undo nut"]],
    [2, ["slacken nut 1", "slacken nut 1"]],
    [1, ["slacken nut 1"]],
    [4, ["slacken nut"]],
    // Undone, back on without a pin, and undone again: the same two may be meant.
    [2, ["undo nut 2", "fit nut 2", "undo nut 2"]],
    [1, ["undo nut 1", "fit nut 1", "tighten nut 1 to 15 N.m", "lock nut 1 new", "undo nut 1"]],
    [2, ["undo nut", "fit nut", "tighten nut to 15 N.m", "lock nut 2 new"]],
    [0, ["undo nut", "fit nut", "tighten nut to 15 N.m", "lock nut 2 new", "lock nut 2 new"]],
    [0, ["undo nut", "fit nut", "tighten nut to 15 N.m", "lock nut new"]],
  ])("%i pins: %s", (n, lines) => expect(needs(step(...lines))).toEqual(pins(n)));
  test("planned in two goes it is four, and in one", () => {
    const planned = (...locks: string[]) => `${step("undo nut")}step b "B"\n  fit nut\n  tighten nut to 15 N.m\n${locks.map((it) => `  ${it}\n`).join("")}`;
    for (const locks of [["lock nut new"], ["lock nut 2 new"], ["lock nut 2 new", "lock nut 2 new"], ["lock nut 1 new", "lock nut 1 new", "lock nut 2 new"]])
      expect(needs(planned(...locks)), locks.join()).toEqual(pins(4));
  });
  test("found unlocked, and undone: once; two found, and two others undone: those two are among them at least", () => {
    const found = `${nuts}finding nut 2\n  is unlocked\n  decision reuse\n`;
    const undone = (n: string) => needs(`${found}step a "A"\n  undo nut${n}\n  done\n`);
    expect([needs(found), undone(" 2"), undone("")]).toEqual([pins(2), pins(2), pins(4)]);
  });
  test("six in the tin: four went in by twos, two are left", () => {
    const tin = step("undo nut", "fit nut", "tighten nut to 15 N.m", "lock nut 2 new", "lock nut 2 new", "undo nut 3").replace(
      "step a",
      'stock split pin 3.2 x 25 mm 6 "Tin" 2026-02-01\nday 2026-02-10\nstep a',
    );
    expect(rowsOf(orderOf(tin)).map((row) => row.split(" | ").slice(1, 3))).toEqual([["3", "2"]]);
  });
});

describe("what waits for an answer", () => {
  const balls = `part ball "Ball"\n  qty 28\nquestion pits "Are pits allowed?"\n`;
  test("is what was decided to ask, and nothing that was decided otherwise", () => {
    const report = orderOf(`${balls}finding ball 3\n  is pitted\n  decision renew\nfinding ball 2\n  is worn\n  decision ask pits\n`);
    expect(report.lines.map((row) => [row.item, row.need])).toEqual([["ball", "3"]]);
    expect(report.waiting.map((it) => [it.item, it.question, it.quantity])).toEqual([["ball", "pits", "2"]]);
    expect(orderOf(`${balls}finding ball 3\n  is pitted\n  decision renew\nfinding ball 2\n  is worn\n  decision reuse\n`).waiting).toEqual([]);
  });
});

// By hand: counted pieces that fit beside those counted before are others, and those that are asked about or made here are none of those to be bought.
describe("some to be renewed, and others that wait or are made", () => {
  const balls = `part ball "Ball"\n  qty 28\nquestion pits "Are pits allowed?"\n`;
  const three = "finding ball 3\n  is pitted\n  decision renew\n";
  const two = (decision: string) => `finding ball 2\n  is worn\n  decision ${decision}\n`;
  test("three are bought, whatever is decided of two others, and whichever is written first", () => {
    for (const decision of ["ask pits", 'make "By the pattern"', "reuse", 'repair "Ground"', "discard"]) {
      expect(needs(balls + three + two(decision)), decision).toEqual(["ball: 3"]);
      expect(needs(balls + two(decision) + three), decision).toEqual(["ball: 3"]);
    }
    expect(needs(balls + three + two("renew"))).toEqual(["ball: 5"]);
  });
  test("where all are to be renewed those two are among them: 26", () => {
    const renewed = (decision: string) =>
      `part box "Box"\npart ball "Ball"\n  qty 28\n  renew\nquestion pits "Are pits allowed?"\n${two(decision)}step a "A"\n  remove ball\n  done\n`;
    expect(needs(renewed("ask pits"))).toEqual(["ball: 26"]);
    expect(needs(renewed('make "By the pattern"'))).toEqual(["ball: 26"]);
  });
  test("the two that were made went in: three are still to be bought; five went in: none", () => {
    const fitted = (n: number) => `${balls}${three}${two('make "By the pattern"')}step a "A"\n  fit ball ${n} new\n  done\n`;
    expect(needs(fitted(2))).toEqual(["ball: 3"]);
    expect(needs(fitted(4))).toEqual(["ball: 1"]);
    expect(needs(fitted(5))).toEqual([]);
  });
  test("a planned step that fits three new fits three, and one that fits all leaves out those that wait", () => {
    const planned = (n: string) => `${balls}${two("ask pits")}step a "A"\n  fit ball${n} new\n`;
    expect(needs(planned(" 3"))).toEqual(["ball: 3"]);
    expect(needs(planned(""))).toEqual(["ball: 26"]);
  });
});

describe("fluids", () => {
  const oil = `part sump "Sump"\nfluid oil "Oil"\n  in sump\n  capacity 2 l\n`;
  test("lost or drained and not filled", () => {
    expect(needs(`${oil}step a "A"\n  remove sump\n  done\n`)).toEqual(["oil: 2 l"]);
    expect(needs(`${oil}step a "A"\n  drain oil\n  remove sump\n  done\n`)).toEqual(["oil: 2 l"]);
    expect(needs(`${oil}step a "A"\n  drain oil\n`)).toEqual(["oil: 2 l"]);
    expect(needs(`${oil}step a "A"\n  drain oil\n  fill oil\n  done\n`)).toEqual([]);
    expect(needs(`${oil}step a "A"\n  drain oil\n  fill oil 0.5 l\n  done\n`)).toEqual(["oil: 1.5 l"]);
    expect(needs(`${oil}step a "A"\n  drain oil\n  done\nstep b "B"\n  fill oil 2 l\n`)).toEqual(["oil: 2 l"]);
    expect(needs(`${oil}finding oil\n  is milky\n  decision renew\n`)).toEqual(["oil: 2 l"]);
  });
  test("what was found of it asks for new only where it is decided so; filled up again nothing of it is told", () => {
    expect(needs(`${oil}finding oil\n  is milky\n  decision reuse\n`)).toEqual([]);
    expect(needs(`${oil}finding oil\n  is milky\n`)).toEqual([]);
    expect(needs(`${oil}finding oil\n  is low 100 ml\n`)).toEqual([]);
    expect(needs(`${oil}finding oil\n  is milky\n  decision renew\nstep a "A"\n  drain oil\n  fill oil\n  done\n`)).toEqual([]);
    // Filled after the first loss, lost again: one filling, and the first loss is no reason for it.
    const again = orderOf(`${oil}step a "A"\n  drain oil\n  fill oil\n  remove sump\n  done\n`);
    expect(again.lines.map((row) => [row.need, row.why.map((it) => it.text)])).toEqual([["2", ["lost as the sump came off"]]]);
    // 2 l lost, 0.5 l put in, 1.5 l still to come: the loss is still the reason.
    expect(orderOf(`${oil}step a "A"\n  drain oil\n  fill oil 0.5 l\n  done\n`).lines[0]?.why.map((it) => it.text)).toEqual(["drained"]);
  });
  // 2 l are gone: 0.5 l and 1.5 l put them back, whoever fills; 0.5 l alone leaves 1.5 l to come; after the 2 l are back a third filling is bought for itself.
  test("filled in two goes, planned or done, it is what was lost and no more", () => {
    const go = (...fills: string[]) => needs(`${oil}step a "A"\n  drain oil\n  done\n${fills.map((it, i) => `step f${i} "F"\n  fill oil${it}\n`).join("")}`);
    expect(go(" 0.5 l", " 1.5 l")).toEqual(["oil: 2 l"]);
    expect(go(" 0.5 l")).toEqual(["oil: 2 l"]);
    expect(go(" 0.5 l", " 0.5 l", " 1 l")).toEqual(["oil: 2 l"]);
    expect(go(" 0.5 l", "")).toEqual(["oil: 2 l"]);
    expect(go("")).toEqual(["oil: 2 l"]);
    expect(go("", " 0.5 l")).toEqual(["oil: 2.5 l"]);
    expect(go(" 0.5 l\n  done", " 0.5 l", " 1 l")).toEqual(["oil: 1.5 l"]);
    const why = orderOf(`${oil}step a "A"\n  drain oil\n  done\nstep b "B"\n  fill oil 0.5 l\nstep c "C"\n  fill oil 1.5 l\n`).lines[0]?.why.map(
      (it) => it.text,
    );
    expect(why).toEqual(["drained", "to be filled (planned)", "to be filled (planned)"]);
  });
  test("a question keeps it waiting until it is answered", () => {
    const asked = (answer: string) => `${oil}question milk "Coolant or rain?"\n${answer}finding oil\n  is milky\n  decision ask milk\n`;
    expect(orderOf(asked("")).waiting.map((it) => [it.item, it.question])).toEqual([["oil", "milk"]]);
    expect(orderOf(asked('  answer "Rain."\n')).waiting).toEqual([]);
  });
  test("without a capacity it is needed, and how much is left open", () => {
    const report = orderOf('part sump "Sump"\nfluid oil "Oil"\n  in sump\nstep a "A"\n  remove sump\n  done\n');
    expect(report.lines[0]).toMatchObject({ item: "oil", need: null, toOrder: null, packs: null, standing: "amount not known" });
    expect(report.lines[0]?.why).toEqual([{ file: "job.jobsheet", line: 5, text: "lost as the sump came off" }]);
  });
});

describe("shelf and parcels", () => {
  const base = (more: string, from = "2026-02-10") => `${nut}${more}\nday ${from}\nstep a "A"\n  undo nut near\n  done\n`;
  const rows = (text: string) => rowsOf(orderOf(text)).map((row) => row.replace("split pin 3.2 x 25 mm | ", ""));
  test("stock is taken off; done work after its day has used it up", () => {
    expect(rows(base('stock split pin 3.2 x 25 mm 12 "Tin" 2026-02-01'))).toEqual(["2 | 12 | 0 | 0 | 0 | -"]);
    const used = `  tighten nut near\n  lock nut near new\n  undo nut near\n  done\n`;
    expect(rows(base('stock split pin 3.2 x 25 mm 12 "Tin" 2026-02-01').replace("  done\n", used))).toEqual(["2 | 10 | 0 | 0 | 0 | -"]);
    expect(rows(base('stock split pin 3.2 x 25 mm 12 "Tin" 2026-02-11').replace("  done\n", used))).toEqual(["2 | 12 | 0 | 0 | 0 | -"]);
    expect(rows(base('stock split pin 3.2 x 25 mm 1 "Tin" 2026-02-01').replace("  done\n", used))).toEqual(["2 | 0 | 0 | 2 | - | -"]);
  });
  test("a newer count takes the place of an older; two drawers of one day add up", () => {
    expect(rows(base('stock split pin 3.2 x 25 mm 12 "Tin" 2026-02-01\nstock split pin 3.2 x 25 mm 1 "Tin" 2026-02-05'))).toEqual(["2 | 1 | 0 | 1 | - | -"]);
    expect(rows(base('stock split pin 3.2 x 25 mm 1 "Tin" 2026-02-05\nstock split pin 3.2 x 25 mm 12 "Tin" 2026-02-01'))).toEqual(["2 | 1 | 0 | 1 | - | -"]);
    expect(rows(base('stock split pin 3.2 x 25 mm 1 "Tin" 2026-02-05\nstock split pin 3.2 x 25 mm 3 "Box" 2026-02-05'))).toEqual(["2 | 4 | 0 | 0 | 0 | -"]);
  });
  test("a newer count takes the place of the older ones of its shelf alone; without a shelf, of all", () => {
    const pin = (count: number, where: string, day: string) => `stock split pin 3.2 x 25 mm ${count} ${where} 2026-02-0${day}\n`;
    const held = (...lines: string[]) => rows(base(lines.join("")))[0]?.split(" | ")[1];
    const both = [pin(4, '"Tin"', "1"), pin(3, '"Box"', "1")];
    expect(held(...both, pin(5, '"Box"', "3"))).toBe("9");
    expect(held(...both, pin(0, '"Tin"', "3"))).toBe("3");
    expect(held(pin(4, '"Tin"', "1"), pin(3, '"Box"', "3"))).toBe("7");
    expect(held(...both, pin(5, "", "3"))).toBe("5");
    expect(held(pin(9, "", "1"), pin(3, '"Box"', "3"))).toBe("3");
    // It may be the same shelf, more or less fully told.
    expect(held(...both, pin(1, '"tin, what is left"', "3"))).toBe("4");
    expect(held(...both, pin(1, '"Tin on the sill"', "3"), pin(2, '"Tin"', "4"))).toBe("5");
    expect(held(pin(4, '"Drawer 1"', "1"), pin(3, '"Drawer 12"', "3"))).toBe("7");
  });
  test("what came, and what was used, shows in the count of a shelf once", () => {
    const came = 'order "7" to a\n  status received 2026-02-03\n  item split pin 3.2 x 25 mm 5\n';
    const used = "day 2026-02-03\nstep u\n  undo nut near\n  lock nut near new\n  undo nut near\n  done\n";
    const pin = (count: number, where: string, day: string) => `stock split pin 3.2 x 25 mm ${count} "${where}" 2026-02-0${day}\n`;
    const both = `${pin(4, "Tin", "1")}${pin(3, "Box", "1")}`;
    const held = (...lines: string[]) => rows(base(lines.join("")))[0]?.split(" | ")[1];
    expect(held(both, came)).toBe("12");
    expect(held(both, came, pin(9, "Tin", "4"))).toBe("12");
    expect(held(both, came, pin(4, "Tin", "4"))).toBe("12");
    expect(held(both, came, pin(4, "Tin", "4"), pin(3, "Box", "4"))).toBe("7");
    expect(held(both, used)).toBe("5");
    expect(held(both, used, pin(2, "Tin", "4"))).toBe("5");
    expect(held(both, used, pin(4, "Tin", "4"))).toBe("5");
    expect(held(both, used, pin(4, "Tin", "4"), pin(1, "Box", "4"))).toBe("5");
    expect(held(both, came, used, pin(7, "Tin", "4"))).toBe("10");
  });
  test("orders by their status", () => {
    const ordered = (status: string) =>
      rows(base(`order "7" to a\n  status ${status} 2026-02-03\n  item split pin 1/8 x 25 mm 5\n  item split pin 3.2 x 25 mm 2`));
    for (const status of ["placed", "sent"]) expect(ordered(status)).toEqual(["2 | 0 | 2 | 0 | 0 | -"]);
    // On hold is not ordered, and covers the need all the same: nothing is to be ordered beside it.
    expect(ordered("held")).toEqual(["2 | 0 | 0 | 0 | 0 | -"]);
    expect(ordered("received")).toEqual(["2 | 2 | 0 | 0 | 0 | -"]);
    for (const status of ["cancelled", "returned"]) expect(ordered(status)).toEqual(["2 | 0 | 0 | 2 | - | -"]);
  });
  test("what was received before the shelf was counted is in the count", () => {
    expect(rows(base('order "7" to a\n  status received 2026-02-03\n  item split pin 3.2 x 25 mm 5\nstock split pin 3.2 x 25 mm 6 2026-02-04'))).toEqual([
      "2 | 6 | 0 | 0 | 0 | -",
    ]);
    expect(rows(base('order "7" to a\n  status received 2026-02-05\n  item split pin 3.2 x 25 mm 5\nstock split pin 3.2 x 25 mm 6 2026-02-04'))).toEqual([
      "2 | 11 | 0 | 0 | 0 | -",
    ]);
  });
  test("a size is the same in any unit, and shown as first written where it is needed", () => {
    expect(rows(base('stock split pin 0.32 x 2.5 cm 9 "Tin" 2026-02-01'))).toEqual(["2 | 9 | 0 | 0 | 0 | -"]);
    expect(rows(base('stock split pin 3.2 x 26 mm 9 "Tin" 2026-02-01'))).toEqual(["2 | 0 | 0 | 2 | - | -"]);
  });
});

describe("not needed after all", () => {
  const gasket = (n: number, status: string, offer = "price 1.20 GBP each", price = "") => `part lid "Lid"
part gasket "Gasket"
  renew with lid
supplier a "Ashdown"
offer gasket from a
  ${offer}
order "11" to a
  status ${status}
  item gasket ${n}${price}
step s "S"
  remove lid
  done
`;
  const surplus = (text: string) => orderOf(text).surplus.map((it) => `${it.order} ${it.quantity} ${it.saves ?? "-"} line ${it.line}`);
  test("beyond the need, by whole packs", () => {
    expect(surplus(gasket(3, "held"))).toEqual(["11 2 2.40 line 9"]);
    expect(surplus(gasket(1, "held"))).toEqual([]);
    expect(surplus(gasket(10, "held", "price 6.00 GBP a pack\n  pack 10"))).toEqual([]);
    expect(surplus(gasket(20, "held", "price 6.00 GBP a pack\n  pack 10"))).toEqual(["11 10 6.00 line 10"]);
    expect(surplus(gasket(3, "received"))).toEqual([]);
  });
  test("the order's own price holds before the offer's", () => {
    expect(surplus(gasket(3, "held", "price 1.20 GBP each", " price 1.05 GBP"))).toEqual(["11 2 2.10 line 9"]);
  });
  test("what nothing asks for is all of it surplus; the order that can still be struck out first", () => {
    expect(
      surplus('part bolt "Bolt"\norder "1" to a\n  status sent\n  item bolt 2\norder "2" to a\n  status held\n  item bolt 3\nfinding bolt\n  is missing\n'),
    ).toEqual(["1 1 - line 4", "2 3 - line 7"]);
  });
  test("stock covers the need, so the order is not wanted", () => {
    expect(surplus(`${gasket(1, "held")}stock gasket 1 2026-01-01\n`)).toEqual(["11 1 1.20 line 9"]);
  });
});

describe("waiting for an answer", () => {
  const text = (answer: string) => `places side near, far
part pin "Pin"
  each side
part bush "Bush"
  each side 2
finding pin near
  is worn
  decision ask size
question size "Oversize or new bushes?"
  about pin, bush
${answer}order "5" to a
  status held
  item bush 4
`;
  test("neither needed nor surplus while the question is open", () => {
    const report = orderOf(text(""));
    expect(report.lines).toEqual([]);
    expect(report.surplus).toEqual([]);
    expect(report.waiting.map((it) => [it.item, it.question, it.quantity, it.places.join(), it.line])).toEqual([
      ["pin", "size", "1", "near", 8],
      ["bush", "size", "4", "", 10],
    ]);
  });
  test("answered, what was ordered on a guess is surplus", () => {
    const report = orderOf(text('  answer "New pins, of standard size"\n'));
    expect(report.waiting).toEqual([]);
    expect(report.surplus.map((it) => [it.item, it.quantity])).toEqual([["bush", "4"]]);
  });
});

describe("several jobs", () => {
  const shared = `places side near, far
part seal "Seal"
  each side
  renew
supplier a "Ashdown"
  currency GBP
  freight 5.00 GBP
offer seal from a
  price 4.00 GBP
stock seal 1 "Drawer" 2026-01-01
need "Rags" 1 "the bench"
`;
  const job = (title: string) => `sheet "${title}"\n  opened 2026-01-02\nuse "shared.jobsheet"\nstep s "S"\n  remove seal near\n  done\n`;
  test("the needs of each, then one shelf and one parcel", () => {
    const files = filesFrom({ "shared.jobsheet": shared, "one.jobsheet": job("One"), "two.jobsheet": job("Two") });
    const report = partsOrder(files, ["one.jobsheet", "two.jobsheet"]);
    // One seal in each job, one in the drawer: one to buy. The rags are asked for by one line, so once.
    expect(rowsOf(report)).toEqual(["seal | 2 | 1 | 0 | 1 | 1 | 4.00 GBP", "Rags | 1 | 0 | 0 | 1 | - | -"]);
    expect(report.suppliers[0]).toMatchObject({ goods: "4.00", freight: "5.00", total: "9.00" });
    expect(report.lines[0]?.why.map((it) => it.file)).toEqual(["one.jobsheet", "two.jobsheet"]);
  });
  test("the same name in two jobs' own files is two things", () => {
    const own = (title: string, n: number) => `sheet "${title}"\npart seal "Seal of ${title}"\n  qty ${n}\nfinding seal\n  is damaged\n`;
    const report = partsOrder(filesFrom({ "one.jobsheet": own("One", 1), "two.jobsheet": own("Two", 3) }), ["one.jobsheet", "two.jobsheet"]);
    expect(report.lines.map((row) => [row.name, row.need])).toEqual([
      ["Seal of One", "1"],
      ["Seal of Two", "3"],
    ]);
  });
});

test("what is decided to be made here is not bought, before it is fitted or after, and once", () => {
  const sheet = (more: string) => `part cover "Cover"
part seal "Seal"
  renew with cover
finding seal
  is worn
  decision make "cut from sheet"
step off "Off"
  remove cover
  done
${more}`;
  expect(orderOf(sheet("")).lines).toEqual([]);
  expect(orderOf(sheet('step on "On"\n  fit seal new\n  done\n')).lines).toEqual([]);
  expect(orderOf(sheet('step on "On"\n  fit seal new\n')).lines).toEqual([]);
  // One was made; the next time that the cover comes off another is needed.
  expect(rowsOf(orderOf(sheet('step on "On"\n  fit seal new\n  fit cover\n  done\nstep again "Off again"\n  remove cover\n  done\n')))).toEqual([
    "seal | 1 | 0 | 0 | 1 | - | -",
  ]);
});

describe("a fit of two past its wear", () => {
  const job = (more: string) => `part shaft "Shaft"
part bush "Bush"
limit play "Play of the shaft in its bush"
  worn max 0.10 mm
  of shaft, bush
  source "Book"
limit bore "Bore of the bush"
  worn max 20.05 mm
  of bush
  source "Book"
measure play found
  0.20 mm
${more}`;
  const asked = (more: string) => orderOf(job(more)).lines.map((row) => row.item);
  test("asks for both where nothing tells which of them it was", () => expect(asked("").sort()).toEqual(["bush", "shaft"]));
  test("asks for the one alone that is condemned by itself: by its own size, by what was decided of it, or because it went in new", () => {
    expect(asked("measure bore found\n  20.12 mm\n")).toEqual(["bush"]);
    expect(asked("finding bush\n  is worn\n  decision renew\n")).toEqual(["bush"]);
    expect(asked('finding bush\n  is worn\n  decision repair "reamed oversize"\n')).not.toContain("shaft");
    expect(asked("step on\n  remove bush\n  fit bush new\n")).toEqual(["bush"]);
  });
  test("asks for both that are condemned, each by itself", () =>
    expect(asked("measure bore found\n  20.12 mm\nfinding shaft\n  is scored\n  decision renew\n").sort()).toEqual(["bush", "shaft"]));
});
