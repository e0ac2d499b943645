// Sheets that may be made as large as one likes, each of one kind of line that a program might take too long over: what they are for stands at `growth.test.ts`.

import { mostLines } from "../../server/model/largest.ts";

export interface Growth {
  readonly name: string;
  /** How many there are in the ordinary run, and the size at which one must be done within five seconds and 300 MB. */
  readonly few: number;
  readonly full: number;
  readonly sheet: (n: number) => string;
  /** A price list that stands beside it as `list.csv`. */
  readonly prices?: (n: number) => string;
  /** What `order` is asked to choose by. */
  readonly choose?: string;
}

/** The full size, or the largest whose sheet is read at all. */
export function largestRead({ full, sheet }: Growth, most = mostLines): number {
  const over = (n: number) => sheet(n).split("\n").length / most;
  let n = full;
  for (let more = over(n); more > 1; more = over(n)) n = Math.floor(n / more) - 1;
  return n;
}

const head = 'sheet "S"\n  machine "M"\n  currency GBP\n';
const times = (n: number, line: (i: number) => string) => Array.from({ length: n }, (_, i) => line(i)).join("\n");
const released = '\nrelease by "B" 2026-05-01\n  test "road"\n';
const shop = 'supplier s "S"\n  currency GBP\n  freight 5 GBP\n  lead 3 d\n';
const limit =
  'part p "P"\n  critical "steering"\nlimit l "L"\n  of p\n  new 10.00 .. 10.02 mm\n  worn min 9.9 mm\n  source "book"\ngauge g "G"\n  uncertainty 0.005 mm\n';
const nut = 'fastener nut "Nut"\n  torque 20 .. 40 N.m\n  locked by split pin 3 x 30 mm\n  critical "steering"\n  source "b"\n';
/** A name that no other is near to by length and letters alone. */
const word = (i: number) => [...i.toString(7)].map((it) => "bcdfghk".charAt(Number(it)) + "aeiou".charAt(i % 5)).join("");

