// The pieces that lines are made of: lists of names, figures, ranges, lockings, items, threads, expressions.
// Invariant: a piece gives back what its tokens say, and nothing where it broke off.
// biome-ignore-all lint/suspicious/noAssignInExpressions: a node is filled field by field inside the alternatives, so that a broken line keeps what was read.
// biome-ignore-all lint/complexity/noCommaOperator: an alternative is several tokens in a row, and each would else be a block of its own.
import { EOF, type IOrAlt, type IToken } from "chevrotain";
import { type Draft, fault, figureOf, fixOf, nameOf, spanOf, spanOver, textOf } from "./line-nodes.ts";
import {
  A,
  At,
  By,
  Close,
  Comma,
  DateToken,
  DotDot,
  Figure,
  Flat,
  K,
  LH,
  Max,
  MetricSize,
  Min,
  Minus,
  Name,
  Nothing,
  NumberedSize,
  Open,
  PartWord,
  Plus,
  PlusMinus,
  Price,
  Star,
  Stroke,
  TextToken,
  Times,
  To,
  Turn,
  UnitLike,
  X,
  blankToken,
  endOf,
  figureToken,
  goingOnToken,
  nameToken,
  touching,
  unitOnlyToken,
  vocabulary,
} from "./tokens.ts";
import type {
  Detail,
  Entry,
  Expression,
  Fault,
  Figure as FigureNode,
  Item,
  ItemThread,
  LetBack,
  Locking,
  LockingKind,
  Money,
  Name as NameNode,
  Quantity,
  Range,
  Span,
  Text,
  Thread,
} from "./tree.ts";
import { TableParser } from "./table-parser.ts";
import { functions, lockingInfo, lockingPhrases } from "./words.ts";

const fitCode = /^(?:[A-HJ-NP-Z]{1,2}|[a-hj-np-z]{1,2})\d{1,2}$/;
const metricName = /^M\d+(?:[xX]\d+)?$/;

/** A line's fields while they are filled in. */
export type Filling<K extends (Detail | Entry)["kind"]> = {
  -readonly [F in keyof Extract<Detail | Entry, { readonly kind: K }>]?: Extract<Detail | Entry, { readonly kind: K }>[F] | undefined;
};

export abstract class PieceGrammar extends TableParser {
  node: Draft = {};
  /** A line that parses and yet says something that can't be meant. */
  complaint: Fault | undefined;
  /** Set once the grammar has been recorded: while it is, actions run on placeholders. */
  protected live = false;
  protected verb = "";
  protected inRange = false;
  /** In a torque an angle may follow: `+ 90 deg`, which is no deviation. */
  protected mayTurn = false;

  protected constructor() {
    super(vocabulary);
  }

  // -------------------------------------------------------------- small things

  /** Makes ready for the next line. */
  begin(tokens: IToken[], node: Draft): void {
    this.complaint = undefined;
    this.node = node;
    this.verb = "";
    // A line that broke off inside a range never came to the end of the rule.
    this.inRange = false;
    this.mayTurn = false;
    this.input = tokens;
  }

  /** The node as what a line of this kind is: a field that its row does not give it does not compile. */
  protected filling<K extends (Detail | Entry)["kind"]>(): Filling<K> {
    return this.node as unknown as Filling<K>;
  }

  protected complain(at: Span, message: string, fixes: Fault["fixes"] = []): void {
    if (this.live) this.complaint ??= fault(at, message, fixes);
  }

  protected next(at = 1): IToken {
    return this.LA(at);
  }

  protected isWord(words: ReadonlySet<string>): boolean {
    return nameToken(this.LA(1)) && (words.has(this.LA(1).image) || blankToken(this.LA(1)));
  }

  protected placeStands(): boolean {
    if (!nameToken(this.LA(1)) || goingOnToken(this.LA(1))) return false;
    // A blank with a unit behind it is how much, not where.
    return !blankToken(this.LA(1)) || !(unitOnlyToken(this.LA(2)) || (nameToken(this.LA(2)) && !goingOnToken(this.LA(2)) && !blankToken(this.LA(2))));
  }

  /** A place that may stand before a text that must: one blank alone is the text. */
  protected placeBeforeText(): boolean {
    return this.placeStands() && (!blankToken(this.LA(1)) || this.LA(2).tokenType === TextToken || blankToken(this.LA(2)));
  }

  /** A word right behind a figure is its unit, known or not, unless it is one that goes on with the line. */
  protected unitStands(): boolean {
    const it = this.LA(1);
    if (unitOnlyToken(it)) return true;
    if (!nameToken(it) || goingOnToken(it) || blankToken(it)) return false;
    if (it.tokenType === K) return !figureToken(this.LA(2));
    return !(this.inRange && fitCode.test(it.image));
  }

