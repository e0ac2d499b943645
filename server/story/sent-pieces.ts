// Pieces of a thing that were sent out to be worked on, counted: how many went, how many are back by a day, and whether more are on than are here.
// Invariant: an order that can't be read counts for nothing; new ones are other pieces.
import type { OrderEntry, WorkDetail } from "../../grammar/tree.ts";
import { wholeNumber } from "../model/declare.ts";
import { grouped } from "../model/grouped.ts";
import type { Job } from "../model/job.ts";
import { type Ordered, isAt, mentionsOf, ordersOf, statusOf, statusUnread } from "../model/orders.ts";
import type { Thing } from "../model/things.ts";
import type { Where } from "../model/where.ts";
import { type Away, sentBy } from "./away.ts";
import { countAt, findingsOf } from "./decisions.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "./story.ts";

/** Pieces of which fewer came back than were sent, though all are on; or of which fewer were worked on than a finding wants repaired. */
export interface SentTooFew {
  readonly thing: Thing;
  /** Sent, or to be repaired. */
  readonly wanted: number;
  /** Come back, or worked on. */
  readonly done: number;
  /** It is those that came back which are too few. */
  readonly back: boolean;
  readonly where: Where;
  /** The finding that wants more repaired. */
  readonly found?: Found;
}

/** The lines that send a thing out to be worked on, and all the places of it. */
interface Sent {
  readonly name: string;
  readonly thing: Thing;
  readonly lines: readonly Ordered<WorkDetail>[];
  readonly cells: readonly (PartCell | FastenerCell)[];
}

/** Of each thing the first of the two that holds. */
export function sentTooFew(story: Story): SentTooFew[] {
  const { job } = story;
  const out: SentTooFew[] = [];
  for (const [name, all] of ordersOf(job).work) {
    const thing = job.things.get(name);
    const lines = all.filter(({ status }) => status?.status !== "cancelled" && status?.status !== "returned");
    const cells = piecesOf(story, name);
    if (thing === undefined || lines.length === 0 || cells.length === 0 || cells.some((it) => it.unsure || it.thing.implied)) continue;
    if (lines.some(({ entry }) => statusUnread(job, entry))) continue;
    const sent: Sent = { name, thing, lines, cells };
    const short = cameBackTooFew(job, sent) ?? workedOnTooFew(story, sent);
    if (short !== undefined) out.push({ thing, where: sentBy(lines[0] as Ordered<WorkDetail>).where, ...short });
  }
  return out;
}

type Short = Pick<SentTooFew, "wanted" | "done" | "back" | "found">;

function cameBackTooFew(job: Job, { name, lines, cells }: Sent): Short | undefined {
  // What came of an order came once, for all of its lines that send some.
  const orders = grouped(lines, ({ entry }) => entry.reference?.value ?? entry);
  let sent = 0;
  let came = 0;
  for (const own of orders.values()) {
    const went = own.reduce((sum, { detail }) => sum + wentBy(detail, cells), 0);
    sent += went;
    came += backBy(job, (own[0] as Ordered<WorkDetail>).entry, name, went, undefined);
  }
  const total = cells.reduce((sum, cell) => sum + cell.total, 0);
  const old = cells.reduce((sum, cell) => sum + cell.now.lots.reduce((n, lot) => n + (lot.isNew ? 0 : lot.count), 0), 0);
  return came < sent && old + (sent - came) > total ? { wanted: sent, done: came, back: true } : undefined;
}

/** Each finding by itself, and what they want together: two at the left and two at the right are four. */
function workedOnTooFew(story: Story, sent: Sent): Short | undefined {
  const findings = findingsOf(story).get(sent.name) ?? [];
  const toRepair = findings.filter((it) => it.decision?.detail.decision === "repair");
  for (const together of [...toRepair.map((it) => [it]), toRepair]) {
    const [first] = together;
    if (first === undefined) continue;
    // Decided otherwise later on, the first word is not the one that holds.
    if (findings.some((it) => it.seq > first.seq && it.decision !== undefined && it.decision.detail.decision !== "repair")) continue;
    const short = fewerThanFound(sent, first, together);
    if (short !== undefined) return { ...short, back: false, found: first };
  }
  return undefined;
}

function fewerThanFound({ lines, cells }: Sent, first: Found, together: readonly Found[]): Pick<Short, "wanted" | "done"> | undefined {
  const here = cells.filter((cell) => together.some((it) => it.places.includes(cell.place)));
  const wanted = here.reduce((sum, cell) => sum + wantedAt(together, cell), 0);
  const meant = lines.filter(({ detail }) => here.some((cell) => isAt(detail, cell.place)));
  // Without any count, or of one alone, there is nothing to compare.
  if (wanted < 2 || !meant.some(({ detail }) => detail.count !== undefined || detail.places.length > 0)) return undefined;
  // Sent by its place, it is that one; what is told of another place was mended in another way.
  if (together.length > 1 && meant.some(({ detail }) => detail.places.length > 0)) return undefined;
  const worked = meant.reduce((sum, { detail }) => sum + wentBy(detail, cells), 0);
  const history = here.flatMap((cell) => cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && it.seq > first.seq);
  const fresh = history.reduce((sum, it) => sum + (it.verb === "fit" && it.isNew ? it.count : 0), 0);
  const mended = history.reduce((sum, it) => sum + (it.verb === "repair" ? it.count : 0), 0);
  // What was worked on here as well as what came back is finished here: it is no other piece.
  const done = worked + fresh + (worked + mended <= wanted ? mended : 0);
  const on = here.reduce((sum, cell) => sum + cell.now.on, 0);
  return done < wanted && on > done ? { wanted, done } : undefined;
}

