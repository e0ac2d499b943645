// What an order tells below its tables, as data: lists with a title, each line said once for every drawing, with the line of a sheet that it leads to.
// Invariant: says what the report holds, and works nothing out. A list of nothing is left out.
import {
  amountWords,
  backWords,
  jobByJobWords,
  listWords,
  noSource,
  notOrderedWords,
  onHoldWords,
  repairWords,
  surplusWords,
  waitingWords,
  workWords,
} from "./words.ts";
import type { OrderReport } from "./order-report.ts";

export interface ListOfOrder {
  readonly title: string;
  readonly rows: readonly Told[];
}

export interface Told {
  readonly words: string;
  readonly file?: string;
  readonly line?: number;
}

/** What each drawing tells in a place of its own. */
export type Own = "Job by job" | "Nobody offers it" | "Errors in the sheet";

/** `own`: lists that the drawing tells elsewhere. */
export function listsOfOrder(report: OrderReport, own: readonly Own[]): ListOfOrder[] {
  const byJob = jobByJobWords(report);
  const at = <T extends { readonly file: string; readonly line: number }>(rows: readonly T[], words: (it: T) => string): Told[] =>
    rows.map((it) => ({ words: words(it), file: it.file, line: it.line }));
  const plainly = (rows: readonly string[]): Told[] => rows.map((words) => ({ words }));
  const all: readonly (readonly [title: string, rows: readonly Told[]])[] = [
    ["On hold", plainly(report.onHold === null ? [] : onHoldWords(report.onHold))],
    ["Job by job", plainly(byJob === undefined ? [] : [byJob])],
    [
      "Work to send out",
      [
        ...at(
          report.work.filter((it) => it.status !== "sent"),
          workWords,
        ),
        ...at(report.repairs, repairWords),
      ],
    ],
    [
      "Work sent out",
      at(
        report.work.filter((it) => it.status === "sent"),
        workWords,
      ),
    ],
    ["To send back", plainly(report.back.map(backWords))],
    ["Came and was not ordered", at(report.notOrdered, notOrderedWords)],
    ["Not needed after all", at(report.surplus, surplusWords)],
    [
      "Nobody offers it",
      plainly(
        noSource(report).map((it) => `${amountWords(it.toOrder, it.orderUnit, it)}${it.makersNumber === null ? "" : `, maker's number ${it.makersNumber}`}`),
      ),
    ],
    ["Not decided", at(report.undecided, (it) => it.text)],
    ["Waiting for an answer", at(report.waiting, waitingWords)],
    ["Errors in the sheet", at(report.errors, (it) => it.text)],
    ["Price lists", plainly(report.lists.map(listWords))],
  ];
  return all.flatMap(([title, rows]) => (rows.length === 0 || own.some((it) => it === title) ? [] : [{ title, rows }]));
}
