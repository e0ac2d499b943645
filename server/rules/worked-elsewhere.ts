// Work on one spot of a piece that leaves another spot as it was: a journal polished, and the flange as thick and as true as it was found.
// Invariant: where the words may mean the spot that is read, or the whole piece, nothing is left out.
import { allWords } from "../model/titles.ts";
import type { Job } from "../model/job.ts";
import { memo } from "../model/memo.ts";
import { isOfCracks, isOfShape, isTriedTogether, wordsOf } from "../model/read-with.ts";
import type { Check, Limit } from "../model/things.ts";
import type { FastenerMoment, PartMoment, Story } from "../story/story.ts";

type Names = readonly { readonly text: string }[];

/** A valve that was ground in to its seat, and no more, has the stem that it had; and so has what was worked on elsewhere the size that it had. */
export function isOnlyElsewhere(story: Story, of: Names, thing: Limit | Check): boolean {
  if (thing.kind === "limit" && /\b(stems?|guides?)\b/iu.test(allWords(thing)) && isEachRepair(story, of, (text) => groundIn.test(text))) return true;
  if (thing.kind === "limit" && isAtAnotherMeasure(story, of, thing)) return true;
  return isEachRepair(story, of, (text) => isLightElsewhere(text, thing));
}

/** The journal of an axle was turned, as the words of the repair have it: its flange is as thick as it was. A part that saw heat or the press is another in all. */
function isAtAnotherMeasure(story: Story, of: Names, limit: Limit): boolean {
  if (isEachRepair(story, of, (text) => isAtOtherEnd(text, limit))) return true;
  const own = placeWords(limit);
  const all = measuredAt(story.job);
  if (own.size === 0) return false;
  return isEachRepair(story, of, (text) => {
    const words = wordsOf(text.replace(toSuit, " "));
    return (
      words.some((it) => !own.has(it) && of.some((name) => all.get(name.text)?.has(it) === true)) && !words.some((it) => own.has(it)) && !ofTheWhole.test(text)
    );
  });
}

/** The little end of a rod was reamed: the big end is as it was; and the other way about. */
function isAtOtherEnd(text: string, limit: Limit): boolean {
  const [little, big] = [littleEnd.test(text), bigEnd.test(text)];
  const words = allWords(limit);
  return little !== big && !ofTheWhole.test(text) && (little ? bigEnd.test(words) && !littleEnd.test(words) : littleEnd.test(words) && !bigEnd.test(words));
}

const littleEnd = /\b(little|small)[- ]?ends?\b|\bgudgeon\w*|\bwrist[- ]?pin/iu;
const bigEnd = /\bbig[- ]?ends?\b|\bcrank[- ]?pins?\b/iu;

/** “Scraped to the pins”: what it was fitted to is no place of it. */
const toSuit =
  /\b(to|against|in blue (on|to|with)) (suit |fit |match )?(the|its|their|both|each)( (?!(at|on|of|in|and|by)\b)\p{L}+){1,3}|\bto ((?!(at|on|of|in|and|by)\b)\p{L}+ )?(crank ?)?(pin|journal|shaft|spindle|axle|bearing)s?\b|\bto (suit|fit|match) \p{L}+/giu;

/**
 * Polished, stoned or dressed by hand at a spot of another name: that moves nothing else of the piece, not its run-out either. What turns or holds is tried all the same,
 * and a crack is looked for after any work.
 */
function isLightElsewhere(text: string, thing: Limit | Check): boolean {
  if (!byHand.test(text) || byMachine.test(text) || ofTheWhole.test(text) || (thing.kind === "check" && (isOfCracks(thing) || isTriedTogether(thing))))
    return false;
  const worked = spotsIn(text);
  const read = spotsIn(`${thing.name} ${thing.title ?? ""}`);
  return worked.size > 0 && (read.size > 0 || isOfShape(thing)) && ![...read].some((it) => worked.has(it));
}

const byHand = /\b(polish\w*|ston(e|ed|ing)|oil-?ston\w*|dress(ed|ing)?|deburr\w*|burrs?|emery\w*|crocus|lapping tape|tape)\b/iu;
const byMachine = /\b(ground|grind\w*|turn(ed|ing)|machin\w*|skimm\w*|bored?|boring|ream\w*|hon(ed|ing)|mill\w*|fil(ed|ing)|straight\w*|lapped)\b/iu;

/** What a spot of a piece is called; words of one line may be said of the same. */
const spots: readonly ReadonlySet<string>[] = [
  "journal pin crankpin main bearing throw end",
  "flange face joint",
  "keyway key slot",
  "thread",
  "taper cone nose",
  "land seal lip",
  "spigot register",
  "tooth teeth gear spline",
  "fillet radius radii shoulder",
  "hole oilway oilhole",
  "bore eye",
].map((line) => new Set(line.split(" ")));

function spotsIn(text: string): ReadonlySet<number> {
  const words = wordsOf(text);
  return new Set(spots.flatMap((names, i) => (words.some((it) => names.has(it)) ? [i] : [])));
}

/** Of each part the words for where it is measured. */
const measuredAt = memo((job: Job): ReadonlyMap<string, ReadonlySet<string>> => {
  const out = new Map<string, Set<string>>();
  for (const it of job.things.values()) {
    if (it.kind !== "limit") continue;
    for (const { text } of it.of) {
      const words = out.get(text) ?? new Set<string>();
      out.set(text, words);
      for (const word of placeWords(it)) if (!mates(it).has(word)) words.add(word);
    }
  }
  return out;
});

/** What it is measured at, without the words of any figure. */
const placeWords = memo((limit: Limit): ReadonlySet<string> => new Set(wordsOf(`${limit.name} ${limit.title ?? ""}`).filter((word) => !ofAnySize.has(word))));

/** “Side float on its pin”: that is another piece, and no place of this one. */
const mates = memo(
  (limit: Limit): ReadonlySet<string> => new Set(wordsOf((limit.title ?? "").match(/\b(on|in|over|through) (its|their) \p{L}+/giu)?.join(" ") ?? "")),
);

const ofAnySize: ReadonlySet<string> = new Set(
  "diameter dia bore thickness length width height depth size limit wear worn new max min over under the its in out and between radius gap clearance play float end side run fit od id left it on of at to by for with off up down from".split(
    " ",
  ),
);
const ofTheWhole =
  /\b(weld\w*|braz\w*|heat\w*|straighten\w*|bent|bend\w*|press\w*|built|build|re-?metal\w*|spray\w*|plat(ed|ing)|all over|whole|both|all|every\w*)\b/iu;

function isEachRepair(story: Story, of: Names, is: (text: string) => boolean): boolean {
  return of.every(({ text }) =>
    story
      .cells(text)
      .every(
        (cell) =>
          (cell.kind !== "part" && cell.kind !== "fastener") ||
          (cell.history as readonly (PartMoment | FastenerMoment)[]).every(
            (it) => (it.verb !== "repair" || is(it.action?.text?.value ?? "")) && !(it.verb === "fit" && it.isNew),
          ),
      ),
  );
}

const groundIn = /^\s*(hand )?(ground|lapped) in\b(?!.*\b(guides?|stems?|reamed|new)\b)/iu;
