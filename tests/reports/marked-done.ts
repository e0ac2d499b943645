// What a hand does with a way back that was written: marks its steps done, fills in its blanks and writes the figures and what was seen.

/** Steps marked done, and each line that waits given its figure: `figures` by limit, place and position, or by the limit alone; what was seen good, and what was found serviceable. */
export function markedDone(text: string, figures: Readonly<Record<string, string>>): string {
  const out: string[] = [];
  let limit = "";
  let step = false;
  const close = () => {
    if (step) out.push("  done");
    step = false;
  };
  for (const line of text.split("\n")) {
    const measure = /^measure (\S+) (?:trial|final)/.exec(line);
    const waits = /^\s*# ?(?:(\S+) )?\u2026(?: at (\S+))?/.exec(line);
    const found = /^# (finding .*)$/.exec(line);
    const seen = /^# seen (\S+) final good\|bad "\u2026"(.*) by "\u2026"/.exec(line);
    if (/^\S/.test(line)) close();
    if (/^step /.test(line)) step = true;
    if (measure !== null) limit = measure[1] as string;
    if (found !== null) out.push(found[1] as string, '  is serviceable "as it should be"');
    else if (/^# +is \u2026$/.test(line)) continue;
    else if (seen !== null) out.push(`seen ${seen[1]} final good "as it should be"${seen[2]} by "A. Moor"`);
    else if (waits !== null) {
      const at = [waits[1], waits[2]].filter((it) => it !== undefined);
      out.push(`  ${[...at, figures[[limit, ...at].join(" ")] ?? figures[limit] ?? `NO FIGURE FOR ${limit}`].join(" ")}`);
    } else out.push(filled(line));
  }
  close();
  return out.join("\n");
}

/** `fit ___  # key new: made from key steel` is filled in as its note says; a text as it was done. */
function filled(line: string): string {
  return line
    .replace(/ ___( by [^#]+)? {2}# ([^:]+):/, " $2$1  #")
    .replace(/to ___ (\S+) {2}# (?:max|min) (\S+)/, "to $2 $1  #")
    .replace('"___"', '"as it should be"');
}
