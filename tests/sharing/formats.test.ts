// What other programs take in: SARIF 2.1.0 held to its JSON schema (as @microsoft/jest-sarif ships it), JUnit XML and CSV read back by libraries of the registry.
import { mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Draft4 from "ajv-draft-04";
import { parse as parseCsv } from "csv-parse/sync";
import { XMLParser, XMLValidator } from "fast-xml-parser";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { splitpin } from "../cli/desk.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const schema = JSON.parse(readFileSync(`${root}node_modules/@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json`, "utf8"));
// Formats of texts (uri, date-time) are looked at below where there are any.
const valid = new Draft4({ strict: false, validateFormats: false, unicodeRegExp: false, allErrors: true }).compile(schema);

const evil = `<&"']]> \u0001 \u001b[31m \u202e ${"=1+1"} \ud83d\udd29`;
const sheet = `sheet "A <job> & more"
  machine "Mill; \\"old\\""
places side left, right
part hub "Hub ${evil.replaceAll('"', "'")}"
fastener hub-nut "Hub nut"
  each side
  locked by split pin 1/8 x 1-1/4 in
  critical "a wheel"
limit play "=Play ${evil.replaceAll('"', "'")}"
  each side
  worn max 0.50 mm
  new -0.05 .. 0.05 mm
  source "leaflet"
gauge dial "Dial"
  uncertainty 0.02 mm
day 2026-03-01
measure play found by dial
  left -0.02, 0.51 mm
  right again 0.10, 0.12 mm
finding hub-nut left
  is loose
  decision reuse
what is this
`;
let cwd = "";
beforeAll(() => {
  cwd = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-formats-")));
  writeFileSync(join(cwd, "a job #1.jobsheet"), sheet);
  writeFileSync(join(cwd, "sound.jobsheet"), 'sheet "Sound"\n');
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

interface Sarif {
  readonly version: string;
  readonly runs: readonly {
    readonly tool: { readonly driver: { readonly semanticVersion: string; readonly rules: readonly { readonly id: string }[] } };
    readonly invocations: readonly {
      readonly executionSuccessful: boolean;
      readonly toolExecutionNotifications: readonly { readonly message: { readonly text: string } }[];
    }[];
    readonly results: readonly {
      readonly ruleId: string;
      readonly ruleIndex: number;
      readonly level: string;
      readonly message: { readonly text: string };
      readonly locations: readonly {
        readonly physicalLocation: { readonly artifactLocation: { readonly uri: string }; readonly region: Readonly<Record<string, number>> };
      }[];
    }[];
  }[];
}
interface Json {
  readonly diagnostics: readonly {
    readonly file: string;
    readonly line: number;
    readonly column: number;
    readonly endColumn: number;
    readonly severity: string;
    readonly rule: string;
    readonly message: string;
  }[];
}
const json = async (paths: readonly string[]) => (JSON.parse((await splitpin(["check", ...paths, "--format", "json"], cwd)).out) as Json).diagnostics;

describe("SARIF", () => {
  test("is valid by its schema, with something wrong, with nothing, with what can't be read, and of every sample", async () => {
    for (const [paths, at] of [
      [["a job #1.jobsheet"], cwd],
      [["sound.jobsheet"], cwd],
      [["sound.jobsheet", "none.jobsheet"], cwd],
      [["samples"], root],
    ] as const) {
      const { out } = await splitpin(["check", ...paths, "--format", "sarif"], at);
      const made = JSON.parse(out) as Sarif;
      expect([paths, valid(made) ? [] : valid.errors?.slice(0, 3)]).toEqual([paths, []]);
      expect(made.version).toBe("2.1.0");
    }
    // The schema is no rubber stamp.
    expect(valid({ version: "2.1.0", runs: [{ tool: {} }] })).toBe(false);
  });
  test("says what the JSON says, at the same places", async () => {
    const [run] = (JSON.parse((await splitpin(["check", ".", "--format", "sarif"], cwd)).out) as Sarif).runs;
    const levels: Readonly<Record<string, string>> = { error: "error", warning: "warning", information: "note", hint: "note" };
    expect(run?.tool.driver.semanticVersion).toBe("1.2.3");
    expect(
      run?.results.map((it) => {
        const { artifactLocation, region } = (it.locations[0] as (typeof it.locations)[number]).physicalLocation;
        expect(run.tool.driver.rules[it.ruleIndex]?.id).toBe(it.ruleId);
        return [decodeURIComponent(artifactLocation.uri), region.startLine, region.startColumn, region.endColumn, it.level, it.ruleId, it.message.text];
      }),
    ).toEqual((await json(["."])).map((it) => [it.file, it.line, it.column, it.endColumn, levels[it.severity], it.rule, it.message]));
    expect(run?.results.length).toBeGreaterThan(3);
    // A # in a name is no fragment of an address.
    expect(run?.results[0]?.locations[0]?.physicalLocation.artifactLocation.uri).toBe("a%20job%20%231.jobsheet");
  });
  test("a sheet that could not be read is a run that did not succeed", async () => {
    const ran = await splitpin(["check", "sound.jobsheet", "none.jobsheet", "--format", "sarif"], cwd);
    expect(ran.code).toBe(2);
    const [invocation] = (JSON.parse(ran.out) as Sarif).runs[0]?.invocations ?? [];
    expect(invocation).toMatchObject({ executionSuccessful: false, toolExecutionNotifications: [{ message: { text: "none.jobsheet is not there." } }] });
  });
});

describe("JUnit", () => {
  const read = async (...paths: string[]) => {
    const { out } = await splitpin(["check", ...paths, "--format", "junit"], cwd);
    expect(XMLValidator.validate(out)).toBe(true);
    const parser = new XMLParser({
      ignoreAttributes: false,
      attributeNamePrefix: "",
      processEntities: true,
      htmlEntities: true,
      isArray: (name) => ["testsuite", "testcase"].includes(name),
    });
    return { out, suites: parser.parse(out).testsuites as Suites };
  };
  interface Suites {
    readonly tests: string;
    readonly failures: string;
    readonly errors: string;
    readonly testsuite: readonly {
      readonly name: string;
      readonly tests: string;
      readonly failures: string;
      readonly testcase: readonly { readonly name: string; readonly line?: string; readonly failure?: { readonly type: string; readonly message: string } }[];
    }[];
  }
  test("has a suite a sheet and a failure an error, and one that passes where there is none", async () => {
    const { suites } = await read(".");
    const errors = (await json(["."])).filter((it) => it.severity === "error");
    expect(errors.length).toBeGreaterThan(1);
    expect([suites.failures, suites.errors, suites.testsuite.map((it) => it.name)]).toEqual([
      String(errors.length),
      "0",
      ["a job #1.jobsheet", "sound.jobsheet"],
    ]);
    const [wrong, sound] = suites.testsuite;
    expect(wrong?.testcase.map((it) => [it.line, it.failure?.type])).toEqual(errors.map((it) => [String(it.line), it.rule]));
    expect(sound?.testcase.map((it) => [it.name, it.failure])).toEqual([["nothing at error", undefined]]);
    const counted = suites.testsuite.reduce((sum, it) => sum + it.testcase.length, 0);
    expect(suites.tests).toBe(String(counted));
  });
  test("no text of a sheet is markup in it, or a character that XML 1.0 forbids", async () => {
    const { out } = await read(".");
    // XML 1.0, production 2.
    // biome-ignore lint/suspicious/noControlCharactersInRegex: a tab is allowed.
    expect(out).toMatch(/^[\u0009\u000a\u000d\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]*$/u);
    expect(out).not.toContain("<job>");
  });
  test("a sheet that could not be read is an error", async () => {
    const { suites } = await read("sound.jobsheet", "none.jobsheet");
    expect([suites.tests, suites.failures, suites.errors]).toEqual(["2", "0", "1"]);
  });
});

describe("readings as CSV", () => {
  test("a row a figure, read back by csv-parse; a figure below nothing stays a figure, and no text becomes a formula", async () => {
    const { out, code } = await splitpin(["readings", ".", "--format", "csv"], cwd);
    expect(code).toBe(0);
    const rows = parseCsv(out, { columns: true }) as Record<string, string>[];
    expect(rows.map((it) => [it.sheet, it.limit, it.place, it.stage, it.day, it.reading, it.unit, it.times, it.uncertainty, it.gauge, it.worn])).toEqual([
      ["a job #1.jobsheet", "play", "left", "found", "2026-03-01", "-0.02", "mm", "1", "0.02", "Dial", "max 0.50 mm"],
      ["a job #1.jobsheet", "play", "left", "found", "2026-03-01", "0.51", "mm", "1", "0.02", "Dial", "max 0.50 mm"],
      // Tried again: the mean of 0.10 and 0.12.
      ["a job #1.jobsheet", "play", "right", "found", "2026-03-01", "0.11", "mm", "2", "0.02", "Dial", "max 0.50 mm"],
    ]);
    expect(rows[0]?.title?.startsWith("'=Play")).toBe(true);
    expect(out.split("\r\n")[0]).toMatch(/^sheet,machine,serial,limit,/);
    expect(out.endsWith("\r\n")).toBe(true);
  });
});

describe("what fails", () => {
  const ends = async (text: string, ...words: string[]) => {
    writeFileSync(join(cwd, "one.jobsheet"), text);
    const { code } = await splitpin(["check", "one.jobsheet", ...words], cwd);
    rmSync(join(cwd, "one.jobsheet"));
    return code;
  };
  const loose = sheet.replace("what is this\n", "");
  test("an open finding fails a check, and is no reason to keep a sheet back", async () => {
    expect(await ends(loose)).toBe(1);
    expect(await ends(loose, "--fail-on", "unclear")).toBe(0);
  });
  test("a line that can't be read, a figure without a unit and a release that does not hold are", async () => {
    expect(await ends(sheet, "--fail-on", "unclear")).toBe(1);
    expect(await ends(loose.replace("left -0.02, 0.51 mm", "left 0.51"), "--fail-on", "unclear")).toBe(1);
    expect(await ends(`${loose}release by "A. Vale" 2026-03-02\n`, "--fail-on", "unclear")).toBe(1);
  });
  test("another word is refused", async () => {
    expect(await ends(loose, "--fail-on", "never")).toBe(2);
  });
});
