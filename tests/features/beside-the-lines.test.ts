// What is shown beside the lines of a sheet, over them and in their colours: as the walk has it, for the lines that are asked about, and nothing for what was edited since.
import { describe, expect, test } from "vitest";
import { editSheet, readSheet } from "../../grammar/sheet-text.ts";
import { folding } from "../../server/features/folding.ts";
import { highlighting } from "../../server/features/highlights.ts";
import { hoveringAt } from "../../server/features/hover.ts";
import { type HintKind, hintKinds } from "../../server/features/hint-kinds.ts";
import { hinting } from "../../server/features/inlay-hints.ts";
import { tellingLens, lensesIn } from "../../server/features/lenses.ts";
import { linking } from "../../server/features/links.ts";
import { markDone, readingsOffered } from "../../server/features/mark-done.ts";
import { outliningByDay } from "../../server/features/outline.ts";
import { encoded, colouring } from "../../server/features/semantic-tokens.ts";
import { reachesAt } from "../../server/features/reaches.ts";
import { tokenModifiers } from "../../server/features/token-words.ts";
import { signatureAt } from "../../server/features/signature.ts";
import { tellingStanding } from "../../server/features/standing.ts";
import { worstFirst } from "../../server/features/worst-first.ts";
import { findingSymbols } from "../../server/features/symbols.ts";
import { runThrough } from "../../grammar/slices.ts";
import { checking } from "../../server/rules/check.ts";
import { buildJob } from "../in-one-go.ts";

const text = `sheet "Hub loose"
  machine "Tarn lorry"
  currency GBP
places side left, right
part hub "Hub"
  each side
  held by hub-nut
  critical "a wheel"
part seal "Seal"
  each side
fastener hub-nut "Hub nut"
  each side
  thread 3/4-16 UNF
  torque 60 .. 70 lbf.ft
  locked by split pin 5/32 x 1-1/4 in
  critical "a wheel"
  source "Book 4"
limit float "End float"
  each side
  set 0.004 .. 0.008 in by hub-nut
  source "Book 5"
limit bore "Hub bore"
  worn max 2.010 in
  of hub
  source "Book 6"
limit pin "Pin"
  worn min 1.990 in
  of hub
  source "Book 6"
limit fit "Hub on its pin"
  = bore - pin
  worn max 0.020 in
  source "Book 6"
day 2026-05-04
finding hub-nut right
  is loose, unlocked
  photo "photos/nut.jpg"
step strip "Hub off"
  undo hub-nut
  remove hub
  done
measure bore found
  2.015 in
measure pin found
  1.992 in
day 2026-05-06
supplier weir "Weir Lane"
  currency GBP
  prices "weir.csv"
offer hub from weir
  price 12.00 GBP a pack
  pack 8
finding hub left
  is cracked
  decision renew
order "W-1" to weir
  status sent 2026-05-06
  item seal 2
step back "Hub on"
  fit hub new
  tighten hub-nut to 65 lbf.ft
  lock hub-nut new
`;
const lines = text.split("\n");
const at = (words: string) => lines.findIndex((it) => it.includes(words));
const files = (sheet = readSheet(text)) => ({
  read: (path: string) => (path === "a.jobsheet" ? sheet : ("missing" as const)),
  jobsheets: () => ["a.jobsheet"],
});
const checked = runThrough(checking(files(), "a.jobsheet"));
const { story, list } = checked ?? expect.fail("no check");
if (story === undefined) throw new Error("no story");
const sheet = story.job.own.sheet;

function hints(kind: HintKind, of = sheet): string[] {
  return runThrough(hinting(of, { story: story as NonNullable<typeof story>, list, from: 0, to: 999, kinds: [kind] })).map((it) => `${it.line + 1} ${it.text}`);
}

