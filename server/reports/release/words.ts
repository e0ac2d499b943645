// The words that every drawing of a release shares.
import { grouped } from "../../model/grouped.ts";
import { small } from "../../model/titles.ts";
import { counted, firstSentence, listed } from "../../rules/wording.ts";
import { type OpenGroup, openGroups } from "../../rules/open-groups.ts";
import type { ConcessionItem, FastRecord, OpenItem, PardonRecord, Photo, Recheck, Record, ReleaseReport, WarnedItem } from "./shapes.ts";

export function releaseHeadline(report: ReleaseReport): string {
  if (report.released) {
    const by = report.releasedBy === undefined ? "" : ` by ${report.releasedBy}`;
    const on = `${report.releasedOn === undefined ? "" : ` on ${report.releasedOn}`}${report.counter === undefined ? "" : ` at ${report.counter}`}`;
    const unsaid = unsaidWords(report);
    const warned = report.warned.length === 0 ? "nothing open" : `nothing open, and warns of ${counted(report.warned.length, "thing")}`;
    return `Signed off${by}${on}${unsaid === undefined ? `. The sheet shows ${warned}.` : `, ${unsaid}`}`;
  }
  if (report.open.length === 0) return "Not released. The sheet shows nothing open; somebody has to write `release`.";
  const unsafe = report.open.filter((it) => it.group === "Unsafe").length;
  return `Not released: ${counted(report.open.length, "thing")} open${unsafe === 0 ? "" : `, ${unsafe} of them unsafe`}. Worst first.`;
}

/** Said with the headline of what is signed off: what such a paper is worth, and who is to look. */
export function releaseAbout(report: ReleaseReport): string[] {
  if (!report.released) return [];
  return ["It is a record, not an inspection: Splitpin has not seen the machine.", wordsToRead, report.deference].filter((it) => it !== "");
}

/** Words that tell of a fault hold a release back where they are known, and few of all such words are. */
const wordsToRead = "Read what was found, seen and noted before you sign: Splitpin knows few of the words in which a fault may be told.";

/** What a release over so little is worth, said with it. */
function unsaidWords(report: ReleaseReport): string | undefined {
  const { undeclared } = report;
  if (report.nothingDone) return "over a sheet that holds no work: nothing was done on it, so nothing was checked.";
  if (undeclared.length === 0) return undefined;
  const names = listed([...undeclared.slice(0, 3).map((it) => `\`${it}\``), ...(undeclared.length > 3 ? [`${undeclared.length - 3} more`] : [])]);
  const few = `${names} ${undeclared.length === 1 ? "isn't declared, so nothing about it was" : "aren't declared, so nothing about them was"} checked.`;
  return report.nothingDeclared ? `over a sheet that declares nothing: ${few}` : `but ${few} The sheet shows nothing else open.`;
}

/** What is open, by the head that it stands under, worst first. */
export function byGroup(open: readonly OpenItem[]): { readonly group: OpenGroup; readonly rows: readonly OpenItem[] }[] {
  return openGroups.map((group) => ({ group, rows: open.filter((it) => it.group === group) })).filter((it) => it.rows.length > 0);
}

export interface GatePart {
  /** The done step that they came of. */
  readonly step?: NonNullable<OpenItem["step"]>;
  readonly matters: readonly Matters[];
}

/** Rows that are cured in one way: what is to be done is said once. */
export interface Matters {
  readonly advice?: string;
  /** `said`: without the advice where that stands above them. */
  readonly rows: readonly { readonly item: OpenItem; readonly said: string }[];
}

/** The rows of a group by the step that they came of, in the order in which they come; and in each, those with the same advice together. */
export function byStep(rows: readonly OpenItem[]): GatePart[] {
  const parts = grouped(rows, (it) => (it.step === undefined ? "" : `${it.step.file} ${it.step.line}`));
  return [...parts.values()].map((list) => ({ ...(list[0]?.step === undefined ? {} : { step: list[0].step }), matters: byAdvice(list) }));
}

