// The reports, their list, a photo and the way back, asked of the real server over stdio by the protocol alone.
import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Wire, startServer } from "./wire.ts";

interface Answer {
  readonly html: string;
  readonly json: unknown;
  readonly markdown: string;
  readonly text?: string;
  readonly files: Readonly<Record<string, string>>;
  readonly entries: Readonly<Record<string, readonly number[]>>;
}

/** One grey point, as a PNG; and the first bytes of a JPEG and a WebP, which is all that is looked at. */
const png = Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg==", "base64");
const jpeg = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 74, 70, 73, 70]);
const webp = Buffer.from("RIFF\0\0\0\0WEBPVP8 ", "latin1");

const data = `part hub "Hub"
  held by hub-nut
fastener hub-nut "Hub nut"
  torque 40 .. 50 N.m
  locked by split pin 4 x 40 mm
`;
const sheet = `sheet "Hub"
use "data.jobsheet"
step down "Hub off"
  undo hub-nut
  remove hub
  photo "photos/hub.png"
  photo "photos/hub.jpg"
  photo "photos/hub.webp"
  photo "photos/gone.png"
  photo "../outside.png"
  photo "/etc/hostname"
  photo "photos/text.png"
  photo "photos/link.png"
  done 2026-05-01
finding hub
  is worn
  decision renew
`;

let folder = "";
let uri = "";
let wire: Wire;
beforeAll(async () => {
  const home = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-commands-")));
  folder = join(home, "jobs");
  mkdirSync(join(folder, "photos"), { recursive: true });
  writeFileSync(join(folder, "data.jobsheet"), data);
  writeFileSync(join(folder, "hub.jobsheet"), sheet);
  writeFileSync(join(folder, "photos/hub.png"), png);
  writeFileSync(join(folder, "photos/hub.jpg"), jpeg);
  writeFileSync(join(folder, "photos/hub.webp"), webp);
  writeFileSync(join(folder, "photos/text.png"), "<svg onload='alert(1)'>");
  writeFileSync(join(home, "outside.png"), png);
  symlinkSync(join(home, "outside.png"), join(folder, "photos/link.png"));
  uri = pathToFileURL(join(folder, "hub.jobsheet")).href;
  wire = startServer();
  await wire.initialize([pathToFileURL(folder).href]);
  wire.open(uri, sheet);
});
afterAll(async () => {
  await wire.stop();
  rmSync(join(folder, ".."), { recursive: true, force: true });
});

function ask<T>(command: string, ...words: unknown[]): Promise<T> {
  return wire.request<T>("workspace/executeCommand", { command, arguments: words });
}

test("the server says which commands it has, and lists the reports by name", async () => {
  const other = startServer();
  const { capabilities } = await other.initialize();
  await other.stop();
  const commands = (capabilities.executeCommandProvider as { commands: string[] }).commands;
  const offered = await ask<{ name: string; title: string; command: string }[]>("splitpin.reports");
  expect(offered.map((it) => it.name)).toEqual(expect.arrayContaining(["order", "release", "readings", "wayBack", "left", "shims"]));
  for (const it of offered) expect(commands).toContain(it.command);
  expect(commands).toEqual(expect.arrayContaining(["splitpin.reports", "splitpin.photo", "splitpin.writeWayBack"]));
});

