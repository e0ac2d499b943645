// What is due as a calendar that other programs take in: RFC 5545, one event of a whole day for each thing that has a day.
// Invariant: lines end in CRLF and have at most 75 octets, folded between letters; texts are escaped (3.3.11). The day comes from outside, and so does the stamp.
import { plain } from "../draw/plain.ts";
import { addDays } from "../../quantities/days.ts";
import type { DueItem, DueReport } from "./shapes.ts";
import { isNow } from "./words.ts";

/** What is due already, and has no day to come, stands on the day of the report. */
export function dueCalendar(report: DueReport): string {
  const dueNow = report.items.filter(isNow).map((it) => event(it, report.day, report));
  const coming = report.items.flatMap((it) => (isNow(it) || it.day === null ? [] : [event(it, it.day, report)]));
  const events = [...dueNow, ...coming];
  // A calendar has at least one component (3.4).
  const nothing = [
    ["BEGIN:VEVENT", "UID:nothing-due@splitpin.invalid", stamp(report), ...wholeDay(report.day), "SUMMARY:Nothing is due", "TRANSP:TRANSPARENT", "END:VEVENT"],
  ];
  const lines = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Splitpin//What is due//EN",
    "CALSCALE:GREGORIAN",
    ...(events.length === 0 ? nothing : events).flat(),
    "END:VCALENDAR",
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join("");
}

function event(it: DueItem, day: string, report: DueReport): string[] {
  const machine = it.machine ?? "workshop";
  const was = it.day !== null && it.day < report.day ? [`Due since ${it.day}.`] : [];
  return [
    "BEGIN:VEVENT",
    `UID:${uidOf(it)}`,
    stamp(report),
    ...wholeDay(day),
    `SUMMARY:${escaped(`${it.group}: ${it.text}`)}`,
    `DESCRIPTION:${escaped([machine, ...was, ...it.details, `${it.file}:${it.line}`, "A reminder from a job sheet, not an inspection."].map(plain).join("\n"))}`,
    `CATEGORIES:${escaped(it.group)}`,
    // Nobody is busy for it.
    "TRANSP:TRANSPARENT",
    "END:VEVENT",
  ];
}

function stamp(report: DueReport): string {
  return `DTSTAMP:${report.day.replaceAll("-", "")}T000000Z`;
}

/** The end of a whole day is the next one (3.6.1). */
function wholeDay(day: string): string[] {
  const next = addDays(day, 1);
  return [`DTSTART;VALUE=DATE:${day.replaceAll("-", "")}`, ...(next === undefined ? [] : [`DTEND;VALUE=DATE:${next.replaceAll("-", "")}`])];
}

/** The same thing has the same name tomorrow, so that a program that takes the file in again moves the event and makes no second one. */
function uidOf(it: DueItem): string {
  const words = [it.group === "Coming up" ? "due" : it.group, it.machine ?? "", it.file, it.key].join(" ");
  return `${encodeURIComponent(wellFormed(words)).replace(/[!'()*;,]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}@splitpin.invalid`;
}

/** encodeURIComponent throws on half a surrogate pair. */
function wellFormed(text: string): string {
  return text.replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, "\ufffd");
}

/** A value of the type TEXT: a backslash, a semicolon, a comma and an end of line are escaped, and no other control character gets in. */
function escaped(text: string): string {
  return wellFormed(text)
    .split("\n")
    .map((line) => plain(line).replace(/[\\;,]/g, (sign) => `\\${sign}`))
    .join("\\n");
}

/** Of UTF-8, without the CRLF (3.1). What follows a fold begins with a blank, which counts. */
const most = 75;

function folded(line: string): string {
  const out: string[] = [];
  let part = "";
  let octets = 0;
  for (const letter of line) {
    const size = octetsOf(letter);
    if (octets + size > most) {
      out.push(part);
      part = " ";
      octets = 1;
    }
    part += letter;
    octets += size;
  }
  return [...out, part].join("\r\n");
}

function octetsOf(letter: string): number {
  const code = letter.codePointAt(0) as number;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}