function byAdvice(rows: readonly OpenItem[]): Matters[] {
  const groups = new Map<string, { readonly item: OpenItem; readonly said: string }[]>();
  const alone = new Set<OpenItem>();
  for (const item of rows) {
    const fact = firstSentence(item.message);
    // That it is planned is of this one, and no advice.
    const [advice = "", planned = ""] = item.message
      .slice(fact.length)
      .trim()
      .split(/(?=\bIt is planned at )/u);
    const list = groups.get(advice.trim()) ?? [];
    groups.set(advice.trim(), list);
    list.push({ item, said: `${fact} ${planned}`.trim() });
  }
  const shared = [...groups].flatMap(([advice, list]) => {
    if (list.length > 1 && advice !== "") return [{ advice, rows: atSeveral(list) }];
    for (const { item } of list) alone.add(item);
    return [];
  });
  // In the order in which they come.
  const rest = rows.filter((item) => alone.has(item)).map((item) => ({ item, said: item.message }));
  return rest.length === 0 ? shared : [{ rows: atSeveral(rest) }, ...shared];
}

/** What one line says of several places, and of each in the same words but for the place, is one row: “Left and right: half shaft came off and is not back.” */
function atSeveral(rows: Matters["rows"]): Matters["rows"] {
  const same = grouped(rows, ({ item, said }) => [item.file, item.line, item.rule, said.replace(/^\S+\s/u, "")].join(" "));
  return [...same.values()].map((list) => {
    const [first] = list as [Matters["rows"][number]];
    const places = [...new Set(list.map(({ said }) => said.slice(0, said.indexOf(" "))))];
    if (places.length < 2) return first;
    return {
      item: first.item,
      said: `${listed(places.map((it, i) => (i === 0 ? it : it.toLowerCase())))}: ${first.said.slice(first.said.indexOf(" ") + 1)}`,
    };
  });
}

/** How the release stands, as a sign that is told by its shape. */
export function releaseSign(report: ReleaseReport): string {
  return report.released ? "\u2713" : report.open.length === 0 ? "\u2026" : "\u2717";
}

/** “tightened to 140 lbf.ft (130 .. 150 lbf.ft) by torque wrench; new split pin 5/32 x 1-1/4 in”. */
export function fastWords(it: FastRecord): string {
  const range = it.range === undefined ? "" : ` (${it.range})`;
  const gauge = it.gauge === undefined ? "" : ` by ${small(it.gauge)}`;
  return `${it.day === undefined ? "" : `${it.day}: `}${it.of}: ${it.to}${range}${gauge}; ${it.lockedBy}`;
}

/** “photos/marks.png, of Links, cover, worm”, and why it can't be shown where it can't. */
export function photoWords(it: Photo): string {
  return `${it.path}, of ${it.of}${it.day === undefined ? "" : `, ${it.day}`}${it.whyNot === undefined ? "" : `: ${it.whyNot}`}`;
}

/** `head`: whose name stands above it already. */
export function recordWords(it: Record, head?: string): string {
  return `${it.day === undefined ? "" : `${it.day}: `}${it.text}${it.by === undefined || it.by === head ? "" : `, by ${it.by}`}`;
}

export function recheckWords(it: Recheck): string {
  const due = `${it.due === undefined ? "" : `, at ${it.due}`}${it.dueOn === undefined ? "" : `, on ${it.dueOn}`}`;
  return `${it.of} after ${it.after}${due}${it.done === undefined ? "" : `: done ${it.done}`}`;
}

export function concessionWords(it: ConcessionItem): string {
  return `${it.of}: \u201c${it.why}\u201d, by ${it.by}${it.day === undefined ? "" : ` on ${it.day}`}`;
}

export function warnedWords(it: WarnedItem): string {
  return `${it.message} (${it.rule})`;
}

/** What was said, without its advice, and why that is right so. */
export function acceptedWords(it: PardonRecord): string {
  return `${firstSentence(it.message)} Accepted: “${it.why}” (${it.rule})`;
}

/** What was said, without its advice, and what came of it, by whom. */
export function admittedWords(it: PardonRecord): string {
  return `${firstSentence(it.message)} Owned up to by ${it.by ?? ""}: “${it.why}” (${it.rule})`;
}

/** At the foot of each drawing. */
export function releaseFoot(report: ReleaseReport): string {
  const who = report.released || report.deference === "" ? "" : `${report.deference} `;
  return report.released
    ? "The maker's data and your local rules come first."
    : `This is a reminder, not an inspection. ${who}The maker's data and your local rules come first.`;
}

/** A place to sign, on paper. */
export const signHere = "Signed:\u00a0______________________________   Date:\u00a0____________";

export const photosMissing = "Photos that can't be shown";
