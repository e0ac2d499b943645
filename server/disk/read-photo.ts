// Reads a photo that a sheet names, or says in plain words why it can't be shown.
// Invariant: opens nothing but an ordinary file, not too large, that lies inside one of the folders given, and gives nothing of it unless its first
// bytes are those of a picture. What its name ends in counts for nothing.
import { closeSync, constants, fstatSync, openSync, readFileSync, readSync, realpathSync } from "node:fs";
import type { PhotoAnswer } from "../model/files.ts";
import { isInside, whyNot } from "./read-file.ts";

/** By its name, as it is offered to be written: what is in it, its first bytes say when it is read. */
export function isPictureName(path: string): boolean {
  return /[^/\\]\.(png|jpe?g|webp)$/i.test(path);
}

/** What a telephone takes is smaller. */
export const largestPhoto = 12 * 1024 * 1024;

type PhotoType = Extract<PhotoAnswer, { kind: "photo" }>["type"];

/** `path` is absolute, and so is each of `folders`, whose own links have been followed. */
export function readPhoto(path: string, folders: readonly string[]): PhotoAnswer {
  let real: string;
  try {
    real = realpathSync.native(path);
  } catch (error) {
    return { kind: "missing", why: whyNot(error) };
  }
  if (!folders.some((folder) => isInside(real, folder))) return { kind: "outside", why: "is a link that leads out of the workspace, so it was not read" };
  return opened(real, (descriptor) => {
    const status = fstatSync(descriptor);
    if (!status.isFile()) return { kind: "refused", why: "is not a file" };
    if (status.size > largestPhoto)
      return { kind: "refused", why: `has ${Math.ceil(status.size / 1024 / 1024)} MB; a page takes photos of up to ${largestPhoto / 1024 / 1024} MB` };
    const first = Buffer.alloc(16);
    const type = typeOf(first.subarray(0, readSync(descriptor, first, 0, first.length, 0)));
    if (type === undefined) return { kind: "refused", why: "is not a picture in PNG, JPEG or WebP" };
    return { kind: "photo", type, mark: `${status.mtimeMs} ${status.size} ${status.ino}`, base64: () => bytesOf(real, type) };
  });
}

/** By the first bytes: PNG (ISO/IEC 15948, 5.2), JPEG (ITU-T T.81, SOI and the marker behind it), WebP (RFC 9649, RIFF header). */
export function typeOf(first: Buffer): PhotoType | undefined {
  if (first.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))) return "image/png";
  if (first.length >= 3 && first[0] === 0xff && first[1] === 0xd8 && first[2] === 0xff) return "image/jpeg";
  if (first.toString("latin1", 0, 4) === "RIFF" && first.toString("latin1", 8, 12) === "WEBP") return "image/webp";
  return undefined;
}

/** The file may have become another since it was looked at, so it is looked at again. */
function bytesOf(real: string, type: PhotoType): string {
  let base64 = "";
  opened(real, (descriptor) => {
    const status = fstatSync(descriptor);
    if (!status.isFile() || status.size > largestPhoto) return { kind: "refused", why: "" };
    const bytes = readFileSync(descriptor);
    if (typeOf(bytes.subarray(0, 16)) === type) base64 = bytes.toString("base64");
    return { kind: "refused", why: "" };
  });
  return base64;
}

/** Without waiting: a pipe under a photo's name must not hang the reader. */
function opened(real: string, read: (descriptor: number) => PhotoAnswer): PhotoAnswer {
  let descriptor: number | undefined;
  try {
    descriptor = openSync(real, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    return read(descriptor);
  } catch (error) {
    return { kind: "missing", why: whyNot(error) };
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}
