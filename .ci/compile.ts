// Writes what Node compiled of the bundled program, so that the next start reads that: called by the build, with the program's file.
// The program runs as a language server through one conversation; what was called in it is what gets written.
import { spawn } from "node:child_process";
import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { compiledOf, runScript, scriptOf } from "../server/script.ts";

const [program, part] = process.argv.slice(2) as [string, string | undefined];
const root = fileURLToPath(new URL("../", import.meta.url));

if (part === "server") {
  process.argv = [process.argv[0] as string, program, "server", "--stdio"];
  const script = scriptOf(program, undefined);
  process.on("exit", () => {
    // A start in between finds all of it or nothing.
    writeFileSync(`${program}.part`, script.createCachedData());
    renameSync(`${program}.part`, compiledOf(program));
  });
  runScript(script, program);
} else {
  const child = spawn(process.execPath, [process.argv[1] as string, program, "server"], { stdio: ["pipe", "pipe", "inherit"] });
  const send = (message: object) => {
    const body = JSON.stringify({ jsonrpc: "2.0", ...message });
    child.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  const textDocument = {
    uri: "file:///first.jobsheet",
    languageId: "jobsheet",
    version: 1,
    text: readFileSync(`${root}samples/bevel-drive/bevel-drive.jobsheet`, "utf8"),
  };
  send({ id: 1, method: "initialize", params: { processId: null, rootUri: null, capabilities: {} } });
  send({ method: "initialized", params: {} });
  send({ method: "textDocument/didOpen", params: { textDocument } });
  let heard = "";
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    const before = heard;
    heard += text;
    const comes = (what: string) => !before.includes(what) && heard.includes(what);
    if (comes('"textDocument/publishDiagnostics"')) send({ id: 2, method: "shutdown" });
    if (comes('"id":2')) send({ method: "exit" });
  });
  child.on("exit", (code) => {
    process.exitCode = code ?? 1;
  });
}
