// The way back as it is drawn: steps to tick by hand, readings with room for the figure, cautions with their source, and on a page the text to paste.
import { recordOnly } from "../draw/heading.ts";
import { type Content, html } from "../draw/html.ts";
import { type Document, type Row, type Section, listOf } from "../draw/sections.ts";
import { unbroken } from "../draw/unbroken.ts";
import type { BackEntry, BackLook, BackReading, WayBack } from "./way-back.ts";
import { plannedFigures, wayBackHeadline } from "./words.ts";

export function wayBackSections(report: WayBack): Document {
  return {
    name: "The way back",
    heading: report,
    headline: wayBackHeadline(report),
    parts: [
      // With nothing to do there is nothing to be careful of.
      report.entries.length + report.unsettled.length > 0 && { kind: "cautions", list: report.cautions },
      report.entries.length > 0 && { kind: "words", style: "note", text: plannedFigures },
      ...report.entries.map(sectionOf),
      listOf("What no step settles", report.unsettled, (it) => it.text),
      report.sheet !== "" && {
        kind: "picture",
        // Folded, for it says the same again. Line breaks are kept; all else of each line is escaped.
        page: () =>
          html`<details class="paste" data-fold="paste"><summary><h2>The same, to paste into the sheet</h2></summary>\n<pre>${report.sheet.split("\n").map((line) => html`${line}\n`)}</pre></details>\n`,
      },
    ],
    foot: [recordOnly],
  };
}

function sectionOf(entry: BackEntry): Section {
  if (entry.kind === "look")
    return { kind: "section", title: `Look at: ${entry.title}`, look: "card", parts: [{ kind: "list", look: "tick", rows: toFind(entry) }] };
  if (entry.kind !== "step") {
    return {
      kind: "section",
      title: `${entry.kind === "check" ? "See" : "Measure"}${entry.before === undefined ? "" : ` before ${entry.before}`}: ${entry.title}`,
      look: "card",
      parts: [
        // What all of them may read is said once.
        entry.allowed !== "" && entry.spots.length > 1 && { kind: "picture", page: () => html`<p class="facts">${unbroken(entry.allowed)}</p>\n` },
        { kind: "list", look: "tick", rows: entry.kind === "check" ? toSee(entry) : toMeasure(entry) },
      ],
    };
  }
  return {
    kind: "section",
    title: entry.title,
    look: "card",
    parts: [
      {
        kind: "table",
        label: entry.title,
        look: "work rows",
        columns: [{ title: "Done", look: "box" }, { title: "What" }, { title: "To know" }],
        groups: [
          {
            rows: entry.lines.map((it) => ({
              at: it,
              key: it.text,
              sentence: `${it.text}${it.note === undefined ? "" : ` \u2013 ${it.note}`}`,
              cells: ["", it.text, it.note ?? ""],
            })),
          },
        ],
        inMarkdown: "sentences",
      },
    ],
  };
}

const box = html`<span class="box" aria-hidden="true">\u2610</span>`;
/** For what a hand writes on the paper. */
const room = "__________";

function toSee(entry: BackReading): Row[] {
  return entry.places.map((place, i) => ({
    text: `${place === "" ? "" : `${place}: `}good or bad, and by whom`,
    at: entry,
    key: place,
    page: html`${spotOf(entry, i)}<span class="whole">${box} good</span> <span class="whole">${box} bad</span> ${room} <span class="whole">by ${room}</span>`,
  }));
}

function toFind(entry: BackLook): Row[] {
  return entry.places.map((place) => {
    const at = place === "" ? "" : `${place}: `;
    return { text: `${at}what it looks like, as a finding`, at: entry, key: place, page: html`${box} ${at}it is ${room}` };
  });
}

function toMeasure(entry: BackReading): Row[] {
  const allowed = entry.spots.length === 1 && entry.allowed !== "" && [" (", unbroken(entry.allowed), ")"];
  return entry.waits.map((text, i) => ({ text, at: entry, page: html`${box} ${spotOf(entry, i)}${room}${allowed}` }));
}

/** Where it is read, as wide as the longest of them, so that the blanks stand one below the other. */
function spotOf({ spots }: BackReading, i: number): Content {
  const names = spots.map(({ place, position }) => [place, position].filter((it) => it !== "").join(", "));
  const wide = Math.min(20, Math.max(...names.map((it) => it.length)));
  return wide > 0 && html`<span class="f c${wide}">${names[i]}</span> `;
}
