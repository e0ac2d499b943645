// A locking that is used once goes back as it came off.
import { anewWords } from "../lock-words.ts";
import { isSamePlace } from "../../model/same-place.ts";
import type { Locking } from "../../../grammar/tree.ts";
import type { Fastener } from "../../model/things.ts";
import { countOf } from "../../story/lots.ts";
import type { FastenerCell, FastenerMoment, PartCell, Story } from "../../story/story.ts";
import { lockedAnew } from "../../story/put-right.ts";
import { usedOnce } from "../../story/used-once.ts";
import { type JobRule, restate } from "../rule.ts";
import { curedReport } from "../found.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt, lockingText } from "../wording.ts";

export const rule: JobRule = {
  id: "locking-reused",
  group: "Locking",
  severity: "error",
  safety: true,
  title: "A locking that is used once goes back without `new`",
  why: "A split pin, a tab washer, a lock wire or a staked collar has been bent once already and breaks where it was bent. It costs pennies: fit a new one each time (maker practice).",
  wrong: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut
#      ^^^^^^^ error locking-reused (fix)
  done
`,
  right: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut new
  done
`,
  fixed: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut new
  note "___"
  done
`,
  scope: "job",
  check(context) {
    const { job, story, report } = context;
    const lines = byLine<FastenerCell, FastenerMoment>(story.fasteners, (it, cell) => {
      const locking = it.with ?? cell.thing.locking?.locking;
      return it.verb === "lock" && !it.isNew && locking !== undefined && usedOnce(job, locking, cell.thing) && !fittedNew(story, cell, it, locking);
    });
    for (const { cell, moment, cells, moments, places, action } of lines) {
      const locking = moment.with ?? cell.thing.locking?.locking;
      if (locking === undefined) continue;
      const at = action.with === undefined ? { from: action.at.to, to: action.at.to } : { from: action.with.at.from, to: action.with.at.from };
      report(
        curedReport(
          context,
          { ...moment.where, at: action.with?.at ?? moment.where.at },
          "error",
          `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} locked with its old ${lockingText(locking)}. ${anewWords(locking)}.`,
          cells.map((one, i) => lockedAnew(one, moments[i] as FastenerMoment)),
          [restate("Write `new`", { ...moment.where, at }, action.with === undefined ? " new" : "new ")],
        ),
      );
    }
  },
};

/** Every piece that was opened is locked with something new: a new self-locking nut is its own, and parts that lock have been fitted new, as many as were bent back. */
function fittedNew(story: Story, cell: FastenerCell, lock: FastenerMoment, locking: Locking): boolean {
  const opened = lock.before.lots.filter((lot) => !lot.locked);
  // A new nut brings its own nylon, and metal that was never staked. A new bolt brings no nut: the old one was undone.
  if (locking.kind === "self-locking nut" && isBoltAlone(cell.thing)) return false;
  if (locking.kind === "self-locking nut" || locking.kind === "staking") {
    const renewed = opened.length > 0 ? opened : lock.before.lots;
    return renewed.length > 0 && renewed.every((lot) => lot.fresh);
  }
  if (locking.kind !== "part" || locking.part === undefined) return false;
  const since = cell.history.findLast((it) => it.seq < lock.seq && it.verb === "lock")?.seq ?? -1;
  const first = cell.history.find((it) => it.seq > since && it.seq < lock.seq && opens.has(it.verb))?.seq ?? since;
  const plates = story.cells(locking.part.text).filter((it): it is PartCell => it.kind === "part" && isSamePlace(it.place, cell.place));
  const serves = Math.max(1, cell.thing.locking?.serves ?? 1);
  const bent = Math.ceil((opened.length > 0 ? countOf(opened) : lock.count) / serves);
  let fresh = 0;
  for (const it of plates) {
    for (const was of it.history) {
      if (was.verb !== "fit" || !was.isNew || was.seq < first || was.seq > lock.seq) continue;
      // Where nobody said how many there are, new ones are all new.
      fresh += it.thing.perPlace === undefined && !was.counted ? bent : Math.max(was.count, was.counted ? 0 : it.total);
    }
  }
  return fresh >= bent;
}

/** Called a bolt, a screw or a stud, and no nut with it, nor a locknut: its self-locking nut is another piece. */
function isBoltAlone(thing: Fastener): boolean {
  const called = `${thing.title ?? ""} ${thing.name.replaceAll("-", " ")}`;
  return /\b(bolts?|(set|cap)?screws?|studs?)\b/i.test(called) && !/nuts?\b|nyloc/i.test(called);
}

const opens: ReadonlySet<FastenerMoment["verb"]> = new Set(["undo", "slacken", "let", "found", "fit"]);