/** How many of a place are to be repaired: what two findings say of it may be of the same pieces, so they are not added up. */
function wantedAt(findings: readonly Found[], { place, total }: PartCell | FastenerCell): number {
  return Math.max(...findings.filter((it) => it.places.includes(place)).map((it) => countAt(it, place, total).count));
}

/** More of the old ones on than are here: the rest of what an order sent out came on a later day. */
export interface FittedTooMany {
  readonly cell: PartCell | FastenerCell;
  readonly moment: PartMoment | FastenerMoment;
  readonly away: number;
  readonly total: number;
  readonly sent: Away;
}

/** Of what was sent out, and came back on several days, the first `fit` of each thing that needs more than had come by its day. What never came is told by `sentTooFew`. */
export function fittedTooMany(story: Story): FittedTooMany[] {
  const { job } = story;
  const out: FittedTooMany[] = [];
  for (const [name, all] of ordersOf(job).work) {
    const list = all.filter(({ entry, sentOn }) => sentOn !== undefined && !statusUnread(job, entry) && (receivedLines(job, entry, name)?.length ?? 0) > 0);
    const cells = piecesOf(story, name);
    if (list.length === 0 || cells.some((it) => it.unsure || it.thing.implied)) continue;
    const total = cells.reduce((sum, cell) => sum + cell.total, 0);
    const orders = [...grouped(list, ({ entry }) => entry).values()].map((lines) => ({
      ordered: lines[0] as (typeof list)[number],
      went: lines.reduce((sum, { detail }) => sum + wentBy(detail, cells), 0),
    }));
    if (orders.some(({ ordered, went }) => backBy(job, ordered.entry, name, went, undefined) < went)) continue;
    const oldOn = new Map<PartCell | FastenerCell, number>(cells.map((cell) => [cell, cell.total]));
    const moments = cells.flatMap((cell) => (cell.history as readonly (PartMoment | FastenerMoment)[]).map((moment) => ({ cell, moment })));
    for (const { cell, moment } of moments.sort((a, b) => a.moment.seq - b.moment.seq)) {
      if (moment.phase !== "done") continue;
      oldOn.set(
        cell,
        moment.after.lots.reduce((sum, lot) => sum + (lot.isNew ? 0 : lot.count), 0),
      );
      if (moment.verb !== "fit" || moment.isNew || moment.day === undefined) continue;
      const { day } = moment;
      const on = [...oldOn.values()].reduce((sum, it) => sum + it, 0);
      const gone = orders.map(({ went, ordered: it }) => ({
        it,
        away: (it.sentOn as string) <= day ? went - backBy(job, it.entry, name, went, day) : 0,
      }));
      const away = gone.reduce((sum, it) => sum + it.away, 0);
      const first = gone.find((it) => it.away > 0)?.it;
      if (first === undefined || on + away <= total) continue;
      out.push({ cell, moment, away, total, sent: sentBy(first) });
      break;
    }
  }
  return out;
}

/** How many a line sends: a count is of each place that it names, and without one all at its places went. */
function wentBy(detail: WorkDetail, cells: readonly (PartCell | FastenerCell)[]): number {
  const each = wholeNumber(detail.count?.text);
  if (each !== undefined) return each * Math.max(1, detail.places.length);
  return cells.filter((cell) => isAt(detail, cell.place)).reduce((sum, cell) => sum + cell.total, 0);
}

/** Of what an order sent out, how many are back on a day, or in the end: what its `received` lines name, and all where its status says that it came or no line names any. */
function backBy(job: Job, entry: OrderEntry, name: string, went: number, day: string | undefined): number {
  const isBy = (date: string | undefined) => day === undefined || date === undefined || date <= day;
  const status = statusOf(job, entry);
  if (status?.status === "received" && isBy(status.date?.text)) return went;
  const lines = receivedLines(job, entry, name);
  if (lines === undefined || (lines.length === 0 && status?.status !== "received")) return went;
  return Math.min(
    went,
    lines.reduce((sum, it) => sum + (isBy(it.day) ? it.count : 0), 0),
  );
}

/** What the `received` lines of an order say of a thing; undefined where one says no number. */
function receivedLines(job: Job, entry: OrderEntry, name: string): { readonly count: number; readonly day: string | undefined }[] | undefined {
  const out: { count: number; day: string | undefined }[] = [];
  for (const { details } of mentionsOf(job, entry)) {
    for (const it of details) {
      if (it.kind !== "received" || it.fault !== undefined) continue;
      for (const { item, amount } of it.items) {
        if (item?.kind !== "name" || item.name.text !== name) continue;
        const count = wholeNumber(amount?.figure.text);
        if (count === undefined) return undefined;
        out.push({ count, day: it.date?.text });
      }
    }
  }
  return out;
}

function piecesOf(story: Story, name: string): (PartCell | FastenerCell)[] {
  return story.cells(name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
}
