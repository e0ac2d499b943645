// Makes splitpin-VERSION.vsix: a zip with a manifest, the package.json and the files that it names.
// Invariant: the same sources give the same bytes; nothing is packed that package.json does not name.
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { extname } from "node:path";
import { fileURLToPath } from "node:url";
import { zipSync } from "fflate";

const root = fileURLToPath(new URL("../", import.meta.url));
const manifest = JSON.parse(readFileSync(`${root}package.json`, "utf8"));
// What a market and a slow line take without complaint; most of it is the solver of the order.
const largest = 2_800_000;

const types = {
  ".json": "application/json",
  ".vsixmanifest": "text/xml",
  ".md": "text/markdown",
  ".js": "application/javascript",
  ".cjs": "application/javascript",
  ".jobsheet": "text/plain",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".txt": "text/plain",
};
// The module for a page in a browser and what a repository copies are of no use to the extension.
const named = manifest.files
  .filter((it) => !it.startsWith("dist/browser") && !it.startsWith("client/sharing/"))
  .flatMap(filesOf)
  .sort();
const packed = { ...manifest };
for (const key of ["scripts", "devDependencies", "dependencies", "files", "type"]) delete packed[key];

const entries = {
  "[Content_Types].xml": text(contentTypes()),
  "extension.vsixmanifest": text(vsixManifest()),
  "extension/package.json": text(`${JSON.stringify(packed, undefined, 2)}\n`),
};
for (const path of named) entries[`extension/${path === "LICENSE" ? "LICENSE.txt" : path}`] = path === "README.md" ? text(readme()) : readFileSync(root + path);

const bytes = zipSync(entries, { level: 9, mtime: new Date("2026-01-01T00:00:00Z") });
const target = `splitpin-${manifest.version}.vsix`;
writeFileSync(root + target, bytes);
console.log(`${target}: ${named.length} files, ${(bytes.length / 1024).toFixed(0)} KiB`);
if (bytes.length > largest) {
  console.error(`That is more than ${largest} bytes.`);
  process.exitCode = 1;
}

function text(value) {
  return new TextEncoder().encode(value);
}

/** Where the project lies for everybody; undefined for as long as nobody has filled it in. */
function home() {
  const url = manifest.repository.url.replace(/^git\+/, "").replace(/\.git$/, "");
  return new URL(url).hostname.endsWith(".invalid") ? undefined : url;
}

/** The front page as a market shows it: its pictures and links lead to the repository. Without one its pictures are left out, for they are not packed. */
function readme() {
  const page = readFileSync(`${root}README.md`, "utf8");
  const base = home();
  if (base === undefined) return page.replace(/^!\[[^\]]*\]\(samples\/[^)]*\)\n\n/gm, "");
  return page.replace(
    /(!?)\[([^\]]*)\]\((?!https?:|#)([^)]*)\)/g,
    (_, picture, words, path) => `${picture}[${words}](${base}/${picture === "!" ? "raw" : "blob"}/HEAD/${path})`,
  );
}

/** A name, or a `folder/*.ending`. */
function filesOf(pattern) {
  const star = pattern.match(/^(.*\/)\*(\.[a-z]+)$/);
  if (star === null) return [pattern];
  const [, folder, ending] = star;
  return readdirSync(root + folder)
    .filter((name) => name.endsWith(ending))
    .map((name) => folder + name);
}

function contentTypes() {
  const endings = new Set(["package.json", "extension.vsixmanifest", "LICENSE.txt", ...named].map((path) => extname(path)).filter((it) => it !== ""));
  const lines = [...endings].sort().map((ending) => `<Default Extension="${ending}" ContentType="${types[ending] ?? "application/octet-stream"}"/>`);
  return `<?xml version="1.0" encoding="utf-8"?>\n<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">${lines.join("")}</Types>\n`;
}

function vsixManifest() {
  const xml = (value) => String(value).replace(/[&<>"]/g, (it) => `&#${it.charCodeAt(0)};`);
  return `<?xml version="1.0" encoding="utf-8"?>
<PackageManifest Version="2.0.0" xmlns="http://schemas.microsoft.com/developer/vsx-schema/2011">
  <Metadata>
    <Identity Language="en-US" Id="${xml(manifest.name)}" Version="${xml(manifest.version)}" Publisher="${xml(manifest.publisher)}"/>
    <DisplayName>${xml(manifest.displayName)}</DisplayName>
    <Description xml:space="preserve">${xml(manifest.description)}</Description>
    <Tags>${xml(manifest.keywords.join(","))},__ext_jobsheet</Tags>
    <Categories>${xml(manifest.categories.join(","))}</Categories>
    <GalleryFlags>Public</GalleryFlags>
    <Properties>
      <Property Id="Microsoft.VisualStudio.Code.Engine" Value="${xml(manifest.engines.vscode)}"/>
      <Property Id="Microsoft.VisualStudio.Code.ExtensionDependencies" Value=""/>
      <Property Id="Microsoft.VisualStudio.Code.ExtensionPack" Value=""/>
      <Property Id="Microsoft.VisualStudio.Code.ExtensionKind" Value="workspace"/>
      <Property Id="Microsoft.VisualStudio.Code.LocalizedLanguages" Value=""/>
${home() === undefined ? "" : `      <Property Id="Microsoft.VisualStudio.Services.Links.Source" Value="${xml(home())}"/>\n      <Property Id="Microsoft.VisualStudio.Services.Links.Support" Value="${xml(manifest.bugs.url)}"/>\n      <Property Id="Microsoft.VisualStudio.Services.Links.Learn" Value="${xml(manifest.homepage)}"/>\n`}      <Property Id="Microsoft.VisualStudio.Services.Branding.Color" Value="${xml(manifest.galleryBanner.color)}"/>
      <Property Id="Microsoft.VisualStudio.Services.Branding.Theme" Value="${xml(manifest.galleryBanner.theme)}"/>
      <Property Id="Microsoft.VisualStudio.Services.Content.Pricing" Value="${xml(manifest.pricing)}"/>
    </Properties>
    <License>extension/LICENSE.txt</License>
    <Icon>extension/${xml(manifest.icon)}</Icon>
  </Metadata>
  <Installation><InstallationTarget Id="Microsoft.VisualStudio.Code"/></Installation>
  <Dependencies/>
  <Assets>
    <Asset Type="Microsoft.VisualStudio.Code.Manifest" Path="extension/package.json" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Content.Details" Path="extension/README.md" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Content.Changelog" Path="extension/CHANGELOG.md" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Icons.Default" Path="extension/${xml(manifest.icon)}" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Content.License" Path="extension/LICENSE.txt" Addressable="true"/>
  </Assets>
</PackageManifest>
`;
}