describe("hints", () => {
  test("a reading: in or out, and of which limit", () => {
    expect(hints("verdicts")).toEqual([`${at("2.015 in") + 1} ✗ worn max 2.010 in`, `${at("1.992 in") + 1} ✓ worn min 1.990 in`]);
  });
  test("work that names no place: where it is done", () => {
    expect(hints("places")).toContain(`${at("undo hub-nut") + 1} left, right`);
    expect(hints("places")).toContain(`${at("lock hub-nut new") + 1} left, right`);
  });
  test("lock: what, and on how many", () => {
    expect(hints("locking")).toEqual([`${at("lock hub-nut new") + 1} split pin 5/32 x 1-1/4 in, on 2`]);
  });
  test("done without a date: the day", () => {
    expect(hints("days")).toEqual([`${at("  done") + 1} 2026-05-04`]);
  });
  test("a fault that only planned work will cure is still open", () => {
    expect(hints("faults")).toContain(`${at("is cracked") + 1} still open`);
  });
  test("a pack's price each, exact: 12.00 for 8 is 1.50", () => {
    expect(hints("prices")).toEqual([`${at("price 12.00") + 1} 1.50 GBP each`]);
  });
  test("what is worked out: 2.015 less 1.992 is 0.023", () => {
    expect(hints("workedOut")).toEqual([`${at("= bore - pin") + 1} 0.023 in`]);
  });
  test("a planned fit: what is the matter with the piece, and what it waits for, at the place where it is so", () => {
    const of = (more: string) => {
      const read = readSheet(`${text.slice(0, text.indexOf("supplier weir"))}${more}step back "Hub on"\n  fit hub\n`);
      const now = runThrough(checking(files(read), "a.jobsheet"));
      return runThrough(hinting(read, { story: now?.story as never, list: now?.list ?? [], from: 0, to: 999, kinds: ["waits"] })).map((it) => it.text);
    };
    expect(of("")).toEqual(["worn"]);
    expect(of('finding hub left\n  is cracked\n  decision repair "sleeved"\n')).toEqual(["left: worn, waits for “sleeved”; right: worn"]);
    expect(of('order "W-2" to weir\n  status held\n  work hub "Grind the bore"\n')).toEqual(["worn, waits for “Grind the bore”"]);
    expect(of('order "W-2" to weir\n  status sent 2026-05-06\n  work hub left "Grind the bore"\n')).toEqual([
      "left: worn, out for “Grind the bore”; right: worn",
    ]);
    // Back and ground, it is out for nothing; whether the figure still stands is another reading's to say.
    expect(of('order "W-2" to weir\n  status sent 2026-05-06\n  status received 2026-05-06\n  work hub "Grind the bore"\n')).toEqual(["worn"]);
    // New ones are waited for while their order is on its way.
    const news = text.replace("item seal 2", "item hub 1");
    const sheetOfNews = readSheet(news);
    const checkedNews = runThrough(checking(files(sheetOfNews), "a.jobsheet"));
    expect(runThrough(hinting(sheetOfNews, { story: checkedNews?.story as never, list: [], from: 0, to: 999, kinds: ["waits"] })).map((it) => it.text)).toEqual(
      ["on order “W-1”"],
    );
  });
  test("the other system: 2.015 in is 51.181 mm", () => {
    expect(hints("otherSystem")[0]).toMatch(/51\.18/);
  });
  test("only the lines that are asked about, and nothing of an entry that was edited since", () => {
    const line = at("2.015 in");
    expect(runThrough(hinting(sheet, { story: story as never, list, from: line, to: line, kinds: hintKinds })).every((it) => it.line === line)).toBe(true);
    const edited = editSheet(sheet, { startLine: line, startColumn: 6, endLine: line, endColumn: 7, text: "4" });
    expect(hints("verdicts", edited)).toEqual([`${at("1.992 in") + 1} ✓ worn min 1.990 in`]);
    const moved = editSheet(sheet, { startLine: 0, startColumn: 0, endLine: 0, endColumn: 0, text: "# above\n" });
    expect(hints("verdicts", moved)[1]).toBe(`${at("1.992 in") + 2} ✓ worn min 1.990 in`);
  });
});

