// Completion: what is offered where, and above all that Enter behind a line that is written changes nothing of it.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { isUnitSpelling } from "../../server/quantities/units.ts";
import { readSheet } from "../../grammar/sheet-text.ts";
import { type Circumstances, type Completion, completionsAt } from "../../server/features/completion.ts";
import type { Files } from "../../server/model/files.ts";
import { lineAt, namesOf } from "../../server/features/at.ts";
import { walk } from "../../server/story/walk.ts";
import { reread, sheetAt } from "../reread.ts";
import { isFull, thinned } from "../sampled.ts";
import { buildJob } from "../in-one-go.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const sheets = ["samples", "tests/sheets"].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((it) => it.endsWith(".jobsheet"))
    .map((it) => `${folder}/${it}`),
);

const machine = `places side left, right
part hub "Hub"
  each side
part hub-seal "Hub seal"
fastener hub-nut "Hub nut"
limit end-float "End float"
  set 0.004 .. 0.008 in
step strip "Strip"
`;

/** What is offered where the bar stands in the last line. */
function offered(line: string, above = machine, circumstances: Circumstances = {}): string[] {
  return offers(line, above, circumstances).map((it) => it.label);
}

function offers(line: string, above = machine, circumstances: Circumstances = {}): readonly Completion[] {
  const column = line.indexOf("|");
  const text = above + line.replace("|", "");
  const files: Files = {
    read: (path) => (path === "jobs/a.jobsheet" ? readSheet(text) : "missing"),
    jobsheets: () => ["jobs/a.jobsheet", "jobs/deep/hub.jobsheet", "axle.jobsheet"],
    listed: (what) => (what === "photo" ? ["jobs/photos/Nut.jpg", "jobs/photos/nut-2.png", "wheel.png"] : ["jobs/weir.csv", "lists/vale.csv"]),
  };
  const job = buildJob(files, "jobs/a.jobsheet");
  return job === undefined ? [] : completionsAt(job, text.split("\n").length - 1, column, circumstances);
}

describe("every line of every sheet, typed to its end: Enter takes nothing from a list", () => {
  for (const path of thinned(sheets, 6)) {
    test(path, () => {
      const lines = readFileSync(join(root, path), "utf8").split("\n");
      const wrong: string[] = [];
      // The names of the whole sheet are known, so that more is offered than to one who types it from its head.
      const read = (it: string) => sheetAt(join(root, it));
      const job = buildJob({ read }, path);
      if (job === undefined) throw new Error("no job");
      for (const [i, line] of lines.entries()) {
        const written = line.replace(/\s+$/, "");
        if (written === "") continue;
        const list = completionsAt(job, i, written.length);
        if (list.length > 0) wrong.push(`${i + 1}: ${written} → ${list.slice(0, 4).map((it) => it.label)}`);
      }
      expect(wrong).toEqual([]);
    });
  }
});

describe("a word that is whole stays as it is", () => {
  test.each([
    "fastener x\n  locked by split pin 5/32 x 1-1/4 in|",
    "fastener x\n  locked by self-locking nut|",
    "fastener x\n  locked by split pin|",
    'stock 1 "Shelf"|',
    "part x\n  each side|",
    "  undo hub-nut|",
    "  remove hub|",
    "  done|",
    "  tighten hub-nut to 45 lbf.ft|",
    "finding hub\n  is worn|",
    'finding hub\n  is worn "step of 10 thou"|',
    "  safe|",
  ])("%s", (line) => {
    const lines = line.split("\n");
    expect(offered(lines.at(-1) as string, `${machine}${lines.slice(0, -1).join("\n")}${lines.length > 1 ? "\n" : ""}`)).toEqual([]);
  });
});

