// The reader of comma-separated values: what RFC 4180 says, against the library csv-parse on well-written text, and what a broken row may cost.
import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { type CsvFault, type CsvRow, eachRow, longestRow, readCsv, rowAt } from "../../server/supply/csv.ts";

const cellsOf = (text: string) => readCsv(text).rows.map((row) => row.cells);

describe("RFC 4180, section 2", () => {
  test("rules 1 to 4: lines, the last with or without its break, spaces kept", () => {
    expect(cellsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    expect(cellsOf("aaa,bbb,ccc\r\nzzz, yyy ,xxx")).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", " yyy ", "xxx"],
    ]);
  });
  test("rules 5 to 7: quotes around a cell, line breaks, commas and doubled quotes in it", () => {
    expect(cellsOf('"aaa","bbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    expect(cellsOf('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ["aaa", "b\r\nbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    expect(cellsOf('"aaa","b""bb","c,cc"')).toEqual([["aaa", 'b"bb', "c,cc"]]);
  });
});

test("a byte order mark, line ends of every system, empty lines, empty cells", () => {
  expect(cellsOf("\ufeffa,b\n1,2")).toEqual([
    ["a", "b"],
    ["1", "2"],
  ]);
  for (const end of ["\n", "\r\n", "\r"])
    expect(readCsv(`a,b${end}${end}1,${end},${end}`).rows).toEqual([
      { line: 1, cells: ["a", "b"] },
      { line: 3, cells: ["1", ""] },
      { line: 4, cells: ["", ""] },
    ]);
  expect(readCsv("")).toEqual({ rows: [], faults: [] });
});

test("rows behind a cell that runs over lines keep their numbers", () => {
  expect(readCsv('a,"b\nb\r\nb"\nc,d\n').rows.map((row) => row.line)).toEqual([1, 4]);
});

test("what is written is read back, as csv-parse reads it", () => {
  const cell = fc.string({ unit: fc.constantFrom("a", "7", ",", '"', "\n", "\r\n", " ", "é", ";", "'"), maxLength: 6 });
  fc.assert(
    fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 2 }), { minLength: 1, maxLength: 8 }), fc.constantFrom("\n", "\r\n"), (table, end) => {
      const text = table.map((row) => row.map((it) => (/[",\r\n]/.test(it) ? `"${it.replaceAll('"', '""')}"` : it)).join(",")).join(end);
      expect(cellsOf(text)).toEqual(table);
      expect(cellsOf(text)).toEqual(parse(text, { record_delimiter: end }));
      expect(readCsv(text).faults).toEqual([]);
    }),
    { numRuns: 500, seed: 3 },
  );
});

test("a text in pieces of whole lines is read as the whole is, and each row of it once more", () => {
  const cell = fc.string({ unit: fc.constantFrom("a", "7", ",", '"', "\n", "\r\n", "\r", "é"), maxLength: 5 });
  fc.assert(
    fc.property(fc.array(cell, { maxLength: 12 }), fc.nat(2 ** 12 - 1), fc.boolean(), (cells, cuts, mark) => {
      const text = `${mark ? "\ufeff" : ""}${cells.join("")}`;
      // Between lines only, and a CR that LF may follow ends none.
      const lines = text.split(/(?<=\n|\r(?!\n))/);
      const pieces: string[] = [];
      for (const [i, line] of lines.entries()) {
        if (i > 0 && ((cuts >> (i % 12)) & 1) === 0) pieces.push(`${pieces.pop()}${line}`);
        else pieces.push(line);
      }
      expect(pieces.join("")).toBe(text);
      const { rows, faults, cutAt } = readCsv(text);
      const read: CsvRow[] = [];
      const again: CsvRow[] = [];
      const wrong: CsvFault[] = [];
      const end = runThrough(
        eachRow(
          pieces,
          Number.POSITIVE_INFINITY,
          (row, start) => {
            read.push(row);
            again.push(rowAt(pieces, start, row.line));
          },
          (fault) => wrong.push(fault),
        ),
      );
      expect({ rows: read, faults: wrong, cutAt: end }).toEqual({ rows, faults, cutAt });
      expect(again).toEqual(rows);
    }),
    { numRuns: 3000, seed: 5 },
  );
});

test("a row that is longer than anybody reads costs itself", () => {
  const { rows, faults } = readCsv(`a,1\n${"b,".repeat(longestRow)}\nc,2\n`);
  expect(faults).toEqual([{ line: 2, kind: "too-long" }]);
  expect(rows.map((row) => row.line)).toEqual([1, 3]);
});

describe("a row that is written wrongly costs itself and nothing else", () => {
  test.each([
    ['a,1\n"open,2\nb,3\nc,4\n', 2, "quote-open"],
    ['a,1\n"5/8" bolt",2\nb,3\nc,4\n', 2, "behind-quote"],
    // The quote that closes it would be the one that opens the next row.
    ['a,1\n"open,2\n"b",3\nc,4\n', 2, "behind-quote"],
  ] as const)("%j", (text, line, kind) => {
    const { rows, faults } = readCsv(text);
    expect(faults).toEqual([{ line, kind }]);
    expect(rows.map((row) => row.cells)).toEqual([
      ["a", "1"],
      ["b", "3"],
      ["c", "4"],
    ]);
  });
  test("a quote within a cell stands for itself", () => {
    expect(cellsOf('12" pipe,5\nx,6')).toEqual([
      ['12" pipe', "5"],
      ["x", "6"],
    ]);
  });
  test("whatever one line holds, the lines around it are read", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom('"', ",", "a", " ", "\\"), maxLength: 12 }), (line) => {
        const { rows, faults } = readCsv(`first,1\n${line}\nlast,2\n`);
        expect(rows[0]?.cells).toEqual(["first", "1"]);
        expect(rows.at(-1)).toEqual({ line: 3, cells: ["last", "2"] });
        expect(rows.length + faults.length).toBe(line === "" || line === '""' ? 2 : 3);
      }),
      { numRuns: 2000, seed: 4 },
    );
  });
});
