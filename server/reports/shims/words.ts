// The words that every drawing of the shims shares.
import { small } from "../../model/titles.ts";
import type { ShimAnswerShown, StackShown } from "./shims.ts";

export function shimTitle(it: ShimAnswerShown): string {
  return [it.title, it.place].filter((word) => word !== "").join(", ");
}

export function shimFacts(it: ShimAnswerShown): string {
  return [
    it.limitTitle === undefined ? "" : `for ${small(it.limitTitle)}${it.set === undefined ? "" : `, set ${it.set}`}`,
    it.target === undefined ? "" : `the middle is ${it.target}`,
    it.reading === undefined
      ? ""
      : `read ${it.reading.text} (${it.reading.stage}${it.reading.spread === undefined ? "" : `, the middle of ${it.reading.spread}`})`,
  ]
    .filter((word) => word !== "")
    .join("; ");
}

export function stackLine(list: StackShown["now"]): string {
  return list.length === 0 ? "none" : list.map((it) => `${it.count} \u00d7 ${it.text}`).join(" + ");
}

/** For who can't see the picture. */
export function stackPictureWords(stack: StackShown): string {
  return `${stack.title}. Now: ${stackLine(stack.now)}, ${stack.nowTotal} in all. Then: ${stackLine(stack.then)}, ${stack.thenTotal} in all.`;
}

export const workedOutOnly = "What it should read is worked out, not measured: put it together, lock it, and measure it again.";
