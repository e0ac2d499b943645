// Fixes as code actions: a fix that leaves something blank puts the cursor there, where the editor takes snippets in edits.
import type {
  ClientCapabilities,
  CodeAction,
  CodeActionContext,
  Diagnostic as ProtocolDiagnostic,
  Range,
  SnippetTextEdit,
  TextEdit,
  WorkspaceEdit,
} from "vscode-languageserver";
import { CodeActionKind } from "vscode-languageserver-types";
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import { type Diagnostic, type FixOffered, asSnippet, fixesFor, spellings } from "../service.ts";
import { type UriOf, rangeOf, toDiagnostic, toWorkspaceEdit } from "./to-protocol.ts";

export interface ActionsAsked {
  readonly range: Range;
  readonly context: CodeActionContext;
  readonly client: ClientCapabilities;
  /** Of the sheet that is asked about. */
  readonly version: number | null;
  readonly sheet: SheetText | undefined;
  /** How the lines of a file end: what a fix puts in ends so too. */
  newlineOf(file: string): string;
}

/** Spelling fixes together: in the menu of source actions, and at each save where somebody has set it so. */
const fixAllKind = `${CodeActionKind.SourceFixAll}.splitpin`;

export const actionKinds: string[] = [CodeActionKind.QuickFix, CodeActionKind.SourceFixAll];

export function toCodeActions(list: readonly Diagnostic[], asked: ActionsAsked, uriOf: UriOf): CodeAction[] {
  const { only } = asked.context;
  const wants = (kind: string) => only === undefined || only.some((it) => it === "" || kind === it || kind.startsWith(`${it}.`));
  const out: CodeAction[] = [];
  if (wants(CodeActionKind.QuickFix)) {
    for (const it of fixesFor(list, asked.range, asked.context.diagnostics ?? [])) out.push(quickFix(it, asked, uriOf));
  }
  // Nobody who asks at a line means the whole sheet.
  if (only !== undefined && wants(fixAllKind)) {
    const all = spellings(list);
    if (all.length > 0) {
      const title = `Mend ${all.length === 1 ? "the spelling of one word" : `the spelling of ${all.length} words`}`;
      out.push({ title, kind: fixAllKind, edit: plainEdit(all, asked, uriOf) });
    }
  }
  return out;
}

function quickFix(it: FixOffered, asked: ActionsAsked, uriOf: UriOf): CodeAction {
  const of = toDiagnostic(it.of, uriOf);
  return {
    title: it.fix.title,
    kind: CodeActionKind.QuickFix,
    // The editor's own word for it, so that it knows what the fix is of.
    diagnostics: [asked.context.diagnostics?.find((known) => isSame(known, of)) ?? of],
    edit: snippetEdit(it, asked, uriOf) ?? plainEdit([it], asked, uriOf),
    ...(it.preferred ? { isPreferred: true } : {}),
  };
}

function plainEdit(list: readonly FixOffered[], { newlineOf }: ActionsAsked, uriOf: UriOf): WorkspaceEdit {
  return toWorkspaceEdit(
    list.flatMap(({ fix }) => fix.edits.map((it) => ({ ...it, text: it.text.replaceAll("\n", newlineOf(it.file)) }))),
    uriOf,
  );
}

/** Undefined where nothing is left blank, where another file is written into, or where the editor takes no snippets there. */
function snippetEdit({ of, fix }: FixOffered, { client, version, sheet, newlineOf }: ActionsAsked, uriOf: UriOf): WorkspaceEdit | undefined {
  const can = client.workspace?.workspaceEdit;
  if (can?.documentChanges !== true || can.snippetEditSupport !== true) return undefined;
  if (fix.edits.some((it) => it.file !== of.file) || !fix.edits.some((it) => it.text.includes("___"))) return undefined;
  const indent = (line: number) => (sheet === undefined ? "" : (/^\s*/.exec(lineText(sheet, line))?.[0] ?? ""));
  // A line that is to be less set in than the one above it can't be said so.
  if (fix.edits.some((it) => it.text.includes("___") && withoutIndent(it.text, indent(it.line)) === undefined)) return undefined;
  let stops = 0;
  const edits = fix.edits.map((it): TextEdit | SnippetTextEdit => {
    const range = rangeOf(it.line, it.from, it.to);
    const ended = (text: string) => text.replaceAll("\n", newlineOf(it.file));
    if (!it.text.includes("___")) return { range, newText: ended(it.text) };
    const made = asSnippet(withoutIndent(it.text, indent(it.line)) ?? "", stops);
    stops = made.stops;
    return { range, snippet: { kind: "snippet", value: ended(made.text) } };
  });
  return { documentChanges: [{ textDocument: { uri: uriOf(of.file), version }, edits }] };
}

function isSame(a: ProtocolDiagnostic, b: ProtocolDiagnostic): boolean {
  return a.code === b.code && a.range.start.line === b.range.start.line && a.range.start.character === b.range.start.character;
}

/** Editors set the further lines of a snippet in as the line is on which it begins: what they add is taken off. */
function withoutIndent(text: string, indent: string): string | undefined {
  const [first = "", ...more] = text.split("\n");
  if (more.some((line) => line !== "" && !line.startsWith(indent))) return undefined;
  return [first, ...more.map((line) => line.slice(indent.length))].join("\n");
}
