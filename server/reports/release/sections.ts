// What stands in the way of release, as it is drawn; released, the record to be kept with the machine: what was found, done, made fast, read, and the photos.
import type { Slices } from "../../../grammar/slices.ts";
import { someFiles } from "./record.ts";
import { type Content, html } from "../draw/html.ts";
import type { Line } from "../draw/line.ts";
import { lineIn, rowAt } from "../draw/page.ts";
import type { PhotoSource } from "../draw/photo-source.ts";
import { type Column, type Document, type List, type Parts, type Section, type TableRow, listOf } from "../draw/sections.ts";
import type { FastRecord, Photo, ReadRecord, Record, ReleaseReport } from "./shapes.ts";
import {
  type Matters,
  acceptedWords,
  admittedWords,
  byGroup,
  byStep,
  concessionWords,
  fastWords,
  photoWords,
  photosMissing,
  recheckWords,
  recordWords,
  releaseAbout,
  releaseFoot,
  releaseHeadline,
  releaseSign,
  signHere,
  warnedWords,
} from "./words.ts";

export function releaseSections(report: ReleaseReport, photo: PhotoSource = () => ({ whyNot: "is not in this page" })): Document {
  return {
    name: report.released ? "Record of the work" : "What stands in the way",
    heading: report,
    headline: `${releaseSign(report)} ${releaseHeadline(report)}`,
    about: releaseAbout(report),
    parts: [
      ...openSections(report),
      ...(report.released ? workParts(report) : []),
      ...answeredParts(report),
      photos(
        report.released ? "Photos" : photosMissing,
        report,
        report.released ? report.photos : report.photos.filter((it) => it.whyNot !== undefined),
        photo,
      ),
      report.released && { kind: "words", style: "sign", text: signHere },
      { kind: "cautions", list: report.cautions },
    ],
    foot: [releaseFoot(report)],
  };
}

/** What was found, done, fitted and read, and its photos, whether it is released or not: for the hand-over, which says so itself. */
export function recordParts(report: ReleaseReport, photo: PhotoSource): Parts {
  return [...workParts(report), ...answeredParts(report), photos("Photos", report, report.photos, photo)];
}

function workParts(report: ReleaseReport): Parts {
  return [
    records("Makeshifts found", report.makeshifts),
    records("What was found", report.found),
    records("What was done", report.done),
    records("Work done outside", report.outside),
    records("Fitted new", report.fitted),
    table("Tightened and locked", "record rows stack", fastColumns, report.fast, fastRow),
    table("Readings", "record reads rows stack", readColumns, report.readings, readRow),
    records("What was seen", report.seen),
    listOf("What was tried", report.tests, recordWords),
    records("What was noted", report.notes),
  ];
}

function answeredParts(report: ReleaseReport): Parts {
  return [
    listOf("Warnings that stand", report.warned, warnedWords),
    listOf("Owned up to", report.admitted, admittedWords),
    listOf("Accepted, and why", report.accepted, acceptedWords),
    listOf("Accepted outside its limit", report.concessions, concessionWords),
    listOf("To be looked at again", report.rechecks, recheckWords),
  ];
}

/** What is open, by its heads, the worst first. */
export function openSections(report: ReleaseReport): readonly Section[] {
  return byGroup(report.open).map(openSection);
}

/** What is open under one head: by the step that it came of, and what cures several of them said once. */
function openSection({ group, rows }: ReturnType<typeof byGroup>[number]): Section {
  const inStep = byStep(rows).map(
    ({ step, matters }): Section => ({
      kind: "section",
      title: step?.title ?? "",
      ...(step === undefined ? {} : { at: step }),
      look: "group",
      parts: matters.map(({ advice, rows: list }) =>
        advice === undefined ? openList(list) : { kind: "section", title: advice, look: "advice", parts: [openList(list)] },
      ),
    }),
  );
  return { kind: "section", title: group, count: rows.length, parts: inStep };
}

function openList(rows: Matters["rows"]): List {
  return {
    kind: "list",
    look: "open",
    placeFirst: true,
    rows: rows.map(({ item, said }) => ({ text: said, at: item, code: item.rule, key: `${item.rule} ${item.message}` })),
  };
}

