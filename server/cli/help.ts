// What `--help` says: of the program, and of each command.

const pages: Readonly<Record<string, string>> = {
  check: `splitpin check [PATH…] [--format text|json]

Says what is wrong in job sheets. A PATH is a sheet or a folder of sheets; without one, the folder that you are in.

  --format text   for reading: each fault with its line (as usual)
  --format json   for programs: lines and columns count from 1

Ends with 0 where nothing is at error, 1 where something is, 2 where a sheet could not be read.
`,
  order: `splitpin order [PATH…] [--format table|md|csv|html|json] [--out FILE]

Works out what must be ordered for the jobs in PATH, less what is on the shelf and on order.

  --format table  for the terminal (as usual)
  --format md     Markdown
  --format csv    for a spreadsheet
  --format html   one page, nothing fetched
  --format json   for programs
  --out FILE      written whole or not at all; without it, printed

Ends with 0 where the order was made, 2 where it could not be.
`,
  release: `splitpin release [PATH…] [--format text|md|html|json] [--out FILE]

Says what stands between a machine and the road: everything open on its sheet, worst first. Released, it is the record: what was found, done, fitted, read and tried,
what was accepted by whom, and what to look at again.

Ends with 0 where it is released and nothing is open, 1 where it is not, 2 where a sheet could not be read.
`,
  readings: `splitpin readings [PATH…] [--format text|md|html|json] [--out FILE]

Each limit at each place as it was read: found and final, mean, span, ovality, taper, uncertainty, and the verdict in words. The page has a picture of each.

Ends with 0 where it was drawn, 2 where a sheet could not be read.
`,
  format: `splitpin format [--check] [PATH…]

Sets the layout of job sheets and changes nothing else. A file is written whole or not at all.

  --check         writes nothing; names the sheets that would change, and ends with 1 if there are any

`,
  explain: `splitpin explain [RULE]

Says what a rule flags and why it matters, with a sheet that is wrong and one that is right. Without RULE, lists all rules.
`,
  server: `splitpin server --stdio

The language server, for an editor to start. It speaks the Language Server Protocol over standard input and output.
`,
};

export function helpOf(command: string | undefined): string {
  const page = command !== undefined && Object.hasOwn(pages, command) ? pages[command] : undefined;
  return page ?? main;
}

const main = `splitpin: checks job sheets, and works out what must be ordered

  splitpin check [PATH…] [--format text|json]
  splitpin order [PATH…] [--format table|md|csv|html|json] [--out FILE]
  splitpin release [PATH…] [--format text|md|html|json] [--out FILE]
  splitpin readings [PATH…] [--format text|md|html|json] [--out FILE]
  splitpin format [--check] [PATH…]
  splitpin explain [RULE]
  splitpin server --stdio
  splitpin --help, splitpin COMMAND --help
  splitpin --version

A PATH is a sheet (*.jobsheet) or a folder of sheets; without one, the folder that you are in.
A sheet is a record and a reminder, not an inspection: the maker's data, local rules and licensed people come first.
`;
