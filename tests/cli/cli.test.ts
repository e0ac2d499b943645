// The command line in a folder of its own: what it prints, what it ends with, what it writes and what it leaves alone.
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, realpathSync, rmSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { commandLine } from "../built.ts";
import { isRun } from "../sampled.ts";
import { type Ran, splitpin as ran } from "./desk.ts";

let cwd = "";
beforeEach(() => {
  cwd = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-cli-")));
});
afterEach(() => rmSync(cwd, { recursive: true, force: true }));

const splitpin = (words: string, { at = cwd, colour = false } = {}) => ran(words === "" ? [] : words.split(" "), at, colour);

function write(path: string, text: string): void {
  mkdirSync(join(cwd, path, ".."), { recursive: true });
  writeFileSync(join(cwd, path), text);
}

interface CheckJson {
  readonly diagnostics: readonly {
    readonly file: string;
    readonly line: number;
    readonly column: number;
    readonly endLine: number;
    readonly endColumn: number;
    readonly severity: string;
    readonly rule: string;
    readonly message: string;
    readonly related: readonly unknown[];
  }[];
}
const json = ({ out }: Ran) => JSON.parse(out) as CheckJson;

const clean = 'part hub "Hub"\nfinding hub\n  is serviceable\n';
const broken = 'part hub "Hub"\nfinding hub\n  is crackd\n';

