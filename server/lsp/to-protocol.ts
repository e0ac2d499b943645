// Diagnostics and places in the shapes of the Language Server Protocol.
// Invariant: positions count UTF-16 units, as the protocol does where nothing else was agreed.
import {
  type Diagnostic as ProtocolDiagnostic,
  DiagnosticSeverity,
  DiagnosticTag,
  type Location,
  type Range,
  type TextEdit,
  type WorkspaceEdit,
} from "vscode-languageserver-types";
import type { Diagnostic, Place } from "../service.ts";
import { hrefOfRule } from "./rule-link.ts";

/** The URI of a file of the workspace, by its path. */
export type UriOf = (path: string) => string;

/** What can be sent at once: more squiggles than this help nobody, and slow every editor. */
const mostDiagnostics = 300;

/** Of the lines that belong to one: a release may be barred by thousands. */
const mostRelated = 300;

const severities = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
} as const;
const gravestFirst = ["error", "warning", "information", "hint"] as const;

/**
 * The list to send: the gravest are kept where there are too many, and a line says how many more there are. `shapes` keeps what was made of a
 * diagnostic for the next list that it is in.
 */
export function diagnosticsToSend(list: readonly Diagnostic[], uriOf: UriOf, shapes = new WeakMap<Diagnostic, ProtocolDiagnostic>()): ProtocolDiagnostic[] {
  const shape = (it: Diagnostic): ProtocolDiagnostic => {
    let made = shapes.get(it);
    if (made === undefined) {
      made = toDiagnostic(it, uriOf);
      // The URI of another file is another one when that file is opened or closed.
      if (it.related.every((related) => related.file === it.file)) shapes.set(it, made);
    }
    return made;
  };
  if (list.length <= mostDiagnostics) return list.map(shape);
  const kept = new Set<Diagnostic>();
  for (const severity of gravestFirst) {
    for (const it of list) {
      if (kept.size === mostDiagnostics) break;
      if (it.severity === severity) kept.add(it);
    }
  }
  const sent = list.filter((it) => kept.has(it)).map(shape);
  const left = list.length - mostDiagnostics;
  sent.push({
    range: rangeOf(0, 0, 0),
    severity: DiagnosticSeverity.Information,
    source: "splitpin",
    message: `${left} more on this sheet ${left === 1 ? "is" : "are"} not shown here, none graver than these. The command line shows all: splitpin check.`,
  });
  return sent;
}

export function toDiagnostic(it: Diagnostic, uriOf: UriOf): ProtocolDiagnostic {
  const made: ProtocolDiagnostic = {
    range: rangeOf(it.line, it.from, it.to),
    severity: severities[it.severity],
    code: it.rule,
    source: "splitpin",
    message: it.message,
  };
  const href = hrefOfRule(it.rule);
  if (href !== undefined) made.codeDescription = { href };
  if (it.rule === "unused") made.tags = [DiagnosticTag.Unnecessary];
  if (it.related.length > 0) {
    made.relatedInformation = it.related.slice(0, mostRelated).map((related) => ({ location: toLocation(related, uriOf), message: related.message }));
    const left = it.related.length - mostRelated;
    if (left > 0) made.relatedInformation.push({ location: toLocation(it, uriOf), message: `${left} more ${left === 1 ? "is" : "are"} not shown here.` });
  }
  return made;
}

export function toLocation(place: Place, uriOf: UriOf): Location {
  return { uri: uriOf(place.file), range: rangeOf(place.line, place.from, place.to) };
}

/** Texts to be put in the place of others, each on one line, in any file of the workspace. */
export function toWorkspaceEdit(edits: readonly (Place & { readonly text: string })[], uriOf: UriOf): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const it of edits) {
    const uri = uriOf(it.file);
    changes[uri] ??= [];
    changes[uri].push({ range: rangeOf(it.line, it.from, it.to), newText: it.text });
  }
  return { changes };
}

export function rangeOf(line: number, from: number, to: number): Range {
  return { start: { line, character: from }, end: { line, character: Math.max(from, to) } };
}
