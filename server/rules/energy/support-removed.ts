// What the stands bear on comes off.
import { hasAction } from "../../model/has.ts";
import { rollsOrCarries } from "../../model/carries.ts";
import { headOf, wordsOf } from "../../model/read-with.ts";
import { allWords } from "../../model/titles.ts";
import type { Thing } from "../../model/things.ts";
import type { JobRule } from "../rule.ts";
import type { PartCell, PartMoment, Support } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "support-removed",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "What the stands bear on comes off",
  why: "Stands under an axle hold the machine only while the axle is on it. Move them to the frame before the axle goes.",
  wrong: `part axle "Rear axle"
step strip "Axle out"
  chock
  raise on jack
  support on 2 stands under axle
  remove axle
#        ^^^^ error support-removed
  done
`,
  right: `part axle "Rear axle"
step strip "Axle out"
  chock
  raise on jack
  support on 2 stands under "frame, before the springs"
  remove axle
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "support")) return;
    const { story } = context;
    const parts = [...job.things.values()].filter((it) => it.kind === "part" && !it.implied);
    const known = new Map<string, string | undefined>();
    /** The one part that such words are the title or the name of, or that they end in. */
    const named = (words: string | undefined) => {
      if (words === undefined) return undefined;
      if (!known.has(words)) known.set(words, meantBy(words, parts));
      return known.get(words);
    };
    const bearing = (it: PartMoment, cell: PartCell) =>
      it.support.unclear?.hold
        ? undefined
        : (it.support.supports.find((by) => {
            const under = by.underPart ?? named(by.underText);
            return under === cell.thing.name && !takenOver(it, by, under);
          }) ?? underWhatRolls(it, cell));
    for (const { cell, moment, places } of byLine<PartCell, PartMoment>(story.parts, (it, of) => it.verb === "remove" && bearing(it, of) !== undefined)) {
      const bears = bearing(moment, cell) as Support;
      report({
        where: moment.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "comes")} off while the stands bear on it. Support the machine somewhere else first.`,
        related: [{ where: bears.moment.where, message: "Supported here." }],
      });
    }
  },
};

/**
 * The step in which it comes off has set the machine on something else before: it bears there now. Stands that were set
 * up together, one pair at each end, each bear on their own.
 */
function takenOver(it: PartMoment, by: Support, under: string): boolean {
  return it.support.supports.some(
    (other) => other.part === undefined && other.on !== "crane" && other.underPart !== under && other.moment.visit === it.visit && by.moment.visit !== it.visit,
  );
}

/**
 * All that the machine stands on bears on wheels, by plain words (“the hind wheels”, “wheel rims”) or on an axle, and this is one of them. Where other stands are under something else it may bear
 * there, and words that say where the stands are by a wheel (“inside the wheels”) are none of these.
 */
function underWhatRolls({ support }: PartMoment, { thing, place }: PartCell): Support | undefined {
  const stands = support.supports.filter((it) => it.part === undefined && it.on !== "crane");
  if (stands.length === 0 || !rollsOrCarries(thing)) return undefined;
  const own = new Set(wordsOf(`${place.replaceAll("-", " ")} ${allWords(thing).replaceAll("-", " ")}`).map(sameEnd));
  // A shaft to the axle is none.
  const called = new Set([headOf(thing), wordsOf(thing.name).at(-1)]);
  const bearsOnIt = ({ underText }: Support) => {
    const [, which = "", head = ""] = plainWheels.exec((underText ?? "").split(/[,;(]/)[0]?.trim() ?? "") ?? [];
    return (
      head !== "" &&
      called.has(/axle/iu.test(head) ? "axle" : "wheel") &&
      wordsOf(which).every((it) => filling.has(it) || counting.has(it) || own.has(sameEnd(it)))
    );
  };
  return stands.every(bearsOnIt) ? stands.at(-1) : undefined;
}

const plainWheels =
  /^((?:(?:the|both|all|each|its|two|four|front|fore|rear|hind|back|leading|driving|trailing|left|right|near|off|nearside|offside|road)[ -])*)(wheels?|wheel[- ](?:rims?|tyres?|tires?|felloes?)|rims?|tyres?|tires?|felloes?|axles?)$/iu;

/** The fore wheels are the front ones. */
function sameEnd(word: string): string {
  return word === "fore" ? "front" : word === "hind" || word === "back" ? "rear" : word;
}

/** “The front axle beam, either side of the pivot” is the front axle beam; “the rear springs, at the shackles” are the shackles as well. */
function meantBy(words: string, parts: readonly Thing[]): string | undefined {
  const [first = "", ...rest] = words.split(/[,;(]|(?=\bat\b)/);
  const phrases = [first, ...rest.filter((it) => /^\s*at\b/iu.test(it))].map(plainly).filter((it) => it.length > 0);
  for (const phrase of phrases) {
    const said = phrase.join(" ");
    const meant = parts.filter((it) => said === plainly(it.title ?? it.name).join(" ") || said === plainly(it.name.replaceAll("-", " ")).join(" "));
    if (meant.length === 1) return meant[0]?.name;
  }
  return undefined;
}

/** Its words up to the first comma, in the singular. */
function plainly(words: string): readonly string[] {
  return wordsOf(words.split(/[,;(]/)[0] as string).filter((it) => !filling.has(it));
}

const filling: ReadonlySet<string> = new Set(["the", "both", "each", "at", "its"]);
const counting: ReadonlySet<string> = new Set(["all", "two", "four", "road"]);
