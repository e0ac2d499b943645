// Whether what hung on a crane is back where it belongs, and held there: a part by what holds it, a shaft by the caps over it.
// Invariant: done work only, up to the moment that is asked for.
import { isSamePlace } from "../model/same-place.ts";
import { allWords } from "../model/titles.ts";
import type { FastenerCell, FastenerMoment, FastenerState, Moment, PartCell, PartMoment, PartState, Story, Support } from "./story.ts";

/** Back where it belongs, with all that holds it tight: no sling bears it any more, though nobody wrote that it was taken off. */
export function heldAgain(story: Story, part: string, by: Support, until: (it: Moment) => boolean): boolean {
  const all = story.cells(part).filter((it): it is PartCell => it.kind === "part");
  // The one that hangs is that of the step's place, or else one that was touched.
  const places = by.action.places.length > 0 ? by.action.places.map((it) => it.text) : by.moment.visit?.places;
  const here = all.filter((cell) => (places === undefined ? cell.history.length > 0 : places.includes(cell.place)));
  const cells = here.length > 0 ? here : all;
  return (
    cells.length > 0 &&
    cells.every((cell) => {
      if (stateThen<PartMoment, PartState>(cell, until).on < cell.total) return false;
      if (cell.thing.heldBy.length > 0) return isMadeFast(cell, bearersOf(story, cell));
      // What nobody declared went on, and nobody has said what holds it.
      if (cell.thing.implied) return cell.history.some((it) => it.phase === "done" && it.verb === "fit" && it.seq > by.moment.seq && until(it));
      // A shaft that nothing holds but the caps over it lies where it belongs once it was fitted and they are down. What it drives may come later.
      const named = cell.thing.behind.filter((name) => bearing.test(wordsOf(story, name.text)) && !ofRods.test(wordsOf(story, name.text)));
      const caps = named.length > 0 ? named : cell.thing.behind.filter((name) => !driven.test(wordsOf(story, name.text)));
      const over = caps.length > 0 ? caps : cell.thing.behind;
      return (
        over.length > 0 &&
        cell.history.some((it) => it.phase === "done" && it.verb === "fit" && it.seq > by.moment.seq && until(it)) &&
        over.every((name) =>
          story
            .cells(name.text)
            .filter((it): it is PartCell => it.kind === "part" && isSamePlace(it.place, cell.place))
            .every((it) => stateThen<PartMoment, PartState>(it, until).on >= it.total && isMadeFast(it)),
        )
      );
    })
  );

  function isMadeFast(cell: PartCell, by: PartCell["thing"]["heldBy"] = cell.thing.heldBy): boolean {
    return by.every((name) =>
      story
        .cells(name.text)
        .filter((it): it is FastenerCell => it.kind === "fastener" && isSamePlace(it.place, cell.place))
        .every((it) => {
          const { on, tight } = stateThen<FastenerMoment, FastenerState>(it, until);
          return on >= it.total && tight;
        }),
    );
  }
}

/** What holds it; of a shaft, that of its bearings, where it names that: rods and a flywheel are hung on it afterwards. */
function bearersOf(story: Story, { thing }: PartCell): PartCell["thing"]["heldBy"] {
  if (!/shaft/i.test(allWords(thing))) return thing.heldBy;
  const own = thing.heldBy.filter((name) => !ofRods.test(wordsOf(story, name.text)) && !driven.test(wordsOf(story, name.text)));
  return own.some((name) => /\b(bearings?|mains?|caps?|keeps?|journals?|pedestals?)\b/i.test(wordsOf(story, name.text))) ? own : thing.heldBy;
}

function wordsOf(story: Story, name: string): string {
  const thing = story.job.things.get(name);
  return thing === undefined ? name.replaceAll("-", " ") : allWords(thing);
}

/** What bears a shaft that lies in it; else all that is before it but what is on its end and is borne by it. */
const bearing = /(^|[^\p{L}])((bearing|main|journal) ?)?(caps?|keeps?|plummer blocks?|pedestals?|saddles?|straps?)($|[^\p{L}])/iu;
/** The caps of what hangs on a crank: they bear nothing of it. */
const ofRods = /(^|[^\p{L}])((con(necting)?[- ]?)?rods?|big[- ]?ends?|little[- ]?ends?)($|[^\p{L}])/iu;
const driven =
  /(^|[^\p{L}])((chain|belt|fly)?wheels?|pulleys?|sprockets?|gears?|pinions?|couplings?|sheaves?|fans?|belts?|chains?|guards?|seals?|oil throwers?|saws?|blades?|knives|cutters?|impellers?|propellers?|rotors?)($|[^\p{L}])/iu;

function stateThen<M extends Moment & { readonly before: S; readonly after: S }, S>(
  cell: { readonly history: readonly M[]; readonly now: S },
  until: (it: Moment) => boolean,
): S {
  return cell.history.findLast((it) => it.phase === "done" && until(it))?.after ?? cell.history[0]?.before ?? cell.now;
}