describe("lenses", () => {
  const say = (what: "step" | "supplier" | "release", words: string) => {
    const lens = lensesIn(sheet).find((it) => it.what === what && it.line === at(words));
    return lens === undefined ? undefined : runThrough(tellingLens(sheet, lens, { story, list, today: "2026-05-07" }));
  };
  test("a planned step says what it waits for; one that is done has none", () => {
    expect(say("step", "step back")).toMatch(/^waits for .*Hub/);
    expect(say("step", "step strip")).toBeUndefined();
  });
  test("a supplier says what is to be got there and what it comes to", () => {
    // One pack of eight hubs at 12.00.
    expect(say("supplier", "supplier weir")).toBe("1 thing, 12.00 GBP");
  });
  test("a release says how much is open", () => {
    const whole = `${text}release by "E. Lind" 2026-05-09\n`;
    const made = runThrough(checking(files(readSheet(whole)), "a.jobsheet")) ?? expect.fail("no check");
    const lens = lensesIn(readSheet(whole)).find((it) => it.what === "release") ?? expect.fail("no lens");
    expect(runThrough(tellingLens(readSheet(whole), lens, { story: made.story, list: made.list, today: "2026-05-09" }))).toMatch(/^\d+ things are open$/);
  });
});

test("hover tells the story of a thing at each place", () => {
  const job = buildJob(files(), "a.jobsheet") ?? expect.fail("no job");
  const said = runThrough(hoveringAt(job, at("remove hub"), 10, job.workspace))?.plain ?? "";
  expect(said).toContain(
    `left: off, line ${at("remove hub") + 1}; found cracked, line ${at("finding hub left") + 1}; planned: fit, line ${at("fit hub new") + 1}.`,
  );
  expect(runThrough(hoveringAt(job, at("part seal"), 6, job.workspace))?.plain).toContain("On order: “W-1”.");
});

test("colours: what is off, condemned, planned", () => {
  const tokens = runThrough(colouring(sheet, story, 0, 999)).map((it) => {
    const set = tokenModifiers.filter((_, bit) => (it.modifiers & (1 << bit)) !== 0);
    return `${it.line + 1} ${(lines[it.line] as string).slice(it.from, it.from + it.length)} ${set.join("+")}`;
  });
  expect(tokens).toContain(`${at("fit hub new") + 1} hub condemned`);
  expect(tokens).toContain(`${at("undo hub-nut") + 1} hub-nut off`);
  // Off too; what is planned for it is what the line is about.
  expect(tokens).toContain(`${at("tighten hub-nut") + 1} hub-nut planned`);
  expect(tokens.some((it) => it.includes("seal"))).toBe(false);
  const data = encoded(runThrough(colouring(sheet, story, 0, 999)));
  expect(data.length % 5).toBe(0);
  expect(data.every((it) => it >= 0)).toBe(true);
});

test("the piece under the cursor, at its place and where none is named", () => {
  const found = runThrough(highlighting(sheet, at("finding hub left"), 9)).map((it) => it.line);
  expect(found).toContain(at("remove hub"));
  expect(found).not.toContain(at("finding hub-nut right"));
  const right = runThrough(highlighting(sheet, at("finding hub-nut right"), 10));
  expect(right.map((it) => it.line)).toContain(at("undo hub-nut"));
  expect(right.find((it) => it.line === at("held by hub-nut"))?.works).toBe(false);
  expect(right.find((it) => it.line === at("undo hub-nut"))?.works).toBe(true);
});

