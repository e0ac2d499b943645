// Words beside what was done, came or was read, that say that it is not right.
// Invariant: what was done again since, or has a finding of its own by now, is told there; what only came apart is not asked.
import { unsaid } from "../../../grammar/blanks.ts";
import type { Slices } from "../../../grammar/slices.ts";
import type { ActionDetail, Detail, Entry, MeasureEntry, OrderEntry, ReleaseEntry, SeenEntry, StepEntry, Text } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import { memo } from "../../model/memo.ts";
import { isMentioned, mentionsOf, ordersOf, statusOf } from "../../model/orders.ts";
import { isCritical } from "../../model/relations.ts";
import type { Question, Thing } from "../../model/things.ts";
import { wordsOf } from "../../model/read-with.ts";
import { bandOf } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import type { Cell, Moment, Story, Visit } from "../../story/story.ts";
import { saysNoAnswer, tellsAFault } from "../doubt-words.ts";
import { figurePast } from "../figure-beside.ts";
import { faultIn } from "../fault-words.ts";
import { saysFailed } from "../metal-words.ts";
import type { JobContext, JobRule } from "../rule.ts";
import { saysNotMade } from "../not-done.ts";
import { shortened } from "../test-words.ts";
import { few, midSentence, namingNothing } from "../wording.ts";
import { saysDoneWrong, saysNotAsOrdered, saysNotRight, saysReadOtherwise, saysTheOldOne, saysTheOtherWay } from "../work-words.ts";

export const rule: JobRule = {
  id: "words-against",
  group: "Parts",
  severity: "warning that holds",
  safety: true,
  title:
    "A `note` under work that was done, under what came, under a final reading or look, or under the release, or the words of a repair, or by which a hazard was made safe or live again, that say that it is not right; a figure past wear in a note under the last reading; another number than its own in a note under what came; an answer `No` that nothing followed",
  why: "Whoever writes “one tooth off the dot, will do”, “thread pulled at the last turn” or “oil ways still to be cleaned” tells the truth, and nobody acts on a note. Put it right and write that; or write a finding of the part, so that it is decided. Where all is well, say so in the note.",
  wrong: `part cover "Cover"
fastener bolt "Cover bolt"
step refit "Cover back"
  tighten bolt
  note "The thread pulled at the last turn"
#      ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ warning words-against
  done
`,
  right: `part cover "Cover"
fastener bolt "Cover bolt"
step refit "Cover back"
  tighten bolt
  note "The thread had pulled on the old one; this is the new"
  done
`,
  scope: "job",
  *check(context) {
    const { job, story } = context;
    for (const visit of story.visits) {
      if (visit.phase === "done" && visit.file === job.path) yield* besideWork(context, visit);
      yield;
    }
    besideTheLast(context);
    yield;
    const last = lastFinals(job);
    for (const entry of job.own.sheet.entries) {
      if (entry.kind === "order") besideWhatCame(context, entry);
      if (last.has(entry)) {
        if (entry.kind === "measure") besideAReading(context, entry);
        if (entry.kind === "seen" || entry.kind === "release") besideTheEnd(context, entry);
      }
      if (entry.kind === "question") besideAnAnswer(context, entry);
      yield;
    }
  },
};

/** Of each limit and each check the last final, and the last release: what stood before it is over. */
function lastFinals(job: Job): ReadonlySet<Entry> {
  const last = new Map<string, Entry>();
  for (const entry of job.own.sheet.entries) {
    if (entry.kind === "release") last.set("", entry);
    if (entry.kind === "measure" && entry.stage === "final" && entry.limit !== undefined) last.set(entry.limit.text, entry);
    if (entry.kind === "seen" && entry.stage === "final" && entry.check !== undefined) last.set(entry.check.text, entry);
  }
  return new Set(last.values());
}

/** Where each entry stands among those of the sheet itself. */
const indexIn = memo((job: Job): ReadonlyMap<Entry, number> => new Map(job.own.sheet.entries.map((it, i) => [it, i])));

/** An entry further down than another. What stands in another sheet is not. */
function isBelow(job: Job, it: Entry, entry: Entry): boolean {
  return (indexIn(job).get(it) ?? -1) > (indexIn(job).get(entry) ?? -1);
}

