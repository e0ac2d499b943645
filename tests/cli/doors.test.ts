// The built program on a real disk: what it writes over and what it never does, what it ends with where its reader or its disk gives up, and names that try to act.
import { execFileSync, spawnSync } from "node:child_process";
import {
  openSync,
  fstatSync,
  closeSync,
  chmodSync,
  chownSync,
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  realpathSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { cell } from "../../server/reports/order/csv.ts";
import { json } from "../../server/reports/draw/as-json.ts";
import { program } from "../server/wire.ts";
import { splitpin as inProcess } from "./desk.ts";

const job =
  'sheet "Hub"\n  machine "Trap one"\n  currency GBP\npart hub "Hub"\n  critical "the wheel"\nfinding hub\n  is cracked\nrelease "E. Lind" 2026-05-02\n';
/** What is said of it is more than a pipe holds (64 KiB) and its reader has taken. */
const longJob = job + Array.from({ length: 700 }, (_, i) => `part p-${i} "Part ${i}"\n  critical "it"\nfinding p-${i}\n  is cracked\n`).join("");

let cwd = "";
beforeEach(() => {
  cwd = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-doors-")));
  writeFileSync(join(cwd, "a.jobsheet"), job);
});
afterEach(() => rmSync(cwd, { recursive: true, force: true }));

function splitpin(words: readonly string[], node: readonly string[] = []) {
  const { status, signal, stdout, stderr } = spawnSync(process.execPath, [...node, program, ...words], { cwd, encoding: "utf8" });
  return { status, signal, out: stdout, err: stderr };
}
/** The same door in this process, where it is not the process that is tried: a start costs more than all that it does. */
async function here(words: readonly string[]) {
  const { code, out, err } = await inProcess(words, cwd);
  return { status: code, out, err };
}
const at = (name: string) => join(cwd, name);

describe("--out", () => {
  test("never writes over the sheet, nor over any sheet, nor by a link that leads to one", async () => {
    writeFileSync(at("b.jobsheet"), "mine\n");
    symlinkSync("b.jobsheet", at("b.html"));
    for (const name of ["a.jobsheet", "b.jobsheet", "new.jobsheet", "b.html", "A.JOBSHEET"]) {
      const ran = await here(["release", "a.jobsheet", "--out", name]);
      expect([name, ran.status, ran.out], ran.err).toEqual([name, 2, ""]);
      expect(ran.err).toContain(`${name} is a job sheet: nothing was written over it`);
    }
    expect(readFileSync(at("a.jobsheet"), "utf8")).toBe(job);
    expect(readFileSync(at("b.jobsheet"), "utf8")).toBe("mine\n");
    expect(existsSync(at("new.jobsheet"))).toBe(false);
  });
  test("nor over a price list or a photo that was read for it", async () => {
    mkdirSync(at("lists"));
    writeFileSync(at("lists/alder.csv"), "item,price\nhub,4.00\n");
    writeFileSync(at("hub.png"), Buffer.from("89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c489", "hex"));
    writeFileSync(
      at("a.jobsheet"),
      `${job.replace(/release.*\n/, "")}  photo "hub.png"\nsupplier alder "Alder Lane"\n  currency GBP\n  prices "lists/alder.csv"\n`,
    );
    const order = await here(["order", "a.jobsheet", "--out", "lists/alder.csv"]);
    expect([order.status, order.err]).toEqual([2, "splitpin: lists/alder.csv was read for this: nothing was written over it. Give --out another name.\n"]);
    expect(readFileSync(at("lists/alder.csv"), "utf8")).toContain("hub,4.00");
    const before = readFileSync(at("hub.png"));
    expect((await here(["release", "a.jobsheet", "--format", "html", "--out", "hub.png"])).status).toBe(2);
    expect(readFileSync(at("hub.png")).equals(before)).toBe(true);
  });
  test("takes neither a dash for a file nor a folder that is not there", async () => {
    const before = readdirSync(cwd).sort();
    for (const name of ["-", "new.md/", ""]) {
      const ran = await here(["release", "a.jobsheet", "--out", name]);
      expect([name, ran.status, ran.out], ran.err).toEqual([name, 2, ""]);
      expect(ran.err).toMatch(/^splitpin: --out takes the name of a file/);
    }
    expect(readdirSync(cwd).sort()).toEqual(before);
  });

  test("puts nothing in the place of a file that the shell prints into", () => {
    symlinkSync("/dev/stdout", at("link.txt"));
    for (const name of ["/dev/stdout", "/dev/fd/1", "/proc/self/fd/1", "link.txt"]) {
      const file = openSync(at("printed"), "w");
      const before = fstatSync(file).ino;
      const ran = spawnSync(process.execPath, [program, "order", "a.jobsheet", "--out", name], { cwd, stdio: ["ignore", file, "pipe"], encoding: "utf8" });
      closeSync(file);
      expect([name, ran.status, ran.stderr]).toEqual([name, 2, expect.stringContaining("not a file but a device or a pipe")]);
      expect([statSync(at("printed")).ino, readFileSync(at("printed"), "utf8")]).toEqual([before, ""]);
    }
  });

  test("leaves devices, pipes, folders and what is read-only as they are", async () => {
    execFileSync("mkfifo", [at("pipe")]);
    mkdirSync(at("folder"));
    writeFileSync(at("shut.txt"), "shut\n");
    chmodSync(at("shut.txt"), 0o444);
    symlinkSync("/dev/null", at("null.txt"));
    for (const [name, why] of [
      ["pipe", "not a file but a device or a pipe"],
      ["null.txt", "not a file but a device or a pipe"],
      ["folder", "is a folder"],
      ["shut.txt", "is read-only"],
      ["no/such/it.txt", "has no folder to lie in"],
    ] as const) {
      const ran = await here(["order", "a.jobsheet", "--out", name]);
      expect([name, ran.status]).toEqual([name, 2]);
      expect(ran.err).toContain(why);
      expect(ran.err.trimEnd().split("\n")).toHaveLength(1);
    }
    expect(statSync(at("pipe")).isFIFO()).toBe(true);
    expect(statSync("/dev/null").isCharacterDevice()).toBe(true);
    expect(readFileSync(at("shut.txt"), "utf8")).toBe("shut\n");
    chmodSync(at("a.jobsheet"), 0o444);
    writeFileSync(at("untidy.jobsheet"), 'part   hub "Hub"\n');
    chmodSync(at("untidy.jobsheet"), 0o444);
    const formatted = await here(["format", "untidy.jobsheet"]);
    expect([formatted.status, readFileSync(at("untidy.jobsheet"), "utf8")]).toEqual([2, 'part   hub "Hub"\n']);
    expect(formatted.err).toContain("untidy.jobsheet could not be written, and is as it was: it is read-only.");
  });
  test("keeps owner, rights and links", async () => {
    writeFileSync(at("real.txt"), "old\n");
    chmodSync(at("real.txt"), 0o640);
    const root = process.getuid?.() === 0;
    if (root) chownSync(at("real.txt"), 12345, 23456);
    symlinkSync("real.txt", at("link.txt"));
    symlinkSync("not-yet.txt", at("ahead.txt"));
    expect((await here(["order", "a.jobsheet", "--out", "link.txt"])).status).toBe(0);
    expect((await here(["order", "a.jobsheet", "--out", "ahead.txt"])).status).toBe(0);
    const { mode, uid, gid } = statSync(at("real.txt"));
    expect(mode & 0o777).toBe(0o640);
    if (root) expect([uid, gid]).toEqual([12345, 23456]);
    expect(readFileSync(at("real.txt"), "utf8")).toContain("Parts order");
    expect(readFileSync(at("not-yet.txt"), "utf8")).toContain("Parts order");
    linkSync(at("real.txt"), at("other-name.txt"));
    const before = readFileSync(at("real.txt"), "utf8");
    const ran = await here(["release", "a.jobsheet", "--out", "real.txt"]);
    expect([ran.status, readFileSync(at("other-name.txt"), "utf8")]).toEqual([2, before]);
    expect(ran.err).toContain("has more than one name on the disk");
  });
  test("behind a link that leads back to itself, and from a folder that has gone: a line, and no name of a fault of the system", () => {
    symlinkSync("round", at("round"));
    const looped = splitpin(["order", "a.jobsheet", "--out", "round/order.txt"]);
    expect([looped.status, looped.err]).toEqual([2, "splitpin: round/order.txt could not be written: it is behind a link that leads back to itself.\n"]);
    mkdirSync(at("gone"));
    const script = `cd gone && rmdir ../gone && exec "$0" "$1" check ../a.jobsheet`;
    const gone = spawnSync("sh", ["-c", script, process.execPath, program], { cwd, encoding: "utf8" });
    expect([gone.status, gone.stderr]).toEqual([2, "splitpin: The folder that you are in is not there any more.\n"]);
  });
  test.each(["before", "after"])("killed right %s it takes the old file's place, it leaves the old one or the new one, whole", (when) => {
    writeFileSync(at("kill.cjs"), killing(when));
    writeFileSync(at("order.txt"), "old\n");
    const ran = splitpin(["order", "a.jobsheet", "--out", "order.txt"], ["--require", at("kill.cjs")]);
    expect(ran.signal).toBe("SIGKILL");
    const text = readFileSync(at("order.txt"), "utf8");
    if (when === "before") expect(text).toBe("old\n");
    else expect(text).toMatch(/^Parts order[\s\S]*paid for, and again before the part is fitted\.\n$/);
    // What the killed one left beside it goes with the next, of whatever name; what is not ours, or of one that still writes, stays.
    const others = [".notes.1.part", `.other.txt.${process.pid}.splitpin-part`];
    for (const it of others) writeFileSync(at(it), "");
    expect(splitpin(["order", "a.jobsheet", "--out", "another.txt"]).status).toBe(0);
    expect(readdirSync(cwd).filter((it) => it.endsWith("part"))).toEqual(others);
    for (const it of others) rmSync(at(it));
    writeFileSync(at("untidy.jobsheet"), 'part   hub "Hub"\n');
    splitpin(["format", "untidy.jobsheet"], ["--require", at("kill.cjs")]);
    expect(['part   hub "Hub"\n', 'part hub "Hub"\n']).toContain(readFileSync(at("untidy.jobsheet"), "utf8"));
  });
});

/** A module that kills its own process at the very moment of a rename. */
function killing(when: string): string {
  const kill = 'process.kill(process.pid, "SIGKILL"); for (;;) {}';
  return `const fs = require("node:fs");
const { syncBuiltinESMExports } = require("node:module");
const rename = fs.renameSync;
fs.renameSync = (...words) => { ${when === "before" ? kill : `rename(...words); ${kill}`} };
syncBuiltinESMExports();
`;
}

describe("what it ends with", () => {
  test("the verdict outlives its reader", () => {
    writeFileSync(at("a.jobsheet"), longJob);
    for (const command of ["release", "check"]) {
      const ran = spawnSync("bash", ["-c", `"$0" "$1" ${command} a.jobsheet | head -n 1 > /dev/null; echo "\${PIPESTATUS[0]}"`, process.execPath, program], {
        cwd,
        encoding: "utf8",
      });
      expect([command, ran.stdout, ran.stderr]).toEqual([command, "1\n", ""]);
    }
  });
  test("a full disk is one clear line, and no verdict", () => {
    for (const words of ["release a.jobsheet", "check a.jobsheet", "order a.jobsheet --format html"]) {
      const ran = spawnSync("bash", ["-c", `"$0" "$1" ${words} > /dev/full`, process.execPath, program], { cwd, encoding: "utf8" });
      expect([words, ran.status, ran.stderr]).toEqual([words, 2, "splitpin: What there was to say could not be written: the disk is full.\n"]);
    }
  });
  test("one sheet that can't be read is told, the others are worked out, and it ends with 2", async () => {
    writeFileSync(at("bad.jobsheet"), Buffer.from([0x70, 0xff]));
    for (const command of ["release", "order", "readings", "left", "plan", "check"]) {
      const ran = await inProcess([command, "."], cwd);
      expect([command, ran.code]).toEqual([command, 2]);
      expect(ran.err).toContain("bad.jobsheet has letters on line 1 that are not UTF-8");
      if (command !== "check") expect(ran.err).toContain("left out of this, so it is not the whole of it");
      expect(ran.out.length).toBeGreaterThan(50);
    }
    rmSync(at("a.jobsheet"));
    expect(splitpin(["release", "."])).toMatchObject({ status: 2, out: "" });
  });
  test.each([
    [["check", ""], "“” is an empty name, and no sheet or folder has one"],
    [["order", "a.jobsheet", "--out", "x.txt", "--out", "y.txt"], "--out is given twice"],
    [["order", "a.jobsheet", "--out", ""], "--out takes the name of a file"],
    // What the system could not say of a name comes as this letter.
    [["order", "a.jobsheet", "--out", "caf\ufffd.txt"], "--out takes a name in UTF-8"],
    [["order", "a.jobsheet", "--format", "md", "--format", "csv"], "--format is given twice"],
  ])("%j: %s", async (words, why) => {
    const ran = await here(words);
    expect([ran.status, ran.out]).toEqual([2, ""]);
    expect(ran.err).toContain(why);
    expect(readdirSync(cwd)).toEqual(["a.jobsheet"]);
  });
  test("folders too deep to be looked at are told", async () => {
    const deep = join(cwd, ...Array.from({ length: 70 }, () => "d"));
    mkdirSync(deep, { recursive: true });
    writeFileSync(join(deep, "b.jobsheet"), job);
    const ran = await here(["check", "."]);
    expect(ran.status).toBe(2);
    expect(ran.err).toContain("lies too deep in its folders, and what is in it was not looked at");
    expect(ran.out).toContain("a.jobsheet");
    // Of what was not looked at nobody says that it is empty.
    const only = await here(["check", "d"]);
    expect([only.status, only.err.split("\n").length]).toEqual([2, 2]);
    expect(only.err).toContain("lies too deep");
  });
  test("folders whose names together are longer than a path may be are told", async () => {
    const name = "d".repeat(200);
    spawnSync("bash", ["-c", `for i in $(seq 30); do mkdir ${name} && cd ${name}; done; echo 'part a "A"' > b.jobsheet`], { cwd });
    try {
      const ran = await here(["check", "."]);
      expect(ran.status).toBe(2);
      expect(ran.err).toContain("lies too deep in its folders, and what is in it was not looked at");
      expect(ran.out).toContain("a.jobsheet");
    } finally {
      spawnSync("rm", ["-rf", join(cwd, name)]);
    }
  });
  test("a name that is not UTF-8 is told truly", async () => {
    writeFileSync(Buffer.concat([Buffer.from(`${cwd}/caf`), Buffer.from([0xe9]), Buffer.from(".jobsheet")]), job);
    const ran = await here(["check", "."]);
    expect(ran.status).toBe(2);
    expect(ran.err).toContain("has a name that is not UTF-8, and can't be opened by it: rename it");
    // As the system hands such a name to the program that was given it.
    expect((await here(["check", "caf\ufffd.jobsheet"])).err).toContain("has a name that is not UTF-8, and can't be opened by it: rename it");
  });
});

describe("names that try to act", () => {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not get through.
  const acts = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;
  const evil = "\u001b[31m\u009b2J\u202ex";
  test("of files, commands, rules and options, on errors too", async () => {
    writeFileSync(at(`${evil}.jobsheet`), 'part   hub "Hub"\nfinding hubb\n');
    for (const words of [
      ["check", `${evil}.jobsheet`],
      ["check", `${evil}.txt`],
      ["format", "--check", `${evil}.jobsheet`],
      ["release", `${evil}.jobsheet`],
      ["left", `${evil}.jobsheet`],
      ["order", `${evil}.jobsheet`],
      [evil],
      ["explain", evil],
      ["check", `--${evil}`],
      ["check", "--format", evil],
      ["order", "a.jobsheet", "--choose", evil],
      ["order", "a.jobsheet", "--format", "letter", "--supplier", evil],
      ["order", "a.jobsheet", "--out", `no/${evil}`],
      ["plan", "a.jobsheet", "--from", evil],
      ["figure", evil],
      ["figure", evil, "--format", "json"],
      ["check", `${evil}.jobsheet`, "--format", "json"],
    ]) {
      const ran = await inProcess(words, cwd);
      expect([words, acts.exec(ran.out + ran.err)?.[0].charCodeAt(0)]).toEqual([words, undefined]);
    }
  });
  test("JSON reads back as it was", () => {
    const text = "a\u009b\u202e\u2028\u0085é";
    expect(json({ text })).not.toMatch(/[\u0085\u009b\u202e\u2028]/);
    expect(JSON.parse(json({ text }))).toEqual({ text });
  });
  test("no part of a CSV cell begins a formula, whatever sign parts the cells", () => {
    for (const sign of [";", "|", "\t"]) {
      for (const text of [`x${sign}=1+1`, `x${sign} +1`, `x${sign}@SUM(A1)`, `x"${sign}"=1`, `=1${sign}2`]) {
        // Read as somebody's spreadsheet would that parts cells at this sign, with quotes and without.
        const parts = cell(text).split(new RegExp(`[${sign === "|" ? "\\|" : sign}"]`));
        expect(
          parts.filter((it) => /^\s*[=+\-@]/.test(it)),
          `${text} became ${cell(text)}`,
        ).toEqual([]);
      }
    }
    expect(cell("wear; new at 0.002 in")).toBe("wear; new at 0.002 in");
  });
});
