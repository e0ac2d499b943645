// `splitpin readings`: each limit at each place as it was read, drawn as it was asked for.
import { readingsHtml } from "../reports/readings/html.ts";
import { readingsMarkdown } from "../reports/readings/markdown.ts";
import { readingsText } from "../reports/readings/text.ts";
import { readingsReport } from "../reports/readings/readings.ts";
import { jobReportCommand } from "./job-report.ts";

export const readingsCommand = jobReportCommand({ of: readingsReport, text: readingsText, markdown: readingsMarkdown, html: readingsHtml });
