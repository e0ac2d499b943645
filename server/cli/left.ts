// `splitpin left`: how a job was left after each pause, and as it stands now.
import { leftHtml } from "../reports/left/html.ts";
import { leftMarkdown } from "../reports/left/markdown.ts";
import { leftText } from "../reports/left/text.ts";
import { leftReport } from "../reports/left/left.ts";
import { jobReportCommand } from "./job-report.ts";

export const leftCommand = jobReportCommand({ of: leftReport, text: leftText, markdown: leftMarkdown, html: leftHtml });
