// What is shown behind the lines that are on the screen, from what the last check made: verdicts, places, lockings, days, faults that are still open.
// Invariant: nothing here is written into the sheet, and an entry that was edited since the last check shows nothing.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { putInto } from "../model/grouped.ts";
import { entriesBetween } from "./at.ts";
import type { Detail, Entry } from "../../grammar/tree.ts";
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import { lockingText } from "../model/titles.ts";
import { measuredList } from "../model/values.ts";
import { moneyText, roundedMoney } from "../quantities/money.ts";
import { otherSystem } from "../quantities/quantity.ts";
import type { Diagnostic } from "../rules/check.ts";
import { verdictValue } from "../rules/verdict-words.ts";
import type { Story } from "../story/story.ts";
import { type Verdict, isDifference } from "../story/verdict.ts";
import { judge } from "../story/verdicts.ts";
import { type Offer, offersOf } from "../supply/offers.ts";
import { memo } from "../model/memo.ts";
import { type OfEntry, indexing } from "./by-entry.ts";
import { waitingWords } from "./fit-waits.ts";
import type { HintKind } from "./hint-kinds.ts";

export interface InlayHint {
  /** From 0. */
  readonly line: number;
  readonly column: number;
  readonly text: string;
  readonly says?: string;
}

export interface HintsAsked {
  /** The last check's; what it found stands moved with its lines in `list`. */
  readonly story: Story;
  readonly list: readonly Diagnostic[];
  readonly from: number;
  /** The last line that is asked about. */
  readonly to: number;
  readonly kinds: readonly HintKind[];
}

export function* hinting(sheet: SheetText, { story, list, from, to, kinds }: HintsAsked): Slices<InlayHint[]> {
  const known = yield* indexing(story);
  let n = 0;
  const out: InlayHint[] = [];
  for (const { entry, start } of entriesBetween(sheet, from, to)) {
    const of = known.get(entry);
    for (const detail of entry.details) {
      if (n++ % someAtOnce === 0) yield;
      const line = start + detail.row;
      if (line < from || line > to || detail.fault !== undefined) continue;
      for (const kind of kinds) {
        const hint = hintOf[kind]({ story, list, entry, detail, of, line });
        if (hint === undefined) continue;
        out.push({ line, column: lineText(sheet, line).trimEnd().length, text: hint.text, ...(hint.says === undefined ? {} : { says: hint.says }) });
      }
    }
  }
  return out;
}

interface At {
  readonly story: Story;
  readonly list: readonly Diagnostic[];
  readonly entry: Entry;
  readonly detail: Detail;
  readonly of: OfEntry | undefined;
  readonly line: number;
}
interface Hint {
  readonly text: string;
  readonly says?: string;
}

