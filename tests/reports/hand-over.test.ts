// The hand-over: one machine's record with digests, held to the digests of Node's own crypto and of `sha256sum`; and `verify`, which sees a later change.
import { createHash } from "node:crypto";
import { execFileSync } from "node:child_process";
import { appendFileSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { splitpin } from "../cli/desk.ts";
import { digestOf, digestOfBase64 } from "../../server/reports/hand-over/digest.ts";
import { millLife } from "./mill-life.ts";

let cwd = "";
const photo = readFileSync(new URL("../../samples/steering-box/photos/fence-wire.png", import.meta.url));
beforeEach(() => {
  cwd = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-hand-over-")));
  mkdirSync(join(cwd, "jobs"));
  for (const [name, text] of Object.entries(millLife)) writeFileSync(join(cwd, "jobs", name), text);
  writeFileSync(join(cwd, "jobs", "bush.png"), photo);
  // With a byte order mark, and line ends of another system: its digest is that of its bytes all the same.
  const last = join(cwd, "jobs", "mill-2024-01-06.jobsheet");
  writeFileSync(last, `\ufeff${readFileSync(last, "utf8").replaceAll("\n", "\r\n")}  photo "bush.png"\r\n`);
  writeFileSync(join(cwd, "jobs", "lathe.jobsheet"), 'sheet "Lathe"\n  machine "Tarn lathe"\n');
});
afterEach(() => rmSync(cwd, { recursive: true, force: true }));

const made = async (...words: string[]) => {
  const ran = await splitpin(["hand-over", ...words, "--out", "hand-over.html"], cwd);
  expect([ran.code, ran.err]).toEqual([0, ""]);
  return readFileSync(join(cwd, "hand-over.html"), "utf8");
};
const names = [...Object.keys(millLife).sort(), "bush.png"].map((it) => `jobs/${it}`);

describe("the digests", () => {
  test("are those of FIPS 180-4: nothing, “abc” and two blocks", () => {
    // The examples that NIST publishes with the standard.
    expect(digestOf("")).toBe("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    expect(digestOf("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    expect(digestOf("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")).toBe("248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    const letters = "\ufeff\u00e4\u8f74\ud83d\udd29 \ud800 \udfff end";
    expect(digestOf(letters)).toBe(createHash("sha256").update(letters, "utf8").digest("hex"));
    for (let n = 0; n < 5; n++)
      expect(digestOfBase64(photo.subarray(0, n).toString("base64"))).toBe(createHash("sha256").update(photo.subarray(0, n)).digest("hex"));
    expect(digestOfBase64(photo.toString("base64"))).toBe(createHash("sha256").update(photo).digest("hex"));
  });
  test("of every sheet and photo stand on the page, as sha256sum takes them", async () => {
    const page = await made("jobs", "vale");
    const rows = page.split("\n").filter((it) => /^[0-9a-f]{64} {2}/.test(it));
    expect(rows.map((it) => it.slice(66))).toEqual(names);
    for (const it of rows)
      expect(it.slice(0, 64)).toBe(
        createHash("sha256")
          .update(readFileSync(join(cwd, it.slice(66))))
          .digest("hex"),
      );
    const checked = execFileSync("sha256sum", ["-c", "-"], { cwd, input: `${rows.join("\n")}\n`, encoding: "utf8" });
    expect(checked.trim().split("\n")).toEqual(names.map((it) => `${it}: OK`));
    // Of the list itself, as it stands there.
    const whole = createHash("sha256")
      .update(`${rows.join("\n")}\n`)
      .digest("hex");
    expect(page).toContain(whole);
  });
});

describe("the page", () => {
  test("has the records, the readings, the history, the photo and what is due, and says what is not released", async () => {
    const page = await made("jobs/mill-2021-03-01.jobsheet");
    for (const it of [
      "Hand-over",
      "Vale mill",
      "Its life",
      "What is due, and what is open",
      "An hour with the stones apart",
      "0.04 mm",
      "data:image/png;base64,",
      "Estimate, not a limit",
    ])
      expect(page).toContain(it);
    expect(page).toContain("have no release");
    expect(page).not.toContain("Tarn lathe");
    expect(page).not.toMatch(/<(script|link|iframe)\b/);
  });
  test("is of one machine", async () => {
    const ran = await splitpin(["hand-over", "jobs"], cwd);
    expect([ran.code, ran.out]).toEqual([2, ""]);
    expect(ran.err).toContain("A hand-over is of one machine, and here are 2 machines:");
  });
});

describe("verify", () => {
  const verify = async (...words: string[]) => {
    const { code, out, err } = await splitpin(["verify", "hand-over.html", ...words], cwd);
    return { code, lines: out.trim().split("\n"), err };
  };
  test("finds all unchanged, from the folder that it was made in", async () => {
    await made("jobs", "vale");
    expect(await verify()).toEqual({
      code: 0,
      err: "",
      lines: [...names.map((it) => `unchanged   ${it}`), "All 6 are as they were when the hand-over was made."],
    });
  });
  test.each([
    ["one letter of a sheet", () => appendFileSync(join(cwd, "jobs/mill-2021-03-01.jobsheet"), " ")],
    ["a photo", () => writeFileSync(join(cwd, "jobs/bush.png"), Buffer.concat([photo, Buffer.from([0])]))],
  ])("sees %s changed", async (_, change) => {
    await made("jobs", "vale");
    change();
    const { code, lines } = await verify();
    expect(code).toBe(1);
    expect(lines.filter((it) => it.startsWith("CHANGED"))).toHaveLength(1);
    expect(lines.at(-1)).toBe("1 of 6 are not as they were when the hand-over was made.");
  });
  test("sees one that is gone, finds one that was moved, and tells of a newer sheet of the machine and not of another's", async () => {
    await made("jobs", "vale");
    rmSync(join(cwd, "jobs/mill-2021-03-01.jobsheet"));
    renameSync(join(cwd, "jobs/mill-2021-11-02.jobsheet"), join(cwd, "jobs/second.jobsheet"));
    writeFileSync(join(cwd, "jobs/newer.jobsheet"), 'sheet "Newer"\n  machine "Vale mill"\n  serial "VM 2"\n');
    const { code, lines } = await verify();
    expect(code).toBe(1);
    expect(lines).toContain("MISSING     jobs/mill-2021-03-01.jobsheet");
    expect(lines).toContain("unchanged   jobs/mill-2021-11-02.jobsheet, now jobs/second.jobsheet");
    expect(lines.filter((it) => it.startsWith("New since"))).toEqual([
      "New since: jobs/newer.jobsheet, a sheet of the same machine that is not in the hand-over.",
    ]);
  });
  test("a page that is none is refused", async () => {
    writeFileSync(join(cwd, "hand-over.html"), "<p>nothing</p>");
    expect(await verify()).toMatchObject({ code: 2, err: "splitpin: hand-over.html has no digests in it: it is no hand-over.\n" });
  });
  test("opens nothing that a hand-over names outside of the folder", async () => {
    writeFileSync(join(cwd, "secret.jobsheet"), 'sheet "Secret"\n');
    const digest = createHash("sha256").update('sheet "Secret"\n').digest("hex");
    writeFileSync(join(cwd, "hand-over.html"), `${digest}  ../secret.jobsheet\n`);
    const { code, out } = await splitpin(["verify", "../hand-over.html", "."], join(cwd, "jobs"));
    expect([code, out.split("\n")[0]]).toEqual([1, "MISSING     ../secret.jobsheet"]);
  });
});
