// What the server answers beside the main requests: a row each, of its method, what it promises the editor, and which feature answers.
// Invariant: a row asks the service one thing and gives its answer the protocol's shape, in slices where it may take long; whatever needs a check takes what the last one made.
import type { ServerCapabilities } from "vscode-languageserver";
import { type CodeLens, DocumentHighlightKind, FoldingRangeKind, type Position, type Range, type SelectionRange } from "vscode-languageserver-types";
import { type Checked, type HintKind, type Lens, type Slices, tokenModifiers, tokenTypes } from "../service.ts";
import { shaped } from "./turns.ts";
import { symbolKindOf } from "./to-items.ts";
import { rangeOf } from "./to-protocol.ts";
import type { Workspaces } from "./workspaces.ts";

/** What a row may ask of the server. */
export interface Around {
  readonly workspaces: Workspaces;
  checked(uri: string): Checked | undefined;
  today(): string;
  hints(): readonly HintKind[];
  /** The editor has the extension's commands. */
  hasCommands(): boolean;
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
  readonly promises: ServerCapabilities;
  answer(params: never, around: Around): Promise<unknown>;
}

const row = <Params>(method: string, promises: Row["promises"], answer: (params: Params, around: Around) => Promise<unknown>): Row => ({
  method,
  promises,
  answer,
});

const legend = { tokenTypes: [...tokenTypes], tokenModifiers: [...tokenModifiers] };
const everyLine = { from: 0, to: Number.MAX_SAFE_INTEGER };
const linesOf = ({ start, end }: Range) => ({ from: start.line, to: end.line });

interface LensData extends Lens {
  readonly uri: string;
}

/** An editor that has the extension runs these. */
const commandOf = { step: "splitpin.showPlan", done: "splitpin.markDone", supplier: "splitpin.showOrder", release: "splitpin.showRelease" } as const;

/** Any other runs what the server itself has, of that sheet; it has nothing that writes into a sheet. */
const ownCommandOf = { step: "splitpin.plan", done: undefined, supplier: "splitpin.order", release: "splitpin.release" } as const;

