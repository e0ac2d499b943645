// The grammar of lines, one rule a shape: Chevrotain, embedded actions, one token of look-ahead.
// The node is on the parser and is filled as tokens are consumed; recovery is off, so that no fact appears that nobody wrote.
// Invariant: no rule knows of another line, nor of the entry that this line stands under.
// biome-ignore-all lint/suspicious/noAssignInExpressions: a node is filled field by field inside the alternatives, so that a broken line keeps what was read.
// biome-ignore-all lint/complexity/noCommaOperator: an alternative is several tokens in a row, and each would else be a block of its own.
import { EOF, type IToken } from "chevrotain";
import { type Draft, dateOf, figureOf, nameOf, spanOf, textOf } from "./line-nodes.ts";
import {
  A,
  After,
  Again,
  At,
  By,
  Class,
  Comma,
  DateToken,
  Done,
  Dry,
  Each,
  EqualsSign,
  Every,
  Feel,
  Figure,
  For,
  Free,
  From,
  Grade,
  In,
  Its,
  K,
  Max,
  Months,
  Name,
  Load,
  None,
  Oiled,
  On,
  OrderWord,
  Over,
  Pack,
  Pairs,
  Place,
  Plus,
  Price,
  Serve,
  TextToken,
  Times,
  To,
  With,
  X,
  blankToken,
  figureToken,
} from "./tokens.ts";
import type { Fault, Name as NameNode, Quantity, Range, ReceivedItem, ShimCount } from "./tree.ts";
import { conditionOf, conditions, decisions, materials, stages, statuses, verdicts } from "./words.ts";

import { ActionGrammar } from "./action-grammar.ts";
import { type Failure, takeFailure } from "./failure.ts";

class LineGrammar extends ActionGrammar {
  constructor() {
    super();
    this.performSelfAnalysis();
    this.live = true;
  }

  // -------------------------------------------------------------- lines of one field

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

  // -------------------------------------------------------------- lines with a fixed word inside

  readonly byNamesLine = this.RULE("byNamesLine", () => {
    this.CONSUME(Name);
    const by = this.list<NameNode>("by");
    this.CONSUME(By);
    this.SUBRULE(this.names, { ARGS: [by] });
  });

  readonly withNamesLine = this.RULE("withNamesLine", () => {
    this.CONSUME(Name);
    const list = this.list<NameNode>("with");
    this.CONSUME(With);
    this.SUBRULE(this.names, { ARGS: [list] });
  });

  readonly readAtLine = this.RULE("readAtLine", () => {
    this.CONSUME(Name);
    const list = this.list<NameNode>("positions");
    this.CONSUME(At);
    this.SUBRULE(this.names, { ARGS: [list] });
  });

  readonly keepsLine = this.RULE("keepsLine", () => {
    this.CONSUME(Name);
    this.CONSUME(Its);
    this.CONSUME(Place);
  });

  readonly equalLine = this.RULE("equalLine", () => {
    const node = this.filling<"equal">();
    this.CONSUME(Name);
    this.CONSUME(To);
    node.text = textOf(this.CONSUME(TextToken));
  });

  readonly eachLine = this.RULE("eachLine", () => {
    const node = this.filling<"each">();
    this.CONSUME(Name);
    node.placeKind = nameOf(this.CONSUME1(Name));
    this.OPTION(() => void (node.count = figureOf(this.CONSUME(Figure))));
  });

  readonly renewLine = this.RULE("renewLine", () => {
    const node = this.filling<"renew">();
    this.CONSUME(Name);
    const list = this.list<NameNode>("with");
    node.inPairs = false;
    this.OPTION(() =>
      this.OR([
        { ALT: () => (this.CONSUME(With), this.SUBRULE(this.names, { ARGS: [list] })) },
        { ALT: () => (this.CONSUME(In), this.CONSUME(Pairs), void (node.inPairs = true)) },
      ]),
    );
  });

