// What a damage is: lines that are taken out of a sheet and put into it, in hunks, as `.damages` files hold them.

export interface Damage {
  readonly title: string;
  readonly hunks: readonly (readonly string[])[];
}

export function damagesOf(text: string): Damage[] {
  return text
    .split(/^== /m)
    .slice(1)
    .map((block) => {
      const [title = "", ...rest] = block.split("\n");
      const lines = rest.filter((line) => !line.startsWith("#"));
      return { title, hunks: hunksOf(lines) };
    });
}

/** They lie between lines that are empty. */
function hunksOf(lines: readonly string[]): string[][] {
  const out: string[][] = [[]];
  for (const line of lines) {
    if (line.trim() !== "") out.at(-1)?.push(line);
    else if (out.at(-1)?.length !== 0) out.push([]);
  }
  return out.filter((hunk) => hunk.length > 0);
}

/** Each line is asked for at every damage of its sheet. */
const plains = new Map<string, string>();

/** The lines with the hunks done to them; undefined where one finds no place, or more than one. */
export function damaged(sheet: readonly string[], hunks: Damage["hunks"]): string[] | undefined {
  let lines = [...sheet];
  for (const hunk of hunks) {
    let body = [...hunk];
    let from = 0;
    let nth: number | undefined;
    while (body[0]?.startsWith("@")) {
      const at = body[0].slice(1).trim();
      body = body.slice(1);
      if (/^\d+$/.test(at)) nth = Number(at);
      else from = lines.findIndex((line) => line.trim().startsWith(at));
    }
    const old = body.filter((line) => line[0] !== "+").map((line) => line.slice(1).trim());
    const hits = lines.flatMap((_, i) => (i >= from && i + old.length <= lines.length && old.every((it, k) => plain(lines[i + k]) === it) ? [i] : []));
    const at = nth !== undefined ? hits[nth - 1] : from > 0 || hits.length === 1 ? hits[0] : undefined;
    if (from < 0 || at === undefined) return undefined;
    let next = at;
    const made: string[] = [];
    for (const line of body) {
      if (line[0] === "+") made.push(line.slice(1));
      else {
        if (line[0] !== "-") made.push(lines[next] as string);
        next++;
      }
    }
    lines = [...lines.slice(0, at), ...made, ...lines.slice(at + old.length)];
  }
  return lines;
}

function plain(line = ""): string {
  let it = plains.get(line);
  if (it === undefined) {
    it = (line.split("  # more")[0] as string).trim();
    plains.set(line, it);
  }
  return it;
}