export const rows: readonly Row[] = [
  row<OfRange>("textDocument/inlayHint", { inlayHintProvider: true }, async ({ textDocument: { uri }, range }, around) => {
    const { workspace, path } = around.workspaces.locate(uri);
    const hints = await workspace.service.hints(path, around.checked(uri), linesOf(range), around.hints());
    return shaped(hints, (list) =>
      list.map((it) => ({
        position: { line: it.line, character: it.column },
        label: it.text,
        paddingLeft: true,
        ...(it.says === undefined ? {} : { tooltip: it.says }),
      })),
    );
  }),
  row<OfDocument>("textDocument/codeLens", { codeLensProvider: { resolveProvider: true } }, async ({ textDocument: { uri } }, around) => {
    const { workspace, path } = around.workspaces.locate(uri);
    const lenses = (await workspace.service.lenses(path)).filter((it) => around.hasCommands() || ownCommandOf[it.what] !== undefined);
    return lenses.map((it): CodeLens => ({ range: rangeOf(it.line, 0, 0), data: { ...it, uri } satisfies LensData }));
  }),
  row<CodeLens>("codeLens/resolve", {}, async (lens, around) => {
    const { data } = lens;
    // A lens comes back from the editor: its word is taken as a stranger's.
    if (!isLensData(data)) return lens;
    const { workspace, path } = around.workspaces.locate(data.uri);
    const title = await workspace.service.lensText(path, data, around.checked(data.uri), around.today());
    return shaped(title, (text) => ({
      ...lens,
      command: { title: text === "" ? "…" : text, ...runBy(data, around.hasCommands()) },
    }));
  }),
  row<OfRange>(
    "textDocument/semanticTokens/range",
    { semanticTokensProvider: { legend, range: true, full: true } },
    async ({ textDocument: { uri }, range }, around) => {
      const { workspace, path } = around.workspaces.locate(uri);
      return shaped(await workspace.service.tokens(path, around.checked(uri), linesOf(range)), (data) => ({ data }));
    },
  ),
  row<OfDocument>("textDocument/semanticTokens/full", {}, async ({ textDocument: { uri } }, around) => {
    const { workspace, path } = around.workspaces.locate(uri);
    return shaped(await workspace.service.tokens(path, around.checked(uri), everyLine), (data) => ({ data }));
  }),
  row<AtPosition>("textDocument/documentHighlight", { documentHighlightProvider: true }, async ({ textDocument: { uri }, position }, around) => {
    const { workspace, path } = around.workspaces.locate(uri);
    const found = await workspace.service.highlights(path, position.line, position.character);
    return shaped(found, (list) =>
      list.map((it) => ({ range: rangeOf(it.line, it.from, it.to), kind: it.works ? DocumentHighlightKind.Write : DocumentHighlightKind.Read })),
    );
  }),
  row<OfDocument>("textDocument/documentLink", { documentLinkProvider: {} }, async ({ textDocument: { uri } }, around) => {
    const { workspace, path } = around.workspaces.locate(uri);
    const links = await workspace.service.links(path);
    return shaped(links, (list) =>
      list.map((it) => ({ range: rangeOf(it.line, it.from, it.to), target: workspace.uriOf(it.path), tooltip: `Open the ${it.what}` })),
    );
  }),
  row<OfDocument>("textDocument/foldingRange", { foldingRangeProvider: true }, async ({ textDocument: { uri } }, around) => {
    const { workspace, path } = around.workspaces.locate(uri);
    return shaped(await workspace.service.folds(path), (list) =>
      list.map((it) => ({
        startLine: it.from,
        endLine: it.to,
        ...(it.kind === "entry" ? {} : { kind: it.kind === "day" ? FoldingRangeKind.Region : FoldingRangeKind.Comment }),
      })),
    );
  }),
  row<OfDocument & { readonly positions: readonly Position[] }>(
    "textDocument/selectionRange",
    { selectionRangeProvider: true },
    async ({ textDocument: { uri }, positions }, around) => {
      const { workspace, path } = around.workspaces.locate(uri);
      const all = await Promise.all(positions.map((it) => workspace.service.reaches(path, it.line, it.character)));
      // The largest is the parent of all: made first.
      return all.map(
        (reaches, i) =>
          reaches.reduceRight<SelectionRange | undefined>((parent, { from, to }) => {
            const range = { start: { line: from.line, character: from.column }, end: { line: to.line, character: to.column } };
            return parent === undefined ? { range } : { range, parent };
          }, undefined) ?? { range: { start: positions[i] as Position, end: positions[i] as Position } },
      );
    },
  ),
  row<AtPosition>(
    "textDocument/signatureHelp",
    { signatureHelpProvider: { triggerCharacters: [" "] } },
    async ({ textDocument: { uri }, position }, around) => {
      const { workspace, path } = around.workspaces.locate(uri);
      const found = await workspace.service.signature(path, position.line, position.character);
      if (found === undefined) return null;
      const parameters = found.parts.map(([from, to]) => ({ label: [from, to] as [number, number] }));
      return {
        signatures: [{ label: found.label, documentation: found.says, parameters, activeParameter: found.active }],
        activeSignature: 0,
        activeParameter: found.active,
      };
    },
  ),
  row<{ readonly query: string }>("workspace/symbol", { workspaceSymbolProvider: true }, async ({ query }, around) => {
    const asked = around.workspaces.all().map(async ({ service, uriOf }) => ({ found: await service.symbolsNamed(query), uriOf }));
    return together(await Promise.all(asked), ({ found, uriOf }) =>
      shaped(found, (list) =>
        list.map(({ file, item }) => ({
          name: item.label,
          kind: symbolKindOf(item.kind),
          containerName: item.detail === "" ? file : `${item.detail} (${file})`,
          location: { uri: uriOf(file), range: rangeOf(item.firstLine, item.at.from, item.at.to) },
        })),
      ),
    );
  }),
];

function* together<T, U>(list: readonly T[], ask: (it: T) => Slices<readonly U[]>): Slices<U[]> {
  const out: U[] = [];
  for (const it of list) out.push(...(yield* ask(it)));
  return out;
}

function runBy({ what, uri, line, name }: LensData, hasCommands: boolean): { readonly command: string; readonly arguments: unknown[] } {
  if (!hasCommands) return { command: ownCommandOf[what] ?? "", arguments: [uri] };
  return { command: commandOf[what], arguments: what === "done" ? [uri, line, ...(name === undefined ? [] : [name])] : [] };
}

function isLensData(it: unknown): it is LensData {
  if (typeof it !== "object" || it === null) return false;
  const { uri, line, what, name } = it as Partial<Record<keyof LensData, unknown>>;
  if (name !== undefined && typeof name !== "string") return false;
  return typeof uri === "string" && typeof line === "number" && (what === "step" || what === "done" || what === "supplier" || what === "release");
}