describe("what may stand there, and nothing else", () => {
  test("names of the right kind, by what is typed of them", () => {
    expect(offered("  undo hub-n|")).toEqual(["hub-nut"]);
    expect(offered("  remove hub-|")).toEqual(["hub-seal"]);
    expect(offered("  remove h|")).toEqual(["hub", "hub-seal"]);
    expect(offered("  remove zz|")).toEqual([]);
  });
  test("behind a figure its unit, behind the unit nothing", () => {
    const units = offered("  tighten hub-nut to 45 |");
    expect(units).toContain("lbf.ft");
    expect(units).toContain("N.m");
    expect(units).not.toContain("hub");
    expect(offered("  tighten hub-nut to 45 lbf.|")).toContain("lbf.ft");
    expect(offered("  tighten hub-nut to 45 lbf.ft |")).toEqual([]);
  });
  test("the files that a line may name: pictures, price lists, sheets, by their path from here or by their own name", () => {
    expect(offered('  photo "|')).toEqual(["photos/Nut.jpg", "photos/nut-2.png", "../wheel.png"]);
    expect(offered('  photo "nut|')).toEqual(["photos/Nut.jpg", "photos/nut-2.png"]);
    expect(offered('  photo "photos/nut-|')).toEqual(["photos/nut-2.png"]);
    expect(offered('  prices "|')).toEqual(["weir.csv", "../lists/vale.csv"]);
    expect(offered('use "de|')).toEqual(["deep/hub.jobsheet"]);
    // Whole as it is written, behind its quote, and in any other text: nothing.
    for (const line of ['  photo "photos/nut-2.png|', '  photo "photos/nut-2.png" |', '  note "ph|', '  caution "|']) expect(offered(line)).toEqual([]);
  });
  test("a path brings the quote that closes its text where the line has none", () => {
    expect(offers('  photo "nut-|').map((it) => it.closes)).toEqual([true]);
    expect(offers('  photo "nut-|"').map((it) => it.closes)).toEqual([undefined]);
  });
  test("behind a word that something must follow, no other word; words that belong together are one; none twice", () => {
    const step = `${machine}step back "Back"\n`;
    expect(offered("  tighten hub-nut |", step)).toEqual(expect.arrayContaining(["to", "by", "for now"]));
    for (const it of ["for", "now"]) expect(offered("  tighten hub-nut |", step)).not.toContain(it);
    expect(offered("  tighten hub-nut to |", step)).toEqual([]);
    expect(offered("  tighten hub-nut for |", step)).toEqual(["now"]);
    expect(offered("  fit hub new |", step)).not.toContain("new");
    expect(offered("  fit hub new |", step)).toContain("from");
    expect(offered("measure end-float |", machine)).toEqual(expect.arrayContaining(["found", "trial", "final"]));
    for (const it of ["found", "trial", "final"]) expect(offered("measure end-float found |", machine)).not.toContain(it);
  });
  test("a locking of two words from its first letter and from its first word, and behind it nothing but its size", () => {
    const above = `${machine}fastener x\n`;
    expect(offered("  locked by spl|", above)).toEqual(["split pin"]);
    expect(offered("  locked by split |", above)).toEqual(["pin"]);
    expect(offered("  locked by self-locking |", above)).toEqual(["nut"]);
    expect(offered("  locked by split pin |", above)).toEqual([]);
  });
  test("within quotes nothing, but for the sheets that may be used", () => {
    expect(offered('  note "h|', machine)).toEqual([]);
    expect(offered('use "|', machine)).toEqual(["deep/hub.jobsheet", "../axle.jobsheet"]);
    expect(offered('use "de|', machine)).toEqual(["deep/hub.jobsheet"]);
  });
  test("at the start of a line the details of its entry, and entries", () => {
    expect(offered("  und|")).toEqual(["under", "undo"].filter((it) => offered("  |").includes(it)).sort());
    expect(offered("fin|")).toEqual(["finding"]);
  });
  test("the places of the thing that the line names, and of no other", () => {
    const above = `${machine}places corner near, far\npart foot "Foot"\n  each corner\nstep x "X"\n`;
    expect(offered("  remove hub |", above).filter((it) => ["left", "right", "near", "far"].includes(it))).toEqual(["left", "right"]);
    expect(offered("  remove foot |", above).filter((it) => ["left", "right", "near", "far"].includes(it))).toEqual(["near", "far"]);
  });
  test("today where a day may stand, and once", () => {
    const today = "2026-05-04";
    expect(offered("  done |", machine, { today })).toContain(today);
    expect(offered("day |", machine, { today })).toContain(today);
    expect(offered("  done 2026-05-01 |", machine, { today })).not.toContain(today);
    expect(offered("  undo |", machine, { today })).not.toContain(today);
  });
  test("the currencies of the job after a sum, and no unit", () => {
    const above = `sheet "A"\n  currency GBP\n${machine}supplier a "A"\n  currency EUR\noffer hub from a\n`;
    expect(offered("  price 12.50 |", above)).toEqual(["GBP", "EUR"]);
    expect(offered("  price 12.50 E|", above)).toEqual(["EUR"]);
  });
  test("what can be owned up to after `admit`, and what can be accepted after `accept`", () => {
    expect(offered("  admit |")).toContain("chocks-missing");
    expect(offered("  admit |")).not.toContain("torque-outside");
    expect(offered("  accept |")).toContain("figure-slip");
    expect(offered("  accept |")).not.toContain("chocks-missing");
    expect(offered("  admit chocks-missing |")).toEqual([]);
  });
  test("a blank where a figure, a name or a text must follow, last of all", () => {
    for (const line of ["  mass |", "  held by |", "  number |"]) expect(offered(line, `${machine}part x "X"\n`).at(-1)).toBe("___");
    expect(offered("  keeps |", `${machine}part x "X"\n`)).not.toContain("___");
  });
  test("the pin that is usual with the thread of the fastener", () => {
    // DIN 935-1 for M12: pin 3.2 x 22; held to the printed table by tests/published.
    expect(offered("  locked by split pin |", `${machine}fastener x "X"\n  thread M12\n`)).toEqual(["3.2 x 22 mm"]);
    expect(offered("  locked by split pin |", `${machine}fastener x "X"\n  thread ___\n`)).toEqual([]);
  });
  test("what is off comes first where something is fitted", () => {
    const text = `${machine}step off "Off"\n  remove hub-seal\n  done 2026-05-04\nstep on "On"\n`;
    const read = (it: string) => (it === "jobs/a.jobsheet" ? readSheet(text) : "missing");
    const job = buildJob({ read }, "jobs/a.jobsheet");
    if (job === undefined) throw new Error("no job");
    const labels = (story: Circumstances["story"]) => sorted(`${text}  fit |`, story);
    expect(labels(walk(job))[0]).toBe("hub-seal");
    expect(labels(undefined)[0]).toBe("hub");
  });
  test("what is not tight comes first where something is tightened, and what is not locked where it is locked", () => {
    const text = `sheet "S"
fastener a-nut "A"
  torque 20 N.m
  locked by split pin 2 x 20 mm
fastener b-nut "B"
  torque 20 N.m
  locked by split pin 2 x 20 mm
fastener c-nut "C"
  torque 20 N.m
  locked by split pin 2 x 20 mm
step apart "Apart"
  undo b-nut, c-nut
  tighten b-nut to 20 N.m
  done 2026-05-04
step on "On"
`;
    const job = buildJob({ read: (it) => (it === "jobs/a.jobsheet" ? readSheet(text) : "missing") }, "jobs/a.jobsheet");
    if (job === undefined) throw new Error("no job");
    const story = walk(job);
    expect(sorted(`${text}  tighten |`, story).slice(0, 3)).toEqual(["c-nut", "a-nut", "b-nut"]);
    expect(sorted(`${text}  lock |`, story).slice(0, 3)).toEqual(["b-nut", "a-nut", "c-nut"]);
    expect(sorted(`${text}  undo |`, story).slice(0, 3)).toEqual(["a-nut", "b-nut", "c-nut"]);
  });
  test("an empty file begins with its sheet, and an entry is begun with its usual lines", () => {
    const job = buildJob({ read: () => readSheet("") }, "a.jobsheet");
    if (job === undefined) throw new Error("no job");
    const list = completionsAt(job, 0, 0, { today: "2026-05-04" });
    expect(list.toSorted((a, b) => a.rank - b.rank)[0]).toMatchObject({ label: "sheet", snippet: expect.stringContaining("opened 2026-05-04") });
  });
});

