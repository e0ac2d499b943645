// What is said of a reading or a look that says nothing of the machine as it goes out: why, and what to do about it.
import { onAt } from "../../../story/in-place.ts";
import { readWith } from "../../../model/read-with.ts";
import type { InPlace } from "./in-place-as-seen.ts";
import type { Job } from "../../../model/job.ts";
import { isSeenRunning } from "../../../model/read-with.ts";
import type { Where } from "../../../model/where.ts";
import type { FastenerCell, Moment, PartCell, Reading, Seen } from "../../../story/story.ts";
import type { Move } from "../../moved.ts";
import type { offItsWheels } from "../../on-its-wheels.ts";
import type { PartlyOn } from "../../partly-on.ts";
import type { Report } from "../../rule.ts";
import type { Otherwise } from "../../shut-again.ts";
import type { LaterThan, NotYet, readOfTheOld } from "../../stale.ts";
import type { Lacking } from "../../tried-early.ts";
import { agreeing, called, listed, midSentence } from "../../wording.ts";
import type { BuiltUp } from "./built-otherwise.ts";
import type { slackAt, squashedShort } from "./slack-as-read.ts";
import type { Unsprung } from "./unsprung-as-read.ts";
import type { WorkedAfter } from "./worked-after.ts";
import type { WorkedBeside } from "./worked-beside.ts";

export type Said = Pick<Report, "message" | "related">;
/** The number of a line, for a message. */
type LineOf = (where: Where) => string;
type Found<F extends (...of: never[]) => unknown> = NonNullable<ReturnType<F>>;

const thingOf = (it: Reading | Seen) => ("limit" in it ? it.limit : { name: it.check.name });
const nameOf = (it: Reading | Seen) => called(thingOf(it), it.place);
const cellName = ({ thing, place }: { readonly thing: Parameters<typeof midSentence>[0]; readonly place: string }) => midSentence(thing, place);
const was = (it: Parameters<typeof agreeing>[0]) => agreeing(it, "was");
/** `was read`, of a limit; of a look, `was seen`. */
const readOrSeen = (it: Reading | Seen) => ("limit" in it ? "read" : "seen");
const onceMore = (it: Reading | Seen) => ("limit" in it ? "Measure it once more" : "Look once more");
const at = (moment: Moment, message: string): Pick<Report, "related"> => ({ related: [{ where: moment.where, message }] });

export function onStands(reading: Reading, { what, moment }: Found<typeof offItsWheels>, line: LineOf): Said {
  return {
    message: `${nameOf(reading)} ${agreeing(reading.limit, "is")} read with the machine on its wheels, and ${what} then (line ${line(moment.where)}). Measure it when it stands on them.`,
    ...at(moment, "Done here."),
  };
}

export function withItIn(it: Reading | Seen, { cell, moment }: BuiltUp, line: LineOf): Said {
  const thing = thingOf(it);
  return {
    message: `${nameOf(it)} ${agreeing(thing, "is")} to be ${readOrSeen(it)} with the ${cellName(cell)} out, by its own words, and ${agreeing(cell.thing, "it")} went in before (line ${line(moment.where)}). ${"limit" in it ? "Measure" : "Look"} again as it says.`,
    ...at(moment, "Went in here, before it was read."),
  };
}

export function ofSome(it: Reading | Seen, { cell, on, moment }: PartlyOn, line: LineOf): Said {
  const which = cellName(cell);
  const [how, then] =
    on === 0
      ? [`with the ${which} off, and that went on after it`, "that on"]
      : on < cell.total
        ? [`with ${on} of ${cell.total} on (${which}), and the rest went on after it`, "all of them on"]
        : [`with the ${which} on and slack, and that was tightened after it`, "that tight"];
  return {
    message: `${nameOf(it)} ${was(thingOf(it))} ${readOrSeen(it)} ${how} (line ${line(moment.where)}). ${onceMore(it)} with ${then}.`,
    ...at(moment, "Done here, after it."),
  };
}

export function datedBack(it: Reading | Seen, { cell, what, moment }: LaterThan, line: LineOf): Said {
  return {
    message: `${nameOf(it)} ${agreeing(thingOf(it), "is")} dated ${it.day ?? ""}, and ${cell === undefined ? what : `${cellName(cell)} ${what}`}${moment === undefined ? "" : ` (line ${line(moment.where)})`}: it says how it was before. ${"limit" in it ? "Measure it as it is now" : onceMore(it)}, or correct the day.`,
    ...(moment === undefined ? {} : at(moment, "On a later day.")),
  };
}

