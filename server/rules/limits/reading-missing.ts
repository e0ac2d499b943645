// Disturbed, worked on or renewed, and no final reading or check.
import { placesOf } from "../../model/job.ts";
import type { Check, Limit } from "../../model/things.ts";
import { readingsOn, seenOn, verdictsOn } from "../../walk/looked-up.ts";
import { isDifference } from "../../walk/verdicts.ts";
import { mendedUnseen } from "../mended.ts";
import { type Move, lastDisturbed, lastWorkedOn } from "../moved.ts";
import type { JobRule } from "../rule.ts";
import { called, listed, midSentence } from "../wording.ts";

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
    const mended = new Set(mendedUnseen(story).map(({ repair }) => repair.seq));
    for (const thing of job.things.values()) {
      if ((thing.kind !== "limit" && thing.kind !== "check") || thing.implied) continue;
      // A limit that is worked out is read where its operands are.
      if (thing.kind === "limit" && thing.expression !== undefined && thing.setBy.length === 0) continue;
      const missing = new Map<object, { readonly asks: Move; readonly places: string[] }>();
      for (const place of placesHere(thing)) {
        const asks = asked(thing, place);
        if (asks === undefined && thing.critical) reshimmed(thing, place);
        if (asks === undefined || finalSince(thing, place, asks.moment.seq)) continue;
        // Mended after a crack or a bend and never looked at since: another rule says that once, at the same line.
        if (asks.moment.verb === "repair" && mended.has(asks.moment.seq)) continue;
        // One line that disturbed both sides is said once.
        const line = asks.moment.action ?? asks.moment;
        const known = missing.get(line);
        if (known === undefined) missing.set(line, { asks, places: [place] });
        else known.places.push(place);
      }
      for (const { asks, places } of missing.values()) {
        const at = places.filter((place) => place !== "");
        const what =
          thing.kind === "limit"
            ? `${at.length > 1 ? `${midSentence(thing)} (${listed(at)})` : midSentence(thing, at[0])} was not measured${everywhere(thing)} since. Write \`measure ${thing.name} final\``
            : `\`${thing.name}\`${at.length === 0 ? "" : ` (${listed(at)})`} was not seen good since. Write \`seen ${thing.name} final good${at.length === 1 ? ` ${at[0]}` : ""}\``;
        report({
          where: asks.moment.where,
          severity: "error",
          message: `${asks.moment.verb === "repair" ? "Repaired" : asks.moment.isNew ? "Renewed" : "Disturbed"} here, and ${what} before it is released.`,
        });
      }
    }

    /** Nobody writes that shims were changed; but what else they set has been measured again since it came apart. */
    function reshimmed(thing: Limit | Check, place: string): void {
      const shims = thing.setBy.filter((name) => job.things.get(name.text)?.kind === "shims").map((name) => name.text);
      const other = story.readings.findLast(
        (it) =>
          it.stage !== "found" &&
          it.limit.name !== thing.name &&
          (it.place === place || it.place === "" || place === "") &&
          it.limit.setBy.some((name) => shims.includes(name.text)),
      );
      if (other === undefined || finalSince(thing, place, 0)) return;
      const at = place === "" ? "" : ` ${place}`;
      report({
        where: other.where,
        severity: "error",
        message:
          thing.kind === "limit"
            ? `${called(other.limit, other.place)} was set again, and ${midSentence(thing, place)}, which hangs on the same shims, was not measured. Write \`measure ${thing.name} final\` before it is released.`
            : `${called(other.limit, other.place)} was set again, and \`${thing.name}\`${at === "" ? "" : ` (${place})`}, which hangs on the same shims, was not seen good. Write \`seen ${thing.name} final good${at}\` before it is released.`,
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

    /** What asks for a final: a setting that was moved, or a thing that was renewed, repaired, or disturbed and never found inside. */
    function asked(thing: Limit | Check, place: string): Move | undefined {
      const moved = lastDisturbed(story, thing.setBy, place);
      const worked = lastWorkedOn(story, thing.of, place);
      const off = lastDisturbed(story, thing.of, place);
      const unseen = off !== undefined && worked === undefined && !foundGood(thing, place) ? off : undefined;
      return [moved, worked, unseen].reduce((a, b) => (a === undefined || (b !== undefined && b.moment.seq > a.moment.seq) ? b : a), undefined);
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
