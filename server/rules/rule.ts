// What a rule is: one thing that can be wrong, with its page, its examples and its check in one file.
// Invariant: a rule reads and reports; it changes nothing and knows no other rule.
import type { Entry, Span } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { Where } from "../model/where.ts";
import type { Story } from "../story/story.ts";
import type { Judged } from "../story/verdict.ts";

export type Severity = "error" | "warning" | "information" | "hint";

export type RuleGroup =
  | "Writing"
  | "Units and figures"
  | "Locking"
  | "Tightness"
  | "Limits, readings, checks"
  | "Parts"
  | "Energy and support"
  | "Order of work"
  | "Getting the parts"
  | "Release";

export interface Related {
  readonly where: Where;
  readonly message: string;
}

/** One change to one line. A line is added by an edit at the end of the line above, whose text begins with a line break. */
export interface RuleEdit {
  readonly where: Where;
  readonly text: string;
}

export interface RuleFix {
  readonly title: string;
  /** Only spells, or writes what the sheet itself says already: it may be the one that an editor does at once. */
  readonly spells?: true;
  readonly edits: readonly RuleEdit[];
}

export interface Report {
  readonly where: Where;
  readonly severity: Severity;
  readonly message: string;
  readonly related?: readonly Related[];
  readonly fixes?: readonly RuleFix[];
  /** Stands in the way of release, or does not, though its severity does not say so. An error always does. */
  readonly open?: boolean;
  /** Can't be accepted in a sheet, though its rule may be elsewhere. */
  readonly firm?: true;
  /** A final of each of these limits or checks, at these places, closes it. */
  readonly reads?: readonly Read[];
  /** Oil or grease on these closes it. */
  readonly greases?: readonly Read[];
  /** A finding of each of these, as somebody sees it now, closes it: nothing is declared that is measured or seen of it. */
  readonly looks?: readonly Read[];
  /** What stays of it for a person, said of steps that are not done yet, and of its first related line: “New split pin: 4 to go in, and no more than 2 came.” */
  readonly leaves?: string;
}

/** A name, and where. */
export interface Read {
  readonly name: string;
  /** `""` where there are no places. */
  readonly places: readonly string[];
}

/** What a rule is given about one entry, apart from all others. */
export interface EntryContext {
  readonly file: string;
  readonly entry: Entry;
  report(report: Report): void;
}

/** What a rule is given about a whole job. */
export interface JobContext {
  readonly job: Job;
  readonly story: Story;
  readonly judged: Judged;
  report(report: Report): void;
  /** The number of a line, for a message. It is put in when the message is sent, so that it is right after any edit above. */
  line(where: Where): string;
  /** Sheets of the same machine that are open on something critical. Asked only by what is released. */
  others(): Slices<OtherSheets>;
}

/** What is known of the other sheets of the same machine. */
export interface OtherSheets {
  readonly open: readonly OtherOpen[];
  /** So many sheets of the workspace were not looked at, for there are more than can be at every keystroke. */
  readonly unseen: number;
  /** More lies in the workspace than was searched for sheets: it is not known whether others of this machine are there. */
  readonly hasMore: boolean;
}

/** Another sheet of the same machine, open on something critical. */
export interface OtherOpen {
  readonly path: string;
  /** What it calls its machine, where nobody can tell whether that is this one. */
  readonly unsure?: string;
  /** What is critical and open there, by its titles. */
  readonly on: readonly string[];
  /** It seems to be a copy of the sheet that is asked about, or what that was copied from. */
  readonly isCopy?: true;
}

interface RuleHead {
  readonly id: string;
  readonly group: RuleGroup;
  /** A safety rule: it can't be accepted away in a sheet. */
  readonly safety: boolean;
}