test("a photo under the pointer is shown where it lies in the workspace and is one, and nowhere else", () => {
  const photo = (path: string) =>
    path.endsWith("nut.jpg")
      ? { kind: "photo" as const, type: "image/jpeg" as const, base64: () => "", mark: "1" }
      : { kind: "missing" as const, why: "is not there" };
  const hover = (of: string) => {
    const read = readSheet(`sheet "A"\n  photo "${of}"\n`);
    const job = buildJob({ ...files(read), photo }, "a.jobsheet");
    return job === undefined ? undefined : runThrough(hoveringAt(job, 1, 10, job.workspace));
  };
  expect(hover("photos/nut.jpg")).toMatchObject({ picture: "photos/nut.jpg", from: 8, to: 24 });
  expect(hover("photos/gone.jpg")).toMatchObject({ plain: "“photos/gone.jpg” is not there." });
  expect(hover("photos/gone.jpg")?.picture).toBeUndefined();
  for (const outside of ["../nut.jpg", "/etc/nut.jpg", "https://there.example/nut.jpg"]) expect(hover(outside)).not.toHaveProperty("picture");
  expect(hover("../nut.jpg")?.plain).toContain("outside of the workspace");
});

test("links lead to files of the workspace and nowhere else", () => {
  expect(runThrough(linking(sheet, "jobs/a.jobsheet")).map((it) => [it.what, it.path])).toEqual([
    ["photo", "jobs/photos/nut.jpg"],
    ["price list", "jobs/weir.csv"],
  ]);
  expect(runThrough(linking(readSheet('use "../../etc/x.jobsheet"\nuse "/etc/x"\nuse "https://x"\nuse "___"\nuse ""\n'), "a.jobsheet"))).toEqual([]);
});

test("folds: a day with all that belongs to it, entries, comments", () => {
  const folds = runThrough(folding(sheet));
  expect(folds).toContainEqual({ from: at("day 2026-05-04"), to: at("1.992 in"), kind: "day" });
  expect(folds).toContainEqual({ from: at("step strip"), to: at("  done"), kind: "entry" });
  expect(runThrough(folding(readSheet("# a\n# b\n# c\npart x\n")))).toEqual([{ from: 0, to: 2, kind: "comment" }]);
});

test("the outline has what was written on a day under that day", () => {
  const days = runThrough(outliningByDay(sheet)).filter((it) => it.kind === "day");
  expect(days.map((it) => it.detail)).toEqual(["found: hub-nut right", "found: hub left"]);
  expect(days[0]?.children.map((it) => it.label)).toEqual(["finding hub-nut right", "step strip", "measure bore found", "measure pin found"]);
});

test("symbols by letters of name and title", () => {
  expect(runThrough(findingSymbols(files(), "hubnt")).map((it) => it.item.label)).toContain("fastener hub-nut");
  expect(runThrough(findingSymbols(files(), "zzz"))).toEqual([]);
});

describe("a selection grows", () => {
  const marked = (sheetText: string, line: number, column: number) => {
    const whole = readSheet(sheetText);
    return reachesAt(whole, line, column).map(({ from, to }) =>
      whole.lines
        .slice(from.line, to.line + 1)
        .map((text, i, all) => text.slice(i === 0 ? from.column : 0, i === all.length - 1 ? to.column : undefined))
        .join("\n"),
    );
  };
  const small = 'part hub "Hub"\n\nstep x "X"\n  fit hub new # tight\n  done 2026-05-04\n\n# end\n';
  test("from the word to what the line says, the line, its entry and the sheet", () => {
    const entry = 'step x "X"\n  fit hub new # tight\n  done 2026-05-04';
    expect(marked(small, 3, 7)).toEqual(["hub", "fit hub new", "  fit hub new # tight", entry, small]);
    expect(marked(small, 2, 8)).toEqual(['"X"', 'step x "X"', entry, small]);
    expect(marked(small, 6, 3)).toEqual(["# end", small]);
  });
  test("of any place the smallest holds it and each holds the one before", () => {
    for (const [line, text] of small.split("\n").entries())
      for (let column = 0; column <= text.length; column++) {
        const all = reachesAt(readSheet(small), line, column);
        const isAhead = (a: { line: number; column: number }, b: { line: number; column: number }) =>
          a.line < b.line || (a.line === b.line && a.column <= b.column);
        const place = { line, column };
        for (const [i, it] of all.entries()) {
          const inner = all[i - 1] ?? { from: place, to: place };
          expect([line, column, isAhead(it.from, inner.from), isAhead(inner.to, it.to)]).toEqual([line, column, true, true]);
        }
      }
    expect(marked("", 9, 9)).toEqual([""]);
  });
});