describe("check", () => {
  test("JSON has the shape that programs rely on, and counts from 1", async () => {
    write("a.jobsheet", broken);
    const it = await splitpin("check a.jobsheet --format json");
    expect(it.code).toBe(1);
    const fault = json(it).diagnostics.find((it) => it.line === 3);
    expect(fault).toMatchObject({ file: "a.jobsheet", line: 3, column: 6, endLine: 3, endColumn: 12, severity: "error", rule: "syntax", related: [] });
    expect(Object.keys(fault ?? {})).toEqual(["file", "line", "column", "endLine", "endColumn", "severity", "rule", "message", "related"]);
  });
  test("a sheet with nothing at error ends with 0", async () => {
    write("a.jobsheet", clean);
    expect((await splitpin("check a.jobsheet")).code).toBe(0);
  });
  test("text shows the line with carets under the words", async () => {
    write("a.jobsheet", broken);
    const { out } = await splitpin("check a.jobsheet");
    expect(out).toContain("a.jobsheet:3:6  error  syntax");
    expect(out).toContain("    3 |   is crackd\n      |      ^^^^^^");
    expect(out).toMatch(/1 error.* in 1 sheet\.\n$/);
    expect(out).not.toContain("\u001b");
  });
  test("carets stand under the words behind wide letters and tabs", async () => {
    write("a.jobsheet", 'part hub "Hub"\nfinding hub\n\tbecause "轴承" oops\n');
    const { out } = await splitpin("check a.jobsheet");
    const [line, carets] = out.split("\n").filter((it) => / \| /.test(it)) as [string, string];
    // A tab is drawn as two blanks; each of the two wide letters takes two columns.
    expect(carets.indexOf("^")).toBe(line.indexOf("oops") + 2);
  });
  test("colours only where they are asked for", async () => {
    write("a.jobsheet", broken);
    expect((await splitpin("check a.jobsheet", { colour: true })).out).toContain("\u001b[1;31merror");
  });
  test("a folder means its sheets, in the order of their names; hidden folders and packages are left out", async () => {
    for (const path of ["b/two.jobsheet", "b/deep/one.jobsheet", "a.jobsheet", ".git/x.jobsheet", "node_modules/m/x.jobsheet"]) write(path, broken);
    write("b/readme.txt", "nothing");
    const files = json(await splitpin("check --format json")).diagnostics.map((it) => it.file);
    expect([...new Set(files)]).toEqual(["a.jobsheet", "b/deep/one.jobsheet", "b/two.jobsheet"]);
    expect(new Set(json(await splitpin("check b --format json")).diagnostics.map((it) => it.file))).toEqual(new Set(["b/deep/one.jobsheet", "b/two.jobsheet"]));
  });
  test("a sheet that is given twice is checked once", async () => {
    write("a.jobsheet", broken);
    const once = json(await splitpin("check a.jobsheet --format json"));
    expect(json(await splitpin("check . a.jobsheet ./a.jobsheet --format json"))).toEqual(once);
  });
  test("what can't be read is said and ends with 2, and the others are checked all the same", async () => {
    write("a.jobsheet", broken);
    const it = await splitpin("check nowhere.jobsheet a.jobsheet --format json");
    expect(it.code).toBe(2);
    expect(it.err).toBe("splitpin: nowhere.jobsheet is not there.\n");
    expect(json(it).diagnostics.length).toBeGreaterThan(0);
  });
  test("a folder without sheets ends with 2", async () => {
    const { code, err } = await splitpin("check");
    expect(code).toBe(2);
    expect(err).toContain("has no job sheets in it");
  });
  test("a sheet uses files of the folder that the command was run in, and none outside of it", async () => {
    write("data/hub.jobsheet", 'part hub "Hub"\n');
    write("jobs/a.jobsheet", 'use "../data/hub.jobsheet"\nfinding hub\n  is serviceable\n');
    expect(json(await splitpin("check jobs/a.jobsheet --format json")).diagnostics.filter((it) => it.severity === "error")).toEqual([]);
    // From within jobs/ the same path climbs out of what was given.
    const outside = json(await splitpin("check a.jobsheet --format json", { at: join(cwd, "jobs") }));
    expect(outside.diagnostics.map((it) => [it.rule, it.line])).toContainEqual(["use-missing", 1]);
    const folder = json(await splitpin("check jobs --format json"));
    expect(folder.diagnostics.map((it) => [it.file, it.rule, it.line])).toContainEqual(["jobs/a.jobsheet", "use-missing", 1]);
  });
  test("a sheet given by its whole path from elsewhere uses the files beside it", async () => {
    write("jobs/hub.jobsheet", 'part hub "Hub"\n');
    write("jobs/a.jobsheet", 'use "hub.jobsheet"\nfinding hub\n  is serviceable\n');
    write("elsewhere/b.jobsheet", clean);
    const it = await splitpin(`check ${cwd}/jobs/a.jobsheet --format json`, { at: join(cwd, "elsewhere") });
    expect(it.code).toBe(0);
  });
  test("a link that leads out of the workspace is not followed", async () => {
    write("outside/secret.jobsheet", 'part secret-part "Secret"\n');
    write("jobs/a.jobsheet", 'use "link.jobsheet"\nfinding secret-part\n  is serviceable\n');
    symlinkSync("../outside/secret.jobsheet", join(cwd, "jobs/link.jobsheet"));
    const it = await splitpin("check a.jobsheet --format json", { at: join(cwd, "jobs") });
    expect(json(it).diagnostics.map((it) => it.rule)).toContain("use-missing");
  });
});

describe("format", () => {
  const untidy = 'part   hub    "Hub"\n      qty 2\n';
  test("writes the sheet in its layout, keeps its rights, and leaves nothing beside it", async () => {
    write("a.jobsheet", untidy);
    chmodSync(join(cwd, "a.jobsheet"), 0o640);
    const it = await splitpin("format a.jobsheet");
    expect([it.code, it.out]).toEqual([0, "a.jobsheet\n"]);
    expect(readFileSync(join(cwd, "a.jobsheet"), "utf8")).toBe('part hub "Hub"\n  qty 2\n');
    expect(statSync(join(cwd, "a.jobsheet")).mode & 0o777).toBe(0o640);
    expect(readdirSync(cwd)).toEqual(["a.jobsheet"]);
  });
  test("--check writes nothing and ends with 1 where it would", async () => {
    write("a.jobsheet", untidy);
    const it = await splitpin("format --check a.jobsheet");
    expect([it.code, it.out]).toEqual([1, "a.jobsheet would change\n"]);
    expect(readFileSync(join(cwd, "a.jobsheet"), "utf8")).toBe(untidy);
    await splitpin("format a.jobsheet");
    expect((await splitpin("format --check a.jobsheet")).code).toBe(0);
  });
  test("line ends and a byte order mark stay", async () => {
    write("a.jobsheet", `\ufeff${untidy.replaceAll("\n", "\r\n")}`);
    await splitpin("format a.jobsheet");
    expect(readFileSync(join(cwd, "a.jobsheet"), "utf8")).toBe('\ufeffpart hub "Hub"\r\n  qty 2\r\n');
  });
  test("a file that is no text is left as it is", async () => {
    writeFileSync(join(cwd, "a.jobsheet"), Uint8Array.from([112, 0, 255]));
    expect((await splitpin("format a.jobsheet")).code).toBe(2);
    expect([...readFileSync(join(cwd, "a.jobsheet"))]).toEqual([112, 0, 255]);
  });
});

