// Changes to a folder of sheets, made at random as people make them: letters, lines, whole entries, names, days, releases, files.
// Each is told by a few numbers, so that a failing run can be made smaller and told again.
import fc from "fast-check";
import { type SheetText, editSheet, readSheet, textOf } from "../../grammar/sheet-text.ts";

/** What is done, and three numbers that say where and with what. */
export interface Edit {
  readonly kind: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

const number = fc.nat(0xffff);
export const anyEdit: fc.Arbitrary<Edit> = fc.record({ kind: number, a: number, b: number, c: number });

export type Folder = Map<string, SheetText>;

const letters = ["x", "", " ", '"', "#", "9", "0.", ",", "-2", "\n", "\n  ", "\r\n", "😀", "left", '  note "hub"\n', "z"];

/** Lines that change how the rest is taken. */
const weighty = [
  "day 2026-05-20\n",
  "day 2025-01-03\n",
  'release by "A. Moor" 2026-06-01\n',
  'release by "A. Moor" 2026-06-01\n  test "ten miles, all well"\n',
  "places side left, right\n",
  "places end front, rear\n",
  "pause\n",
  '  raise on jack under "beam"\n',
  "  under\n",
  "  clear\n",
  "  lower\n",
  "  chock\n",
  "  support on stands\n",
  "  done\n",
  "  done left\n",
  "  done 2026-05-03\n",
  '  critical "a wheel"\n',
  "  each side\n",
  "  qty 2\n",
  "  renew\n",
  "  keeps place\n",
  "  decision renew\n",
  "  decision reuse\n",
  "  is cracked\n",
  "  is loose, unlocked\n",
  "  is missing\n",
  '  accept figure-slip "so it is"\n',
  "  torque none\n",
  "  after ",
  "# a comment\n",
  "\n",
];

/** The strokes that an edit is made by: one for most, and letter by letter where a line is typed. Each is made when it is called. */
export function strokesOf(folder: Folder, original: ReadonlyMap<string, string>, pool: readonly string[], edit: Edit): (() => void)[] {
  if (edit.kind % 6 !== 0) return [() => makeEdit(folder, original, pool, edit)];
  const path = [...folder.keys()].at(-1) as string;
  const lines = (pool[edit.c % pool.length] as string).split("\n");
  const typed = (lines[edit.b % lines.length] as string).slice(0, 40);
  const put = (line: number, column: number, to: number, text: string) => {
    folder.set(path, editSheet(folder.get(path) as SheetText, { startLine: line, startColumn: column, endLine: line, endColumn: to, text }));
  };
  const above = edit.a % (folder.get(path) as SheetText).lines.length;
  const strokes = [() => put(above, 1e9, 1e9, "\n"), ...Array.from(typed, (letter, i) => () => put(above + 1, i, i, letter))];
  // Typed, and thought better of.
  if (edit.b % 3 === 0) for (let i = typed.length; i > typed.length / 2; i--) strokes.push(() => put(above + 1, i - 1, i, ""));
  return strokes;
}

/** Changes one file of a folder, by `editSheet` as a server does. Gives the path of the file that was changed. */
export function makeEdit(folder: Folder, original: ReadonlyMap<string, string>, pool: readonly string[], { kind, a, b, c }: Edit): string {
  const paths = [...folder.keys()];
  // Most edits are of the sheet itself, the last of the folder.
  const path = (kind % 5 === 4 ? paths[c % paths.length] : paths[paths.length - 1]) as string;
  const sheet = folder.get(path) as SheetText;
  const lines = sheet.lines;
  const line = a % lines.length;
  const text = lines[line] as string;
  const column = b % (text.length + 1);
  const put = (startLine: number, startColumn: number, endLine: number, endColumn: number, written: string) => {
    folder.set(path, editSheet(folder.get(path) as SheetText, { startLine, startColumn, endLine, endColumn, text: written }));
  };
  const take = (from: number, to: number): string => {
    const taken = lines.slice(from, to).join("\n");
    put(from, 0, Math.min(to, lines.length), to >= lines.length ? 1e9 : 0, "");
    return `${taken}\n`;
  };
  switch (Math.floor(kind / 5) % 20) {
    case 0:
    case 1:
      put(line, column, line, column, letters[c % letters.length] as string);
      break;
    case 2:
      put(line, column, line, column + 1 + (c % 3), "");
      break;
    case 3:
      put(line, column, line, column + 1 + (c % 3), letters[c % letters.length] as string);
      break;
    case 4:
      take(line, line + 1);
      break;
    case 5:
      put(line, 0, line, 0, `${text}\n`);
      break;
    case 6: {
      const moved = take(line, line + 1);
      put(b % (folder.get(path) as SheetText).lines.length, 0, b % (folder.get(path) as SheetText).lines.length, 0, moved);
      break;
    }
    case 7:
      put(line, 1e9, line + 1, 0, c % 2 === 0 ? "" : " ");
      break;
    case 8:
      put(line, 0, line, 1, "aeizb"[c % 5] as string);
      break;
    // A whole entry taken away, moved or written again.
    case 9:
    case 10:
    case 11: {
      if (sheet.entries.length === 0) break;
      const at = a % sheet.entries.length;
      const from = sheet.starts[at] as number;
      const to = sheet.starts[at + 1] ?? lines.length;
      const moved = c % 3 === 0 ? `${lines.slice(from, to).join("\n")}\n` : take(from, to);
      if (c % 3 === 2) break;
      const now = folder.get(path) as SheetText;
      const behind = now.starts[b % Math.max(1, now.starts.length)] ?? 0;
      put(behind, 0, behind, 0, moved);
      break;
    }
    // One word in the place of another, here or everywhere.
    case 12:
    case 13:
    case 14: {
      const words = wordsOf(text);
      const others = wordsOf(lines[b % lines.length] as string);
      const word = words[c % Math.max(1, words.length)];
      const other = others[(c >> 4) % Math.max(1, others.length)];
      if (word === undefined || other === undefined) break;
      if (c % 7 !== 0) put(line, word.from, line, word.to, other.word);
      else folder.set(path, readSheet(textOf(sheet).replaceAll(new RegExp(`(?<![\\p{L}\\d-])${word.word}(?![\\p{L}\\d-])`, "gu"), other.word)));
      break;
    }
    case 15: {
      const digits = [...text.matchAll(/\d/g)];
      const digit = digits[b % Math.max(1, digits.length)];
      if (digit !== undefined) put(line, digit.index, line, digit.index + 1, String(c % 10));
      break;
    }
    case 16:
    case 17:
      put(line, 0, line, 0, weighty[c % weighty.length] as string);
      break;
    // An entry of another sheet.
    case 18: {
      const at = sheet.starts[b % Math.max(1, sheet.starts.length)] ?? 0;
      put(at, 0, at, 0, `${pool[c % pool.length]}\n`);
      break;
    }
    // The file as it was at first.
    default:
      folder.set(path, readSheet(original.get(path) as string));
  }
  return path;
}

function wordsOf(line: string): { word: string; from: number; to: number }[] {
  return [...line.matchAll(/[\p{L}][\p{L}\d-]*/gu)].map((it) => ({ word: it[0], from: it.index, to: it.index + it[0].length }));
}