export function onTrial(it: Reading | Seen, { cell, moment }: BuiltUp, line: LineOf): Said {
  return {
    message: `${nameOf(it)} ${was(thingOf(it))} ${readOrSeen(it)} while the ${cellName(cell)} ${was(cell.thing)} on \`for now\`, and that was done up again since (line ${line(moment.where)}): that was a trial. ${onceMore(it)}.`,
    ...at(moment, "Done here, after it was read."),
  };
}

export function ofTheOld(job: Job, reading: Reading, { cell, moment, come }: Found<typeof readOfTheOld>, line: LineOf): Said {
  const { limit } = reading;
  return {
    message: `${nameOf(reading)} ${agreeing(limit, "is")} dated ${reading.day ?? ""}, and ${cellName(cell)} went in on ${moment.day ?? ""} (line ${line(moment.where)}): ${readWith(job, limit).includes(cell.thing) ? "it has its size when it is in" : "it was read of the one that came out"}. Measure the one that is in${come ? ", or note `on the bench`" : ""}.`,
    ...at(moment, "Fitted here."),
  };
}

export function beforeItCame(reading: Reading, early: NotYet): Said {
  const { order, isNew } = early;
  return {
    message: `${nameOf(reading)} ${agreeing(reading.limit, "is")} dated ${reading.day ?? ""}, and ${whatCame(early)} ${order.back === undefined ? "later" : `on ${order.back}`}. Measure what came, or correct the day.`,
    related: [{ where: order.where, message: isNew ? "Ordered here." : "Sent out here." }],
  };
}

function whatCame({ cell, isNew, with: host }: NotYet): string {
  const what = cellName(cell);
  if (isNew) return `the new ${what} came`;
  return host === undefined ? `${what} came back from its work` : `${midSentence(host)}, in which ${what} was worked on, came back`;
}

export function readBare(reading: Reading, without: readonly (PartCell | FastenerCell)[]): Said {
  const { limit, seq } = reading;
  const off = without.some((cell) => cell.kind === "part" || onAt(cell, seq) < cell.total);
  return {
    message: `${nameOf(reading)} ${agreeing(limit, "is")} read with the ${listed(without.map((cell) => midSentence(cell.thing)))} ${off ? "in, and that was off" : "tight, and that was slack, or short of its torque,"} when this was read. Measure it with that ${off ? "in" : "tight"}.`,
  };
}

export function seenBare(seen: Seen, without: readonly (PartCell | FastenerCell)[]): Said {
  const names = listed([...new Set(without.map(cellName))]);
  return {
    message: `${nameOf(seen)} was seen while this was off or slack: ${names}. Look once more when it is on${seen.check.with.length > 0 ? "" : ", or write under the check what is on as it is seen: `with …`"}.`,
  };
}

export function inPlace(seen: Seen, { cell, moment }: InPlace, line: LineOf): Said {
  return {
    message: `${nameOf(seen)} was looked at with ${cellName(cell)} in place, which came off later (line ${line(moment.where)}): what is hidden there nobody saw. Look at it bare, and write how.`,
    ...at(moment, "It came off here."),
  };
}

export function whileSlack(reading: Reading, { cell, moment }: Found<typeof slackAt>, line: LineOf): Said {
  return {
    message: `${nameOf(reading)} ${agreeing(reading.limit, "is")} read of what is together, and ${cellName(cell)} ${was(cell.thing)} slack then (tightened at line ${line(moment.where)}). Measure it once more.`,
    ...at(moment, "Tightened here, after it was read."),
  };
}

export function shortOfTorque(reading: Reading, { cell, moment, at: pulled, wanted }: Found<typeof squashedShort>, line: LineOf): Said {
  return {
    message: `${nameOf(reading)} ${agreeing(reading.limit, "is")} read at the torque, and ${cellName(cell)} ${was(cell.thing)} last pulled ${pulled} (line ${line(moment.where)}): it takes ${wanted}. Pull it up over a new wire or strip, and measure that.`,
    ...at(moment, "Pulled up here."),
  };
}

export function shutOtherwise(reading: Reading, shut: Otherwise, line: LineOf): Said {
  return {
    message: `${nameOf(reading)} ${was(reading.limit)} read by squashed wire or strip, and since then ${cellName(shut)} ${shut.what} (line ${line(shut.where)}). Measure it once more over a new one.`,
    related: [{ where: shut.where, message: "Done here, after it was squashed." }],
  };
}

