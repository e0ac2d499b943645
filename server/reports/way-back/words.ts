// The words that every drawing of the way back shares.
import { counted } from "../../rules/wording.ts";
import type { WayBack } from "./way-back.ts";

export const nothingMissing = "Nothing is missing: all that came off is back or planned to be.";

export function wayBackHeadline(report: WayBack): string {
  if (report.entries.length === 0) return nothingMissing;
  const steps = report.entries.filter((it) => it.kind === "step").length;
  const read = report.entries.length - steps;
  return `${counted(steps, "step")} and ${counted(read, "reading or check", "readings and checks")}, all planned${report.unsettled.length === 0 ? "" : `; ${counted(report.unsettled.length, "thing")} that no step settles`}.`;
}

export const plannedFigures =
  "The torques are planned figures, the middle of the range: write the one that you read. Nothing counts until its step is marked done.";
