// What an expression is worked out from.
import type { Expression } from "../../grammar/tree.ts";

export type Leaf = Extract<Expression, { kind: "quantity" | "name" }>;

/** Its figures and the limits that it names, from left to right. */
export function leavesOf(it: Expression, into: Leaf[] = []): readonly Leaf[] {
  switch (it.kind) {
    case "quantity":
    case "name":
      into.push(it);
      break;
    case "negate":
      leavesOf(it.operand, into);
      break;
    case "binary":
      leavesOf(it.left, into);
      leavesOf(it.right, into);
      break;
    case "call":
      for (const argument of it.arguments) leavesOf(argument, into);
  }
  return into;
}
