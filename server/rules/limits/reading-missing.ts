// Disturbed, worked on or renewed, and no final reading or check.
import { readingsOn } from "../../story/looked-up.ts";
import { isSamePlace } from "../../model/same-place.ts";
import { placesOf } from "../../model/job.ts";
import type { Check, Limit } from "../../model/things.ts";
import { isCritical } from "../../model/relations.ts";
import { mendedUnseen } from "../mended.ts";
import { triedAlsoAt } from "../at-one-place.ts";
import { eachOf, endsFoundOutside, readOnce } from "../read-of-each.ts";
import type { JobRule } from "../rule.ts";
import { finalSince } from "../final-since.ts";
import { isOutOfSet } from "../../story/out-of-set.ts";
import { shutAgain } from "../squashed.ts";
import { type Asking, asked, dueOf } from "../what-asks.ts";
import { agreeing, called, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "reading-missing",
  group: "Limits, readings, checks",
  severity: "error at release; warning where what is outside may have been read before the work of its day",
  safety: false,
  title: "Something disturbed, worked on or renewed, and no final reading or check",
  why: "A setting that was undone is set again by measuring, not by feel, and a new or repaired part is measured before it is trusted. So is a setting that was found outside what it must be left at, or tried so where shims make it. What was inside when found and was only off and on again needs no second reading.",
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
  check(context) {
    const { job, story, report } = context;
    if (story.release === undefined) return;
    const mended = new Set(mendedUnseen(story).map(({ repair }) => repair.seq));
    for (const thing of job.things.values()) {
      if ((thing.kind !== "limit" && thing.kind !== "check") || thing.implied || story.doubted.has(thing.name)) continue;
      // A limit that is worked out is read where its operands are.
      if (thing.kind === "limit" && thing.expression !== undefined && thing.setBy.length === 0) continue;
      const missing = new Map<object, { readonly asks: Asking; readonly places: string[] }>();
      for (const place of placesHere(thing)) {
        const asks = asked(context, thing, place);
        if (asks === undefined && thing.critical) reshimmed(thing, place);
        const due = dueOf(context, thing, place, asks);
        // Mended after a crack or a bend and never looked at since: another rule says that once, at the same line.
        if (due === undefined || mended.has(due.seq)) continue;
        // One line that disturbed both sides is said once.
        const known = missing.get(due.line);
        if (known === undefined) missing.set(due.line, { asks: due, places: [place] });
        else known.places.push(place);
      }
      for (const { asks, places } of missing.values()) {
        const at = places.filter((place) => place !== "");
        const what =
          thing.kind === "limit"
            ? `${at.length > 1 ? `${midSentence(thing)} (${listed(at)})` : midSentence(thing, at[0])} was not measured${everywhere(thing, at[0] ?? "")} since. Write \`measure ${thing.name} final\`${figures(thing, at[0] ?? "")}`
            : `\`${thing.name}\`${at.length === 0 ? "" : ` (${listed(at)})`} was not seen good since. Write \`seen ${thing.name} final good${at.length === 1 ? ` ${at[0]}` : ""}\``;
        report({
          where: asks.where,
          severity: asks.mayBeOfBefore ? "warning" : "error",
          message: asks.mayBeOfBefore
            ? `${asks.what}, below the last final of that day: taken for how it was before. If it is so now, write \`measure ${thing.name} final\`.`
            : asks.isUndated
              ? `${asks.what}. Write \`measure ${thing.name} final\`, or its day behind \`found\` if it was so before the work.`
              : `${asks.what}, and ${what} before it is released.${writtenAbove(thing, places, asks)}${squashedAbove(thing, places)}`,
          // Tried at these it will be asked for at others too: whoever plans it plans all of them.
          reads: [{ name: thing.name, places: thing.kind === "check" ? [...places, ...triedAlsoAt(story, thing, new Set(places))] : places }],
          ...(isCritical(job, thing) && !asks.mayBeOfBefore ? { firm: true as const } : {}),
        });
      }
      const bare = thing.kind === "limit" && missing.size === 0 ? readOnce(story, thing) : undefined;
      if (bare !== undefined)
        report({
          where: bare.it.where,
          severity: "error",
          message: `${called(thing, bare.it.place)} ${agreeing(thing, "was")} read once, and one figure shows no ${bare.what}. Measure it at another spot too, with the same gauge: \`measure ${thing.name} final\`.`,
          reads: [{ name: thing.name, places: [bare.it.place] }],
          ...(isCritical(job, thing) ? { firm: true as const } : {}),
        });
    }

    /** It was read on a later day, and is written further up: the sheet is told in the order of its lines. */
    function writtenAbove(thing: Limit | Check, places: readonly string[], asks: Asking): string {
      const day = story.visits.find((it) => it.entry === asks.where.entry)?.day;
      if (day === undefined || thing.kind !== "limit") return "";
      const above = readingsOn(story, thing.name).find(
        (it) => it.stage === "final" && it.seq < asks.seq && it.day !== undefined && it.day > day && places.includes(it.place),
      );
      return above === undefined ? "" : ` What line ${context.line(above.where)} says is dated later: if it is so, write it below this.`;
    }

    /** Wire or strip that was squashed for a trial, and the same was shut again: that is the last that anybody can read. */
    function squashedAbove(thing: Limit | Check, places: readonly string[]): string {
      const last = thing.kind === "limit" ? readingsOn(story, thing.name).findLast((it) => places.includes(it.place)) : undefined;
      if (last?.stage !== "trial" || isOutOfSet(last)) return "";
      return shutAgain(story, last) === "same" ? ` What was squashed at line ${context.line(last.where)} is so still: write that as \`final\`.` : "";
    }

    /** Nobody writes that shims were changed; but what else they set has been measured again since it came apart. */
    function reshimmed(thing: Limit | Check, place: string): void {
      const shims = thing.setBy.filter((name) => job.things.get(name.text)?.kind === "shims").map((name) => name.text);
      const other = story.readings.findLast(
        (it) =>
          it.stage !== "found" && it.limit.name !== thing.name && isSamePlace(it.place, place) && it.limit.setBy.some((name) => shims.includes(name.text)),
      );
      if (other === undefined || finalSince(context, thing, place, 0)) return;
      const at = place === "" ? "" : ` ${place}`;
      report({
        where: other.where,
        severity: "error",
        reads: [{ name: thing.name, places: [place] }],
        message:
          thing.kind === "limit"
            ? `${called(other.limit, other.place)} ${agreeing(other.limit, "was")} set again, and ${midSentence(thing, place)}, on the same shims, was not measured. Write \`measure ${thing.name} final\` before it is released.`
            : `${called(other.limit, other.place)} ${agreeing(other.limit, "was")} set again, and \`${thing.name}\`${at === "" ? "" : ` (${place})`}, on the same shims, was not seen good. Write \`seen ${thing.name} final good${at}\` before it is released.`,
      });
    }

    /** A check is looked at wherever that is of which it is. */
    function placesHere(thing: Limit | Check): readonly string[] {
      if (thing.kind === "limit" || thing.placeKind !== undefined) return placesOf(job, thing);
      const all = new Set<string>();
      for (const name of [...thing.of, ...thing.setBy]) {
        const it = job.things.get(name.text);
        if (it !== undefined && "placeKind" in it) for (const place of placesOf(job, it)) if (place !== "") all.add(place);
      }
      return all.size === 0 ? [""] : [...all];
    }

    function figures(thing: Limit, place: string): string {
      const each = eachOf(story, thing, place);
      return each > 1 ? ` with ${each} figures` : "";
    }

    function everywhere(thing: Limit, place: string): string {
      const each = eachOf(story, thing, place);
      if (each > 1) return each === 2 ? " on both" : ` on all ${each}`;
      if (thing.positions.length > 1) return ` at ${listed(thing.positions)}`;
      const ends = endsFoundOutside(story, thing, place);
      return ends.length > 0 && readingsOn(story, thing.name).some((it) => it.stage === "final") ? ` at ${listed(ends)}` : "";
    }
  },
};
