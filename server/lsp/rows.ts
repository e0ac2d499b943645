// What the server answers beside the main requests: a row each, of its method, what it promises the editor, and which feature answers.
// Invariant: a row asks one feature and gives its answer the protocol's shape; whatever needs a check takes what the last one made.
import type { ClientCapabilities, ServerCapabilities } from "vscode-languageserver";
import { type CodeLens, DocumentHighlightKind, FoldingRangeKind, type Position, type Range } from "vscode-languageserver-types";
import type { SheetText } from "../../grammar/sheet-text.ts";
import { foldsIn } from "../features/folding.ts";
import { highlightsAt } from "../features/highlights.ts";
import { type HintKind, hintsIn } from "../features/inlay-hints.ts";
import { type Lens, lensText, lensesIn } from "../features/lenses.ts";
import { linksIn } from "../features/links.ts";
import { encoded, tokenModifiers, tokenTypes, tokensIn } from "../features/semantic-tokens.ts";
import { signatureAt } from "../features/signature.ts";
import { symbolsIn } from "../features/symbols.ts";
import type { Checked } from "../rules/check.ts";
import { symbolKindOf } from "./to-items.ts";
import { rangeOf } from "./to-protocol.ts";
import type { Located, Root, Workspaces } from "./workspaces.ts";

/** What a row may ask of the server. */
export interface Around {
  /** The open sheet, or one on the disk. */
  sheet(uri: string): SheetText | undefined;
  checked(uri: string): Checked | undefined;
  locate(uri: string): Located;
  readonly workspaces: Workspaces;
  /** The folders that are open. */
  roots(): readonly Root[];
  today(): string;
  hints(): readonly HintKind[];
}

interface OfDocument {
  readonly textDocument: { readonly uri: string };
}
interface OfRange extends OfDocument {
  readonly range: Range;
}
interface AtPosition extends OfDocument {
  readonly position: Position;
}

export interface Row {
  readonly method: string;
  readonly promises: (client: ClientCapabilities) => ServerCapabilities;
  answer(params: never, around: Around): unknown;
}

const row = <Params>(method: string, promises: Row["promises"], answer: (params: Params, around: Around) => unknown): Row => ({ method, promises, answer });

const legend = { tokenTypes: [...tokenTypes], tokenModifiers: [...tokenModifiers] };
const lensCommand = "splitpin.showRelease";

interface LensData extends Lens {
  readonly uri: string;
}

