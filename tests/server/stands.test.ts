// What stands of a text that was typed is worked out in slices: who asks for what could be put right there gets it for the newest text, however soon he asks.
import { describe, expect, test, vi } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { type Telling, giveUp, goOn, nothingTold } from "../../server/lsp/published.ts";
import { open as openService } from "../../server/service.ts";
import { startServer } from "./wire.ts";

const uri = "file:///nowhere/long.jobsheet";

test("actions that are asked for in the same breath as an edit of a long entry are those of the edited text", async () => {
  const rows = Array.from({ length: 6000 }, (_, i) => `  0,0${10 + (i % 80)} in`);
  const text = (lines: readonly string[]) => `limit float "Float"\n  worn max 0.5 in\n  source "b"\nmeasure float found\n${lines.join("\n")}\n`;
  const wire = startServer();
  await wire.initialize(["file:///nowhere"]);
  const asked = (line: number) =>
    wire.request<readonly { readonly title: string }[]>("textDocument/codeAction", {
      textDocument: { uri },
      range: { start: { line, character: 0 }, end: { line, character: 30 } },
      context: { diagnostics: [] },
    });
  wire.open(uri, text(rows));
  // Before anything was told, and after.
  expect((await asked(4)).map((it) => it.title)).toContain("Write 0.010");
  await wire.diagnostics(uri);
  let version = 1;
  for (const line of [4, 3000, 6000]) {
    wire.change(uri, ++version, [{ range: { start: { line, character: 2 }, end: { line, character: 2 } }, text: "7" }]);
    const first = asked(line);
    wire.change(uri, ++version, [{ range: { start: { line, character: 2 }, end: { line, character: 3 } }, text: "8" }]);
    const figure = `80.0${10 + ((line - 4) % 80)}`;
    expect((await asked(line)).map((it) => it.title)).toContain(`Write ${figure}`);
    // The first may be answered of either text: both were the newest once, and none older.
    expect((await first).map((it) => it.title).some((it) => /^Write [78]0\.0\d\d$/.test(it))).toBe(true);
  }
  await wire.stop();
});

describe("a short sheet that was typed in", () => {
  /** How many lists are told of an edit that cures something, where its check takes so many milliseconds of a clock that runs with each look at it; and what the first of them said. */
  function told(milliseconds: number): string[][] {
    let clock = 0;
    let tick = 0;
    let looks = 0;
    const hrtime = vi.spyOn(process, "hrtime").mockImplementation((() => {
      looks += 1;
      clock += tick;
      return [0, clock * 1_000_000];
    }) as never);
    try {
      const lists: string[][] = [];
      // What stood is of an entry that is not edited, and moves by a line.
      const text = (made: string) =>
        readSheet(
          `part hub "Hub"\n  held by nut\nfastener nut "Nut"\n  torque none\nhazard gas "Gas"\n  safe before nut\nday 2026-05-04\nstep one "One"\n  inspect hub\n${made}  done 2026-05-04\nstep off "Off"\n  undo nut\n  done 2026-05-04\n`,
        );
      const [live, safe] = [text(""), text('  safe gas "shut"\n')];
      let sheet = live;
      const workspace = { service: openService({ read: (path) => (path === "a.jobsheet" ? sheet : "missing") }), uriOf: (path: string) => path };
      const telling = {
        connection: { sendDiagnostics: ({ diagnostics }: { diagnostics: { code: string }[] }) => lists.push(diagnostics.map((it) => it.code)) },
        workspaces: { locate: () => ({ workspace, path: "a.jobsheet" }) },
        open: { get: () => ({ sheet, version: 1, readOn: () => true }), keys: () => [] },
        waitsForPause() {},
        wholeTold() {},
      } as unknown as Telling;
      const it = nothingTold("a.jobsheet", "a.jobsheet", undefined);
      const edit = (to: typeof sheet) => {
        sheet = to;
        giveUp(it);
        do goOn(telling, it);
        while (it.due !== undefined || it.running !== undefined || it.standing !== undefined);
      };
      edit(live);
      edit(safe);
      const before = looks;
      edit(live);
      tick = milliseconds / (looks - before);
      lists.length = 0;
      edit(safe);
      return lists;
    } finally {
      hrtime.mockRestore();
    }
  }

  test("is told once: no list says first what the edit has just cured", () => {
    for (const milliseconds of [20, 60, 100]) {
      const lists = told(milliseconds);
      expect(lists).toHaveLength(1);
      expect(lists[0]).not.toContain("hazard-live");
    }
  });
  test("what stands of it is told where its check takes long, and the whole behind it", () => {
    const lists = told(1000);
    expect(lists).toHaveLength(2);
    expect(lists[0]).toContain("hazard-live");
    expect(lists[1]).not.toContain("hazard-live");
  });
});
