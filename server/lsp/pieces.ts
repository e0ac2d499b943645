// A long answer on its way out: made into bytes a piece at a time, so that no page keeps the server from what comes in meanwhile.
// Invariant: what arrives is what one piece would be.
import type { Message } from "vscode-jsonrpc/node";
import type { Slices } from "../service.ts";
import { inTurns } from "./turns.ts";

/** In UTF-16 units. */
const piece = 1 << 15;

/** As the writer of messages takes it. */
export const inPieces = {
  name: "application/json",
  encode(message: Message): Promise<Uint8Array> {
    const { result } = message as { readonly result?: unknown };
    const isLong = typeof result === "object" && result !== null && Object.values(result).some((it) => typeof it === "string" && it.length > piece);
    return isLong ? inTurns(encoding(message, result)) : Promise.resolve(Buffer.from(JSON.stringify(message)));
  },
};

function* encoding(message: Message, result: object): Slices<Uint8Array> {
  const out = [Buffer.from(JSON.stringify({ ...message, result: undefined }).replace(/\}$/, ',"result":{'))];
  let comma = "";
  for (const [key, value] of Object.entries(result)) {
    if (value === undefined) continue;
    out.push(Buffer.from(`${comma}${JSON.stringify(key)}:`));
    comma = ",";
    if (typeof value !== "string") out.push(Buffer.from(JSON.stringify(value)));
    else {
      // Of two halves of one letter each would be written as an escape: that reads as the letter again.
      for (let at = 0; at < value.length || at === 0; at += piece) {
        const end = at + piece >= value.length ? '"' : "";
        out.push(Buffer.from(`${at === 0 ? '"' : ""}${JSON.stringify(value.slice(at, at + piece)).slice(1, -1)}${end}`));
        yield;
      }
    }
    yield;
  }
  out.push(Buffer.from("}}"));
  return Buffer.concat(out);
}