export const growths: readonly Growth[] = [
  { name: "lines of nothing but comment", few: 4000, full: 200_000, sheet: (n) => head + times(n, (i) => `# line ${i}`) },
  { name: "parts and steps of a plain job", few: 300, full: 5000, sheet: (n) => plainJob(n) },
  {
    name: "rows of one measure",
    few: 800,
    full: 100_000,
    sheet: (n) => `${head}${limit}measure l found by g\n${times(n, (i) => `  10.0${i % 10} mm`)}${released}`,
  },
  {
    name: "figures in one row",
    few: 1500,
    full: 100_000,
    sheet: (n) => `${head}${limit}measure l found by g\n  ${times(n, (i) => `10.0${i % 10}`).replaceAll("\n", ", ")} mm${released}`,
  },
  {
    name: "again in one measure",
    few: 1500,
    full: 50_000,
    sheet: (n) => `${head}${limit}measure l found by g\n  10.01 mm\n${times(n, (i) => `  again 10.0${i % 10} mm`)}${released}`,
  },
  {
    name: "measures of one limit",
    few: 400,
    full: 10_000,
    sheet: (n) => `${head}${limit}${times(n, (i) => `measure l ${i % 2 ? "found" : "final"} by g\n  10.0${i % 3} mm`)}${released}`,
  },
  {
    name: "steps each after the one before",
    few: 400,
    full: 10_000,
    sheet: (n) => head + times(n, (i) => `step s${i} "S"\n  takes 1 h${i > 0 ? `\n  after s${i - 1}` : ""}`),
  },
  {
    name: "steps each after the one below",
    few: 400,
    full: 10_000,
    sheet: (n) => head + times(n, (i) => `step s${i} "S"\n  takes 1 h${i < n - 1 ? `\n  after s${i + 1}` : ""}`),
  },
  {
    name: "one step after all others",
    few: 400,
    full: 5000,
    sheet: (n) => `${head}${times(n, (i) => `step s${i} "S"`)}\nstep last "L"\n${times(n, (i) => `  after s${i}`)}`,
  },
  {
    name: "limits each worked out from the one before",
    few: 300,
    full: 3000,
    sheet: (n) =>
      `${head}limit l0 "L"\n  worn max 5 mm\n  source "b"\n${times(n, (i) => `limit l${i + 1} "L"\n  worn max 5 mm\n  source "b"\n  = l${i} + 0 mm`)}\nmeasure l0 found\n  1 mm\nmeasure l${n} final\n  1 mm${released}`,
  },
  {
    name: "limits each worked out twice from the one before",
    few: 300,
    full: 3000,
    sheet: (n) =>
      `${head}limit l0 "L"\n  worn max 5 mm\n  source "b"\n${times(n, (i) => `limit l${i + 1} "L"\n  worn max 5 mm\n  source "b"\n  = (l${i} + l${i}) / 2`)}\nmeasure l0 found\n  1 mm${released}`,
  },
  {
    name: "a limit worked out from a long sum",
    few: 400,
    // A line of more than 4,000 letters is not read.
    full: 990,
    sheet: (n) =>
      `${head}${limit}limit w "W"\n  worn max 5 mm\n  source "b"\n  = ${times(n, () => "l").replaceAll("\n", " + ")}\nmeasure l found by g\n  10.01 mm${released}`,
  },
  {
    name: "brackets within brackets",
    few: 400,
    full: 10_000,
    sheet: (n) =>
      `${head}${limit}limit w "W"\n  source "b"\n  worn max 5 mm\n  = ${"(".repeat(n)}l${")".repeat(n)}\nmeasure l found by g\n  10.01 mm${released}`,
  },
  {
    name: "names that are near to others",
    few: 400,
    full: 3000,
    sheet: (n) => `${head}${times(n, (i) => `part hub-plate-${i} "P"`)}\n${times(n, (i) => `finding hub-plaet-${i}\n  is worn`)}`,
  },
  {
    name: "names that nobody declared",
    few: 600,
    full: 9000,
    sheet: (n) => `${head}${times(n, (i) => `finding ${word(i)}\n  is worn\n  decision renew`)}${released}`,
  },
  {
    name: "names that nobody declared, in steps",
    few: 400,
    full: 9000,
    sheet: (n) => `${head}${times(n, (i) => `step s${i} "S"\n  done\n  remove ${word(i)}`)}`,
  },
  {
    name: "offers",
    few: 250,
    full: 5000,
    choose: "cheapest",
    sheet: (n) => `${head}${shop}${times(n, (i) => `part p${i} "P"\noffer p${i} from s\n  price ${1 + (i % 7)}.50 GBP\nneed p${i} 2 "w"`)}`,
  },
  {
    name: "offers of one thing",
    few: 500,
    full: 5000,
    choose: "cheapest",
    sheet: (n) => `${head}${shop}part p "P"\nneed p 7 "w"\n${times(n, (i) => `offer p from s\n  price ${1 + (i % 700)}.50 GBP a pack\n  pack ${1 + (i % 9)}`)}`,
  },
  {
    name: "offers of two suppliers",
    few: 100,
    full: 2500,
    choose: "soonest",
    sheet: (n) =>
      `${head}${shop}supplier t "T"\n  currency GBP\n  freight 7 GBP free over 100 GBP\n  lead 9 d\n${times(n, (i) => `part p${i} "P"\noffer p${i} from s\n  price ${1 + (i % 7)}.50 GBP\noffer p${i} from t\n  price ${1 + (i % 5)}.20 GBP\nneed p${i} 2 "w"`)}`,
  },
  {
    name: "suppliers of one thing",
    few: 60,
    full: 600,
    choose: "cheapest",
    sheet: (n) =>
      `${head}part p "P"\nneed p 7 "w"\n${times(n, (i) => `supplier s${i} "S"\n  currency GBP\n  freight ${i % 13} GBP\noffer p from s${i}\n  price ${1 + (i % 700)}.50 GBP`)}`,
  },
  {
    name: "rows of a price list",
    few: 4000,
    full: 400_000,
    choose: "cheapest",
    sheet: () => `${head}supplier s "S"\n  currency GBP\n  prices "list.csv"\npart p "P"\n  number "N7"\nneed p 2 "w"`,
    prices: (n) => `item,number,price,pack\n${times(n, (i) => `,N${i},${1 + (i % 90)}.50 GBP,1`)}\n`,
  },
  {
    name: "needs of one thing",
    few: 500,
    full: 10_000,
    choose: "cheapest",
    sheet: (n) => `${head}${shop}part p "P"\noffer p from s\n  price 2 GBP\n${times(n, () => 'need p 1 "w"')}`,
  },
  {
    name: "counts of many shelves, again and again",
    few: 500,
    full: 10_000,
    sheet: (n) => `${head}part p "P"\nneed p 9 "w"\n${times(n, (i) => `stock p 1 "shelf ${i % 997}" ${2000 + Math.floor(i / 28)}-01-${10 + (i % 18)}`)}`,
  },
  { name: "stocks of one thing", few: 500, full: 10_000, sheet: (n) => `${head}part p "P"\nneed p 9 "w"\n${times(n, () => 'stock p 1 "shelf" 2026-01-01')}` },
  {
    name: "orders of one reference",
    few: 400,
    full: 10_000,
    sheet: (n) => `${head}${shop}part p "P"\nneed p 9 "w"\n${times(n, () => 'order "R" to s\n  status placed 2026-01-01\n  item p 1')}`,
  },
  {
    name: "findings of one name",
    few: 200,
    full: 10_000,
    sheet: (n) => `${head}part p "P"\n  critical "steering"\n${times(n, (i) => `finding p\n  is ${i % 2 ? "worn" : "cracked"}\n  decision renew`)}${released}`,
  },
  {
    name: "findings of one name and place",
    few: 300,
    full: 10_000,
    sheet: (n) =>
      `${head}places side left, right\npart p "P"\n  each side 4\n  critical "steering"\n${times(n, (i) => `finding p 1 ${i % 2 ? "left" : "right"}\n  is worn\n  decision repair "r"`)}${released}`,
  },
  {
    name: "conditions of one finding",
    few: 400,
    full: 5000,
    sheet: (n) => `${head}part p "P"\nfinding p\n${times(n, (i) => `  is ${["worn", "cracked", "bent", "scored"][i % 4]}`)}${released}`,
  },
  { name: "steps that undo one nut", few: 300, full: 10_000, sheet: (n) => `${head}${nut}${times(n, (i) => `step s${i} "S"\n  done\n  undo nut`)}${released}` },
  {
    name: "steps that undo and tighten one nut",
    few: 200,
    full: 5000,
    sheet: (n) => `${head}${nut}${times(n, (i) => `step s${i} "S"\n  done\n  undo nut\n  fit nut\n  tighten nut to 30 N.m\n  lock nut new`)}${released}`,
  },
  {
    name: "lines of one step",
    few: 300,
    full: 10_000,
    sheet: (n) =>
      `${head}${nut}part p "P"\n  held by nut\nstep s "S"\n  done\n${times(n, (i) => ["  undo nut", "  remove p", "  fit p", "  fit nut\n  tighten nut to 30 N.m"][i % 4] as string)}${released}`,
  },
  {
    name: "a part held by many",
    few: 300,
    full: 5000,
    sheet: (n) =>
      `${head}${times(n, (i) => `fastener f${i} "F"\n  torque none`)}\npart p "P"\n  held by ${times(n, (i) => `f${i}`).replaceAll("\n", ", ")}\nstep s "S"\n  done\n  remove p${released}`,
  },
  {
    name: "a nut that holds many",
    few: 300,
    full: 5000,
    sheet: (n) =>
      `${head}${nut}${times(n, (i) => `part p${i} "P"\n  held by nut`)}\nstep s "S"\n  done\n  undo nut\n${times(n, (i) => `  remove p${i}`)}${released}`,
  },
  {
    name: "parts each behind the one before",
    few: 300,
    full: 5000,
    sheet: (n) =>
      `${head}${times(n, (i) => `part p${i} "P"${i > 0 ? `\n  behind p${i - 1}` : ""}`)}\nstep s "S"\n  done\n${times(n, (i) => `  remove p${i}`)}${released}`,
  },
  {
    name: "a chain of parts, each behind the one before and loose when it was found",
    few: 100,
    full: 800,
    sheet: (n) =>
      `${head}${times(n, (i) => `part p${i} "P"${i > 0 ? `\n  behind p${i - 1}` : ""}\nlimit l${i} "Play"\n  worn max 1 mm\n  of p${i}`)}\n${times(n, (i) => `measure l${i} found\n  2 mm`)}\nstep s "S"\n  done\n${times(n, (i) => `  remove p${i}`)}\nstep t "T"\n  done\n${times(n, (i) => `  fit p${n - 1 - i}${i === 0 ? " new" : ""}`)}\n${times(n, (i) => `measure l${i} final\n  0.5 mm`)}${released}`,
  },
  {
    name: "a part behind many",
    few: 300,
    full: 5000,
    sheet: (n) =>
      `${head}${times(n, (i) => `part q${i} "Q"`)}\npart p "P"\n  behind ${times(n, (i) => `q${i}`).replaceAll("\n", ", ")}\nstep s "S"\n  done\n  remove p${released}`,
  },
  {
    name: "parts that are renewed with the one before",
    few: 200,
    full: 3000,
    sheet: (n) => `${head}${times(n, (i) => `part p${i} "P"${i > 0 ? `\n  renew with p${i - 1}` : ""}`)}\nfinding p0\n  is worn\n  decision renew${released}`,
  },
  {
    name: "parts all matched with one another in a chain",
    few: 200,
    full: 3000,
    sheet: (n) => `${head}${times(n, (i) => `part p${i} "P"${i > 0 ? `\n  matched with p${i - 1}` : ""}`)}\nfinding p0\n  is worn\n  decision renew${released}`,
  },
  {
    name: "a lot that is split again and again",
    // So that the smaller of the two is beyond what is told apart.
    few: 4400,
    full: 3000,
    sheet: (n) =>
      `${head}fastener nut "Nut"\n  qty ${n}\n  torque 20 .. 40 N.m\n  locked by split pin 3 x 30 mm\n  critical "steering"\nstep s "S"\n  done\n${times(n, (i) => `  undo nut 1\n  fit nut 1\n  tighten nut 1 to ${20 + (i % 20)}.${i} N.m`)}${released}`,
  },
  {
    name: "a lot split by its faults",
    few: 200,
    full: 3000,
    sheet: (n) =>
      `${head}part p "P"\n  qty ${n}\n  critical "steering"\n${times(n, (i) => `finding p 1\n  is ${["worn", "cracked", "bent", "scored"][i % 4]}\n  because "b${i}"`)}\nstep s "S"\n  done\n${times(n, () => "  remove p 1")}${released}`,
  },
  {
    name: "places",
    few: 100,
    full: 2000,
    sheet: (n) =>
      `${head}places hole ${times(n, (i) => `h${i}`).replaceAll("\n", ", ")}\npart p "P"\n  each hole\n  held by nut\nfastener nut "N"\n  each hole\n  torque 20 .. 40 N.m\nstep s "S"\n  done\n  undo nut\n  remove p\n  fit p\n  fit nut\n  tighten nut to 30 N.m${released}`,
  },
  {
    name: "hazards before one nut",
    few: 200,
    full: 3000,
    sheet: (n) => `${head}${nut}${times(n, (i) => `hazard h${i} "H"\n  safe before nut\n  restore after nut`)}\nstep s "S"\n  done\n  undo nut${released}`,
  },
  {
    name: "questions about one part",
    few: 300,
    full: 5000,
    sheet: (n) => `${head}part p "P"\n${times(n, (i) => `question q${i} "Q?"\n  about p`)}${released}`,
  },
  {
    name: "concessions of one limit",
    few: 300,
    full: 5000,
    sheet: (n) => `${head}${limit}measure l found by g\n  9.1 mm\n${times(n, () => 'concession l "w" by "B"')}${released}`,
  },
  {
    name: "one rule accepted many times",
    few: 300,
    full: 5000,
    sheet: (n) => head + times(n, (i) => `step s${i} "S"\n  remove ${word(i)}\n  accept name-unknown "w"`),
  },
  { name: "the same name declared again", few: 500, full: 10_000, sheet: (n) => head + times(n, () => 'part p "P"') },
  {
    name: "shims",
    few: 200,
    full: 5000,
    sheet: (n) =>
      `${head}limit l "L"\n  set 0.1 .. 0.2 mm by k\n  source "b"\nshims k "K"\n  have ${times(n, (i) => `0.${100 + (i % 800)} mm x 1`).replaceAll("\n", ", ")}\n  fitted 0.5 mm x 1\nmeasure l found\n  0.4 mm`,
  },
  { name: "notes of one step", few: 400, full: 20_000, sheet: (n) => `${head}step s "S"\n  done\n${times(n, (i) => `  note "looked ${i}"`)}${released}` },
  { name: "photos of one step", few: 400, full: 20_000, sheet: (n) => `${head}step s "S"\n  done\n${times(n, (i) => `  photo "p${i}.jpg"`)}${released}` },
  {
    name: "suppliers of nothing",
    few: 300,
    full: 5000,
    sheet: (n) => `${head}part p "P"\nneed p 1 "w"\n${times(n, (i) => `supplier s${i} "S"\n  currency GBP\n  lead ${1 + (i % 9)} d`)}`,
  },
  {
    name: "faults of one step accepted",
    few: 300,
    full: 5000,
    sheet: (n) => `${head}step s "S"\n${times(n, (i) => `  remove ${word(i)}\n  accept name-unknown "w"`)}`,
  },
  {
    name: "orders each of a supplier",
    few: 150,
    full: 2500,
    sheet: (n) =>
      `${head}${times(n, (i) => `supplier s${i} "S"\n  currency GBP\npart p${i} "P"\nneed p${i} 1 "w"\norder "R${i}" to s${i}\n  status placed 2026-01-01\n  item p${i} 1`)}`,
  },
  {
    name: "a plan that closes in what is behind it",
    few: 150,
    full: 3000,
    sheet: (n) =>
      `${head}${times(n, (i) => `part p${i} "P"${i > 0 ? `\n  behind p${i - 1}` : ""}`)}\nstep s "S"\n  done\n${times(n, (i) => `  remove p${i}`)}\nstep t "T"\n${times(n >> 1, (i) => `  fit p${i}`)}`,
  },
  { name: "a text of quotes", few: 10_000, full: 2_000_000, sheet: (n) => `part a "${'\\"'.repeat(n / 2)}"\nneed a 1 "w"\nfinding a\n  is worn${released}` },
  { name: "broken lines", few: 2000, full: 50_000, sheet: (n) => times(n, (i) => `undoo nut-${i} ((`) },
  { name: "a long line of words", few: 3000, full: 250_000, sheet: (n) => `step s "S"\n  remove ${"wheel, ".repeat(n)}` },
  { name: "a long line of signs", few: 20_000, full: 2_000_000, sheet: (n) => `part a\n  = ${"(".repeat(n)}` },
  { name: "a long name", few: 20_000, full: 2_000_000, sheet: (n) => `part a "A"\nfinding ${"a".repeat(n)}\n  is worn\n` },
  { name: "a long text", few: 20_000, full: 2_000_000, sheet: (n) => `part a "${"A ".repeat(n / 2)}"\nneed a 1 "w"\nfinding a\n  is worn${released}` },
  {
    name: "sheets' days",
    few: 300,
    full: 10_000,
    sheet: (n) =>
      `${head}part p "P"\n${times(n, (i) => `day 20${10 + (Math.floor(i / 300) % 80)}-0${1 + (i % 9)}-1${i % 10}\nstep s${i} "S"\n  done\n  clean p`)}`,
  },
  {
    name: "fluids filled and drained",
    few: 200,
    full: 5000,
    sheet: (n) =>
      `${head}part p "P"\nfluid oil "O"\n  in p\n  capacity 2 l\nstep s "S"\n  done\n${times(n, (i) => (i % 2 ? "  fill oil 1 l" : "  drain oil"))}${released}`,
  },
  {
    // Whole rounds: what is left raised at the end has a way back of its own.
    name: "raised and lowered",
    few: 200,
    full: 5000,
    sheet: (n) =>
      `${head}part p "P"\n  mass 40 kg\nstep s "S"\n  done\n${times(5 * Math.ceil(n / 5), (i) => ["  raise on jack", "  support p on 2 stands", "  under", "  clear", "  lower"][i % 5] as string)}${released}`,
  },
  {
    name: "checks seen",
    few: 300,
    full: 10_000,
    sheet: (n) =>
      `${head}part p "P"\ncheck c "no leak"\n  of p\n  critical "brakes"\n${times(n, (i) => `seen c ${i % 2 ? "found bad" : "final good"}`)}${released}`,
  },
  { name: "rechecks", few: 200, full: 5000, sheet: (n) => `${head}${nut}release by "B" 2026-05-01 at 100 mi\n${times(n, () => "  recheck nut after 50 mi")}` },
  {
    name: "expressions each in a reading",
    few: 300,
    full: 5000,
    sheet: (n) =>
      `${head}${limit}${times(n, (i) => `limit w${i} "W"\n  of p\n  worn max 5 mm\n  source "b"\n  = l - 6 mm`)}\nmeasure l found by g\n  10.01 mm${released}`,
  },
];

function plainJob(n: number): string {
  return `${head}${times(
    n,
    (i) =>
      `part p${i} "P"\n  held by f${i}\nfastener f${i} "F"\n  torque 20 .. 40 N.m\n  locked by split pin 3 x 30 mm\n  critical "steering"\n  source "b"\nlimit l${i} "L"\n  of p${i}\n  worn max 5 mm\n  source "b"`,
  )}\n${times(n, (i) => `step s${i} "S"\n  done\n  undo f${i}\n  remove p${i}\nfinding p${i}\n  is serviceable\nmeasure l${i} found\n  1 mm\nstep b${i} "B"\n  done\n  fit p${i}\n  fit f${i}\n  tighten f${i} to 30 N.m\n  lock f${i} new`)}${released}`;
}
