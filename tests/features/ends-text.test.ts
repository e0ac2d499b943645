// Where Enter goes on below a line and leaves its text whole: right before the quote that closes it, and nowhere else.
import { expect, test } from "vitest";
import { endsText } from "../../client/ends-text.ts";

/** The bar is the cursor. */
const at = (line: string) => endsText(line.replace("|", ""), line.indexOf("|"));

test.each(['  note "as it came off|"', 'sheet "|"', '  photo "photos/nut.png|"  ', 'part hub "Hub \\"A\\"|"', '  note "a # b|"', '  item "x" "y|"'])(
  "%s",
  (line) => {
    expect(at(line)).toBe(true);
  },
);

test.each([
  '  note "as it| came off"',
  '  note "as it came off"|',
  '  note "as it came off|',
  '  note |"as it came off"',
  '  note "a|" # why',
  '# she said "so|"',
  '  undo nut # "so|"',
  '  note "one|" "two"',
  '  note "one" |"',
])("not %s", (line) => {
  expect(at(line)).toBe(false);
});
