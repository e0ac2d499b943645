// `splitpin explain`: a rule's page as text, or the list of all rules.
import { nearestWord } from "../../grammar/words.ts";
import { type Rule, type RulePage, pageOfRule, rules } from "../service.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";

export async function explainCommand(given: Given, desk: Desk): Promise<ExitCode> {
  const [id, ...more] = given.paths;
  if (more.length > 0) return refuse(desk, "explain takes one rule at a time.");
  if (id === undefined) {
    desk.out(await listOfRules());
    return 0;
  }
  const rule = rules.find((it) => it.id === id);
  if (rule === undefined) {
    const near = nearestWord(
      id,
      rules.map((it) => it.id),
    )?.word;
    return refuse(desk, `There is no rule “${id}”.${near === undefined ? "" : ` Is ${near} meant?`} splitpin explain lists them all.`);
  }
  desk.out(pageText(rule, (await pageOfRule(id)) as RulePage));
  return 0;
}

async function listOfRules(): Promise<string> {
  const out: string[] = [];
  let group = "";
  const widest = Math.max(...rules.map((rule) => rule.id.length));
  for (const rule of rules) {
    if (rule.group !== group) out.push(...(group === "" ? [] : [""]), rule.group);
    group = rule.group;
    out.push(`  ${rule.id.padEnd(widest)}  ${(await pageOfRule(rule.id))?.title}`);
  }
  return `${out.join("\n")}\n\nsplitpin explain RULE says why one matters, with examples.\n`;
}

function pageText(rule: Rule, page: RulePage): string {
  const safety = rule.safety
    ? "It is a safety rule: a sheet can't accept it away."
    : `Where there is a reason, a sheet may accept it: accept ${rule.id} "why".`;
  const parts = [`${rule.id}\n${page.title}`, `${rule.group}. Severity: ${page.severity}. ${safety}`, page.why, `Wrong:\n${indented(page.wrong)}`];
  if (page.fixed !== undefined) parts.push(`What its fix makes of that:\n${indented(page.fixed)}`);
  parts.push(`Right:\n${indented(page.right)}`);
  return `${parts.join("\n\n")}\n`;
}

function indented(sheet: string): string {
  return sheet
    .trimEnd()
    .split("\n")
    .map((line) => `    ${line}`.trimEnd())
    .join("\n");
}
