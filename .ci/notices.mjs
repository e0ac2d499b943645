// The licences of what is bundled: taken from the bundler's own list of the files that it took in, so that nothing is forgotten.
// Invariant: a package without a licence text fails the build.
import { existsSync, readFileSync, readdirSync } from "node:fs";

/**
 * The page of notices for bundles made from these files, paths from `root`. Throws where a package has no licence text.
 * @param {string} root with a slash at its end
 * @param {Iterable<string>} inputs
 */
export function noticesOf(root, inputs) {
  const packages = [...new Set([...inputs].flatMap((it) => packageOf(it) ?? []))].map((folder) => ({
    folder,
    ...JSON.parse(readFileSync(`${root}${folder}/package.json`, "utf8")),
  }));
  const without = packages.filter(({ folder }) => textsOf(root + folder) === "");
  if (without.length > 0) throw new Error(`No licence text is in ${without.map((it) => it.folder).join(", ")}: what is bundled from there can't be passed on.`);

  // Packages of one maker often share their text: it stands once, under all of them.
  const byText = new Map();
  for (const it of packages) {
    const text = textsOf(root + it.folder);
    byText.set(text, [...(byText.get(text) ?? []), `${it.name} ${it.version} (${licenceOf(it)})`]);
  }
  const sections = [...byText].map(([text, names]) => `${names.sort().join("\n")}\n\n${text}`).sort();
  return [head, ...sections].join(`\n\n${"-".repeat(80)}\n\n`).concat("\n");
}

const head = `Splitpin is under the licence in LICENSE. Its program holds the work of others, listed here with their licences.
Written by .ci/notices.mjs when the program is built, from the list of what was built into it.`;

/** `node_modules/@a/b` of `node_modules/@a/b/lib/x.js`; undefined for what is our own. A package within a package is its own. */
function packageOf(path) {
  return path.match(/^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/)?.[0];
}

/** The texts of its licence files, and of the notices that it asks to be passed on with it. */
function textsOf(folder) {
  if (!existsSync(folder)) return "";
  const names = readdirSync(folder).filter((it) => /^(licen[cs]e|copying|notice|third-?party-?notices)([.-].*)?$/i.test(it));
  if (!names.some((it) => /^(licen[cs]e|copying)/i.test(it))) return "";
  return names
    .sort()
    .map((name) => plain(readFileSync(`${folder}/${name}`, "utf8")))
    .join("\n\n");
}

function plain(text) {
  return text
    .replace(/^\ufeff/, "")
    .replace(/\r\n?/g, "\n")
    .replace(/[ \t]+$/gm, "")
    .trim();
}

function licenceOf({ name, license }) {
  if (typeof license !== "string") throw new Error(`${name} does not say in its package.json which licence it is under.`);
  return license;
}
