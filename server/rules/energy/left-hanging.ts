// A day ends or a pause begins on a jack or a crane.
import type { Where } from "../../model/where.ts";
import { where } from "../../model/where.ts";
import { type SupportMoment, type SupportState, hangsOn } from "../../walk/story.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "left-hanging",
  group: "Energy and support",
  severity: "error",
  safety: true,
  title: "A day ends or a pause begins on a jack or a crane",
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
  check({ job, story, report }) {
    const moments = story.support.filter((it) => it.phase === "done");
    if (moments.length === 0) return;
    const said = new Set<object>();
    const say = (at: Where, state: SupportState, what: string) => {
      const hanging = hangingOn(state);
      if (hanging === undefined || said.has(hanging.moment)) return;
      said.add(hanging.moment);
      report({
        where: at,
        severity: "error",
        message: `${what} while it hangs on a ${hanging.on}. Set it on stands or let it down first.`,
        related: [{ where: hanging.moment.where, message: `Put on the ${hanging.on} here.` }],
      });
    };
    for (const pause of story.pauses) say(pause.where, stateAt(moments, pause.seq), "The work is laid up");
    let day: string | undefined;
    let seq = 0;
    for (const entry of job.own.sheet.entries) {
      if (entry.kind === "day" && entry.date !== undefined) {
        if (day !== undefined && entry.date.text > day) say(where(job.path, entry, 0, entry.date.at), stateAt(moments, seq), "A day ends");
        day = entry.date.text;
      }
      for (const it of moments) if (it.where.entry === entry) seq = Math.max(seq, it.seq + 1);
      for (const it of story.pauses) if (it.where.entry === entry) seq = Math.max(seq, it.seq + 1);
    }
  },
};

function stateAt(moments: readonly SupportMoment[], seq: number): SupportState {
  let state: SupportState = (moments[0] as SupportMoment).before;
  for (const it of moments) if (it.seq < seq) state = it.after;
  return state;
}

/** What it hangs on: a jack or a crane and no stands since, or a part on a crane. */
function hangingOn(state: SupportState): { on: string; moment: { readonly where: Where } } | undefined {
  const crane = state.supports.find((it) => it.on === "crane");
  if (crane !== undefined) return { on: "crane", moment: crane.moment };
  const on = hangsOn(state);
  return state.raised === undefined || (on !== "jack" && on !== "crane") ? undefined : { on, moment: state.raised.moment };
}
