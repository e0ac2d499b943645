// The language server as a program of Node: over the way that the editor names, ending with it.
import {
  IPCMessageReader,
  IPCMessageWriter,
  type MessageReader,
  type MessageWriter,
  StreamMessageReader,
  StreamMessageWriter,
  createServerPipeTransport,
  createServerSocketTransport,
} from "vscode-jsonrpc/node";
import { createConnection } from "./connection.ts";
import { serve } from "./serve.ts";

/** The way is that which the editor names among the program's words; where it names none, standard input and output. */
export function serveByNode(version: string): void {
  const [reader, writer] = wayOf(process.argv.slice(2));
  let end = (): void => {};
  process.once("disconnect", () => end());
  const connection = createConnection(reader, writer, {
    end: (stopped) => process.exit(stopped ? 0 : 1),
    watch(editor, over) {
      end = over;
      endWith(editor, over);
    },
  });
  serve(version, connection);
}

function wayOf(words: readonly string[]): [MessageReader, MessageWriter] {
  const given = (name: string): string | undefined => {
    const at = words.findIndex((it) => it === name || it.startsWith(`${name}=`));
    return at === -1 ? undefined : words[at] === name ? words[at + 1] : words[at]?.slice(name.length + 1);
  };
  const pipe = given("--pipe");
  const port = given("--socket");
  if (words.includes("--node-ipc")) return [new IPCMessageReader(process), new IPCMessageWriter(process)];
  if (pipe !== undefined) return createServerPipeTransport(pipe);
  if (port !== undefined) return createServerSocketTransport(Number(port));
  return [new StreamMessageReader(process.stdin), new StreamMessageWriter(process.stdout)];
}

/** An editor that fell over closes nothing: it is looked for now and then. */
function endWith(editor: number | null, end: () => void): void {
  if (editor === null) return;
  setInterval(() => {
    try {
      process.kill(editor, 0);
    } catch {
      end();
    }
  }, 3000).unref();
}
