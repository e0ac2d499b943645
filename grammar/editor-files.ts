// What editors are given, made from the table of words: the TextMate grammar, the language configuration, and the tables of the reference.
// Invariant: pure; `.ci/generate-grammar.ts` writes the files, and a test fails where one is stale.
import { wordsThatGoOn } from "./tokens.ts";
import { withArticle } from "./message-words.ts";
import {
  actionWords,
  ambiguousWords,
  bearers,
  conditions,
  decisions,
  detailWords,
  entryWords,
  functions,
  lifters,
  lockingPhrases,
  lockings,
  materials,
  stages,
  statuses,
  torqueConditions,
  verdicts,
} from "./words.ts";
import { type MeantWord, meantWords } from "./words/meant-words.ts";

// ---------------------------------------------------------------- patterns

/** No word goes on behind this. */
const end = "(?![\\p{L}\\p{M}\\p{N}])(?!-[\\p{L}\\p{N}])";
/** No word has begun before this. */
const begin = "(?<![\\p{L}\\p{M}\\p{N}-])";
const name = "\\p{L}[\\p{L}\\p{M}\\p{N}]*(?:-[\\p{L}\\p{N}][\\p{L}\\p{M}\\p{N}]*)*";
const figure = "(?:\\d+-\\d+/\\d+|\\d+/\\d+|\\d+(?:[.,]\\d+)?|\\.\\d+)";

const one = (words: Iterable<string>) =>
  `(?:${[...new Set(words)]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map((it) => it.replace(/[.*+?^${}()|[\]\\]/g, "\\$&").replaceAll(" ", "\\s+"))
    .join("|")})`;

const titled = ["part", "fastener", "fluid", "limit", "check", "gauge", "hazard", "step", "question", "supplier", "shims"];
const details = detailWords.map((it) => it.word).filter((it) => it !== "=");
const verbs = actionWords.map((it) => it.word);
const choices = [...stages, ...verdicts, ...statuses, ...decisions, ...materials, ...lifters, ...bearers, ...torqueConditions, "none", "nothing", "LH", "feel"];
const joiners = [
  ...wordsThatGoOn.filter((it) => !["x", "X", "none", "nothing", "dry", "oiled", "LH", "max"].includes(it)),
  "with",
  "again",
  "new",
  "its place",
  "in pairs",
  "a pack",
  "free over",
];

