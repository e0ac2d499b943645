// Closed sheets are forgotten: what the server keeps is counted after the collector has run, by references that keep nothing themselves.
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { afterAll, expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Connection } from "../../server/lsp/connection.ts";
import type { OpenSheet } from "../../server/lsp/open-sheets.ts";
import { createPublisher } from "../../server/lsp/publisher.ts";
import { createWorkspaces } from "../../server/lsp/workspaces.ts";
import { times } from "../sampled.ts";
import { longSheet } from "./long-sheet.ts";

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

const folder = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-closed-")));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const uriOf = (name: string) => pathToFileURL(join(folder, name)).href;

const open = new Map<string, OpenSheet>();
const lists = new Map<string, number>();
const workspaces = createWorkspaces();
const connection = {
  sendDiagnostics: ({ uri }: { uri: string }) => Promise.resolve(void lists.set(uri, (lists.get(uri) ?? 0) + 1)),
  console: { error: (text: string) => expect.fail(text) },
} as unknown as Connection;
const publisher = createPublisher(connection, workspaces, { get: (uri) => open.get(uri), keys: () => [...open.keys()] });

const breath = () => new Promise((resolve) => setImmediate(resolve));

async function opened(uri: string, text: string): Promise<void> {
  const sheet: OpenSheet = { uri, version: 1, sheet: readSheet(text), why: undefined, lines: undefined, readOn: () => true };
  open.set(uri, sheet);
  workspaces.put(sheet);
  const before = lists.get(uri) ?? 0;
  publisher.changed(uri);
  while ((lists.get(uri) ?? 0) === before) await breath();
}

function closed(uri: string): void {
  open.delete(uri);
  workspaces.forget(uri);
  publisher.closed(uri);
  publisher.allChanged();
}

/** How many of them something still keeps. */
async function kept(of: readonly WeakRef<object>[]): Promise<number> {
  // A reference that was looked at is kept until the end of that turn.
  for (let i = 0; i < 5; i++) {
    await new Promise((resolve) => setTimeout(resolve, 20));
    collect();
  }
  return of.filter((it) => it.deref() !== undefined).length;
}

const many = times({ plain: 40, run: 120, full: 120 });

test(`of ${many} sheets, each opened with a file that it uses and closed beside one that stays, nothing is kept`, async () => {
  workspaces.setFolders([pathToFileURL(folder).href]);
  const text = longSheet(200);
  await opened(uriOf("stays.jobsheet"), `${text}part other "Other"\n`);
  const sheets: WeakRef<object>[] = [];
  for (let i = 0; i < many; i++) {
    writeFileSync(join(folder, `data-${i}.jobsheet`), `part pin-${i} "Pin"\n`);
    const uri = uriOf(`sheet-${i}.jobsheet`);
    await opened(uri, `use "data-${i}.jobsheet"\n${text}`);
    sheets.push(new WeakRef((open.get(uri) as OpenSheet).sheet as object), new WeakRef((open.get(uri) as OpenSheet).sheet?.entries[3] as object));
    const { workspace } = workspaces.locate(uri);
    sheets.push(new WeakRef(workspace.service.files.read(`data-${i}.jobsheet`) as object));
    expect((await publisher.current(uri)).length).toBeGreaterThan(0);
    closed(uri);
  }
  while ((lists.get(uriOf("stays.jobsheet")) ?? 0) < 1) await breath();
  await breath();
  // The last one may still be in the hands of the runner.
  expect(await kept(sheets)).toBeLessThanOrEqual(3);
  // And the count can tell: what stays is kept.
  expect(await kept([new WeakRef((open.get(uriOf("stays.jobsheet")) as OpenSheet).sheet as object)])).toBe(1);
});