  readonly materialLine = this.RULE("materialLine", () => {
    const node = this.filling<"material">();
    this.CONSUME(Name);
    node.material = nameOf(this.word(materialWords, "material"));
  });

  readonly threadLine = this.RULE("threadLine", () => {
    const node = this.filling<"thread">();
    this.CONSUME(Name);
    this.SUBRULE(this.thread);
    this.MANY(() =>
      this.OR([
        { ALT: () => (this.CONSUME(Grade), void (node.grade = figureOf(this.CONSUME(Figure)))) },
        { ALT: () => (this.CONSUME(Class), void (node.class = figureOf(this.CONSUME1(Figure)))) },
        { ALT: () => (this.CONSUME(At), void (node.place = nameOf(this.CONSUME1(Name)))) },
      ]),
    );
  });

  readonly torqueLine = this.RULE("torqueLine", () => {
    const node = this.filling<"torque">();
    this.CONSUME(Name);
    this.OR({
      DEF: [
        { ALT: () => (this.CONSUME(By), this.CONSUME(Feel), void (node.byFeel = textOf(this.CONSUME(TextToken)))) },
        { ALT: () => void (node.none = spanOf(this.CONSUME(None))) },
        {
          ALT: () => {
            const stages: Range[] = [];
            this.mayTurn = true;
            this.AT_LEAST_ONE_SEP({
              SEP: Comma,
              DEF: () => {
                stages.push(this.SUBRULE(this.range));
                if (stages.length === 1) node.range = stages[0];
                else this.inStages(stages);
              },
            });
            this.OPTION2(() => {
              this.CONSUME(Plus);
              this.mayTurn = false;
              node.angle = this.SUBRULE1(this.range);
              this.inStages(stages);
            });
            this.OPTION(() => void (node.condition = this.OR1([{ ALT: () => nameOf(this.CONSUME(Dry)) }, { ALT: () => nameOf(this.CONSUME(Oiled)) }])));
            this.OPTION1(() => (this.CONSUME(K), void (node.k = figureOf(this.CONSUME(Figure)))));
          },
        },
      ],
      ERR_MSG: "range",
    });
  });

  /** Of stages no one is the torque by itself. */
  protected inStages(stages: readonly Range[]): void {
    this.node.stages = stages;
    delete this.node.range;
  }

  readonly uncertaintyLine = this.RULE("uncertaintyLine", () => {
    this.CONSUME(Name);
    const it = this.SUBRULE(this.quantity);
    if (this.live) this.node[it.unit?.text === "%" || it.unit?.text === "percent" ? "percent" : "quantity"] = it;
  });

  readonly mayServeLine = this.RULE("mayServeLine", () => {
    const node = this.filling<"may-serve">();
    this.CONSUME(Name);
    this.CONSUME(Serve);
    this.CONSUME(Again);
    node.why = textOf(this.CONSUME(TextToken));
  });

  readonly admitLine = this.RULE("admitLine", () => {
    const node = this.filling<"admit">();
    this.CONSUME(Name);
    node.rule = nameOf(this.CONSUME1(Name));
    node.what = textOf(this.CONSUME(TextToken));
    this.CONSUME(By);
    node.by = textOf(this.CONSUME1(TextToken));
  });

  readonly testLine = this.RULE("testLine", () => {
    const node = this.filling<"test">();
    this.CONSUME(Name);
    node.text = textOf(this.CONSUME(TextToken));
    this.OPTION(() => (this.CONSUME(Load), void (node.load = this.SUBRULE(this.quantity))));
  });

  readonly leastLine = this.RULE("leastLine", () => {
    const node = this.filling<"least-order">();
    this.CONSUME(Name);
    this.CONSUME(OrderWord);
    node.money = this.SUBRULE(this.money);
  });

