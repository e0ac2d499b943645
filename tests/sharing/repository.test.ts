// A repository of jobs: the hook, the build server's example, the conversion for `git diff` and merges, each run by git itself on a repository that is made for it.
import { type SpawnSyncReturns, spawnSync } from "node:child_process";
import { chmodSync, copyFileSync, cpSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { parse as parseYaml } from "yaml";
import { factsOf } from "../../server/features/facts.ts";
import { program } from "../built.ts";
import { splitpin } from "../cli/desk.ts";

const sharing = fileURLToPath(new URL("../../client/sharing/", import.meta.url));
let home = "";
let cwd = "";
let bin = "";
let repositories = 0;
// Made once; each test works in a copy.
beforeAll(() => {
  home = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-club-")));
  cwd = join(home, "club");
  bin = join(home, "bin");
  mkdirSync(join(cwd, "mill"), { recursive: true });
  mkdirSync(bin);
  // The program under its name, as an installed one is.
  writeFileSync(join(bin, "splitpin"), `#!/bin/sh\nexec "${process.execPath}" "${program}" "$@"\n`);
  chmodSync(join(bin, "splitpin"), 0o755);
  must(git("init", "--quiet", "--initial-branch", "main"));
  for (const [name, value] of [
    ["user.name", "A. Vale"],
    ["user.email", "a@club.invalid"],
    ["commit.gpgsign", "false"],
    ["diff.jobsheet.textconv", "splitpin facts"],
  ] as const)
    must(git("config", name, value));
  copyFileSync(join(sharing, "gitattributes"), join(cwd, ".gitattributes"));
  write(
    "mill/data.jobsheet",
    'part bush "Bush"\nfastener nut "Cap nut"\n  torque 60 .. 70 N.m\n  locked by split pin 1/8 x 1-1/4 in\n  critical "the stone"\n',
  );
  write("mill/job.jobsheet", job);
  must(commit("The mill"));
});
afterAll(() => rmSync(home, { recursive: true, force: true }));
beforeEach(() => {
  cwd = join(home, `club-${repositories++}`);
  cpSync(join(home, "club"), cwd, { recursive: true, preserveTimestamps: true });
});
function hook(): void {
  copyFileSync(join(sharing, "pre-commit"), join(cwd, ".git/hooks/pre-commit"));
  chmodSync(join(cwd, ".git/hooks/pre-commit"), 0o755);
}

const job = `sheet "Spindle"
  machine "Vale mill"
  by "A. Vale"
use "data.jobsheet"

finding nut
  is loose
  decision reuse

day 2026-03-01
step look "Look"
  remove bush
  done
`;

function run(command: string, words: readonly string[], env: Readonly<Record<string, string>> = {}): SpawnSyncReturns<string> {
  const own = { PATH: `${bin}:${process.env.PATH ?? ""}`, HOME: home, GIT_CONFIG_NOSYSTEM: "1", GIT_PAGER: "cat", LC_ALL: "C.UTF-8", ...env };
  return spawnSync(command, words, { cwd, encoding: "utf8", env: own });
}
function git(...words: string[]): SpawnSyncReturns<string> {
  return run("git", words);
}
function must(it: SpawnSyncReturns<string>): string {
  if (it.status !== 0) throw new Error(`${it.stdout}${it.stderr}`);
  return it.stdout;
}
function write(name: string, text: string): void {
  writeFileSync(join(cwd, name), text);
}
const commit = (message: string) => {
  must(git("add", "."));
  return git("commit", "--quiet", "-m", message);
};

describe("the hook", () => {
  beforeEach(hook);
  test("lets an honest sheet through, whatever is open on it, and shows what is", () => {
    write("mill/job.jobsheet", `${job}finding bush\n  is cracked\n`);
    const ran = commit("A crack");
    expect([ran.status, ran.stdout.includes("found-loose") || ran.stderr.includes("found-loose")]).toEqual([0, true]);
  });
  test("keeps back a figure without a unit, and a release that does not hold", () => {
    const head = must(git("rev-parse", "HEAD"));
    write("mill/job.jobsheet", `${job}step up "Up"\n  tighten nut to 65\n`);
    const bare = commit("Bare");
    expect([bare.status, bare.stderr.includes("Not committed")]).toEqual([1, true]);
    write("mill/job.jobsheet", `${job}release by "A. Vale" 2026-03-02\n`);
    expect(commit("Released").status).toBe(1);
    expect(must(git("rev-parse", "HEAD"))).toBe(head);
  });
  test("looks at what will be committed, and not at what lies beside it", () => {
    write("mill/job.jobsheet", `${job}finding bush\n  is worn\n`);
    must(git("add", "."));
    // Written on after `git add`.
    write("mill/job.jobsheet", `${job}what is this\n`);
    expect(git("commit", "--quiet", "-m", "As it was added").status).toBe(0);
    must(git("add", "."));
    expect(git("commit", "--quiet", "-m", "As it is now").status).toBe(1);
  });
  test("has nothing to say of a commit without sheets, and takes names with blanks", () => {
    write("notes.txt", "x");
    expect(commit("Notes")).toMatchObject({ status: 0, stdout: "", stderr: "" });
    write("mill/job two.jobsheet", 'sheet "Two"\nwhat is this\n');
    expect(commit("Two").status).toBe(1);
  });
});

describe("git diff", () => {
  test("shows the fact that changed, behind what it is of, and no layout", () => {
    write("mill/job.jobsheet", job.replace("  is loose", "    is    serviceable   # seen by both"));
    const lines = must(git("diff", "--unified=0"))
      .split("\n")
      .filter((it) => /^[-+][^-+]/.test(it));
    expect(lines).toEqual(["-finding nut: is loose", "+finding nut: is serviceable"]);
    write("mill/job.jobsheet", `# a remark\n${job.replaceAll("\n  ", "\n      ")}`);
    expect(
      must(git("diff"))
        .split("\n")
        .filter((it) => /^[-+][^-+]/.test(it)),
    ).toEqual([]);
  });
  test("facts lose nothing that is said: quotes, signs in them, lines that can't be read", () => {
    expect(factsOf('\ufeffsheet "A # b"   # c\n machine "M \\" # n"\n\nstep one "One; # two"\n  remove hub  # off\nwhat is this\n')).toBe(
      'sheet "A # b"\nsheet: machine "M \\" # n"\nstep one "One; # two"\nstep one: remove hub\nwhat is this\n',
    );
    expect(factsOf("# nothing\n")).toBe("");
  });
  test("facts of what is no sheet are refused, and nothing in one acts on a terminal", async () => {
    expect(await splitpin(["facts", "none.jobsheet"], cwd)).toMatchObject({ code: 2, out: "" });
    write("evil.jobsheet", 'sheet "\u001b[31m\u202e"\n');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not get through.
    expect((await splitpin(["facts", "evil.jobsheet"], cwd)).out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202a-\u202e]/);
  });
});

