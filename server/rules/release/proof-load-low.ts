// A proof load that is less than what the gear may lift, as the sheet itself says; or so much more that it may hurt what it tries, or is a slip.
import { allWords } from "../../model/titles.ts";
import type { Detail } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import type { Fastener, Part } from "../../model/things.ts";
import { quantityText } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import { type Exact, exact } from "../../quantities/exact.ts";
import { type LoadChain, type Rating, disturbedChains, forceOf, isOf, loadOf, onlyRating } from "../proof-loads.ts";
import type { JobRule } from "../rule.ts";
import { midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "proof-load-low",
  group: "Release",
  severity:
    "error; warning of what is neither lifting gear nor critical, or where it is more than twice as much; one that holds where it is five times as much",
  safety: true,
  title: "Tried with less than it may lift or carry, as its `rated` or the machine's name says; or with more than twice that",
  why: "A load below what it may lift proves nothing about the day when somebody lifts that. Common practice tries gear with a quarter more than it may lift, loose gear (hooks, shackles, chains) with twice as much, and little with more: what bore more may have stretched. That is from memory, and no figure to go by. The maker, the local rules on lifting and a competent person say how much, and this only compares with what is written on the sheet.",
  wrong: `sheet "Chain hoist"
  machine "Loading bay hoist"
part hook "Hook"
  critical "the load"
  rated 500 kg "Plate on the block"
step a "Hook off and on"
  remove hook
  fit hook
  done
release by "A. Moor" 2026-05-10
  test "Held a foot up for ten minutes, brake and pawl" load 50 kg
#                                                            ^^^^^ error proof-load-low
`,
  right: `sheet "Chain hoist"
  machine "Loading bay hoist"
part hook "Hook"
  critical "the load"
  rated 500 kg "Plate on the block"
step a "Hook off and on"
  remove hook
  fit hook
  done
release by "A. Moor" 2026-05-10
  test "Ran up and down, hook empty"
  test "Held a foot up for ten minutes, brake and pawl" load 625 kg
`,
  scope: "job",
  check({ job, story, report }) {
    const { release } = story;
    // As if it were released: there is no line yet under which the test could stand.
    if (release === undefined || !job.own.sheet.entries.includes(release.entry)) return;
    const tests = release.entry.details.filter((it) => it.kind === "test").filter((it) => it.text !== undefined);
    if (tests.length === 0) return;
    const chains = disturbedChains(job, story);
    const unnamed = tests.filter((it) => it.of === undefined);
    const shared = chains.filter((chain) => chain.rated !== undefined && !tests.some((it) => isOf(job, it, chain)));
    const said = new Set<object>();
    const at = (test: (typeof tests)[number]) => where(release.where.file, release.entry, test.row, test.load?.at ?? test.keyword);
    const only = onlyRating(job, story);
    for (const chain of only === undefined || chains.some((it) => it.rated !== undefined) ? chains : [{ touched: [], rated: only }]) {
      // A test that names the piece is of what that may carry.
      const rated = chain.own !== undefined && tests.some((it) => isOf(job, it, chain)) ? chain.own : chain.rated;
      if (rated === undefined) continue;
      // What else is tried with a weight says so in words; a load that is written is a load.
      const own = tests.filter((it) => isOf(job, it, chain) && (rated !== only || it.load !== undefined));
      const loads = (own.length > 0 ? own : rated === only ? unnamed.filter((it) => it.load !== undefined) : unnamed).map((test) => ({
        test,
        load: loadOf(test, rated),
      }));
      const known = loads.flatMap(({ test, load }) => (load === undefined ? [] : [{ test, load }]));
      // A load that can't be read may have been enough.
      const unread = loads.some(({ test, load }) => load === undefined && (test.load !== undefined || /\d/.test(test.text?.value ?? "")));
      if (known.length === 0 || unread) continue;
      const most = known.reduce((a, b) => (b.load.compare(a.load) > 0 ? b : a));
      const [least] = known.filter(({ load }) => load.compare(rated.force) < 0);
      const enough = most.load.compare(rated.force) >= 0;
      // Tried with five times what it may lift, it was overloaded, or a figure slipped: no practice goes so far, and five is our own measure. Several may share it.
      if (most.load.compare(rated.force.mul(five)) >= 0 && (rated.of === undefined || rated.of.name === most.test.of?.text) && !said.has(most.test)) {
        said.add(most.test);
        report({
          where: at(most.test),
          severity: "warning",
          open: true,
          message: `This load is five times what ${rated.of === undefined ? "the machine" : `the ${midSentence(rated.of)}`} may lift, or more: ${rated.text}. Did a point or a unit slip? Gear that bore so much is looked at by somebody competent.`,
        });
        continue;
      }
      if (
        most.load.compare(rated.force.mul(two)) > 0 &&
        (rated.of === undefined || rated.of.name === most.test.of?.text || bearsAlone(job, rated.of)) &&
        !said.has(most.test)
      ) {
        said.add(most.test);
        report({
          where: at(most.test),
          severity: "warning",
          message: `This load is more than twice what ${rated.of === undefined ? "the machine" : `the ${midSentence(rated.of)}`} may lift: ${rated.text}. It is common practice to try with less, and more can stretch it: ask the maker and the local rules.`,
        });
        continue;
      }
      if (least === undefined || said.has((enough ? least : most).test)) continue;
      const may = rated.of === undefined ? "the machine" : `the ${midSentence(rated.of)}`;
      if (!enough) {
        said.add(most.test);
        report({
          where: at(most.test),
          severity: "error",
          message:
            ofAnotherUnit(rated, chain.own) ??
            `This load is less than ${may} may lift: ${rated.text}. Try it with at least that${chain.own?.of === undefined || rated === chain.own ? "" : `, or write \`of ${chain.own.of.name}\` if that alone was`}; how much more is for the maker and the local rules.`,
          ...(rated.of === undefined ? {} : { related: [{ where: where(rated.of.file, rated.of.entry, 0, rated.of.at), message: `Rated ${rated.text}.` }] }),
        });
      } else if (
        shared.length > 1 &&
        shared.includes(chain) &&
        // Where the plate of the machine says it of all alike, the full load hung on all, and a lighter one is a try of the same.
        shared.some((it) => it.rated?.of !== undefined) &&
        shared.every((it) => it.rated !== undefined && least.load.compare(it.rated.force) < 0) &&
        names(least.test, shared)
      ) {
        // More than one thing that lifts, and a load that is too small for any: it may be all that one of them was tried with.
        said.add(least.test);
        report({
          where: at(least.test),
          severity: "error",
          message: `What hung with this load? It is less than ${[
            ...new Set(shared.map((it) => (it.rated?.of === undefined ? "the machine" : `the ${midSentence(it.rated.of)}`))),
          ]
            .slice(0, 2)
            .join(" or ")} may lift. Write \`of NAME\`.`,
        });
      }
    }
    for (const { test, thing, rated } of triedUnder(job, tests)) {
      if (said.has(test)) continue;
      report({
        where: at(test),
        severity: thing.critical ? "error" : "warning",
        message: `This load is less than the ${midSentence(thing)} may carry: ${rated}. Try it with at least that; how much more is for its maker and the local rules.`,
        related: [{ where: where(thing.file, thing.entry, 0, thing.at), message: `Rated ${rated}.` }],
      });
    }
  },
};

