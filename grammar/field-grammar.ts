// The grammar of lines that any word may share: a keyword, and behind it one field of a kind that the row of the word names.
// Invariant: as of every line: no rule knows of another.
// biome-ignore-all lint/suspicious/noAssignInExpressions: a node is filled field by field inside the alternatives, so that a broken line keeps what was read.
import { FoundGrammar } from "./found-grammar.ts";
import { dateOf, figureOf, nameOf, textOf } from "./line-nodes.ts";
import { DateToken, Figure, Max, Name, TextToken } from "./tokens.ts";
import type { Name as NameNode } from "./tree.ts";

export abstract class FieldGrammar extends FoundGrammar {
  readonly bareLine = this.RULE("bareLine", () => void this.CONSUME(Name));

  readonly textLine = this.RULE("textLine", (field: string) => {
    this.CONSUME(Name);
    this.node[field] = textOf(this.CONSUME(TextToken));
  });

  readonly maybeTextLine = this.RULE("maybeTextLine", (field: string) => {
    this.CONSUME(Name);
    this.OPTION(() => void (this.node[field] = textOf(this.CONSUME(TextToken))));
  });

  readonly nameLine = this.RULE("nameLine", (field: string) => {
    this.CONSUME(Name);
    this.node[field] = nameOf(this.CONSUME1(Name));
  });

  readonly dateLine = this.RULE("dateLine", (field: string) => {
    this.CONSUME(Name);
    this.node[field] = dateOf(this.CONSUME(DateToken));
  });

  readonly countLine = this.RULE("countLine", (field: string) => {
    this.CONSUME(Name);
    this.node[field] = figureOf(this.CONSUME(Figure));
  });

  readonly signedLine = this.RULE("signedLine", (field: string) => {
    this.CONSUME(Name);
    this.node[field] = this.SUBRULE(this.signed);
  });

  readonly quantityLine = this.RULE("quantityLine", (field: string) => {
    this.CONSUME(Name);
    this.node[field] = this.SUBRULE(this.quantity);
  });

  readonly moneyLine = this.RULE("moneyLine", (field: string) => {
    this.CONSUME(Name);
    this.node[field] = this.SUBRULE(this.money);
  });

  readonly rangeLine = this.RULE("rangeLine", (field: string) => {
    this.CONSUME(Name);
    this.node[field] = this.SUBRULE(this.range);
  });

  readonly maxLine = this.RULE("maxLine", (field: string) => {
    this.CONSUME(Name);
    this.CONSUME(Max);
    this.node[field] = this.SUBRULE(this.quantity);
  });

  readonly namesLine = this.RULE("namesLine", (field: string) => {
    this.CONSUME(Name);
    this.SUBRULE(this.names, { ARGS: [this.list<NameNode>(field)] });
  });

  readonly nameTextLine = this.RULE("nameTextLine", (name: string, text: string) => {
    this.CONSUME(Name);
    this.node[name] = nameOf(this.CONSUME1(Name));
    this.node[text] = textOf(this.CONSUME(TextToken));
  });

  readonly titledLine = this.RULE("titledLine", () => {
    this.CONSUME(Name);
    this.node.name = nameOf(this.CONSUME1(Name));
    this.OPTION(() => void (this.node.title = textOf(this.CONSUME(TextToken))));
  });
}