  /** `received bearing 1, seal 2 on 2026-05-04` */
  readonly receivedLine = this.RULE("receivedLine", () => {
    const node = this.filling<"received">();
    this.CONSUME(Name);
    const list = this.list<ReceivedItem>("items");
    this.AT_LEAST_ONE_SEP({
      SEP: Comma,
      DEF: () => {
        const item = this.SUBRULE(this.item);
        list.push({ item });
        list[list.length - 1] = { item, amount: this.SUBRULE(this.quantity) };
      },
    });
    this.OPTION(() => void this.CONSUME(On));
    this.OPTION1(() => void (node.date = dateOf(this.CONSUME(DateToken))));
  });

  readonly lockedLine = this.RULE("lockedLine", () => {
    const node = this.filling<"locked">();
    this.CONSUME(Name);
    this.CONSUME(By);
    node.locking = this.SUBRULE(this.locking, { ARGS: [false] });
    this.OPTION(() => (this.CONSUME(For), void (node.serves = figureOf(this.CONSUME(Figure)))));
  });

  /** Of a limit with its range, of a check without. */
  readonly setLine = this.RULE("setLine", () => {
    const node = this.filling<"set">();
    this.CONSUME(Name);
    const by = this.list<NameNode>("by");
    this.OPTION({ GATE: () => this.LA(1).tokenType !== By, DEF: () => void (node.range = this.SUBRULE(this.range)) });
    this.CONSUME(By);
    this.SUBRULE(this.names, { ARGS: [by] });
  });

  readonly equalsLine = this.RULE("equalsLine", () => {
    const node = this.filling<"equals">();
    this.CONSUME(EqualsSign);
    const made = this.SUBRULE(this.expression);
    if (this.complaint === undefined && this.next().tokenType?.name === "EOF") node.expression = made;
  });

  readonly checkedLine = this.RULE("checkedLine", () => {
    const node = this.filling<"checked">();
    this.CONSUME(Name);
    node.date = dateOf(this.CONSUME(DateToken));
    this.OPTION(() => (this.CONSUME(Every), void (node.months = figureOf(this.CONSUME(Figure))), this.CONSUME(Months)));
  });

  /** `recheck after Q` of a fastener; `recheck NAME after Q [done DATE at Q]` of a release. */
  readonly recheckLine = this.RULE("recheckLine", () => {
    const node = this.filling<"recheck">();
    this.CONSUME(Name);
    this.OPTION({
      GATE: () => this.LA(1).tokenType !== After || this.LA(2).tokenType === After,
      DEF: () => void ((this.node.kind = "recheck"), (node.name = nameOf(this.CONSUME1(Name)))),
    });
    this.CONSUME(After);
    node.after = this.SUBRULE(this.quantity);
    this.OPTION1(() => {
      this.CONSUME(Done);
      node.done = dateOf(this.CONSUME(DateToken));
      this.CONSUME(At);
      node.doneAt = this.SUBRULE1(this.quantity);
    });
  });

  readonly doneLine = this.RULE("doneLine", () => {
    const node = this.filling<"done">();
    this.CONSUME(Name);
    const places = this.list<NameNode>("places");
    this.MANY({
      DEF: () =>
        this.OR({
          DEF: [
            { GATE: () => node.date === undefined, ALT: () => void (node.date = dateOf(this.CONSUME(DateToken))) },
            { GATE: () => node.by === undefined, ALT: () => (this.CONSUME(By), void (node.by = textOf(this.CONSUME(TextToken)))) },
            { GATE: () => places.length === 0 && this.placeStands(), ALT: () => this.SUBRULE(this.places, { ARGS: [places] }) },
          ],
          IGNORE_AMBIGUITIES: true,
        }),
      GATE: () => this.oneMore({ date: node.date === undefined, by: node.by === undefined, place: places.length === 0 }),
    });
  });

