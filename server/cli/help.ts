// What `--help` says: of the program, and of each command. A report brings its own page.
import { reports } from "../service.ts";
import { fitHelp } from "./fit-help.ts";

const pages: Readonly<Record<string, string>> = {
  check: `splitpin check [PATH…] [--brief] [--hints] [--format text|json|sarif|junit] [--fail-on error|unclear]

Says what is wrong in job sheets. A PATH is a sheet or a folder of sheets; without one, the folder that you are in.

  --brief         a line each, without the sheet's own line below it
  --hints         shows too what is done or known already; else it is counted at the end
  --format text   for reading: each fault with its line (as usual)
  --format json   for programs: lines and columns count from 1
  --format sarif  SARIF 2.1.0, for what gathers the findings of several programs
  --format junit  JUnit XML, for a build server: a suite for each sheet, a failure for each error
  --fail-on unclear   ends with 1 only where a line or a figure does not say for certain what it means, or a release does not hold: for sheets that are shared while the
                      machine is still apart

Ends with 0 where nothing is at error, 1 where something is, 2 where a sheet could not be read.
`,
  ...Object.fromEntries(reports.map((it) => [it.name, it.help])),
  facts: `splitpin facts FILE

The facts of one sheet, a line each: each detail behind what it belongs to, without comments and layout. For git to show what changed:

  git config diff.jobsheet.textconv "splitpin facts"

and in .gitattributes:

  *.jobsheet diff=jobsheet

Ends with 0, or with 2 where the sheet could not be read.

`,
  verify: `splitpin verify HAND-OVER [FOLDER]

Says whether the files that a hand-over was made from are still as they were, by the digests that stand in it. FOLDER is where the sheets lie; without it, the folder that
you are in. A file that was moved and not changed is found again.

Ends with 0 where all are unchanged, 1 where one is changed or missing, 2 where it could not run.

`,
  format: `splitpin format [--check] [PATH…]

Sets the layout of job sheets and changes nothing else. A file is written whole or not at all.

  --check         writes nothing; names the sheets that would change, and ends with 1 if there are any

`,
  new: `splitpin new [ASSEMBLY…] [--machine TEXT] [--matter TEXT] [--name NAME]

Writes a new job sheet into the folder that you are in, and beside it a data sheet of what comes apart: its parts, fasteners, limits, hazards and checks, with a blank
(___) for every figure that the maker's book has to give. Several assemblies share what both declare. Without ASSEMBLY, an empty job. No file is written over.

  --list          the starting assemblies
  --machine TEXT  maker, type, year
  --matter TEXT   what is the matter
  --name NAME     of the file, without its ending; else the name of the assembly

`,
  explain: `splitpin explain [RULE]

Says what a rule flags and why it matters, with a sheet that is wrong and one that is right. Without RULE, lists all rules.
`,
  figure: `splitpin figure "QUESTION" [--format text|json]

A figure for the bench without a sheet: one line of answer, one that says where it is from and how sure it is. What is an estimate or from memory says so; the maker's
figure rules over all of it. What is not known is said to be so, with what could be asked.

Every word of a question must be understood: what is left over is named, and nothing is answered.

  threads     "1/2-20 UNF grade 5"   "M10 class 8.8"   "2 BA"   "1/2 x 20 cycle thread"   "1/4 BSP"   "5/16 x 32 ME"   "3/8 brass thread"
              "threads of 1/2 in"   "flank angle BA"   "how deep is a Whitworth thread"   "grade 2 over 3/4 in"   "20 tpi in mm"
              "look-alike M8 and 5/16-18 UNC"
  drills      "tapping drill for 3/8 BSW"   "tapping drill for 1/4 BSF 75 %"   "No 7 drill in mm"   "letter F drill"   "drill near 5.2 mm"
  spanners    "spanner for 1/2 BSF"   "spanner for 3/8 Whitworth" (both hexagons)   "what does a 13 mm spanner fit"   "spanner 1/4 W"
  gauges      "14 SWG in mm"   "22 AWG in mm"
  tapers      "No 2 Morse taper"   "INT 40 taper"   "7:24 taper"   "taper 1 in 8"   "taper 0.6 in per foot"   "metric taper pin"
  locking     "split pin for 5/8 BSF"   "split pin 1/8 in"   "castle nut M12"   "slot travel for 3/4-16 UNF"   "slots 6 holes 2"
              "split pin for a hole of 4.5 mm"   "slot travel for M20x1.5 slots 6"
              "lock wire"   "tab washer"   "castle nut"   "split pin rule"   "caution jack"
  torque      "torque 1/2-20 UNF grade 5 K 0.2 [at 75 %]"   "torque 50 lbf.ft on 1/2-20 UNF grade 5 K 0.2"   "K lubricated"
              "torque 50 lbf.ft with extension 6 in on 18 in at 30 deg" (0 in line away from the hand, 90 square to it)
              "torque angle M10 90 deg" (how far it moves the nut)
              "stress 25000 lbf on 3/4-16 UNF"   "joint 3/4-16 UNF preload 25000 lbf load 6000 lbf stiffness 6.5, 13.8" (bolt, parts)
  fits        "25 H7/g6"   "25 H7 mm"   "IT7 25 mm" (millimetres where unsaid)
  units       "0.015 in in mm"   "70 degF in degC"   "5 degF difference in K"   "1 imperial pint in l"
              "148 F in C"   "two and a half thou in mm"   "20 tons per square inch in MPa"   "0.3906 in as a fraction"
  shims       "shims READING to RANGE from Q x N, Q x N… [fitted Q x N…] [effect R]"
              "shims 0.43 mm to 0.10 .. 0.15 mm from 0.05 mm x 4, 0.10 mm x 3, 0.25 mm x 2"
              "shims READING to RANGE first Q x N… second Q x N… [from Q x N…] effect R" (the total over both sides is kept)
              "shims 0.55 mm from 0.25, 0.30, 0.35 mm" (a thickness to make up; as many of each as it takes, where no count is given)
              effect: by how much the reading changes for one unit of thickness put in. Unsaid, it is 1; with nothing fitted and a reading that must
              come down, it is -1. The answer says which was taken.
  heat        "heat 45 mm cast-iron interference 0.040 mm clearance 0.045 mm [from 20 degC] [lined] [bearing] [hardened]"
              "heat 1 in alpha 12.8e-6/degF interference …"   "expansion of bronze"   "white metal grade 2"   "bearing heat"
  gears       "backlash 0.1 mm teeth 11/43 pressure 20 deg [spiral 35 deg] [shaft 90 deg]"   "backlash 0.010 to 0.006 in teeth 11/40 pressure 20 deg"
              "backlash DP 4"   "backlash 0.009 in at 4.5 in pitch radius 4 in"   "crown wheel backlash car"   "module 2 in DP"
  readings    "mean 1.1, 1.2, 1.3 mm" (1.1 x 500 is five hundred of them)   "ovality 1.2500, 1.2485 in"   "conicity 1.25 in to 1.247 in over 2 in"   "cone 1:8"
              "best straight line through points (x y): 1 2.1, 2 3.9, 3 6.2"
              "doubt 0.138 mm U 0.012 mm max 0.15 mm" (ISO 14253-1)
  uncertainty "uncertainty 2.5, 0.3, 5.8, 0.7 mm" (each part as it adds; nu 18 after one: its degrees of freedom)   "rectangular 15 um"
              "resolution 0.001 in"   "expand 32 k 2.92"   "normal 95 %"   "normal k 2"
  practice    "bush 1.25 in"   "journal clearance for 50 mm"   "ring gap for 3 in"   "press fit for a 1 in pin"   "shrink fit on 2 in"
              "tempering colour straw" (rules of thumb, never limits)
  money       "decimals of JPY"   "round 2.665 GBP"   "need 10 in packs of 5"   "3 packs at 4.35 GBP"

  --format text   for reading (as usual)
  --format json   for programs, one object:
                  query       the question as it was read
                  known       true or false
                  line        the answer, or why there is none
                  values      [{ name, value, unit, rounded? }]: value is an exact decimal, or its first digits where rounded is true;
                              a word where the answer is one ("conforms", "not proved", "does not conform"); one name may be in several units
                  source      where the figures are from
                  confidence  of the weakest of them: "published table", "computed", "from memory" or "estimate"
                  cautions    what to mind, each a text
                  ask         in place of the last four, where known is false: questions that have an answer

Ends with 0 where it is known, 1 where it is not, 2 where it could not run.
`,
  server: `splitpin server --stdio

The language server, for an editor to start. It speaks the Language Server Protocol over standard input and output; with --pipe=NAME or --socket=PORT over that,
and with --node-ipc over the channel of a Node program that started it.
`,
};

/** As wide as the terminal, in columns. */
export function helpOf(command: string | undefined, width: number): string {
  const page = command !== undefined && Object.hasOwn(pages, command) ? pages[command] : undefined;
  return fitHelp(page ?? main, width);
}

const main = `splitpin: checks job sheets, and works out what must be ordered

${Object.values(pages)
  .map((page) => `  ${page.slice(0, page.indexOf("\n"))}\n`)
  .join("")}  splitpin --help, splitpin COMMAND --help
  splitpin --version

A PATH is a sheet (*.jobsheet) or a folder of sheets; without one, the folder that you are in.
A sheet is a record and a reminder, not an inspection: the maker's data, local rules and licensed people come first.
`;