const two = exact("2") as Exact;
const five = exact("5") as Exact;

/** The one thing of the sheet that says what it may bear, one of it, and no rope or chain: those hang in falls, and share what is hung on. */
function bearsAlone(job: Job, of: Part | Fastener): boolean {
  const rated = [...job.things.values()].filter((it) => (it.kind === "part" || it.kind === "fastener") && it.rated !== undefined);
  return rated.length === 1 && (of.perPlace ?? 1) === 1 && of.placeKind === undefined && !inFalls.test(allWords(of));
}

const inFalls = /\b(ropes?|chains?|cables?|slings?|falls?|legs?|straps?|webbings?)\b/iu;

type TestLine = Extract<Detail, { kind: "test" }>;

/** Of what says what it may carry, and is no lifting gear: a coupling, a chain, a winch eye. Who writes `of NAME load Q` beside its `rated` has tried what that carries. */
function triedUnder(job: Job, tests: readonly TestLine[]): { readonly test: TestLine; readonly thing: Part | Fastener; readonly rated: string }[] {
  const out: ReturnType<typeof triedUnder> = [];
  // A full load that names nothing may have hung on all of it.
  const ofAll = tests.flatMap((it) => (it.of === undefined && it.load !== undefined ? (forceOf(it.load) ?? []) : []));
  const most = new Map<Part | Fastener, { readonly test: TestLine; readonly load: Exact }>();
  for (const test of tests) {
    const thing = test.of === undefined ? undefined : job.things.get(test.of.text);
    const load = test.load === undefined ? undefined : forceOf(test.load);
    if ((thing?.kind !== "part" && thing?.kind !== "fastener") || load === undefined) continue;
    const known = most.get(thing);
    // A lighter trial beside a full one is one more trial.
    if (known === undefined || load.compare(known.load) > 0) most.set(thing, { test, load });
  }
  for (const [thing, { test, load }] of most) {
    const rated = thing.rated === undefined ? undefined : forceOf(thing.rated);
    if (thing.rated !== undefined && rated !== undefined && load.compare(rated) < 0 && !ofAll.some((it) => it.compare(rated) >= 0))
      out.push({ test, thing, rated: quantityText(thing.rated) });
  }
  return out;
}

/** Its words speak of something that lifts: a lighter load after the full one that says nothing of what hung is one more trial of the whole. */
function names(test: { readonly text?: { readonly value: string } }, chains: readonly LoadChain[]): boolean {
  const text = wordsOf(test.text?.value ?? "");
  return chains.some(({ touched, rated }) =>
    [...touched, ...(rated?.of === undefined ? [] : [rated.of])].some((it) => wordsOf(allWords(it)).some((word) => text.includes(word))),
  );
}

function wordsOf(text: string): string[] {
  return (text.toLowerCase().match(/\p{L}{4,}/gu) ?? []).map((word) => word.replace(/s$/, "")).filter((word) => !joining.has(word));
}

/** Words of four letters that name nothing. */
const joining: ReadonlySet<string> = new Set([
  "with",
  "over",
  "down",
  "from",
  "side",
  "left",
  "right",
  "upper",
  "lower",
  "load",
  "time",
  "full",
  "each",
  "both",
  "machine",
]);

/** What may carry so much less than the machine that one of the two was written in another unit: tonnes for kilograms. A hundred times is our own measure. */
function ofAnotherUnit(rated: Rating, own: Rating | undefined): string | undefined {
  if (own?.of === undefined || rated.of !== undefined || rated.force.compare(own.force.mul(hundred)) < 0) return undefined;
  return `This load is less than the machine may lift: ${rated.text}; but the ${midSentence(own.of)} may only carry ${own.text}. One of the two has the wrong unit: correct it.`;
}

const hundred = exact("100") as Exact;
