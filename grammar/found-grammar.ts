// The grammar of what was found: readings, what was seen, findings and what was decided.
// Invariant: as of every line: no rule knows of another.
// biome-ignore-all lint/suspicious/noAssignInExpressions: a node is filled field by field inside the alternatives, so that a broken line keeps what was read.
// biome-ignore-all lint/complexity/noCommaOperator: an alternative is several tokens in a row, and each would else be a block of its own.
import { type Draft, dateOf, figureOf, nameOf, spanOf, textOf } from "./line-nodes.ts";
import { Again, At, By, Comma, DateToken, Figure, From, Name, TextToken, blankToken, figureToken } from "./tokens.ts";
import type { Name as NameNode, Quantity } from "./tree.ts";
import { conditionOf, conditions, decisions, stages, verdicts } from "./words.ts";
import { SupplyGrammar } from "./supply-grammar.ts";

export abstract class FoundGrammar extends SupplyGrammar {
  readonly readingLine = this.RULE("readingLine", () => {
    const node = this.filling<"reading">();
    const words = this.list<NameNode>("words");
    const figures = this.list<Quantity>("figures");
    this.MANY({
      GATE: () => words.length < 2 && this.LA(1).tokenType !== Again && !blankToken(this.LA(1)),
      DEF: () => void words.push(nameOf(this.CONSUME(Name))),
    });
    this.OPTION(() => void (node.again = spanOf(this.CONSUME(Again))));
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => void figures.push(this.SUBRULE(this.quantity)) });
  });

  protected stage(): void {
    const word = this.word(stageWords, "stage");
    this.node.stage = word.image;
    this.node.stageAt = spanOf(word);
  }

  readonly measureLine = this.RULE("measureLine", () => {
    const node = this.filling<"measure">();
    this.CONSUME(Name);
    node.limit = nameOf(this.CONSUME1(Name));
    this.stage();
    this.MANY({
      GATE: () => this.oneMore({ date: node.date === undefined, by: node.by === undefined }),
      DEF: () =>
        this.OR([
          { ALT: () => (this.CONSUME(By), void (node.by = nameOf(this.CONSUME2(Name)))) },
          { ALT: () => void (node.date = dateOf(this.CONSUME(DateToken))) },
        ]),
    });
  });

  readonly seenLine = this.RULE("seenLine", () => {
    const node = this.filling<"seen">();
    const places = this.list<NameNode>("places");
    this.CONSUME(Name);
    node.check = nameOf(this.CONSUME1(Name));
    this.stage();
    const take = () => {
      const verdict = this.CONSUME8(Name);
      node.verdict = verdict.image as typeof node.verdict;
      node.verdictAt = spanOf(verdict);
    };
    this.OR8({ DEF: [{ GATE: () => this.isWord(verdictWords), ALT: take }], ERR_MSG: "verdict" });
    this.MANY({
      GATE: () =>
        this.oneMore({
          date: node.date === undefined,
          by: node.by === undefined,
          text: node.text === undefined,
          place: places.length === 0,
        }),
      DEF: () =>
        this.OR({
          DEF: [
            { ALT: () => void (node.text = textOf(this.CONSUME(TextToken))) },
            { ALT: () => (this.CONSUME(By), void (node.by = textOf(this.CONSUME1(TextToken)))) },
            { ALT: () => void (node.date = dateOf(this.CONSUME(DateToken))) },
            { ALT: () => void this.SUBRULE(this.names, { ARGS: [places] }) },
          ],
          IGNORE_AMBIGUITIES: true,
        }),
    });
  });

  readonly findingLine = this.RULE("findingLine", () => {
    const node = this.filling<"finding">();
    const places = this.list<NameNode>("places");
    this.CONSUME(Name);
    this.wordBeforeName();
    node.of = nameOf(this.CONSUME1(Name));
    this.MANY({
      GATE: () =>
        this.oneMore({
          figure: node.count === undefined && places.length === 0,
          date: node.date === undefined,
          place: places.length === 0,
        }),
      DEF: () =>
        this.OR([
          { ALT: () => void (node.count = figureOf(this.CONSUME(Figure))) },
          { ALT: () => void (node.date = dateOf(this.CONSUME(DateToken))) },
          { ALT: () => void this.SUBRULE(this.names, { ARGS: [places] }) },
        ]),
    });
  });

  readonly isLine = this.RULE("isLine", () => {
    this.CONSUME(Name);
    const list = this.list<Draft>("conditions");
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => this.SUBRULE(this.condition, { ARGS: [list] }), ERR_MSG: "condition" });
  });

  protected readonly condition = this.RULE("condition", (list: Draft[] | undefined) => {
    const word = this.word(conditionWords, "condition");
    const made: Draft = { kind: word.image, at: spanOf(word), word: spanOf(word) };
    list?.push(made);
    const behind = this.live ? conditionOf(word.image)?.behind : undefined;
    this.OPTION({
      GATE: () => behind !== undefined && (behind.endsWith("-needed") || this.behindStands(behind)),
      DEF: () =>
        this.OR({
          DEF: [
            { GATE: () => behind === "count" || behind === "count-needed", ALT: () => void (made.count = figureOf(this.CONSUME(Figure))) },
            { GATE: () => behind === "amount", ALT: () => void (made.amount = this.SUBRULE(this.quantity)) },
            { GATE: () => behind === "text" || behind === "text-needed", ALT: () => void (made.text = textOf(this.CONSUME(TextToken))) },
            { GATE: () => behind === "from", ALT: () => (this.CONSUME(From), void (made.from = nameOf(this.CONSUME(Name)))) },
          ],
          ERR_MSG: `behind ${behind}`,
          IGNORE_AMBIGUITIES: true,
        }),
    });
    // Words of one's own may stand behind any of them: worn "step of 10 thou".
    this.OPTION1({
      GATE: () => made.text === undefined && (this.LA(1).tokenType === TextToken || blankToken(this.LA(1))),
      DEF: () => void (made.text = textOf(this.CONSUME1(TextToken))),
    });
    if (this.live) made.at = this.over(word);
  });

  protected behindStands(behind: string): boolean {
    const it = this.LA(1);
    return behind === "text" ? it.tokenType === TextToken : behind === "from" ? it.tokenType === From : figureToken(it);
  }

  readonly decisionLine = this.RULE("decisionLine", () => {
    const node = this.filling<"decision">();
    this.CONSUME(Name);
    const word = this.word(decisionWords, "decision");
    node.decision = word.image as typeof node.decision;
    node.word = spanOf(word);
    this.OPTION({ GATE: () => word.image === "repair" || word.image === "make", DEF: () => void (node.how = textOf(this.CONSUME(TextToken))) });
    this.OPTION1({ GATE: () => word.image === "ask", DEF: () => void (node.question = nameOf(this.CONSUME1(Name))) });
    if (this.live && word.image === "ask" && node.question === undefined) this.complain(spanOf(word), "Name the question after `ask`: decision ask QUESTION.");
    if (this.live && (word.image === "repair" || word.image === "make") && node.how === undefined)
      this.complain(spanOf(word), `Say how, in quotes: decision ${word.image} "how".`);
  });

  readonly concessionLine = this.RULE("concessionLine", () => {
    const node = this.filling<"concession">();
    const places = this.list<NameNode>("places");
    this.CONSUME(Name);
    node.of = nameOf(this.CONSUME1(Name));
    this.OPTION({ GATE: () => this.placeBeforeText(), DEF: () => void this.SUBRULE(this.names, { ARGS: [places] }) });
    node.why = textOf(this.CONSUME(TextToken));
    this.CONSUME(By);
    node.by = textOf(this.CONSUME1(TextToken));
    this.OPTION1(() => void (node.date = dateOf(this.CONSUME(DateToken))));
  });

  readonly pauseLine = this.RULE("pauseLine", () => {
    const node = this.filling<"pause">();
    this.CONSUME(Name);
    this.OPTION(() => void (node.date = dateOf(this.CONSUME(DateToken))));
    node.why = textOf(this.CONSUME(TextToken));
  });

  readonly releaseLine = this.RULE("releaseLine", () => {
    const node = this.filling<"release">();
    this.CONSUME(Name);
    this.CONSUME(By);
    node.by = textOf(this.CONSUME(TextToken));
    this.MANY({
      GATE: () => this.oneMore({ date: node.date === undefined, at: node.counter === undefined }),
      DEF: () =>
        this.OR([
          { ALT: () => void (node.date = dateOf(this.CONSUME(DateToken))) },
          { ALT: () => (this.CONSUME(At), void (node.counter = this.SUBRULE(this.quantity))) },
        ]),
    });
  });
}

const conditionWords: ReadonlySet<string> = new Set(conditions.map((it) => it.word));
const stageWords: ReadonlySet<string> = new Set(stages);
const verdictWords: ReadonlySet<string> = new Set(verdicts);
// Words that mean two things are read; a rule speaks of them.
const decisionWords: ReadonlySet<string> = new Set([...decisions, "replace"]);
