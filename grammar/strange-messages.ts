// What is said of characters and runs of characters that no good line holds.
// Invariant: a fix never guesses a figure; where two readings are possible both are offered, or none.
import { fractions, isEstimate } from "./plain-words.ts";
import { wornEitherWay } from "./message-words.ts";
import { estimateFault } from "./slips-of-facts.ts";
import type { IToken } from "chevrotain";
import { deepestNesting } from "./lexer.ts";
import { fault, fixOf, spanOf } from "./line-nodes.ts";
import type { Broken } from "./stop.ts";
import { CurlyText, Dash, Dots, InchMark, Invisible, LeftBlank, MoneySign, Open, OpenText, OtherDate, figureToken, nameToken, touching } from "./tokens.ts";
import type { Fault, Span } from "./tree.ts";

export function strangeFault(broken: Broken, index: number): Fault {
  const it = broken.tokens[index] as IToken;
  const at = spanOf(it);
  const before = broken.tokens[index - 1];
  const behind = broken.tokens[index + 1];
  switch (it.tokenType) {
    case OpenText:
      return openText(it);
    case LeftBlank:
      return strange(broken, it, before, behind);
    case CurlyText:
      return curly(it);
    case InchMark:
      return inches(broken, it, before);
    case OtherDate:
      return otherDate(it);
    case Dots:
      return dots(it, before, behind, broken.tokens[index - 2]);
    case Dash:
      return figureToken(before) && figureToken(behind) && before !== undefined && behind !== undefined
        ? fault(at, `A range is written with two dots: ${before.image} .. ${behind.image}.`, [
            fixOf(`Write ${before.image} .. ${behind.image}`, { from: spanOf(before).to, to: behind.startOffset }, " .. "),
          ])
        : fault(at, "This dash is not a hyphen. Write -.", [fixOf("Write -", at, "-")]);
    case MoneySign:
      return money(broken, it, behind);
    case Invisible:
      return fault(at, "There is an invisible character here. Delete it.", [fixOf("Delete it", at, "")]);
    case Open:
      return fault(at, `Parentheses more than ${deepestNesting} deep are not read. Write the expression in parts, a limit each.`);
    default:
      return figureToken(it) ? gluedFigure(broken, it, before as IToken) : strange(broken, it, before, behind);
  }
}

function openText(it: IToken): Fault {
  const end = it.startOffset + it.image.trimEnd().length;
  // A backslash at the end would take the quote that is put behind it.
  const fixes = /(?:^|[^\\])(?:\\\\)*\\$/.test(it.image.trimEnd()) ? [] : [fixOf("Close the text", { from: end, to: end }, '"')];
  return fault({ from: it.startOffset, to: end }, "This text has no closing quote.", fixes);
}

