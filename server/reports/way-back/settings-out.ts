// Settings that were read outside what they may be, and that nobody has moved since: a reading alone puts none of them right.
// Invariant: asked of all that is done and planned; what is in doubt is read again, and not moved for it.
import { isSamePlace } from "../../model/same-place.ts";
import { memo } from "../../model/memo.ts";
import { grouped } from "../../model/grouped.ts";
import type { Limit } from "../../model/things.ts";
import { agreeing, midSentence } from "../../model/titles.ts";
import { rangeText } from "../../model/values.ts";
import type { Where } from "../../model/where.ts";
import { limitWords, verdictValue } from "../../rules/verdict-words.ts";
import { isConceded } from "../../story/conceded.ts";
import { isFoundOutOfSet } from "../../story/out-of-set.ts";
import type { Moment, Reading, Story } from "../../story/story.ts";
import { judge } from "../../story/verdicts.ts";

export interface SettingOut {
  readonly limit: Limit;
  readonly place: string;
  /** “left hub end float was 0.022 in, to be set to 0.002 .. 0.006 in”. */
  readonly text: string;
  readonly where: Where;
}

export const settingsOut = memo((story: Story): readonly SettingOut[] => {
  const verdicts = grouped(judge(story).verdicts, (it) => it.reading);
  const last = new Map<string, Reading>();
  for (const it of story.readings) if (it.limit.setBy.length > 0) last.set(`${it.limit.name} ${it.place}`, it);
  return [...last.values()].flatMap((it) => {
    const { limit, place } = it;
    // Somebody is at it.
    if (it.stage === "trial") return [];
    const out = verdicts.get(it)?.find((verdict) => verdict.outcome === "out" && (verdict.band === "set" || verdict.band === "worn"));
    if ((out === undefined && !isFoundOutOfSet(it)) || isConceded(story, limit.name, place) || isMovedSince(story, limit, place, it.seq)) return [];
    const figure = it.spots[0]?.figures[0];
    const value = out !== undefined ? verdictValue(out) : figure === undefined ? "" : `${figure.figure} ${figure.unit.spelling}`;
    const wanted = limit.set !== undefined ? `to be set to ${rangeText(limit.set)}` : out !== undefined ? limitWords(out) : "";
    return [{ limit, place, text: `${midSentence(limit, place)} ${agreeing(limit, "was")} ${value}, ${wanted}`, where: it.where }];
  });
});

/** A nut is moved by being let go, too; a washer or a stack only by what goes in next. */
function isMovedSince(story: Story, limit: Limit, place: string, seq: number): boolean {
  return limit.setBy.some(({ text }) =>
    story
      .cells(text)
      .some(
        (cell) =>
          isSamePlace(cell.place, place) &&
          (cell.history as readonly (Moment & { readonly verb: string })[]).some((it) => it.seq > seq && (cell.kind === "fastener" || it.verb === "fit")),
      ),
  );
}
