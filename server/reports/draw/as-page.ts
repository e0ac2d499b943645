// A report as a whole page: its sections, each row with the line that it leads to and a name that stays as lines move.
// Invariant: what is written in a sheet is text there.
import { type Slices, run } from "../../../grammar/slices.ts";
import { column, figureAndUnit } from "./figure-column.ts";
import { type Content, Markup, html } from "./html.ts";
import { cautionList, lineCell, lineIn, pageOf, rowAt } from "./page.ts";
import { bareWords, prose } from "./prose.ts";
import { type Cell, type Document, type List, type Part, type Parts, type Row, type Section, type Sums, type Table, type TableRow, drawn } from "./sections.ts";

export function* drawingPage({ name, heading, headline, about = [], parts, foot }: Document): Slices<string> {
  return pageOf({
    name,
    heading,
    ...(headline === undefined ? {} : { headline }),
    about,
    body: yield* inside(parts, { own: heading.file, under: [] }),
    foot: foot.length === 1 ? prose(foot[0] as string) : foot.map((it) => html`<p>${prose(it)}</p>\n`),
  });
}

/** Where a part stands: of which sheet the page is, and under which heads. */
interface Around {
  readonly own: string | undefined;
  readonly under: readonly string[];
}

function* inside(parts: Parts, around: Around): Slices<Content[]> {
  const out: Content[] = [];
  for (const it of drawn(parts)) out.push(yield* markupOf(it, around));
  return out;
}

/** So many rows a slice. */
const someRows = 50;

function* markupOf(part: Part, around: Around): Slices<Content> {
  yield;
  switch (part.kind) {
    case "section":
      return yield* sectionOf(part, around);
    case "words": {
      const at = part.at !== undefined && html` ${lineIn(around.own, part.at)}`;
      if (part.style === "strong") return html`<p${part.at !== undefined && rowAt(part.at, rowName(part.text, around))}><b>${prose(part.text)}</b></p>\n`;
      if (part.style === "sign") return html`<p class="sign">${prose(part.text)}</p>\n`;
      if (part.style === "plain") return html`<p>${prose(part.text)}${at}</p>\n`;
      return html`<p class="${part.style === "facts" ? "facts" : "small"}">${part.code !== undefined && html`<span class="code">${part.code}</span>: `}${prose(part.text)}${at}</p>\n`;
    }
    case "list": {
      const items: Markup[] = [];
      for (let i = 0; i < part.rows.length; i += someRows) {
        items.push(inOne(itemsOf({ ...part, rows: part.rows.slice(i, i + someRows) }, around)));
        yield;
      }
      return listOf(part.look, items);
    }
    case "table":
      return yield* tableMarkup(part, around);
    case "picture":
      return yield* run(part.page());
    case "cautions":
      return cautionList(part.list);
  }
}

/** Joined at once: a text of so many pieces as a long page has would be put together in one go when it is sent. */
function inOne(list: readonly Markup[]): Markup {
  return new Markup(list.map((it) => it.text).join(""));
}

function* sectionOf({ title, parts, look, at, count, own: of }: Section, { own: whole, under }: Around): Slices<Markup> {
  const own = of ?? whole;
  const head = [prose(title), at !== undefined && html` ${lineIn(own, at)}`, count !== undefined && html` <span class="code">${count}</span>`];
  const within = { own, under: [...under, title] };
  const all = drawn(parts);
  const each = yield* inside(all, within);
  const body =
    look === "columns"
      ? all.map((it, i) => [
          // What is no section of its own stands above the columns.
          it.kind === "section" && all[i - 1]?.kind !== "section" && html`<div class="columns">\n`,
          each[i],
          it.kind === "section" && all[i + 1]?.kind !== "section" && html`</div>\n`,
        ])
      : each;
  if (look === "advice") return html`<div class="advice"><p>${head}</p>\n${body}</div>\n`;
  if (under.length > 0) {
    const level = under.length > 1 ? "h4" : "h3";
    return html`<div class="${look ?? "group"}">${title !== "" && html`<${new Markup(level)}>${head}</${new Markup(level)}>\n`}${body}</div>\n`;
  }
  return html`<section${(look === "card" || look === "cautions" || look === "beside") && html` class="${look}"`}>
<h2>${head}</h2>
${body}</section>
`;
}