describe("how a line is written, and what comes next", () => {
  const active = (line: string) => {
    const [head, last = head as string] = line.includes("\n") ? line.split("\n") : [/^\s/.test(line) ? 'step x "X"' : "", line];
    const found = signatureAt(readSheet(`${head}\n${last}`), 1, last.length);
    const part = found?.parts[found.active];
    return part === undefined ? undefined : found?.label.slice(part[0], part[1]);
  };
  test.each([
    ["  tighten ", "FASTENER"],
    ["  tighten nut to ", "[to Q, Q… [+ Q]]"],
    ["  tighten nut to 20 lbf.ft by ", "[by GAUGE]"],
    ["  tighten nut, ", "FASTENER"],
    ["  tighten nut le", "[PLACE…]"],
    ["  remove chain po", "[PLACE…]"],
    ["  remove chain 2", "[N]"],
    ["  remove chain, ", "PART"],
    ["  fit hub port ", "[new]"],
    ["  fit hub port new from ", "[from PLACE]"],
    ["  lock nut left with ", "[new | with [new] LOCKING]"],
    ["  raise on ", "jack|lift|crane|centre stand|paddock stand|bench"],
    ["  let back nut left by ", "by N flats|N turns|Q"],
    ["fastener x\n  locked by ", "LOCKING"],
    ["fastener x\n  locked by split pin 1/8 in for ", "[for N]"],
    ["fastener x\n  torque 45 .. ", "RANGE"],
    ["fastener x\n  torque 45 .. 50 lbf.ft ", "[+ Q]"],
    ["fastener x\n  torque 45 .. 50 lbf.ft dry ", "[K N]"],
    ["limit x\n  set 1 .. 2 mm by ", "by NAME…"],
    ["part x\n  held by ", "FASTENER…"],
    ['release by "A"\n  recheck nut after 50 ', "after Q"],
    ['release by "A"\n  recheck nut after ', "after Q"],
    ["measure float ", "found|trial|final"],
    ["measure float found by ", "[by GAUGE]"],
    ['seen blue final good "x" ', "[PLACE…]"],
    ["finding nut ", "[PLACE…]"],
    ['concession hub "why" by ', 'by "…"'],
    ["  fit hub left new ", "[from PLACE]"],
    ["  nonsense ", undefined],
  ])("%s → %s", (line, part) => expect(active(line)).toBe(part));
});

test("a step is marked done behind its last line, and once", () => {
  expect(markDone(sheet, at("fit hub new"), "2026-05-07")).toEqual({ line: at("lock hub-nut new"), column: 18, text: "\n  done 2026-05-07" });
  expect(markDone(sheet, at("undo hub-nut"), "2026-05-07")).toMatch(/already/);
  expect(markDone(sheet, 0, "2026-05-07")).toMatch(/step/);
});

test("what is written into a sheet ends its lines as the sheet does", () => {
  const crlf = readSheet(text.replaceAll("\n", "\r\n"));
  expect(markDone(crlf, at("fit hub new"), "2026-05-07")).toMatchObject({ text: "\r\n  done 2026-05-07" });
  const job = buildJob(files(crlf), "a.jobsheet") ?? expect.fail("no job");
  expect(readingsOffered(job, "2026-05-07")[0]?.text).toBe("measure float found 2026-05-07\r\n  left ___\r\n  right ___\r\n");
});

test("a reading is offered for each limit that is measured, a blank for each place", () => {
  const job = buildJob(files(), "a.jobsheet") ?? expect.fail("no job");
  const offered = readingsOffered(job, "2026-05-07");
  expect(offered.map((it) => it.name)).toEqual(["float", "bore", "pin"]);
  expect(offered[0]?.text).toBe("measure float found 2026-05-07\n  left ___\n  right ___\n");
});

