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
  "Not locked": "Not locked",
  "In for now": "In for now: to be undone or finished",
  Drained: "Drained, or with air in it",
  Away: "Away",
  "Made safe": "Made safe: to be restored",
  "Held up": "Held up",
  "Not to be trusted": "Not to be trusted",
  "Waiting for an answer": "Waiting for an answer",
  "Wrong in what is planned": "Wrong in what is planned: mend it before it is done",
  "Not clear on the sheet": "Not clear on the sheet",
};

export function leftWords(left: Left): string {
  const count = left.groups.reduce((sum, it) => (it.name === "Live" ? sum : sum + it.rows.length), 0);
  const live = left.groups.some((it) => it.name === "Live");
  if (count === 0) return live ? "Nothing is open; what is live is named here." : "Nothing is open.";
  return `${counted(count, "thing")} to know before it is taken up again.`;
}
