// The door for a page in a browser: a folder of sheets as texts in memory, and what the other doors make of it.
// Invariant: nothing is read but the texts that were given; nothing is fetched or kept.
import { type SheetText, readSheet } from "../../grammar/sheet-text.ts";
import { type Answer, type Asked, type CheckJson, type Files, type PriceFile, Refused, type Solver, checkJson, figure, open, reports } from "../service.ts";

export { format } from "../service.ts";

export interface Folder {
  /** Puts a sheet or a price list (`.csv`) in, in place of one of the same path. */
  put(path: string, text: string): void;
  /** As `splitpin check --format json` tells it. Empty where there is no such sheet. */
  check(path: string): readonly CheckJson[];
  /**
   * A report by its name on the command line (`order`, `release`, …), drawn in one of its formats. Undefined where there is no such sheet, report or format,
   * or where what was asked for can't be given. `today`: ISO 8601. To choose an order (`{ choose: "cheapest" }`) it takes the solver, which `solver.js` beside
   * this module loads.
   */
  report(name: string, paths: readonly string[], format: string, today: string, asked?: Asked, solver?: () => Promise<Solver>): Promise<string | undefined>;
}

/** Paths are joined by `/`, without `.` and `..`. */
export function openFolder(texts: Readonly<Record<string, string>>): Folder {
  const sheets = new Map<string, SheetText>();
  const lists = new Map<string, PriceFile>();
  const put = (path: string, text: string) => {
    if (/\.csv$/i.test(path)) lists.set(path, { text });
    else sheets.set(path, readSheet(text));
  };
  for (const [path, text] of Object.entries(texts)) put(path, text);
  const files: Files = { read: (path) => sheets.get(path) ?? "missing", jobsheets: () => [...sheets.keys()], prices: (path) => lists.get(path) ?? "missing" };
  const service = open(files);
  const asGiven = (path: string) => path;

  return {
    put,
    check: (path) => service.check(path).map((it) => checkJson(it, asGiven)),
    async report(name, paths, format, today, asked = {}, solver = undefined) {
      const report = reports.find((it) => it.name === name);
      if (report?.formats.includes(format) !== true) return undefined;
      const made = await service.report(report, paths, asked, { today, width: 100, ...(solver === undefined ? {} : { solver }) });
      const drawn = made === undefined || made instanceof Refused ? undefined : made.draw(format);
      return typeof drawn === "string" ? drawn : undefined;
    },
  };
}

/** The answer of `splitpin figure`. */
export async function ask(question: string): Promise<Answer> {
  return figure(question);
}
