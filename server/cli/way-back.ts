// `splitpin way-back`: the steps that would return what came off, drawn as it was asked for.
import { wayBackHtml } from "../reports/way-back/html.ts";
import { wayBackMarkdown } from "../reports/way-back/markdown.ts";
import { wayBackText } from "../reports/way-back/text.ts";
import { wayBack } from "../reports/way-back/way-back.ts";
import { jobReportCommand } from "./job-report.ts";

export const wayBackCommand = jobReportCommand({ of: wayBack, text: wayBackText, markdown: wayBackMarkdown, html: wayBackHtml });
