// Work for today, for the terminal.
import { machineWords, recordOnly } from "../draw/heading.ts";
import { plain } from "../draw/plain.ts";
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

export function planText(report: PlanReport): string {
  const several = report.jobs.length > 1;
  const head = plain(`Work for today, ${report.from}: ${report.title}`);
  const out = [head, "=".repeat(Math.min(head.length, 100)), ...(machineWords(report) === "" ? [] : [plain(machineWords(report))]), ""];
  for (const job of report.jobs) out.push(...(several ? [plain(job.title)] : []), ...jobWords(job, report).map((it) => plain(several ? `  ${it}` : it)));
  out.push("");
  for (const { steps, job } of report.circles) {
    out.push(plain(`These wait for each other, and none can begin${several ? ` (${job})` : ""}:`));
    for (const it of steps) out.push(plain(`  - ${it.step} waits for ${it.waitsFor.join("; ")}  (line ${it.line})`));
    out.push("");
  }
  const ready = report.steps.filter((it) => it.state === "ready");
  section("Ready", nothingReady(report) ? [nothingReadyWords] : ready.flatMap(step));
  section("To send for today", toSendFor(report).flatMap(parcel));
  section(
    "To ask",
    toAsk(report).map((it) => `- ${it.text}  (${place(it)})`),
  );
  section(
    "Meanwhile",
    report.meanwhile.map((it) => `- ${several ? `${it.job}: ` : ""}${meanwhileWords(it)}`),
  );
  section("Waiting", report.steps.filter((it) => it.state === "waiting").flatMap(step));
  section("Parcels", report.parcels.flatMap(parcel));
  section("Needed, and no planned step takes it", report.notPlanned.flatMap(parcel));
  section(
    "Done",
    report.steps.filter((it) => it.state === "done").map((it) => `- ${stepWords(it)}${it.doneOn === null ? "" : `, ${it.doneOn}`}${from(it)}  (${place(it)})`),
  );
  out.push(plain(countedWords(report)), recordOnly, "");
  return out.join("\n");

  function section(title: string, rows: readonly string[]): void {
    if (rows.length > 0) out.push(title, ...rows.map((row) => plain(`  ${row}`)), "");
  }

  function from(it: { readonly job: string }): string {
    return several ? ` [${it.job}]` : "";
  }

  function place(it: { readonly file: string; readonly line: number }): string {
    return several ? `${it.file}:${it.line}` : `line ${it.line}`;
  }

  function step(it: StepShown): string[] {
    const spare = slackWords(it, report);
    const about = [
      daysWords(it),
      it.takes === null ? "no time said" : `takes ${durationWords(it.takes, report.hoursADay)}`,
      spare.replace("none: ", ""),
    ].filter((word) => word !== "");
    return [
      `${stateSigns[it.state]} ${stepWords(it)}${from(it)}: ${about.join("; ")}  (${place(it)})`,
      ...it.waitsFor.map((wait) => `    ${stateWords(it)} for ${wait.text}`),
      ...(it.state === "ready" ? [...it.tools.map((tool) => `    tool: ${tool}`), ...it.cautions.map((caution) => `    caution: ${caution}`)] : []),
    ];
  }

  function parcel(it: ParcelShown): string[] {
    const about = [fromWords(it), comesWords(it), parcelSlackWords(it)].filter((word) => word !== "");
    const rows = itemsWords(it).map((words, i) => {
      const item = it.items[i];
      const steps = item === undefined || item.steps.length === 0 ? "" : `, for ${item.steps.join(", ")}`;
      return `    ${words}${steps}${several && item !== undefined && item.jobs.length > 0 ? ` [${item.jobs.join("; ")}]` : ""}  (${item === undefined ? "" : place(item)})`;
    });
    return [`- ${about.join("; ")}`, ...rows];
  }
}