function sorted(text: string, story: Circumstances["story"]): string[] {
  const column = (text.split("\n").at(-1) as string).indexOf("|");
  const whole = text.replace("|", "");
  const job = buildJob({ read: (path) => (path === "jobs/a.jobsheet" ? readSheet(whole) : "missing") }, "jobs/a.jobsheet");
  if (job === undefined) return [];
  return completionsAt(job, whole.split("\n").length - 1, column, { story })
    .toSorted((a, b) => a.rank - b.rank)
    .map((it) => it.label);
}

describe("behind what is whole the list comes for whoever asks for it, and for nobody else", () => {
  test.each([
    ["  tighten hub-nut to 20 lbf.ft |", ["by", "for now"]],
    ["fastener k\n  torque 45 .. 50 lbf.ft |", ["dry", "oiled"]],
    ["limit x\n  set 12 .. 18 mm |", ["by"]],
    ["  support hub on stands rated 500 kg |", ["each", "together", "load"]],
    ['order "K" |', ["to"]],
    ['seen x final good "x" |', ["by"]],
    ['release "x"\n  recheck hub-nut after 50 h |', ["done"]],
    ["offer split pin 1/8 x 1 in |", ["from"]],
  ])("%s: %s", (line, words) => {
    const lines = line.split("\n");
    const above = `${machine}${lines.slice(0, -1).join("\n")}${lines.length > 1 ? "\n" : ""}`;
    expect(offered(lines.at(-1) as string, above, { asked: true })).toEqual(expect.arrayContaining(words));
    expect(offered(lines.at(-1) as string, above)).toEqual([]);
  });
});

