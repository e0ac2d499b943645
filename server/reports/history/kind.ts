// A machine's history: how it is worked out and drawn.
import { drawings } from "../draw/drawings.ts";
import { Refused, kindOf } from "../report.ts";
import { tellingHistory } from "./history.ts";
import { historySections } from "./sections.ts";

export const kind = kindOf({
  of: "all jobs",
  wishes: ({ machine }) => ({ machine }),
  *make(files, paths, { machine }: { readonly machine: string | undefined }) {
    const made = yield* tellingHistory(files, paths, machine);
    return made !== undefined && made.machines.length === 0 ? new Refused(`No sheet here is of a machine called “${machine}”.`) : made;
  },
  drawings: drawings(historySections),
});
