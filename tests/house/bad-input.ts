// More than fifty kinds of bad input, each with what makes it bad. `speaks`: something must be said of it; else it is odd but right.
import { isRun, times } from "../sampled.ts";

export interface BadInput {
  readonly name: string;
  /** Bytes where the text is not UTF-8. */
  readonly content: string | Uint8Array;
  readonly speaks: boolean;
  /** Files that stand beside it. */
  readonly beside?: Readonly<Record<string, string>>;
}

const good =
  'sheet "Lathe"\n  machine "Old lathe"\npart chuck "Chuck"\n  held by key\nfastener key "Chuck key"\n  torque none\nstep strip "Strip"\n  undo key\n  remove chuck\n';
const many = (count: number, line: (i: number) => string) => Array.from({ length: count }, (_, i) => line(i)).join("\n");

const long = times({ plain: 2_000, run: 20_000, full: 20_000 });

export const badInputs: readonly BadInput[] = [
  { name: "empty file", content: "", speaks: false },
  { name: "one line end", content: "\n", speaks: false },
  { name: "blanks only", content: "   \n\t\n  \n", speaks: false },
  { name: "one quote", content: '"', speaks: true },
  { name: "a comment and nothing else", content: "# nothing yet", speaks: false },
  { name: "binary", content: Uint8Array.from({ length: 4096 }, (_, i) => (i * 7919) % 256), speaks: true },
  { name: "NUL in the middle", content: "part a\u0000b\n", speaks: true },
  { name: "UTF-16", content: Uint8Array.from([0xff, 0xfe, 0x70, 0, 0x61, 0, 0x72, 0, 0x74, 0]), speaks: true },
  {
    name: "Latin-1",
    content: Uint8Array.from([...new TextEncoder().encode('part bride "Bride arri'), 0xe8, ...new TextEncoder().encode('re"\n')]),
    speaks: true,
  },
  { name: "half a letter at the end", content: Uint8Array.from([...new TextEncoder().encode('part a "x"\n# '), 0xe2, 0x82]), speaks: true },
  { name: "line of 1 MB", content: `part a "${"x".repeat(1024 * 1024)}"\n`, speaks: true },
  { name: "line of 1 MB of words", content: `remove ${"wheel, ".repeat(150_000)}\n`, speaks: true },
  { name: "line of 1 MB of quotes", content: `${'"'.repeat(1024 * 1024)}\n`, speaks: true },
  { name: "line of 1 MB of digits", content: `measure a found\n  ${"1".repeat(1024 * 1024)} in\n`, speaks: true },
  { name: `${long} lines`, content: many(long, (i) => (i % 2 === 0 ? `part p${i} "Part"` : "  qty 1")), speaks: false },
  { name: `${long} broken lines`, content: many(long, (i) => `undoo nut-${i} ((`), speaks: true },
  { name: `${long} blank lines`, content: "\n".repeat(long), speaks: false },
  // What grows faster than its length shows here; a hundred thousand are tried on each push.
  ...(isRun ? [{ name: "100,000 broken lines", content: many(100_000, (i) => `undoo nut-${i} ((`), speaks: true }] : []),
  { name: "CRLF", content: good.replaceAll("\n", "\r\n"), speaks: false },
  { name: "CR alone", content: good.replaceAll("\n", "\r"), speaks: false },
  { name: "mixed line ends", content: good.replace("\n", "\r\n").replace("\n  held", "\r  held"), speaks: false },
  { name: "byte order mark", content: `\ufeff${good}`, speaks: false },
  { name: "two byte order marks", content: `\ufeff\ufeff${good}`, speaks: false },
  { name: "tabs", content: good.replaceAll("  ", "\t"), speaks: false },
  { name: "hard blanks", content: good.replaceAll("  ", "\u00a0\u00a0"), speaks: false },
  { name: "no line end at the end", content: good.trimEnd(), speaks: false },
  { name: "right-to-left text", content: 'part ציר "ציר קדמי"\nfinding ציר\n  is cracked\n', speaks: true },
  { name: "direction marks", content: 'part a "\u202eeldnips\u202c"\n  note "\u2066x\u2069"\nfinding a\n  is crackd\n', speaks: true },
  { name: "emoji", content: 'part 🔧 "Spanner 🔧"\n', speaks: true },
  { name: "emoji in a text", content: 'part spanner "Spanner 🔧👩‍🔧"\n  note "🇬🇧"\n', speaks: false },
  { name: "marks on letters", content: `part a${"\u0301".repeat(500)} "x"\n`, speaks: false },
  { name: "half of a pair", content: 'part a "\ud83d"\npart \udc00\n', speaks: true },
  { name: "control characters", content: 'part a "\u001b[31mred\u0007"\nfoo \u001b]0;title\u0007\n', speaks: true },
  { name: "unknown keyword", content: "wheel front\n  qty 2\n", speaks: true },
  { name: "misspelt entry", content: 'fastner nut "Nut"\n  torque none\n', speaks: true },
  { name: "misspelt detail", content: 'fastener nut "Nut"\n  torqe 20 .. 30 N.m\n', speaks: true },
  { name: "detail above every entry", content: '  qty 2\npart a "A"\n', speaks: true },
  { name: "detail of another entry", content: 'part a "A"\n  torque none\n', speaks: true },
  { name: "half-typed entry", content: "part", speaks: true },
  { name: "half-typed text", content: 'part a "Hub', speaks: true },
  { name: "half-typed list", content: 'part a "A"\nstep s "S"\n  remove a,\n', speaks: true },
  { name: "half-typed range", content: 'limit l "L"\n  worn 0.1 ..\n', speaks: true },
  { name: "half-typed reading", content: 'limit l "L"\n  worn max 1 mm\n  source "card"\nmeasure l found\n  0.\n', speaks: true },
  { name: "decimal comma", content: 'limit l "L"\n  worn max 0,5 mm\n', speaks: true },
  { name: "figure without a unit", content: 'limit l "L"\n  worn max 5\n', speaks: true },
  { name: "unit that nobody knows", content: 'limit l "L"\n  worn max 5 furlong\n', speaks: true },
  { name: "figure of a thousand digits", content: `limit l "L"\n  worn max ${"9".repeat(1000)} mm\n  source "card"\nmeasure l found\n  1 mm\n`, speaks: false },
  { name: "fraction with nought below", content: 'limit l "L"\n  worn max 1/0 in\n', speaks: true },
  { name: "range upside down", content: 'limit l "L"\n  worn 5 .. 1 mm\n', speaks: true },
  { name: "no such day", content: "day 2026-02-31\n", speaks: true },
  { name: "year with a nought for its first figure", content: "day 0026-05-01\n", speaks: true },
  { name: "brackets a thousand deep", content: `limit a "A"\nlimit l "L"\n  = ${"(".repeat(1000)}a${")".repeat(1000)}\n`, speaks: true },
  { name: "limit worked out from itself", content: 'limit a "A"\n  = b + 1 mm\nlimit b "B"\n  = a + 1 mm\n', speaks: true },
  { name: "steps in a circle", content: 'step a "A"\n  after b\nstep b "B"\n  after a\n', speaks: true },
  { name: "name of a name of a name", content: many(2000, (i) => `part p${i} "P"\n  behind p${(i + 1) % 2000}`), speaks: false },
  { name: "same name a thousand times", content: many(1000, () => 'part a "A"'), speaks: true },
  { name: "count of a milliard", content: 'part a "A"\n  qty 1000000000\nstep s "S"\n  remove a 1000000000\n', speaks: false },
  { name: "count below nothing", content: 'part a "A"\n  qty -3\n', speaks: true },
  { name: "ten thousand places", content: `places side ${many(10_000, (i) => `p${i}`).replaceAll("\n", ", ")}\n`, speaks: true },
  {
    name: "object's own words as names",
    content: 'part constructor "C"\npart __proto__ "P"\npart toString "T"\nfinding constructor\n  is cracked\n  decision renew\n',
    speaks: true,
  },
  { name: "sheet of somebody else", content: '{\n  "a": [1, 2, 3]\n}\n', speaks: true },
  { name: "prose", content: "Dear Sir,\n\nthe hub nut was loose, and I have ordered two.\n", speaks: true },
  { name: "a page's markup", content: '<script>alert(1)</script>\npart a "<img src=x onerror=alert(1)>"\n', speaks: true },
  { name: "use of a missing file", content: 'use "nowhere.jobsheet"\n', speaks: true },
  { name: "use of itself", content: 'use "this.jobsheet"\n', speaks: true },
  {
    name: "use in a circle",
    content: 'use "one.jobsheet"\n',
    speaks: true,
    beside: { "one.jobsheet": 'use "two.jobsheet"\n', "two.jobsheet": 'use "this.jobsheet"\n' },
  },
  { name: "use that climbs out", content: 'use "../../../../etc/passwd"\n', speaks: true },
  { name: "use of a whole path", content: 'use "/etc/passwd"\n', speaks: true },
  { name: "use of an address", content: 'use "https://example.com/x.jobsheet"\n', speaks: true },
  { name: "use of a folder", content: 'use "."\n', speaks: true },
  { name: "use of what is no sheet", content: 'use "notes.txt"\n', speaks: true, beside: { "notes.txt": "part a\n" } },
  { name: "use of a broken file", content: 'use "broken.jobsheet"\npart a "A"\n', speaks: false, beside: { "broken.jobsheet": 'part "\nfasten' } },
];
