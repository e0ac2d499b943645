// The larger pieces that lines are made of: lockings, items, threads, expressions.
// Invariant: a piece gives back what its tokens say, and nothing where it broke off.
// biome-ignore-all lint/suspicious/noAssignInExpressions: a node is filled field by field inside the alternatives, so that a broken line keeps what was read.
// biome-ignore-all lint/complexity/noCommaOperator: an alternative is several tokens in a row, and each would else be a block of its own.
import { EOF, type IOrAlt, type IToken } from "chevrotain";
import { figureOf, fixOf, nameOf, spanOf, textOf } from "./line-nodes.ts";
import {
  Class,
  Close,
  Comma,
  Figure,
  Grade,
  LH,
  MetricSize,
  Minus,
  Name,
  Nothing,
  NumberedSize,
  Open,
  PartWord,
  Plus,
  Star,
  Stroke,
  TextToken,
  Times,
  UnitLike,
  X,
  blankToken,
  endOf,
  figureToken,
  goingOnToken,
  nameToken,
  touching,
  unitOnlyToken,
} from "./tokens.ts";
import type { Expression, Item, ItemThread, Locking, LockingKind, Name as NameNode, Quantity, Text, Thread } from "./tree.ts";
import { FigureGrammar } from "./figure-grammar.ts";
import { functions, lockingInfo, lockingPhrases } from "./words.ts";

const metricName = /^M\d+(?:[xX]\d+)?$/;

export abstract class PieceGrammar extends FigureGrammar {
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
      GATE: () => item?.kind === "name" && !blankToken(this.LA(1)) && this.LA(1).tokenType !== Grade && this.LA(1).tokenType !== Class,
      DEF: () =>
        this.OR([
          { ALT: () => void (made = { leftHand: spanOf(this.CONSUME(LH)) }) },
          { GATE: () => this.LA(1).image === "thread", ALT: () => (this.CONSUME(Name), void (made = { thread: this.SUBRULE(this.thread) })) },
        ]),
    });
    this.MANY({
      GATE: () => item?.kind === "name" && (this.LA(1).tokenType === Grade || this.LA(1).tokenType === Class),
      DEF: () =>
        this.OR1([
          { ALT: () => (this.CONSUME(Grade), void (made = { ...made, grade: figureOf(this.CONSUME(Figure)) })) },
          { ALT: () => (this.CONSUME(Class), void (made = { ...made, class: figureOf(this.CONSUME1(Figure)) })) },
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
