// The parts order as it is drawn: what to order by supplier, each with its sum, as it is posted; below each thing the causes that ask for it, a line each; then what is there.
// Invariant: says what the report holds, and works nothing out. Each cause leads to its lines. No column is all nothing in every table.
import { type Slices, mapping, runThrough } from "../../../grammar/slices.ts";
import { putInto } from "../../model/grouped.ts";
import { type Column, type Document, type Row, type Section, type Sums, type Table, type TableRow, listOf } from "../draw/sections.ts";
import { type Told, listsOfOrder } from "./lists.ts";
import type { OrderLot, OrderReport, OrderRow } from "./order-report.ts";
import type { SupplierSum } from "./sums.ts";
import {
  causesOf,
  choiceWords,
  countColumns,
  errorWords,
  headlineWords,
  holdWords,
  jobsWords,
  lotAmount,
  moneyWords,
  noSource,
  orderCaution,
  partlyWords,
  quantityWords,
  standingSigns,
  sumNotes,
  sumParts,
  undecidedWords,
  whereWords,
} from "./words.ts";

export function orderSections(report: OrderReport): Document {
  return runThrough(layingOutOrder(report));
}

/** The same in slices. */
export function* layingOutOrder(report: OrderReport): Slices<Document> {
  const machines = report.jobs.flatMap((it) => it.machine ?? []);
  return {
    name: "Parts order",
    heading: {
      title: report.jobs.map((it) => it.title ?? it.file).join("; "),
      ...(machines.length === 0 ? {} : { machine: machines.join("; ") }),
      file: report.jobs.map((it) => it.file).join(", "),
    },
    headline: headlineWords(report),
    about: [errorWords(report), undecidedWords(report)].filter((it) => it !== undefined),
    parts: [
      ...(yield* bySupplier(report)),
      yield* without(report),
      yield* covered(report),
      listOf(
        "How it was chosen",
        choiceWords(report).map((words): Told => ({ words })),
        (it) => it.words,
      ),
      ...listsOfOrder(report, ["Nobody offers it"]).map(({ title, rows }) => listOf(title, rows, (it) => it.words)),
    ],
    foot: [orderCaution],
  };
}

// ---------------------------------------------------------------- by supplier

interface Sale {
  readonly row: OrderRow;
  readonly lot: OrderLot;
}

/** A section for each of whom something is bought, in the order of the sums. */
function* bySupplier(report: OrderReport): Slices<Section[]> {
  const groups = new Map<string | null, Sale[]>();
  for (const row of report.lines) for (const lot of row.lots) putInto(groups, lot.supplier, { row, lot });
  const sections: Section[] = [];
  for (const [supplier, sales] of groups) {
    const title = sales[0]?.lot.supplierName ?? "Of nobody who is named";
    const sums = report.suppliers.filter((it) => it.supplier === supplier);
    sections.push({ kind: "section", title, parts: [yield* salesTable(title, sales, sums, report)] });
  }
  return sections;
}

/** The suppliers' tables have the same columns, one below the other: a number that one of them has is a column of each. */
function* salesTable(label: string, sales: readonly Sale[], sums: readonly SupplierSum[], report: OrderReport): Slices<Table> {
  const { numbers, leads } = columnsOf(report);
  const columns: Column[] = [
    { title: "What", look: "item" },
    { title: "To order", look: "amount" },
    ...(numbers ? [{ title: "Their number", look: "late" } as const] : []),
    { title: "Price", look: "figure" },
    { title: "Total", look: "figure" },
    ...(leads ? [{ title: "Lead", look: "whole" } as const] : []),
  ];
  const rows = yield* mapping(sales, ({ row, lot }): TableRow => {
    const hold = holdWords(lot);
    return {
      ...firstOf(row),
      // A thing of several sales has a row for each, told apart by their sellers and packs.
      key: row.lots.length < 2 ? row.item : `${row.item} ${lot.supplier ?? ""} ${lot.pack ?? ""}${lot.onHold === null ? "" : " on hold"}`,
      sentence: row.name,
      cells: [
        what(row, report),
        { text: lotAmount(lot), ...(hold === "" ? {} : { note: "on hold" }) },
        ...(numbers ? [lot.number ?? ""] : []),
        { text: moneyWords(lot.unitPrice, lot.currency), code: lot.unitPrice === null ? undefined : perWords[lot.per ?? "open"] },
        moneyWords(lot.total, lot.currency),
        ...(leads ? [lot.lead ?? ""] : []),
      ],
      below: why(row, hold),
    };
  });
  const column = columns.findIndex((it) => it.title === "Total");
  return {
    kind: "table",
    label,
    ...(sales[0]?.lot.supplierName === undefined || sales[0].lot.supplierName === null ? {} : { whose: `from ${label}` }),
    look: "order sales stack",
    columns,
    groups: [{ rows }],
    sums: { column, rows: sums.flatMap(sumRows) },
    linesBelow: true,
    sameAnywhere: true,
    inMarkdown: "table",
  };
}

