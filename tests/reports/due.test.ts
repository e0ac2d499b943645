// What is due over several jobs: who stands under which head, and what is next, read off the sheets by hand; the calendar read back by ical.js (RFC 5545).
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { dueCalendar } from "../../server/reports/due/calendar.ts";
import { type DueReport, reportingDue } from "../../server/reports/due/due.ts";
import { dueSections } from "../../server/reports/due/sections.ts";
import { asMarkdown } from "../../server/reports/draw/as-markdown.ts";
import { asText } from "../../server/reports/draw/as-text.ts";
import { jobsAskedFrom } from "../../server/reports/report.ts";
import { filesFrom } from "./sheets.ts";
import { asPage } from "../in-one-go.ts";

const on = (texts: Readonly<Record<string, string>>, day = "2026-06-01") =>
  runThrough(
    reportingDue(
      filesFrom(texts),
      Object.keys(texts).filter((it) => !it.startsWith("data")),
      day,
    ),
  ) as DueReport;
const said = (report: DueReport) => report.items.map((it) => `${it.group}: ${it.text}`);

/** A van whose hub nut is to be looked at again after 500 km, and a second job of the same van that names a later counter. */
const van = (counter: string, recheck = "recheck hub-nut after 500 km") => ({
  "hubs.jobsheet": `sheet "Hubs"
  machine "Moor van"
  serial "MV 7"
  opened 2026-05-01
  reading 41200 km
fastener hub-nut "Hub nut"
  torque 60 .. 70 N.m
  locked by nothing "a test of something else"
release by "A. Moor" 2026-05-10 at 41260 km
  test "ten miles"
  ${recheck}
`,
  "lights.jobsheet": `sheet "Lights"
  machine "moor  van"
  serial "MV 7"
  opened 2026-05-20
  reading ${counter}
`,
});

describe("rechecks", () => {
  test("fall due by the counter that another sheet of the machine names", () => {
    expect(said(on(van("41759 km")))).toContain("Coming up: Hub nut: look at it again after 500 km, at 41760 km; the last counter on its sheets is 41759 km.");
    expect(said(on(van("41760 km")))).toContain(
      "Recheck due: Hub nut: look at it again after 500 km, at 41760 km; the last counter on its sheets is 41760 km.",
    );
  });
  test("in miles as in kilometres: 25948 mi are 41759.25 km, 25949 mi are 41760.86 km", () => {
    // By GNU units: 25948 mi = 41759.2584 km, 25949 mi = 41760.8678 km.
    expect(on(van("25948 mi")).items.filter((it) => it.group === "Recheck due")).toEqual([]);
    expect(on(van("25949 mi")).items.filter((it) => it.group === "Recheck due")).toHaveLength(1);
  });
  test("that were done are not due", () => {
    expect(on(van("42000 km", "recheck hub-nut after 500 km done 2026-05-20 at 41790 km")).items.some((it) => it.text.startsWith("Hub nut: look"))).toBe(false);
  });
  test("an hour counter is no odometer", () => {
    expect(on(van("99999 h")).items.filter((it) => it.group === "Recheck due")).toEqual([]);
  });
  test("days are days of the calendar", () => {
    const days = van("41261 km", "recheck hub-nut after 30 d");
    expect(on(days, "2026-06-08").items.filter((it) => it.group === "Recheck due")).toEqual([]);
    // 10 May and 30 days: May has 31.
    const [due] = on(days, "2026-06-09").items.filter((it) => it.group === "Recheck due");
    expect(due).toMatchObject({ day: "2026-06-09", text: "Hub nut: look at it again after 30 d, on 2026-06-09." });
  });
  test("what has no counter to count from is told, and not called past", () => {
    const sheets = van("50000 km");
    const without = { ...sheets, "hubs.jobsheet": sheets["hubs.jobsheet"].replace(" at 41260 km", "") };
    expect(said(on(without))).toContain("Coming up: Hub nut: look at it again after 500 km, and its release names no counter to count from.");
  });
});

