import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { checkFile } from "../server/rules/check.ts";
import { filesAround } from "../tests/reread.ts";
const root = new URL("../tests/sheets/", import.meta.url).pathname;
const all: string[] = [];
const walk = (d: string) => {
  for (const e of readdirSync(d, { withFileTypes: true })) {
    const p = join(d, e.name);
    if (e.isDirectory()) walk(p);
    else if (p.endsWith(".jobsheet")) all.push(p);
  }
};
walk(root);
walk(new URL("../samples/", import.meta.url).pathname);
const released = all.filter((p) => {
  const t = readFileSync(p, "utf8");
  return /^release /m.test(t) && !t.includes("release-blocked") && !/traps|small\//.test(p);
});
const part = Number(process.env["PART"] ?? 0),
  of = Number(process.env["OF"] ?? 1);
type Op = { name: string; make: (lines: readonly string[], i: number, head: string) => string[] | undefined };
const swapWord = (line: string, a: string, b: string) => (new RegExp(`\\b${a}\\b`).test(line) ? line.replace(new RegExp(`\\b${a}\\b`), b) : undefined);
const withLine = (lines: readonly string[], i: number, l: string | undefined) =>
  l === undefined || l === lines[i] ? undefined : lines.map((it, k) => (k === i ? l : it));
