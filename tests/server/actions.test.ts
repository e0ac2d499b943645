// Fixes over the wire: they answer what they are asked about, put the cursor into the blank where the editor can, and spell all at once.
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, expect, test } from "vitest";
import { type Range, type Wire, type WireDiagnostic, startServer } from "./wire.ts";

const folder = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-actions-")));
const uriOf = (name: string) => pathToFileURL(join(folder, name)).href;
let wire: Wire;
beforeEach(() => {
  mkdirSync(folder, { recursive: true });
  wire = startServer();
});
afterEach(async () => {
  const code = await wire.stop();
  rmSync(folder, { recursive: true, force: true });
  expect([code, wire.errors()]).toEqual([0, ""]);
});

interface Action {
  readonly title: string;
  readonly kind: string;
  readonly isPreferred?: true;
  readonly diagnostics?: readonly WireDiagnostic[];
  readonly edit: {
    readonly changes?: Readonly<Record<string, readonly { readonly range: Range; readonly newText: string }[]>>;
    readonly documentChanges?: readonly { readonly edits: readonly { readonly newText?: string; readonly snippet?: { readonly value: string } }[] }[];
  };
}

const whole: Range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
const actions = (uri: string, range: Range, context: { diagnostics?: readonly WireDiagnostic[]; only?: readonly string[] }) =>
  wire.request<Action[]>("textDocument/codeAction", { textDocument: { uri }, range, context: { diagnostics: [], ...context } });

const snippets = { workspace: { workspaceEdit: { documentChanges: true, snippetEditSupport: true } } };
// A part that is worn, of which nobody has decided what becomes of it.
const undecided = `part hub "Hub"
  critical "a wheel"
step strip "Strip"
  remove hub
  done 2026-05-04
finding hub
  is cracked
release by "E. Lind" 2026-05-09
  test "ran"
`;

test.each([
  ["crlf.jobsheet", "\r\n", {}],
  ["lf.jobsheet", "\n", {}],
  ["crlf-snippets.jobsheet", "\r\n", snippets],
] as const)("a line that a fix puts in ends as the lines of its sheet do: %s", async (name, ends, capabilities) => {
  await wire.initialize([pathToFileURL(folder).href], capabilities);
  const uri = uriOf(name);
  wire.open(uri, undecided.replaceAll("\n", ends));
  await wire.diagnostics(uri);
  const texts = (await actions(uri, whole, {})).flatMap(({ edit }) => [
    ...Object.values(edit.changes ?? {}).flatMap((list) => list.map((it) => it.newText)),
    ...(edit.documentChanges ?? []).flatMap(({ edits }) => edits.map((it) => it.newText ?? it.snippet?.value ?? "")),
  ]);
  const lines = texts.filter((it) => it.includes("\n"));
  expect(lines.length).toBeGreaterThan(0);
  for (const it of lines) expect(it.replaceAll(ends, "")).not.toMatch(/[\r\n]/);
});

test("the cursor goes into the blank where the editor takes snippets, and the text is plain where not", async () => {
  const uri = uriOf("a.jobsheet");
  await wire.initialize([pathToFileURL(folder).href], snippets);
  wire.open(uri, undecided);
  await wire.diagnostics(uri);
  const repair = (await actions(uri, whole, {})).find((it) => it.title.includes("repair"));
  const values = repair?.edit.documentChanges?.[0]?.edits.map((it) => it.snippet?.value ?? it.newText);
  // An editor sets the further lines of a snippet in as the first line is.
  // biome-ignore lint/suspicious/noTemplateCurlyInString: a stop of a snippet.
  expect(values).toEqual(['\ndecision repair "${1:___}"']);
  const plain = startServer();
  await plain.initialize([pathToFileURL(folder).href]);
  plain.open(uri, undecided);
  await plain.diagnostics(uri);
  const list = await plain.request<Action[]>("textDocument/codeAction", { textDocument: { uri }, range: whole, context: { diagnostics: [] } });
  const same = list.find((it) => it.title.includes("repair"));
  expect(same?.edit.changes?.[uri]?.map((it) => it.newText).join("")).toContain('decision repair "___"');
  expect(await plain.stop()).toBe(0);
});

test("asked about one diagnostic of a line, the fixes are of that one, and name it", async () => {
  const uri = uriOf("a.jobsheet");
  await wire.initialize([pathToFileURL(folder).href]);
  wire.open(uri, 'part hub "Hub"\nfinding hub\n  is crackd, pited\n');
  const list = (await wire.diagnostics(uri)).filter((it) => it.code === "syntax" || it.message.includes("pited") || it.message.includes("crackd"));
  expect(list.length).toBeGreaterThan(0);
  const line: Range = { start: { line: 2, character: 0 }, end: { line: 2, character: 99 } };
  const all = await actions(uri, line, {});
  for (const about of list) {
    const asked = await actions(uri, line, { diagnostics: [about] });
    expect(asked.every((it) => it.diagnostics?.[0]?.message === about.message)).toBe(true);
    expect(asked.map((it) => it.title)).toEqual(all.filter((it) => it.diagnostics?.[0]?.message === about.message).map((it) => it.title));
  }
});

test("spelling fixes together are a source action, and nothing that says more is among them", async () => {
  const uri = uriOf("a.jobsheet");
  await wire.initialize([pathToFileURL(folder).href]);
  wire.open(uri, `${undecided}part shaft "Shaft"\n  mass 12,5 kg\nfinding shft\n  is crackd\n`);
  await wire.diagnostics(uri);
  expect((await actions(uri, whole, {})).every((it) => it.kind === "quickfix")).toBe(true);
  const [all, ...more] = await actions(uri, whole, { only: ["source.fixAll"] });
  expect(more).toEqual([]);
  expect(all?.kind).toBe("source.fixAll.splitpin");
  expect(all?.edit.changes?.[uri]?.map((it) => it.newText).sort()).toEqual(["12.5", "cracked", "shaft"]);
  wire.open(uriOf("b.jobsheet"), 'part hub "Hub"\n');
  await wire.diagnostics(uriOf("b.jobsheet"));
  expect(await actions(uriOf("b.jobsheet"), whole, { only: ["source"] })).toEqual([]);
});

test("references from a data file are in every sheet that uses it", async () => {
  const data = uriOf("data.jobsheet");
  writeFileSync(join(folder, "one.jobsheet"), 'use "data.jobsheet"\nfinding hub\n  is worn\n');
  writeFileSync(join(folder, "stranger.jobsheet"), 'part hub "Another"\n');
  await wire.initialize([pathToFileURL(folder).href]);
  wire.open(data, 'part hub "Hub"\n');
  await wire.diagnostics(data);
  const at = { textDocument: { uri: data }, position: { line: 0, character: 6 } };
  const found = await wire.request<{ uri: string }[]>("textDocument/references", { ...at, context: { includeDeclaration: true } });
  expect(found.map((it) => it.uri)).toEqual([data, uriOf("one.jobsheet")]);
});
