// What is remembered of the other sheets of a machine follows their texts, and those of the files that they use, there or not there yet.
import { expect, test } from "vitest";
import { openFolder } from "../../server/browser/folder.ts";

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
