// What is remembered of the other sheets of a machine follows their texts, and those of the files that they use, there or not there yet.
import { expect, test } from "vitest";
import { openFolder } from "../../server/browser/folder.ts";
import { readSheet } from "../../grammar/sheet-text.ts";
import { open } from "../../server/service.ts";

const released = `sheet "A"
  machine "Trap one"
release by "X" 2026-05-02
  test "t"
`;
const usesData = `sheet "B"
  machine "Trap one"
use "data.jobsheet"
step a "A"
  remove arm
  fit arm
  done
`;
const data = `part arm "Arm"
  critical "steering"
`;

test("a file that another sheet of the machine uses comes, is opened and is put right", () => {
  const folder = openFolder({ "a.jobsheet": released, "b.jobsheet": `${data}${usesData}` });
  const isHeld = () => folder.check("a.jobsheet").some((it) => it.rule === "other-sheet-open");
  // B's data is named but is not there: what B names critical is in doubt.
  expect(isHeld()).toBe(true);
  folder.put("data.jobsheet", "# nothing yet\n");
  expect(isHeld()).toBe(false);
  expect(isHeld()).toBe(false);
  folder.put("data.jobsheet", "finding arm\n  is cracked\n");
  expect(isHeld()).toBe(true);
  folder.put("data.jobsheet", "# nothing yet\n");
  expect(isHeld()).toBe(false);
  folder.put("b.jobsheet", `${data}${usesData.replace("  fit arm\n", "")}`);
  expect(isHeld()).toBe(true);
});

test("a sheet that is used is of the same machine where one of the two says none", () => {
  const opened = `sheet "B"
part arm "Arm"
  critical "steering"
step a "A"
  remove arm
  done
`;
  const uses = (head: string) => `sheet "A"\n${head}use "b.jobsheet"\nrelease by "X" 2026-05-02\n  test "t"\n`;
  const isHeld = (head: string, other = opened) =>
    openFolder({ "a.jobsheet": uses(head), "b.jobsheet": other })
      .check("a.jobsheet")
      .some((it) => it.rule === "other-sheet-open");
  expect(isHeld("")).toBe(true);
  expect(isHeld('  machine "Trap one"\n')).toBe(true);
  expect(isHeld('  machine "Trap one"\n', opened.replace('sheet "B"', 'sheet "B"\n  machine "Trap two"'))).toBe(false);
  expect(isHeld("", opened.replace("  done", "  fit arm\n  done"))).toBe(false);
});

test("of more sheets than are looked at it is said that nobody knows, and of fewer it is not", () => {
  const folder = (count: number) =>
    openFolder({ ...Object.fromEntries(Array.from({ length: count - 1 }, (_, i) => [`z${i}.jobsheet`, 'sheet "Z"\n'])), "a.jobsheet": released });
  const said = (count: number) =>
    folder(count)
      .check("a.jobsheet")
      .filter((it) => it.rule === "other-sheet-open");
  expect(said(2000)).toEqual([]);
  expect(said(2001)[0]?.message).toContain("1 sheet was not looked at");
});

test("of two hundred sheets, checked together, each is told what it is told alone", () => {
  const machines = ["Trap one", "Trap one", "trap one.", "Trap one, 1962", "Trap two", undefined];
  const texts = new Map([["data.jobsheet", data]]);
  for (let i = 0; i < 200; i++) {
    const name = machines[i % machines.length];
    const head = `sheet "No. ${i}"\n${name === undefined ? "" : `  machine "${name}"\n`}${i % 10 === 9 ? `  serial "10${i % 4}7"\n` : ""}`;
    const work = `use "data.jobsheet"\nstep a "A"\n  remove arm\n${i % 7 === 3 ? "" : "  fit arm\n"}  done\n`;
    texts.set(`s${i}.jobsheet`, `${head}${work}${i % 3 === 2 ? "" : 'release by "X" 2026-05-02\n  test "t"\n'}`);
  }
  const read = new Map([...texts].map(([path, text]) => [path, readSheet(text)]));
  const service = open({ read: (path) => read.get(path) ?? "missing", jobsheets: () => [...read.keys()] });
  const paths = [...read.keys()];
  const all = service.checkAll(paths);
  expect(all).toEqual(paths.flatMap((path) => service.check(path)));
  const told = all.filter((it) => it.rule === "other-sheet-open");
  expect(told.some((it) => it.message.includes("its machine is \u201cTrap one, 1962\u201d"))).toBe(true);
  // Whichever asks first; and again when one of them has become another.
  expect(service.checkAll(paths.toReversed())).toEqual(paths.toReversed().flatMap((path) => service.check(path)));
  read.set("s3.jobsheet", readSheet((texts.get("s3.jobsheet") as string).replace("  remove arm\n", "  remove arm\n  fit arm\n")));
  expect(service.checkAll(["s9.jobsheet"])).toEqual(service.check("s9.jobsheet"));
  expect(service.checkAll(paths)).not.toEqual(all);
});

/** A job of which a copy was saved beside it while the arm was off. */
const atTheTime = `sheet "Arm"
  machine "Trap one"
day 2026-05-01
part arm "Steering arm"
  critical "steering"
  source "Book 1"
check free "Turns freely"
  of arm
step a "A"
  remove arm
  done
`;
const finished = `${atTheTime}step b "B"
  fit arm
  done
seen free final good
release by "X" 2026-05-02
  test "Steered lock to lock, free"
`;
const heldBy = (other: string) =>
  openFolder({ "job.jobsheet": finished, "job (1).jobsheet": other })
    .check("job.jobsheet")
    .flatMap((it) => (it.rule === "other-sheet-open" ? [it.message] : []));

test("a copy that was saved beside the sheet holds it, and is said to be one", () => {
  expect(heldBy(atTheTime)).toEqual([
    "job (1).jobsheet seems a copy of this sheet (its title, most of its lines), open on steering arm. If so, take it out of the folder; if not, finish it first.",
  ]);
});

test("a copy in which nothing is open holds nobody back", () => expect(heldBy(finished)).toEqual([]));

test("another job of the same machine is no copy, under the same title or with the same parts", () => {
  const other = [
    atTheTime.replace("Arm", "Arm again"),
    'sheet "Arm"\n  machine "Trap one"\nday 2026-07-01\npart arm "Steering arm"\n  critical "steering"\nstep strip "Taken down for the bend"\n  undo arm-nut\n  remove arm\n  note "Bent"\n  done\n',
  ];
  for (const it of other)
    expect(heldBy(it)).toEqual([
      "Another sheet of this machine is open on something critical: job (1).jobsheet (steering arm). Finish it first, or release them together.",
    ]);
});

test("of several copies each is named once", () => {
  const said = openFolder({ "job.jobsheet": finished, "job copy.jobsheet": atTheTime, "job-old.jobsheet": atTheTime })
    .check("job.jobsheet")
    .flatMap((it) => (it.rule === "other-sheet-open" ? [it.message] : []));
  expect(said).toEqual([
    "job copy.jobsheet and job-old.jobsheet seem copies of this sheet, and are open. Take those that are out of the folder, and finish the others first.",
  ]);
});