function textOf(it: Detail): Text | undefined {
  return (it.kind === "note" || it.kind === "because") && it.fault === undefined && !unsaid(it) ? it.text : undefined;
}

// ---------------------------------------------------------------- work

const back: ReadonlySet<string> = new Set(["fit", "tighten", "lock", "fill", "bleed", "repair", "grease", "oil", "heat", "let", "restore", "lower"]);
/** Whose own words say how it was done. */
const toldHow: ReadonlySet<string> = new Set(["repair", "restore", "safe"]);

/** Words in a step are of the line of work above them, and of such lines before it that they name. */
function* besideWork(context: JobContext, { entry, file }: Visit): Slices<void> {
  const first = entry.details.find((it): it is ActionDetail => it.kind === "action" && it.fault === undefined);
  if (first === undefined) return;
  const above = new WorkByWord();
  let last: ActionDetail | undefined;
  for (const detail of entry.details) {
    const isWork = detail.kind === "action" && detail.fault === undefined;
    if (isWork) {
      last = detail;
      if (back.has(detail.verb)) above.add(context.job, detail);
    }
    yield;
    const isHow = isWork && toldHow.has(detail.verb);
    const text = isHow ? detail.text : textOf(detail);
    const of = last ?? first;
    if (text === undefined || !(isHow || back.has(of.verb))) continue;
    const actions = isHow ? [of] : above.meant(text.value, of);
    const said = saidOf(context.job, actions, text.value, isHow ? saysOfHow(of.verb) : saysNotRight);
    if (said === undefined) continue;
    const names = [...new Set(actions.flatMap((it) => it.things.map(({ name }) => name.text)))];
    if (names.some((name) => isTakenUp(context.story, name, entry, actions))) continue;
    const things = names.map((name) => context.job.things.get(name)).filter((it): it is Thing => it !== undefined);
    // The machine is let down as a whole.
    if (things.length === 0 && of.verb !== "lower") continue;
    const meant = spokenOf(context.job, things, said, text.value);
    const ofWhat = meant.length === 0 ? "" : `: ${few(meant.map((it) => midSentence(it)))}`;
    context.report({
      where: where(file, entry, detail.row, text.at),
      severity: "warning",
      open: true,
      message: `“${shortened(said)}” says that ${amiss[of.verb] ?? "this is not right"}${ofWhat}. ${toDo[of.verb] ?? "Put it right or write a finding of it; where all is well, say so here."}`,
    });
  }
}

/** A hazard has no finding. */
const amiss: Readonly<Record<string, string>> = { safe: "this was not made safe", restore: "this is not restored, or not all of it" };
const toDo: Readonly<Record<string, string>> = {
  safe: "Make it safe, and write here how.",
  restore: "Restore it, and write here how; where all is well, say so here.",
};

/** Of a hazard it is told how it was made safe, or live again: that it was not yet, or not all of it. */
function saysOfHow(verb: string): (text: string) => string | undefined {
  if (verb === "safe") return (text) => saysNotMade(text, false);
  return verb === "restore" ? (text) => saysDoneWrong(text) ?? saysNotMade(text, true) : saysDoneWrong;
}

/** What a thing is called by, in small letters: its name and its title. */
function calledBy(job: Job, name: string): string {
  return `${name} ${job.things.get(name)?.title ?? ""}`.toLowerCase();
}

/** Of the things of a line, or of several, those that the words call by most of their names; all of them where the words call none. */
function spokenOf(job: Job, things: readonly Thing[], said: string, text: string): readonly Thing[] {
  for (const words of [said, text]) {
    const spoken = new Set(wordsOf(words));
    const counts = things.map((it) => new Set(wordsOf(calledBy(job, it.name)).filter((word) => !small.has(word) && spoken.has(word))).size);
    const most = Math.max(0, ...counts);
    if (most > 0) return things.filter((_, i) => counts[i] === most);
  }
  return things;
}

/** What stands in any title, and names nothing. */
const small: ReadonlySet<string> = new Set([
  ...namingNothing,
  ..."from two all that new old both each left right front rear upper lower inner outer".split(" "),
]);

/** The lines of work of a step, by the words that their things are called by. */
class WorkByWord {
  private readonly by = new Map<string, Set<ActionDetail>>();