function curly(it: IToken): Fault {
  const closed = /^[“”„«»]([^“”„«»"]*)[“”„«»]/.exec(it.image);
  const at =
    closed === null
      ? { from: it.startOffset, to: it.startOffset + it.image.trimEnd().length }
      : { from: it.startOffset, to: it.startOffset + closed[0].length };
  const inside =
    closed === null
      ? it.image
          .slice(1)
          .trimEnd()
          .replace(/["“”„«»]/g, "")
      : (closed[1] as string);
  return fault(at, 'Quotes are written straight: "…".', [fixOf("Write straight quotes", at, `"${inside.replaceAll("\\", "\\\\")}"`)]);
}

function inches(broken: Broken, it: IToken, before: IToken | undefined): Fault {
  const { shape } = broken;
  const figure = before?.image ?? "";
  const at = { from: before?.startOffset ?? it.startOffset, to: spanOf(it).to };
  if (shape === "thread")
    return fault(at, `Inches are written in: ${figure} in. A thread has no mark after its size: ${figure}.`, [fixOf("Take the mark away", spanOf(it), "")]);
  const { text, faultAt } = broken;
  const isRead = (put: string) => faultAt?.(`${text.slice(0, it.startOffset)}${put}${text.slice(spanOf(it).to)}`) === undefined;
  if (faultAt !== undefined && !isRead(" in") && isRead(""))
    return fault(spanOf(it), "This quote does not belong there.", [fixOf("Take the quote away", spanOf(it), "")]);
  return fault(at, `Inches are written in: ${figure} in.`, [fixOf(`Write ${figure} in`, spanOf(it), " in")]);
}

function otherDate(it: IToken): Fault {
  const parts = it.image.split(/[-./]/);
  const pad = (text: string | undefined) => (text ?? "").padStart(2, "0");
  const dates = new Set<string>();
  if (parts[0]?.length === 4) dates.add(`${parts[0]}-${pad(parts[1])}-${pad(parts[2])}`);
  else {
    const year = parts[2]?.length === 2 ? `20${parts[2]}` : parts[2];
    if (Number(parts[1]) <= 12) dates.add(`${year}-${pad(parts[1])}-${pad(parts[0])}`);
    if (Number(parts[0]) <= 12) dates.add(`${year}-${pad(parts[0])}-${pad(parts[1])}`);
  }
  const written = [...dates].filter(isDay);
  const example = written.length === 0 ? "2026-04-11" : written.join(" or ");
  return fault(
    spanOf(it),
    `A date is written year, month, day: ${example}.`,
    written.map((date) => fixOf(`Write ${date}`, spanOf(it), date)),
  );
}

/** No fix writes a day that no calendar has. */
function isDay(date: string): boolean {
  const [year = 0, month = 0, day = 0] = date.split("-").map(Number);
  const days = [31, year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  return day > 0 && day <= (days[month - 1] ?? 0);
}

function dots(it: IToken, before: IToken | undefined, behind: IToken | undefined, first: IToken | undefined): Fault {
  const at = spanOf(it);
  if (!figureToken(before) || !figureToken(behind) || before === undefined || behind === undefined)
    return fault(at, "Write two dots between two figures: 1 .. 2.");
  const said = `Write two dots between two figures: ${before.image} .. ${behind.image}.`;
  // Behind max or min one figure stands: the dots can't be put right by dots.
  if (first?.image === "max" || first?.image === "min") return fault(at, said);
  const gap: Span = { from: spanOf(before).to, to: behind.startOffset };
  const fixes = [fixOf(`Write ${before.image} .. ${behind.image}`, gap, " .. ")];
  // 1...2 is 1 .. 2 or 1 .. .2, which differ tenfold.
  if (it.image !== "…" && touching(it, behind) && /^\d+$/.test(behind.image)) fixes.push(fixOf(`Write ${before.image} .. .${behind.image}`, gap, " .. ."));
  return fault(at, said, fixes);
}

const codes: Readonly<Record<string, string>> = { "£": "GBP", "€": "EUR" };

function money({ shape }: Broken, it: IToken, behind: IToken | undefined): Fault {
  const code = codes[it.image];
  if (shape === "currency")
    return fault(spanOf(it), `A currency is written by its code: ${code ?? "USD"}.`, code === undefined ? [] : [fixOf(`Write ${code}`, spanOf(it), code)]);
  if (behind === undefined || !figureToken(behind)) return fault(spanOf(it), `Money is a figure and its code: 3.20 ${code ?? "USD"}.`);
  const at = { from: it.startOffset, to: spanOf(behind).to };
  const written = `${behind.image} ${code ?? "USD"}`;
  // A dollar or a yen sign stands for several currencies, so nothing is written for it.
  return fault(at, `Money is a figure and its code: ${written}.`, code === undefined ? [] : [fixOf(`Write ${written}`, at, written)]);
}

/** `left-0.002` loses its sign if the figure may touch the word. */
function gluedFigure({ shape }: Broken, it: IToken, before: IToken): Fault {
  const at = { from: before.startOffset, to: spanOf(it).to };
  const signed = /^(.+)-(\d*)$/.exec(before.image);
  if (signed !== null && nameToken(before) && it.image.startsWith(".")) {
    const written = shape === "equals" ? `${signed[1]} - ${signed[2]}${it.image}` : `${signed[1]} -${signed[2]}${it.image}`;
    return fault(at, `Write a space between the word and the figure: ${written}.`, [fixOf(`Write ${written}`, at, written)]);
  }
  if (figureToken(before)) return fault(at, `\`${before.image}${it.image}\` isn't a figure.`);
  return fault(at, `Write a space before the figure: ${before.image} ${it.image}.`, [
    fixOf("Put a space in", { from: it.startOffset, to: it.startOffset }, " "),
  ]);
}

/** `ca. 18 mm`, `~18 mm`, `18 mm?` */
function isEstimateSign(it: IToken, before: IToken | undefined, shape: string): boolean {
  if (it.image === ".") return before !== undefined && (isEstimate(before.image) || /^(?:c|est)$/.test(before.image));
  return it.image === "~" || it.image === "≈" || (it.image === "?" && shape === "reading");
}

function strange(broken: Broken, it: IToken, before: IToken | undefined, behind: IToken | undefined): Fault {
  const { tokens, shape, text } = broken;
  const at = spanOf(it);
  if (it.image.startsWith("_")) {
    let first = tokens.indexOf(it);
    let last = first;
    while (first > 0 && touching(tokens[first - 1], tokens[first]) && namePart(tokens[first - 1])) first--;
    while (touching(tokens[last], tokens[last + 1]) && namePart(tokens[last + 1])) last++;
    const run = { from: (tokens[first] as IToken).startOffset, to: spanOf(tokens[last] as IToken).to };
    const parts = tokens.slice(first, last + 1);
    if (parts.every((part) => part.image.startsWith("_"))) return fault(run, "A blank is three underscores: ___.", [fixOf("Write ___", run, "___")]);
    if (!parts.some(nameToken) || !nameToken(parts.find((part) => !part.image.startsWith("_")))) return fault(at, `\`${it.image}\` can't go here.`);
    const name = parts
      .map((part) => part.image)
      .join("")
      .replace(/_+/g, "-")
      .replace(/^-+|-+$/g, "");
    return fault(run, `A name's words are joined by hyphens: ${name}.`, [fixOf(`Write ${name}`, run, name)]);
  }
  if (broken.node.at !== undefined && isEstimateSign(it, before, shape))
    return estimateFault(broken, spanOf(it.image === "." && before !== undefined ? before : it));
  const fraction = fractions[it.image];
  if (fraction !== undefined) {
    const mixed = before !== undefined && figureToken(before) && touching(before, it) ? `-${fraction}` : fraction;
    const written = mixed === fraction ? fraction : `${before?.image}${mixed}`;
    return fault(at, `A fraction is written with a stroke: ${written}.`, [fixOf(`Write ${written}`, at, mixed)]);
  }
  if (shape === "worn" && /^[<>≤≥]$/.test(it.image) && figureToken(behind) && behind !== undefined) {
    const side = before === undefined || !/^(?:max|min)$/.test(before.image) ? undefined : before.image;
    if (side !== undefined) return fault(at, `\`${side}\` says it already. Leave \`${it.image}\` out: worn ${side} ${behind.image}.`);
    return fault(at, wornEitherWay(behind.image));
  }
  if (it.image === "&")
    return fault(at, "A list is joined by commas.", [fixOf("Write a comma", { from: before === undefined ? at.from : spanOf(before).to, to: at.to }, ",")]);
  if (it.image === ";") return fault(at, "A list is joined by commas.", [fixOf("Write a comma", at, ",")]);
  if (it.image === ":") return fault(at, "A line has no colon.", [fixOf("Take it away", at, "")]);
  // What stood behind the point may be lost: no fix makes another figure of it.
  if (it.image === "." && behind === undefined && before !== undefined && figureToken(before) && touching(before, it))
    return fault(at, `A figure does not end with a point. Write all of it: ${before.image}, or ${before.image}.5.`);
  if (it.image === "." && behind === undefined) return fault(at, "A line has no full stop at its end.", [fixOf("Take it away", at, "")]);
  if (it.image === "'") {
    const whole = /^'([^'"\\#]+)'(?=\s|$)/.exec(text.slice(at.from))?.[1];
    if (whole === undefined) return fault(at, "Write a text in double quotes.");
    const both = { from: at.from, to: at.from + whole.length + 2 };
    return fault(both, "Write a text in double quotes.", [fixOf("Write double quotes", both, `"${whole}"`)]);
  }
  if (it.image === "#") return fault(at, "A comment needs a space before its #.", [fixOf("Put a space in", { from: at.from, to: at.from }, " ")]);
  if (/^[\p{C}]$/u.test(it.image)) return fault(at, "There is a character here that can't be shown. Delete it.", [fixOf("Delete it", at, "")]);
  return fault(at, `\`${it.image}\` can't go here.`);
}

function namePart(it: IToken | undefined): boolean {
  return it !== undefined && (nameToken(it) || it.image.startsWith("_") || /^\d+$/.test(it.image));
}
