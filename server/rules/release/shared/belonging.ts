// What a critical limit or check belongs to: of what belongs to nothing no part that moves asks for it, and of what has no figure nobody can judge.
import type { Name } from "../../../../grammar/tree.ts";
import { placesOf } from "../../../model/job.ts";
import { readWith } from "../../../model/read-with.ts";
import type { Check, Limit } from "../../../model/things.ts";
import type { Story } from "../../../story/story.ts";
import { namesIn } from "../../../story/worked-out.ts";
import type { JobContext } from "../../rule.ts";
import { asked } from "../../what-asks.ts";
import { isMoved } from "./critical-work.ts";

type Context = Pick<JobContext, "job" | "story" | "judged">;

/** Nothing says what it may be, and no other limit is worked out from it. */
export function isFigureless({ job, doubted }: Story, thing: Limit): boolean {
  if ((thing.new ?? thing.worn ?? thing.set ?? thing.spread ?? thing.ovality ?? thing.taper) !== undefined || doubted.has(thing.name)) return false;
  if (["new", "worn", "set", "spread", "ovality", "taper", ""].some((word) => thing.unread.has(word))) return false;
  return ![...job.things.values()].some((other) => other.kind === "limit" && other.expression !== undefined && namesIn(other.expression).has(thing.name));
}

/** Of something that is declared, or set by it: then what moves asks for it. What is worked out is read where its operands are. */
export function isBound(context: Context, thing: Limit | Check): boolean {
  if ((thing.setBy.length > 0 && !isByShimsAlone(context, thing)) || thing.of.some((name) => context.job.things.get(name.text)?.implied === false)) return true;
  if (thing.kind === "check" || thing.expression === undefined) return false;
  return [...namesIn(thing.expression)].some((name) => {
    const operand = context.job.things.get(name);
    return operand?.kind === "limit" && operand.name !== thing.name && operand.expression === undefined && isBound(context, operand);
  });
}

/** Nobody says of shims that they moved: they ask for nothing, but by the part that they are called after, by what it is read with, or where something else that they set was read again. */
function isByShimsAlone({ job, story, judged }: Context, thing: Limit | Check): boolean {
  const isOf = ({ text }: Name) => job.things.get(text)?.kind === "shims" && !isMoved(story, text) && !isCalledAfterAPart(story, text);
  const [place, ...others] = placesOf(job, thing);
  if (place === undefined || others.length > 0 || !thing.setBy.every(isOf) || readWith(job, thing).length > 0) return false;
  return (
    asked({ job, story, judged }, thing, place) === undefined &&
    !story.readings.some(
      ({ stage, limit }) => stage !== "found" && limit.name !== thing.name && limit.setBy.some(({ text }) => thing.setBy.some((name) => name.text === text)),
    )
  );
}

/** `cover-shims`, where there is a `cover` or a `unit-cover`. */
function isCalledAfterAPart(story: Story, shims: string): boolean {
  const after = shims.replace(/-[^-]+$/, "");
  return story.parts.some(({ thing: { name } }) => name === after || name.endsWith(`-${after}`));
}