test("each report is a page, a value and Markdown; rows lead to files that are named, and entries to their lines", async () => {
  for (const { command } of await ask<{ command: string }[]>("splitpin.reports")) {
    const answer = await ask<Answer>(command, uri);
    expect(answer.html.startsWith("<!DOCTYPE html>")).toBe(true);
    expect(typeof answer.json).toBe("object");
    expect(answer.markdown).toMatch(/^# /);
    const named = new Set([...answer.html.matchAll(/data-file="([^"]*)"/g)].map((it) => it[1] as string));
    for (const file of named) expect(Object.keys(answer.files)).toContain(file);
    expect(answer.files["hub.jobsheet"]).toBe(uri);
    // Heads of the entries of the sheet above, counted by hand.
    expect(answer.entries["hub.jobsheet"]).toEqual([1, 2, 3, 15]);
  }
});

test("asked for the page only, a report holds that, and its photos apart", async () => {
  const whole = await ask<Answer>("splitpin.readings", uri);
  expect(await ask<Answer>("splitpin.readings", uri, { only: "page" })).toEqual({ html: whole.html, files: whole.files, entries: whole.entries });
  const at = { start: { line: 17, character: 0 }, end: { line: 17, character: 0 } };
  wire.change(uri, 10, [
    { range: at, text: 'step back "Back"\n  fit hub new\n  tighten hub-nut to 45 N.m\n  lock hub-nut new\n  done\nrelease by "A. Moor"\n  test "run"\n' },
  ]);
  const { html } = await ask<Answer>("splitpin.release", uri);
  expect(html).toContain("Record of the work");
  expect(html).toContain(`<img src="data:image/png;base64,${png.toString("base64")}" alt="Photo of Hub off">`);
  const apart = (await ask<Answer>("splitpin.release", uri, { only: "page" })).html;
  expect(apart).toMatch(/<img data-photo="photos\/hub\.png" data-mark="[\d. ]+" alt="Photo of Hub off">/);
  expect(apart).not.toContain("base64");
  for (const page of [html, apart]) {
    expect(page).toContain("Not shown: it is not there.");
    expect(page).toContain("Not shown: it lies outside of the workspace, so it was not read.");
  }
  wire.change(uri, 11, [{ text: sheet }]);
});

test("the order follows what is typed, without a save", async () => {
  const at = (line: number) => ({ start: { line, character: 0 }, end: { line, character: 0 } });
  expect((await ask<Answer>("splitpin.order", uri)).html).toContain("found worn, to be renewed");
  wire.change(uri, 12, [{ range: at(14), text: 'part seal "Seal"\nfinding seal\n  is missing\n' }]);
  const { html } = await ask<Answer>("splitpin.order", uri);
  expect(html).toContain("Seal");
  expect(html).toContain("line\u00a016");
  wire.change(uri, 13, [{ text: sheet }]);
});

describe("what is asked for wrongly", () => {
  test.each([
    ["splitpin.order", []],
    ["splitpin.order", [7]],
    ["splitpin.photo", []],
    ["splitpin.writeWayBack", [{}]],
  ])("%s %j is refused in words", async (command, words) => {
    await expect(ask(command, ...words)).rejects.toThrow("URI of a job sheet");
  });
  test("a command that there is none of", () => expect(ask("splitpin.constructor", uri)).rejects.toThrow("no command"));
  test("a sheet that is not there gives nothing", async () => {
    for (const command of ["splitpin.readings", "splitpin.release", "splitpin.writeWayBack"]) expect(await ask(command, `${uri}x`)).toBe(null);
  });
});

describe("photos", () => {
  const photosOf = async () =>
    (await ask<{ json: { photos: { path: string; whyNot?: string; of: string; line: number }[] } }>("splitpin.release", uri)).json.photos;
  test("each is told with its line and why it is not shown, where it is not", async () => {
    expect((await photosOf()).map((it) => [it.path, it.line, it.whyNot ?? "shown"])).toEqual([
      ["photos/hub.png", 6, "shown"],
      ["photos/hub.jpg", 7, "shown"],
      ["photos/hub.webp", 8, "shown"],
      ["photos/gone.png", 9, "is not there"],
      ["../outside.png", 10, "lies outside of the workspace, so it was not read"],
      ["/etc/hostname", 11, "lies outside of the workspace, so it was not read"],
      ["photos/text.png", 12, "is not a picture in PNG, JPEG or WebP"],
      ["photos/link.png", 13, "is a link that leads out of the workspace, so it was not read"],
    ]);
    expect((await photosOf())[0]?.of).toBe("Hub off");
  });
  test("one that the sheet names is given as an address that holds it, and no other file ever is", async () => {
    expect(await ask("splitpin.photo", uri, "photos/hub.png")).toBe(`data:image/png;base64,${png.toString("base64")}`);
    for (const path of [
      "photos/text.png",
      "photos/link.png",
      "../outside.png",
      "/etc/hostname",
      "data.jobsheet",
      "photos/../photos/hub.png",
      "photos/gone.png",
    ])
      expect(await ask("splitpin.photo", uri, path)).toBe(null);
  });
  test("the page tells of those that can't be shown before the job is released", async () => {
    const { html, markdown } = await ask<Answer>("splitpin.release", uri);
    for (const drawn of [html, markdown.replaceAll("\\", "")]) {
      expect(drawn).toContain("photos/gone.png");
      expect(drawn).toContain("is not there");
      expect(drawn).not.toContain("hub.webp");
    }
  });
});

describe("the way back as an edit", () => {
  interface Written {
    readonly edit: { changes: Record<string, { range: { start: { line: number; character: number } }; newText: string }[]> } | null;
    readonly said: string;
  }
  test("goes in at the end, is asked for again and finds nothing missing", async () => {
    const { edit, said } = await ask<Written>("splitpin.writeWayBack", uri);
    const [change] = edit?.changes[uri] ?? [];
    expect(change?.range.start).toEqual({ line: 17, character: 0 });
    expect(change?.newText).toMatch(/^\n# The way back[\s\S]*\n {2}fit hub new[\s\S]*tighten hub-nut to 45 N\.m[\s\S]*lock hub-nut new\n$/);
    expect(said).toContain("1 step");
    wire.change(uri, 14, [{ text: sheet + change?.newText }]);
    const again = await ask<Written>("splitpin.writeWayBack", uri);
    expect(again.edit).toBe(null);
    expect(again.said).toContain("Nothing is missing");
    wire.change(uri, 15, [{ text: sheet }]);
  });
  test("the file on the disk is as it was", () => expect(readFileSync(join(folder, "hub.jobsheet"), "utf8")).toBe(sheet));
});