  add(job: Job, action: ActionDetail): void {
    for (const { name } of action.things) {
      for (const word of calledBy(job, name.text).match(/[a-z]{3,}/gu) ?? []) {
        if (small.has(word)) continue;
        const all = this.by.get(word);
        if (all === undefined) this.by.set(word, new Set([action]));
        else all.add(action);
      }
    }
  }

  /** The lines whose things the words name, else the last. */
  meant(text: string, last: ActionDetail): readonly ActionDetail[] {
    const named = new Set<ActionDetail>();
    for (const word of new Set(text.toLowerCase().match(/[a-z]{3,}/gu) ?? [])) for (const it of this.by.get(word) ?? []) named.add(it);
    return named.size > 0 ? [...named] : [last];
  }
}

function saidOf(job: Job, actions: readonly ActionDetail[], text: string, saysWrong: (text: string) => string | undefined): string | undefined {
  const fits = actions.filter(({ verb }) => verb === "fit").flatMap(({ things }) => things.map(({ name }) => job.things.get(name.text)));
  for (const thing of fits) {
    const declared = thing !== undefined && "fits" in thing ? thing.fits : undefined;
    const turned = declared === undefined ? undefined : saysTheOtherWay(declared, text);
    if (turned !== undefined) return turned;
  }
  return saysWrong(text) ?? (actions.some(({ isNew }) => isNew !== undefined) ? saysTheOldOne(text) : undefined);
}

/** Undone, done again or spoken of in a finding, behind the line. */
function isTakenUp(story: Story, name: string, entry: StepEntry, actions: readonly ActionDetail[]): boolean {
  const rows = new Set(actions.map(({ row }) => row));
  return story.cells(name).some((cell) => {
    const history = historyOf(cell);
    const at = history.findLast((it) => it.phase === "done" && it.where.entry === entry && rows.has(it.where.row));
    if (at === undefined) return "unsure" in cell && cell.unsure === true;
    return history.some((it) => it.phase === "done" && it.seq > at.seq && (again.has(it.verb) || (it.where.entry !== entry && isSame(it.verb, at.verb))));
  });
}

const again: ReadonlySet<string> = new Set(["found", "repair", "undo", "slacken", "remove", "drain"]);

function isSame(verb: string, other: string): boolean {
  return verb === other || verb === "fit";
}

type Worked = Moment & { readonly verb: string };

function historyOf(cell: Cell): readonly Worked[] {
  return cell.history as readonly Moment[] as readonly Worked[];
}

// ---------------------------------------------------------------- what came

function besideWhatCame(context: JobContext, entry: OrderEntry): void {
  const { job, story } = context;
  const hasCome = statusOf(job, entry)?.status === "received" || mentionsOf(job, entry).some(({ details }) => details.some((it) => it.kind === "received"));
  if (isMentioned(job, entry) || !hasCome) return;
  const all: string[] = [];
  let line: readonly string[] = [];
  for (const mention of mentionsOf(job, entry)) {
    line = [];
    // A note above the items is of all of them.
    const ofMention = mention.details.flatMap(itemOf);
    for (const detail of mention.details) {
      if (detail.fault !== undefined) continue;
      const item = itemOf(detail);
      if (item.length > 0) line = item;
      all.push(...line);
      const text = detail.kind === "work" ? detail.text : textOf(detail);
      const said =
        text === undefined ? undefined : (saysNotAsOrdered(text.value) ?? (line.length === 1 ? otherNumber(job, line[0] ?? "", text.value) : undefined));
      if (text === undefined || said === undefined) continue;
      const meant = line.length === 1 ? line : namedIn(job, text.value, line.length > 0 ? line : [...new Set([...all, ...ofMention])]);
      const names = meant.filter((name) => isUsed(story, name));
      if (names.length === 0 || names.some((name) => isSeenTo(context, name, mention, said))) continue;
      const things = names.map((name) => job.things.get(name)).filter((it): it is Thing => it !== undefined);
      context.report({
        where: where(job.path, mention, detail.row, text.at),
        severity: "warning",
        open: true,
        message: `“${shortened(said)}” says that what came is not right: ${few(things.map((it) => midSentence(it)))}. Put it right or write a finding of it; where all is well, say so here.`,
      });
    }
  }
}

