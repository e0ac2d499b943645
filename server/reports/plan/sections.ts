// Work for today as it is drawn: what is ready, what to send for and to ask, on a page the calendar, and every step with what it waits for.
import { recordOnly } from "../draw/heading.ts";
import { html } from "../draw/html.ts";
import type { Line } from "../draw/line.ts";
import { type Column, type Document, type Part, type Row, type Section, type Table, type TableRow, listOf } from "../draw/sections.ts";
import { leftOut, planPicture } from "./picture.ts";
import type { ParcelShown, PlanReport, StepShown } from "./shapes.ts";
import {
  comesWords,
  countedWords,
  daysWords,
  durationWords,
  fromWords,
  gaugeWords,
  itemsWords,
  jobWords,
  makeWords,
  meanwhileWords,
  nothingReady,
  nothingReadyWords,
  parcelSlackWords,
  slackWords,
  stateSigns,
  stateWords,
  stepWords,
  toAsk,
  toSendFor,
  withoutStepWords,
} from "./words.ts";

export function planSections(report: PlanReport): Document {
  const [only] = report.jobs;
  const several = report.jobs.length > 1;
  return {
    name: `Work for today, ${report.from}`,
    heading: report,
    ...(several || only === undefined ? {} : headOf(only, report)),
    parts: [
      several && {
        kind: "list",
        rows: report.jobs.map((job) => ({ text: `${job.title}: ${jobWords(job, report).join(" ")}`, key: `job ${job.title}`, at: job })),
      },
      ...report.circles.map((it) => circleOf(it, several)),
      nothingReady(report) && { kind: "words", style: "plain", text: nothingReadyWords },
      section("Ready", [{ kind: "list", look: "tick", rows: report.steps.filter((it) => it.state === "ready").map((it) => readyRow(it, report)) }]),
      section("To send today", [
        {
          kind: "list",
          rows: [
            ...toSendFor(report).map((it) => sendRow(it, report)),
            ...report.gauges.map((it) => ({ text: gaugeWords(it), key: `gauge ${it.gauge}`, at: it })),
          ],
        },
      ]),
      listOf("To make", report.toMake, makeWords),
      listOf("To ask", toAsk(report), (it) => it.text),
      section("Meanwhile", [{ kind: "list", rows: report.meanwhile.map((it) => ({ text: `${several ? `${it.job}: ` : ""}${meanwhileWords(it)}` })) }]),
      { kind: "picture", page: () => calendar(report) },
      report.steps.length > 0 && { kind: "section", title: "Steps", parts: [stepTable(report, several)] },
      parcels("Parcels", report.parcels, report),
      parcels("Needed, and no planned step takes it", report.notPlanned, report),
      // With every step done and nothing left apart there is nothing to be careful of.
      !report.jobs.every((it) => it.planned === 0 && withoutStepWords(it) === undefined) && { kind: "cautions", list: report.cautions },
    ],
    foot: [countedWords(report), recordOnly],
  };
}

/** What has no step and when it ends, first; the rest behind. */
function headOf(job: PlanReport["jobs"][number], report: PlanReport): Pick<Document, "headline" | "about"> {
  const words = jobWords(job, report);
  const first = withoutStepWords(job) === undefined ? 1 : 2;
  return { headline: words.slice(0, first).join(" "), about: words.slice(first) };
}

/** A card with one list; nothing where the list is empty. */
function section(title: string, parts: readonly [Extract<Part, { kind: "list" }>]): Section | false {
  return parts[0].rows.length > 0 && { kind: "section", title, look: "card", parts };
}

function circleOf({ job, steps }: PlanReport["circles"][number], several: boolean): Section {
  return {
    kind: "section",
    title: `These wait for each other, and none can begin${several ? `: ${job}` : ""}`,
    look: "cautions",
    parts: [{ kind: "list", rows: steps.map((it) => ({ text: `\`${it.step}\` waits for ${it.waitsFor.join("; ")}`, key: it.step, at: it })) }],
  };
}

