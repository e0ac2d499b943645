// The figures of a thing, for its name under the pointer: a limit's bands in both systems and how it last read, a fastener's thread, torque and pin.
// Invariant: verdicts are those of the walk; what is from a table says from which, and what is an estimate says so.
import type { Locking } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Fastener, Limit, Thing } from "../model/things.ts";
import { torqueText, wantedOf } from "../model/torque.ts";
import { measuredList, quantityText } from "../model/values.ts";
import { bothSystems } from "../quantities/quantity.ts";
import { readsSo } from "../rules/verdict-words.ts";
import { overProof } from "../trade/bolts.ts";
import { sourceText } from "../trade/source.ts";
import { pinSuits } from "../trade/split-pins.ts";
import { threadOf } from "../trade/threads.ts";
import type { Verdict } from "../story/verdict.ts";
import { judge } from "../story/verdicts.ts";
import { walk } from "../story/walk.ts";
import { rangeInBoth } from "./both-systems.ts";
import { figure } from "./figure.ts";

/** Paragraphs; none where there is nothing to add to what is written. */
export function figuresOfThing(job: Job, thing: Thing): string[] {
  if (thing.kind === "limit") return ofLimit(job, thing);
  if (thing.kind === "fastener") return ofFastener(thing);
  return [];
}

function ofLimit(job: Job, limit: Limit): string[] {
  const bands = (["new", "set", "worn"] as const).flatMap((name) => {
    const range = limit[name];
    return range === undefined ? [] : [`${name} ${rangeInBoth(range)}`];
  });
  const forms = (["spread", "ovality", "taper"] as const).flatMap((name) => {
    const [most] = limit[name] === undefined ? [] : measuredList([limit[name]]);
    return most === undefined ? [] : [`${name} max ${bothSystems(most)}`];
  });
  const all = [...bands, ...forms];
  const source = limit.source === undefined ? "No source is given." : `Source: ${limit.source}.`;
  const latest = latestOf(judge(walk(job)).verdicts.filter((it) => it.limit.name === limit.name));
  return [...(all.length === 0 ? [] : [`${all.join("; ")}. ${source}`]), ...latest.map((it) => `${verdictWords(it)}.`)];
}

/** The last verdict of each band at each place. */
function latestOf(verdicts: readonly Verdict[]): Verdict[] {
  const last = new Map<string, Verdict>();
  for (const it of verdicts) last.set(`${it.place} ${it.position ?? ""} ${["spread", "ovality", "taper"].includes(it.band) ? it.band : ""}`, it);
  return [...last.values()].sort((a, b) => a.seq - b.seq);
}

/** “Left hub end float is 0.0143 in when found: out, worn max 0.010 in”. */
export function verdictWords(verdict: Verdict): string {
  const outcome = { in: "in", out: "out", doubt: "in doubt" }[verdict.outcome];
  const plain = verdict.uncertaintySquared === undefined ? ", by plain comparison, for no gauge is named" : " (ISO 14253-1)";
  return `${readsSo(verdict)} (${verdict.stage}): ${outcome}${plain}; ${isForm(verdict) ? "" : `${verdict.band} `}${verdict.against.text}`;
}

function isForm({ band }: Verdict): boolean {
  return band === "spread" || band === "ovality" || band === "taper";
}

function ofFastener(fastener: Fastener): string[] {
  const out: string[] = [];
  for (const it of fastener.threads) out.push(...(it.thread.free ? [] : threadFigures(it.thread.designation, it.thread.leftHand !== undefined, it)));
  if (fastener.torque !== undefined) out.push(...torqueFigures(fastener));
  if (fastener.locking?.locking.kind === "split pin") out.push(...splitPinFigures(fastener.locking.locking, fastener));
  return out;
}

/** What the bench's figure says of a thread, with its source. */
export function threadFigures(designation: string, leftHand: boolean, by: { readonly grade?: string; readonly class?: string }): string[] {
  const strength = by.grade !== undefined ? ` grade ${by.grade}` : by.class !== undefined ? ` class ${by.class}` : "";
  return figureParagraphs(`${designation}${leftHand ? " LH" : ""}${strength}`);
}

/** An answer of the bench as paragraphs: the line, then source and how sure; what is not known is said to be so. */
export function figureParagraphs(query: string): string[] {
  const answer = figure(query);
  if (answer.known) return [answer.line, `Source: ${answer.source} (${answer.confidence}).`];
  return [answer.line];
}

/** The range in both systems, whose figure it is, and with grade and K the share of proof load, as an estimate. */
export function torqueFigures(fastener: Fastener): string[] {
  const { torque } = fastener;
  if (torque === undefined || torqueText(torque) === "") return [];
  const how = torque.condition === undefined ? "" : `, threads ${torque.condition}`;
  const source = fastener.source === undefined ? "No source is given." : `Source: ${fastener.source}.`;
  const out = [`Torque ${torque.range === undefined ? torqueText(torque) : rangeInBoth(torque.range)}${how}. ${source}`];
  const band = wantedOf(fastener)?.last.band;
  if (torque.k === undefined || band?.high === undefined || band.unit.dimension !== "torque") return out;
  for (const { thread, grade, class: boltClass } of fastener.threads) {
    const known = thread.free ? undefined : threadOf(thread.designation, thread.leftHand !== undefined);
    const proof =
      known === undefined
        ? undefined
        : overProof(known, { ...(grade === undefined ? {} : { grade }), ...(boltClass === undefined ? {} : { class: boltClass }) }, torque.k, band.high);
    if (proof !== undefined)
      out.push(`Estimate: the upper figure asks for about ${proof.percent} % of proof load (${proof.strength.name}) at K ${torque.k}. ${sourceText(proof)}.`);
  }
  return out;
}

/** Its size in both systems, and whether it suits the thread of its fastener; or what its standard says of that size. */
export function splitPinFigures(locking: Locking, fastener: Fastener | undefined): string[] {
  const sizes = measuredList(locking.size);
  const [diameter] = sizes;
  const [written] = locking.size;
  if (diameter === undefined || written === undefined) return [];
  const size = `Split pin ${sizes.map((it) => (it === undefined ? "?" : bothSystems(it))).join(" x ")}. Used once: fit a new one.`;
  const threads = (fastener?.threads ?? []).flatMap(({ thread }) => (thread.free ? undefined : threadOf(thread.designation)) ?? []);
  const verdicts = threads.flatMap((thread) => pinSuits(diameter.value, thread) ?? []);
  if (verdicts.length > 0) return [size, ...verdicts.map((it) => `${it.sentence} Source: ${sourceText(it)}.`)];
  return [size, ...figureParagraphs(`split pin ${quantityText(written, locking.size.at(-1)?.unit ?? written.unit)}`)];
}