/** “CB-5 came, same bore”, of what is CB-4 with its maker: a number of the same make that is none of its own, and no word that says why it serves. */
function otherNumber(job: Job, name: string, text: string): string | undefined {
  const thing = job.things.get(name);
  const own = thing !== undefined && "number" in thing && typeof thing.number === "string" ? makeOf(thing.number) : undefined;
  if (own === undefined || serves.test(text)) return undefined;
  for (const [number] of text.matchAll(/(?<![\w.-])(?:[A-Z]{1,4}[- ]?\d+|\d{5,})[A-Z]?(?![\w.-])/gu)) {
    const told = makeOf(number);
    if (told?.make === own.make && told.digits.length === own.digits.length && told.digits !== own.digits) return text.trim();
  }
  return undefined;
}

/** The letters before a number, and the number. */
function makeOf(number: string): { readonly make: string; readonly digits: string } | undefined {
  const [, make, digits] = /^([A-Z]{0,4})[- ]?(\d+[A-Z]?)$/u.exec(number.trim()) ?? [];
  return make === undefined || digits === undefined ? undefined : { make, digits };
}

const serves =
  /\b(supersed\w*|replac\w*|now|formerly|renumbered|old number|new number|sent back|returned|exchanged|packed|invoice\w*|batch|lot|serial|with|for)\b/iu;

/** What a line of an order is about. */
function itemOf(detail: Detail): readonly string[] {
  if (detail.kind === "work" && detail.part !== undefined) return [detail.part.text];
  if (detail.kind === "received") return detail.items.flatMap(({ item }) => (item?.kind === "name" ? [item.name.text] : []));
  return detail.kind === "item" && detail.item?.kind === "name" ? [detail.item.name.text] : [];
}

/** It went on: what came and lies on the shelf is nobody's danger. */
function isUsed(story: Story, name: string): boolean {
  return story.cells(name).some((cell) => historyOf(cell).some((it) => it.phase === "done" && (it.verb === "fit" || it.verb === "fill")));
}

/** Those whose name or title has a word of the text, else all. */
function namedIn(job: Job, text: string, names: readonly string[]): readonly string[] {
  const words = new Set((text.toLowerCase().match(/[a-z]{4,}/gu) ?? []).flatMap((it) => [it, it.replace(/s$/u, "")]));
  const named = names.filter((name) => (calledBy(job, name).match(/[a-z]{4,}/gu) ?? []).some((it) => words.has(it)));
  return named.length > 0 ? named : names;
}

/** Washed off by cleaning it. */
const dirty = /\b(clean\w*|dirt\w*|swarf|chips|grit|wash\w*|oil ?ways?|rust\w*|paint|grease|dust|blocked|metal left)\b/iu;

/** Found, repaired, ordered once more, or cleaned of what was on it, further down. */
function isSeenTo({ job, story }: JobContext, name: string, entry: Entry, said: string): boolean {
  const { work, items } = ordersOf(job);
  if ([...(work.get(name) ?? []), ...(items.get(name) ?? [])].some((it) => isBelow(job, it.entry, entry))) return true;
  return story
    .cells(name)
    .some((cell) =>
      historyOf(cell).some(
        (it) =>
          it.phase === "done" &&
          isBelow(job, it.where.entry, entry) &&
          (it.verb === "found" || it.verb === "repair" || (dirty.test(said) && "action" in it && (it.action as ActionDetail | undefined)?.verb === "clean")),
      ),
    );
}

// ---------------------------------------------------------------- readings, answers

function besideAReading({ job, report }: JobContext, entry: MeasureEntry): void {
  const name = entry.limit?.text;
  if (entry.fault !== undefined || name === undefined) return;
  for (const detail of entry.details) {
    const text = textOf(detail);
    const said = text === undefined ? undefined : (saysReadOtherwise(text.value) ?? saysTheOtherWay(job.things.get(name)?.title ?? "", text.value));
    if (text === undefined || said === undefined) continue;
    report({
      where: where(job.path, entry, detail.row, text.at),
      severity: "warning",
      open: true,
      message: `“${shortened(said)}” says that this was read otherwise than it is to be, or showed a fault. Read it again; where all is well, say so here.`,
    });
  }
}

