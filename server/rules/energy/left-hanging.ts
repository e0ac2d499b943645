// A day ends or a pause begins on a jack or a crane.
import type { Entry } from "../../../grammar/tree.ts";
import { hasAction } from "../../model/has.ts";
import { type Where, where } from "../../model/where.ts";
import { awayAt } from "../../story/away.ts";
import { heldAgain } from "../../story/held-again.ts";
import { type Moment, type Story, type Support, type SupportMoment, type SupportState, hangsOn } from "../../story/story.ts";
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