/** A sheet of a machine of its own. */
const machine = (name: string, rest: string) => `sheet "${name} job"
  machine "${name}"
  opened 2026-05-01
part hub "Hub"
  held by hub-nut
fastener hub-nut "Hub nut"
  torque 60 .. 70 N.m
  locked by nothing "a test of something else"
${rest}`;

const down = `day 2026-05-02
step down "Down"
  undo hub-nut
  remove hub
  done
`;
const up = `step up "Up"
  fit hub
  tighten hub-nut to 65 N.m
  done 2026-05-03
`;

describe("by job", () => {
  test("apart, with what is off, and the step that can be done next", () => {
    const report = on({ "a.jobsheet": machine("Mill", `${down}pause 2026-05-02 "Dinner"\nstep up "Up"\n  fit hub\n  tighten hub-nut to 65 N.m\n`) });
    expect(report.items.map((it) => [it.group, it.text, it.details])).toEqual([["Apart", "Mill job. Last laid up: Dinner.", ["Off: hub and hub nut."]]]);
    expect(report.machines).toMatchObject([{ machine: "Mill", next: "Do “Up”.", line: 15 }]);
  });
  test("together again and not released: nothing apart, and its release is next", () => {
    const report = on({ "a.jobsheet": machine("Mill", down + up) });
    expect(report.items.map((it) => it.group)).not.toContain("Apart");
    expect(report.items.map((it) => it.group)).toContain("Under way, nothing apart");
  });
  test("a release over what is open comes first of all", () => {
    const report = on({ "a.jobsheet": machine("Mill", down), "b.jobsheet": machine("Lathe", `${down}release by "A. Moor" 2026-05-04\n  test "ran"\n`) });
    expect(report.items[0]).toMatchObject({ group: "Released, and something is open", machine: "Lathe" });
    expect(report.items[0]?.details.length).toBeGreaterThan(0);
    expect(report.machines.map((it) => it.machine)).toEqual(["Mill", "Lathe"]);
  });
  test("work after a release is told as such, at its line", () => {
    const text = machine(
      "Lathe",
      `${down}${up}release by "A. Moor" 2026-05-04\n  test "ran"\nday 2026-05-10\nstep again "Again"\n  undo hub-nut\n  tighten hub-nut to 65 N.m\n  done\n`,
    );
    const after = on({ "a.jobsheet": text }).items.filter((it) => it.group === "Worked on after its release");
    expect(after).toHaveLength(1);
    expect(text.split("\n")[(after[0]?.line ?? 0) - 1]?.trim()).toMatch(/^(step again|undo hub-nut)/);
    expect(on({ "a.jobsheet": text.slice(0, text.indexOf("day 2026-05-10")) }).items.filter((it) => it.group === "Worked on after its release")).toEqual([]);
  });
  test("what hangs on a jack comes before what is only apart, and is next", () => {
    const report = on({ "a.jobsheet": machine("Cart", `step lift "Lift"\n  raise on jack\n  done 2026-05-02\n${down}`) });
    expect(report.items.map((it) => it.group).slice(0, 1)).toEqual(["Hanging"]);
    expect(report.machines[0]?.next).toMatch(/^Cart job: set it down or on stands before anything else\. on a jack/);
  });
  test("two sheets of one machine under way at once: each is told of the other's open work", () => {
    const other = `sheet "Brakes"\n  machine "mill"\n  by "B. Lee"\npart shoe "Shoe"\nstep off "Off"\n  remove shoe\n  done 2026-05-02\n`;
    const [both] = on({ "a.jobsheet": machine("Mill", down), "b.jobsheet": other }).items.filter((it) => it.group === "Two jobs at one machine");
    expect(both).toMatchObject({
      text: "“Mill job” and “Brakes” (B. Lee) are under way at once. Tell each other before anything is lowered, made live or tried.",
      details: ["Mill job: hub, hub nut.", "Brakes: shoe."],
    });
    // Not of another machine, and not where one is only declared or is released.
    const groups = (text: string) => on({ "a.jobsheet": machine("Mill", down), "b.jobsheet": text }).items.map((it) => it.group);
    expect(groups(other.replace('"mill"', '"Lathe"'))).not.toContain("Two jobs at one machine");
    expect(groups(other.slice(0, other.indexOf("step")))).not.toContain("Two jobs at one machine");
    expect(groups(`${other}release by "B. Lee" 2026-05-03\n`)).not.toContain("Two jobs at one machine");
  });
  test("a question without an answer, and the step that waits for it", () => {
    const ask = `question slack "How slack may it be?"\n  about hub\n`;
    const report = on({ "a.jobsheet": machine("Mill", `${down}${ask}step up "Up"\n  fit hub\n  tighten hub-nut to 65 N.m\n`) });
    expect(report.items.find((it) => it.group === "Waiting for an answer")).toMatchObject({
      text: "How slack may it be?",
      details: ["“Up” can't be done before."],
    });
    const answered = on({ "a.jobsheet": machine("Mill", `${down}${ask}  answer "Not at all"\n`) });
    expect(answered.items.map((it) => it.group)).not.toContain("Waiting for an answer");
  });
});

