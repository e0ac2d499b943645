// What is wrong in sheets as JUnit XML, the form that most build servers show as tests: a suite a sheet, a case that fails for each error.
// Invariant: no text of a sheet is markup there, and no character that XML 1.0 forbids gets in. There is no clock: times are left out.
import type { Diagnostic } from "../../rules/check.ts";
import { plain } from "../draw/plain.ts";
import type { CheckedSheets } from "./sarif.ts";

export function junit({ diagnostics, shown, sheets, refused }: CheckedSheets): string {
  const bySheet = new Map<string, Diagnostic[]>(sheets.map((it) => [it, []]));
  for (const it of diagnostics) {
    const name = shown(it.file);
    const list = bySheet.get(name) ?? [];
    bySheet.set(name, list);
    list.push(it);
  }
  const errors = diagnostics.filter((it) => it.severity === "error").length;
  const suites = [...[...bySheet].map(([name, list]) => suiteOf(name, list)), ...refused.map((it) => refusedSuite(it.shown, it.why))];
  const tests = [...bySheet.values()].reduce((sum, list) => sum + Math.max(1, list.filter((it) => it.severity === "error").length), 0) + refused.length;
  return `<?xml version="1.0" encoding="UTF-8"?>
<testsuites name="splitpin" tests="${tests}" failures="${errors}" errors="${refused.length}">
${suites.join("")}</testsuites>
`;
}

function suiteOf(name: string, list: readonly Diagnostic[]): string {
  const failed = list.filter((it) => it.severity === "error");
  const rest = list.filter((it) => it.severity !== "error");
  const cases = failed.map(
    (it) => `    <testcase name="${xml(`line ${it.line + 1}: ${it.rule}`)}" classname="${xml(name)}" file="${xml(name)}" line="${it.line + 1}">
      <failure type="${xml(it.rule)}" message="${xml(it.message)}">${xml(placed(name, it))}</failure>
    </testcase>
`,
  );
  // A suite without a case is no suite to some.
  const sound = `    <testcase name="nothing at error" classname="${xml(name)}" file="${xml(name)}"/>\n`;
  const out = rest.length === 0 ? "" : `    <system-out>${rest.map((it) => xml(placed(name, it))).join("\n")}</system-out>\n`;
  return `  <testsuite name="${xml(name)}" tests="${Math.max(1, failed.length)}" failures="${failed.length}" errors="0">
${failed.length === 0 ? sound : cases.join("")}${out}  </testsuite>
`;
}

function refusedSuite(name: string, why: string): string {
  return `  <testsuite name="${xml(name)}" tests="1" failures="0" errors="1">
    <testcase name="read" classname="${xml(name)}" file="${xml(name)}">
      <error type="unread" message="${xml(`${name} ${why}`)}"/>
    </testcase>
  </testsuite>
`;
}

function placed(name: string, it: Diagnostic): string {
  return `${name}:${it.line + 1}:${it.from + 1} ${it.severity} ${it.rule}: ${it.message}`;
}

/** For text and attributes in double quotes alike. */
function xml(text: string): string {
  return plain(text)
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]|[\ufffe\uffff]/g, "\ufffd")
    .replace(/[&<>"']/g, (it) => `&#${it.charCodeAt(0)};`);
}