describe("a figure gets its unit before the line goes on", () => {
  test.each([
    ["  tighten hub-nut to 20 |", ["lbf.ft"], ["by", "for now"]],
    ["fastener k\n  torque 45 .. 50 |", ["N.m"], ["dry", "oiled", "min"]],
    ["limit x\n  set 12 .. 18 |", ["mm"], ["by"]],
    ["limit x\n  set 12 |", ["mm", "to"], ["by"]],
    ["  support hub on stands rated 500 |", ["kg"], ["each", "crane", "together"]],
    ['order "K" to x\n  item hub-seal 1 price 3 |', [], ["thread", "part", "staking"]],
    ['order "K" to x\n  item hub-seal 1 |', ["price"], ["thread", "part", "staking"]],
    ["fastener k\n  locked by split pin 5/32 |", ["in", "x"], ["part", "staking"]],
    ["stock split pin 5/32 |", ["in", "x"], ["part", "staking", "psi"]],
    ["gauge g\n  range 0 .. 25 mm\n  uncertainty 4 |", ["mm", "%"], ["psi"]],
    ["  let back hub-nut by 2 |", ["deg", "flats", "turns"], ["mm"]],
    // How many there are needs none.
    ["  tighten hub-nut 2 |", ["to", "by"], ["mm"]],
    ['order "K" to x\n  item self-locking nut 4 |', ["price"], []],
  ])("%s: %s, and not %s", (line, yes, no) => {
    const lines = line.split("\n");
    const list = offered(lines.at(-1) as string, `${machine}${lines.slice(0, -1).join("\n")}${lines.length > 1 ? "\n" : ""}`);
    expect(list).toEqual(expect.arrayContaining(yes));
    for (const it of no) expect(list).not.toContain(it);
  });
});

describe("a thing that is called as a locking begins", () => {
  const above = `${machine}hazard spring "Spring"\npart tab "Tab"\nfastener jam "Jam bolt"\n`;
  test.each(["step s\n  restore spring |", "step s\n  safe spring |", "hazard spring |", "step s\n  remove tab |", "step s\n  undo jam |"])(
    "%s: its second word only where a locking may stand",
    (line) => {
      const [head, last = head as string] = line.split("\n");
      const list = offered(last, last === head ? above : `${above}${head}\n`);
      for (const it of ["washer", "nut"]) expect(list).not.toContain(it);
    },
  );
  test("where it may stand it comes", () => {
    expect(offered("  locked by spring |", `${above}fastener x\n`)).toEqual(["washer"]);
    expect(offered("stock jam |", above)).toContain("nut");
  });
});

