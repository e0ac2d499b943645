// The same facts in other words, line by line: what a second pair of hands would have written of the same work.

type Lines = readonly string[];

/** By what they do. Each leaves a line alone that it can't take apart without a doubt. */
export const rewordings: Readonly<Record<string, (lines: Lines) => string[]>> = {
  "one first, then the others": (lines) => lines.flatMap((line) => oneFirst(line, shimsOf(lines), atPlaces(lines))),
  "a name a line": (lines) =>
    lines.flatMap((line) => {
      const [, indent = "", verb = "", names, rest = ""] =
        /^(\s+)(fit|oil|grease|clean) ((?:[a-z0-9-]+(?: \d+)?, )+[a-z0-9-]+(?: \d+)?)( new)?$/.exec(line) ?? [];
      return names === undefined ? [line] : names.split(", ").map((name) => `${indent}${verb} ${name}${rest}`);
    }),
  "a place a line": (lines) => {
    const places = placesOf(lines);
    return lines.flatMap((line) => {
      const [, indent = "", verb = "", name = "", list, rest = ""] =
        /^(\s+)(fit|remove|undo|slacken|tighten|lock|oil|grease|clean|mark|repair) ([a-z0-9-]+) ([a-z0-9-]+(?:, [a-z0-9-]+)+)((?: new| to .*)?)$/.exec(line) ??
        [];
      const at = list?.split(", ") ?? [];
      return at.length === 0 || !at.every((place) => places.has(place)) ? [line] : at.map((place) => `${indent}${verb} ${name} ${place}${rest}`);
    });
  },
  "a finding a place": (lines) =>
    entriesOf(lines).flatMap((entry) => {
      const [, name = "", list, day = ""] = /^finding ([a-z0-9-]+) ([a-z0-9-]+(?:, [a-z0-9-]+)+)( \d{4}-\d\d-\d\d)?$/.exec(entry[0] ?? "") ?? [];
      return list === undefined ? entry : list.split(", ").flatMap((place) => [`finding ${name} ${place}${day}`, ...entry.slice(1)]);
    }),
  "a reading a line": (lines) =>
    entriesOf(lines).flatMap((entry) => {
      const rows = entry.slice(1).filter((line) => line.trim() !== "");
      if (!/^measure /.test(entry[0] ?? "") || rows.length < 2 || rows.some((line) => /^\s*(again|note|because|#|photo)/.test(line))) return entry;
      return [...rows.flatMap((row) => [entry[0] ?? "", row]), ""];
    }),
  "a step an action": (lines) =>
    entriesOf(lines).flatMap((entry) => {
      const done = entry.findIndex((line) => /^\s+done\b/.test(line));
      const acts = entry.slice(1, done);
      if (
        !/^step /.test(entry[0] ?? "") ||
        done < 0 ||
        acts.length < 2 ||
        entry.some((line) => /^\s+(each|at|after|needs|takes|tool|use|caution|admit|stage|#|note)/.test(line))
      )
        return entry;
      const id = /^step ([a-z0-9-]+)/.exec(entry[0] ?? "")?.[1] ?? "step";
      return [...acts.flatMap((act, i) => [i === 0 ? (entry[0] ?? "") : `step ${id}-z${i} "And on"`, act, entry[done] ?? ""]), ...entry.slice(done + 1)];
    }),
  "without notes": (lines) => lines.filter((line) => !/^\s+note\b/.test(line)),
};

function oneFirst(line: string, shims: ReadonlySet<string>, each: ReadonlySet<string>): string[] {
  const [, indent = "", verb = "", name = "", count = "", rest = ""] =
    /^(\s+)(fit|remove|undo|slacken|tighten|lock) ([a-z0-9-]+) (\d+)((?: [^"#]*)?)$/.exec(line) ?? [];
  // A pack of shims comes off as one, wherever it is declared, and a list goes on behind its first name.
  if (Number(count) < 2 || shims.has(name) || /shims?$/.test(name) || (rest.includes(",") && !/\bto\b/.test(rest))) return [line];
  // “Undo nut 8” of two at each of four places is all of them, and one is one at each.
  if (each.has(name) && !/^ [a-z]/.test(rest.replace(/^ (to|by|new)\b.*/, ""))) return [line];
  return [`${indent}${verb} ${name} 1${rest}`, `${indent}${verb} ${name} ${Number(count) - 1}${rest}`];
}

function shimsOf(lines: Lines): ReadonlySet<string> {
  return new Set(lines.flatMap((line) => /^shims ([a-z0-9-]+)/.exec(line)?.[1] ?? []));
}

function atPlaces(lines: Lines): ReadonlySet<string> {
  const named = entriesOf(lines).filter((entry) => entry.some((line) => /^\s+each /.test(line)));
  return new Set(named.flatMap((entry) => /^(?:part|fastener) ([a-z0-9-]+)/.exec(entry[0] ?? "")?.[1] ?? []));
}

function placesOf(lines: Lines): ReadonlySet<string> {
  return new Set(lines.flatMap((line) => (/^places \S+ ([^#]*)/.exec(line)?.[1] ?? "").split(/[\s,]+/)).filter((it) => it !== ""));
}

/** The lines of each entry, and first what stands before all. */
export function entriesOf(lines: Lines): string[][] {
  const out: string[][] = [];
  for (const line of lines) {
    const last = out.at(-1);
    if (last === undefined || /^[a-z]/.test(line)) out.push([line]);
    else last.push(line);
  }
  return out;
}