describe("gauges and parcels", () => {
  const gauge = (checked: string) => `gauge wrench "Torque wrench"\n  checked ${checked} every 12 months\n`;
  test("a gauge is past the day after, and the newest check of one that two sheets name counts", () => {
    const sheets = (a: string, b: string) => ({ "a.jobsheet": machine("Mill", gauge(a)), "b.jobsheet": machine("Lathe", gauge(b)) });
    const groups = (report: DueReport) => report.items.filter((it) => it.text.startsWith("Torque wrench")).map((it) => it.group);
    expect(groups(on(sheets("2025-06-01", "2024-01-01"), "2026-06-01"))).toEqual(["Coming up"]);
    expect(groups(on(sheets("2025-06-01", "2024-01-01"), "2026-06-02"))).toEqual(["Gauge to be checked"]);
  });
  test("a parcel is late from the day after it should have come", () => {
    const text = machine(
      "Mill",
      `supplier weir "Weir Lane"\n  lead 7 d\noffer hub from weir\n  price 2.00 GBP each\norder "W-1" to weir\n  status sent 2026-05-20\n  item hub 1\nneed hub 1 "for the shelf"\n`,
    );
    const told = (day: string) => said(on({ "a.jobsheet": text }, day)).filter((it) => it.includes("W-1"));
    // Sent on 20 May with a lead of 7 days: it comes on 27 May.
    expect(told("2026-05-26")).toEqual(["Coming up: Order W-1 to Weir Lane (hub): comes on 2026-05-27."]);
    expect(told("2026-05-30")).toEqual(["Parcel late: Order W-1 to Weir Lane (hub): 3 days late. Ask for it."]);
  });
  test("what the finish waits for is to be sent for today", () => {
    const text = machine(
      "Mill",
      `supplier weir "Weir Lane"\n  lead 7 d\noffer hub from weir\n  price 2.00 GBP each\n${down}finding hub\n  is cracked\n  decision renew\nstep up "Up"\n  fit hub new\n  tighten hub-nut to 65 N.m\n`,
    );
    const report = on({ "a.jobsheet": text });
    expect(said(report)).toContain("To be sent for today: From Weir Lane, hub: order it today or the job finishes late.");
    expect(report.machines[0]?.next).toBe("Send for hub today.");
  });
});

test("an editor asks from one sheet, and is told of every job that its door knows of", () => {
  const texts = van("41760 km");
  const files = { ...filesFrom({ ...texts, "data.jobsheet": 'part hub "Hub"\n' }), jobsheets: () => [...Object.keys(texts), "data.jobsheet"] };
  expect(jobsAskedFrom({ spans: "folder" }, files, "hubs.jobsheet")).toEqual(["hubs.jobsheet", "lights.jobsheet"]);
  expect(jobsAskedFrom({}, files, "hubs.jobsheet")).toEqual(["hubs.jobsheet"]);
});

test("every drawing says every row, with its line", () => {
  const report = on(van("41760 km"));
  for (const drawn of [asText, asMarkdown, asPage].map((draw) => draw(dueSections(report))))
    for (const it of [...report.items]) {
      expect(drawn.replaceAll("\\", "")).toContain(it.text);
      expect(drawn.replaceAll("\\", "")).toContain(`${it.file}:${it.line}`);
    }
});

