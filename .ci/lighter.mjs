// Takes out of the bundles what weighs and does nothing: parts of the language client for services that our server has none of, the helpers that the compiler
// wrote into each file of the protocol's libraries, and what Chevrotain needs to look at a grammar, which is looked at when the program is built.
// Invariant: only weight changes. tests/server and tests/editors speak to what comes out.
import { readFileSync, readdirSync } from "node:fs";
import { readFile } from "node:fs/promises";

const parts = [
  "callHierarchy",
  "colorProvider",
  "declaration",
  "diagnostic",
  "fileOperations",
  "implementation",
  "inlineCompletion",
  "inlineValue",
  "linkedEditingRange",
  "notebook",
  "progress",
  "textDocumentContent",
  "typeDefinition",
  "typeHierarchy",
];

/** Of the protocol, the methods of those parts, which nobody else names. */
const methods = [...parts.filter((it) => it !== "progress"), "moniker"];

/** A feature that promises nothing, so that the client tells the server the truth about itself. A class for each name: the client asks what is one of which. */
const nothing = `
const classes = {};
const nothing = () => class { fillClientCapabilities() {} initialize() {} clear() {} getState() { return { kind: "static" }; } };
module.exports = new Proxy({}, { get: (_, name) => (name === "__esModule" ? true : (classes[name] ??= nothing())) });
`;

/** VS Code itself refuses an extension that it is too old for (`engines.vscode`), and the client asks for no newer one. */
const ofVersions = { parse: "module.exports = (version) => ({ version });", satisfies: "module.exports = () => true;" };

/** What the library itself calls old: there is a package of its own for it, which the client uses. */
const oldText = /^export var TextDocument;\n[\s\S]*(?=^var Is;)/m;

export const unserved = {
  name: "unserved",
  setup(build) {
    build.onLoad({ filter: new RegExp(`[\\\\/]vscode-languageclient[\\\\/]lib[\\\\/]common[\\\\/](${parts.join("|")})\\.js$`) }, () => ({ contents: nothing }));
    build.onLoad({ filter: new RegExp(`[\\\\/]vscode-languageserver-protocol[\\\\/]lib[\\\\/]common[\\\\/]protocol\\.(${methods.join("|")})\\.js$`) }, () => ({
      contents: nothing,
    }));
    build.onLoad({ filter: /[\\/]vscode-languageserver-types[\\/]lib[\\/]esm[\\/]main\.js$/ }, async ({ path }) => ({
      contents: (await readFile(path, "utf8")).replace(oldText, ""),
    }));
    build.onLoad({ filter: /[\\/]semver[\\/]functions[\\/](parse|satisfies)\.js$/ }, ({ path }) => ({ contents: ofVersions[path.match(/(\w+)\.js$/)[1]] }));
  },
};

const helper = /^var (__\w+) = \(this && this\.\1\) \|\|[\s\S]*?^\}(\);|\)\);|\)\(\);|;)\n/gm;
/** A name of another file that a file hands on under its own. */
const handedOn = /^Object\.defineProperty\(exports, "(\w+)", \{ enumerable: true, get: function \(\) \{ return (\w+)\.\1(); \} \}\);$/gm;
const helpers = {
  __createBinding: `(to, from, name, as = name) => Object.defineProperty(to, as, { enumerable: true, get: () => from[name] })`,
  __setModuleDefault: `(to, value) => Object.defineProperty(to, "default", { enumerable: true, value })`,
  __importStar: `(from) => {
    if (from?.__esModule) return from;
    const to = {};
    for (const name of Object.getOwnPropertyNames(from ?? {})) if (name !== "default") exports.__createBinding(to, from, name);
    return exports.__setModuleDefault(to, from);
  }`,
  __exportStar: `(from, to) => {
    for (const name in from) if (name !== "default" && !Object.hasOwn(to, name)) exports.__createBinding(to, from, name);
  }`,
};

/** Asked for the name of a pipe and nothing else, which no server does: a start does not wait for it. */
const lateCrypto = `const crypto_1 = { get randomBytes() { return require("crypto").randomBytes; }, get randomUUID() { return require("crypto").randomUUID; } };`;

