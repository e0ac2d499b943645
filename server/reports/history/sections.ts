// A machine's history, as it is drawn: its sheets, what keeps coming back, each limit's readings with their picture, each part's life.
import { recordOnly } from "../draw/heading.ts";
import { html } from "../draw/html.ts";
import type { Line } from "../draw/line.ts";
import type { Document, Parts, Section } from "../draw/sections.ts";
import { historyPicture } from "./picture.ts";
import type { HistoryReport, Life, LimitHistory, MachineHistory } from "./shapes.ts";
import {
  backWords,
  estimateNote,
  eventWords,
  hasTooFew,
  heads,
  historyHeadline,
  limitWords,
  onceWords,
  pictureNote,
  pointWords,
  sameName,
  sheetWords,
  toldWords,
  tooFewNote,
  trendWords,
} from "./words.ts";
import { machineLine } from "../draw/machine-line.ts";

export function historySections(report: HistoryReport): Document {
  const several = report.machines.length > 1;
  return {
    name: "History",
    heading: report,
    headline: historyHeadline(report.machines),
    parts: report.machines.flatMap((it): Parts => (several ? [{ kind: "section", title: machineLine(it), parts: historyParts(it) }] : historyParts(it))),
    foot: [estimateNote, sameName, recordOnly],
  };
}

/** For a page of its own and for the hand-over. */
export function historyParts(machine: MachineHistory): Parts {
  return [
    list(heads.sheets, machine.sheets, sheetWords),
    list(heads.back, machine.comesBack, backWords),
    machine.limits.length > 0 && limitsOf(machine.limits),
    machine.lives.length > 0 && { kind: "section", title: heads.lives, parts: machine.lives.map(lifeOf) },
    list(heads.conceded, machine.conceded, toldWords),
    list(heads.owned, machine.ownedUpTo, toldWords),
  ];
}

/** A card for each that was read again, and a row for each that was not. */
function limitsOf(limits: readonly LimitHistory[]): Section {
  const again = limits.filter((it) => it.points.length > 1);
  const once = limits.filter((it) => it.points.length <= 1);
  return {
    kind: "section",
    title: heads.limits,
    parts: [
      again.length > 0 && { kind: "picture", page: () => html`<p class="small">${pictureNote}</p>\n` },
      limits.some(hasTooFew) && { kind: "words", style: "note", text: tooFewNote },
      ...again.map(limitCard),
      once.length > 0 && {
        kind: "section",
        title: heads.once,
        look: "card",
        parts: [{ kind: "list", rows: once.map((it) => ({ text: onceWords(it), at: it.points[0] ?? it, key: `${it.limit} ${it.place} 0` })) }],
      },
    ],
  };
}

function list<T extends Line>(title: string, rows: readonly T[], words: (it: T) => string): Section | false {
  return rows.length > 0 && { kind: "section", title, parts: [{ kind: "list", rows: rows.map((it) => ({ text: words(it), at: it })) }] };
}

function limitCard(it: LimitHistory): Section {
  return {
    kind: "section",
    title: limitWords(it),
    look: "beside",
    parts: [
      {
        kind: "picture",
        page: () => {
          const drawn = historyPicture(it);
          return drawn !== undefined && html`<div class="picture">${drawn}</div>\n`;
        },
      },
      { kind: "list", rows: it.points.map((point, i) => ({ text: pointWords(point), at: point, key: `${it.limit} ${it.place} ${i}` })) },
      ...trendWords(it).map(({ over, words }) => ({ kind: "words", style: "plain", text: `${over === "" ? "" : `${over}: `}${words}` }) as const),
    ],
  };
}

function lifeOf(it: Life): Section {
  return {
    kind: "section",
    title: it.title,
    look: "named",
    parts: [{ kind: "list", rows: it.events.map((event, i) => ({ text: eventWords(event), at: event, key: `${it.name} ${it.place} ${event.kind} ${i}` })) }],
  };
}