const ops: Op[] = [
  {
    name: "fit-other-side",
    make: (ls, i, h) =>
      h.startsWith("step") && /^\s+(fit|remove)\s/.test(ls[i]!)
        ? withLine(
            ls,
            i,
            swapWord(ls[i]!, "left", "right") ?? swapWord(ls[i]!, "right", "left") ?? swapWord(ls[i]!, "front", "rear") ?? swapWord(ls[i]!, "rear", "front"),
          )
        : undefined,
  },
  {
    name: "tighten-other-side",
    make: (ls, i, h) =>
      h.startsWith("step") && /^\s+(tighten|lock)\s/.test(ls[i]!)
        ? withLine(ls, i, swapWord(ls[i]!, "left", "right") ?? swapWord(ls[i]!, "right", "left"))
        : undefined,
  },
  {
    name: "final-other-side",
    make: (ls, i) =>
      /^(measure|seen) .*final/.test(ls[i]!) ? withLine(ls, i, swapWord(ls[i]!, "left", "right") ?? swapWord(ls[i]!, "right", "left")) : undefined,
  },
  {
    name: "finding-other-side",
    make: (ls, i) => (/^finding /.test(ls[i]!) ? withLine(ls, i, swapWord(ls[i]!, "left", "right") ?? swapWord(ls[i]!, "right", "left")) : undefined),
  },
  {
    name: "not-new",
    make: (ls, i, h) => (h.startsWith("step") && /^\s+(fit|lock)\s.*\bnew\b/.test(ls[i]!) ? withLine(ls, i, ls[i]!.replace(/ new\b/, "")) : undefined),
  },
  {
    name: "torque-down",
    make: (ls, i, h) =>
      h.startsWith("step") && /^\s+tighten\s.* to \d/.test(ls[i]!)
        ? withLine(
            ls,
            i,
            ls[i]!.replace(/ to (\d+(?:\.\d+)?)/, (_, n) => ` to ${Math.round(Number(n) * 6) / 10}`),
          )
        : undefined,
  },
  {
    name: "torque-up",
    make: (ls, i, h) =>
      h.startsWith("step") && /^\s+tighten\s.* to \d/.test(ls[i]!)
        ? withLine(
            ls,
            i,
            ls[i]!.replace(/ to (\d+(?:\.\d+)?)/, (_, n) => ` to ${Math.round(Number(n) * 16) / 10}`),
          )
        : undefined,
  },
  {
    name: "no-torque",
    make: (ls, i, h) => (h.startsWith("step") && /^\s+tighten\s.* to \d/.test(ls[i]!) ? withLine(ls, i, ls[i]!.replace(/ to \d.*$/, "")) : undefined),
  },
  { name: "final-to-found", make: (ls, i) => (/^(measure|seen) .*\bfinal\b/.test(ls[i]!) ? withLine(ls, i, ls[i]!.replace(/\bfinal\b/, "found")) : undefined) },
  {
    name: "reading-times-1.5",
    make: (ls, i, h) =>
      /^measure .*final/.test(h) && /^\s+(\w+ )?\d+\.\d+/.test(ls[i]!)
        ? withLine(
            ls,
            i,
            ls[i]!.replace(/(\d+\.\d+)/, (n) => String((Number(n) * 1.5).toFixed(3))),
          )
        : undefined,
  },
  { name: "final-before-last-step", make: () => undefined },
  {
    name: "count-less",
    make: (ls, i, h) =>
      h.startsWith("step") && /^\s+(fit|tighten|lock)\s\S+ ([2-9]|\d\d)\b/.test(ls[i]!)
        ? withLine(
            ls,
            i,
            ls[i]!.replace(/^(\s+\w+\s\S+ )(\d+)/, (_, a, n) => a + (Number(n) - 1)),
          )
        : undefined,
  },
  {
    name: "decision-reuse",
    make: (ls, i) => (/^\s+decision (renew|repair)\b/.test(ls[i]!) ? withLine(ls, i, ls[i]!.replace(/decision .*/, "decision reuse")) : undefined),
  },
  {
    name: "up-into-step-start",
    make: (ls, i, h) => {
      if (!h.startsWith("step") || !/^\s+(tighten|lock)\s/.test(ls[i]!)) return undefined;
      let j = i;
      while (j > 0 && !/^step/.test(ls[j]!)) j--;
      if (i === j + 1) return undefined;
      const out = [...ls];
      const [l] = out.splice(i, 1);
      out.splice(j + 1, 0, l!);
      return out;
    },
  },
  { name: "supports-lower", make: (ls, i, h) => (h.startsWith("step") && /^\s+lower\b/.test(ls[i]!) ? ls.filter((_, k) => k !== i) : undefined) },
  {
    name: "swap-adjacent-fit",
    make: (ls, i, h) =>
      h.startsWith("step") && /^\s+fit\s/.test(ls[i]!) && /^\s+fit\s/.test(ls[i + 1] ?? "")
        ? ls.map((l, k) => (k === i ? ls[i + 1]! : k === i + 1 ? ls[i]! : l))
        : undefined,
  },
  {
    name: "swap-steps",
    make: (ls, i) => {
      if (!/^step/.test(ls[i]!)) return undefined;
      let j = i + 1;
      while (j < ls.length && !/^\S/.test(ls[j]!)) j++;
      if (!/^step/.test(ls[j] ?? "")) return undefined;
      let k = j + 1;
      while (k < ls.length && !/^\S/.test(ls[k]!)) k++;
      return [...ls.slice(0, i), ...ls.slice(j, k), ...ls.slice(i, j), ...ls.slice(k)];
    },
  },
  {
    name: "no-step",
    make: (ls, i) => {
      if (!/^step/.test(ls[i]!)) return undefined;
      let j = i + 1;
      while (j < ls.length && !/^\S/.test(ls[j]!)) j++;
      return [...ls.slice(0, i), ...ls.slice(j)];
    },
  },
  {
    name: "final-entry-up",
    make: (ls, i) => {
      if (!/^(measure|seen) .*\bfinal\b/.test(ls[i]!)) return undefined;
      let j = i + 1;
      while (j < ls.length && !/^\S/.test(ls[j]!)) j++;
      let s = i - 1;
      while (s >= 0 && !/^step/.test(ls[s]!)) s--;
      if (s < 0) return undefined;
      return [...ls.slice(0, s), ...ls.slice(i, j), ...ls.slice(s, i), ...ls.slice(j)];
    },
  },
  { name: "no-grease-oil", make: (ls, i, h) => (h.startsWith("step") && /^\s+(grease|oil)\s/.test(ls[i]!) ? ls.filter((_, k) => k !== i) : undefined) },
  { name: "no-received", make: (ls, i, h) => (/^order/.test(h) && /^\s+received\b/.test(ls[i]!) ? ls.filter((_, k) => k !== i) : undefined) },
  { name: "no-mark", make: (ls, i, h) => (h.startsWith("step") && /^\s+mark\s/.test(ls[i]!) ? ls.filter((_, k) => k !== i) : undefined) },
  { name: "no-support", make: (ls, i, h) => (h.startsWith("step") && /^\s+(support|chock|safe)\b/.test(ls[i]!) ? ls.filter((_, k) => k !== i) : undefined) },
  {
    name: "no-finding",
    make: (ls, i) => {
      if (!/^finding/.test(ls[i]!)) return undefined;
      let j = i + 1;
      while (j < ls.length && !/^\S/.test(ls[j]!)) j++;
      return [...ls.slice(0, i), ...ls.slice(j)];
    },
  },
  { name: "no-test", make: (ls, i) => (/^\s+test\b/.test(ls[i]!) ? ls.filter((_, k) => k !== i) : undefined) },
  { name: "set-wrench", make: () => undefined },
];
const only = process.env["OPS"]?.split(",");
const counts: Record<string, [number, number]> = {};
const out: string[] = [];
for (const [n, path] of released.entries()) {
  if (n % of !== part) continue;
  const text = readFileSync(path, "utf8"),
    lines = text.split("\n").filter((l) => !/^#/.test(l));
  const base = path.split("/").at(-1)!;
  const blocked = (t: string) => checkFile(filesAround(path, t), base).some((it) => it.rule === "release-blocked");
  if (blocked(lines.join("\n"))) continue;
  let head = "";
  for (let i = 0; i < lines.length; i++) {
    if (/^\S/.test(lines[i]!)) head = lines[i]!;
    for (const op of ops) {
      if (only && !only.includes(op.name)) continue;
      const m = op.make(lines, i, head);
      if (m === undefined) continue;
      const c = (counts[op.name] ??= [0, 0]);
      c[1]++;
      let b = false;
      try {
        b = blocked(m.join("\n"));
      } catch (e) {
        out.push(`THROWS ${op.name} ${path}:${i} ${e}`);
      }
      if (!b) {
        c[0]++;
        out.push(`${op.name}\t${path.replace(root, "")}\t${lines[i]!.trim()}\t[${head}]`);
      }
    }
  }
}
writeFileSync(process.env["OUTF"] ?? "/tmp/lead/sweep.txt", out.join("\n"));
console.log(released.length, counts);
