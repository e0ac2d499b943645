// What the declarations say of one another, turned round: which parts a fastener holds, which fluids are in a part, which hazards bar a thing.
// Invariant: made once for a job, when first asked for.
import type { Job } from "./job.ts";
import { feltBack, isAdjuster, locksItself } from "./backed-off.ts";
import { type Check, type Fastener, type Fluid, type Hazard, type Limit, type Part, lineOf } from "./things.ts";
import { type Measured, quantity } from "../quantities/quantity.ts";
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { memoSliced } from "./memo.ts";
import { allWords } from "./titles.ts";
import { bandOf } from "./values.ts";

export interface Relations {
  /** fastener -> the parts that it holds */
  readonly holds: ReadonlyMap<string, readonly Part[]>;
  /** part -> the parts that are behind it */
  readonly behind: ReadonlyMap<string, readonly Part[]>;
  /** part -> the parts that are renewed whenever it comes off */
  readonly renewedWith: ReadonlyMap<string, readonly Part[]>;
  /** part -> the fluids in it */
  readonly fluidsIn: ReadonlyMap<string, readonly Fluid[]>;
  /** fluid -> the parts in which it stands, where a part says so: without them it runs out */
  readonly standsIn: ReadonlyMap<string, readonly Part[]>;
  /** fastener or part -> the hazards that must be safe before it is undone or removed */
  readonly barredBy: ReadonlyMap<string, readonly Hazard[]>;
  /** fastener, part or shims -> the limits and checks that it sets */
  readonly sets: ReadonlyMap<string, readonly (Limit | Check)[]>;
  /** part or fastener -> the limits and checks that are of it */
  readonly measuredBy: ReadonlyMap<string, readonly (Limit | Check)[]>;
  /** Fasteners that set something and declare no torque: adjusting nuts. */
  readonly adjusting: ReadonlySet<string>;
}

const ofJob = memoSliced(turnRound);

export const relationsOf: (job: Job) => Relations = ofJob.whole;

/** The same, worked out in slices for those who ask for it afterwards. */
export const turningRound = (job: Job): Slices<Relations> => ofJob.sliced(job);

function* turnRound(job: Job): Slices<Relations> {
  const holds = new Map<string, Part[]>();
  const behind = new Map<string, Part[]>();
  const renewedWith = new Map<string, Part[]>();
  const fluidsIn = new Map<string, Fluid[]>();
  const standsIn = new Map<string, Part[]>();
  const barredBy = new Map<string, Hazard[]>();
  const sets = new Map<string, (Limit | Check)[]>();
  const measuredBy = new Map<string, (Limit | Check)[]>();
  const adjusting = new Set<string>();
  let n = 0;
  for (const thing of job.things.values()) {
    if (++n % someAtOnce === 0) yield;
    if (thing.kind === "part") {
      for (const name of thing.heldBy) put(holds, name.text, thing);
      for (const name of thing.behind) put(behind, name.text, thing);
      for (const name of thing.renewWith) put(renewedWith, name.text, thing);
      for (const name of thing.holds) {
        const fluid = job.things.get(name.text);
        if (fluid?.kind !== "fluid") continue;
        put(fluidsIn, thing.name, fluid);
        put(standsIn, fluid.name, thing);
      }
    } else if (thing.kind === "fluid") for (const name of thing.in) put(fluidsIn, name.text, thing);
    else if (thing.kind === "hazard") for (const name of thing.safeBefore) put(barredBy, name.text, thing);
    else if (thing.kind === "limit" || thing.kind === "check") {
      for (const name of thing.setBy) {
        const by = name.text;
        put(sets, by, thing);
        const setter = job.things.get(by);
        if (setter?.kind === "fastener" && setter.torque === undefined && !setter.unread.has("torque")) adjusting.add(by);
      }
      for (const name of thing.of) put(measuredBy, name.text, thing);
    }
  }
  return { holds, behind, renewedWith, fluidsIn, standsIn, barredBy, sets, measuredBy, adjusting };
}

/**
 * A fastener that sets a bearing is let back behind its torque: it says so itself, or a play is set by it. One that is pulled to a torque and sets a preload by it is
 * not: the drag of a crushed sleeve or of a stack under its nut is not lowered by slackening the nut (common practice). Where a preload is made by letting back, `let back` says so.
 */
export function setsBearing(job: Job, fastener: Fastener): boolean {
  const { adjusting, sets } = relationsOf(job);
  return (
    adjusting.has(fastener.name) ||
    lineOf(fastener, "let-back") !== undefined ||
    fastener.unread.has("let-back") ||
    feltBack(fastener) ||
    (sets.get(fastener.name) ?? none).some((it) => it.kind === "limit" && isPlay(it))
  );
}

/** Slackened behind its run-up it is as it is to be: its own words say so, or it is an adjuster that nothing locks and that holds no part. */
export function isLeftBackedOff(job: Job, fastener: Fastener): boolean {
  if (feltBack(fastener)) return true;
  const { adjusting, holds } = relationsOf(job);
  return locksItself(fastener) && !holds.has(fastener.name) && (adjusting.has(fastener.name) || isAdjuster(fastener));
}

/** What a nut is backed off to give: a play, by its words or by its size. A length, a height or an angle is set by a nut that then clamps. */
function isPlay(limit: Limit): boolean {
  const set = bandOf(limit.set);
  if (set === undefined) return true;
  if (isPreload(limit)) return false;
  return plays.test(allWords(limit)) || (set.unit.dimension === "length" && set.high !== undefined && set.high.compare(aMillimetre) <= 0);
}

const plays = /\b(floats?|plays?|clearances?|slack|shake|rock\w*|\w*lash|free\w*|lift|gap|ends?|turns|spins?)\b/i;
/** More is no play of a bearing. A rule of this tool. */
const aMillimetre = (quantity("1", "mm") as Measured).value;

/** A drag: a torque, or a pull on a string. */
export function isPreload(limit: Limit): boolean {
  const dimension = bandOf(limit.set)?.unit.dimension;
  return dimension === "torque" || dimension === "force";
}

const none: readonly never[] = [];

function put<T>(map: Map<string, T[]>, key: string, value: T): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else if (!list.includes(value)) list.push(value);
}

/** A limit or check is critical by its own word, or because what it is of is. */
export function isCritical(job: Job, thing: { readonly critical?: boolean; readonly of?: readonly { readonly text: string }[] }): boolean {
  if (thing.critical === true) return true;
  return (thing.of ?? []).some((name) => {
    const of = job.things.get(name.text);
    return of !== undefined && "critical" in of && of.critical;
  });
}

/** What sets a limit, and for shims the part that they lie behind. */
export function settersWithHosts(job: Job, setBy: readonly { readonly text: string }[]): readonly { readonly text: string }[] {
  return [...setBy, ...setBy.flatMap(({ text }) => hostOfShims(job, text) ?? []).map((text) => ({ text }))];
}

/** The part that shims lie behind, by their name: `collar-shims` are loose while the collar is off. Undefined for what is no shims, or where no part is called so. */
function hostOfShims(job: Job, shims: string): string | undefined {
  if (job.things.get(shims)?.kind !== "shims") return undefined;
  const name = shims.replace(/-(shims?|packings?|plates|rings)$/, "");
  const host = job.things.get(name);
  return name !== shims && host?.kind === "part" && !host.implied ? name : undefined;
}
