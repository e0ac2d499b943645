// Completions and outline items in the shapes of the Language Server Protocol.
import { type CompletionItem, CompletionItemKind, type DocumentSymbol, InsertTextFormat, SymbolKind } from "vscode-languageserver-types";
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Completion, OutlineItem, OutlineNode } from "../service.ts";
import { rangeOf } from "./to-protocol.ts";

const completionKinds = {
  keyword: CompletionItemKind.Keyword,
  thing: CompletionItemKind.Variable,
  place: CompletionItemKind.EnumMember,
  word: CompletionItemKind.Value,
  unit: CompletionItemKind.Unit,
  file: CompletionItemKind.File,
} as const;

export function toCompletionItem(it: Completion, line: number, snippets: boolean): CompletionItem {
  const asSnippet = snippets && it.snippet !== undefined;
  return {
    label: it.label,
    kind: completionKinds[it.sort],
    ...(it.detail === undefined ? {} : { detail: it.detail }),
    ...(it.documentation === undefined ? {} : { documentation: it.documentation }),
    sortText: String(it.rank).padStart(3, "0"),
    filterText: it.label,
    insertTextFormat: asSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    textEdit: { range: rangeOf(line, it.from, it.to), newText: asSnippet ? it.snippet : it.closes === true ? `${it.label}"` : it.label },
  };
}

export function symbolKindOf(kind: OutlineItem["kind"]): SymbolKind {
  return symbolKinds[kind] ?? SymbolKind.Property;
}

const symbolKinds: Partial<Record<OutlineItem["kind"], SymbolKind>> = {
  sheet: SymbolKind.File,
  part: SymbolKind.Object,
  fastener: SymbolKind.Object,
  fluid: SymbolKind.Object,
  limit: SymbolKind.Number,
  measure: SymbolKind.Number,
  step: SymbolKind.Function,
  finding: SymbolKind.Event,
  hazard: SymbolKind.Event,
  order: SymbolKind.Package,
  supplier: SymbolKind.Package,
  release: SymbolKind.Constructor,
  day: SymbolKind.Namespace,
};

/** Ranges end where the last line that says something ends. */
export function toSymbol(sheet: SheetText): (it: OutlineNode) => DocumentSymbol {
  return (it) => ({ ...plain(sheet, it), ...(it.children.length === 0 ? {} : { children: it.children.map((child) => plain(sheet, child)) }) });
}

function plain(sheet: SheetText, it: OutlineItem): DocumentSymbol {
  return {
    name: it.label,
    ...(it.detail === "" ? {} : { detail: it.detail }),
    kind: symbolKindOf(it.kind),
    range: { start: { line: it.firstLine, character: 0 }, end: { line: it.lastLine, character: lineText(sheet, it.lastLine).length } },
    selectionRange: rangeOf(it.firstLine, it.at.from, Math.min(it.at.to, lineText(sheet, it.firstLine).length)),
  };
}