const hintOf: Readonly<Record<HintKind, (at: At) => Hint | undefined>> = {
  verdicts({ of, detail }) {
    if (detail.kind !== "reading") return undefined;
    const verdicts = of?.verdicts.get(detail.row)?.filter((it) => !it.workedOut) ?? [];
    const worst =
      verdicts.find((it) => it.outcome === "out" && (it.band !== "new" || it.renewed)) ?? verdicts.find((it) => it.outcome === "doubt") ?? verdicts[0];
    return worst === undefined ? undefined : { text: verdictText(worst) };
  },
  places({ story, of, detail }) {
    if (detail.kind !== "action" || detail.places.length > 0) return undefined;
    const named = new Set(of?.moments.get(detail.row)?.map((it) => it.cell.place));
    // In the order in which the sheet names them.
    const places = [...story.job.kindsOfPlace.keys()].filter((it) => named.has(it));
    if (places.length === 0) return undefined;
    return { text: places.length > 4 ? `${places.slice(0, 3).join(", ")} and ${places.length - 3} more` : places.join(", ") };
  },
  locking({ of, detail }) {
    if (detail.kind !== "action" || detail.verb !== "lock") return undefined;
    const moments = of?.moments.get(detail.row)?.filter((it) => it.moment.verb === "lock") ?? [];
    const [first] = moments;
    const locking = first?.cell.kind === "fastener" ? (detail.with === undefined ? first.cell.thing.locking?.locking : undefined) : undefined;
    const count = moments.reduce((sum, it) => sum + it.moment.count, 0);
    if (locking === undefined && count < 2) return undefined;
    return { text: [...(locking === undefined ? [] : [lockingText(locking)]), ...(count < 2 ? [] : [`on ${count}`])].join(", ") };
  },
  days({ of, detail }) {
    if (detail.kind !== "done" || detail.date !== undefined) return undefined;
    const day = of?.visits.find((it) => it.phase === "done")?.day;
    return day === undefined ? undefined : { text: day };
  },
  faults({ of, detail, list, line }) {
    if (detail.kind !== "is" || of === undefined || of.found.length === 0) return undefined;
    const here = list.filter((it) => it.line === line && it.rule !== "syntax" && it.rule !== "fellow-unchecked");
    if (here.some((it) => it.severity === "error" || it.severity === "warning")) return { text: "still open" };
    const cured = here.find((it) => it.severity === "hint" && /\bline \d+/.test(it.message));
    return cured === undefined ? undefined : { text: `cured, line ${/\bline (\d+)/.exec(cured.message)?.[1]}`, says: cured.message };
  },
  waits({ story, of, detail }) {
    if (detail.kind !== "action" || detail.verb !== "fit") return undefined;
    const moments = of?.moments.get(detail.row)?.filter((it) => it.moment.phase === "planned" && it.moment.verb === "fit") ?? [];
    const places = new Map<string, string[]>();
    for (const it of moments) {
      const words = waitingWords(story, it);
      if (words !== undefined) putInto(places, words, it.cell.place);
    }
    // What is so of all that it fits needs no place.
    const said = [...places].map(([words, of]) => (of.length === moments.length ? words : `${of.join(", ")}: ${words}`));
    return said.length === 0 ? undefined : { text: said.slice(0, 2).join("; ") };
  },
  prices({ story, entry, detail }) {
    if (entry.kind !== "offer" || detail.kind !== "price") return undefined;
    const offer = offersByEntry(story).get(entry);
    const each = offer === undefined ? undefined : eachOf(offer);
    return each === undefined ? undefined : { text: each };
  },
  workedOut({ story, entry, detail }) {
    if (entry.kind !== "limit" || detail.kind !== "equals") return undefined;
    const last = lastWorkedOut(story).get(entry.name?.text ?? "");
    return last === undefined || last.length === 0
      ? undefined
      : { text: last.map((it) => `${it.place === "" ? "" : `${it.place} `}${verdictValue(it)}`).join(", ") };
  },
  otherSystem({ detail }) {
    if (detail.kind !== "reading") return undefined;
    const others = measuredList(detail.figures).flatMap((it) => (it === undefined ? [] : otherSystem(it).slice(0, 1)));
    return others.length === 0 ? undefined : { text: others.join(", ") };
  },
};

/** `✗ worn max 0.012 in` */
function verdictText(it: Verdict): string {
  // Past new is no fault of what was not renewed: it may be worn and usable.
  if (it.band === "new" && it.outcome === "out" && !it.renewed) return `not as new: ${it.against.text}`;
  const sign = { in: "✓", out: "✗", doubt: "?" }[it.outcome];
  return `${sign} ${isDifference(it) ? "" : `${it.band} `}${it.against.text}`;
}

const offersByEntry: (story: Story) => ReadonlyMap<Entry, Offer> = memo((story) => {
  const out = new Map<Entry, Offer>();
  for (const list of offersOf([story]).values()) for (const it of list) out.set(it.where.entry, it);
  return out;
});

/** Of a pack whose price is of all in it, what one comes to. */
function eachOf({ price, per, pack }: Offer): string | undefined {
  if (price === undefined || per !== "pack" || pack === undefined || pack.unit !== undefined) return undefined;
  return `${moneyText(roundedMoney({ ...price, amount: price.amount.div(pack.value) }))} each`;
}

const lastWorkedOut: (story: Story) => ReadonlyMap<string, readonly Verdict[]> = memo((story) => {
  const byPlace = new Map<string, Map<string, Verdict>>();
  for (const it of judge(story).verdicts) {
    if (!it.workedOut) continue;
    const places = byPlace.get(it.limit.name) ?? new Map<string, Verdict>();
    byPlace.set(it.limit.name, places.set(it.place, it));
  }
  return new Map([...byPlace].map(([name, places]) => [name, [...places.values()]]));
});