export function textMateGrammar(): object {
  return {
    name: "Job Sheet",
    scopeName: "source.jobsheet",
    fileTypes: ["jobsheet"],
    patterns: [
      { include: "#comment" },
      { include: "#declaration" },
      { include: "#entry" },
      { include: "#finding" },
      { include: "#detail" },
      { include: "#action" },
      { include: "#inside" },
    ],
    repository: {
      comment: { match: "(?:^|(?<=\\s))#.*$", name: "comment.line.number-sign.jobsheet" },
      declaration: {
        match: `^\\s*(${one(titled)})${end}\\s+(${name})`,
        captures: { 1: { name: "keyword.control.entry.jobsheet" }, 2: { name: "entity.name.type.jobsheet" } },
      },
      entry: { match: `^\\s*${one(entryWords.map((it) => it.word))}${end}`, name: "keyword.control.entry.jobsheet" },
      finding: {
        begin: `^\\s*(is)${end}`,
        end: "$",
        beginCaptures: { 1: { name: "keyword.other.detail.jobsheet" } },
        patterns: [
          { include: "#comment" },
          { match: `${begin}${one(conditions.map((it) => it.word))}${end}`, name: "constant.language.condition.jobsheet" },
          { include: "#inside" },
        ],
      },
      detail: { match: `^\\s*(?:${one(details.filter((it) => !verbs.includes(it as never)))}${end}|=)`, name: "keyword.other.detail.jobsheet" },
      action: { match: `^\\s*${one(verbs)}${end}`, name: "support.function.action.jobsheet" },
      inside: {
        patterns: [
          { include: "#comment" },
          { include: "#text" },
          { include: "#blank" },
          { include: "#locking" },
          { include: "#date" },
          { include: "#thread" },
          { include: "#quantity" },
          { include: "#function" },
          { include: "#choice" },
          { include: "#joiner" },
          { include: "#operator" },
        ],
      },
      blank: { match: "(?<![\\p{L}\\p{M}\\p{N}_])_{3,}(?![\\p{L}\\p{M}\\p{N}_])", name: "markup.changed.jobsheet" },
      text: {
        begin: '"',
        end: '"|$',
        name: "string.quoted.double.jobsheet",
        patterns: [{ match: '\\\\["\\\\]', name: "constant.character.escape.jobsheet" }],
      },
      locking: {
        match: `${begin}${one([...lockingPhrases.keys()].filter((it) => it.includes(" ")))}${end}|(?<=by\\s|with\\s|new\\s)${one([...lockingPhrases.keys()].filter((it) => !it.includes(" ")))}${end}`,
        name: "support.type.locking.jobsheet",
      },
      date: { match: "(?<![\\d.])\\d{4}-\\d{2}-\\d{2}(?!\\d)", name: "constant.numeric.date.jobsheet" },
      thread: {
        match: `(?<=^thread|\\sthread)\\s+((?:No\\.\\d+(?:-\\d+)?|${figure}(?:-\\d+)?|M\\d+(?:\\.\\d+)?(?:\\s*[xX×]\\s*\\d+(?:\\.\\d+)?)?)(?:\\s+(?!${one([...wordsThatGoOn])}${end})[\\p{L}]+)?)`,
        captures: { 1: { name: "constant.other.thread.jobsheet" } },
      },
      quantity: {
        match: `(?<![\\p{L}\\p{M}\\p{N}])(?<![\\p{L}\\p{M}\\p{N}]-)(${figure})(?:\\s*((?!${one([...wordsThatGoOn])}${end})(?:°\\p{L}*|%|\\p{L}[\\p{L}\\p{M}\\p{N}-]*(?:[.·⋅/]\\p{L}[\\p{L}\\p{M}\\p{N}-]*)*)))?`,
        captures: { 1: { name: "constant.numeric.jobsheet" }, 2: { name: "keyword.other.unit.jobsheet" } },
      },
      function: { match: `${begin}${one(functions)}(?=\\s*\\()`, name: "support.function.jobsheet" },
      choice: { match: `(?<=\\s)${one(choices)}${end}`, name: "constant.language.jobsheet" },
      joiner: { match: `(?<=\\s)(?:${one(joiners)}|max|min)${end}`, name: "keyword.operator.word.jobsheet" },
      operator: { match: "\\.\\.|\\+/-|±|[+*/=,()]|(?<![\\p{L}\\p{M}\\p{N}])-|-(?![\\p{L}\\p{N}])|[x×X](?=\\s*[\\d.])", name: "keyword.operator.jobsheet" },
    },
  };
}

export function languageConfiguration(): object {
  return {
    comments: { lineComment: "#" },
    brackets: [["(", ")"]],
    autoClosingPairs: [
      { open: "(", close: ")", notIn: ["string", "comment"] },
      { open: '"', close: '"', notIn: ["string", "comment"] },
    ],
    // No quotes: one that is typed over a marked blank begins the text that goes there, and is no bracket round the blank.
    surroundingPairs: [["(", ")"]],
    wordPattern: { pattern: `\\d+(?:[./-]\\d+)*|${name}`, flags: "u" },
    folding: { offSide: true },
    indentationRules: {
      increaseIndentPattern: `^(?:${entryWords.map((it) => it.word).join("|")})(?![\\w-]).*$`,
      // An entry's word, typed where a detail would stand, goes to the first column: but for those that begin a detail too.
      decreaseIndentPattern: `^\\s+(?:${entriesOnly().join("|")})\\s.*$`,
    },
    // Enter on a line that has nothing but what it was set in by: what was written is done, and the next thing begins at the first column.
    onEnterRules: [{ beforeText: { pattern: "^\\s+$" }, afterText: { pattern: "^$" }, action: { indent: "outdent" } }],
  };
}

/** The words that begin an entry and no line under one. */
function entriesOnly(): readonly string[] {
  const lines = new Set([...actionWords, ...detailWords].map((it) => it.word));
  return entryWords.map((it) => it.word).filter((it) => !lines.has(it));
}

