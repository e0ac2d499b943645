// Work for today as a whole page: what is ready, what to send for and to ask, the calendar, and every step with what it waits for.
// Invariant: what is written in a sheet is text there; each row leads to its line.
import { recordOnly } from "../draw/heading.ts";
import { type Content, type Markup, html } from "../draw/html.ts";
import { cautionList, dated, lineCell, lineIn, lineLink, pageOf, rowAt } from "../draw/page.ts";
import { leftOut, planPicture } from "./picture.ts";
import type { ParcelShown, PlanReport, StepShown } from "./shapes.ts";
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
} from "./words.ts";

export function planHtml(report: PlanReport): string {
  const [only] = report.jobs;
  const several = report.jobs.length > 1;
  const own = report.file;
  const ready = report.steps.filter((it) => it.state === "ready");
  return pageOf({
    name: `Work for today, ${report.from}`,
    heading: report,
    ...(several || only === undefined ? {} : { headline: jobWords(only, report).join(" ") }),
    body: [
      several &&
        html`<ul>\n${report.jobs.map((job) => html`<li${rowAt(job, `job ${job.title}`)}><b>${job.title}</b>: ${dated(jobWords(job, report).join(" "))} ${lineLink(job)}</li>\n`)}</ul>\n`,
      report.circles.map(
        ({ steps, job }) => html`<section class="cautions"><h2>These wait for each other, and none can begin${several && `: ${job}`}</h2>
<ul>
${steps.map((it) => html`<li${rowAt(it, `circle ${it.step}`)}>${it.step} waits for ${it.waitsFor.join("; ")} ${lineIn(own, it)}</li>\n`)}</ul></section>
`,
      ),
      nothingReady(report) && html`<p>${nothingReadyWords}</p>\n`,
      section(
        "Ready",
        ready.map(
          (
            it,
          ) => html`<li${rowAt(it, `ready ${stepWords(it)}`)}><span class="box" aria-hidden="true">\u2610</span> ${stepWords(it)}${several && ` (${it.job})`}: ${[it.takes === null ? "" : durationWords(it.takes, report.hoursADay), it.tools.join(", "), it.critical ? "the finish hangs on it" : ""].filter((word) => word !== "").join("; ")} ${lineIn(own, it)}${it.cautions.map((caution) => html`<br><b>${caution}</b>`)}</li>
`,
        ),
        "tick",
      ),
      section(
        "To send for today",
        toSendFor(report).map(
          (it) =>
            html`<li${it.items[0] !== undefined && rowAt(it.items[0], `send for ${itemsWords(it).join("; ")}`)}>${itemsWords(it).join("; ")}: ${fromWords(it)}; ${dated(comesWords(it))} ${it.items[0] !== undefined && lineIn(own, it.items[0])}</li>\n`,
        ),
      ),
      section(
        "To ask",
        toAsk(report).map((it) => html`<li${rowAt(it, `ask ${it.text}`)}>${it.text} ${lineIn(own, it)}</li>\n`),
      ),
      section(
        "Meanwhile",
        report.meanwhile.map((it) => html`<li>${several && `${it.job}: `}${dated(meanwhileWords(it))}</li>\n`),
      ),
      calendar(report),
      report.steps.length > 0 && html`<h2>Steps</h2>\n${stepTable(report, several)}`,
      report.parcels.length > 0 && html`<h2>Parcels</h2>\n${parcelTable(report.parcels, several, own)}`,
      report.notPlanned.length > 0 && html`<h2>Needed, and no planned step takes it</h2>\n${parcelTable(report.notPlanned, several, own)}`,
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
    html`<td><span class="item">${stepWords(it)}</span></td>`,
    several && html`<td data-label="Job">${it.job}</td>`,
    html`<td class="whole" data-label="State"><span class="sign">${stateSigns[it.state]}</span> ${stateWords(it)}</td>`,
    html`<td data-label="When">${dated(daysWords(it))}</td>`,
    html`<td data-label="Takes">${it.takes === null ? (it.state === "done" ? "" : "not said") : durationWords(it.takes, report.hoursADay)}</td>`,
    html`<td data-label="To spare">${slackWords(it, report)}</td>`,
    html`<td class="line">${lineCell(report.file, it)}</td>`,
  ];
  return html`<table class="plan stack">
<thead><tr>${head.map((it) => (it === "Line" ? html`<th scope="col" class="line">${it}</th>` : html`<th scope="col">${it}</th>`))}</tr></thead>
${report.steps.map(
  (it) => html`<tbody${rowAt(it, `step ${it.job} ${stepWords(it)}`)}><tr>${cells(it)}</tr>
${it.waitsFor.length > 0 && html`<tr class="why"><td colspan="${head.length}"><ul>\n${it.waitsFor.map((wait) => html`<li>waits for ${dated(wait.text)} ${lineIn(report.file, wait)}</li>\n`)}</ul></td></tr>\n`}</tbody>
`,
)}</table>
`;
}

function parcelTable(parcels: readonly ParcelShown[], several: boolean, own: string | undefined): Markup {
  return html`<table class="plan parcels">
<thead><tr><th scope="col">What</th><th scope="col">For</th><th scope="col" class="line">Line</th></tr></thead>
${parcels.map((it) => {
  const words = itemsWords(it);
  return html`<tbody>
<tr class="group"><th scope="rowgroup" colspan="3">${fromWords(it)}<br><span class="code">${dated([comesWords(it), parcelSlackWords(it)].filter((word) => word !== "").join("; "))}</span></th></tr>
${it.items.map(
  (
    item,
    i,
  ) => html`<tr${rowAt(item, `parcel ${words[i]}`)}><td>${words[i]}</td><td>${item.steps.join(", ")}${several && item.jobs.length > 0 && ` (${item.jobs.join("; ")})`}</td><td class="line">${lineCell(own, item)}</td></tr>
`,
)}</tbody>
`;
})}</table>
`;
}
