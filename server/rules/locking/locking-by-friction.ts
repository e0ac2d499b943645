// A critical fastener that friction alone holds, and nobody says who made it so.
import { lockingInfo } from "../../../grammar/words.ts";
import { lineOf } from "../../model/things.ts";
import { allWords } from "../../model/titles.ts";
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";
import { isGuess } from "../guesses.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "locking-by-friction",
  group: "Locking",
  severity: "warning; open at release where a castellated or slotted nut was done up so",
  safety: false,
  title: "A critical fastener held by friction alone, without a source that made it so; a castellated nut without its pin",
  why: "A spring washer or a lock nut can work loose under vibration. Many makers did choose it: then name the handbook page as `source`, and the warning goes. A castellated or slotted nut is made for a pin or a wire, whatever was found on it.",
  wrong: `fastener arm-bolt "Steering arm bolt"
  locked by spring washer
#           ^^^^^^^^^^^^^ warning locking-by-friction
  critical "steering"
`,
  right: `fastener arm-bolt "Steering arm bolt"
  locked by spring washer
  critical "steering"
  source "Maker's workshop manual, page 31"
`,
  scope: "job",
  check({ job, story, report }) {
    for (const thing of job.things.values()) {
      if (thing.kind !== "fastener" || !thing.critical || thing.locking === undefined) continue;
      const { kind, words, at } = thing.locking.locking;
      const line = lineOf(thing, "locked");
      const isByFriction = lockingInfo(kind)?.friction === true;
      if (line === undefined || !(isByFriction || kind === "nothing")) continue;
      const place = where(line.file, line.entry, line.detail.row, at);
      if (takesPin.test(allWords(thing))) {
        const isDoneUp = story
          .cells(thing.name)
          .some((cell) => cell.kind === "fastener" && cell.history.some((it) => it.verb === "tighten" && it.phase === "done"));
        report({
          where: place,
          severity: "warning",
          ...(isDoneUp ? { open: true } : {}),
          message: `${called(thing)} ${agreeing(thing, "is")} made for a pin or a wire, and critical, and here it is locked by ${kind === "nothing" ? "nothing" : `a ${words}`}. Write what goes through its slots, or what nut it is now.`,
        });
        continue;
      }
      if (!isByFriction || (thing.source !== undefined && !isGuess(thing.source)) || thing.unread.has("source")) continue;
      report({
        where: place,
        severity: "warning",
        message: `${called(thing)} ${agreeing(thing, "is")} critical and only friction locks it (${words}). Give the maker's page as \`source\`, or fit a positive locking.`,
      });
    }
  },
};

/** A castellated nut, and not a screw with a slot for its driver. */
const takesPin = /\b(castellated|castle|slotted|drilled)\s+([\p{L}-]+\s+){0,2}nuts?\b|\bnuts?\b[^,;(]*[,;(]?\s*(castellated|castle|slotted)\b/iu;
