// `splitpin shims`: the stack that comes nearest the middle of what it must be left at, from what is in and in the drawer.
import { shimsHtml } from "../reports/shims/html.ts";
import { shimsMarkdown } from "../reports/shims/markdown.ts";
import { shimsText } from "../reports/shims/text.ts";
import { shimReport } from "../reports/shims/shims.ts";
import { jobReportCommand } from "./job-report.ts";

export const shimsCommand = jobReportCommand({ of: shimReport, text: shimsText, markdown: shimsMarkdown, html: shimsHtml });
