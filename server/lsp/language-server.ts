// The language server as a program of Node: over the way that the editor names, ending with it.
// Invariant: it is never alive and deaf: where nothing more can be read it says so in a line and ends with 1, so that the editor starts it anew.
import { writeSync } from "node:fs";
import {
  IPCMessageReader,
  IPCMessageWriter,
  type MessageReader,
  type MessageWriter,
  ReadableStreamMessageReader,
  StreamMessageReader,
  StreamMessageWriter,
  createServerPipeTransport,
  createServerSocketTransport,
} from "vscode-jsonrpc/node";
import { createConnection } from "./connection.ts";
import { inPieces } from "./pieces.ts";
import { serve } from "./serve.ts";

/** The way is that which the editor names among the program's words; where it names none, standard input and output. A word that is none of them is refused. */
export function serveByNode(version: string): ReturnType<typeof serve> {
  const words = process.argv.slice(2);
  const wrong = wrongIn(words.slice(1));
  if (wrong !== undefined) {
    writeSync(process.stderr.fd, `splitpin: ${wrong} splitpin server --help says what it takes.\n`);
    process.exit(2);
  }
  const [way, writer] = wayOf(words);
  const reader = framed(way, (why) => {
    // Said before it ends, for a process that exits waits for no pipe.
    writeSync(process.stderr.fd, `splitpin: the server ends, for nothing that follows can be read: ${why}\n`);
    process.exit(1);
  });
  let end = (): void => {};
  process.once("disconnect", () => end());
  const connection = createConnection(reader, writer, {
    end: (stopped) => process.exit(stopped ? 0 : 1),
    watch(editor, over) {
      end = over;
      endWith(editor, over);
    },
  });
  return serve(version, connection);
}

/**
 * The same reader, that ends where a message can't be told from the next any more: the header has no length or a wrong one, or so many bytes never come. What is wrong within a
 * message (no JSON, or none that can be taken) is left out, and the next is read.
 */
function framed(reader: MessageReader, end: (why: string) => void): MessageReader {
  // Whole messages come from a process that is linked: they have no headers.
  if (!(reader instanceof ReadableStreamMessageReader)) return reader;
  // JSON that is none is a `SyntaxError`, as the decoder throws it; whatever else the reader tells is of its frame, or of the stream.
  reader.onError((error) => {
    if (!(error instanceof SyntaxError)) end(inOneLine(error.message));
  });
  reader.onPartialMessage(({ waitingTime }) => end(`a message is shorter than its header says, and nothing came for ${waitingTime / 1000} s.`));
  const listen = reader.listen.bind(reader);
  reader.listen = (callback) =>
    listen((message) => {
      try {
        callback(message);
      } catch {
        // A message that is JSON and no message (a request whose id is null) would be told as an error of the reader.
      }
    });
  return reader;
}

/** What came is shown harmlessly, and no more of it than tells. */
function inOneLine(text: string): string {
  return text
    .replace(/\s+/g, " ")
    .replace(/[^\x20-\x7e]/g, "·")
    .slice(0, 200);
}

/** What is wrong with the words behind `server`: it takes the ways that an editor names, and the number of the editor's process. */
function wrongIn(words: readonly string[]): string | undefined {
  for (let i = 0; i < words.length; i++) {
    const [, name, value] = /^(--[^=]*)(?:=(.*))?$/s.exec(words[i] as string) ?? [];
    if (name === undefined) return `server takes no “${inOneLine(words[i] as string)}”.`;
    const isBare = name === "--stdio" || name === "--node-ipc";
    const hasValue = name === "--pipe" || name === "--socket" || name === "--clientProcessId";
    if (!isBare && !hasValue) return `There is no option ${inOneLine(name)}.`;
    const given = value ?? (hasValue ? words[++i] : undefined);
    if (isBare ? given !== undefined : !given) return `${name} is not given as it should be.`;
    if (name === "--socket" && !/^\d{1,5}$/.test(given as string)) return "--socket takes the number of a port.";
    if (name === "--node-ipc" && process.send === undefined) return "--node-ipc is for a program that was started with a channel to it.";
  }
  return undefined;
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
  return [new StreamMessageReader(process.stdin), new StreamMessageWriter(process.stdout, { contentTypeEncoder: inPieces })];
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
