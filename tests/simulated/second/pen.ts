// Writes a story as a sheet, in one of many hands: declared here or in a file of its own, days by entry or on each line, places named or left out.
// Invariant: whatever the hand, the same machine and the same work are told.
import type { Chance } from "./chance.ts";
import { declared } from "./declared.ts";
import { type Act, type Deed, isAct, type Measured, type Row, type Step, type Story } from "./deeds.ts";
import { everywhere, type Plant } from "./plant.ts";
import { tinOf } from "./shelf.ts";

export interface Sheet {
  name: string;
  files: Record<string, string>;
  /** The line that each deed stands on, counted from 0. */
  lineOf: Map<Deed, number>;
}

const FIRST_DAY = Date.UTC(2026, 2, 2);
const dayOf = (n: number): string => new Date(FIRST_DAY + n * 86_400_000).toISOString().slice(0, 10);

export function write(story: Story, c: Chance): Sheet {
  const { plant, manner } = story;
  const lines: string[] = [];
  const lineOf = new Map<Deed, number>();
  const made = declared(plant, manner, c);
  lines.push(
    `sheet "${plant.machine.split(",")[0]}: ${plant.trouble}"`,
    `  machine "${plant.machine}"`,
    '  by "R. Tamm"',
    `  opened ${dayOf(0)}`,
    "  currency GBP",
  );
  if (plant.rated !== undefined) lines.push(`  rated ${plant.rated} kg "Plate on the frame"`);
  lines.push("");
  const files: Record<string, string> = { ...story.files };
  if (made.second.length > 0) {
    // Limits have places: the second file is used behind those, or has the first for them.
    files["figures.jobsheet"] = `${made.second.join("\n")}\n`;
  }
  if (manner.file) {
    files["plant-data.jobsheet"] = `${made.first.join("\n")}\n`;
    lines.push('use "plant-data.jobsheet"', "");
  } else lines.push(...made.first);
  if (made.second.length > 0) lines.push('use "figures.jobsheet"', "");
  lines.push(...story.shelf, ...tinOf(story));
  const pen = { story, c, lines, lineOf, day: 0, said: -1, open: undefined as Step | undefined, next: undefined as Step | undefined, steps: 0 };
  for (const deed of story.deeds) put(pen, deed);
  shut(pen);
  lines.push(...made.last);
  const day = pen.day + (c.yes(0.4) ? 1 : 0);
  lines.push(
    "",
    `release by "${story.release.by}" ${dayOf(day)}`,
    ...story.release.tests.map((it) => `  test ${it}`),
    ...story.release.rechecks.map((it) => `  recheck ${it} after 50 mi`),
  );
  pen.day = day + 1;
  for (const deed of story.after) put(pen, deed);
  shut(pen);
  files["job.jobsheet"] = `${lines.join("\n")}\n`;
  return { name: "job.jobsheet", files, lineOf };
}

interface Pen {
  story: Story;
  c: Chance;
  lines: string[];
  lineOf: Map<Deed, number>;
  day: number;
  said: number;
  open: Step | undefined;
  /** The step that the next action opens. */
  next: Step | undefined;
  steps: number;
}

function put(pen: Pen, deed: Deed): void {
  const { story, lines, lineOf } = pen;
  if (deed.do === "night") {
    shut(pen);
    pen.day += deed.days;
    return;
  }
  if (deed.do === "step") {
    if (story.manner.oneStep && pen.open !== undefined && plain(pen.open) && plain(deed)) return;
    shut(pen);
    pen.next = deed;
    return;
  }
  if (isAct(deed)) {
    if (pen.open === undefined) begin(pen, pen.next ?? { do: "step", title: `Further work ${pen.steps}` });
    else if (story.manner.shortSteps && plain(pen.open) && pen.c.yes(0.3) && deed.do !== "lock" && deed.do !== "let back") {
      shut(pen);
      begin(pen, { do: "step", title: `On ${pen.steps}` });
    }
    act(pen, deed);
    return;
  }
  shut(pen);
  sayDay(pen);
  lineOf.set(deed, lines.length);
  if (deed.do === "write") lines.push(...deed.lines.map((it) => it.replace("TODAY", dayOf(pen.day))), "");
  if (deed.do === "measure") measure(pen, deed);
  if (deed.do === "seen")
    lines.push(
      `seen ${deed.what} ${deed.when} ${deed.good ? "good" : "bad"} "${deed.text}"${deed.at === undefined ? "" : ` ${deed.at}`} by "R. Tamm" ${dayOf(pen.day)}`,
      "",
    );
  if (deed.do === "found") {
    lines.push(
      `finding ${[deed.what, deed.n, deed.at].filter((it) => it !== undefined).join(" ")}${story.manner.days ? "" : ` ${dayOf(pen.day)}`}`,
      `  is ${deed.is.join(", ")}`,
    );
    if (deed.because !== undefined) lines.push(`  because "${deed.because}"`);
    if (deed.decision !== undefined) lines.push(`  decision ${deed.decision}`);
    lines.push("");
  }
}

