// What is said of a used file that is not read.
import type { Job, UseFault } from "../../../model/job.ts";
import { mostFiles, mostLinesInAll } from "../../../model/largest.ts";
import { counted } from "../../wording.ts";

export function messageFor(job: Job, fault: UseFault, tooMany: number): string {
  const here = fault.file === job.path;
  if (fault.reason === "too many")
    return `${fault.path}${tooMany > 1 ? ` and ${counted(tooMany - 1, "other")} are` : " is"} not read: a job has no more than ${mostFiles} sheets and ${mostLinesInAll} lines in all, and with ${tooMany > 1 ? "them" : "it"} there would be more. Use fewer.`;
  if (fault.reason === "circle") {
    const [only] = fault.circle ?? [];
    if (fault.circle?.length === 2 && only !== undefined) return `${here ? "This file" : only} uses itself. Take the \`use\` line out.`;
    return `These files use one another in a circle: ${(fault.circle ?? []).join(" → ")}. Take one of the \`use\` lines out.`;
  }
  if (fault.reason === "outside")
    return `${here ? `${fault.path} lies` : `${fault.file} uses ${fault.path}, which lies`} outside of the workspace and is not read. Put a copy beside the sheet.`;
  return here
    ? `There is no file ${fault.path} beside this one, so nothing that it declares is known. Check the path, from this sheet's own folder.`
    : `${fault.file} uses ${fault.path}, and there is no such file. Check the path there.`;
}