/** By which a row is known again when the page is drawn anew: numbers of lines move, and are left out of it. */
function rowName(words: string, { under }: Around): string {
  return [...under, words].join(" ").replace(/\bline \d+/g, "line");
}

const box = html`<span class="box" aria-hidden="true">\u2610</span>`;

/** `inRow`: each is a line of the row above it, and none by itself. */
function listMarkup(list: Omit<List, "kind">, around: Around, inRow = false): Markup {
  return listOf(list.look, itemsOf(list, around, inRow));
}

function itemsOf({ rows, look }: Omit<List, "kind">, around: Around, inRow = false): Markup[] {
  const item = (it: Row): Markup => {
    const words = it.strong === true ? html`<b>${prose(it.text)}</b>` : prose(it.text);
    const content = it.page ?? [
      look === "tick" && html`${box} `,
      words,
      it.code !== undefined && html` <span class="code rule">${it.code}</span>`,
      it.at !== undefined && html` ${look === "open" ? lineCell(around.own, it.at) : lineIn(around.own, it.at)}`,
      (it.also ?? []).map((one) => html`, ${lineIn(around.own, one)}`),
    ];
    return html`<li${it.note === true && html` class="note"`}${it.at !== undefined && !inRow && rowAt(it.at, rowName(it.key ?? it.text, around))}>${content}${it.below !== undefined && it.below.length > 0 && listMarkup({ rows: it.below }, around)}</li>\n`;
  };
  return rows.map(item);
}

function listOf(look: List["look"], items: readonly Markup[]): Markup {
  return html`<ul${look !== undefined && html` class="${look}"`}>
${items}</ul>
`;
}

function* tableMarkup(table: Table, around: Around): Slices<Markup> {
  const { label, look, columns, groups, sums, linesBelow, sameAnywhere } = table;
  const home = sameAnywhere ? { ...around, under: [] } : around;
  const width = columns.length + (linesBelow ? 0 : 1);
  const all = groups.flatMap(({ rows }) => rows);
  // A row that has more below its cells is a body of its own.
  const tall = all.some((it) => it.verdict !== undefined || it.below !== undefined);
  // Figures of one column, and what they come to, are set by their points.
  const figures = columns.map((it, i) => {
    if (it.look !== "figure") return undefined;
    const below = sums?.column === i ? sums.rows.map(({ figure }) => figure) : [];
    return column([...all.map(({ cells }) => textOf(cells[i] ?? "")), ...below].map(figureAndUnit));
  });
  const row = (it: TableRow, n: number): Markup => {
    const cells = it.cells.map((cell, i) => cellMarkup(table, i, cellContent(cell, columns[i]?.look, figures[i]?.[n]), isNothing(cell)));
    const name = rowName(it.key ?? it.cells.map(plainCell).join(" "), home);
    const at = it.at === undefined ? html` data-row="${name.slice(0, 200)}"` : rowAt(it.at, name);
    const line = !linesBelow && html`<td class="line"${stacked(look) && html` data-label="Line"`}>${it.at !== undefined && lineCell(around.own, it.at)}</td>`;
    if (!tall) return html`<tr${at}>${cells}${line}</tr>\n`;
    return html`<tbody${at}>
<tr>${cells}${line}</tr>
${it.verdict !== undefined && html`<tr><td colspan="${width}" class="verdict"><span class="sign">${it.verdict.sign}</span> ${prose(it.verdict.words)}</td></tr>\n`}${it.below !== undefined && it.below.length > 0 && html`<tr class="why"><td colspan="${width}">${listMarkup({ rows: it.below }, around, linesBelow)}</td></tr>\n`}</tbody>
`;
  };
  const bodies: Content[][] = groups.map(() => []);
  let n = 0;
  for (const [i, { rows }] of groups.entries()) {
    for (let from = 0; from < rows.length; from += someRows) {
      bodies[i]?.push(inOne(rows.slice(from, from + someRows).map((it) => row(it, n++))));
      yield;
    }
  }
  return html`<table class="${look}" aria-label="${bareWords(label)}">
<thead><tr>${columns.map((it, i) => headMarkup(it, i === 0 ? table.whose : undefined))}${!linesBelow && html`<th scope="col" class="line">Line</th>`}</tr></thead>
${groups.map(({ title, note, rows }, i) => [
  !tall && html`<tbody>\n`,
  title !== undefined &&
    html`<tr class="group"><th scope="rowgroup" colspan="${width}">${prose(title)}${note === undefined ? html` <span class="code">${rows.length}</span>` : html`<br><span class="code">${prose(note)}</span>`}</th></tr>\n`,
  bodies[i],
  !tall && html`</tbody>\n`,
])}${sums !== undefined && sumsMarkup(sums, width, figures[sums.column]?.slice(all.length) ?? [], home)}</table>
`;
}

