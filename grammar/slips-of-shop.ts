// Slips of hand that come from how the trade writes elsewhere: a count in brackets, a locking by the name that it has in the shop, its size by its thread, sets, two kinds of place.
// Invariant: as in slips.ts, one that knows none says nothing; where one of two things may be meant both are offered.
import type { IToken } from "chevrotain";
import { takesCount } from "./action-grammar.ts";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import { countOf } from "./plain-words.ts";
import { type Slip, type Stop, itemShapes, placesRead, thingsRead } from "./stop.ts";
import { endOf, figureToken, goingOnToken, nameToken } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";
import { entryWord, lockingPhrases, lockings } from "./words.ts";
import { meantBy } from "./words/meant-words.ts";

export const slipsOfShop: readonly Slip[] = [countInBrackets, eachOfTwo, renewedInSets, meantLocking, sizeByThread, wordForPlace, placeBehindAmount];

/** `fit packing (4)`, `finding stud (2 of 4)`, `undo nut x 4`, `fit ring 2 of 4`; under its head how many there are is a line: `part ring (4)`. */
function countInBrackets({ failure, here, before, node, shape, tokens, text }: Stop): Fault | undefined {
  if (failure === undefined || here === undefined) return undefined;
  const rest = text.slice(here.startOffset, (node.at as Span).to);
  const said =
    /^(?:\(\s*(?:(all)|(\d+)(?:\s*(?:off|no|pcs|of\s+(\d+)))?)[^()"]{0,3}\)|(?:x\s*|[*×]\s*)(\d+)(?![\w./-]|\s*(?:in|mm|cm)\b)|of\s+\d+(?![\w./]))/i.exec(rest);
  if (said === null) return undefined;
  const at = { from: here.startOffset, to: here.startOffset + said[0].length };
  const head = entryWord(shape);
  if (head !== undefined && /^(?:part|fastener)$/.test(shape)) {
    const count = said[3] ?? said[2] ?? said[4];
    if (count === undefined || at.to < (node.at as Span).to) return undefined;
    return fault(at, `How many there should be goes on a line of its own below: qty ${count}.`, [
      fixOf("Put it on a line of its own", { from: endOf(before), to: at.to }, `\n  qty ${count}`),
    ]);
  }
  const isWork = node.kind === "action" && takesCount(node.verb as string);
  // The figure behind the x of a pin or a wire is its length.
  if (itemShapes.has(shape) && lockingPhrases.has(`${tokens[1]?.image} ${tokens[2]?.image}`)) return undefined;
  const name = isWork ? thingsRead(node).at(-1)?.name : nameToken(tokens[1]) ? { text: tokens[1]?.image ?? "", at: spanOf(tokens[1] as IToken) } : undefined;
  if (name === undefined || !(isWork || node.kind === "finding" || itemShapes.has(shape) || shape === "received")) return undefined;
  const counted = /^\s+(\d+)(?![\w./])/.exec(text.slice(name.at.to, here.startOffset));
  const count = counted?.[1] ?? said[2] ?? said[4];
  if (said[1] !== undefined || count === undefined)
    return said[1] === undefined
      ? undefined
      : fault(at, `Leave ${said[0]} out: a name without a figure is all of them.`, [fixOf("Leave it out", { from: endOf(before), to: at.to }, "")]);
  const written = `${name.text} ${count}`;
  // A place that was read stays behind the count.
  const places = text.slice(name.at.to + (counted?.[0].length ?? 0), here.startOffset).trimEnd();
  if (places !== "" && !/^\s+[\p{L}\d, -]+$/u.test(places)) return undefined;
  return fault(at, `How many goes straight after the name, as a bare figure: ${written}${places}.`, [
    fixOf(`Write ${written}${places}`, { from: name.at.from, to: at.to }, `${written}${places}`),
  ]);
}

/** `each axle, side`, `each axle and side`, `each axle each side` */
function eachOfTwo({ failure, here, behind, before, shape, tokens }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || shape !== "each" || here === undefined || before !== tokens[1] || before === undefined) return undefined;
  const count = countOf(here.image);
  if (count !== undefined && behind === undefined) {
    const written = `${before.image} ${count}`;
    return fault(spanOf(here), `How many at each goes straight behind it: each ${written}.`, [fixOf(`Write ${count}`, spanOf(here), count)]);
  }
  if (/^(?:,|x)$/.test(here.image) && figureToken(behind)) {
    const at = { from: before.startOffset, to: endOf(behind as IToken) };
    const written = `${before.image} ${behind?.image ?? ""}`;
    return fault(at, `How many at each goes straight behind it: each ${written}.`, [fixOf(`Write ${written}`, at, written)]);
  }
  const second = nameToken(here) && !/^(?:and|each|x|by)$/.test(here.image) ? here : /^(?:,|and|each|&|x|by|\/)$/.test(here.image) ? behind : undefined;
  if (second === undefined || !nameToken(second)) return undefined;
  return fault(
    { from: before.startOffset, to: endOf(second) },
    `One kind of place goes behind \`each\`. What stands at each ${before.image} and each ${second.image} has places of a kind of its own, such as places wheel front-left, front-right, rear-left, rear-right; then write each wheel.`,
  );
}

/** `renew in set`, `renew in pair`, `renew as a set`, `renew all together` */
function renewedInSets({ failure, here, behind, shape, node, text, before }: Stop): Fault | undefined {
  if (failure === undefined || shape !== "renew" || here === undefined) return undefined;
  const from = before.image === "in" ? before : here;
  const at = { from: from.startOffset, to: (node.at as Span).to };
  const words = text.slice(at.from, at.to);
  if (/["#]/.test(words) || (behind === undefined && from === here)) return undefined;
  if (
    !/^(?:(?:in|as|by|for)\s+(?:an?\s+|the\s+)?(?:whole\s+|full\s+)?(?:pairs?|sets?|twos)|(?:all|both)(?:\s+(?:together|of them|at once|sides))?)$/i.test(words)
  )
    return undefined;
  const fix = fixOf("Write `in pairs`", at, "in pairs");
  if (/\b(?:pairs?|twos|both)\b/i.test(words)) return fault(at, "Those of both sides, or all at one place, together: renew in pairs.", [fix]);
  return fault(at, "All of one name together: renew in pairs, whatever their number. Parts of several names that make a set: matched with NAME.", [fix]);
}

/** What a locking is, from its row: `goes through …`, to tell two of them apart. */
function isWhat(locking: string): string | undefined {
  return lockings
    .find((it) => it.words[0] === locking)
    ?.says.split(".")[0]
    ?.toLowerCase();
}

/** `retained by spring clip`, `locked by lock washer`, `lock pin with snap ring` */
function meantLocking({ failure, here, behind, shape, tokens }: Stop): Fault | undefined {
  const first = failure?.choice === "locking" ? here : failure !== undefined && itemShapes.has(shape) ? tokens[1] : undefined;
  if (first === undefined || !nameToken(first)) return undefined;
  const second = first === here ? behind : tokens[2];
  const spaced = (words: string) => words.toLowerCase().replaceAll("-", " ");
  const pair = second !== undefined && nameToken(second) ? meantBy(spaced(`${first.image} ${second.image}`), "locking") : undefined;
  // In an item one word alone is a name.
  const meant = pair ?? (first === here || first.image.includes("-") ? meantBy(spaced(first.image), "locking") : undefined);
  if (meant === undefined) return undefined;
  const at = { from: first.startOffset, to: endOf(pair === undefined ? first : (second as IToken)) };
  const or = meant.write.map((it) => `\`${it}\`${meant.write.length > 1 ? ` (${isWhat(it)})` : ""}`).join(" or ");
  return fault(
    at,
    `Write ${or} for \`${meant.typed}\`.`,
    meant.write.map((it) => fixOf(`Write \`${it}\``, at, it)),
  );
}

/** `self-locking nut M8`, `offer lock nut M10x1 from weir` */
function sizeByThread({ failure, here, before, shape, tokens, index }: Stop): Fault | undefined {
  const size = /^M(\d+(?:\.\d+)?)(?:[xX]\d+(?:\.\d+)?)?$/.exec(here?.image ?? "")?.[1];
  if (failure === undefined || here === undefined || size === undefined || !(failure.how === "rest" || itemShapes.has(shape) || shape === "received"))
    return undefined;
  const pair = `${tokens[index - 2]?.image} ${before.image}`;
  const locking = lockings.find((it) => it.size !== "none" && it.words.includes(pair)) === undefined ? before.image : pair;
  if (!lockings.some((it) => it.size !== "none" && it.words.includes(locking))) return undefined;
  return fault(spanOf(here), `The size of a ${locking} is a length, the thread is the fastener's own: ${locking} ${size} mm.`, [
    fixOf(`Write ${size} mm`, spanOf(here), `${size} mm`),
  ]);
}

/** `fit bearing load`, `remove hub over, drive`: a place that is called as a word that goes on with the line. */
function wordForPlace({ failure, here, behind, before, node }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || here === undefined || !goingOnToken(here) || !nameToken(here) || !nameToken(before)) return undefined;
  if (behind !== undefined && behind.image !== ",") return undefined;
  const things = node.kind === "action" ? thingsRead(node) : [];
  const isBehind = things.some((it) => it.name.text === before.image) || placesRead(node).some((it) => it.text === before.image) || node.kind === "finding";
  if (!isBehind || /^(?:new|LH|dry|oiled|done|none)$/.test(here.image)) return undefined;
  return fault(
    spanOf(here),
    `\`${here.image}\` is a word of the line here, so no place can be called that. Give the place another name wherever it stands, such as ${here.image}-end.`,
  );
}

/** `fill grease 60 g left, right`, `drain oil 2 l rear` */
function placeBehindAmount({ failure, here, node, tokens, index, text }: Stop): Fault | undefined {
  if (failure?.how !== "rest" || (node.verb !== "fill" && node.verb !== "drain") || here === undefined || !nameToken(here) || placesRead(node).length > 0)
    return undefined;
  const amount = tokens.findIndex((it, i) => i > 1 && i < index && figureToken(it));
  if (amount === -1 || goingOnToken(here) || !tokens.slice(index).every((it) => nameToken(it) || it.image === ",")) return undefined;
  const first = tokens[amount] as IToken;
  const places = text.slice(here.startOffset, (node.at as Span).to);
  const written = `${text.slice((node.at as Span).from, first.startOffset)}${places} ${text.slice(first.startOffset, here.startOffset).trim()}`;
  if (thingsRead(node)[0]?.name.text === "with") {
    const named = written.replace(/^fill with /, "fill ");
    return fault({ from: here.startOffset, to: (node.at as Span).to }, `What it is filled with comes first, then how much: ${named}.`, [
      fixOf(`Write ${named}`, node.at as Span, named),
    ]);
  }
  return fault({ from: here.startOffset, to: (node.at as Span).to }, `The place goes straight after the name: ${written}.`, [
    fixOf(`Write ${written}`, node.at as Span, written),
  ]);
}