test("live hazards: those that the job has had to do with while the machine is apart, and those that guard what is off", () => {
  const hazard =
    'part wheel "Wheel"\n  held by nut\nfastener nut "Nut"\nhazard mains "Mains"\n  safe before nut\n  restore after nut\nhazard dust "Dust"\n  safe before other\npart other "Other"\n';
  const live = (steps: string) => {
    const standing = runThrough(tellingStanding(files(readSheet(`sheet "A"\n${hazard}${steps}`)), "a.jobsheet", "2026-05-07"));
    return [standing?.live.map((it) => it.text), / · live: mains|^live: mains/.test(standing?.words ?? "")];
  };
  // Nothing is apart: what is live is as it should be.
  expect(live("")).toEqual([[], false]);
  expect(live('step off "Off"\n  safe mains "plug out"\n  undo nut\n  done\n')).toEqual([[], false]);
  expect(live('step off "Off"\n  safe mains "plug out"\n  undo nut\n  restore mains\n  done\n')).toEqual([["Live: Mains"], true]);
  expect(live('step off "Off"\n  undo nut\n  done\n')).toEqual([["Live: Mains"], true]);
  expect(live('step off "Off"\n  safe mains "plug out"\n  undo nut\n  fit nut\n  tighten nut\n  restore mains\n  done\n')).toEqual([[], false]);
});

test("how it stands: the worst first, and a data file has no standing", () => {
  const standing = runThrough(tellingStanding(files(), "a.jobsheet", "2026-05-07"));
  expect(standing?.words).toMatch(/^\d+ unsafe · \d+ open$/);
  expect(standing?.unsafe.map((it) => it.line)).toContain(at("is cracked") + 1);
  const safe = runThrough(tellingStanding(files(readSheet('sheet "A"\n')), "a.jobsheet", "2026-05-07")) ?? expect.fail("no standing");
  const jobs = [
    { path: "safe", standing: safe },
    { path: "unsafe", standing: standing ?? expect.fail("no standing") },
  ];
  expect(worstFirst(jobs).map((it) => it.path)).toEqual(["unsafe", "safe"]);
  // Of a long sheet only what its check has found.
  const long = `${text}${"# more\n".repeat(1600)}`;
  const found = runThrough(tellingStanding(files(readSheet(long)), "a.jobsheet", "2026-05-07"));
  expect([found?.open, found?.unsafe.length]).toEqual([null, standing?.unsafe.length]);
  expect(runThrough(tellingStanding(files(readSheet('part x "X"\n')), "a.jobsheet", "2026-05-07"))).toBeUndefined();
});

test("a lens that was drawn before lines were written above it is still of its own step, and marks no other", () => {
  const drawn = readSheet('step first "First"\n  undo hub-nut\nstep second "Second"\n  remove hub\n');
  const lens = lensesIn(drawn).find((it) => it.what === "done" && it.line === 2);
  expect(lens).toMatchObject({ line: 2, name: "second" });
  // Two lines were put in at the top: what stands at its line now is the first step.
  const now = readSheet('# Monday\n# cold\nstep first "First"\n  undo hub-nut\nstep second "Second"\n  remove hub\n');
  expect(markDone(now, 2, "2026-05-07", "second")).toEqual({ line: 5, column: 12, text: "\n  done 2026-05-07" });
  expect(markDone(now, 2, "2026-05-07", "gone")).toBe("There is no one step gone here any more.");
  // A block that was copied with its name: which of the two is meant nobody knows, but at the line itself.
  const twice = readSheet('step second "A"\n  remove hub\nstep second "B"\n  remove hub\n');
  expect(markDone(twice, 1, "2026-05-07", "second")).toMatch(/no one step/);
  expect(markDone(twice, 2, "2026-05-07", "second")).toMatchObject({ line: 3 });
});
