// Every report, in the order in which a page offers them: the one list that the command line, its help, an editor's commands and the tests of pages read.
import { due } from "./due/report.ts";
import { handOverReport } from "./hand-over/report.ts";
import { history } from "./history/report.ts";
import { left } from "./left/report.ts";
import { order } from "./order/report.ts";
import { plan } from "./plan/report.ts";
import { readings } from "./readings/report.ts";
import { release } from "./release/report.ts";
import type { Report } from "./report.ts";
import { shims } from "./shims/report.ts";
import { wayBackReport } from "./way-back/report.ts";

export const reports: readonly Report[] = [order, release, readings, plan, wayBackReport, left, shims, due, history, handOverReport];
