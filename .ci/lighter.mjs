// Takes out of the bundles what weighs and does nothing: parts of the language client for services that our server has none of, and the helpers that
// the compiler wrote into each file of the protocol's libraries.
// Invariant: only weight changes. tests/server and tests/editors speak to what comes out.
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
  "selectionRange",
  "textDocumentContent",
  "typeDefinition",
  "typeHierarchy",
];

/** A feature that promises nothing, so that the client tells the server the truth about itself. A class for each name: the client asks what is one of which. */
const nothing = `
const classes = {};
const nothing = () => class { fillClientCapabilities() {} initialize() {} clear() {} getState() { return { kind: "static" }; } };
module.exports = new Proxy({}, { get: (_, name) => (name === "__esModule" ? true : (classes[name] ??= nothing())) });
`;

/** VS Code itself refuses an extension that it is too old for (`engines.vscode`), and the client asks for no newer one. */
const ofVersions = { parse: "module.exports = (version) => ({ version });", satisfies: "module.exports = () => true;" };

export const unserved = {
  name: "unserved",
  setup(build) {
    build.onLoad({ filter: new RegExp(`[\\\\/]vscode-languageclient[\\\\/]lib[\\\\/]common[\\\\/](${parts.join("|")})\\.js$`) }, () => ({ contents: nothing }));
    build.onLoad({ filter: /[\\/]semver[\\/]functions[\\/](parse|satisfies)\.js$/ }, ({ path }) => ({ contents: ofVersions[path.match(/(\w+)\.js$/)[1]] }));
  },
};

const helper = /^var (__\w+) = \(this && this\.\1\) \|\|[\s\S]*?^\}(\);|\)\);|\)\(\);|;)\n/gm;
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
    build.onLoad({ filter: /[\\/]vscode-(jsonrpc|language\w+)[\\/]lib[\\/].*\.js$/ }, async ({ path }) => {
      const text = await readFile(path, "utf8");
      const contents = text
        .replace(helper, (whole, name) => (Object.hasOwn(helpers, name) ? `const ${name} = require("splitpin-helpers").${name};\n` : whole))
        .replace('const crypto_1 = require("crypto");', lateCrypto);
      return contents === text ? undefined : { contents };
    });
    build.onResolve({ filter: /^splitpin-helpers$/ }, ({ path }) => ({ path, namespace: "helpers-once" }));
    build.onLoad({ filter: /.*/, namespace: "helpers-once" }, () => ({
      contents: Object.entries(helpers)
        .map(([name, text]) => `exports.${name} = ${text};\n`)
        .join(""),
    }));
  },
};
