// The command line: reads the words that were given and hands them to the command that they name.
// Invariant: ends with 0 (nothing at error), 1 (something is) or 2 (it could not run); what went wrong goes to the error stream.
import { parseArgs } from "node:util";
import { nearestWord } from "../../grammar/words.ts";
import { reports } from "../service.ts";
import { checkCommand } from "./check.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";
import { explainCommand } from "./explain.ts";
import { factsCommand } from "./facts.ts";
import { figureCommand } from "./figure.ts";
import { formatCommand } from "./format.ts";
import { helpOf } from "./help.ts";
import { newCommand } from "./new.ts";
import { reportCommand } from "./report.ts";
import { verifyCommand } from "./verify.ts";
import { visible } from "./visible.ts";

interface Options {
  readonly [name: string]: { readonly type: "string" | "boolean"; readonly short?: string };
}

interface Command {
  readonly options: Options;
  readonly formats?: readonly string[];
  run(given: Given, desk: Desk): ExitCode | Promise<ExitCode>;
}

const commands: Readonly<Record<string, Command>> = {
  check: {
    options: { format: { type: "string" }, hints: { type: "boolean" }, brief: { type: "boolean" }, "fail-on": { type: "string" } },
    formats: ["text", "json", "sarif", "junit"],
    run: checkCommand,
  },
  ...Object.fromEntries(
    reports.map((report) => [
      report.name,
      {
        options: Object.fromEntries(["format", "out", ...report.options].map((option) => [option, { type: "string" } as const])),
        formats: report.formats,
        run: reportCommand(report),
      },
    ]),
  ),
  facts: { options: {}, run: factsCommand },
  verify: { options: {}, run: verifyCommand },
  format: { options: { check: { type: "boolean" } }, run: formatCommand },
  new: {
    options: { list: { type: "boolean" }, name: { type: "string" }, machine: { type: "string" }, matter: { type: "string" } },
    run: newCommand,
  },
  explain: { options: {}, run: explainCommand },
  figure: { options: { format: { type: "string" } }, formats: ["text", "json"], run: figureCommand },
};

export async function run(words: readonly string[], world: Desk): Promise<ExitCode> {
  // Whatever is quoted in a complaint, no name of a file and no word of a sheet acts on the terminal.
  const desk: Desk = { ...world, err: (text) => world.err(text.split("\n").map(visible).join("\n")) };
  const [first, ...rest] = words;
  if (first === undefined || first === "--help" || first === "-h" || first === "help") {
    const about = first === "help" ? rest[0] : undefined;
    if (about !== undefined && about !== "server" && !Object.hasOwn(commands, about)) return refuse(desk, noCommand(about));
    desk.out(helpOf(about, desk.width));
    return first === undefined ? 2 : 0;
  }
  if (first === "--version" || first === "-v") {
    desk.out(`splitpin ${desk.version}\n`);
    return 0;
  }
  if (first === "server") {
    desk.out(helpOf(first, desk.width));
    return 0;
  }
  const command = Object.hasOwn(commands, first) ? commands[first] : undefined;
  if (command === undefined) return refuse(desk, noCommand(first));
  // `-5 degC in degF` is a figure below zero, not an option: it is given a minus sign that no option has.
  const given = read(first === "figure" ? rest.map((word) => word.replace(/^-(?=\.?\d)/, "\u2212")) : rest, command.options);
  if (typeof given === "string") return refuse(desk, `${given} splitpin ${first} --help says what it takes.`);
  if (given.values.help === true) {
    desk.out(helpOf(first, desk.width));
    return 0;
  }
  const format = given.values.format;
  if (format !== undefined && !command.formats?.includes(String(format))) {
    return refuse(desk, `--format takes ${(command.formats ?? []).join(", ")}; it was given “${String(format)}”.`);
  }
  try {
    return await command.run(given, desk);
  } catch (error) {
    // A fault of the program, not of the sheet: say so, and never as a verdict.
    return refuse(desk, `Splitpin itself failed here, and gives no verdict: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
  }
}

/** Says what was meant, where it is a command misspelt or a sheet that was given alone. */
function noCommand(word: string): string {
  const names = Object.keys(commands);
  const near = names.includes(word.toLowerCase()) ? word.toLowerCase() : nearestWord(word.toLowerCase(), names)?.word;
  const meant = near !== undefined ? ` Is ${near} meant?` : /\.jobsheet$/i.test(word) ? ` To check a sheet: splitpin check ${word}` : undefined;
  return `There is no command “${word}”.${meant ?? ""}${near === undefined && meant !== undefined ? "" : " splitpin --help lists the commands."}`;
}

/** The words sorted into options and paths, or what is wrong with them. */
function read(words: readonly string[], options: Options): Given | string {
  try {
    const { values, positionals, tokens } = parseArgs({
      args: [...words],
      options: { ...options, help: { type: "boolean", short: "h" } },
      allowPositionals: true,
      strict: true,
      tokens: true,
    });
    const named = tokens.flatMap((it) => (it.kind === "option" ? [it.name] : []));
    const twice = named.find((name, i) => named.indexOf(name) !== i);
    if (twice !== undefined) return `--${twice} is given twice.`;
    return { paths: positionals, values };
  } catch (error) {
    const option = /'(--?[^\s'=]+)/.exec(error instanceof Error ? error.message : "")?.[1] ?? "an option";
    const code = (error as { readonly code?: string }).code;
    const name = option.replace(/^-+/, "");
    if (code === "ERR_PARSE_ARGS_INVALID_OPTION_VALUE")
      return options[name]?.type === "string" ? `${option} needs a word after it.` : `${option} takes nothing after a \`=\`.`;
    const near = option.startsWith("--") ? nearestWord(name, [...Object.keys(options), "help"])?.word : undefined;
    return `There is no option ${option}.${near === undefined ? "" : ` Is --${near} meant?`}`;
  }
}