// ---------------------------------------------------------------- the reference's tables

/** Units by what they measure; the grammar knows a unit by its place in a line, and asks nobody what it is worth. */
type UnitsByMeasure = ReadonlyMap<string, readonly string[]>;

/** Each table of the reference by the name between its markers. */
export function referenceTables(units: UnitsByMeasure): ReadonlyMap<string, string> {
  const tables = new Map<string, string>();
  tables.set(
    "entries",
    table(
      ["entry", "what it says"],
      entryWords.map((it) => [code(it.syntax), it.says]),
    ),
  );
  for (const { word } of entryWords) {
    const rows = detailWords.filter((it) => it.under !== "any" && it.under.includes(word)).map((it) => [code(it.syntax), it.says, code(it.example)]);
    if (rows.length > 0) tables.set(`under ${word}`, table(["line", "what it says", "example"], rows));
  }
  tables.set(
    "under any",
    table(
      ["line", "what it says", "example"],
      detailWords.filter((it) => it.under === "any").map((it) => [code(it.syntax), it.says, code(it.example)]),
    ),
  );
  tables.set(
    "actions",
    table(
      ["line", "what it says", "example"],
      actionWords.map((it) => [code(it.syntax), it.says, code(it.example)]),
    ),
  );
  tables.set(
    "conditions",
    table(
      ["condition", "of a", "what it says"],
      conditions.map((it) => [code(it.syntax), it.of.join(", "), it.says]),
    ),
  );
  tables.set(
    "lockings",
    table(
      ["locking", "also written", "used", "holds by friction", "what it is"],
      lockings.map((it) => [code(it.syntax), it.words.slice(1).map(code).join(", "), lives[it.life], it.friction ? "yes" : "", it.says]),
    ),
  );
  tables.set(
    "meant",
    table(
      ["where", "written", "not"],
      meantGroups().map(([where, write, typed]) => [where, write.map(code).join(" or "), typed.map(code).join(", ")]),
    ),
  );
  tables.set(
    "ambiguous",
    table(
      ["word", "where", "write instead"],
      ambiguousWords.map((it) => [code(it.word), it.where, it.meanings.map((meaning) => `${code(meaning.write)}: ${meaning.means}`).join("; ")]),
    ),
  );
  tables.set("units", table(["what", "units"], [...[...units].map(([what, names]) => [what, code(names.join(" "))]), ["a count", "none"]]));
  return tables;
}

/** Words that are not read, gathered by what is written instead. */
function meantGroups(): [string, readonly string[], string[]][] {
  const groups = new Map<string, [string, readonly string[], string[]]>();
  for (const { typed, where, write } of meantWords) {
    const key = `${where} ${write.join(" ")}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [placeOfWords(where), write.length === 0 ? ["left out"] : write, [typed]]);
    else group[2].push(typed);
  }
  return [...groups.values()];
}

function placeOfWords(where: MeantWord["where"]): string {
  if (where === "condition") return "after `is`";
  if (where === "decision") return "after `decision`";
  if (where === "locking") return "where a locking stands";
  if (where === "stage") return "where `found`, `trial` or `final` stands";
  if (where === "verdict") return "where `good` or `bad` stands";
  if (where === "entry") return "at the beginning of an entry";
  return `in ${withArticle(where === "action" ? "step" : where)}`;
}
const lives = { once: "once", "goes-back": "goes back", "once-if-critical": "once on a critical fastener" } as const;

/** The reference with its tables put between their markers anew. */
export function withTables(page: string, units: UnitsByMeasure): string {
  const tables = referenceTables(units);
  return page.replace(/(<!-- table: ([a-z ]+) -->\n)[\s\S]*?(<!-- end -->)/g, (whole, open: string, named: string, close: string) => {
    const found = tables.get(named);
    return found === undefined ? whole : `${open}${found}\n${close}`;
  });
}

function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  return [heads, heads.map(() => "---"), ...rows].map((row) => `| ${row.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`).join("\n");
}

function code(text: string): string {
  return `\`${text}\``;
}
