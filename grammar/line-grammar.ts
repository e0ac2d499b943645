// The grammar of lines, one rule a shape: Chevrotain, embedded actions, one token of look-ahead.
// The node is on the parser and is filled as tokens are consumed; recovery is off, so that no fact appears that nobody wrote.
// Invariant: no rule knows of another line, nor of the entry that this line stands under.
import { EOF, EmbeddedActionsParser, type IToken, type IParserErrorMessageProvider, type TokenType } from "chevrotain";
import { type Draft, dateOf, fault, figureOf, fixOf, nameOf, spanOf, spanOver, textOf } from "./line-nodes.ts";
import {
  A,
  After,
  Again,
  At,
  Before,
  By,
  Class,
  Close,
  Comma,
  DateToken,
  Done,
  DotDot,
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
  LH,
  Load,
  Max,
  MetricSize,
  Min,
  Minus,
  Months,
  Name,
  New,
  None,
  Nothing,
  Now,
  NumberedSize,
  Oiled,
  On,
  Open,
  Over,
  Pack,
  Pairs,
  PartWord,
  Place,
  Plus,
  PlusMinus,
  Price,
  Rated,
  Star,
  Stroke,
  TextToken,
  Times,
  To,
  Together,
  Under,
  UnitLike,
  With,
  X,
  endOf,
  figureToken,
  goingOnToken,
  nameToken,
  touching,
  unitOnlyToken,
  vocabulary,
} from "./tokens.ts";
import type {
  Expression,
  Fault,
  Figure as FigureNode,
  Item,
  Locking,
  LockingKind,
  Money,
  Name as NameNode,
  Quantity,
  Range,
  ShimCount,
  Span,
  Text,
  Thing,
} from "./tree.ts";
import {
  bearers,
  conditionOf,
  conditions,
  decisions,
  functions,
  lifters,
  lockingInfo,
  lockingPhrases,
  materials,
  stages,
  statuses,
  verdicts,
} from "./words.ts";

declare const SPLITPIN_BUNDLED: boolean | undefined;

/** Where reading stopped, and what the grammar looked for there. */
export interface Failure {
  /** `missing`: one kind of token was looked for. `choice`: one of several things. `rest`: the line was complete before it. */
  readonly how: "missing" | "choice" | "rest";
  readonly expected?: TokenType;
  /** What a choice is about, in one word that messages know: `stage`, `locking`, `condition`… */
  readonly choice?: string;
}

let failure: Failure | undefined;

/** Only notes what was looked for; the message is made afterwards, from the whole line. */
const notes: IParserErrorMessageProvider = {
  buildMismatchTokenMessage({ expected }) {
    failure = { how: "missing", expected };
    return "";
  },
  buildNotAllInputParsedMessage() {
    failure = { how: "rest" };
    return "";
  },
  buildNoViableAltMessage({ customUserDescription }) {
    failure = customUserDescription === undefined ? { how: "choice" } : { how: "choice", choice: customUserDescription };
    return "";
  },
  buildEarlyExitMessage({ expectedIterationPaths, customUserDescription }) {
    const first = expectedIterationPaths.map((it) => it[0]);
    failure =
      customUserDescription !== undefined
        ? { how: "choice", choice: customUserDescription }
        : { how: "missing", expected: first.includes(Figure) ? Figure : (first[0] as TokenType) };
    return "";
  },
};

const fitCode = /^(?:[A-HJ-NP-Z]{1,2}|[a-hj-np-z]{1,2})\d{1,2}$/;
const metricName = /^M\d+(?:[xX]\d+)?$/;

/** Which tails each verb takes, beside its things and places. */
const tails: Readonly<Record<string, string>> = {
  drain: "amount",
  fill: "amount",
  mark: "text",
  repair: "text",
  fit: "new from now",
  tighten: "to by now",
  lock: "new with",
  replace: "new",
};
const countedVerbs = new Set(["remove", "fit", "replace"]);

class LineGrammar extends EmbeddedActionsParser {
  node: Draft = {};
  /** A line that parses and yet says something that can't be meant. */
  complaint: Fault | undefined;
  private readonly live: boolean = false;
  private verb = "";
  private inRange = false;

  constructor() {
    super(vocabulary, { maxLookahead: 1, recoveryEnabled: false, errorMessageProvider: notes, skipValidations: typeof SPLITPIN_BUNDLED !== "undefined" });
    this.performSelfAnalysis();
    this.live = true;
  }

  // -------------------------------------------------------------- small things

  /** Makes ready for the next line. */
  begin(tokens: IToken[], node: Draft): void {
    this.complaint = undefined;
    this.node = node;
    this.verb = "";
    // A line that broke off inside a range never came to the end of the rule.
    this.inRange = false;
    this.input = tokens;
  }

  private complain(at: Span, message: string, fixes: Fault["fixes"] = []): void {
    if (this.live) this.complaint ??= fault(at, message, fixes);
  }

  private next(at = 1): IToken {
    return this.LA(at);
  }

  private isWord(words: ReadonlySet<string>): boolean {
    return nameToken(this.LA(1)) && words.has(this.LA(1).image);
  }

  private placeStands(): boolean {
    return nameToken(this.LA(1)) && !goingOnToken(this.LA(1));
  }

  /** A word right behind a figure is its unit, known or not, unless it is one that goes on with the line. */
  private unitStands(): boolean {
    const it = this.LA(1);
    if (unitOnlyToken(it)) return true;
    if (!nameToken(it) || goingOnToken(it)) return false;
    if (it.tokenType === K) return !figureToken(this.LA(2));
    return !(this.inRange && fitCode.test(it.image));
  }