  protected over(first: IToken): Span {
    return spanOver(first, this.LA(0));
  }

  protected word(words: ReadonlySet<string>, choice: string): IToken {
    // Set inside the alternative, for while the grammar is recorded an OR gives back nothing.
    let found: IToken | undefined;
    this.OR9({ DEF: [{ GATE: () => this.isWord(words), ALT: () => void (found = this.CONSUME9(Name)) }], ERR_MSG: choice });
    return found as IToken;
  }

  protected oneName(list: NameNode[] | undefined): void {
    const name = nameOf(this.CONSUME(Name));
    list?.push(name);
  }

  protected readonly names = this.RULE("names", (list: NameNode[] | undefined) => {
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => this.oneName(list) });
  });

  protected readonly places = this.RULE("places", (list: NameNode[] | undefined) => {
    this.OPTION({
      GATE: () => this.placeStands(),
      DEF: () => this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => this.oneName(list) }),
    });
  });

  protected readonly signed = this.RULE("signed", (): FigureNode => {
    const sign = this.OPTION(() => this.OR([{ ALT: () => this.CONSUME(Minus) }, { ALT: () => this.CONSUME(Plus) }]));
    return figureOf(this.CONSUME(Figure), sign);
  });

  protected readonly quantity = this.RULE("quantity", (): Quantity => {
    const figure = this.SUBRULE(this.signed);
    const unit = this.OPTION({ GATE: () => this.unitStands(), DEF: () => nameOf(this.CONSUME(UnitLike)) });
    if (unit === undefined) return { figure, at: figure?.at };
    return { figure, unit, at: { from: figure?.at?.from, to: unit.at?.to } };
  });

  protected readonly money = this.RULE("money", (): Money => {
    const figure = figureOf(this.CONSUME(Figure));
    const currency = this.OR({
      DEF: [
        { GATE: () => this.LA(1).tokenType !== A && !goingOnToken(this.LA(1)), ALT: () => nameOf(this.CONSUME(Name)) },
        // An amount that is left blank may leave its currency so too.
        { GATE: () => blankToken(this.LA(0)), ALT: () => undefined },
      ],
      ERR_MSG: "currency",
    });
    return currency === undefined ? { figure, at: figure.at } : { figure, currency, at: { from: figure.at.from, to: currency.at?.to } };
  });

  protected readonly range = this.RULE("range", (): Range => {
    this.inRange = true;
    const first = this.next();
    const range = this.OR<IOrAlt<Range>[]>({
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

  protected oneEnd(kind: "max" | "min", word: IToken, end: Quantity): Range {
    return { kind, end, at: { from: word.startOffset, to: end?.at?.to } };
  }

  protected behindNominal(first: IToken, nominal: Quantity): Range {
    const spaced = () => !touching(this.LA(0), this.LA(1));
    return this.OR2<IOrAlt<Range>[]>([
      { ALT: () => (this.CONSUME(DotDot), { kind: "between", low: nominal, high: this.SUBRULE3(this.quantity), at: this.over(first) }) },
      { ALT: () => (this.CONSUME(To), { kind: "between", low: nominal, high: this.SUBRULE4(this.quantity), at: this.over(first) }) },
      { ALT: () => (this.CONSUME(PlusMinus), { kind: "plus-minus", nominal, tolerance: this.SUBRULE5(this.quantity), at: this.over(first) }) },
      { GATE: () => spaced() && !(this.mayTurn && this.turnStands()), ALT: () => this.deviations(first, nominal, this.CONSUME(Plus)) },
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

  /** A plus and one figure with no second deviation behind it. */
  protected turnStands(): boolean {
    const at = nameToken(this.LA(3)) || unitOnlyToken(this.LA(3)) ? 4 : 3;
    const behind = this.LA(at);
    return !(figureToken(behind) || behind.tokenType === Plus || behind.tokenType === Minus);
  }

  /** `1 flat`, `1/4 turn`, `30 deg`: how far a fastener is let back. */
  protected readonly turned = this.RULE("turned", (): LetBack => {
    const first = this.next();
    const figure = figureOf(this.CONSUME(Figure));
    return this.OR<IOrAlt<LetBack>[]>({
      DEF: [
        { ALT: () => (this.CONSUME(Flat), { flats: figure, at: this.over(first) }) },
        { ALT: () => (this.CONSUME(Turn), { turns: figure, at: this.over(first) }) },
        { ALT: () => ((unit) => ({ angle: this.withUnit(figure, unit), at: this.over(first) }))(nameOf(this.CONSUME(UnitLike))) },
      ],
      ERR_MSG: "turned",
      IGNORE_AMBIGUITIES: true,
    });
  });

  protected deviations(first: IToken, nominal: Quantity, sign: IToken): Range {
    return this.twoDeviations(
      first,
      nominal,
      this.withUnit(figureOf(this.CONSUME(Figure), sign), this.OPTION3({ GATE: () => this.unitStands(), DEF: () => nameOf(this.CONSUME3(UnitLike)) })),
      this.SUBRULE6(this.quantity),
    );
  }

  protected deviations2(first: IToken, nominal: Quantity, sign: IToken): Range {
    return this.twoDeviations(
      first,
      nominal,
      this.withUnit(figureOf(this.CONSUME4(Figure), sign), this.OPTION4({ GATE: () => this.unitStands(), DEF: () => nameOf(this.CONSUME4(UnitLike)) })),
      this.SUBRULE7(this.quantity),
    );
  }

  protected withUnit(figure: FigureNode, unit: NameNode | undefined): Quantity {
    return unit === undefined ? { figure, at: figure.at } : { figure, unit, at: { from: figure.at.from, to: unit.at?.to } };
  }

  protected twoDeviations(first: IToken, nominal: Quantity, one: Quantity, two: Quantity): Range {
    return { kind: "deviations", nominal, first: one, second: two, at: this.over(first) };
  }

  // -------------------------------------------------------------- locking, items, threads

  /** How many words here are a locking: 2, 1 or 0. In an item one word alone is a name, unless its size stands behind it. */
  protected lockingWords(inItem: boolean): 0 | 1 | 2 {
    const one = this.LA(1);
    if (!nameToken(one)) return 0;
    const two = this.LA(2);
    if (nameToken(two) && lockingPhrases.has(`${one.image} ${two.image}`)) return 2;
    return lockingPhrases.has(one.image) && (!inItem || this.sizeStands(2)) ? 1 : 0;
  }

  /** In an item a figure is a size only with a unit or an x behind it; else it is how many. */
  protected sizeStands(at: number): boolean {
    if (!figureToken(this.LA(at))) return false;
    const behind = this.LA(at + 1);
    return behind.tokenType === Times || behind.tokenType === X || unitOnlyToken(behind) || (nameToken(behind) && !goingOnToken(behind));
  }

  protected readonly locking = this.RULE("locking", (inItem: boolean | undefined): Locking => {
    const first = this.next();
    const size: Quantity[] = [];
    const made: { kind: LockingKind; words: string; grade?: Text; part?: NameNode; why?: Text } = { kind: "ambiguous", words: "" };
    this.OR({
      DEF: [
        { GATE: () => this.lockingWords(inItem === true) === 2, ALT: () => void (made.words = `${this.CONSUME(Name).image} ${this.CONSUME2(Name).image}`) },
        { GATE: () => this.lockingWords(inItem === true) === 1, ALT: () => void (made.words = this.CONSUME3(Name).image) },
        { GATE: () => blankToken(this.LA(1)), ALT: () => void (made.words = this.CONSUME5(Name).image) },
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

  protected readonly item = this.RULE("item", (): Item => {
    const first = this.next();
    const alternatives: IOrAlt<Item>[] = [
      { ALT: () => ({ kind: "text", text: textOf(this.CONSUME(TextToken)), at: this.over(first) }) },
      { GATE: () => this.lockingWords(true) > 0, ALT: () => this.lockingItem(this.SUBRULE(this.locking, { ARGS: [true] })) },
      { ALT: () => ({ kind: "name", name: nameOf(this.CONSUME(Name)), at: this.over(first) }) },
    ];
    return this.OR({
      DEF: alternatives,
      ERR_MSG: "item",
      IGNORE_AMBIGUITIES: true,
    });
  });

  /** Of a fastener its thread may stand behind its name, or its hand: `hub-nut thread 7/8-14 UNF LH`, `hub-nut LH`. */
  protected readonly threadedItem = this.RULE("threadedItem", (): Item => {
    const first = this.next();
    const item = this.SUBRULE(this.item);
    let made: ItemThread | undefined;
    this.OPTION({
      // A blank may stand for any word; behind a name it stands for how many.
      GATE: () => item?.kind === "name" && !blankToken(this.LA(1)),
      DEF: () =>
        this.OR([
          { ALT: () => void (made = { leftHand: spanOf(this.CONSUME(LH)) }) },
          { GATE: () => this.LA(1).image === "thread", ALT: () => (this.CONSUME(Name), void (made = { thread: this.SUBRULE(this.thread) })) },
        ]),
    });
    return made === undefined || item?.kind !== "name" ? item : { ...item, made, at: this.over(first) };
  });

  protected lockingItem(locking: Locking): Item {
    if (this.live && locking.size.length === 0 && lockingInfo(locking.kind)?.size === "written") {
      this.complain(locking.at, `Write the size of the ${locking.kind}: ${lockingInfo(locking.kind)?.syntax}. The last figure on the line is how many.`);
    }
    return { kind: "locking", locking, at: locking?.at };
  }

  protected readonly thread = this.RULE("thread", (): Thread => {
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
    const designation = !this.live ? "" : free === undefined ? designationOf(this.tokensBetween(first, last)) : textOf(free).value;
    const made: { -readonly [K in keyof Thread]: Thread[K] } = { designation, free: free !== undefined, at: this.over(first) };
    this.OPTION4(() => {
      made.leftHand = spanOf(this.CONSUME(LH));
      made.at = this.over(first);
    });
    return made;
  });

  protected tokensBetween(first: IToken, last: IToken): IToken[] {
    return this.input.filter((it) => it.startOffset >= first.startOffset && it.startOffset <= last.startOffset);
  }

  // -------------------------------------------------------------- expressions

  protected readonly expression = this.RULE("expression", (): Expression => {
    let left = this.SUBRULE(this.product);
    this.MANY(() => {
      const sign = this.OR([{ ALT: () => this.CONSUME(Plus) }, { ALT: () => this.spaced(this.CONSUME(Minus)) }]);
      left = this.binary(left, sign, this.SUBRULE1(this.product));
    });
    return left;
  });

  protected readonly product = this.RULE("product", (): Expression => {
    let left = this.SUBRULE(this.factor);
    this.MANY(() => {
      const sign = this.OR([{ ALT: () => this.CONSUME(Star) }, { ALT: () => this.spaced(this.CONSUME(Stroke)) }]);
      left = this.binary(left, sign, this.SUBRULE1(this.factor));
    });
    return left;
  });

  /** `bore-0.5` and `a/2` read two ways, so between operands both signs stand between spaces. */
  protected spaced(sign: IToken): IToken {
    if (this.live && (touching(this.LA(-1), sign) || touching(sign, this.LA(1)))) {
      this.complain(spanOf(sign), `Put a space on both sides of \`${sign.image}\`.`, [
        fixOf(
          `Put spaces around \`${sign.image}\``,
          { from: endOf(this.LA(-1)), to: this.LA(1).tokenType === EOF ? spanOf(sign).to : this.LA(1).startOffset },
          ` ${sign.image} `,
        ),
      ]);
    }
    return sign;
  }

  protected binary(left: Expression, sign: IToken, right: Expression): Expression {
    const operator = (sign.image === "\u2212" ? "-" : sign.image) as "+" | "-" | "*" | "/";
    return { kind: "binary", operator, left, right, at: { from: left?.at?.from, to: right?.at?.to } };
  }

  protected readonly factor = this.RULE("factor", (): Expression => {
    const signs: IToken[] = [];
    this.MANY(() => void signs.push(this.CONSUME(Minus)));
    let made = this.SUBRULE(this.atom);
    if (this.live) for (const sign of signs.reverse()) made = { kind: "negate", operand: made, at: { from: sign.startOffset, to: made.at.to } };
    return made;
  });

  protected readonly atom = this.RULE("atom", (): Expression => {
    const first = this.next();
    const alternatives: IOrAlt<Expression>[] = [
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
    ];
    return this.OR({
      DEF: alternatives,
      ERR_MSG: "expression",
      IGNORE_AMBIGUITIES: true,
    });
  });

  protected call(first: IToken, name: IToken): Expression {
    if (this.live && !(functions as readonly string[]).includes(name.image))
      this.complain(spanOf(name), `\`${name.image}\` isn't a function here. There are ${functions.join(", ")}.`);
    const list: Expression[] = [];
    this.CONSUME1(Open);
    this.AT_LEAST_ONE_SEP({ SEP: Comma, DEF: () => void list.push(this.SUBRULE1(this.expression)) });
    this.CONSUME1(Close);
    return { kind: "call", function: nameOf(name), arguments: list, at: this.over(first) };
  }

  /** A list that the node holds from the start, so that a broken line keeps the names before the break. */
  protected list<T>(field: string): T[] {
    const list: T[] = [];
    this.node[field] = list;
    return list;
  }

  /** Whether what stands here may still be taken: in a tail of optional parts each may stand once, in any order. */
  protected oneMore(may: { date?: boolean; by?: boolean; place?: boolean; text?: boolean; at?: boolean; figure?: boolean; price?: boolean }): boolean {
    const it = this.LA(1);
    if (blankToken(it)) return may.date === true || may.place === true || may.text === true || may.figure === true;
    if (it.tokenType === DateToken) return may.date === true;
    if (it.tokenType === By) return may.by === true;
    if (it.tokenType === At) return may.at === true;
    if (it.tokenType === Price) return may.price === true;
    if (it.tokenType === TextToken) return may.text === true;
    if (figureToken(it)) return may.figure === true;
    return may.place === true && this.placeStands();
  }
}

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
