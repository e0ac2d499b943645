// Disturbed, worked on or renewed, and no final reading or check.
import { placesOf } from "../../model/job.ts";
import type { Check, Limit } from "../../model/things.ts";
import { bandOf } from "../../model/values.ts";
import type { Where } from "../../model/where.ts";
import { inside } from "../../quantities/range.ts";
import { readingsOn, seenOn, verdictsOn } from "../../walk/looked-up.ts";
import type { Reading } from "../../walk/story.ts";
import { isDifference } from "../../walk/verdicts.ts";
import { type Move, lastDisturbed, lastWorkedOn } from "../moved.ts";
import type { JobRule } from "../rule.ts";
import { listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "reading-missing",
  group: "Limits, readings, checks",
  severity: "error at release",
  safety: false,
  title: "Something disturbed, worked on or renewed, and no final reading or check",
  why: "A setting that was undone is set again by measuring, not by feel, and a new or repaired part is measured before it is trusted. What was inside when found and was only off and on again needs no second reading.",
  wrong: `fastener hub-nut "Hub nut"
limit end-float "Hub end float"
  set 0.05 .. 0.12 mm by hub-nut
  source "Maker's handbook, page 64"
step set-it "Float set"
  tighten hub-nut
#         ^^^^^^^ error reading-missing
  done
release by "A. Moor" 2026-05-10
`,
  right: `fastener hub-nut "Hub nut"
limit end-float "Hub end float"
  set 0.05 .. 0.12 mm by hub-nut
  source "Maker's handbook, page 64"
step set-it "Float set"
  tighten hub-nut
  done
measure end-float final
  0.08 mm
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  reach: "names",
  check(context) {
    const { job, story, judged, report } = context;
    if (story.release === undefined) return;
    for (const thing of job.things.values()) {
      if ((thing.kind !== "limit" && thing.kind !== "check") || thing.implied) continue;
      // A limit that is worked out is read where its operands are.
      if (thing.kind === "limit" && thing.expression !== undefined && thing.setBy.length === 0) continue;
      for (const place of placesHere(thing)) {
        const asks = asked(thing, place);
        if (asks === undefined || finalSince(thing, place, asks.seq)) continue;
        const what =
          thing.kind === "limit"
            ? `${midSentence(thing, place)} was not measured${everywhere(thing)} since. Write \`measure ${thing.name} final\``
            : `\`${thing.name}\`${place === "" ? "" : ` (${place})`} was not seen good since. Write \`seen ${thing.name} final good\``;
        report({
          where: asks.where,
          severity: "error",
          message: `${asks.what}, and ${what} before it is released.`,
        });
      }
    }

    function placesHere(thing: Limit | Check): readonly string[] {
      const own = placesOf(job, thing);
      if (own.length > 1 || own[0] !== "") return own;
      return [""];
    }

    /** What asks for a final: a setting that was moved, or a thing that was renewed, repaired, or disturbed and never found inside. */
    function asked(thing: Limit | Check, place: string): Asking | undefined {
      const moved = lastDisturbed(story, thing.setBy, place);
      const worked = lastWorkedOn(story, thing.of, place);
      const off = lastDisturbed(story, thing.of, place);
      const unseen = off !== undefined && worked === undefined && !foundGood(thing, place) ? off : undefined;
      const all = [...[moved, worked, unseen].map((it) => it && asking(it)), thing.kind === "limit" ? shimmed(thing, place) : undefined];
      return all.reduce((a, b) => (a === undefined || (b !== undefined && b.seq > a.seq) ? b : a), undefined);
    }

    /**
     * Nobody writes that a shim went in: a setting that shims make, and that was found or tried outside what it must be left at, asks for a final:
     * once what it is of was apart behind that reading, or at once where nobody says what it is of.
     */
    function shimmed(limit: Limit, place: string): Asking | undefined {
      if (limit.setBy.length === 0 || !limit.setBy.every((name) => job.things.get(name.text)?.kind === "shims")) return undefined;
      const here = (at: string) => at === place || at === "" || place === "";
      const read = readingsOn(story, limit.name).find((it) => it.stage !== "final" && here(it.place) && outOfSet(it));
      if (read === undefined) return undefined;
      if (limit.of.length === 0) return { where: read.where, seq: read.seq, what: "Read outside what it must be left at here" };
      const apart = lastDisturbed(story, limit.of, place);
      return apart === undefined || apart.moment.seq < read.seq ? undefined : asking(apart);
    }

    function foundGood(thing: Limit | Check, place: string): boolean {
      const here = (at: string) => at === place || at === "" || place === "";
      if (thing.kind === "check") return seenOn(story, thing.name).some((it) => it.good && it.stage !== "trial" && here(it.place));
      // One that was found out is said by the rule that says so.
      // A trial neither condemns nor clears.
      const verdicts = verdictsOn(judged, thing.name).filter((it) => it.stage !== "trial" && here(it.place));
      // Of a spread that was found in doubt nothing is said but here.
      if (verdicts.length > 0) return verdicts.some((it) => it.stage === "final" || it.outcome !== "doubt" || !isDifference(it));
      return readingsOn(story, thing.name).some((it) => it.stage !== "trial" && here(it.place));
    }

    function everywhere(thing: Limit): string {
      return thing.positions.length > 1 ? ` at ${listed(thing.positions)}` : "";
    }

    function finalSince(thing: Limit | Check, place: string, seq: number): boolean {
      const here = (at: string) => at === place || at === "" || place === "";
      if (thing.kind === "check") return seenOn(story, thing.name).some((it) => it.stage === "final" && here(it.place) && it.seq > seq);
      // A reading before the last move of its setting is stale, and that is said there.
      const setting = thing.setBy.length > 0;
      const finals = readingsOn(story, thing.name).filter((it) => it.stage === "final" && here(it.place) && (setting || it.seq > seq));
      // One end of a pin says nothing of the other; a reading that names no end is taken for all of them.
      return finals.length > 0 && (finals.some((it) => it.position === undefined) || thing.positions.every((end) => finals.some((it) => it.position === end)));
    }
  },
};

/** Outside what it must be left at, by any of its figures. */
function outOfSet(reading: Reading): boolean {
  const set = bandOf(reading.stood.set);
  return set !== undefined && reading.spots.some((spot) => !inside(set, spot.value));
}

/** What asks for a final, where, and since when. */
interface Asking {
  readonly where: Where;
  readonly seq: number;
  readonly what: string;
}

function asking({ moment }: Move): Asking {
  const what = moment.verb === "repair" ? "Repaired here" : moment.isNew ? "Renewed here" : "Disturbed here";
  return { where: moment.where, seq: moment.seq, what };
}
