// Text of a sheet made safe for a terminal, and the room that it takes there.

/** Control characters, and those that turn the direction of writing, each become a dot; a tab becomes two blanks. */
export function visible(text: string): string {
  return text.replace(/\t/g, "  ").replace(hidden, "·");
}

// Controls, format characters (which turn the direction of writing) but for the joiners within an emoji, line and paragraph ends, lone halves of a letter.
const hidden = /\p{Cc}|(?![\u200c\u200d])\p{Cf}|\p{Zl}|\p{Zp}|\p{Cs}/gu;

/** How many columns a terminal gives to a text: none to a mark that sits on a letter, two to a wide letter. */
export function cells(text: string): number {
  let count = 0;
  for (const letter of text) count += /\p{M}|\p{Cf}/u.test(letter) ? 0 : wide.test(letter) ? 2 : 1;
  return count;
}

// The blocks that Unicode Standard Annex 11 calls wide, in the main.
const wide =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]|\p{Emoji_Presentation}|[\u{20000}-\u{3fffd}]/u;
