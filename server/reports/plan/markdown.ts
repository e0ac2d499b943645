// Work for today as Markdown: tables and lists that any reader of it shows alike, each row a link to its line.
// Invariant: what is written in a sheet is text there.
import { machineWords, recordOnly } from "../draw/heading.ts";
import { placeOf } from "../draw/markdown-place.ts";
import { text } from "../draw/markdown-text.ts";
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

export function planMarkdown(report: PlanReport): string {
  const several = report.jobs.length > 1;
  const out = [`# ${text(`Work for today, ${report.from}: ${report.title}`)}`, "", ...(machineWords(report) === "" ? [] : [text(machineWords(report)), ""])];
  for (const job of report.jobs) out.push(`${several ? `**${text(job.title)}** ` : ""}${text(jobWords(job, report).join(" "))}`, "");
  for (const { steps, job } of report.circles) {
    out.push(`${text(`These wait for each other, and none can begin${several ? ` (${job})` : ""}:`)}`, "");
    out.push(...steps.map((it) => `- ${text(`${it.step} waits for ${it.waitsFor.join("; ")}`)} ${placeOf(it)}`), "");
  }
  if (nothingReady(report)) out.push(nothingReadyWords, "");
  const ready = report.steps.filter((it) => it.state === "ready");
  section(
    "Ready",
    ready.flatMap((it) => [
      `- ${text(stepWords(it))} ${placeOf(it)}`,
      ...it.tools.map((tool) => `  - ${text(`tool: ${tool}`)}`),
      ...it.cautions.map((caution) => `  - **${text(caution)}**`),
    ]),
  );
  section("To send for today", toSendFor(report).flatMap(parcel));
  section(
    "To ask",
    toAsk(report).map((it) => `- ${text(it.text)} ${placeOf(it)}`),
  );
  section(
    "Meanwhile",
    report.meanwhile.map((it) => `- ${text(`${several ? `${it.job}: ` : ""}${meanwhileWords(it)}`)}`),
  );
  if (report.steps.length > 0)
    section("Steps", [
      `| Step |${several ? " Job |" : ""} State | When | Takes | To spare | Waits for | Line |`,
      `|---|${several ? "---|" : ""}---|---|---|---|---|---|`,
      ...report.steps.map(row),
    ]);
  section("Parcels", report.parcels.flatMap(parcel));
  section("Needed, and no planned step takes it", report.notPlanned.flatMap(parcel));
  if (report.cautions.length > 0)
    section(
      "Cautions",
      report.cautions.map((it) => `- ${text(it.words)} (${text(it.source)})`),
    );
  out.push(text(countedWords(report)), "", text(recordOnly), "");
  return out.join("\n");

  function section(title: string, rows: readonly string[]): void {
    if (rows.length > 0) out.push(`## ${title}`, "", ...rows, "");
  }

  function row(it: StepShown): string {
    const cells = [
      stepWords(it),
      ...(several ? [it.job] : []),
      `${stateSigns[it.state]} ${stateWords(it)}`,
      daysWords(it),
      it.takes === null ? "not said" : durationWords(it.takes, report.hoursADay),
      slackWords(it, report),
      it.waitsFor.map((wait) => wait.text).join("; "),
    ];
    return `| ${cells.map(text).join(" | ")} | ${placeOf(it)} |`;
  }

  function parcel(it: ParcelShown): string[] {
    const about = [fromWords(it), comesWords(it), parcelSlackWords(it)].filter((word) => word !== "");
    return [
      `- ${text(about.join("; "))}`,
      ...itemsWords(it).map((words, i) => {
        const item = it.items[i] as (typeof it.items)[number];
        const steps = item.steps.length === 0 ? "" : `, for ${item.steps.join(", ")}`;
        return `  - ${text(`${words}${steps}${several && item.jobs.length > 0 ? ` (${item.jobs.join("; ")})` : ""}`)} ${placeOf(item)}`;
      }),
    ];
  }
}