describe("what the sheet knows already", () => {
  test("who does the job, behind `by`", () => {
    const above = `sheet "A"\n  by "M. Orr"\n${machine}`;
    for (const line of ["  done by |", "  done 2026-05-01 by |"]) expect(offered(line, above)).toContain('"M. Orr"');
    expect(offered("release by |", above)).toContain('"M. Orr"');
    expect(offered("  tighten hub-nut by |", above)).not.toContain('"M. Orr"');
  });
  test("names that are in use and declared nowhere, behind the word that declares such things", () => {
    const above = `${machine}step off "Off"\n  undo wheel-nut\n  remove wheel, wheel-disc\n`;
    expect(offered("fastener |", above)).toEqual(["wheel-nut", "___"]);
    expect(offered("fastener wh|", above)).toEqual(["wheel-nut"]);
    expect(offered("part whee|", above)).toEqual(["wheel", "wheel-disc"]);
    // A name that is whole stays as it is.
    expect(offered("part wheel|", above)).toEqual([]);
  });
  test("no place of a thing that is there once", () => {
    const above = `${machine}fastener key-bolt "Key bolt"\nstep s "S"\n`;
    expect(offered("  lock key-bolt |", above)).toEqual(["new", "with"]);
    expect(offered("  remove hub |", above)).toEqual(["left", "right"]);
  });
  test("no blank where a word must come first", () => {
    for (const line of ["  held |", "  locked |"]) expect(offered(line, `${machine}fastener x "X"\n`)).not.toContain("___");
  });
});

describe("what the reader would not go on after is not offered", () => {
  test.each([
    ["  lock |", "hub-nut", "nut"],
    ["  raise on |", "lift", "on lift"],
    ["  raise |", "on", "lift"],
    ["  support on |", "crane", "under"],
    ["  tighten hub-nut 2 |", "to", "mm"],
    ["finding hub-nut\n  is |", "sheared", "milky"],
    ["fastener x\n  locked |", "by", "split pin"],
    ["fastener x\n  torque |", "by feel", "dry"],
    ["fastener x\n  torque 20 .. 30 |", "N.m", "mm"],
    ["fastener x\n  thread 7/16 |", "BSF", "BA"],
    ["limit x\n  worn |", "max", "by"],
    ["limit x\n  = |", "mean", "max to"],
    ["gauge x\n  checked 2026-01-01 every 12 |", "months", "mm"],
    ["measure end-float |", "found", "by"],
    ["seen x final |", "bad", "found"],
    ["offer hub from x\n  price 4.00 GBP each |", "from", "a pack"],
    ['order "x" to y\n  item hub |', "LH", "split pin"],
    ["stock hub-seal 2 |", "___", "mm"],
    ['sheet "x"\n  currency G|', "GBP", "USD"],
  ])("%s: %s, and not %s", (line, yes, no) => {
    const lines = line.split("\n");
    const list = offered(lines.at(-1) as string, `${machine}${lines.slice(0, -1).join("\n")}${lines.length > 1 ? "\n" : ""}`);
    if (yes !== "___") expect(list).toContain(yes);
    expect(list).not.toContain(no);
  });
  test("the position of a reading, after its place", () => {
    const above = `${machine}limit bore "Bore"\n  each side\n  read at top, bottom\nmeasure bore found\n`;
    expect(offered("  left |", above)).toEqual(["top", "bottom", "again"]);
    expect(offered("  left top |", above)).toEqual(["again"]);
    expect(offered("  left top 0.5 mm |", above)).toEqual([]);
  });
});