describe("order", () => {
  test("--out writes the file whole, and prints nothing", async () => {
    write("a.jobsheet", 'sheet "A"\npart hub "Hub"\nfinding hub\n  is cracked\n  decision renew\n');
    const it = await splitpin("order a.jobsheet --format json --out order.json");
    expect([it.code, it.out]).toEqual([0, ""]);
    expect((JSON.parse(readFileSync(join(cwd, "order.json"), "utf8")) as { lines: unknown[] }).lines).toHaveLength(1);
  });
  test("--out into a folder that isn't there writes nothing and ends with 2", async () => {
    write("a.jobsheet", 'sheet "A"\n');
    const it = await splitpin("order a.jobsheet --out no/such/order.txt");
    expect(it.code).toBe(2);
    expect(existsSync(join(cwd, "no"))).toBe(false);
  });
});

describe("order: prices, choice, letter", () => {
  const job = `sheet "Hub"
  currency GBP
part hub "Hub"
supplier alder "Alder Lane"
  currency GBP
  freight 5.00 GBP
  prices "lists/alder.csv"
supplier brook "Brook"
offer hub from brook
  price 9.50 GBP
finding hub
  is damaged
`;
  const put = (list: string) => {
    mkdirSync(join(cwd, "lists"), { recursive: true });
    writeFileSync(join(cwd, "hub.jobsheet"), job);
    writeFileSync(join(cwd, "lists/alder.csv"), list);
  };
  test("a price list beside the sheet is read, and its faults are said by check", async () => {
    put("item,price\nhub,4.00\nhub,x\n");
    const { code, out } = await splitpin("order hub.jobsheet --format json");
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      lines: [{ supplier: "alder", total: "4.00", priceList: { file: "lists/alder.csv", line: 2 } }],
      lists: [{ leftOut: [3] }],
    });
    expect((await splitpin("check hub.jobsheet")).out).toContain("Line 3 of lists/alder.csv is left out.");
  });
  test("--choose counts what the goods alone don't tell, and refuses what it doesn't know", async () => {
    // 4.00 and 5.00 freight against 9.50 without.
    put("item,price\nhub,4.00\n");
    expect(JSON.parse((await splitpin("order hub.jobsheet --choose cheapest --format json")).out)).toMatchObject({
      together: { amount: "9.00", currency: "GBP" },
      choice: { by: "cheapest", proved: true, total: "9.00", next: { total: "9.50", saves: "0.50" } },
    });
    put("item,price\nhub,4.60\n");
    const { out } = await splitpin("order hub.jobsheet --choose cheapest");
    expect(out).toContain("Chosen to be the cheapest all together: 9.50 GBP in 1 parcel");
    expect(out).toContain("The next best from other suppliers comes to 9.60 GBP in 1 parcel: this saves 0.10 GBP.");
    const refused = await splitpin("order hub.jobsheet --choose nicest");
    expect([refused.code, refused.out]).toEqual([2, ""]);
    expect(refused.err).toContain("--choose takes cheapest, fewest, soonest");
  });
  test("--choose of more offers than are weighed within seconds is refused with a line that names the limit, and of just fewer it is not", async () => {
    // Every thing is offered by all of 25: so many columns, and as many rows, as things times sellers and some more.
    const shops = Array.from({ length: 25 }, (_, s) => `supplier s${s} "S"\n  currency GBP\n  freight 5 GBP\n`).join("");
    const thing = (i: number) =>
      `part p${i} "P"\nneed p${i} 1 "w"\n${Array.from({ length: 25 }, (_, s) => `offer p${i} from s${s}\n  price ${1 + s}.50 GBP\n`).join("")}`;
    const chosen = async (things: number, way = "fewest") => {
      write("many.jobsheet", `sheet "Many"\n  currency GBP\n${shops}${Array.from({ length: things }, (_, i) => thing(i)).join("")}`);
      return splitpin(`order many.jobsheet --choose ${way} --format json`);
    };
    // Just fewer takes seconds; between two changes many fewer are asked.
    const [most, total] = isRun ? [86, "134.00"] : [30, expect.any(String)];
    const under = await chosen(most);
    expect([under.code, under.err]).toEqual([0, ""]);
    expect(JSON.parse(under.out).choice).toMatchObject({ by: "fewest", total, proved: true });
    const over = await chosen(87);
    expect([over.code, over.out]).toEqual([2, ""]);
    expect(over.err).toContain("2175 offers of 25 suppliers are too many for --choose fewest");
    expect(over.err).toContain("more than 5000000 in all are not worked out. Choose the cheapest, or order without --choose");
    const cheapest = await chosen(87, "cheapest");
    expect([cheapest.code, cheapest.err]).toEqual([0, ""]);
    const without = await splitpin("order many.jobsheet --format json");
    expect([without.code, without.err]).toEqual([0, ""]);
  }, 60_000);
  test("a letter to one supplier", async () => {
    put("item,price\nhub,4.00\n");
    const { code, out } = await splitpin("order hub.jobsheet --supplier alder --format letter");
    expect(code).toBe(0);
    expect(out).toContain("Order to Alder Lane");
    expect(out).toContain("4.00 GBP each: 4.00 GBP");
    // With only one supplier it need not be named.
    expect((await splitpin("order hub.jobsheet --format letter")).out).toBe(out);
    const refused = await splitpin("order hub.jobsheet --supplier brook --format letter");
    expect([refused.code, refused.out]).toEqual([2, ""]);
    expect(refused.err).toContain("Nothing is to be ordered from “brook”. There is something to order from alder.");
    expect((await splitpin("order hub.jobsheet --supplier alder")).code).toBe(2);
  });
  test("a list that a link leads out to, that is no list, or is not UTF-8 is not read", async () => {
    put("item,price\nhub,4.00\n");
    const away = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-away-")));
    writeFileSync(join(away, "secret.csv"), "item,price\nhub,1.00\n");
    const said = async () => (await splitpin("check hub.jobsheet")).out;
    rmSync(join(cwd, "lists/alder.csv"));
    symlinkSync(join(away, "secret.csv"), join(cwd, "lists/alder.csv"));
    expect(await said()).toContain("The price list lists/alder.csv lies outside of the workspace and is not read.");
    expect((await splitpin("order hub.jobsheet --format json")).out).not.toContain("1.00");
    rmSync(join(cwd, "lists/alder.csv"));
    writeFileSync(join(cwd, "lists/alder.csv"), Buffer.from([0x69, 0x74, 0x65, 0x6d, 0x0a, 0xe9, 0x0a]));
    expect(await said()).toContain("has letters on line 2 that are not UTF-8: save it as UTF-8");
    writeFileSync(join(cwd, "hub.jobsheet"), job.replace("lists/alder.csv", "hub.jobsheet"));
    expect(await said()).toContain("is not a price list: the name of one ends in .csv");
    rmSync(away, { recursive: true, force: true });
  });
});

