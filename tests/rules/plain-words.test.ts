// What is said is short and in the trade's own English: over every example of a rule. (Over every trap: tests/traps.)
import { once } from "../../server/model/memo.ts";
import { written as rules } from "../../server/rules/all.ts";
import { plainWords } from "./plain-words.ts";
import { said } from "./sheets.ts";

plainWords(
  once(() => rules.flatMap((rule) => [rule.wrong, rule.right].flatMap((text) => said(text, rule.files ?? {})))),
  150,
);
