// What is wrong in sheets as SARIF 2.1.0 (OASIS Static Analysis Results Interchange Format), for programs that gather such results.
// Invariant: relative addresses stay relative, columns are UTF-16 code units from 1; what could not be read is told as a notification, and the run as not successful.
import { rules } from "../../rules/all.ts";
import { pages } from "../../rules/pages.ts";
import type { RulePage, Severity } from "../../rules/rule.ts";
import type { Diagnostic } from "../../rules/check.ts";
import { json } from "../draw/as-json.ts";

export interface CheckedSheets {
  readonly diagnostics: readonly Diagnostic[];
  /** How a path of the core is named. */
  readonly shown: (path: string) => string;
  /** The sheets that were checked, as they are shown. */
  readonly sheets: readonly string[];
  readonly refused: readonly { readonly shown: string; readonly why: string }[];
  /** Of the program. */
  readonly version: string;
}

const levels: Readonly<Record<Severity, "error" | "warning" | "note">> = { error: "error", warning: "warning", information: "note", hint: "note" };

export function sarif({ diagnostics, shown, sheets, refused, version }: CheckedSheets): string {
  const indexes = new Map(rules.map((it, i) => [it.id, i]));
  return json({
    $schema: "https://json.schemastore.org/sarif-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "splitpin", semanticVersion: version, rules: rules.map(ruleOf) } },
        columnKind: "utf16CodeUnits",
        invocations: [
          {
            executionSuccessful: refused.length === 0,
            toolExecutionNotifications: refused.map((it) => ({
              level: "error",
              message: { text: `${it.shown} ${it.why}.` },
              locations: [{ physicalLocation: { artifactLocation: { uri: uriOf(it.shown) } } }],
            })),
          },
        ],
        artifacts: sheets.map((it) => ({ location: { uri: uriOf(it) }, mimeType: "text/plain" })),
        results: diagnostics.map((it) => ({
          ruleId: it.rule,
          ruleIndex: indexes.get(it.rule) ?? -1,
          level: levels[it.severity],
          message: { text: it.message },
          locations: [
            {
              physicalLocation: {
                artifactLocation: { uri: uriOf(shown(it.file)) },
                region: { startLine: it.line + 1, startColumn: it.from + 1, endLine: it.line + 1, endColumn: it.to + 1 },
              },
            },
          ],
          relatedLocations: it.related.map((related) => ({
            physicalLocation: { artifactLocation: { uri: uriOf(shown(related.file)) }, region: { startLine: related.line + 1 } },
            message: { text: related.message },
          })),
          properties: { severity: it.severity },
        })),
      },
    ],
  });
}

function ruleOf(rule: (typeof rules)[number]): object {
  const page = pages.get(rule.id) as RulePage;
  return {
    id: rule.id,
    shortDescription: { text: page.title },
    fullDescription: { text: page.why },
    help: { text: `${page.why}\n\nWrong:\n${page.wrong}\nRight:\n${page.right}` },
    properties: { tags: [rule.group, ...(rule.safety ? ["safety"] : [])], severity: page.severity },
  };
}

/** A name of a file as a URI reference (RFC 3986): nothing in it becomes a scheme, a host or a query. */
function uriOf(name: string): string {
  const path = name
    .split("/")
    .map((part) => encodeURIComponent(part.replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, "\ufffd")))
    .join("/");
  return name.startsWith("/") ? `file://${path.replace(/^\/+/, "/")}` : path;
}
