// Work for today as a whole page: what is ready, what to send for and to ask, the calendar, and every step with what it waits for.
// Invariant: what is written in a sheet is text there; each row leads to its line.
import { recordOnly } from "./heading.ts";
import { type Content, type Markup, html } from "./html.ts";
import { lineLink, pageOf } from "./page.ts";
import { leftOut, planPicture } from "./plan-picture.ts";
import type { ParcelShown, PlanReport, StepShown } from "./plan-shapes.ts";
import {
  comesWords,
  countedWords,
  daysWords,
  durationWords,
  fromWords,
  itemsWords,
  jobWords,
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
} from "./plan-words.ts";
import { cautionList } from "./way-back-html.ts";

export function planHtml(report: PlanReport): string {
  const [only] = report.jobs;
  const several = report.jobs.length > 1;
  const ready = report.steps.filter((it) => it.state === "ready");
  return pageOf({
    name: `Work for today, ${report.from}`,
    heading: report,
    ...(several || only === undefined ? {} : { headline: jobWords(only, report).join(" ") }),
    body: [
      several &&
        html`<ul>\n${report.jobs.map((job) => html`<li data-file="${job.file}" data-line="${job.line}"><b>${job.title}</b>: ${jobWords(job, report).join(" ")} ${lineLink(job)}</li>\n`)}</ul>\n`,
      report.circles.map(
        ({ steps, job }) => html`<section class="cautions"><h2>These wait for each other, and none can begin${several && `: ${job}`}</h2>
<ul>
${steps.map((it) => html`<li data-file="${it.file}" data-line="${it.line}">${it.step} waits for ${it.waitsFor.join("; ")} ${lineLink(it)}</li>\n`)}</ul></section>
`,
      ),
      nothingReady(report) && html`<p>${nothingReadyWords}</p>\n`,
      section(
        "Ready",
        ready.map(
          (
            it,
          ) => html`<li data-file="${it.file}" data-line="${it.line}"><span class="box" aria-hidden="true">\u2610</span> ${stepWords(it)}${several && ` (${it.job})`}: ${[it.takes === null ? "" : durationWords(it.takes, report.hoursADay), it.tools.join(", "), it.critical ? "the finish hangs on it" : ""].filter((word) => word !== "").join("; ")} ${lineLink(it)}${it.cautions.map((caution) => html`<br><b>${caution}</b>`)}</li>
`,
        ),
        "tick",
      ),
      section(
        "To send for today",
        toSendFor(report).map(
          (it) => html`<li>${itemsWords(it).join("; ")}: ${fromWords(it)}; ${comesWords(it)} ${it.items[0] !== undefined && lineLink(it.items[0])}</li>\n`,
        ),
      ),
      section(
        "To ask",
        toAsk(report).map((it) => html`<li data-file="${it.file}" data-line="${it.line}">${it.text} ${lineLink(it)}</li>\n`),
      ),
      section(
        "Meanwhile",
        report.meanwhile.map((it) => html`<li>${several && `${it.job}: `}${meanwhileWords(it)}</li>\n`),
      ),
      calendar(report),
      report.steps.length > 0 && html`<h2>Steps</h2>\n${stepTable(report, several)}`,
      report.parcels.length > 0 && html`<h2>Parcels</h2>\n${parcelTable(report.parcels, several)}`,
      report.notPlanned.length > 0 && html`<h2>Needed, and no planned step takes it</h2>\n${parcelTable(report.notPlanned, several)}`,
      cautionList(report.cautions),
    ],
    foot: html`<p>${countedWords(report)}</p><p>${recordOnly}</p>`,
  });
}

function calendar(report: PlanReport): Content {
  const drawn = planPicture(report);
  if (drawn === undefined) return undefined;
  const more = leftOut(report);
  return html`<h2>Calendar</h2>
<p class="small">A thick bar is work, a thin one with a point a parcel. A full one is on the path: the finish hangs on it. The dotted line is what there is to spare.${more > 0 && ` ${more} more are in the tables.`}</p>
<div class="picture">${drawn}</div>
`;
}

function section(title: string, rows: readonly Markup[], kind = ""): Markup | false {
  return (
    rows.length > 0 &&
    html`<section class="card"><h2>${title}</h2>
<ul${kind !== "" && html` class="${kind}"`}>
${rows}</ul></section>
`
  );
}

function stepTable(report: PlanReport, several: boolean): Markup {
  const head = ["Step", ...(several ? ["Job"] : []), "State", "When", "Takes", "To spare", "Line"];
  const cells = (it: StepShown): Content[] => [
    html`<td>${stepWords(it)}</td>`,
    several && html`<td>${it.job}</td>`,
    html`<td class="whole">${stateSigns[it.state]} ${stateWords(it)}</td>`,
    html`<td>${daysWords(it)}</td>`,
    html`<td>${it.takes === null ? (it.state === "done" ? "" : "not said") : durationWords(it.takes, report.hoursADay)}</td>`,
    html`<td>${slackWords(it, report)}</td>`,
    html`<td>${lineLink(it, several ? undefined : String(it.line))}</td>`,
  ];
  return html`<div class="wide"><table>
<thead><tr>${head.map((it) => html`<th scope="col">${it}</th>`)}</tr></thead>
${report.steps.map(
  (it) => html`<tbody><tr data-file="${it.file}" data-line="${it.line}">${cells(it)}</tr>
${it.waitsFor.length > 0 && html`<tr class="why"><td colspan="${head.length}"><ul>\n${it.waitsFor.map((wait) => html`<li>waits for ${wait.text} ${lineLink(wait)}</li>\n`)}</ul></td></tr>\n`}</tbody>
`,
)}</table></div>
`;
}

function parcelTable(parcels: readonly ParcelShown[], several: boolean): Markup {
  return html`<div class="wide"><table>
<thead><tr><th scope="col">What</th><th scope="col">For</th><th scope="col">From</th><th scope="col">When</th><th scope="col">To spare</th></tr></thead>
${parcels.map((it) => {
  const words = itemsWords(it);
  return html`<tbody>${it.items.map(
    (
      item,
      i,
    ) => html`<tr data-file="${item.file}" data-line="${item.line}"><td>${words[i]} ${lineLink(item, `line ${item.line}`)}</td><td>${item.steps.join(", ")}${several && item.jobs.length > 0 && ` (${item.jobs.join("; ")})`}</td>${i === 0 && html`<td rowspan="${it.items.length}">${fromWords(it)}</td><td rowspan="${it.items.length}">${comesWords(it)}</td><td rowspan="${it.items.length}">${parcelSlackWords(it)}</td>`}</tr>
`,
  )}</tbody>
`;
})}</table></div>
`;
}