function table<T extends Line>(title: string, look: string, columns: readonly Column[], rows: readonly T[], row: (it: T) => TableRow): Section | false {
  return (
    rows.length > 0 && {
      kind: "section",
      title,
      parts: [{ kind: "table", label: title, look, columns, groups: [{ rows: rows.map(row) }], inMarkdown: "sentences" }],
    }
  );
}

function records(title: string, rows: readonly Record[]): Section | false {
  // A step's title is its row's name, and what was done stands below it.
  const steps = rows.some((it) => it.step !== undefined);
  // Of one who did all of it the name stands once, at the head.
  const by = byOne(rows);
  return table(
    by === undefined ? title : `${title}, by ${by}`,
    "record days rows",
    [
      { title: "Day", look: "whole" },
      { title: "What", ...(steps && { look: "item" }) },
    ],
    rows,
    (it) => ({
      at: it,
      key: it.text,
      sentence: recordWords(it, by),
      cells: [
        it.day ?? "\u2013",
        {
          text: it.step?.title ?? it.text,
          ...(it.step === undefined || it.step.done === "" ? {} : { lines: [it.step.done] }),
          ...(it.by === undefined || it.by === by ? {} : { code: `by ${it.by}` }),
        },
      ],
    }),
  );
}

/** Whoever did all of them; undefined where one says nobody, or somebody else. */
function byOne(rows: readonly Record[]): string | undefined {
  const [first, ...more] = rows;
  return more.length > 0 && more.every((it) => it.by === first?.by) ? first?.by : undefined;
}

const fastColumns: readonly Column[] = [
  { title: "Fastener", look: "item" },
  { title: "Tightened to" },
  { title: "Allowed", look: "whole" },
  { title: "By" },
  { title: "Locked by" },
];

function fastRow(it: FastRecord): TableRow {
  return {
    at: it,
    key: it.of,
    sentence: fastWords(it),
    cells: [{ text: it.of, code: it.critical ? "critical" : undefined }, it.to, it.range ?? "\u2013", it.gauge ?? "\u2013", it.lockedBy],
  };
}

const readColumns: readonly Column[] = [
  { title: "What", look: "item" },
  { title: "When" },
  { title: "Read", look: "figure" },
  { title: "Against", look: "whole" },
  { title: "Verdict", look: "sign" },
  { title: "With", look: "late" },
];

const verdictWords = {
  in: "\u2713\u00a0in",
  usable: "~\u00a0worn but usable",
  out: "\u2717\u00a0OUT",
  doubt: "?\u00a0in doubt",
  unjudged: "\u2013\u00a0not judged",
} as const;

function readRow(it: ReadRecord): TableRow {
  return {
    at: it,
    key: `${it.of} ${it.stage} ${it.against}`,
    sentence: recordWords(it),
    cells: [
      it.of,
      { text: it.stage, code: it.day },
      it.value,
      it.against,
      verdictWords[it.outcome],
      it.gauge ?? (it.outcome === "unjudged" ? "\u2013" : "plain comparison"),
    ],
  };
}

function photos(title: string, report: ReleaseReport, shown: readonly Photo[], source: PhotoSource): Section | false {
  function* page(): Slices<Content> {
    const items: Content[] = [];
    for (const [i, it] of shown.entries()) {
      // Each is looked for on the disk.
      if (i % someFiles === 0) yield;
      items.push(
        html`<li${rowAt(it, `photo ${it.path}`)}>${picture(it, source)}<span class="item">${it.of}</span>${it.day !== undefined && html`, <span class="whole">${it.day}</span>`}<br><span class="code">${it.path}</span> ${lineIn(report.file, it)}</li>\n`,
      );
    }
    return html`<ul class="photos">
${items}</ul>
`;
  }
  return (
    shown.length > 0 && {
      kind: "section",
      title,
      parts: [{ kind: "picture", page, instead: { kind: "list", rows: shown.map((it) => ({ text: photoWords(it), at: it })) } }],
    }
  );
}

function picture(it: Photo, source: PhotoSource): Content {
  const answer = it.whyNot !== undefined || it.inside === undefined ? { whyNot: it.whyNot ?? "" } : source(it.inside);
  if ("whyNot" in answer) return html`<p class="none">Not shown: it ${answer.whyNot}.</p>`;
  const words = `Photo of ${it.of}`;
  return "src" in answer ? html`<img src="${answer.src}" alt="${words}">` : html`<img data-photo="${it.inside}" data-mark="${answer.mark}" alt="${words}">`;
}
