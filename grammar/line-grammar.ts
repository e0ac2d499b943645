// The grammar of lines that a word has to itself, and with it the whole: one rule a shape, Chevrotain, embedded actions, one token of look-ahead.
// The node is on the parser and is filled as tokens are consumed; recovery is off, so that no fact appears that nobody wrote.
// Invariant: no rule knows of another line, nor of the entry that this line stands under.
// biome-ignore-all lint/suspicious/noAssignInExpressions: a node is filled field by field inside the alternatives, so that a broken line keeps what was read.
// biome-ignore-all lint/complexity/noCommaOperator: an alternative is several tokens in a row, and each would else be a block of its own.
import { dateOf, figureOf, nameOf, spanOf, textOf } from "./line-nodes.ts";
import {
  After,
  Again,
  At,
  By,
  Class,
  Comma,
  DateToken,
  Done,
  Dry,
  EqualsSign,
  Every,
  Feel,
  Figure,
  For,
  Grade,
  In,
  Its,
  K,
  Months,
  Name,
  Load,
  None,
  Of,
  Oiled,
  Pairs,
  Place,
  Plus,
  Serve,
  TextToken,
  To,
  With,
} from "./tokens.ts";
import type { Name as NameNode, Range } from "./tree.ts";
import { materials } from "./words.ts";
import { FieldGrammar } from "./field-grammar.ts";

class LineGrammar extends FieldGrammar {
  constructor() {
    super();
    this.performSelfAnalysis();
    this.live = true;
  }

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
    const places = this.list<NameNode>("places");
    this.CONSUME(Name);
    node.thread = this.SUBRULE(this.thread);
    this.MANY(() =>
      this.OR([
        { ALT: () => (this.CONSUME(Grade), void (node.grade = figureOf(this.CONSUME(Figure)))) },
        { ALT: () => (this.CONSUME(Class), void (node.class = figureOf(this.CONSUME1(Figure)))) },
        { ALT: () => (this.CONSUME(At), void this.SUBRULE(this.names, { ARGS: [places] })) },
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
    this.MANY(() =>
      this.OR([
        { GATE: () => node.of === undefined, ALT: () => (this.CONSUME(Of), void (node.of = nameOf(this.CONSUME1(Name)))) },
        { GATE: () => node.load === undefined, ALT: () => (this.CONSUME(Load), void (node.load = this.SUBRULE(this.quantity))) },
      ]),
    );
  });

  readonly ratedLine = this.RULE("ratedLine", () => {
    const node = this.filling<"rated">();
    this.CONSUME(Name);
    node.load = this.SUBRULE(this.quantity);
    this.OPTION(() => void (node.source = textOf(this.CONSUME(TextToken))));
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

  /** `recheck after Q` of a fastener; `recheck NAME after Q [done DATE [at Q]]` of a release. */
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
      this.OPTION2(() => (this.CONSUME(At), void (node.doneAt = this.SUBRULE1(this.quantity))));
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
}

const materialWords: ReadonlySet<string> = new Set(materials);

/** The one parser of the process. Reading is not re-entrant. */
export const grammar = new LineGrammar();
export type Grammar = LineGrammar;