const plain = (step: Step): boolean => step.planned !== true && step.doneAt === undefined && step.early === undefined && step.details === undefined;

function sayDay(pen: Pen): void {
  if (!pen.story.manner.days || pen.said === pen.day) return;
  pen.lines.push(`day ${dayOf(pen.day)}`, "");
  pen.said = pen.day;
}

function begin(pen: Pen, step: Step): void {
  sayDay(pen);
  pen.open = step;
  pen.next = undefined;
  pen.steps += 1;
  pen.lineOf.set(step, pen.lines.length);
  pen.lines.push(`step work-${pen.steps} "${step.title}"`);
  if (pen.story.manner.notes && pen.c.yes(0.5))
    pen.lines.push(pen.c.one(['  tool "ring spanners, soft drift"', "  takes 40 min", '  note "Slow and with both hands"', "  # before tea"]));
}

function shut(pen: Pen): void {
  const { open, lines, story } = pen;
  if (open === undefined) return;
  pen.open = undefined;
  lines.push(...(open.details ?? []));
  if (open.planned !== true)
    lines.push(
      `  done${story.manner.days && open.early === undefined ? "" : ` ${dayOf(pen.day - (open.early ?? 0))}`}${open.doneAt === undefined ? "" : ` ${open.doneAt.join(", ")}`}${pen.c.yes(0.3) ? ' by "R. Tamm"' : ""}`,
    );
  lines.push("");
}

function act(pen: Pen, deed: Act): void {
  const { story, lines, lineOf } = pen;
  const each = deed.at !== undefined && deed.at.length > 1 && story.manner.apart && pen.c.yes(0.5) ? deed.at.map((it) => ({ ...deed, at: [it] })) : [deed];
  lineOf.set(deed, lines.length);
  for (const one of each) lines.push(`  ${actLine(one, story.plant, !story.manner.allPlaces)}`);
}

/** One action as it is written. Places are left out where it is at all of them and the hand does so. */
export function actLine(deed: Act, plant: Plant, leaveOut: boolean): string {
  const all = everywhere(plant);
  const at = deed.at === undefined || (leaveOut && deed.at.length === all.length && deed.n === undefined) ? "" : ` ${deed.at.join(", ")}`;
  const text = deed.text === undefined ? "" : ["safe", "mark", "repair", "chock", "restore"].includes(deed.do) ? ` "${deed.text}"` : ` ${deed.text}`;
  const thing = deed.what === undefined ? "" : ` ${deed.what}`;
  const n = deed.n === undefined ? "" : ` ${deed.n}`;
  const from = deed.from === undefined ? "" : ` from ${deed.from}`;
  const fresh = deed.fresh === true && deed.instead === undefined ? " new" : "";
  const instead = deed.instead === undefined ? "" : ` with ${deed.instead}`;
  const forNow = deed.forNow === undefined ? "" : ` for now "${deed.forNow}"`;
  if (deed.do === "tighten") {
    const to = deed.to === undefined ? "" : ` to ${deed.to.join(", ")} ${plant.torque}${deed.angle === undefined ? "" : ` + ${deed.angle} deg`}`;
    return `tighten${thing}${n}${at}${to}${deed.by === undefined ? "" : ` by ${deed.by}`}${forNow}`;
  }
  if (deed.do === "let back") return `let back${thing}${n}${at} by ${deed.flats} ${deed.flats === 1 ? "flat" : "flats"}`;
  if (deed.do === "fill") return `fill${thing}${at}${deed.ml === undefined ? "" : deed.ml >= 1000 ? ` ${deed.ml / 1000} l` : ` ${deed.ml} ml`}`;
  return `${deed.do}${thing}${n}${at}${text}${from}${fresh}${instead}${forNow}`;
}

function measure(pen: Pen, deed: Measured): void {
  const { lines, story } = pen;
  const day = pen.day + (deed.shift ?? 0);
  lines.push(
    `measure ${deed.what} ${deed.when}${deed.by === undefined ? "" : ` by ${deed.by}`}${story.manner.days && deed.shift === undefined ? "" : ` ${dayOf(day)}`}`,
  );
  for (const row of deed.rows) lines.push(`  ${rowLine(row, deed.unit ?? story.plant.length, story)}`);
  if (deed.because !== undefined) lines.push(`  because "${deed.because}"`);
  lines.push("");
}

function rowLine(row: Row, unit: string, story: Story): string {
  const small = story.manner.otherUnits && unit === story.plant.length;
  const shown = small ? (unit === "mm" ? "um" : "thou") : unit;
  const values = row.values.map((it) => (small ? Number((it * 1000).toFixed(1)) : it)).join(", ");
  return [row.at, row.position, row.again ? "again" : undefined, values, shown].filter((it) => it !== undefined).join(" ");
}
