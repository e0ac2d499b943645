import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { execSync } from "node:child_process";
import { dirname } from "node:path";
import { readSheet } from "../grammar/sheet-text.ts";
import type { Files } from "../server/model/files.ts";
import { checkFile } from "../server/rules/check.ts";
import { rules } from "../server/rules/all.ts";
import { machine, trapFiles } from "../tests/traps/read-traps.ts";
import { seeded } from "../tests/seeded.ts";

const out: string[] = [];
const variants = Number(process.argv[3] ?? 3);
const random = seeded(77);
const kept = new Map<string, ReturnType<typeof readSheet>>();
const sheetOf = (text: string) => { let it = kept.get(text); if (!it) kept.set(text, (it = readSheet(text))); return it; };
const digest = (d: unknown) => JSON.stringify(d);
function damaged(text: string, n: number): string {
  const lines = text.split("\n");
  const i = random(lines.length), j = random(lines.length);
  if (n % 4 === 0) lines.splice(i, 1);
  else if (n % 4 === 1) { // swap two entries
    const heads = lines.flatMap((l, k) => /^[a-z]/.test(l) ? [k] : []); heads.push(lines.length);
    if (heads.length > 3) { const h = random(heads.length - 2); const a = heads[h]!, b = heads[h+1]!, c = heads[h+2]!;
      lines.splice(a, c - a, ...lines.slice(b, c), ...lines.slice(a, b)); }
  } else if (n % 4 === 2) { // a date shifted
    const at = lines.flatMap((l, k) => /20\d\d-\d\d-\d\d/.test(l) ? [k] : []);
    if (at.length) { const k = at[random(at.length)]!; lines[k] = lines[k]!.replace(/(20\d\d-\d\d-)(\d\d)/, (_, a, b) => a + String(((Number(b) + 8) % 28) + 1).padStart(2, "0")); }
  } else { // an action line of one step removed or a word replaced
    const at = lines.flatMap((l, k) => /^\s+(remove|undo|fit|tighten|lock|slacken|fill|bleed)\b/.test(l) ? [k] : []);
    if (at.length) { const k = at[random(at.length)]!; lines.splice(k, 1); }
  }
  return lines.join("\n");
}
function go(label: string, files: Files, path: string, texts: (t: string) => Files, text: string, n: number) {
  out.push(label + " " + digest(checkFile(files, path)));
  for (let v = 0; v < n; v++) { const t = damaged(text, v); out.push(label + " v" + v + " " + digest(checkFile(texts(t), path))); }
}
for (const { name, traps } of trapFiles) for (const trap of traps) {
  const make = (own: string): Files => { const read = new Map([...trap.texts].map(([p, t]) => [p, p === "trap.jobsheet" ? readSheet(own) : sheetOf(t)]));
    return { read: (p) => p === "machine.jobsheet" ? sheetOf(machine) : (read.get(p) ?? "missing"), jobsheets: () => [...read.keys()] }; };
  const own = trap.texts.get("trap.jobsheet")!;
  go(`${name}: ${trap.title}`, make(own), "trap.jobsheet", make, own, variants);
}
for (const rule of rules) for (const [k, text] of Object.entries({ wrong: (rule as any).wrong as string, right: (rule as any).right as string })) {
  if (typeof text !== "string") continue;
  const make = (own: string): Files => ({ read: (p) => p === "s.jobsheet" ? readSheet(own) : "missing", jobsheets: () => ["s.jobsheet"] });
  go(`${rule.id} ${k}`, make(text), "s.jobsheet", make, text, variants);
}
const all = execSync("cat /tmp/house/sheets.txt", { encoding: "utf8" }).split("\n").filter(Boolean);
const texts = new Map(all.map((p) => [p, readFileSync(p, "utf8")]));
for (const p of all) {
  if (!p.endsWith(".jobsheet")) continue;
  const dir = dirname(p) + "/"; const own = p.slice(dir.length);
  const here = all.filter((it) => it.startsWith(dir)).map((it) => it.slice(dir.length));
  const make = (text: string): Files => ({
    read: (q) => q === own ? (text === texts.get(p) ? sheetOf(text) : readSheet(text)) : texts.has(dir + q) ? sheetOf(texts.get(dir + q)!) : "missing",
    jobsheets: () => here.filter((it) => it.endsWith(".jobsheet")),
    prices: (q) => texts.has(dir + q) ? { text: texts.get(dir + q)! } : "missing",
  });
  go(p, make(texts.get(p)!), own, make, texts.get(p)!, variants * 3);
}
writeFileSync(process.argv[2]!, out.join("\n"));
console.log(out.length, createHash("sha256").update(out.join("\n")).digest("hex").slice(0, 16));
