// Whether a fastener was locked with what it does not declare: another kind, or a thinner pin or wire.
import type { Locking } from "../../grammar/tree.ts";
import { measured, unitsOf } from "../model/values.ts";

/** A longer pin of the size is the same locking, and so is one a step shorter. What can't be told apart is not unlike. */
export function isUnlikeLocking(used: Locking, declared: Locking): boolean {
  if (used.kind === "ambiguous" || declared.kind === "ambiguous") return false;
  return (
    used.kind !== declared.kind ||
    (used.kind === "part" && used.part?.text !== declared.part?.text) ||
    isThinner(used, declared) ||
    isOfAnotherSize(used, declared) ||
    isShort(used, declared) ||
    isOfAnotherGrade(used, declared)
  );
}

/** A pin less than two thirds as long does not come out of the other side far enough to be bent, and so much less wire does not go round as many heads. A longer one is cut. */
function isShort(used: Locking, declared: Locking): boolean {
  if (used.kind !== declared.kind || !["split pin", "roll pin", "taper pin", "lock wire"].includes(used.kind)) return false;
  const [a, b] = [lengthOf(used), lengthOf(declared)];
  return a?.unit.dimension === "length" && b?.unit.dimension === "length" && a.value.mul(3).compare(b.value.mul(2)) < 0;
}

function isOfAnotherGrade(used: Locking, declared: Locking): boolean {
  if (used.kind !== "thread lock" || declared.kind !== "thread lock" || used.grade === undefined || declared.grade === undefined) return false;
  return used.grade.value.trim().toLowerCase() !== declared.grade.value.trim().toLowerCase();
}

/** A tab washer goes on its own thread and a circlip on its own shaft: by more than a fortieth wider or narrower it is for another; 25 mm for 1 in is not that. */
function isOfAnotherSize(used: Locking, declared: Locking): boolean {
  if (used.kind !== declared.kind || (used.kind !== "circlip" && used.kind !== "tab washer")) return false;
  const [a, b] = [diameter(used), diameter(declared)];
  if (a?.unit.dimension !== "length" || b?.unit.dimension !== "length") return false;
  return a.value.sub(b.value).abs().mul(40).compare(b.value) > 0;
}

/** A pin or a wire by more than a tenth thinner than the declared one shears for less; 3.2 mm for 1/8 in is the same pin. */
function isThinner(used: Locking, declared: Locking): boolean {
  if (used.kind !== declared.kind || used.kind === "circlip" || used.kind === "tab washer") return false;
  const [a, b] = [diameter(used), diameter(declared)];
  return a?.unit.dimension === "length" && b?.unit.dimension === "length" && a.value.mul(10).compare(b.value.mul(9)) < 0;
}

function lengthOf(locking: Locking): ReturnType<typeof measured> {
  const size = locking.size[1];
  return size === undefined ? undefined : measured(size, unitsOf(locking.size)[1]);
}

function diameter(locking: Locking): ReturnType<typeof measured> {
  const [size] = locking.size;
  return size === undefined ? undefined : measured(size, unitsOf(locking.size)[0]);
}