describe("explain", () => {
  test("lists every rule, and tells one", async () => {
    const list = await splitpin("explain");
    expect(list.out).toContain("locking-absent");
    const page = await splitpin("explain locking-absent");
    expect(page.code).toBe(0);
    expect(page.out).toMatch(/^locking-absent\n/);
  });
  test("names the nearest rule for one that there is not", async () => {
    const { code, err } = await splitpin("explain locking-absnt");
    expect(code).toBe(2);
    expect(err).toContain("Is locking-absent meant?");
  });
});

describe("the program", () => {
  test("--version, --help, and help of a command", async () => {
    expect(await splitpin("--version")).toMatchObject({ code: 0, out: "splitpin 1.2.3\n" });
    expect((await splitpin("--help")).out).toContain("splitpin check [PATH…]");
    expect((await splitpin("check --help")).out).toContain("--format json");
  });
  test.each([
    ["chek good.jobsheet", "There is no command “chek”. Is check meant? splitpin --help lists the commands."],
    ["Check good.jobsheet", "There is no command “Check”. Is check meant? splitpin --help lists the commands."],
    ["wheel.jobsheet", "There is no command “wheel.jobsheet”. To check a sheet: splitpin check wheel.jobsheet"],
    ["polish it", "There is no command “polish”. splitpin --help lists the commands."],
    ["help chek", "There is no command “chek”. Is check meant? splitpin --help lists the commands."],
    ["check --frmat json", "There is no option --frmat. Is --format meant? splitpin check --help says what it takes."],
    ["check --polish", "There is no option --polish. splitpin check --help says what it takes."],
    ["check --format", "--format needs a word after it. splitpin check --help says what it takes."],
    ["check --brief=yes", "--brief takes nothing after a `=`. splitpin check --help says what it takes."],
    ["check -", "- stands for a pipe, and sheets are read from files: save it as one, and name that."],
  ])("“%s” is told what is meant", async (words, said) => {
    expect(await splitpin(words)).toMatchObject({ code: 2, out: "", err: `splitpin: ${said}\n` });
  });
  test("a sheet in UTF-16 is told to be so without its mark too, and one with a stray NUL is not", async () => {
    writeFileSync(join(cwd, "wide.jobsheet"), Buffer.from('sheet "Hub"\n', "utf16le"));
    writeFileSync(join(cwd, "other.jobsheet"), Buffer.from('sheet "Hub"\n', "utf16le").swap16());
    writeFileSync(join(cwd, "nul.jobsheet"), 'sheet "H\0b"\n');
    expect((await splitpin("check")).err).toBe(
      "splitpin: nul.jobsheet is not text: it has bytes in it that no text has.\nsplitpin: other.jobsheet is written in UTF-16: save it as UTF-8.\nsplitpin: wide.jobsheet is written in UTF-16: save it as UTF-8.\n",
    );
  });
  test("help is as wide as the terminal, says the same at every width, and parts no question that has room on a line", async () => {
    const { run } = await commandLine();
    const main = (await splitpin("--help")).out;
    const commands = [...new Set([...main.matchAll(/^ {2}splitpin ([a-z-]+)/gm)].map((it) => it[1] as string).filter((it) => !it.startsWith("-")))];
    expect(commands.length).toBeGreaterThan(15);
    for (const words of [["--help"], ...commands.map((it) => [it, "--help"])]) {
      const said = new Set<string>();
      for (const width of [60, 80, 100, 200]) {
        let out = "";
        expect(await run(words, { cwd, version: "1.2.3", colour: false, width, out: (text) => (out += text), err: () => {} })).toBe(0);
        const tooLong = out.split("\n").filter((line) => line.length > Math.min(width, 100));
        expect([words, width, tooLong]).toEqual([words, width, []]);
        said.add(out.replace(/\s+/g, " "));
      }
      expect([words, said.size]).toEqual([words, 1]);
    }
    const figure = (await splitpin("figure --help")).out;
    for (const question of ["1/2 x 20 cycle thread", "conicity 1.25 in to 1.247 in over 2 in", "rectangular 15 um"]) expect(figure).toContain(`"${question}"`);
  });
  test.each([
    ["", 2],
    ["chekc", 2],
    ["check --formt json", 2],
    ["check --format xml", 2],
    ["check --format", 2],
  ])("“%s” ends with %i and says why", async (words, code) => {
    const it = await splitpin(words);
    expect(it.code).toBe(code);
    expect((it.out + it.err).length).toBeGreaterThan(20);
    expect(it.err).not.toMatch(/\n\s+at /);
  });
});