  // -------------------------------------------------------------- measure, seen, finding

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
          place: node.place === undefined,
        }),
      DEF: () =>
        this.OR({
          DEF: [
            { ALT: () => void (node.text = textOf(this.CONSUME(TextToken))) },
            { ALT: () => (this.CONSUME(By), void (node.by = textOf(this.CONSUME1(TextToken)))) },
            { ALT: () => void (node.date = dateOf(this.CONSUME(DateToken))) },
            { ALT: () => void (node.place = nameOf(this.CONSUME2(Name))) },
          ],
          IGNORE_AMBIGUITIES: true,
        }),
    });
  });

  readonly findingLine = this.RULE("findingLine", () => {
    const node = this.filling<"finding">();
    this.CONSUME(Name);
    node.of = nameOf(this.CONSUME1(Name));
    this.MANY({
      GATE: () =>
        this.oneMore({
          figure: node.count === undefined && node.place === undefined,
          date: node.date === undefined,
          place: node.place === undefined,
        }),
      DEF: () =>
        this.OR([
          { ALT: () => void (node.count = figureOf(this.CONSUME(Figure))) },
          { ALT: () => void (node.date = dateOf(this.CONSUME(DateToken))) },
          { ALT: () => void (node.place = nameOf(this.CONSUME2(Name))) },
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
    this.CONSUME(Name);
    node.of = nameOf(this.CONSUME1(Name));
    this.OPTION({ GATE: () => this.placeBeforeText(), DEF: () => void (node.place = nameOf(this.CONSUME2(Name))) });
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

  // -------------------------------------------------------------- places, rates, supply

  readonly placesLine = this.RULE("placesLine", () => {
    const node = this.filling<"places">();
    this.CONSUME(Name);
    const list = this.list<NameNode>("names");
    node.placeKind = nameOf(this.CONSUME1(Name));
    this.SUBRULE(this.names, { ARGS: [list] });
  });

  readonly rateLine = this.RULE("rateLine", () => {
    const node = this.filling<"rate">();
    this.CONSUME(Name);
    node.one = this.SUBRULE(this.money);
    this.CONSUME(EqualsSign);
    node.is = this.SUBRULE1(this.money);
    this.OPTION(() => void (node.date = dateOf(this.CONSUME(DateToken))));
  });

  readonly freightLine = this.RULE("freightLine", () => {
    const node = this.filling<"freight">();
    this.CONSUME(Name);
    node.money = this.SUBRULE(this.money);
    this.OPTION(() => {
      this.CONSUME(Free);
      this.CONSUME(Over);
      node.freeOver = this.SUBRULE1(this.money);
    });
  });

  readonly offerLine = this.RULE("offerLine", () => {
    const node = this.filling<"offer">();
    this.CONSUME(Name);
    node.item = this.SUBRULE(this.item);
    this.CONSUME(From);
    node.from = nameOf(this.CONSUME1(Name));
  });

  readonly stockLine = this.RULE("stockLine", () => {
    const node = this.filling<"stock">();
    this.CONSUME(Name);
    node.item = this.SUBRULE(this.item);
    node.amount = this.SUBRULE(this.quantity);
    this.MANY({
      GATE: () => this.oneMore({ text: node.where === undefined, date: node.date === undefined }),
      DEF: () =>
        this.OR([{ ALT: () => void (node.where = textOf(this.CONSUME(TextToken))) }, { ALT: () => void (node.date = dateOf(this.CONSUME(DateToken))) }]),
    });
  });

  readonly orderLine = this.RULE("orderLine", () => {
    const node = this.filling<"order">();
    this.CONSUME(Name);
    node.reference = textOf(this.CONSUME(TextToken));
    this.CONSUME(To);
    node.to = nameOf(this.CONSUME1(Name));
  });

  readonly needLine = this.RULE("needLine", () => {
    const node = this.filling<"need">();
    this.CONSUME(Name);
    node.item = this.SUBRULE(this.item);
    node.amount = this.SUBRULE(this.quantity);
    node.why = textOf(this.CONSUME(TextToken));
  });

  readonly priceLine = this.RULE("priceLine", () => {
    const node = this.filling<"price-from">();
    this.CONSUME(Name);
    node.money = this.SUBRULE(this.money);
    this.OPTION(() =>
      this.OR([
        { ALT: () => void (node.each = spanOf(this.CONSUME(Each))) },
        {
          ALT: () => {
            const first = this.CONSUME(A);
            this.CONSUME(Pack);
            node.aPack = this.over(first);
          },
        },
      ]),
    );
    this.OPTION1(() => {
      this.CONSUME(From);
      this.node.kind = "price-from";
      node.from = figureOf(this.CONSUME(Figure));
    });
  });

  readonly statusLine = this.RULE("statusLine", () => {
    const node = this.filling<"status">();
    this.CONSUME(Name);
    const word = this.word(statusWords, "status");
    node.status = word.image as typeof node.status;
    node.word = spanOf(word);
    this.OPTION(() => void (node.date = dateOf(this.CONSUME(DateToken))));
  });

  readonly itemLine = this.RULE("itemLine", () => {
    const node = this.filling<"item">();
    this.CONSUME(Name);
    node.item = this.SUBRULE(this.item);
    node.amount = this.SUBRULE(this.quantity);
    this.OPTION(() => (this.CONSUME(Price), void (node.price = this.SUBRULE(this.money))));
  });

  readonly workLine = this.RULE("workLine", () => {
    const node = this.filling<"work">();
    this.CONSUME(Name);
    node.part = nameOf(this.CONSUME1(Name));
    this.OPTION2({
      GATE: () => figureToken(this.LA(1)) && !(blankToken(this.LA(1)) && this.LA(2).tokenType !== TextToken),
      DEF: () => void (node.count = figureOf(this.CONSUME(Figure))),
    });
    this.OPTION({ GATE: () => this.placeBeforeText(), DEF: () => void (node.place = nameOf(this.CONSUME2(Name))) });
    node.text = textOf(this.CONSUME(TextToken));
    this.OPTION1(() => (this.CONSUME(Price), void (node.price = this.SUBRULE(this.money))));
  });

  readonly stacksLine = this.RULE("stacksLine", () => {
    this.CONSUME(Name);
    const list = this.list<ShimCount>("stacks");
    this.AT_LEAST_ONE_SEP({
      SEP: Comma,
      DEF: () => {
        const thickness = this.SUBRULE(this.quantity);
        list.push({ thickness });
        this.OR([{ ALT: () => this.CONSUME(Times) }, { ALT: () => this.CONSUME(X) }]);
        list[list.length - 1] = { thickness, count: figureOf(this.CONSUME(Figure)) };
      },
    });
  });
}

const conditionWords: ReadonlySet<string> = new Set(conditions.map((it) => it.word));
const stageWords: ReadonlySet<string> = new Set(stages);
const verdictWords: ReadonlySet<string> = new Set(verdicts);
const statusWords: ReadonlySet<string> = new Set(statuses);
const materialWords: ReadonlySet<string> = new Set(materials);
// Words that mean two things are read; a rule speaks of them.
const decisionWords: ReadonlySet<string> = new Set([...decisions, "replace"]);

/** The one parser of the process. Reading is not re-entrant. */
export const grammar = new LineGrammar();
export type Grammar = LineGrammar;

export interface Parsed {
  readonly failure: Failure | undefined;
  readonly complaint: Fault | undefined;
  /** The token that reading stopped at: undefined at the line's end. */
  readonly stoppedAt: IToken | undefined;
}

/** Reads tokens by one rule into `node`. */
export function parse(tokens: IToken[], node: Draft, rule: (grammar: Grammar) => void): Parsed {
  takeFailure();
  const count = tokens.length;
  grammar.begin(tokens, node);
  // A broken line is told by an exception inside Chevrotain, and half its cost is a stack that nobody reads.
  const limit = Error.stackTraceLimit;
  Error.stackTraceLimit = 0;
  try {
    rule(grammar);
  } finally {
    Error.stackTraceLimit = limit;
  }
  // Chevrotain may pad the list that it reads.
  tokens.length = count;
  const error = grammar.errors[0];
  const token = error?.token;
  return { failure: takeFailure(), complaint: grammar.complaint, stoppedAt: token === undefined || token.tokenType === EOF ? undefined : token };
}
