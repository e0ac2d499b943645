// The words that every drawing of the readings shares.
import { putInto } from "../../model/grouped.ts";
import type { LimitRead, Outcome, ReadingsReport, StageRead } from "./readings.ts";

/** A sign that is told by its shape, for each outcome. */
const signs: Readonly<Record<Outcome, string>> = { in: "\u2713", "past new": "~", out: "\u2717", doubt: "?", "not judged": "\u2013" };

export function readingsHeadline(report: ReadingsReport): string {
  const last = report.limits.flatMap((limit) => limit.places.map(({ stages }) => stages.at(-1) as StageRead));
  if (last.length === 0) return "Nothing is measured yet.";
  const worst = last.map(worstOf);
  const count = (outcome: Outcome) => worst.filter((it) => it === outcome).length;
  const words = { out: "out", doubt: "in doubt", "past new": "worn but usable", in: "within limits", "not judged": "not judged" } as const;
  const parts = (["out", "doubt", "past new", "in", "not judged"] as const).filter((it) => count(it) > 0).map((it) => `${count(it)} ${words[it]}`);
  const stale = last.filter((it) => it.stale).length;
  return `By the latest reading at each place: ${parts.join(", ")}${stale === 0 ? "" : `; ${stale} of them stale, to be measured again`}.`;
}

export function limitFacts(limit: LimitRead): string {
  const bands = limit.bands.map((it) => `${it.name} ${it.text}`);
  const set = limit.setBy.length === 0 ? [] : [`set by ${limit.setBy.join(", ")}`];
  return [
    ...bands,
    ...limit.forms,
    ...set,
    ...(limit.workedOut ? ["worked out from other readings"] : []),
    ...(limit.critical ? ["critical"] : []),
    limit.source === undefined ? "no source given" : `source: ${limit.source}`,
  ].join("; ");
}

/** The sign of the worst that is said of a reading: a taper or a spread that is out is out, whatever the size says. */
export function signOf(stage: StageRead): string {
  return signs[worstOf(stage)];
}

function worstOf(stage: StageRead): Outcome {
  if (stage.formOnly && stage.more.length > 0 && stage.more.every((form) => form.outcome === "in")) return "in";
  return stage.more.some((form) => form.outcome === "out")
    ? "out"
    : stage.more.some((form) => form.outcome === "doubt") && stage.outcome !== "out"
      ? "doubt"
      : stage.outcome;
}

/** The spots of a position on one line: “top 0.8731 in, 0.8725 in”. */
export function spotLines(stage: StageRead): string[] {
  if (stage.spots.length === 0) return stage.value === undefined ? [] : [stage.value];
  const byPosition = new Map<string, string[]>();
  for (const it of stage.spots) putInto(byPosition, it.position ?? "", `${it.text}${it.times > 1 ? ` (mean of ${it.times})` : ""}`);
  return [...byPosition].map(([position, list]) => `${position} ${list.join(", ")}`.trim());
}

/** What is out or in doubt first. A size that nothing judges is not spoken of where its form is. */
export function stageVerdict(stage: StageRead): string {
  const size = stage.formOnly ? [] : [stage];
  const said = worstOf(stage) === stage.outcome ? [...size, ...stage.more] : [...[...stage.more].sort((a, b) => rank(b.outcome) - rank(a.outcome)), ...size];
  return [...said.map((it) => it.verdict), ...stage.notes].join("; ");
}

/** What is written beside a reading in its picture: the form that is out, where the size is not. */
export function besideWords(stage: StageRead): string {
  const worst = worstOf(stage);
  const form = worst === stage.outcome && !stage.formOnly ? undefined : [...stage.more].sort((a, b) => rank(b.outcome) - rank(a.outcome))[0];
  return form?.value ?? stage.value ?? stage.mean ?? "";
}

function rank(outcome: Outcome): number {
  return outcome === "out" ? 2 : outcome === "doubt" ? 1 : 0;
}

/** For who can't see the picture: the same in sentences. */
export function pictureWords(limit: LimitRead): string {
  const bands = [...limit.bands.map((it) => `${it.name} ${it.text}`), ...limit.forms].join(", ");
  const read = limit.places.flatMap(({ place, stages }) =>
    stages.map(
      (it) =>
        `${place === "" ? "" : `${place}, `}${it.stage}: ${it.value ?? it.mean ?? "no figure"}${it.uncertainty === undefined ? "" : `, give or take ${it.uncertainty}`}, ${stageVerdict(it)}`,
    ),
  );
  return `${limit.title}. ${bands === "" ? "No band." : `Allowed: ${bands}.`} ${read.join(". ")}.`;
}
