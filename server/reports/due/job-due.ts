// What one job has to say, from which it is told what is due.
import type { Story } from "../../story/story.ts";
import type { Line } from "../draw/line.ts";
import type { LeftGroup } from "../left/left.ts";
import type { OpenItem } from "../release/shapes.ts";

export interface JobDue {
  readonly story: Story;
  readonly title: string;
  readonly by: string | undefined;
  readonly path: string;
  /** Where the sheet begins. */
  readonly head: Line;
  /** A release is written. */
  readonly signed: boolean;
  readonly nothingDone: boolean;
  readonly open: readonly OpenItem[];
  /** What its state is now, by the groups of how it was left. */
  readonly left: readonly LeftGroup[];
  readonly why: string | undefined;
}