describe("the calendar", () => {
  const events = (text: string) =>
    new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent").map((it) => {
      const event = new ICAL.Event(it);
      return {
        summary: event.summary,
        description: event.description,
        start: event.startDate.toString(),
        end: event.endDate.toString(),
        uid: event.uid,
        stamp: String(it.getFirstPropertyValue("dtstamp")),
        allDay: event.startDate.isDate,
      };
    });
  const evil = `Hub; nut, \\"left\\" \\\\ – 轴承 ${"ä".repeat(60)}`;
  const sheets = {
    "a.jobsheet": machine("Mill", `gauge wrench "Wrench; 1/2, ${"long ".repeat(20)}"\n  checked 2025-09-01 every 12 months\n${down}question q "${evil}"\n`),
  };
  const report = on(sheets);
  const text = dueCalendar(report);

  test("is read back by a reader of calendars, each thing on its day", () => {
    const read = events(text);
    expect(read).toHaveLength(report.items.length);
    const asked = read.find((it) => it.summary.startsWith("Waiting for an answer"));
    // What the sheet escapes as \" and \\ is a quote and a backslash.
    expect(asked?.summary).toBe(`Waiting for an answer: Hub; nut, "left" \\ – 轴承 ${"ä".repeat(60)}`);
    expect(asked).toMatchObject({ start: "2026-06-01", end: "2026-06-02", allDay: true, stamp: "2026-06-01T00:00:00Z" });
    expect(asked?.description.split("\n")).toEqual(["Mill", expect.stringMatching(/^a\.jobsheet:\d+$/), "A reminder from a job sheet, not an inspection."]);
    // 12 months after 1 September 2025.
    expect(read.find((it) => it.summary.includes("Wrench; 1/2, long"))).toMatchObject({ start: "2026-09-01", end: "2026-09-02" });
    expect(new Set(read.map((it) => it.uid)).size).toBe(read.length);
  });
  test("every line ends in CRLF and has at most 75 octets; no letter is cut", () => {
    expect(text.endsWith("\r\n")).toBe(true);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    const lines = text.split("\r\n");
    expect(Math.max(...lines.map((it) => Buffer.byteLength(it)))).toBeLessThanOrEqual(75);
    // Some are folded as late as they may be.
    expect(lines.some((it) => Buffer.byteLength(it) >= 74)).toBe(true);
    expect(text).not.toContain("\ufffd");
  });
  test("has the properties that RFC 5545 asks for (3.6, 3.6.1)", () => {
    const calendar = new ICAL.Component(ICAL.parse(text));
    expect([calendar.name, calendar.getFirstPropertyValue("version"), typeof calendar.getFirstPropertyValue("prodid")]).toEqual(["vcalendar", "2.0", "string"]);
    for (const it of calendar.getAllSubcomponents("vevent"))
      for (const name of ["uid", "dtstamp", "dtstart"]) expect(it.getAllProperties(name)).toHaveLength(1);
  });
  test("keeps the name of a thing from day to day and while lines move", () => {
    const before = events(text).map((it) => it.uid);
    const later = events(dueCalendar(on({ "a.jobsheet": `# a line more\n${sheets["a.jobsheet"]}` }, "2026-06-02"))).map((it) => it.uid);
    expect(later).toEqual(before);
  });
  test("with nothing due has one event that says so", () => {
    const calm = on({ "a.jobsheet": 'sheet "Nothing"\n' });
    expect(events(dueCalendar({ ...calm, items: [] })).map((it) => it.summary)).toEqual(["Nothing is due"]);
  });
});

test("what comes next of all that is to come is said once on the page", () => {
  const sheets = { "hubs.jobsheet": van("41261 km")["hubs.jobsheet"] as string };
  const drawn = asText(dueSections(on(sheets)));
  expect(drawn.match(/look at it again/g)).toHaveLength(1);
  expect(on(sheets).items.map((it) => it.group)).toContain("Coming up");
});
