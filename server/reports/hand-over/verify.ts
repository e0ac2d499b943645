// Whether the files that a hand-over was made from are still as they were, by the digests that stand in it.
// Invariant: a name in a hand-over is compared and never opened: only the sheets that are given are read, and the photos that they name.
import { type Files, joinPath } from "../../model/files.ts";
import { machineOf, sameMachine } from "../../model/others.ts";
import { digestOfBase64, digestOfSheet, readCheckList } from "./digest.ts";

export interface Verified {
  readonly files: readonly {
    /** As the hand-over names it. */
    readonly file: string;
    readonly is: "unchanged" | "moved" | "changed" | "missing";
    /** Of one that was moved: where it is now, by the first of its names. */
    readonly now?: string;
  }[];
  /** Sheets of the same machine that the hand-over does not name, by their paths. */
  readonly newer: readonly string[];
}

/** `page`: the text of the hand-over. `namesOf`: the names that a path of the core goes by here. Undefined where no digest stands in the text. */
export function verified(files: Files, sheets: readonly string[], page: string, namesOf: (path: string) => readonly string[]): Verified | undefined {
  const list = readCheckList(unescaped(page));
  if (list.length === 0) return undefined;
  const byName = new Map<string, string>();
  const byDigest = new Map<string, string>();
  const named = new Set(list.map((it) => it.file));
  const digests = new Set(list.map((it) => it.sha256));
  const put = (path: string, digest: string): boolean => {
    const names = namesOf(path);
    for (const name of names) byName.set(name, digest);
    if (!byDigest.has(digest)) byDigest.set(digest, names[0] ?? path);
    return digests.has(digest) || names.some((name) => named.has(name));
  };
  const machines = sheets.flatMap((path) => {
    const sheet = files.read(path);
    if (typeof sheet === "string") return [];
    const known = put(path, digestOfSheet(sheet));
    for (const entry of sheet.entries)
      for (const detail of entry.details) {
        const inside = detail.kind === "photo" && detail.path !== undefined ? joinPath(path, detail.path.value) : undefined;
        const photo = inside === undefined ? undefined : files.photo?.(inside);
        const base64 = photo?.kind === "photo" ? photo.base64() : "";
        if (inside !== undefined && base64 !== "") put(inside, digestOfBase64(base64));
      }
    return [{ path, known, machine: machineOf(sheet.entries.find((entry) => entry.kind === "sheet")) }];
  });
  return {
    files: list.map(({ file, sha256 }) => {
      const digest = byName.get(file);
      const now = byDigest.get(sha256);
      if (digest === sha256) return { file, is: "unchanged" };
      if (digest !== undefined) return { file, is: "changed" };
      return now === undefined ? { file, is: "missing" } : { file, is: "moved", now };
    }),
    newer: machines.filter((one) => !one.known && machines.some((other) => other.known && sameMachine(one.machine, other.machine))).map((it) => it.path),
  };
}

/** What a page writes for `&`, `<`, `>` and quotes, in names of files. */
function unescaped(page: string): string {
  return page.replace(/&#(\d{1,5});/g, (_, code: string) => String.fromCharCode(Number(code)));
}