/** The helpers of the compiler stand once in a bundle, not in each file. One that is not known here stays where it is. */
export const helpersOnce = {
  name: "helpers-once",
  setup(build) {
    build.onLoad({ filter: /[\\/]vscode-(jsonrpc|language[\w-]+)[\\/]lib[\\/].*\.js$/ }, async ({ path }) => {
      const text = await readFile(path, "utf8");
      const contents = text
        // Each name as nothing, before it is given its value. A file that hands on all that others have needs them: what is its own is not handed on.
        .replace(/^exports\.\w+ = (?:exports\.\w+ = )*void 0;$/gm, (whole) => (text.includes("__exportStar(") ? whole : ""))
        .replace(helper, (whole, name) => (Object.hasOwn(helpers, name) ? `const ${name} = require("splitpin-helpers").${name};\n` : whole))
        .replace(handedOn, "__handOn(exports, $2, '$1'$3);")
        .replace('const crypto_1 = require("crypto");', lateCrypto);
      if (contents === text) return undefined;
      return {
        contents: contents.includes("__handOn(") ? `"use strict";\nconst __handOn = require("splitpin-helpers").__createBinding;\n${contents}` : contents,
      };
    });
    build.onResolve({ filter: /^splitpin-helpers$/ }, ({ path }) => ({ path, namespace: "helpers-once" }));
    build.onLoad({ filter: /.*/, namespace: "helpers-once" }, () => ({
      contents: Object.entries(helpers)
        .map(([name, text]) => `exports.${name} = ${text};\n`)
        .join(""),
    }));
  },
};

/** What looks at a grammar, which the built program has found out before (grammar/first-tokens.ts), and what makes tokens, which grammar/lexer.ts does. */
const looking = [
  "chevrotain/lib/src/parse/(errors_public|grammar/(checks|first|follow|interpreter|llk_lookahead|lookahead|resolver|rest|gast/gast_resolver_public))",
  "chevrotain/lib/src/parse/cst/cst_visitor",
  "chevrotain/lib/src/scan/(lexer|lexer_public|reg_exp|reg_exp_parser)",
  "@chevrotain/(gast|regexp-to-ast)/lib/src/[\\w-]+",
]
  .join("|")
  .replaceAll("/", "[\\\\/]");

/** What stays of the parser itself: nothing is recorded, no error is recovered from and no tree is built, and of the ways to ask for a token those that a rule asks by. */
const kept = {
  parser: ["constructor"],
  "traits/gast_recorder": ["initGastRecorder"],
  "traits/looksahead": ["initLooksAhead", "setLaFuncCache"],
  "traits/recoverable": ["constructor", "initRecoverable", "attemptInRepetitionRecovery", "getHumanReadableRuleStack"],
  "traits/tree_builder": ["initTreeBuilder"],
  "traits/recognizer_api": askedByRules(),
  "traits/recognizer_engine": engineOf(askedByRules()),
  // What is said of a line that breaks off is grammar/table-parser.ts'.
  "traits/error_handler": ["initErrorHandler", "SAVE_ERROR"],
};
const whereAsked = /[\\/]node_modules[\\/]chevrotain[\\/]lib[\\/]src[\\/]parse[\\/]parser[\\/](parser|traits[\\/]\w+)\.js$/;
/** What is done where errors are recovered from, or a tree is built. */
const otherwise = /^ {8}if \(this\.recoveryEnabled\) \{\n[\s\S]*?^ {8}\}\n|^ {8}else \{\n[\s\S]*?^ {8}\}\n/m;

function askedByRules() {
  const folder = new URL("../grammar/", import.meta.url);
  const rules = readdirSync(folder).flatMap((file) => (file.endsWith(".ts") ? [readFileSync(new URL(file, folder), "utf8")] : []));
  return [...new Set(rules.flatMap((text) => [...text.matchAll(/\bthis\.([A-Z_]+\d?)\b/g)].map(([, name]) => name)))];
}

/** What the ways to ask that the rules use come down to, and what reads a line. */
function engineOf(asked) {
  const ways = {
    optionInternal: "OPTION",
    manyInternal: "MANY",
    manySepFirstInternal: "MANY_SEP",
    atLeastOneInternal: "AT_LEAST_ONE",
    atLeastOneSepFirstInternal: "AT_LEAST_ONE_SEP",
  };
  const isAsked = (way) => asked.some((it) => it.replace(/\d$/, "") === way);
  return [
    ...["initRecognizerEngine", "defineRule", "invokeRuleCatch", "repetitionSepSecondInternal", "doSingleRepetition", "orInternal", "ruleFinallyStateUpdate"],
    ...["subruleInternal", "subruleInternalError", "consumeInternal", "consumeInternalError", "consumeInternalRecovery", "ruleInvocationStateUpdate"],
    ...["isBackTracking", "getCurrRuleFullName", "shortRuleNameToFullName", "isAtEndOfInput", "reset", "onBeforeParse", "onAfterParse"],
    ...Object.entries(ways).flatMap(([name, way]) => (isAsked(way) ? [name, `${name}Logic`] : [])),
  ];
}

/** A method that is left out is no function any more: whoever calls it is met by the tests of what is built. */
function withoutMethods(text, part) {
  const left = new Set();
  let cut = text.replace(/^ {4}(?:static )?(\w+)\(.*\) \{\n[\s\S]*?^ {4}\}\n/gm, (whole, name) => {
    if (kept[part].includes(name)) return whole;
    left.add(name);
    return "";
  });
  if (left.size === 0) throw new Error(`Chevrotain's ${part} is written otherwise: nothing was found in it to leave out.`);
  if (part === "traits/recoverable" || part === "traits/tree_builder") {
    if (!otherwise.test(cut)) throw new Error(`Chevrotain's ${part} is written otherwise: what it begins with was not found.`);
    cut = cut.replace(otherwise, "");
  }
  return cut;
}