describe("merging", () => {
  const branch = (name: string, text: string) => {
    must(git("switch", "--quiet", "-c", name, "main"));
    write("mill/job.jobsheet", text);
    must(commit(name));
  };
  test("facts at different entries come together line by line", () => {
    branch("one", job.replace("  is loose", "  is loose, unlocked"));
    branch("two", job.replace("  remove bush\n", "  remove bush\n  clean bush\n"));
    must(git("merge", "--quiet", "one"));
    const merged = readFileSync(join(cwd, "mill/job.jobsheet"), "utf8");
    expect(merged).toBe(job.replace("  is loose", "  is loose, unlocked").replace("  remove bush\n", "  remove bush\n  clean bush\n"));
  });
  test("two figures at one place are left to a person, and a sheet that holds both marks is kept back", async () => {
    branch("one", job.replace("is loose", "is stripped"));
    branch("two", job.replace("is loose", "is sheared"));
    expect(git("merge", "--quiet", "one").status).toBe(1);
    expect(readFileSync(join(cwd, "mill/job.jobsheet"), "utf8")).toContain("<<<<<<<");
    const { code, out } = await splitpin(["check", "mill", "--fail-on", "unclear"], cwd);
    expect([code, out.includes("<<<<<<<")]).toEqual([1, true]);
    hook();
    expect(commit("Both").status).toBe(1);
  });
});

describe("the build server's example", () => {
  interface Workflow {
    readonly jobs: {
      readonly check: {
        readonly steps: readonly { readonly name?: string; readonly run?: string; readonly uses?: string; readonly with?: Readonly<Record<string, string>> }[];
      };
    };
  }
  const steps = () => (parseYaml(readFileSync(join(sharing, "check-jobs.yml"), "utf8")) as Workflow).jobs.check.steps;
  /** As a runner does: each by a shell that stops at the first failure. What installs the program is left out: it lies in the path here. */
  const build = () =>
    steps().flatMap((it) =>
      it.run === undefined || it.name === "Install"
        ? []
        : [{ name: it.name, status: run("bash", ["--noprofile", "--norc", "-eo", "pipefail", "-c", it.run]).status }],
    );
  test("passes with a machine that is apart, and leaves what is open as SARIF, JUnit and a page of what is due", () => {
    expect(build()).toEqual([
      { name: "What is open, for the pages of the repository", status: 0 },
      { name: "What is open, as tests", status: 0 },
      { name: "What is due", status: 0 },
      { name: "What must not be shared", status: 0 },
    ]);
    expect(JSON.parse(readFileSync(join(cwd, "splitpin.sarif"), "utf8")).runs[0].results.length).toBeGreaterThan(0);
    expect(readFileSync(join(cwd, "splitpin-junit.xml"), "utf8")).toContain("<testsuites");
    expect(readFileSync(join(cwd, "due.md"), "utf8")).toContain("What is due on");
    // What the other steps send is what these have written.
    const sent = steps()
      .flatMap((it) => Object.values(it.with ?? {}))
      .join("\n");
    for (const it of ["splitpin.sarif", "splitpin-junit.xml", "due.md"]) expect(sent).toContain(it);
  });
  test("fails over a release that does not hold", () => {
    write("mill/job.jobsheet", `${job}release by "A. Vale" 2026-03-02\n`);
    expect(build().map((it) => it.status)).toEqual([0, 0, 0, 1]);
  });
});

test("the page names the files that lie beside it, and commands that there are", async () => {
  const page = readFileSync(join(sharing, "SHARING.md"), "utf8");
  for (const [, name] of page.matchAll(/\]\(([^)#]+)\)/g)) expect(() => readFileSync(join(sharing, name as string))).not.toThrow();
  for (const [, command] of page.matchAll(/`splitpin ([a-z-]+)/g))
    expect([command, (await splitpin([command as string, "--help"], cwd)).out.startsWith(`splitpin ${command} `)]).toEqual([command, true]);
});
