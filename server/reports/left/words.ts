// The words that every drawing of how a job was left shares.
import { counted } from "../../rules/wording.ts";
import type { GroupName, Left } from "./left.ts";

/** What each group asks of who takes the job up again. */
export const meanings: Readonly<Record<GroupName, string>> = {
  Unsafe: "Unsafe",
  Hanging: "Hanging: set it down or on stands before anything else",
  Live: "Live: make it safe before it is worked near",
  Off: "Off",
  Slack: "Slack",
  "Not locked": "Tight, not locked",
  "In for now": "In for now: to be undone or finished",
  Drained: "Drained, or with air in it",
  Away: "Away",
  "Made safe": "Made safe: to be restored",
  "Held up": "Held up",
  "Not to be trusted": "Not to be trusted",
  "Waiting for an answer": "Waiting for an answer",
};

export function leftWords(left: Left): string {
  const count = left.groups.reduce((sum, it) => sum + it.rows.length, 0);
  return count === 0 ? "Nothing is open." : `${counted(count, "thing")} to know before it is taken up again.`;
}