/** Names of the same kinds that do nothing; to call one is a fault that the tests of what is built would meet. Numbers by which the parser counts stay. */
export const grammarKnown = {
  name: "grammar-known",
  setup(build) {
    build.onLoad({ filter: whereAsked }, async ({ path }) => {
      const part = whereAsked.exec(path)[1].replaceAll("\\", "/");
      return Object.hasOwn(kept, part) ? { contents: withoutMethods(await readFile(path, "utf8"), part) } : undefined;
    });
    build.onLoad({ filter: new RegExp(`[\\\\/]node_modules[\\\\/](${looking})\\.js$`) }, async ({ path }) => {
      if (path.endsWith("api.js")) return undefined;
      const text = await readFile(path, "utf8");
      const numbers = [...text.matchAll(/^export var (\w+);\n\(function \(\1\) \{[\s\S]*?^\}\)\(\1 \|\| \(\1 = \{\}\)\);/gm)].map(([whole]) => whole);
      const names = [...text.matchAll(/^export (function|class|const) (\w+)/gm)].map(([, kind, name]) =>
        kind === "class"
          ? `export class ${name} {}`
          : kind === "const"
            ? `export const ${name} = {};`
            : name.startsWith("clear")
              ? `export function ${name}() {}`
              : `export function ${name}() { throw new Error("${name} is left out of the built program"); }`,
      );
      return { contents: [...numbers, ...names, ""].join("\n") };
    });
  },
};

const example = /\bexample:\s*(?:'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"),?/g;

/** A file of words without the example of each, which the reference and the tests are made from, and which nothing asks for while it runs. */
export function withoutExamples(text, path) {
  const contents = text.replace(example, "");
  if (/\bexample:(?! string;)/.test(contents)) throw new Error(`${path}: the example of a word is written as one text, and not worked out.`);
  return contents;
}

export const wordsWithoutExamples = {
  name: "words-without-examples",
  setup(build) {
    build.onLoad({ filter: /[\\/]grammar[\\/]words[\\/][\w-]+-words\.ts$/ }, async ({ path }) => ({
      contents: withoutExamples(await readFile(path, "utf8"), path),
      loader: "ts",
    }));
  },
};

/** The protocol's numbers are written so that a bundler must keep all of them, asked for or not. */
export const numbersAsked = {
  name: "numbers-asked",
  setup(build) {
    build.onLoad({ filter: /[\\/]vscode-languageserver-types[\\/]lib[\\/]esm[\\/]main\.js$/ }, async ({ path }) => {
      const text = await readFile(path, "utf8");
      const contents = text
        .replace(/^export var (\w+);\n\(function \(\1\) \{$/gm, "export var $1 = /* @__PURE__ */ (function ($1) {")
        .replace(/^\}\)\((\w+) \|\| \(\1 = \{\}\)\);$/gm, "    return $1;\n})({});");
      return { contents };
    });
  },
};

/** A method of the exact numbers, with what is said above it. */
const ofFractions = /(?:^ {2}\/\*\*\n(?: {3}\*.*\n)+)?^ {2}["'](\w+)["']: function.*\{\n[\s\S]*?^ {2}\},?\n/gm;

/** Of the exact numbers those methods that somebody calls by name, or a text is made of. A method that is left out is no function any more. */
export const fractionsAsked = {
  name: "fractions-asked",
  setup(build) {
    build.onLoad({ filter: /[\\/]fraction\.js[\\/]dist[\\/]fraction\.mjs$/ }, async ({ path }) => {
      const folder = new URL("../server/", import.meta.url);
      const texts = readdirSync(folder, { recursive: true }).flatMap((file) =>
        file.endsWith(".ts") ? [readFileSync(new URL(file.replaceAll("\\", "/"), folder), "utf8")] : [],
      );
      const called = new Set(["toString", "valueOf", ...texts.flatMap((text) => [...text.matchAll(/\.(\w+)\(/g)].map(([, name]) => name))]);
      const text = await readFile(path, "utf8");
      const kept = [...text.matchAll(ofFractions)].flatMap(([whole, name]) => (called.has(name) ? [whole] : []));
      for (const whole of kept) for (const [, name] of whole.matchAll(/this\[["'](\w{2,})["']\]\(/g)) called.add(name);
      const contents = text.replace(ofFractions, (whole, name) => (called.has(name) ? whole : ""));
      if (contents === text) throw new Error("fraction.js is written otherwise: nothing was found in it to leave out.");
      return { contents };
    });
  },
};
