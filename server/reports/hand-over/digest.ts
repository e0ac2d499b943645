// The digest of a file: SHA-256 (FIPS 180-4) of its bytes, as `sha256sum` and its like print it.
// Invariant: of what was read for the report and nothing else; a sheet's text is UTF-8 and kept to the last line end, so its digest is that of its file.
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { type SheetText, textOf } from "../../../grammar/sheet-text.ts";

export function digestOfSheet(sheet: SheetText): string {
  return digestOf(textOf(sheet));
}

export function digestOf(text: string): string {
  return bytesToHex(sha256(utf8Of(text)));
}

export function digestOfBase64(base64: string): string {
  return bytesToHex(sha256(bytesOf(base64)));
}

/** A list as `sha256sum -c` takes it: the digest, two blanks, the name. */
export function checkList(files: readonly { readonly sha256: string; readonly file: string }[]): string {
  return files.map((it) => `${it.sha256}  ${it.file}\n`).join("");
}

/** The rows of such a list that stand in a text, wherever they stand. */
export function readCheckList(text: string): { readonly sha256: string; readonly file: string }[] {
  return [...text.matchAll(/^([0-9a-f]{64}) {2}(.+)$/gm)].map(([, digest, file]) => ({ sha256: digest as string, file: file as string }));
}

// The core runs where there is neither TextEncoder nor atob.

/** UTF-8 (RFC 3629); half a surrogate pair is written as the sign for what can't be, as encoders do. */
function utf8Of(text: string): Uint8Array {
  const out = new Uint8Array(text.length * 3);
  let n = 0;
  for (const letter of text) {
    let code = letter.codePointAt(0) as number;
    if (code >= 0xd800 && code <= 0xdfff) code = 0xfffd;
    if (code < 0x80) out[n++] = code;
    else if (code < 0x800) {
      out[n++] = 0xc0 | (code >> 6);
      out[n++] = 0x80 | (code & 0x3f);
    } else if (code < 0x10000) {
      out[n++] = 0xe0 | (code >> 12);
      out[n++] = 0x80 | ((code >> 6) & 0x3f);
      out[n++] = 0x80 | (code & 0x3f);
    } else {
      out[n++] = 0xf0 | (code >> 18);
      out[n++] = 0x80 | ((code >> 12) & 0x3f);
      out[n++] = 0x80 | ((code >> 6) & 0x3f);
      out[n++] = 0x80 | (code & 0x3f);
    }
  }
  return out.subarray(0, n);
}

const sixBits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** Base64 (RFC 4648, 4), as a photo's bytes are given. */
function bytesOf(base64: string): Uint8Array {
  const text = base64.replace(/=+$/, "");
  const out = new Uint8Array(Math.floor((text.length * 3) / 4));
  let bits = 0;
  let held = 0;
  let n = 0;
  for (const letter of text) {
    bits = ((bits << 6) | sixBits.indexOf(letter)) & 0xffffff;
    held += 6;
    if (held >= 8) {
      held -= 8;
      out[n++] = (bits >> held) & 0xff;
    }
  }
  return out;
}