/** A note under the last reading of something critical, with a figure past what it may wear. */
function besideTheLast({ job, story, report }: JobContext): void {
  const last = new Map(story.readings.map((it) => [it.limit.name, it]));
  for (const reading of last.values()) {
    const worn = bandOf(reading.stood.worn);
    const read = reading.spots.at(-1)?.figures[0];
    if (worn === undefined || read === undefined || reading.where.file !== job.path || !isCritical(job, reading.limit)) continue;
    for (const detail of reading.entry.details) {
      const text = detail.kind === "note" ? textOf(detail) : undefined;
      const said = text === undefined ? undefined : figurePast(text.value, read, worn);
      if (text === undefined || said === undefined) continue;
      report({
        where: where(job.path, reading.entry, detail.row, text.at),
        severity: "warning",
        open: true,
        message: `“${shortened(said.trim())}” gives a figure past the limit of wear of ${midSentence(reading.limit)}. Write it as a reading; where it is of something else, say here of what.`,
      });
    }
  }
}

/** A note under the release, or under what was seen at the end. */
function besideTheEnd({ job, report }: JobContext, entry: ReleaseEntry | SeenEntry): void {
  for (const detail of entry.details) {
    const text = detail.kind === "note" ? textOf(detail) : undefined;
    const said = text === undefined ? undefined : saysNotRight(text.value);
    if (text === undefined || said === undefined) continue;
    report({
      where: where(job.path, entry, detail.row, text.at),
      severity: "warning",
      open: true,
      message: `“${shortened(said)}” says that something is not right. Put it right or write a finding of it; where all is well, say so here.`,
    });
  }
}

const questionsOf = memo(
  (job: Job): ReadonlyMap<Entry, Question> => new Map([...job.things.values()].flatMap((it) => (it.kind === "question" ? [[it.entry, it] as const] : []))),
);

/** Asked whether it may stay, answered `No`, or answered in a few words that it has failed; and nothing was done to it at all. */
function besideAnAnswer({ job, story, report }: JobContext, entry: Entry): void {
  const question = questionsOf(job).get(entry);
  // That nobody knows is said by the rule for questions.
  if (question?.answer === undefined || saysNoAnswer(question.answer) !== undefined) return;
  const isNo = no.test(question.answer) && asks.test(question.title ?? "");
  const news = isNo ? undefined : badNews(question.answer);
  if (!isNo && news === undefined) return;
  const answer = entry.details.find((it) => it.kind === "answer");
  for (const { text } of question.about) {
    const cells = story.cells(text).filter((it) => it.kind === "part" || it.kind === "fastener");
    const isFollowed = cells.some((cell) =>
      historyOf(cell).some(
        (it) => ("isNew" in it && it.isNew === true) || it.verb === "repair" || (it.verb === "found" && isBelow(job, it.where.entry, entry)),
      ),
    );
    const thing = job.things.get(text);
    if (thing === undefined || isFollowed || ordersOf(job).work.has(text) || !cells.some(({ now }) => "on" in now && now.on > 0)) continue;
    report({
      where: where(job.path, entry, answer?.row ?? 0, answer?.keyword ?? entry.keyword),
      severity: "warning",
      open: true,
      message: `The answer ${news === undefined ? "is no" : `says “${shortened(news)}”`}, and nothing was done to ${midSentence(thing)}: it is on as it was. Renew or repair it, or write a finding \`serviceable\` with \`because\`.`,
    });
  }
}

/** An answer that tells how it was come by is longer, and may speak of another one. */
function badNews(answer: string): string | undefined {
  if (answer.trim().split(/\s+/u).length > 7 || ofOthers.test(answer)) return undefined;
  return saysFailed(answer) ?? tellsAFault(answer) ?? faultIn(answer);
}

const ofOthers = /\b(early|earlier|later|other|others|old|older|some|most|many|they|these|those|never|new|if|when)\b/iu;

const no = /^no\b(?!,? ?(need|change|limit|harm|matter|trouble|cracks?|problem|other|longer|more|figure|objection|difference|doubt)\b)/iu;
const asks =
  /^(is|are|may|can|could|will|would|should|does|do)\b.*\b(still (good|usable|safe|sound|serviceable)|usable|used again|reused?|stays?|go(es)? back|serve|safe|allowed|all right|good enough|fit for|permitted|kept|left (in|on|as))\b/iu;