/** Which columns the suppliers' tables have besides those of each. */
function columnsOf(report: OrderReport): { readonly numbers: boolean; readonly leads: boolean } {
  const lots = report.lines.flatMap((row) => row.lots);
  return { numbers: lots.some((lot) => lot.number !== null), leads: lots.some((lot) => lot.lead !== null) };
}

const perWords = { pack: "a pack", each: "each", open: "each or a pack?" } as const;

/** What a supplier's sum is made of, where that is more than one thing, and the sum. */
function sumRows(it: SupplierSum): Sums["rows"][number][] {
  const of = `${it.name} ${it.currency}`;
  const parts = sumParts(it);
  return [
    ...(parts.length < 2 ? [] : parts.map(([title, amount]) => ({ title, figure: moneyWords(amount, it.currency), key: `${title} of ${of}` }))),
    { title: "Together", figure: moneyWords(it.total, it.currency), key: `sum of ${of}`, notes: sumNotes(it), strong: true },
  ];
}

/** The line that a row leads to: that of its first cause. */
function firstOf(row: OrderRow): Pick<TableRow, "at"> {
  return row.why[0] === undefined ? {} : { at: row.why[0] };
}

function what(row: OrderRow, report: OrderReport): TableRow["cells"][number] {
  const where = whereWords(row);
  const jobs = jobsWords(row, report);
  const small = [row.name === row.item ? "" : row.item, row.makersNumber === null ? "" : `maker's no. ${row.makersNumber}`].filter((it) => it !== "");
  return { text: row.name, lines: [where, jobs === "" ? "" : `for ${jobs}`].filter((it) => it !== ""), code: small.join(", ") };
}

/** A line for each cause, with every line of the sheet that it is of. */
function why(row: OrderRow, hold = ""): Row[] {
  const partly = row.lots.length === 0 ? "" : partlyWords(row);
  return [
    ...(partly === "" ? [] : [{ text: partly }]),
    ...causesOf(row).map(({ text, lines: [first, ...also] }): Row => ({ text, ...(first === undefined ? {} : { at: first, also }) })),
    ...(hold === "" ? [] : [{ text: `${hold}, not sent`, note: true } as const]),
    ...row.notes.map((text) => ({ text, note: true }) as const),
  ];
}

// ---------------------------------------------------------------- what is there

/** What is on the shelf or on its way, and what nobody has said how much of is needed. */
function* covered(report: OrderReport): Slices<Section | false> {
  const lines = report.lines.filter((row) => row.lots.length === 0 && row.standing !== "no source");
  const counts = countColumns({ ...report, lines });
  const columns: Column[] = [
    { title: "What", look: "item" },
    { title: "Needed", look: "figure" },
    { title: "Status", look: "late" },
    ...counts.map(([title]) => ({ title, look: "figure" }) as const),
  ];
  const cells = (row: OrderRow) => [
    what(row, report),
    quantityWords(row.need, row.unit),
    statusOf(row),
    ...counts.map(([, of]) => (Number(of(row)) === 0 ? "\u2013" : quantityWords(of(row), row.unit))),
  ];
  return lines.length > 0 && { kind: "section", title: "Nothing to order", parts: [yield* tableOf("Nothing to order", columns, lines, cells, report)] };
}

/** What nobody offers, with what asks for it. */
function* without(report: OrderReport): Slices<Section | false> {
  const lines = noSource(report);
  const columns: Column[] = [
    { title: "What", look: "item" },
    { title: "To order", look: "amount" },
    { title: "Status", look: "late" },
  ];
  const cells = (row: OrderRow) => [what(row, report), quantityWords(row.toOrder, row.orderUnit), statusOf(row)];
  return lines.length > 0 && { kind: "section", title: "Nobody offers it", parts: [yield* tableOf("Nobody offers it", columns, lines, cells, report)] };
}

function statusOf(row: OrderRow): string {
  return `${standingSigns[row.standing]} ${row.standing}`;
}

/** What is to be got, or needed, stands below that of the suppliers' tables: the first column is as wide as theirs. */
function* tableOf(
  label: string,
  columns: readonly Column[],
  lines: readonly OrderRow[],
  cells: (row: OrderRow) => TableRow["cells"],
  report: OrderReport,
): Slices<Table> {
  const { numbers, leads } = columnsOf(report);
  const first = `what${54 - (numbers ? 14 : 0) - (leads ? 9 : 0)}`;
  const rows = yield* mapping(lines, (row): TableRow => ({ ...firstOf(row), key: row.item, sentence: row.name, cells: cells(row), below: why(row) }));
  return { kind: "table", label, look: `order sales ${first} stack`, columns, groups: [{ rows }], linesBelow: true, sameAnywhere: true, inMarkdown: "table" };
}
