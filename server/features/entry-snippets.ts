// Each entry with its usual lines, as somebody begins one: a blank for whatever is to be filled in, and no word more.
// Invariant: every template, with its blanks, is read without a fault; `TODAY` is the day that the door gives.
import type { EntryKind } from "../../grammar/words.ts";
import { asSnippet } from "./snippets.ts";

const templates: Readonly<Record<EntryKind, string>> = {
  sheet: 'sheet "___"\n  machine "___"\n  by "___"\n  opened TODAY',
  places: "places ___ ___, ___",
  use: 'use "___"',
  day: "day TODAY",
  rate: "rate 1 ___ = ___ ___",
  part: 'part ___ "___"\n  held by ___',
  fastener: 'fastener ___ "___"\n  thread ___\n  torque ___ .. ___\n  locked by ___\n  source "___"',
  fluid: 'fluid ___ "___"\n  in ___\n  capacity ___',
  limit: 'limit ___ "___"\n  worn max ___\n  of ___\n  source "___"',
  check: 'check ___ "___"\n  of ___',
  gauge: 'gauge ___ "___"\n  resolution ___\n  uncertainty ___\n  checked ___',
  hazard: 'hazard ___ "___"\n  safe before ___\n  restore after ___\n  caution "___"',
  step: 'step ___ "___"\n  ',
  measure: "measure ___ found\n  ___",
  seen: "seen ___ found ___",
  finding: "finding ___\n  is ___\n  decision ___",
  question: 'question ___ "___"\n  about ___',
  concession: 'concession ___ "___" by "___"',
  pause: 'pause TODAY "___"',
  supplier: 'supplier ___ "___"\n  currency ___\n  lead ___',
  offer: "offer ___ from ___\n  price ___\n  quoted TODAY",
  stock: 'stock ___ ___ "___"',
  order: 'order "___" to ___\n  status held\n  item ___ ___',
  need: 'need ___ ___ "___"',
  shims: 'shims ___ "___"\n  have ___ x ___\n  fitted ___ x ___',
  release: 'release by "___" TODAY\n  test "___"',
};

/** The text of an entry with its blanks. */
export function entryTemplate(word: EntryKind, today: string | undefined): string {
  return templates[word].replaceAll("TODAY", today ?? "___");
}

/** The same as an editor's snippet, a stop in each blank. */
export function entrySnippet(word: EntryKind, today: string | undefined): string {
  return asSnippet(entryTemplate(word, today)).text;
}
