// A day ends or a pause begins on a jack or a crane.
import { isSamePlace } from "../../model/same-place.ts";
import { allWords } from "../../model/titles.ts";
import type { Entry } from "../../../grammar/tree.ts";
import { hasAction } from "../../model/has.ts";
import { type Where, where } from "../../model/where.ts";
import { awayAt } from "../../story/away.ts";
import {
  type FastenerCell,
  type FastenerMoment,
  type FastenerState,
  type Moment,
  type PartCell,
  type PartMoment,
  type PartState,
  type Story,
  type Support,
  type SupportMoment,
  type SupportState,
  hangsOn,
} from "../../story/story.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "left-hanging",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "A day ends, a pause begins or the machine is released on a jack or a crane",
  why: "Jacks sink and slings creep overnight, and somebody else may walk in. Set it on stands or let it down before you leave it.",
  wrong: `day 2026-04-11
step up "Up"
  chock
  raise on jack
  done
pause 2026-04-11 "tea"
#^^^^ error left-hanging
`,
  right: `day 2026-04-11
step up "Up"
  chock
  raise on jack
  support on 2 stands under "frame"
  done
pause 2026-04-11 "tea"
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "raise", "support")) return;
    const { story } = context;
    const done = story.support.filter((it) => it.phase === "done");
    if (done.length === 0) return;
    const changes: Change[] = [...done.map(({ seq, where: { entry }, after }) => ({ seq, entry, after })), ...story.blurred].sort((a, b) => a.seq - b.seq);
    const stateAt = (seq: number) => changes.findLast((it) => it.seq < seq)?.after ?? (done[0] as SupportMoment).before;
    const said = new Set<object>();
    const say = (at: Where, state: SupportState, what: string, on: string | undefined, until: (it: Moment) => boolean) => {
      // What was sent out hangs on nothing here.
      const hanging = hangingOn(state, (part, by) => heldAgain(story, part, by, until) || awayAt(job, part, "", on) !== undefined);
      if (hanging === undefined || said.has(hanging.moment)) return;
      said.add(hanging.moment);
      report({
        where: at,
        severity: "error",
        message: `${what} while it hangs on a ${hanging.on}. Set it on stands or let it down first.`,
        related: [{ where: hanging.moment.where, message: `Put on the ${hanging.on} here.` }],
      });
    };
    let day: string | undefined;
    let seq = 0;
    const visits = new Map<Entry, Story["visits"][number]>();
    for (const it of story.visits) if (it.phase === "done" && !visits.has(it.entry)) visits.set(it.entry, it);
    for (const entry of job.own.sheet.entries) {
      if (entry.kind === "day" && entry.date !== undefined) {
        const over = day;
        if (over !== undefined && entry.date.text > over)
          say(where(job.path, entry, 0, entry.date.at), stateAt(seq), "A day ends", over, (it) => it.day !== undefined && it.day <= over);
        day = entry.date.text;
      }
      const dated = entry.kind === "step" ? visits.get(entry) : undefined;
      if (dated?.day !== undefined && day !== undefined && dated.day > day) {
        const over = day;
        const line = entry.details.find((it) => it.kind === "done" && it.date !== undefined);
        if (line?.kind === "done" && line.date !== undefined)
          say(where(job.path, entry, line.row, line.date.at), stateAt(seq), "A day ends", over, (it) => it.day !== undefined && it.day <= over);
      }
      if (dated?.day !== undefined) day = dated.day;
      // In the order in which it is written: what hangs is said where it is first left so.
      const pause = story.pauses.find((it) => it.entry === entry);
      if (pause !== undefined) say(pause.where, stateAt(pause.seq), "The work is laid up", pause.day, (it) => it.seq < pause.seq);
      if (story.release?.entry === entry) released();
      for (const it of changes) if (it.entry === entry) seq = Math.max(seq, it.seq + 1);
      for (const it of story.pauses) if (it.where.entry === entry) seq = Math.max(seq, it.seq + 1);
    }
    // A job that is looked at as if it were released has no line of its own for that.
    released();

    function released(): void {
      const { release } = story;
      if (release !== undefined) say(release.where, stateAt(release.seq), "It goes back to work", release.day, (it) => it.seq < release.seq);
    }
  },
};

/** From here on it is held so. */
interface Change {
  readonly seq: number;
  readonly entry: Entry;
  readonly after: SupportState;
}

/** What it hangs on: a jack or a crane and no stands since, or a part on a crane that nothing else holds. */
function hangingOn(state: SupportState, held: (part: string, by: Support) => boolean): { on: string; moment: { readonly where: Where } } | undefined {
  if (state.unclear?.hold) return undefined;
  const crane = state.supports.find((it) => it.on === "crane" && (it.part === undefined || !held(it.part, it)));
  if (crane !== undefined) return { on: "crane", moment: crane.moment };
  const on = hangsOn(state);
  return state.raised === undefined || (on !== "jack" && on !== "crane") ? undefined : { on, moment: state.raised.moment };
}

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