export const rows: readonly Row[] = [
  row<OfRange>(
    "textDocument/inlayHint",
    () => ({ inlayHintProvider: true }),
    ({ textDocument: { uri }, range }, around) => {
      const sheet = around.sheet(uri);
      const checked = around.checked(uri);
      if (sheet === undefined || checked?.story === undefined) return [];
      const asked = { story: checked.story, list: checked.list, from: range.start.line, to: range.end.line, kinds: around.hints() };
      return hintsIn(sheet, asked).map((it) => ({
        position: { line: it.line, character: it.column },
        label: it.text,
        paddingLeft: true,
        ...(it.says === undefined ? {} : { tooltip: it.says }),
      }));
    },
  ),
  row<OfDocument>(
    "textDocument/codeLens",
    () => ({ codeLensProvider: { resolveProvider: true } }),
    ({ textDocument: { uri } }, around) => {
      const sheet = around.sheet(uri);
      return sheet === undefined ? [] : lensesIn(sheet).map((it): CodeLens => ({ range: rangeOf(it.line, 0, 0), data: { ...it, uri } satisfies LensData }));
    },
  ),
  row<CodeLens>(
    "codeLens/resolve",
    () => ({}),
    (lens, around) => {
      const data = isLensData(lens.data) ? lens.data : undefined;
      const sheet = data === undefined ? undefined : around.sheet(data.uri);
      if (data === undefined || sheet === undefined) return lens;
      const checked = around.checked(data.uri);
      const title = lensText(sheet, data, { story: checked?.story, list: checked?.list ?? [], today: around.today() });
      // An editor that has the extension runs these; for any other they are words.
      const command = { step: "splitpin.showPlan", done: "splitpin.markDone", supplier: "splitpin.showOrder", release: lensCommand }[data.what];
      const words = data.what === "done" ? [data.uri, data.line] : [];
      return { ...lens, command: { title: title === "" ? "…" : title, command, arguments: words } };
    },
  ),
  row<OfRange>(
    "textDocument/semanticTokens/range",
    () => ({ semanticTokensProvider: { legend, range: true, full: true } }),
    ({ textDocument: { uri }, range }, around) => ({ data: tokensOf(uri, range.start.line, range.end.line, around) }),
  ),
  row<OfDocument>(
    "textDocument/semanticTokens/full",
    () => ({}),
    ({ textDocument: { uri } }, around) => ({ data: tokensOf(uri, 0, Number.MAX_SAFE_INTEGER, around) }),
  ),
  row<AtPosition>(
    "textDocument/documentHighlight",
    () => ({ documentHighlightProvider: true }),
    ({ textDocument: { uri }, position }, around) => {
      const sheet = around.sheet(uri);
      if (sheet === undefined) return [];
      return highlightsAt(sheet, position.line, position.character).map((it) => ({
        range: rangeOf(it.line, it.from, it.to),
        kind: it.works ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
      }));
    },
  ),
  row<OfDocument>(
    "textDocument/documentLink",
    () => ({ documentLinkProvider: {} }),
    ({ textDocument: { uri } }, around) => {
      const sheet = around.sheet(uri);
      const { root, path } = around.locate(uri);
      if (sheet === undefined) return [];
      return linksIn(sheet, path).map((it) => ({
        range: rangeOf(it.line, it.from, it.to),
        target: around.workspaces.uriOf(root, it.path),
        tooltip: `Open the ${it.what}`,
      }));
    },
  ),
  row<OfDocument>(
    "textDocument/foldingRange",
    () => ({ foldingRangeProvider: true }),
    ({ textDocument: { uri } }, around) => {
      const sheet = around.sheet(uri);
      if (sheet === undefined) return [];
      return foldsIn(sheet).map((it) => ({
        startLine: it.from,
        endLine: it.to,
        ...(it.kind === "entry" ? {} : { kind: it.kind === "day" ? FoldingRangeKind.Region : FoldingRangeKind.Comment }),
      }));
    },
  ),
  row<AtPosition>(
    "textDocument/signatureHelp",
    // Only where it is asked for: a box at each blank would stand in the way of the list.
    () => ({ signatureHelpProvider: {} }),
    ({ textDocument: { uri }, position }, around) => {
      const sheet = around.sheet(uri);
      const found = sheet === undefined ? undefined : signatureAt(sheet, position.line, position.character);
      if (found === undefined) return null;
      const parameters = found.parts.map(([from, to]) => ({ label: [from, to] as [number, number] }));
      return {
        signatures: [{ label: found.label, documentation: found.says, parameters, activeParameter: found.active }],
        activeSignature: 0,
        activeParameter: found.active,
      };
    },
  ),
  row<{ readonly query: string }>(
    "workspace/symbol",
    () => ({ workspaceSymbolProvider: true }),
    ({ query }, around) =>
      around.roots().flatMap((root) =>
        symbolsIn(root.files, query).map(({ file, item }) => ({
          name: item.label,
          kind: symbolKindOf(item.kind),
          containerName: item.detail === "" ? file : `${item.detail} (${file})`,
          location: { uri: around.workspaces.uriOf(root, file), range: rangeOf(item.firstLine, item.at.from, item.at.to) },
        })),
      ),
  ),
];

function tokensOf(uri: string, from: number, to: number, around: Around): number[] {
  const sheet = around.sheet(uri);
  const story = around.checked(uri)?.story;
  return sheet === undefined || story === undefined ? [] : encoded(tokensIn(sheet, story, from, to));
}

/** A lens comes back from the editor: its word is taken as a stranger's. */
function isLensData(it: unknown): it is LensData {
  if (typeof it !== "object" || it === null) return false;
  const { uri, line, what } = it as Partial<Record<keyof LensData, unknown>>;
  return typeof uri === "string" && typeof line === "number" && (what === "step" || what === "done" || what === "supplier" || what === "release");
}
