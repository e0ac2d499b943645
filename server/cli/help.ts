// What `--help` says: of the program, and of each command.

const pages: Readonly<Record<string, string>> = {
  check: `splitpin check [PATH…] [--format text|json]

Says what is wrong in job sheets. A PATH is a sheet or a folder of sheets; without one, the folder that you are in.

  --format text   for reading: each fault with its line (as usual)
  --format json   for programs: lines and columns count from 1

Ends with 0 where nothing is at error, 1 where something is, 2 where a sheet could not be read.
`,
  order: `splitpin order [PATH…] [--choose cheapest|fewest|soonest] [--format table|md|csv|html|json|letter] [--supplier NAME] [--out FILE]

Works out what must be ordered for the jobs in PATH, less what is on the shelf and on order. Several jobs make one order; each row says which job wants it.

  --choose cheapest  the least to pay for all of it together: goods in whole packs, freight and free freight, duty, surcharges, at the sheet's rates
  --choose fewest    the fewest parcels, and of these the cheapest
  --choose soonest   all of it there at the earliest, and of these the cheapest
                     Without it each thing is taken from the seller whose goods are cheapest, its packs and singles combined. With it a thing may be split among
                     sellers, and more be bought of it where that earns a lower price or free carriage; at equal money fewer parcels come first, then the earlier
                     last one. Prices without a rate on the sheets are compared with one another only. The choice is proved to the coin, or said not to be, with the
                     most that it can be above the least.

  --format table  for the terminal (as usual)
  --format md     Markdown
  --format csv    for a spreadsheet
  --format html   one page, nothing fetched
  --format json   for programs, one object; figures are decimal strings, null where there is none to give, lines count from 1:
                  lines      what to get: item, need, stock, onOrder, held, standing, unit, toOrder, orderUnit, packs, lots (each sale of it), supplier, number,
                             unitPrice, total (of the goods), exchange, currency, lead, priceList, places, jobs, why; null where it is bought of several and they differ
                  errors     in the sheets;  undecided  found, and nothing decided;  onHold  kept or struck out;  jobByJob  what one order for all saves
                  surplus    not needed after all: item, order, quantity, saves, cancel, due, freightSaved, freightDue
                  waiting    for an answer;  work  sent out;  back  what to send back for a surcharge;  lists  price lists with rows left out
                  suppliers  goods, exchange, freight, duty, tax, total;  totals  by currency;  together  in the sheet's;  choice  how it was chosen
  --format letter the order to one supplier, as text for a letter; --supplier NAME says to which, by its name in the sheet
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
  "way-back": `splitpin way-back [PATH…] [--format text|md|html|json] [--out FILE]

Writes the steps that would return what came off, in an order that the facts allow: new where it must be, torque and locking named, fluids filled, hazards restored,
and the readings that must follow. As text it is ready to paste into the sheet. Asked again it writes only what is still missing.

Ends with 0 where it was written, 2 where a sheet could not be read.
`,
  left: `splitpin left [PATH…] [--format text|md|html|json] [--out FILE]

How a job was left after each pause, and as it stands now: what is off, slack, unlocked, for now, drained, away, live or hanging, what must not be trusted,
and what was next. The page to read first when a job is taken up again.

Ends with 0 where it was drawn, 2 where a sheet could not be read.
`,
  shims: `splitpin shims [PATH…] [--format text|md|html|json] [--out FILE]

From the latest reading, what it must be left at, and the shims that are in and in the drawer: the stack that comes nearest the middle with the fewest shims.
Where a limit is set by two stacks, what leaves one goes to the other. Where none fits, the thickness to get.

Ends with 0 where it was drawn, 2 where a sheet could not be read.
`,
  plan: `splitpin plan [PATH…] [--from DATE] [--hours N] [--format text|md|html|json] [--out FILE]

When: each step done, ready, or waiting and for what (a step, a parcel that comes on a day, an answer); the earliest finish, what each step may be late, the order that the
finish hangs on and that must go out today, and what can be done meanwhile. The jobs in PATH make one plan; each counts what it may be late against its own finish.

  --from DATE     the day that the plan begins; today, where unsaid
  --hours N       how many hours of work a day has; 8, where unsaid. Every day is counted as a working day, and a lead in days of the calendar.

Ends with 0 where it was drawn, 2 where it could not be.
`,
  format: `splitpin format [--check] [PATH…]

Sets the layout of job sheets and changes nothing else. A file is written whole or not at all.

  --check         writes nothing; names the sheets that would change, and ends with 1 if there are any

`,
  explain: `splitpin explain [RULE]

Says what a rule flags and why it matters, with a sheet that is wrong and one that is right. Without RULE, lists all rules.
`,
  figure: `splitpin figure "QUESTION" [--format text|json]

A figure for the bench without a sheet: one line of answer, one that says where it is from and how sure it is. What is an estimate or from memory says so; the maker's
figure rules over all of it. What is not known is said to be so, with what could be asked.

  threads     "1/2-20 UNF grade 5"   "M10 class 8.8"   "2 BA"   "threads of 1/2 in"   "flank angle BA"   "grade 2 over 3/4 in"
              "look-alike M8 and 5/16-18 UNC"
  locking     "split pin for 5/8 BSF"   "split pin 1/8 in"   "castle nut M12"   "slot travel for 3/4-16 UNF"   "slots 6 holes 2"
              "lock wire"   "tab washer"   "castle nut"   "split pin rule"   "caution jack"
  torque      "torque 1/2-20 UNF grade 5 K 0.2 [at 75 %]"   "torque 50 lbf.ft on 1/2-20 UNF grade 5 K 0.2"   "K lubricated"
              "torque 50 lbf.ft with extension 6 in on 18 in at 30 deg" (0 in line away from the hand, 90 square to it)
              "stress 25000 lbf on 3/4-16 UNF"   "joint 3/4-16 UNF preload 25000 lbf load 6000 lbf stiffness 6.5, 13.8" (bolt, parts)
  fits        "25 H7/g6"   "25 H7 mm"   "IT7 25 mm" (millimetres where unsaid)
  units       "0.015 in in mm"   "70 degF in degC"   "5 degF difference in K"   "1 imperial pint in l"
  shims       "shims READING to RANGE from Q x N, Q x N… [fitted Q x N…] [effect R]"
              "shims 0.43 mm to 0.10 .. 0.15 mm from 0.05 mm x 4, 0.10 mm x 3, 0.25 mm x 2"
              "shims READING to RANGE first Q x N… second Q x N… [from Q x N…] effect R" (the total over both sides is kept)
              "shims 0.55 mm from 0.25, 0.30, 0.35 mm" (a thickness to make up; as many of each as it takes, where no count is given)
              effect: by how much the reading changes for one unit of thickness put in. Unsaid, it is 1; with nothing fitted and a reading that must
              come down, it is -1. The answer says which was taken.
  heat        "heat 45 mm cast-iron interference 0.040 mm clearance 0.045 mm [from 20 degC] [lined] [bearing] [hardened]"
              "heat 1 in alpha 12.8e-6/degF interference …"   "expansion of bronze"   "white metal grade 2"   "bearing heat"
  gears       "backlash 0.1 mm teeth 11/43 pressure 20 deg [spiral 35 deg] [shaft 90 deg]"   "backlash 0.010 to 0.006 in teeth 11/40 pressure 20 deg"
              "backlash DP 4"   "backlash 0.009 in at 4.5 in pitch radius 4 in"   "crown wheel backlash car"
  readings    "mean 1.1, 1.2, 1.3 mm" (1.1 x 500 is five hundred of them)   "ovality 1.2500, 1.2485 in"   "conicity 1.25 in to 1.247 in over 2 in"   "cone 1:8"
              "doubt 0.138 mm U 0.012 mm max 0.15 mm" (ISO 14253-1)
  uncertainty "uncertainty 2.5, 0.3, 5.8, 0.7 mm" (each part as it adds; nu 18 behind one: its degrees of freedom)   "rectangular 15 um"
              "resolution 0.001 in"   "expand 32 k 2.92"   "normal 95 %"   "normal k 2"
  bushes      "bush 1.25 in" (a rule of thumb)
  money       "decimals of JPY"   "round 2.665 GBP"   "need 10 in packs of 5"   "3 packs at 4.35 GBP"

  --format text   for reading (as usual)
  --format json   for programs, one object:
                  query       the question as it was read
                  known       true or false
                  line        the answer, or why there is none
                  values      [{ name, value, unit, rounded? }]: value is an exact decimal, or its first digits where rounded is true;
                              a word where the answer is one ("conforms", "not proved", "does not conform"); one name may stand in several units
                  source      where the figures are from
                  confidence  of the weakest of them: "published table", "computed", "from memory" or "estimate"
                  cautions    what to mind, each a text
                  ask         in place of the last four, where known is false: questions that have an answer

Ends with 0 where it is known, 1 where it is not, 2 where it could not run.
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
  splitpin order [PATH…] [--choose cheapest|fewest|soonest] [--format table|md|csv|html|json|letter] [--supplier NAME] [--out FILE]
  splitpin release [PATH…] [--format text|md|html|json] [--out FILE]
  splitpin readings [PATH…] [--format text|md|html|json] [--out FILE]
  splitpin way-back [PATH…] [--format text|md|html|json] [--out FILE]
  splitpin left [PATH…] [--format text|md|html|json] [--out FILE]
  splitpin shims [PATH…] [--format text|md|html|json] [--out FILE]
  splitpin plan [PATH…] [--from DATE] [--hours N] [--format text|md|html|json] [--out FILE]
  splitpin format [--check] [PATH…]
  splitpin explain [RULE]
  splitpin figure "QUESTION" [--format text|json]
  splitpin server --stdio
  splitpin --help, splitpin COMMAND --help
  splitpin --version

A PATH is a sheet (*.jobsheet) or a folder of sheets; without one, the folder that you are in.
A sheet is a record and a reminder, not an inspection: the maker's data, local rules and licensed people come first.
`;