export function workedOnAfter(reading: Reading, after: WorkedAfter, line: LineOf): Said {
  return {
    message: `${nameOf(reading)} ${was(reading.limit)} read before ${cellName(after)} ${was(after.thing)} worked on (line ${line(after.where)}). Measure it once more.`,
    related: [{ where: after.where, message: "Worked on here, after it was read." }],
  };
}

export function cutBeside(it: Seen, { cell, moment }: WorkedBeside, line: LineOf): Said {
  return {
    message: `${nameOf(it)} ${was(thingOf(it))} ${readOrSeen(it)} before the ${cellName(cell)} ${was(cell.thing)} worked on (line ${line(moment.where)}), and bears otherwise now. ${onceMore(it)}.`,
    ...at(moment, "Worked on here, after it."),
  };
}

export function unsprung(it: Reading | Seen, { thing, moment }: Unsprung, line: LineOf): Said {
  return {
    message: `${nameOf(it)} ${was(thingOf(it))} ${readOrSeen(it)} with the ${midSentence(thing)} still made safe, and that was restored after it (line ${line(moment.where)}). ${onceMore(it)} with its pull on.`,
    ...at(moment, "Restored here, after it."),
  };
}

export function shutOff(it: Seen, { thing, moment }: Unsprung, line: LineOf): Said {
  return {
    message: `${nameOf(it)} ${was(it.check)} seen with the ${midSentence(thing)} still made safe, and that was restored after it (line ${line(moment.where)}). Look once more with it live.`,
    ...at(moment, "Restored here, after it."),
  };
}

export function notWorking(reading: Reading, lacking: Lacking, line: LineOf): Said {
  return {
    message: `${nameOf(reading)} is read as it works, and ${cellName(lacking)} ${lacking.what} then (line ${line(lacking.moment.where)}). Measure it again.`,
    ...at(lacking.moment, "Done here, after it was read."),
  };
}

export function seenWithout(seen: Seen, lacking: Lacking, line: LineOf): Said {
  const inIt = `with the ${midSentence(lacking.thing)} ${lacking.what === "was not bled" ? "bled" : "in"}`;
  const how = isSeenRunning(seen.check) ? "as it runs" : lacking.what === "was slack" ? "with all done up" : inIt;
  return {
    message: `${nameOf(seen)} shows only ${how}, and ${cellName(lacking)} ${lacking.what} then (line ${line(lacking.moment.where)}). Try it again with all of it together.`,
    ...at(lacking.moment, "Done here, after it was seen."),
  };
}

export function seenBefore(seen: Seen, after: Lacking, line: LineOf): Said {
  return {
    message: `${nameOf(seen)} was seen before ${cellName(after)} ${was(after.thing)} ${after.what} (line ${line(after.moment.where)}). Look once more.`,
    ...at(after.moment, "Done here, after it was seen."),
  };
}

export function movedOnALaterDay(seen: Seen, { cell, moment }: Move, line: LineOf): Said {
  return {
    message: `${nameOf(seen)} is dated ${seen.day ?? ""}, and ${cellName(cell)} ${was(cell.thing)} moved on ${moment.day ?? ""} (line ${line(moment.where)}). Look once more, or correct the days.`,
    ...at(moment, "Moved here, after that day."),
  };
}

export function movedAfter(reading: Reading, { cell, moment }: Move, line: LineOf): Said {
  const { limit, day, seq } = reading;
  const what = cellName(cell);
  const isBelow = seq > moment.seq;
  const message = isDatedAfter(reading, moment)
    ? `${nameOf(reading)} ${agreeing(limit, "is")} dated ${day} and stands above the line on which ${what} ${was(cell.thing)} moved or locked (line ${line(moment.where)}). Write it below that, if it was read after it.`
    : isBelow
      ? `${nameOf(reading)} ${agreeing(limit, "is")} dated ${day ?? ""}, and ${what} ${was(cell.thing)} moved or locked again on ${moment.day ?? ""} (line ${line(moment.where)}). Measure it once more, or correct the day.`
      : `${nameOf(reading)} ${was(limit)} read before ${what} ${was(cell.thing)} moved or locked again (line ${line(moment.where)}). Measure it once more${moment.verb === "lock" ? ", or write that the lock turned nothing" : ""}.`;
  return { message, ...at(moment, isBelow ? "Moved here, after that day." : "Moved or locked here, after the reading.") };
}

/** The sheet is told in the order of its lines: what is written further up under its part was done before, whatever its day. */
function isDatedAfter(reading: Reading, moved: Moment): boolean {
  return reading.seq < moved.seq && reading.day !== undefined && moved.day !== undefined && reading.day > moved.day;
}
