// Takes the pages of the rules (title, why, examples) out of the files of the rules and puts them together in the place of server/rules/pages.ts, the titles in that
// of titles.ts, so that a check does not read them: in the sources a rule is one file all the same.
// Invariant: only where the texts stand changes. They are moved as they are written, and what is written otherwise than as a text fails the build.
import { readFileSync, readdirSync } from "node:fs";

/** What a rule's page says and no check asks for: see `RulePage` in server/rules/rule.ts. */
const needed = ["title", "severity", "why", "wrong", "right"];
const ofPage = new Set([...needed, "fixed", "files"]);

export const rulePages = pagesApart("rule-pages", () => true);

/** The same without the examples, which nobody shows in an editor. */
export const rulePagesWithoutExamples = pagesApart("rule-pages-without-examples", (name) => name === "severity" || name === "why");

/** `keeps`: what of a page is put into the bundle, by its name. */
function pagesApart(name, keeps) {
  return { name, setup: (build) => setUp(build, keeps) };
}

function setUp(build, keeps) {
  build.onLoad({ filter: /[\\/]server[\\/]rules[\\/]\w+[\\/][\w-]+\.ts$/ }, ({ path }) => {
    const cut = withoutPage(path);
    return cut === undefined ? undefined : { contents: cut.rest, loader: "ts" };
  });
  build.onLoad({ filter: /[\\/]server[\\/]rules[\\/]titles\.ts$/ }, ({ path }) => {
    const titles = pagesIn(path.slice(0, -"titles.ts".length)).map(({ id, page }) => `[${id}, ${page.get("title").replace(/^title:|,$/g, "")}]`);
    return { contents: `export const titles = new Map([${titles.join(",\n")}]);\n`, loader: "ts" };
  });
  build.onLoad({ filter: /[\\/]server[\\/]rules[\\/]pages\.ts$/ }, ({ path }) => {
    const pages = pagesIn(path.slice(0, -"pages.ts".length)).map(({ id, page }) => {
      const rest = [...page].filter(([name]) => name !== "title" && keeps(name)).map(([, whole]) => whole);
      return `[${id}, { title: titles.get(${id}), ${rest.join(" ")} }]`;
    });
    return { contents: `import { titles } from "./titles.ts";\nexport const pages = new Map([${pages.join(",\n")}]);\n`, loader: "ts" };
  });
}

function pagesIn(folder) {
  const files = readdirSync(folder, { withFileTypes: true }).flatMap((room) =>
    room.isDirectory() ? readdirSync(folder + room.name).map((file) => `${folder}${room.name}/${file}`) : [],
  );
  return files.flatMap((file) => withoutPage(file) ?? []);
}

/** The text of a rule's file without its page, and what is of the page by its names, as it is written; undefined where the file has no rule. */
function withoutPage(path) {
  if (!path.endsWith(".ts")) return undefined;
  const text = readFileSync(path, "utf8");
  const head = /^export const rule: \w+ = \{\n/m.exec(text);
  if (head === null) return undefined;
  let rest = text.slice(0, head.index + head[0].length);
  const page = new Map();
  let id;
  for (let from = head.index + head[0].length; ; ) {
    const property = /^ {2}(\w+):\s*/.exec(text.slice(from));
    if (property === null) {
      for (const name of needed) if (!page.has(name)) throw new Error(`${path}: the rule's ${name} does not stand above what it does.`);
      return { rest: rest + text.slice(from), id, page };
    }
    const to = endOfTexts(text, from + property[0].length, path);
    const [name, whole] = [property[1], text.slice(from, to)];
    if (name === "id") id = whole.slice(property[0].length, -",\n".length);
    if (ofPage.has(name)) page.set(name, whole.trim());
    else rest += whole;
    from = to;
  }
}

/** Behind the comma and the line end that end a property whose value is written as plain texts: strings, templates without places, `+`, braces around them, numbers, words. */
function endOfTexts(text, from, path) {
  let depth = 0;
  for (let at = from; at < text.length; at++) {
    const letter = text[at];
    if (letter === '"' || letter === "`" || letter === "'") {
      for (at++; text[at] !== letter; at++) {
        if (text[at] === "\\") at++;
        else if (letter === "`" && text.startsWith("${", at)) throw new Error(`${path}: a text of a rule's page has a place for a value in it. Write it out.`);
      }
    } else if (letter === "{") depth++;
    else if (letter === "}") depth--;
    else if (letter === "," && depth === 0) return text.indexOf("\n", at) + 1;
    else if (!/[\s\w+:,[\]-]/.test(letter)) throw new Error(`${path}: what a rule's page says is written as a text, and not worked out.`);
  }
  throw new Error(`${path}: a property of the rule does not end.`);
}
