// Words that say of several pieces that all are renewed or none: “both or neither”, “all four or none”.
// Invariant: what is only sold so is not meant, and a later finding that gives its reason stands against it.
import type { FindingEntry, QuestionEntry } from "../../grammar/tree.ts";
import { type Where, where } from "../model/where.ts";
import { findingsOf } from "../story/decisions.ts";
import type { FastenerCell, PartCell, Story } from "../story/story.ts";

export function saysAllOrNone(text: string): boolean {
  return together.test(text) && !ofSale.test(text);
}

const together =
  /\b(both|all( (of them|two|three|four|five|six|eight|ten|twelve|\d+))?|the (pair|set|lot)) or (neither|none|nothing|not at all)\b|\bnever (the )?one (without|and not) the others?\b/iu;
const ofSale = /\b(sells?|sold|selling|suppl(y|ies|ied)|packs?|packets?|boxe[sd]|price\w*)\b/iu;

export interface Parted {
  readonly where: Where;
  readonly text: string;
  readonly fresh: PartCell | FastenerCell;
  readonly old: PartCell | FastenerCell;
}

/** What an answer or a reason says is renewed together, of which new ones and old ones are in at the end. */
export function partedInSpite(story: Story): readonly Parted[] {
  const { job } = story;
  const { entries } = job.own.sheet;
  return entries.flatMap((entry): Parted[] => {
    if (entry.kind !== "question" && entry.kind !== "finding") return [];
    const line = saidIn(entry);
    if (line === undefined) return [];
    const names = namesIn(story, entry);
    const cells = names.flatMap((name) => story.cells(name)).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    const isSaidSince = ({ thing, place }: PartCell | FastenerCell) =>
      (findingsOf(story).get(thing.name) ?? []).some(
        (it) => it.places.includes(place) && entries.indexOf(it.entry) > entries.indexOf(entry) && it.entry.details.some(({ kind }) => kind === "because"),
      );
    const isIn = (cell: PartCell | FastenerCell, isNew: boolean) => !cell.unsure && cell.now.lots.some((lot) => lot.isNew === isNew && !lot.forNow);
    const fresh = cells.find((it) => isIn(it, true));
    const old = cells.find((it) => isIn(it, false) && !isSaidSince(it) && !it.history.some(({ verb }) => verb === "repair"));
    return fresh === undefined || old === undefined ? [] : [{ where: where(job.path, entry, line.row, line.text.at), text: line.text.value, fresh, old }];
  });
}

function namesIn({ job }: Story, entry: QuestionEntry | FindingEntry): readonly string[] {
  if (entry.kind === "finding") return entry.of === undefined ? [] : [entry.of.text];
  const asked = job.things.get(entry.name?.text ?? "");
  return asked?.kind === "question" ? asked.about.map((it) => it.text) : [];
}

/** The last answer, or the reasons and notes of a finding. */
function saidIn(
  entry: QuestionEntry | FindingEntry,
): { readonly row: number; readonly text: { readonly at: Where["at"]; readonly value: string } } | undefined {
  for (const { row, ...it } of entry.details.toReversed())
    if ((it.kind === "answer" || it.kind === "because" || it.kind === "note") && it.text !== undefined && saysAllOrNone(it.text.value))
      return { row, text: it.text };
  return undefined;
}
