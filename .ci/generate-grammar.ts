// Writes what editors and readers are given of the tables of words and units: the TextMate grammar, the language configuration, the reference's tables.
// `--check` writes nothing and fails where a file is stale.
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { languageConfiguration, textMateGrammar, withTables } from "../grammar/editor-files.ts";
import { unitsByMeasure } from "../server/quantities/units.ts";

const reference = "grammar/REFERENCE.md";
const files: [string, string][] = [
  ["grammar/jobsheet.tmLanguage.json", `${JSON.stringify(textMateGrammar(), undefined, 2)}\n`],
  ["grammar/language-configuration.json", `${JSON.stringify(languageConfiguration(), undefined, 2)}\n`],
];
if (existsSync(reference)) files.push([reference, withTables(readFileSync(reference, "utf8"), unitsByMeasure())]);

for (const [path, text] of files) {
  if (!process.argv.includes("--check")) writeFileSync(path, text);
  else if (!existsSync(path) || readFileSync(path, "utf8") !== text) {
    console.error(`${path} is stale: run npm run generate`);
    process.exitCode = 1;
  }
}
