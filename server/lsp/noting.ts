// A service that notes what is asked of it, so that a change of one of those files is told to the sheet that asked.
import { type Files, type Service, headAt, open as openService, pricesAt, sheetAt } from "../service.ts";
import type { Workspace } from "./workspaces.ts";

/** Stands for all sheets of the workspace, which a released sheet asks about. */
export const everySheet = "*";

/** The same service, with every path that is asked for put into a set. */
export function noting({ service: { files } }: Workspace, asked: Set<string>): Service {
  const of: Pick<Files, "read" | "prices"> = {
    read(path) {
      asked.add(path);
      return files.read(path);
    },
    prices(path) {
      asked.add(path);
      return files.prices?.(path) ?? "missing";
    },
  };
  const noted: Files = {
    ...of,
    head(path) {
      asked.add(path);
      return headAt(files, path);
    },
    jobsheets() {
      asked.add(everySheet);
      return files.jobsheets?.() ?? [];
    },
    hasMore() {
      asked.add(everySheet);
      return files.hasMore?.() ?? false;
    },
    inSlices: {
      of,
      read(path) {
        asked.add(path);
        return sheetAt(files, path);
      },
      prices(path) {
        asked.add(path);
        return pricesAt(files, path);
      },
    },
  };
  return openService(noted);
}