  private over(first: IToken): Span {
    return spanOver(first, this.LA(0));
  }

  private word(words: ReadonlySet<string>, choice: string): IToken {
    // Set inside the alternative, for while the grammar is recorded an OR gives back nothing.
    let found: IToken | undefined;
    this.OR9({ DEF: [{ GATE: () => this.isWord(words), ALT: () => void (found = this.CONSUME9(Name)) }], ERR_MSG: choice });
    return found as IToken;
  }

  private oneName(list: NameNode[] | undefined): void {
    const name = nameOf(this.CONSUME(Name));
    list?.push(name);
  }

  private readonly names = this.RULE("names", (list: NameNode[] | undefined) => {
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => this.oneName(list) });
  });

  private readonly places = this.RULE("places", (list: NameNode[] | undefined) => {
    this.OPTION({
      GATE: () => this.placeStands(),
      DEF: () => this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => this.oneName(list) }),
    });
  });

  private readonly signed = this.RULE("signed", (): FigureNode => {
    const sign = this.OPTION(() => this.OR([{ ALT: () => this.CONSUME(Minus) }, { ALT: () => this.CONSUME(Plus) }]));
    return figureOf(this.CONSUME(Figure), sign);
  });

  private readonly quantity = this.RULE("quantity", (): Quantity => {
    const figure = this.SUBRULE(this.signed);
    const unit = this.OPTION({ GATE: () => this.unitStands(), DEF: () => nameOf(this.CONSUME(UnitLike)) });
    if (unit === undefined) return { figure, at: figure?.at };
    return { figure, unit, at: { from: figure?.at?.from, to: unit.at?.to } };
  });

  private readonly money = this.RULE("money", (): Money => {
    const figure = figureOf(this.CONSUME(Figure));
    const currency = this.OR({
      DEF: [{ GATE: () => this.LA(1).tokenType !== A && !goingOnToken(this.LA(1)), ALT: () => nameOf(this.CONSUME(Name)) }],
      ERR_MSG: "currency",
    });
    return { figure, currency, at: { from: figure.at.from, to: currency?.at?.to } };
  });

  private readonly range = this.RULE("range", (): Range => {
    this.inRange = true;
    const first = this.next();
    const range = this.OR<Range>({
      DEF: [
        { ALT: () => this.oneEnd("max", this.CONSUME(Max), this.SUBRULE(this.quantity)) },
        { ALT: () => this.oneEnd("min", this.CONSUME(Min), this.SUBRULE1(this.quantity)) },
        { ALT: () => this.behindNominal(first, this.SUBRULE2(this.quantity)) },
      ],
      ERR_MSG: "range",
    });
    this.inRange = false;
    return range;
  });

  private oneEnd(kind: "max" | "min", word: IToken, end: Quantity): Range {
    return { kind, end, at: { from: word.startOffset, to: end?.at?.to } };
  }

  private behindNominal(first: IToken, nominal: Quantity): Range {
    const spaced = () => !touching(this.LA(0), this.LA(1));
    return this.OR2<Range>([
      { ALT: () => (this.CONSUME(DotDot), { kind: "between", low: nominal, high: this.SUBRULE3(this.quantity), at: this.over(first) }) },
      { ALT: () => (this.CONSUME(To), { kind: "between", low: nominal, high: this.SUBRULE4(this.quantity), at: this.over(first) }) },
      { ALT: () => (this.CONSUME(PlusMinus), { kind: "plus-minus", nominal, tolerance: this.SUBRULE5(this.quantity), at: this.over(first) }) },
      { GATE: spaced, ALT: () => this.deviations(first, nominal, this.CONSUME(Plus)) },
      { GATE: spaced, ALT: () => this.deviations2(first, nominal, this.CONSUME(Minus)) },
      {
        GATE: () => fitCode.test(this.LA(1).image),
        ALT: () => {
          const fit = nameOf(this.CONSUME(Name));
          const unit = this.OPTION2({ GATE: () => this.unitStands(), DEF: () => nameOf(this.CONSUME(UnitLike)) });
          const at = this.over(first);
          return { kind: "fit", nominal: unit === undefined ? nominal : { ...nominal, unit, at }, fit, at };
        },
      },
      { ALT: () => ({ kind: "bare", only: nominal, at: nominal?.at }) },
    ]);
  }

  private deviations(first: IToken, nominal: Quantity, sign: IToken): Range {
    return this.twoDeviations(
      first,
      nominal,
      this.withUnit(figureOf(this.CONSUME(Figure), sign), this.OPTION3({ GATE: () => this.unitStands(), DEF: () => nameOf(this.CONSUME3(UnitLike)) })),
      this.SUBRULE6(this.quantity),
    );
  }

  private deviations2(first: IToken, nominal: Quantity, sign: IToken): Range {
    return this.twoDeviations(
      first,
      nominal,
      this.withUnit(figureOf(this.CONSUME4(Figure), sign), this.OPTION4({ GATE: () => this.unitStands(), DEF: () => nameOf(this.CONSUME4(UnitLike)) })),
      this.SUBRULE7(this.quantity),
    );
  }

  private withUnit(figure: FigureNode, unit: NameNode | undefined): Quantity {
    return unit === undefined ? { figure, at: figure.at } : { figure, unit, at: { from: figure.at.from, to: unit.at?.to } };
  }

  private twoDeviations(first: IToken, nominal: Quantity, one: Quantity, two: Quantity): Range {
    return { kind: "deviations", nominal, first: one, second: two, at: this.over(first) };
  }

  // -------------------------------------------------------------- locking, items, threads

  /** How many words here are a locking: 2, 1 or 0. In an item one word alone is a name, unless its size stands behind it. */
  private lockingWords(inItem: boolean): 0 | 1 | 2 {
    const one = this.LA(1);
    if (!nameToken(one)) return 0;
    const two = this.LA(2);
    if (nameToken(two) && lockingPhrases.has(`${one.image} ${two.image}`)) return 2;
    return lockingPhrases.has(one.image) && (!inItem || this.sizeStands(2)) ? 1 : 0;
  }

  /** In an item a figure is a size only with a unit or an x behind it; else it is how many. */
  private sizeStands(at: number): boolean {
    if (!figureToken(this.LA(at))) return false;
    const behind = this.LA(at + 1);
    return behind.tokenType === Times || behind.tokenType === X || unitOnlyToken(behind) || (nameToken(behind) && !goingOnToken(behind));
  }

  private readonly locking = this.RULE("locking", (inItem: boolean | undefined): Locking => {
    const first = this.next();
    const size: Quantity[] = [];
    const made: { kind: LockingKind; words: string; grade?: Text; part?: NameNode; why?: Text } = { kind: "ambiguous", words: "" };
    this.OR({
      DEF: [
        { GATE: () => this.lockingWords(inItem === true) === 2, ALT: () => void (made.words = `${this.CONSUME(Name).image} ${this.CONSUME2(Name).image}`) },
        { GATE: () => this.lockingWords(inItem === true) === 1, ALT: () => void (made.words = this.CONSUME3(Name).image) },
        { ALT: () => void ((made.kind = "part"), (made.words = this.CONSUME(PartWord).image), (made.part = nameOf(this.CONSUME4(Name)))) },
        { ALT: () => void ((made.kind = "nothing"), (made.words = this.CONSUME(Nothing).image), (made.why = textOf(this.CONSUME(TextToken)))) },
      ],
      ERR_MSG: "locking",
    });
    if (made.kind === "ambiguous") made.kind = lockingPhrases.get(made.words) ?? "ambiguous";
    this.OPTION({
      GATE: () => made.kind !== "part" && made.kind !== "nothing" && lockingInfo(made.kind)?.size !== "none" && (inItem !== true || this.sizeStands(1)),
      DEF: () => {
        size.push(this.SUBRULE(this.quantity));
        this.OPTION1(() => {
          this.OR1([{ ALT: () => this.CONSUME(Times) }, { ALT: () => this.CONSUME(X) }]);
          size.push(this.SUBRULE1(this.quantity));
        });
      },
    });
    this.OPTION2({ GATE: () => made.kind === "thread lock", DEF: () => void (made.grade = textOf(this.CONSUME2(TextToken))) });
    return { ...made, size, at: this.over(first) };
  });

  private readonly item = this.RULE("item", (): Item => {
    const first = this.next();
    return this.OR<Item>({
      DEF: [
        { ALT: () => ({ kind: "text", text: textOf(this.CONSUME(TextToken)), at: this.over(first) }) },
        { GATE: () => this.lockingWords(true) > 0, ALT: () => this.lockingItem(this.SUBRULE(this.locking, { ARGS: [true] })) },
        { ALT: () => ({ kind: "name", name: nameOf(this.CONSUME(Name)), at: this.over(first) }) },
      ],
      ERR_MSG: "item",
      IGNORE_AMBIGUITIES: true,
    });
  });

  private lockingItem(locking: Locking): Item {
    if (this.live && locking.size.length === 0 && lockingInfo(locking.kind)?.size === "written") {
      this.complain(locking.at, `Write the size of the ${locking.kind}: ${lockingInfo(locking.kind)?.syntax}. The last figure on the line is how many.`);
    }
    return { kind: "locking", locking, at: locking?.at };
  }

  private readonly thread = this.RULE("thread", () => {
    const first = this.next();
    const free = this.OR({
      DEF: [
        { ALT: () => this.CONSUME(TextToken) },
        { ALT: () => void this.CONSUME(MetricSize) },
        { ALT: () => (this.CONSUME(NumberedSize), this.OPTION({ GATE: () => this.placeStands(), DEF: () => void this.CONSUME(Name) }), undefined) },
        {
          GATE: () => metricName.test(this.LA(1).image),
          ALT: () => (
            this.CONSUME1(Name),
            this.OPTION1(() => (this.OR1([{ ALT: () => this.CONSUME(Times) }, { ALT: () => this.CONSUME(X) }]), this.CONSUME(Figure))),
            undefined
          ),
        },
        {
          ALT: () => (
            this.CONSUME1(Figure),
            this.OPTION2(() => (this.CONSUME(Minus), this.CONSUME2(Figure))),
            this.OPTION3({ GATE: () => this.placeStands(), DEF: () => void this.CONSUME2(Name) }),
            undefined
          ),
        },
      ],
      ERR_MSG: "thread",
    });
    const last = this.LA(0);
    if (this.live) {
      const designation = free === undefined ? designationOf(this.tokensBetween(first, last)) : textOf(free).value;
      this.node.thread = { designation, free: free !== undefined, at: spanOver(first, last) };
    }
    this.OPTION4(() => {
      const hand = spanOf(this.CONSUME(LH));
      if (this.live) this.node.thread = { ...(this.node.thread as object), leftHand: hand, at: { from: first.startOffset, to: hand.to } };
    });
  });

  private tokensBetween(first: IToken, last: IToken): IToken[] {
    return this.input.filter((it) => it.startOffset >= first.startOffset && it.startOffset <= last.startOffset);
  }

  // -------------------------------------------------------------- expressions

  private readonly expression = this.RULE("expression", (): Expression => {
    let left = this.SUBRULE(this.product);
    this.MANY(() => {
      const sign = this.OR([{ ALT: () => this.CONSUME(Plus) }, { ALT: () => this.spaced(this.CONSUME(Minus)) }]);
      left = this.binary(left, sign, this.SUBRULE1(this.product));
    });
    return left;
  });

  private readonly product = this.RULE("product", (): Expression => {
    let left = this.SUBRULE(this.factor);
    this.MANY(() => {
      const sign = this.OR([{ ALT: () => this.CONSUME(Star) }, { ALT: () => this.spaced(this.CONSUME(Stroke)) }]);
      left = this.binary(left, sign, this.SUBRULE1(this.factor));
    });
    return left;
  });

  /** `bore-0.5` and `a/2` read two ways, so between operands both signs stand between spaces. */
  private spaced(sign: IToken): IToken {
    if (this.live && (touching(this.LA(-1), sign) || touching(sign, this.LA(1)))) {
      this.complain(spanOf(sign), `Put a space on both sides of \`${sign.image}\`.`, [
        fixOf(`Put spaces around \`${sign.image}\``, { from: endOf(this.LA(-1)), to: this.LA(1).startOffset || spanOf(sign).to }, ` ${sign.image} `),
      ]);
    }
    return sign;
  }

  private binary(left: Expression, sign: IToken, right: Expression): Expression {
    const operator = (sign.image === "\u2212" ? "-" : sign.image) as "+" | "-" | "*" | "/";
    return { kind: "binary", operator, left, right, at: { from: left?.at?.from, to: right?.at?.to } };
  }

  private readonly factor = this.RULE("factor", (): Expression => {
    const signs: IToken[] = [];
    this.MANY(() => void signs.push(this.CONSUME(Minus)));
    let made = this.SUBRULE(this.atom);
    if (this.live) for (const sign of signs.reverse()) made = { kind: "negate", operand: made, at: { from: sign.startOffset, to: made.at.to } };
    return made;
  });

  private readonly atom = this.RULE("atom", (): Expression => {
    const first = this.next();
    return this.OR<Expression>({
      DEF: [
        {
          ALT: () => {
            const figure = figureOf(this.CONSUME(Figure));
            const unit = this.OPTION({ GATE: () => this.unitStands(), DEF: () => nameOf(this.CONSUME(UnitLike)) });
            const quantity = this.withUnit(figure, unit);
            return { kind: "quantity", quantity, at: quantity.at };
          },
        },
        {
          ALT: () => {
            this.CONSUME(Open);
            const inner = this.SUBRULE(this.expression);
            this.CONSUME(Close);
            return this.live ? { ...inner, at: this.over(first) } : inner;
          },
        },
        { GATE: () => this.LA(2).tokenType === Open, ALT: () => this.call(first, this.CONSUME1(Name)) },
        { ALT: () => ({ kind: "name", name: nameOf(this.CONSUME2(Name)), at: this.over(first) }) },
      ],
      ERR_MSG: "expression",
      IGNORE_AMBIGUITIES: true,
    });
  });

  private call(first: IToken, name: IToken): Expression {
    if (this.live && !(functions as readonly string[]).includes(name.image))
      this.complain(spanOf(name), `\`${name.image}\` is no function here. There are ${functions.join(", ")}.`);
    const list: Expression[] = [];
    this.CONSUME1(Open);
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => void list.push(this.SUBRULE1(this.expression)) });
    this.CONSUME1(Close);
    return { kind: "call", function: nameOf(name), arguments: list, at: this.over(first) };
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

  /** A list that the node holds from the start, so that a broken line keeps the names before the break. */
  private list<T>(field: string): T[] {
    const list: T[] = [];
    this.node[field] = list;
    return list;
  }

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
    this.CONSUME(Name);
    this.CONSUME(To);
    this.node.text = textOf(this.CONSUME(TextToken));
  });

  readonly eachLine = this.RULE("eachLine", () => {
    this.CONSUME(Name);
    this.node.placeKind = nameOf(this.CONSUME1(Name));
    this.OPTION(() => void (this.node.count = figureOf(this.CONSUME(Figure))));
  });

  readonly renewLine = this.RULE("renewLine", () => {
    this.CONSUME(Name);
    const list = this.list<NameNode>("with");
    this.node.inPairs = false;
    this.OPTION(() =>
      this.OR([
        { ALT: () => (this.CONSUME(With), this.SUBRULE(this.names, { ARGS: [list] })) },
        { ALT: () => (this.CONSUME(In), this.CONSUME(Pairs), void (this.node.inPairs = true)) },
      ]),
    );
  });

  readonly materialLine = this.RULE("materialLine", () => {
    this.CONSUME(Name);
    this.node.material = nameOf(this.word(materialWords, "material"));
  });

  readonly threadLine = this.RULE("threadLine", () => {
    this.CONSUME(Name);
    this.SUBRULE(this.thread);
    this.MANY(() =>
      this.OR([
        { ALT: () => (this.CONSUME(Grade), void (this.node.grade = figureOf(this.CONSUME(Figure)))) },
        { ALT: () => (this.CONSUME(Class), void (this.node.class = figureOf(this.CONSUME1(Figure)))) },
        { ALT: () => (this.CONSUME(At), void (this.node.place = nameOf(this.CONSUME1(Name)))) },
      ]),
    );
  });

  readonly torqueLine = this.RULE("torqueLine", () => {
    this.CONSUME(Name);
    this.OR({
      DEF: [
        { ALT: () => (this.CONSUME(By), this.CONSUME(Feel), void (this.node.byFeel = textOf(this.CONSUME(TextToken)))) },
        { ALT: () => void (this.node.none = spanOf(this.CONSUME(None))) },
        {
          ALT: () => {
            this.node.range = this.SUBRULE(this.range);
            this.OPTION(() => void (this.node.condition = this.OR1([{ ALT: () => nameOf(this.CONSUME(Dry)) }, { ALT: () => nameOf(this.CONSUME(Oiled)) }])));
            this.OPTION1(() => (this.CONSUME(K), void (this.node.k = figureOf(this.CONSUME(Figure)))));
          },
        },
      ],
      ERR_MSG: "range",
    });
  });

  readonly lockedLine = this.RULE("lockedLine", () => {
    this.CONSUME(Name);
    this.CONSUME(By);
    this.node.locking = this.SUBRULE(this.locking, { ARGS: [false] });
    this.OPTION(() => (this.CONSUME(For), void (this.node.serves = figureOf(this.CONSUME(Figure)))));
  });

  /** Of a limit with its range, of a check without. */
  readonly setLine = this.RULE("setLine", () => {
    this.CONSUME(Name);
    const by = this.list<NameNode>("by");
    this.OPTION({ GATE: () => this.LA(1).tokenType !== By, DEF: () => void (this.node.range = this.SUBRULE(this.range)) });
    this.CONSUME(By);
    this.SUBRULE(this.names, { ARGS: [by] });
  });

  readonly equalsLine = this.RULE("equalsLine", () => {
    this.CONSUME(EqualsSign);
    const made = this.SUBRULE(this.expression);
    if (this.complaint === undefined && this.next().tokenType?.name === "EOF") this.node.expression = made;
  });

  readonly checkedLine = this.RULE("checkedLine", () => {
    this.CONSUME(Name);
    this.node.date = dateOf(this.CONSUME(DateToken));
    this.OPTION(() => (this.CONSUME(Every), void (this.node.months = figureOf(this.CONSUME(Figure))), this.CONSUME(Months)));
  });

  /** `safe before NAME…` and `restore after NAME…` of a hazard; `safe HAZARD ["how"]` and `restore HAZARD` in a step. */
  readonly hazardLine = this.RULE("hazardLine", (kind: string) => {
    const verb = this.CONSUME(Name);
    this.OR({
      IGNORE_AMBIGUITIES: true,
      DEF: [
        { ALT: () => (this.CONSUME(Before), void (this.node.kind = kind), this.SUBRULE(this.names, { ARGS: [this.list<NameNode>("names")] })) },
        { ALT: () => (this.CONSUME(After), void (this.node.kind = kind), this.SUBRULE1(this.names, { ARGS: [this.list<NameNode>("names")] })) },
        {
          ALT: () => {
            this.beginAction(verb);
            this.list<Thing>("things").push({ name: nameOf(this.CONSUME1(Name)) });
            this.OPTION(() => void (this.node.text = textOf(this.CONSUME(TextToken))));
          },
        },
      ],
    });
  });

  /** `recheck after Q` of a fastener; `recheck NAME after Q [done DATE at Q]` of a release. */
  readonly recheckLine = this.RULE("recheckLine", () => {
    this.CONSUME(Name);
    this.OPTION({
      GATE: () => this.LA(1).tokenType !== After || this.LA(2).tokenType === After,
      DEF: () => void ((this.node.kind = "recheck"), (this.node.name = nameOf(this.CONSUME1(Name)))),
    });
    this.CONSUME(After);
    this.node.after = this.SUBRULE(this.quantity);
    this.OPTION1(() => {
      this.CONSUME(Done);
      this.node.done = dateOf(this.CONSUME(DateToken));
      this.CONSUME(At);
      this.node.doneAt = this.SUBRULE1(this.quantity);
    });
  });

  /** `bleed` of a fluid, `bleed FLUID…` in a step. */
  readonly bleedLine = this.RULE("bleedLine", () => {
    const verb = this.CONSUME(Name);
    this.OPTION(() => {
      this.beginAction(verb);
      this.SUBRULE(this.things);
    });
  });

  readonly doneLine = this.RULE("doneLine", () => {
    this.CONSUME(Name);
    const places = this.list<NameNode>("places");
    this.MANY({
      DEF: () =>
        this.OR({
          DEF: [
            { GATE: () => this.node.date === undefined, ALT: () => void (this.node.date = dateOf(this.CONSUME(DateToken))) },
            { GATE: () => this.node.by === undefined, ALT: () => (this.CONSUME(By), void (this.node.by = textOf(this.CONSUME(TextToken)))) },
            { GATE: () => places.length === 0 && this.placeStands(), ALT: () => this.SUBRULE(this.places, { ARGS: [places] }) },
          ],
          IGNORE_AMBIGUITIES: true,
        }),
      GATE: () => this.oneMore({ date: this.node.date === undefined, by: this.node.by === undefined, place: places.length === 0 }),
    });
  });

  /** Whether what stands here may still be taken: in a tail of optional parts each may stand once, in any order. */
  private oneMore(may: { date?: boolean; by?: boolean; place?: boolean; text?: boolean; at?: boolean; figure?: boolean; price?: boolean }): boolean {
    const it = this.LA(1);
    if (it.tokenType === DateToken) return may.date === true;
    if (it.tokenType === By) return may.by === true;
    if (it.tokenType === At) return may.at === true;
    if (it.tokenType === Price) return may.price === true;
    if (it.tokenType === TextToken) return may.text === true;
    if (figureToken(it)) return may.figure === true;
    return may.place === true && this.placeStands();
  }

  // -------------------------------------------------------------- actions

  private beginAction(verb: IToken): void {
    this.node.kind = "action";
    this.node.verb = verb.image;
    this.node.things = [];
    this.node.places = [];
    this.verb = verb.image;
  }

  private readonly things = this.RULE("things", () => {
    const things = this.list<Thing>("things");
    const places = this.list<NameNode>("places");
    this.AT_LEAST_ONE_SEP({
      SEP: Comma,
      DEF: () => {
        const name = nameOf(this.CONSUME(Name));
        things.push({ name });
        this.OPTION({ GATE: () => countedVerbs.has(this.verb), DEF: () => void (things[things.length - 1] = { name, count: figureOf(this.CONSUME(Figure)) }) });
      },
    });
    this.SUBRULE(this.places, { ARGS: [places] });
  });

  readonly aloneLine = this.RULE("aloneLine", () => this.beginAction(this.CONSUME(Name)));

  readonly chockLine = this.RULE("chockLine", () => {
    this.beginAction(this.CONSUME(Name));
    this.OPTION(() => void (this.node.text = textOf(this.CONSUME(TextToken))));
  });

  readonly raiseLine = this.RULE("raiseLine", () => {
    this.beginAction(this.CONSUME(Name));
    this.CONSUME(On);
    this.node.on = nameOf(this.word(lifterWords, "lifter"));
  });

  readonly supportLine = this.RULE("supportLine", () => {
    this.beginAction(this.CONSUME(Name));
    this.OPTION({ GATE: () => this.LA(1).tokenType !== On || this.LA(2).tokenType === On, DEF: () => this.SUBRULE(this.things) });
    this.CONSUME(On);
    this.OPTION1(() => void (this.node.standCount = figureOf(this.CONSUME(Figure))));
    this.node.on = nameOf(this.word(bearerWords, "bearer"));
    this.MANY(() =>
      this.OR([
        {
          GATE: () => this.node.underPart === undefined && this.node.underText === undefined,
          ALT: () => {
            this.CONSUME(Under);
            this.OR1({
              DEF: [
                { ALT: () => void (this.node.underText = textOf(this.CONSUME(TextToken))) },
                { ALT: () => void (this.node.underPart = nameOf(this.CONSUME1(Name))) },
              ],
              ERR_MSG: "under",
            });
          },
        },
        {
          GATE: () => this.node.rated === undefined,
          ALT: () => {
            this.CONSUME(Rated);
            this.node.rated = this.SUBRULE(this.quantity);
            this.OPTION2(() =>
              this.OR2([
                { ALT: () => void (this.node.ratedEach = spanOf(this.CONSUME(Each))) },
                { ALT: () => void (this.node.ratedTogether = spanOf(this.CONSUME(Together))) },
              ]),
            );
          },
        },
        { GATE: () => this.node.load === undefined, ALT: () => (this.CONSUME(Load), void (this.node.load = this.SUBRULE1(this.quantity))) },
      ]),
    );
  });

  /** All verbs that take a list of things, their places, and what belongs to the verb. */
  readonly thingsLine = this.RULE("thingsLine", () => {
    this.beginAction(this.CONSUME(Name));
    const tail = tails[this.verb];
    const takes = (part: string) => tail?.includes(part) === true;
    this.SUBRULE(this.things);
    this.MANY({
      GATE: () => {
        const type = this.LA(1).tokenType;
        if (tail === undefined || type === EOF) return false;
        if (type === TextToken) return takes("text") && this.node.text === undefined;
        if (type === New) return takes("new") && this.node.isNew === undefined && this.node.with === undefined;
        if (type === With) return takes("with") && this.node.with === undefined && this.node.isNew === undefined;
        if (type === From) return takes("from") && this.node.from === undefined;
        if (type === For) return takes("now") && this.node.forNowAt === undefined;
        if (type === To) return takes("to") && this.node.to === undefined;
        if (type === By) return takes("by") && this.node.by === undefined;
        return takes("amount") && this.node.amount === undefined;
      },
      DEF: () =>
        this.OR([
          { ALT: () => void (this.node.text = textOf(this.CONSUME(TextToken))) },
          { ALT: () => void (this.node.isNew = spanOf(this.CONSUME(New))) },
          {
            ALT: () => {
              this.CONSUME(With);
              this.OPTION(() => void (this.node.isNew = spanOf(this.CONSUME1(New))));
              this.node.with = this.SUBRULE(this.locking, { ARGS: [false] });
            },
          },
          { ALT: () => (this.CONSUME(From), void (this.node.from = nameOf(this.CONSUME1(Name)))) },
          {
            ALT: () => {
              const first = this.CONSUME(For);
              this.CONSUME(Now);
              this.node.forNowAt = this.over(first);
              this.node.forNow = textOf(this.CONSUME1(TextToken));
            },
          },
          { ALT: () => (this.CONSUME(To), void (this.node.to = this.SUBRULE(this.quantity))) },
          { ALT: () => (this.CONSUME(By), void (this.node.by = nameOf(this.CONSUME2(Name)))) },
          { ALT: () => void (this.node.amount = this.SUBRULE1(this.quantity)) },
        ]),
    });
    this.OPTION1({ GATE: () => takes("text") && this.node.text === undefined, DEF: () => void (this.node.text = textOf(this.CONSUME2(TextToken))) });
  });

  // -------------------------------------------------------------- measure, seen, finding

  readonly readingLine = this.RULE("readingLine", () => {
    const words = this.list<NameNode>("words");
    const figures = this.list<Quantity>("figures");
    this.MANY({ GATE: () => words.length < 2 && this.LA(1).tokenType !== Again, DEF: () => void words.push(nameOf(this.CONSUME(Name))) });
    this.OPTION(() => void (this.node.again = spanOf(this.CONSUME(Again))));
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => void figures.push(this.SUBRULE(this.quantity)) });
  });

  private stage(): void {
    const word = this.word(stageWords, "stage");
    this.node.stage = word.image;
    this.node.stageAt = spanOf(word);
  }

  readonly measureLine = this.RULE("measureLine", () => {
    this.CONSUME(Name);
    this.node.limit = nameOf(this.CONSUME1(Name));
    this.stage();
    this.MANY({
      GATE: () => this.oneMore({ date: this.node.date === undefined, by: this.node.by === undefined }),
      DEF: () =>
        this.OR([
          { ALT: () => (this.CONSUME(By), void (this.node.by = nameOf(this.CONSUME2(Name)))) },
          { ALT: () => void (this.node.date = dateOf(this.CONSUME(DateToken))) },
        ]),
    });
  });

  readonly seenLine = this.RULE("seenLine", () => {
    this.CONSUME(Name);
    this.node.check = nameOf(this.CONSUME1(Name));
    this.stage();
    const take = () => {
      const verdict = this.CONSUME8(Name);
      this.node.verdict = verdict.image;
      this.node.verdictAt = spanOf(verdict);
    };
    this.OR8({ DEF: [{ GATE: () => this.isWord(verdictWords), ALT: take }], ERR_MSG: "verdict" });
    this.MANY({
      GATE: () =>
        this.oneMore({
          date: this.node.date === undefined,
          by: this.node.by === undefined,
          text: this.node.text === undefined,
          place: this.node.place === undefined,
        }),
      DEF: () =>
        this.OR({
          DEF: [
            { ALT: () => void (this.node.text = textOf(this.CONSUME(TextToken))) },
            { ALT: () => (this.CONSUME(By), void (this.node.by = textOf(this.CONSUME1(TextToken)))) },
            { ALT: () => void (this.node.date = dateOf(this.CONSUME(DateToken))) },
            { ALT: () => void (this.node.place = nameOf(this.CONSUME2(Name))) },
          ],
          IGNORE_AMBIGUITIES: true,
        }),
    });
  });

  readonly findingLine = this.RULE("findingLine", () => {
    this.CONSUME(Name);
    this.node.of = nameOf(this.CONSUME1(Name));
    this.MANY({
      GATE: () =>
        this.oneMore({
          figure: this.node.count === undefined && this.node.place === undefined,
          date: this.node.date === undefined,
          place: this.node.place === undefined,
        }),
      DEF: () =>
        this.OR([
          { ALT: () => void (this.node.count = figureOf(this.CONSUME(Figure))) },
          { ALT: () => void (this.node.date = dateOf(this.CONSUME(DateToken))) },
          { ALT: () => void (this.node.place = nameOf(this.CONSUME2(Name))) },
        ]),
    });
  });

  readonly isLine = this.RULE("isLine", () => {
    this.CONSUME(Name);
    const list = this.list<Draft>("conditions");
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => this.SUBRULE(this.condition, { ARGS: [list] }), ERR_MSG: "condition" });
  });

  private readonly condition = this.RULE("condition", (list: Draft[] | undefined) => {
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
    if (this.live) made.at = this.over(word);
  });

  private behindStands(behind: string): boolean {
    const it = this.LA(1);
    return behind === "text" ? it.tokenType === TextToken : behind === "from" ? it.tokenType === From : figureToken(it);
  }

  readonly decisionLine = this.RULE("decisionLine", () => {
    this.CONSUME(Name);
    const word = this.word(decisionWords, "decision");
    this.node.decision = word.image;
    this.node.word = spanOf(word);
    this.OPTION({ GATE: () => word.image === "repair" || word.image === "make", DEF: () => void (this.node.how = textOf(this.CONSUME(TextToken))) });
    this.OPTION1({ GATE: () => word.image === "ask", DEF: () => void (this.node.question = nameOf(this.CONSUME1(Name))) });
    if (this.live && word.image === "ask" && this.node.question === undefined)
      this.complain(spanOf(word), "Behind `ask` stands the question's name: decision ask QUESTION.");
    if (this.live && (word.image === "repair" || word.image === "make") && this.node.how === undefined)
      this.complain(spanOf(word), `Say how, in quotes: decision ${word.image} "how".`);
  });

  readonly concessionLine = this.RULE("concessionLine", () => {
    this.CONSUME(Name);
    this.node.of = nameOf(this.CONSUME1(Name));
    this.OPTION({ GATE: () => this.placeStands(), DEF: () => void (this.node.place = nameOf(this.CONSUME2(Name))) });
    this.node.why = textOf(this.CONSUME(TextToken));
    this.CONSUME(By);
    this.node.by = textOf(this.CONSUME1(TextToken));
    this.OPTION1(() => void (this.node.date = dateOf(this.CONSUME(DateToken))));
  });

  readonly pauseLine = this.RULE("pauseLine", () => {
    this.CONSUME(Name);
    this.OPTION(() => void (this.node.date = dateOf(this.CONSUME(DateToken))));
    this.node.why = textOf(this.CONSUME(TextToken));
  });

  readonly releaseLine = this.RULE("releaseLine", () => {
    this.CONSUME(Name);
    this.CONSUME(By);
    this.node.by = textOf(this.CONSUME(TextToken));
    this.MANY({
      GATE: () => this.oneMore({ date: this.node.date === undefined, at: this.node.counter === undefined }),
      DEF: () =>
        this.OR([
          { ALT: () => void (this.node.date = dateOf(this.CONSUME(DateToken))) },
          { ALT: () => (this.CONSUME(At), void (this.node.counter = this.SUBRULE(this.quantity))) },
        ]),
    });
  });

  // -------------------------------------------------------------- places, rates, supply

  readonly placesLine = this.RULE("placesLine", () => {
    this.CONSUME(Name);
    const list = this.list<NameNode>("names");
    this.node.placeKind = nameOf(this.CONSUME1(Name));
    this.SUBRULE(this.names, { ARGS: [list] });
  });

  readonly rateLine = this.RULE("rateLine", () => {
    this.CONSUME(Name);
    this.node.one = this.SUBRULE(this.money);
    this.CONSUME(EqualsSign);
    this.node.is = this.SUBRULE1(this.money);
    this.OPTION(() => void (this.node.date = dateOf(this.CONSUME(DateToken))));
  });

  readonly freightLine = this.RULE("freightLine", () => {
    this.CONSUME(Name);
    this.node.money = this.SUBRULE(this.money);
    this.OPTION(() => {
      this.CONSUME(Free);
      this.CONSUME(Over);
      this.node.freeOver = this.SUBRULE1(this.money);
    });
  });

  readonly offerLine = this.RULE("offerLine", () => {
    this.CONSUME(Name);
    this.node.item = this.SUBRULE(this.item);
    this.CONSUME(From);
    this.node.from = nameOf(this.CONSUME1(Name));
  });

  readonly stockLine = this.RULE("stockLine", () => {
    this.CONSUME(Name);
    this.node.item = this.SUBRULE(this.item);
    this.node.amount = this.SUBRULE(this.quantity);
    this.MANY({
      GATE: () => this.oneMore({ text: this.node.where === undefined, date: this.node.date === undefined }),
      DEF: () =>
        this.OR([
          { ALT: () => void (this.node.where = textOf(this.CONSUME(TextToken))) },
          { ALT: () => void (this.node.date = dateOf(this.CONSUME(DateToken))) },
        ]),
    });
  });

  readonly orderLine = this.RULE("orderLine", () => {
    this.CONSUME(Name);
    this.node.reference = textOf(this.CONSUME(TextToken));
    this.CONSUME(To);
    this.node.to = nameOf(this.CONSUME1(Name));
  });

  readonly needLine = this.RULE("needLine", () => {
    this.CONSUME(Name);
    this.node.item = this.SUBRULE(this.item);
    this.node.amount = this.SUBRULE(this.quantity);
    this.node.why = textOf(this.CONSUME(TextToken));
  });

  readonly priceLine = this.RULE("priceLine", () => {
    this.CONSUME(Name);
    this.node.money = this.SUBRULE(this.money);
    this.OPTION(() =>
      this.OR([
        { ALT: () => void (this.node.each = spanOf(this.CONSUME(Each))) },
        {
          ALT: () => {
            const first = this.CONSUME(A);
            this.CONSUME(Pack);
            this.node.aPack = this.over(first);
          },
        },
      ]),
    );
  });

  readonly statusLine = this.RULE("statusLine", () => {
    this.CONSUME(Name);
    const word = this.word(statusWords, "status");
    this.node.status = word.image;
    this.node.word = spanOf(word);
    this.OPTION(() => void (this.node.date = dateOf(this.CONSUME(DateToken))));
  });

  readonly itemLine = this.RULE("itemLine", () => {
    this.CONSUME(Name);
    this.node.item = this.SUBRULE(this.item);
    this.node.amount = this.SUBRULE(this.quantity);
    this.OPTION(() => (this.CONSUME(Price), void (this.node.price = this.SUBRULE(this.money))));
  });

  readonly workLine = this.RULE("workLine", () => {
    this.CONSUME(Name);
    this.node.part = nameOf(this.CONSUME1(Name));
    this.OPTION({ GATE: () => this.placeStands(), DEF: () => void (this.node.place = nameOf(this.CONSUME2(Name))) });
    this.node.text = textOf(this.CONSUME(TextToken));
    this.OPTION1(() => (this.CONSUME(Price), void (this.node.price = this.SUBRULE(this.money))));
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
const lifterWords: ReadonlySet<string> = new Set([...lifters, "hoist"]);
const bearerWords: ReadonlySet<string> = new Set(bearers);

/** As written, with single spaces; what belongs together stands together: `5/8-18 UNF`, `M10x1.25`. */
function designationOf(tokens: readonly IToken[]): string {
  let text = "";
  for (const [i, it] of tokens.entries()) {
    const glued =
      i === 0 ||
      it.tokenType === Minus ||
      tokens[i - 1]?.tokenType === Minus ||
      it.tokenType === Times ||
      it.tokenType === X ||
      tokens[i - 1]?.tokenType === Times ||
      tokens[i - 1]?.tokenType === X;
    text += glued ? it.image : ` ${it.image}`;
  }
  return text;
}

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
  failure = undefined;
  const count = tokens.length;
  grammar.begin(tokens, node);
  rule(grammar);
  // Chevrotain may pad the list that it reads.
  tokens.length = count;
  const error = grammar.errors[0];
  const token = error?.token;
  return { failure, complaint: grammar.complaint, stoppedAt: token === undefined || Number.isNaN(token.startOffset) ? undefined : token };
}
