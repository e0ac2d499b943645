// What is given away: the tarball installs and runs on the oldest Node promised; the usual packer of extensions makes one of our files without a warning, and ours has the same in it.
import { type SpawnSyncReturns, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { unzipSync } from "fflate";
import { PNG } from "pngjs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { packerProgram } from "../../.ci/packer.ts";
import { nodes } from "../built.ts";
import { isRun } from "../sampled.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const manifest = JSON.parse(readFileSync(`${root}package.json`, "utf8")) as {
  readonly version: string;
  readonly icon: string;
  readonly files: readonly string[];
  readonly repository: { readonly url: string };
  readonly categories: readonly string[];
  readonly galleryBanner: { readonly color: string; readonly theme: string };
};
let folder = "";
beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-release-")));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(command: string, words: readonly string[], cwd: string): SpawnSyncReturns<string> {
  return spawnSync(command, words, { cwd, encoding: "utf8", maxBuffer: 1 << 26, env: { ...process.env, npm_config_update_notifier: "false" } });
}
function must(it: SpawnSyncReturns<string>): string {
  if (it.status !== 0) throw new Error(`${it.stdout}${it.stderr}`);
  return it.stdout;
}

// Between two changes nobody packs.
describe.runIf(isRun)("the tarball", () => {
  test("has what package.json names, installs without a package besides, and runs on each Node that is here, the oldest promised among them", () => {
    const [packed] = JSON.parse(must(run("npm", ["pack", "--json", "--ignore-scripts", "--pack-destination", folder], root))) as {
      filename: string;
      files: { path: string }[];
    }[];
    const paths = (packed?.files ?? []).map((it) => it.path);
    for (const it of ["dist/splitpin.js", "dist/NOTICES.txt", "grammar/REFERENCE.md", "CHANGELOG.md", "LICENSE", "README.md", "client/sharing/pre-commit"])
      expect(paths).toContain(it);
    expect(paths.filter((it) => /^(tests|\.ci|node_modules|samples|server\/(?!rules\/RULES\.md))/.test(it))).toEqual([]);
    const at = join(folder, "installed");
    mkdirSync(at);
    writeFileSync(join(at, "package.json"), '{"private":true}');
    must(run("npm", ["install", "--offline", "--no-audit", "--no-fund", join(folder, packed?.filename ?? "")], at));
    expect(readdirSync(join(at, "node_modules")).filter((it) => !it.startsWith("."))).toEqual(["splitpin"]);
    writeFileSync(join(at, "a.jobsheet"), 'sheet "A"\n  machine "Mill"\nfastener nut "Nut"\n  critical "a wheel"\nfinding nut\n  is loose\n');
    const program = join(at, "node_modules/.bin/splitpin");
    expect(must(run(program, ["--version"], at))).toBe(`splitpin ${manifest.version}\n`);
    for (const { name, path } of nodes) {
      const checked = run(path, [realpathSync(program), "check", "a.jobsheet", "--format", "json"], at);
      expect([name, checked.status, checked.stderr, checked.stdout.includes("found-loose")]).toEqual([name, 1, "", true]);
      const hand = run(path, [realpathSync(program), "hand-over", "a.jobsheet"], at);
      expect([name, hand.status, hand.stdout.startsWith("<!DOCTYPE html>")]).toEqual([name, 0, true]);
    }
  });
});

describe.runIf(isRun)("the extension", () => {
  let theirs: Record<string, Uint8Array> = {};
  test("is made by the usual packer without a warning", () => {
    // A copy of what is packed, so that nothing else lies about.
    const at = join(folder, "extension");
    for (const pattern of ["package.json", ...manifest.files]) {
      const star = /^(.*\/)\*(\.[a-z]+)$/.exec(pattern);
      const names = star === null ? [pattern] : readdirSync(root + star[1]).flatMap((it) => (it.endsWith(star[2] as string) ? [`${star[1]}${it}`] : []));
      for (const it of names) {
        mkdirSync(dirname(join(at, it)), { recursive: true });
        cpSync(root + it, join(at, it));
      }
    }
    const out = join(folder, "theirs.vsix");
    const home = manifest.repository.url.replace(/\.git$/, "");
    const words = ["package", "--no-dependencies", "--out", out, "--baseContentUrl", `${home}/blob/HEAD`, "--baseImagesUrl", `${home}/raw/HEAD`];
    const packed = run(process.execPath, [packerProgram, ...words], at);
    const said = `${packed.stdout}${packed.stderr}`;
    expect([packed.status, said.split("\n").filter((it) => /warning|error/i.test(it))]).toEqual([0, []]);
    theirs = unzipSync(readFileSync(out));
  });
  test("ours has the same files, but for what is of no use to it, and a manifest that says the same", () => {
    must(run(process.execPath, [`${root}.ci/package.mjs`], root));
    const ours = unzipSync(readFileSync(`${root}splitpin-${manifest.version}.vsix`));
    const names = (of: Record<string, Uint8Array>) =>
      Object.keys(of)
        .map((it) => it.toLowerCase())
        .filter((it) => !it.startsWith("extension/dist/browser/") && !it.startsWith("extension/client/sharing/"))
        .sort();
    expect(names(ours)).toEqual(names(theirs));
    const said = (of: Record<string, Uint8Array>, tag: RegExp) => tag.exec(new TextDecoder().decode(of["extension.vsixmanifest"]))?.[1];
    for (const tag of [
      /<DisplayName>([^<]*)</,
      /<Categories>([^<]*)</,
      /Branding\.Color" Value="([^"]*)"/,
      /Branding\.Theme" Value="([^"]*)"/,
      /Code\.Engine" Value="([^"]*)"/,
      /Icons\.Default" Path="([^"]*)"/,
      /<Icon>([^<]*)</,
    ])
      expect([tag.source, said(ours, tag)]).toEqual([tag.source, said(theirs, tag)]);
  });
  test("its icon is a picture as markets ask for it: PNG, square, 128 or more a side", () => {
    const icon = PNG.sync.read(readFileSync(root + manifest.icon));
    expect([icon.width, icon.height >= 128]).toEqual([icon.height, true]);
    expect(manifest.galleryBanner.color).toMatch(/^#[0-9a-f]{6}$/);
  });
});

test("the changelog has an entry of the version, and every file that the pages of a release name is there", () => {
  expect(readFileSync(`${root}CHANGELOG.md`, "utf8")).toMatch(new RegExp(`^## ${manifest.version.replaceAll(".", "\\.")}\\b`, "m"));
  const page = readFileSync(`${root}client/RELEASING.md`, "utf8");
  for (const [, path] of page.matchAll(/node (\.ci\/[\w.-]+)|(?<=`)(tests\/[\w./-]+\.ts)/g))
    if (path !== undefined) expect([path, existsSync(root + path)]).toEqual([path, true]);
  expect(manifest.files.filter((it) => !it.includes("*") && !existsSync(root + it))).toEqual([]);
});
