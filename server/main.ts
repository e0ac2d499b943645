// The program `splitpin`: opens the door that was asked for, the language server or the command line.
// Invariant: loads only the door that it opens, so that a check does not wait for a protocol.
import { setFlagsFromString } from "node:v8";
import { version } from "./version.ts";

const words = process.argv.slice(2);

// A reader that stops listening (`splitpin release | head`) is no fault of anybody's, and the verdict is what it was. What can't be written anywhere is no verdict.
let lost: string | undefined;
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") lost ??= error.code === "ENOSPC" ? "the disk is full" : error.message;
});
process.stderr.on("error", () => {});
process.on("exit", () => {
  if (lost === undefined) return;
  process.exitCode = 2;
  process.stderr.write(`splitpin: What there was to say could not be written: ${lost}.\n`);
});

if (words[0] === "server" && !words.includes("--help") && !words.includes("-h")) void serve();
else void run();

async function serve(): Promise<void> {
  // Most of what a start makes stays: the room for what does not is left as it is until somebody types (`collecting.ts`).
  setFlagsFromString("--semi-space-growth-factor=1");
  const door = await import("./lsp/language-server.ts");
  const server = door.serveByNode(version);
  // No start waits for that: it is of use where somebody types. A server whose files were replaced meanwhile goes on without.
  const settleIn = async (): Promise<void> => {
    try {
      const [{ othersGiveWay }, { collectingWhenAsked }] = await Promise.all([import("./threads.ts"), import("./collecting.ts")]);
      othersGiveWay();
      server.settleIn(collectingWhenAsked());
    } catch {
      // Slower, and no worse.
    }
  };
  setTimeout(() => void settleIn(), 1000).unref();
}

async function run(): Promise<void> {
  let cwd: string;
  try {
    cwd = process.cwd();
  } catch {
    process.stderr.write("splitpin: The folder that you are in is not there any more.\n");
    process.exitCode = 2;
    return;
  }
  const door = await import("./cli/run.ts");
  process.exitCode = await door.run(words, {
    cwd,
    version,
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    colour: process.stdout.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== "dumb",
    width: process.stdout.columns ?? 100,
  });
}