/** What is told of a rule where somebody asks, and what no check reads: the built program has it in a file of its own (.ci/rule-pages.mjs). */
export interface RulePage {
  /** What is flagged, in a line. */
  readonly title: string;
  /** In words: “error on a critical fastener, else warning”. */
  readonly severity: string;
  /** Why it matters, in two or three sentences that a mechanic would accept. */
  readonly why: string;
  /** A sheet that is wrong, with its expectation comments for this rule. Other rules may speak in it too. */
  readonly wrong: string;
  /** A sheet like it in which this rule is silent. */
  readonly right: string;
  /** What the first fix of the first diagnostic makes of `wrong`; absent where no fix is offered. */
  readonly fixed?: string;
  /** Files that the examples use, by name. */
  readonly files?: Readonly<Record<string, string>>;
}

export interface EntryRule extends RuleHead, RulePage {
  readonly scope: "entry";
  /** One that has something to do for each line does so in slices: an entry may have thousands. */
  check(context: EntryContext): void | Slices<void>;
}

export interface JobRule extends RuleHead, RulePage {
  readonly scope: "job";
  /** One that looks at each of thousands of lines does so in slices. */
  check(context: JobContext): void | Slices<void>;
}

/** What a rule has said of the job. */
export interface Said {
  readonly rule: string;
  readonly report: Report;
}

/** Runs behind all others and is given what is open by what they said. */
export interface ReleaseRule extends RuleHead, RulePage {
  readonly scope: "release";
  check(context: JobContext & { readonly open: readonly { readonly said: Said }[] }): void;
}

/** A rule as its file has it. */
export type WrittenRule = EntryRule | JobRule | ReleaseRule;

type WithoutPage<R> = R extends unknown ? Omit<R, keyof RulePage> : never;

/** A rule as checks know it. */
export type Rule = WithoutPage<WrittenRule>;

/** A fix that spells: it writes one text in the place of another on one line, and says nothing that the line did not mean. */
export function rewrite(title: string, where: Where, text: string): RuleFix {
  return { title, edits: [{ where, text }], spells: true };
}

/** A fix that says something else on one line than what stood there. */
export function restate(title: string, where: Where, text: string): RuleFix {
  return { title, edits: [{ where, text }] };
}

/**
 * A fix as it is offered. One that says what was done or decided testifies for somebody: where it leaves nothing blank by itself, a note is left blank
 * below, so that no click makes a record. What is only planned needs none.
 */
export function leavingBlank(fix: RuleFix): RuleFix {
  const last = fix.edits.at(-1);
  if (fix.spells === true || last === undefined || last.where.entry === lastEntry || fix.edits.some(({ text }) => text.includes("___"))) return fix;
  const { entry } = last.where;
  if (entry.kind === "step" && !entry.details.some((it) => it.kind === "done")) return fix;
  const note = '\n  note "___"';
  if (last.where.at.to === lineEnd) return { ...fix, edits: [...fix.edits.slice(0, -1), { ...last, text: `${last.text}${note}` }] };
  return { ...fix, edits: [...fix.edits, { where: { ...last.where, at: { from: lineEnd, to: lineEnd } }, text: note }] };
}

/** A fix that adds a line below a line of the same entry, set in as details are. */
export function addLine(title: string, below: Where, text: string): RuleFix {
  const end: Span = { from: lineEnd, to: lineEnd };
  return { title, edits: [{ where: { ...below, at: end }, text: `\n  ${text}` }] };
}

/** Stands for the end of a line, whatever its length; made into a column when the fix is sent. */
export const lineEnd = Number.MAX_SAFE_INTEGER;

/** Stands for the last entry of the checked file, whatever it is when the fix is sent. Its row 0 is the last line there that is not blank. */
export const lastEntry: Entry = { kind: "headless", row: 0, at: { from: 0, to: 0 }, keyword: { from: 0, to: 0 }, details: [], stray: [], rows: 0 };

/** Behind the things and places of a `fit`, where `new` stands. */
export function newColumn(action: {
  readonly things: readonly { readonly name: { readonly at: { readonly to: number } }; readonly count?: { readonly at: { readonly to: number } } }[];
  readonly places: readonly { readonly at: { readonly to: number } }[];
}): { from: number; to: number } {
  const thing = action.things.at(-1);
  const column = action.places.at(-1)?.at.to ?? thing?.count?.at.to ?? thing?.name.at.to ?? 0;
  return { from: column, to: column };
}