/** In a body of their own, not in a foot: a printer would set a foot below the rows of every page. */
function sumsMarkup({ rows, column: under }: Sums, width: number, figures: readonly Content[], around: Around): Markup {
  const rest = width - under - 1;
  return html`<tbody class="sums">
${rows.map((it, i) => {
  const notes = (it.notes ?? []).map((note) => html`<br><span class="note">${prose(note)}</span>`);
  return html`<tr data-row="${rowName(it.key, around).slice(0, 200)}"><th scope="row" colspan="${under}">${it.strong === true ? html`<span class="item">${it.title}</span>` : it.title}${notes}</th><td class="n${it.strong === true && " get"}">${figures[i]}</td>${rest > 0 && html`<td colspan="${rest}"></td>`}</tr>\n`;
})}</tbody>
`;
}

function headMarkup({ title, look }: Table["columns"][number], whose?: string): Markup {
  if (look === "box") return html`<th scope="col"><span class="hidden">${title}</span></th>`;
  const printed = whose !== undefined && html`<span class="printed">, ${prose(whose)}</span>`;
  return html`<th scope="col"${(look === "figure" || look === "amount") && html` class="n"`}>${title}${printed}</th>`;
}

const cellClasses = { figure: "n", amount: "n get", sign: "sign", code: "code", whole: "whole", late: "late", box: "box", item: "" } as const;

function cellMarkup({ columns, look }: Table, i: number, content: Content, empty: boolean): Markup {
  const is = columns[i]?.look;
  const name = `${is === undefined ? "" : cellClasses[is]}${empty ? " none" : ""}`.trim();
  if (is === "box") return html`<td class="box" aria-hidden="true">\u2610</td>`;
  const label = stacked(look) && i > 0 && html` data-label="${columns[i]?.title ?? ""}"`;
  return html`<td${name !== "" && html` class="${name}"`}${label}>${content}</td>`;
}

function stacked(look: string): boolean {
  return look.split(" ").includes("stack");
}

/** `figure`: its text, set by its point. */
function cellContent(cell: Cell, look: Table["columns"][number]["look"], figure: Content): Content {
  const { text = "", lines = [], code = "", note = "" } = typeof cell === "string" ? { text: cell } : cell;
  const shown = figure ?? prose(text);
  const below = (words: string, name: string, first: boolean) => words !== "" && [!first && html`<br>`, html`<span class="${name}">${prose(words)}</span>`];
  const bare = text === "" && lines.length === 0;
  return [
    text !== "" && look === "item" ? html`<span class="item">${shown}</span>` : shown,
    lines.map((it, i) => [(i > 0 || text !== "") && html`<br>`, html`<span class="${look === "item" ? "part" : "whole"}">${prose(it)}</span>`]),
    below(code, "code", bare),
    below(note, "note", bare && code === ""),
  ];
}

/** A dash says so down a column; where a row is a block of its own it says nothing. */
function isNothing(cell: Cell): boolean {
  return ["", "\u2013"].includes(plainCell(cell).trim()) && (typeof cell === "string" || (cell.code === undefined && cell.note === undefined));
}

function textOf(cell: Cell): string {
  return typeof cell === "string" ? cell : (cell.text ?? "");
}

function plainCell(cell: Cell): string {
  return typeof cell === "string" ? cell : [cell.text ?? "", ...(cell.lines ?? [])].join(" ");
}
