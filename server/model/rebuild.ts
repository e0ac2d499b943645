// A job after an edit that leaves every entry in its place, with the name that it declares: most keystrokes are such, and what they don't touch is taken over.
// Invariant: the job that comes out is the one that `buildJob` would build; where that is not sure, there is none.
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Entry, Name } from "../../grammar/tree.ts";
import { type Source, declare, kindDeclared } from "./declare.ts";
import type { Files } from "./files.ts";
import { carryOver } from "./has.ts";
import { type Job, type JobFile, type Undeclared, type UseFault, implyAll, readFiles, undeclaredByJob, undeclaredIn } from "./job.ts";
import { slipsOf } from "./meant.ts";
import { referencesOf } from "./references.ts";
import type { Thing } from "./things.ts";

/** An entry that is another object now. */
export interface Changed {
  /** Its position, the files laid one behind the other. */
  readonly at: number;
  readonly file: string;
  readonly was: Entry;
  readonly now: Entry;
  readonly sheet: SheetText;
  /** The line of its head. */
  readonly start: number;
}

export interface Rebuilt {
  readonly job: Job;
  readonly changed: readonly Changed[];
  /** Names that nothing declares and that mean something else than before, or have come, or are gone. */
  readonly implied: readonly string[];
}

/** Kinds of entries by which the whole job is read: where one changes, all is built anew. */
const weighty: ReadonlySet<Entry["kind"]> = new Set(["sheet", "places", "use", "day", "release", "gauge", "supplier", "unread", "headless"]);

export function rebuildJob(before: Job, files: Files): Rebuilt | undefined {
  // With a slip in it the entries of the job are others than those that were read.
  if (before.slips.size > 0) return undefined;
  const read = readFiles(files, before.path);
  if (read === undefined || !sameFaults(before.useFaults, read.useFaults) || read.list.length !== before.files.length) return undefined;
  const changed: Changed[] = [];
  let offset = 0;
  for (let f = 0; f < read.list.length; f++) {
    const was = before.files[f] as JobFile;
    const { path: file, sheet } = read.list[f] as JobFile;
    if (was.path !== file || was.sheet.entries.length !== sheet.entries.length) return undefined;
    if (was.sheet !== sheet) {
      for (let i = 0; i < sheet.entries.length; i++) {
        const a = was.sheet.entries[i] as Entry;
        const b = sheet.entries[i] as Entry;
        if (a === b) continue;
        if (!declaresTheSame(a, b, before)) return undefined;
        changed.push({ at: offset + i, file, was: a, now: b, sheet, start: sheet.starts[i] as number });
      }
    }
    offset += sheet.entries.length;
  }

  const declared = new Map<string, Thing>();
  for (const { file, was, now } of changed) {
    const name = nameOf(now);
    if (name === undefined || kindDeclared(now) === undefined) continue;
    const thing = declared.get(name.text) ?? (before.things.get(name.text) as Thing);
    const sources = thing.entries.map((it) => (it.entry === was ? { file, entry: now } : it)) as [Source, ...Source[]];
    declared.set(name.text, declare(thing.kind, nameOf(sources[0].entry) as Name, sources));
  }
  const undeclaredBefore = undeclaredIn(before);
  const undeclared = undeclaredNow(before, undeclaredBefore, changed);
  let { things } = before;
  const implied: string[] = [];
  if (declared.size > 0 || undeclared !== undeclaredBefore) {
    const all = new Map<string, Thing>();
    for (const [name, thing] of before.things) if (!thing.implied) all.set(name, declared.get(name) ?? thing);
    implyAll(all, undeclared, before.slips);
    if (undeclared !== undeclaredBefore) {
      for (const { reference } of [...undeclaredBefore, ...undeclared]) {
        const { name } = reference;
        const [was, is] = [before.things.get(name.text), all.get(name.text)];
        if (was === is) continue;
        // Who else uses a gauge or a supplier can't be told from here.
        for (const it of [was, is]) if (it?.kind === "gauge" || it?.kind === "supplier") return undefined;
        implied.push(name.text);
      }
    }
    if (undeclared !== undeclaredBefore) {
      const declaredNow = [...all.values()].filter((it) => !it.implied);
      if (slipsOf(undeclared, declaredNow, before.unreadNames).size > 0) return undefined;
    }
    things = all;
  }
  const job: Job = { ...before, workspace: files, files: read.list, own: { path: before.path, sheet: read.own }, things };
  undeclaredByJob.set(job, undeclared);
  carryOver(
    before,
    job,
    changed.map(({ now }) => now),
  );
  return { job, changed, implied: [...new Set(implied)] };
}

function nameOf(entry: Entry): Name | undefined {
  return (entry as { readonly name?: Name }).name;
}

/** The same kind of entry, which declares what the other one did, or adds to it. */
function declaresTheSame(a: Entry, b: Entry, job: Job): boolean {
  if (a.kind !== b.kind || weighty.has(a.kind) || nameOf(a)?.text !== nameOf(b)?.text) return false;
  const title = (it: Entry) => (it as { readonly title?: unknown }).title === undefined;
  return title(a) === title(b) && !job.twice.some(({ name }) => name.text === nameOf(b)?.text);
}

function sameFaults(before: readonly UseFault[], now: readonly UseFault[]): boolean {
  return (
    before.length === now.length &&
    before.every((it, i) => {
      const other = now[i] as UseFault;
      return (
        it.entry === other.entry && it.file === other.file && it.reason === other.reason && it.path === other.path && it.circle?.join() === other.circle?.join()
      );
    })
  );
}

/** The same list where the changed entries mention nothing that is undeclared, nor did. */
function undeclaredNow(job: Job, before: readonly Undeclared[], changed: readonly Changed[]): readonly Undeclared[] {
  const places = new Set(changed.map(({ at }) => at));
  const fresh: Undeclared[] = [];
  for (const { at, file, now } of changed)
    for (const reference of referencesOf(now).things)
      if (job.things.get(reference.name.text)?.implied !== false) fresh.push({ at, file, entry: now, reference });
  if (fresh.length === 0 && !before.some(({ at }) => places.has(at))) return before;
  return [...before.filter(({ at }) => !places.has(at)), ...fresh].sort((a, b) => a.at - b.at);
}
