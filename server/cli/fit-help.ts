// A page of help set for the terminal that it is read in.
// Invariant: only blanks and ends of lines change; nothing within quotation marks or brackets is parted where there is room for it on a line.

interface Block {
  /** What the first line begins with: blanks, and the name that the text beside it is of. */
  readonly head: string;
  /** In columns: where further lines begin. */
  readonly hang: number;
  text: string;
}

/** No line is longer than `width` columns, but for a word that is by itself. */
export function fitHelp(page: string, width: number): string {
  return blocksOf(page)
    .flatMap((block) => linesOf(block, Math.max(40, Math.min(width, 100))))
    .join("\n");
}

function blocksOf(page: string): readonly Block[] {
  const blocks: Block[] = [];
  let last: Block | undefined;
  for (const line of page.split("\n")) {
    const block = blockOf(line);
    // A line that begins where the text above it begins goes on with that text.
    if (last !== undefined && block.text !== "" && block.head.length === last.hang && block.head.trim() === "" && !isList(block) && !isUsage(last)) {
      last.text += ` ${block.text}`;
      continue;
    }
    blocks.push(block);
    last = block.text === "" || isList(block) ? undefined : block;
  }
  return blocks;
}

/** Longer than any option: what is longer before a gap is a text of its own. */
const longestName = 24;

function blockOf(line: string): Block {
  const indent = /^ */.exec(line)?.[0] ?? "";
  const named = indent !== "" && line[indent.length] !== '"' ? /^( +(?:\S+ (?=")|\S+(?: \S+)*? {2,}))(\S.*)$/.exec(line) : null;
  if (named !== null && (named[1] as string).trim().length <= longestName)
    return { head: named[1] as string, hang: (named[1] as string).length, text: named[2] as string };
  const text = line.slice(indent.length);
  return { head: indent, hang: indent.length + (text.startsWith("splitpin ") ? 4 : 0), text };
}

function isList(block: Block): boolean {
  return block.text.startsWith('"');
}

function isUsage(block: Block): boolean {
  return block.text.startsWith("splitpin ");
}

function linesOf({ head, hang, text }: Block, width: number): readonly string[] {
  const lines: string[] = [];
  let line = head;
  let isEmpty = true;
  const take = (gap: string, word: string) => {
    if (!isEmpty && line.length + gap.length + word.length > width) {
      lines.push(line);
      line = " ".repeat(hang);
      isEmpty = true;
    }
    line += isEmpty ? word : gap + word;
    isEmpty = false;
  };
  for (const [, gap, whole] of text.matchAll(/(\s*)("[^"]*"\S*|\[[^\]]*\]\S*|\S+)/g) as Iterable<[string, string, string]>) {
    if (hang + whole.length <= width) take(gap, whole);
    else for (const [, inner, word] of whole.matchAll(/(\s*)(\S+)/g) as Iterable<[string, string, string]>) take(inner === "" ? gap : inner, word);
  }
  return [...lines, line.trimEnd()];
}
