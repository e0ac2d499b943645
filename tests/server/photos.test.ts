// Photos as the doors read them: real pictures by their first bytes, of a bounded size, from inside the workspace and from nowhere else.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { mostPhotos, photosInPage } from "../../server/disk/photos-in-page.ts";
import { largestPhoto, readPhoto, typeOf } from "../../server/disk/read-photo.ts";
import type { Files, PhotoAnswer } from "../../server/model/files.ts";
import { splitpin } from "../cli/desk.ts";

const png = Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg==", "base64");

let home = "";
let jobs = "";
beforeAll(() => {
  home = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-photos-")));
  jobs = join(home, "jobs");
  mkdirSync(join(jobs, "folder.png"), { recursive: true });
  writeFileSync(join(jobs, "a.png"), png);
  writeFileSync(join(jobs, "named-otherwise.txt"), png);
  writeFileSync(join(jobs, "empty.png"), "");
  writeFileSync(join(jobs, "page.png"), "<html><script>1</script>");
  writeFileSync(join(jobs, "large.png"), png);
  truncateSync(join(jobs, "large.png"), largestPhoto + 1);
  writeFileSync(join(home, "secret.png"), png);
  symlinkSync(join(home, "secret.png"), join(jobs, "out.png"));
  symlinkSync(join(jobs, "round.png"), join(jobs, "round.png"));
  execFileSync("mkfifo", [join(jobs, "pipe.png")]);
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

const why = (it: PhotoAnswer) => (it.kind === "photo" ? it.type : it.why);

test.each([
  ["a.png", "image/png"],
  ["named-otherwise.txt", "image/png"],
  ["empty.png", "is not a picture in PNG, JPEG or WebP"],
  ["page.png", "is not a picture in PNG, JPEG or WebP"],
  ["large.png", "has 13 MB; a page takes photos of up to 12 MB"],
  ["folder.png", "is not a file"],
  ["out.png", "is a link that leads out of the workspace, so it was not read"],
  ["../secret.png", "is a link that leads out of the workspace, so it was not read"],
  ["round.png", "is a link that leads back to itself"],
  ["gone.png", "is not there"],
  ["pipe.png", "is not a file"],
])("%s: %s", (name, said) => expect(why(readPhoto(join(jobs, name), [jobs]))).toBe(said));

test("a file that became another one since is given as nothing", () => {
  const path = join(jobs, "changing.png");
  writeFileSync(path, png);
  const answer = readPhoto(path, [jobs]);
  writeFileSync(path, "<script>");
  expect(answer.kind === "photo" ? answer.base64() : "no photo").toBe("");
});

test("the kinds of picture by their first bytes, and nothing like them", () => {
  // PNG: ISO/IEC 15948, 5.2. JPEG: ITU-T T.81, B.1.1.3 (SOI, then a marker). WebP: RFC 9649, 2.4.
  expect(typeOf(png.subarray(0, 16))).toBe("image/png");
  expect(typeOf(Buffer.from([0xff, 0xd8, 0xff, 0xdb]))).toBe("image/jpeg");
  expect(typeOf(Buffer.from("RIFFxxxxWEBPVP8L", "latin1"))).toBe("image/webp");
  for (const it of ["GIF89a", "BM", "<svg xmlns=", "RIFFxxxxWAVEfmt ", "\u0089PN", "%PDF-1.7", ""]) expect(typeOf(Buffer.from(it, "latin1"))).toBe(undefined);
});

test("a page holds so much of photos, and says of the rest that it is not there", () => {
  const large: PhotoAnswer = { kind: "photo", type: "image/png", mark: "1", base64: () => "A".repeat(mostPhotos / 2 - 100) };
  const files: Files = { read: () => "missing", photo: () => large };
  const give = photosInPage(files);
  expect("src" in give("1")).toBe(true);
  expect("src" in give("2")).toBe(true);
  expect(give("3")).toEqual({ whyNot: "is not in this page, which holds 40 MB of photos already" });
});

test("the record on the command line has the photo in it, and says why another is not", async () => {
  writeFileSync(
    join(jobs, "job.jobsheet"),
    'sheet "Pump"\npart pump "Pump"\nfinding pump\n  is serviceable\n  photo "a.png"\n  photo "../secret.png"\n  photo "page.png"\nrelease by "A. Moor"\n  test "run"\n',
  );
  const { out, code } = await splitpin(["release", "job.jobsheet", "--format", "html"], jobs);
  expect(code).toBe(0);
  expect(out).toContain(`<img src="data:image/png;base64,${png.toString("base64")}" alt="Photo of Pump: serviceable">`);
  expect([...out.matchAll(/Not shown: it ([^<]*)</g)].map((it) => it[1])).toEqual([
    "lies outside of the workspace, so it was not read.",
    "is not a picture in PNG, JPEG or WebP.",
  ]);
  const text = (await splitpin(["release", "job.jobsheet"], jobs)).out;
  expect(text).toMatch(/Photos\n {2}- a\.png, of Pump: serviceable {2}\(line 5\)\n {2}- \.\.\/secret\.png, of Pump: serviceable: lies outside/);
});
