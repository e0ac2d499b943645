// Fixes as code actions: a fix that leaves something blank puts the cursor there, where the editor takes snippets in edits.
import {
  type ClientCapabilities,
  type CodeAction,
  type CodeActionContext,
  CodeActionKind,
  type Diagnostic as ProtocolDiagnostic,
  type Range,
  type SnippetTextEdit,
  type TextEdit,
  type WorkspaceEdit,
} from "vscode-languageserver";
import { type FixOffered, fixesFor, spellings } from "../features/fixes.ts";
import { asSnippet } from "../features/snippets.ts";
import type { Diagnostic } from "../rules/check.ts";
import { rangeOf, toDiagnostic } from "./to-protocol.ts";
import type { Root, Workspaces } from "./workspaces.ts";

export interface ActionsAsked {
  readonly range: Range;
  readonly context: CodeActionContext;
  readonly client: ClientCapabilities;
  /** Of the sheet that is asked about. */
  readonly version: number | null;
}

/** Spelling fixes together: in the menu of source actions, and at each save where somebody has set it so. */
export const fixAllKind = `${CodeActionKind.SourceFixAll}.splitpin`;

export const actionKinds: string[] = [CodeActionKind.QuickFix, CodeActionKind.SourceFixAll];

export function toCodeActions(list: readonly Diagnostic[], asked: ActionsAsked, root: Root, workspaces: Workspaces): CodeAction[] {
  const { only } = asked.context;
  const wants = (kind: string) => only === undefined || only.some((it) => it === "" || kind === it || kind.startsWith(`${it}.`));
  const out: CodeAction[] = [];
  if (wants(CodeActionKind.QuickFix)) {
    for (const it of fixesFor(list, asked.range, asked.context.diagnostics ?? [])) out.push(quickFix(it, asked, root, workspaces));
  }
  // Nobody who asks at a line means the whole sheet.
  if (only !== undefined && wants(fixAllKind)) {
    const all = spellings(list);
    if (all.length > 0) {
      const title = `Mend ${all.length === 1 ? "the spelling of one word" : `the spelling of ${all.length} words`}`;
      out.push({ title, kind: fixAllKind, edit: plainEdit(all, root, workspaces) });
    }
  }
  return out;
}

function quickFix(it: FixOffered, asked: ActionsAsked, root: Root, workspaces: Workspaces): CodeAction {
  const of = toDiagnostic(it.of, root, workspaces);
  return {
    title: it.fix.title,
    kind: CodeActionKind.QuickFix,
    // The editor's own word for it, so that it knows what the fix is of.
    diagnostics: [asked.context.diagnostics?.find((known) => isSame(known, of)) ?? of],
    edit: snippetEdit(it, asked, root, workspaces) ?? plainEdit([it], root, workspaces),
    ...(it.preferred ? { isPreferred: true } : {}),
  };
}

function plainEdit(list: readonly FixOffered[], root: Root, workspaces: Workspaces): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const { fix } of list) {
    for (const edit of fix.edits) {
      const uri = workspaces.uriOf(root, edit.file);
      changes[uri] ??= [];
      changes[uri].push({ range: rangeOf(edit.line, edit.from, edit.to), newText: edit.text });
    }
  }
  return { changes };
}

/** Undefined where nothing is left blank, where another file is written into, or where the editor takes no snippets there. */
function snippetEdit({ of, fix }: FixOffered, { client, version }: ActionsAsked, root: Root, workspaces: Workspaces): WorkspaceEdit | undefined {
  const can = client.workspace?.workspaceEdit;
  if (can?.documentChanges !== true || can.snippetEditSupport !== true) return undefined;
  if (fix.edits.some((it) => it.file !== of.file) || !fix.edits.some((it) => it.text.includes("___"))) return undefined;
  let stops = 0;
  const edits = fix.edits.map((it): TextEdit | SnippetTextEdit => {
    const range = rangeOf(it.line, it.from, it.to);
    if (!it.text.includes("___")) return { range, newText: it.text };
    const made = asSnippet(it.text, stops);
    stops = made.stops;
    return { range, snippet: { kind: "snippet", value: made.text } };
  });
  return { documentChanges: [{ textDocument: { uri: workspaces.uriOf(root, of.file), version }, edits }] };
}

function isSame(a: ProtocolDiagnostic, b: ProtocolDiagnostic): boolean {
  return a.code === b.code && a.range.start.line === b.range.start.line && a.range.start.character === b.range.start.character;
}
