// Where a line has nothing left but the quote that closes its text.

/** A text is open at this column, and its quote is all that follows. */
export function endsText(line: string, column: number): boolean {
  if (!/^"\s*$/.test(line.slice(column))) return false;
  let open = false;
  for (let i = 0; i < column; i++) {
    if (open && line[i] === "\\") i++;
    else if (line[i] === '"') open = !open;
    else if (!open && line[i] === "#" && (i === 0 || /\s/.test(line[i - 1] as string))) return false;
  }
  return open;
}
