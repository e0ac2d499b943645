// `splitpin figure`: one question from the bench, answered in one line, with a line that says where the answer is from and how sure it is.
import { type Answer, figure, json } from "../service.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";
import { visible } from "./visible.ts";

export async function figureCommand(given: Given, desk: Desk): Promise<ExitCode> {
  // A question need not be quoted: its words are put together again.
  const query = given.paths.join(" ");
  if (query.trim() === "") return refuse(desk, "figure takes a question, such as “25 H7/g6”. splitpin figure --help has one of each kind.");
  const answer = await figure(query);
  desk.out(given.values.format === "json" ? json({ query, ...answer }) : textOf(answer));
  return answer.known ? 0 : 1;
}

function textOf(answer: Answer): string {
  const lines = answer.known
    ? [answer.line, `Source: ${answer.source} (${answer.confidence}).`, ...answer.cautions.map((it) => `Caution: ${it}`)]
    : [answer.line, ...(answer.ask.length === 0 ? [] : ["Known would be:", ...answer.ask.map((it) => `  splitpin figure "${it}"`)])];
  return `${lines.map(visible).join("\n")}\n`;
}