describe("what somebody wrote there is offered, at once or from its first letters", () => {
  // A kind of place by what stands before it: its names, figures and texts left out.
  const everywhere = new Set<string>();
  for (const path of thinned(sheets, 6)) {
    test(path, () => {
      // Once a sheet, where all is gone through; else once.
      const tried = isFull ? new Set<string>() : everywhere;
      const lines = readFileSync(join(root, path), "utf8").split("\n");
      const read = (it: string) => sheetAt(join(root, it));
      const asItIs = read(path);
      const job = buildJob({ read }, path);
      if (job === undefined || asItIs === "missing") throw new Error("no job");
      const missing: string[] = [];
      for (const [i, line] of lines.entries()) {
        // Of a line that says what it says wrongly nothing is asked.
        const at = lineAt(job.own.sheet, i);
        if (at?.line === undefined || at.line.fault !== undefined || at.entry.kind === "unread") continue;
        const names = namesOf(at.entry).filter((it) => it.row === at.row);
        const own = names.filter((it) => it.declares || (it.sort === "thing" && !job.things.has(it.name.text))).map((it) => it.name.at.from);
        for (const [column, word] of wordsOf(line)) {
          const name = names.find((it) => it.name.at.from === column);
          const place = `${at.entry.kind} ${names
            .reduce((text, it) => text.replace(it.name.text, it.sort), line.slice(0, column))
            .replace(/"[^"]*"/g, "T")
            .replace(/[\d/.-]+/g, "1")}|${name?.sort ?? word}`;
          // Where a place is called by the first letter of a word, that is whole.
          const isPlace = [...job.placeKinds.values()].some((all) => all.includes(word.slice(0, 1)));
          if (tried.has(place) || word.length < 2 || own.includes(column) || isNew(line, column) || isPlace) continue;
          tried.add(place);
          const isOffered = [1, 0, 2].some((letters) => {
            const text = [...lines.slice(0, i), line.slice(0, column + letters), ...lines.slice(i + 1)].join("\n");
            const own = reread(asItIs, text);
            const begun = buildJob({ read: (it: string) => (it === path ? own : read(it)) }, path);
            const list = begun === undefined ? [] : completionsAt(begun, i, column + letters, { today: "2026-05-04" });
            // A unit has several spellings, and the usual one is offered; accents are written in two ways.
            return list.some((it) => line.slice(column).normalize().startsWith(it.label.normalize()) || (isUnitSpelling(word) && it.sort === "unit"));
          });
          if (!isOffered) missing.push(`${i + 1}: ${line.slice(0, column)}|${word}`);
        }
      }
      expect(missing).toEqual([]);
    });
  }
});

/** Lines of sheets whose writers were wrong, or used what is not in the tables. */
const mistakes: ReadonlySet<string> = new Set([
  "thread 1/8 BSP",
  "thread 3/8-19 BSP",
  "thread 1-14 UNF",
  "thread 2-1/2 BSW",
  "thread 10-32 UNF",
  "remove hub lfet",
  "decision replace",
  "replace hub",
  "raise on hoist",
  "price 44.00 GBX",
  "torque 12 .. 18 mm",
  "1.2 kg",
  "locked by cotter 4 x 28 mm",
  "lock pedal-bolt with new cotter pin 2.5 x 20 mm",
  "new 60 k5 mm",
]);

/** Names that are made up where they stand, and sizes and classes of fits of which there are too many. */
function isNew(line: string, column: number): boolean {
  const before = line.slice(0, column);
  if (mistakes.has(line.trim().replace(/\s+#.*$/, ""))) return true;
  return (
    /^\s*(read at|photo|see)\s/.test(before) ||
    /\bthread\s+$/.test(before) ||
    /^[A-Za-z]{1,2}\d{1,2}(?!\S)/.test(line.slice(column)) ||
    /^x\s/.test(line.slice(column))
  );
}

/** The words outside of texts and comments that begin with a letter, each with its column. */
function* wordsOf(line: string): Generator<readonly [number, string]> {
  const bare = line.replace(/"(?:\\.|[^"\\])*"/g, (it) => " ".repeat(it.length)).replace(/(^|\s)#.*$/, "");
  for (const it of bare.matchAll(/(?<=^|\s)\p{L}[\p{L}\p{M}\p{N}.-]*/gu)) yield [it.index, it[0]];
}