function readyRow(it: StepShown, report: PlanReport): Row {
  const takes = it.takes === null ? "no time said" : durationWords(it.takes, report.hoursADay);
  const about = [takes, ...it.tools, it.critical ? "the finish depends on it" : ""].filter((word) => word !== "");
  return {
    text: `${stepWords(it)}${report.jobs.length > 1 ? ` (${it.job})` : ""}: ${about.join("; ")}`,
    key: stepWords(it),
    at: it,
    below: it.cautions.map((text) => ({ text, strong: true })),
  };
}

function sendRow(it: ParcelShown, report: PlanReport): Row {
  const items = itemsWords(it, report).join("; ");
  return { text: `${items}: ${fromWords(it)}; ${comesWords(it)}`, key: items, ...(it.items[0] === undefined ? {} : { at: it.items[0] }) };
}

function calendar(report: PlanReport) {
  const drawn = planPicture(report);
  if (drawn === undefined) return undefined;
  const more = leftOut(report);
  return html`<h2>Calendar</h2>
<p class="small">A thick bar is work, a thin one with a point a parcel. A full one is on the path that decides the finish. The dotted line is what there is to spare.${more > 0 && ` ${more} more are in the tables.`}</p>
<div class="picture">${drawn}</div>
`;
}

function stepTable(report: PlanReport, several: boolean): Table {
  // Where the finish is not known nothing has a time to spare, and there is no column of nothing.
  const spare = report.steps.some((it) => slackWords(it, report) !== "");
  const columns: Column[] = [
    { title: "Step", look: "item" },
    ...(several ? [{ title: "Job" }] : []),
    { title: "State", look: "whole" },
    { title: "When" },
    { title: "Takes" },
    ...(spare ? [{ title: "To spare" }] : []),
  ];
  const row = (it: StepShown): TableRow => {
    const takes = it.takes === null ? (it.state === "done" ? "" : "not said") : durationWords(it.takes, report.hoursADay);
    const about = [stateWords(it), daysWords(it), it.takes === null ? "" : `takes ${takes}`, slackWords(it, report).replace("none: ", "")].filter(
      (word) => word !== "",
    );
    return {
      at: it,
      key: `${it.job} ${stepWords(it)}`,
      sentence: `${stateSigns[it.state]} ${stepWords(it)}${several ? ` (${it.job})` : ""}: ${about.join("; ")}`,
      cells: [
        stepWords(it),
        ...(several ? [it.job] : []),
        `${stateSigns[it.state]} ${stateWords(it)}`,
        daysWords(it),
        takes,
        ...(spare ? [slackWords(it, report).replace(/ to spare$/u, "")] : []),
      ],
      below: it.waitsFor.map((wait) => ({ text: `waits for ${wait.text}`, at: wait })),
    };
  };
  return {
    kind: "table",
    label: "Steps",
    look: "plan stack",
    columns,
    groups: [{ rows: [...report.steps.filter((it) => it.state !== "done"), ...report.steps.filter((it) => it.state === "done")].map(row) }],
    inMarkdown: "table",
  };
}

function parcels(title: string, list: readonly ParcelShown[], report: PlanReport): Section | false {
  const several = report.jobs.length > 1;
  const forSteps = list.some((it) => it.items.some((item) => item.steps.length > 0 || (several && item.jobs.length > 0)));
  const row = (words: string, item: ParcelShown["items"][number] & Line): TableRow => {
    const wanted = [item.steps.join("; "), several && item.jobs.length > 0 ? `(${item.jobs.join("; ")})` : ""].filter((word) => word !== "").join(" ");
    return { at: item, key: words, sentence: `${words}${wanted === "" ? "" : `, for ${wanted}`}`, cells: forSteps ? [words, wanted] : [words] };
  };
  return (
    list.length > 0 && {
      kind: "section",
      title,
      parts: [
        {
          kind: "table",
          label: title,
          look: "plan parcels",
          columns: [{ title: "What" }, ...(forSteps ? [{ title: "For" }] : [])],
          groups: list.map((it) => {
            const words = itemsWords(it, report);
            return {
              title: fromWords(it),
              note: [comesWords(it), parcelSlackWords(it)].filter((word) => word !== "").join("; "),
              rows: it.items.map((item, i) => row(words[i] as string, item)),
            };
          }),
          inMarkdown: "sentences",
        },
      ],
    }
  );
}
