// The small pieces that lines are made of: words, lists of names, figures, money, ranges.
// Invariant: a piece gives back what its tokens say, and nothing where it broke off.
// biome-ignore-all lint/suspicious/noAssignInExpressions: a node is filled field by field inside the alternatives, so that a broken line keeps what was read.
// biome-ignore-all lint/complexity/noCommaOperator: an alternative is several tokens in a row, and each would else be a block of its own.
import type { IOrAlt, IToken } from "chevrotain";
import { type Draft, fault, figureOf, fixOf, nameOf, spanOf, spanOver } from "./line-nodes.ts";
import { numberOf, usualPlaces } from "./plain-words.ts";
import {
  A,
  At,
  By,
  Comma,
  DateToken,
  DotDot,
  Figure,
  Flat,
  K,
  Max,
  Min,
  Minus,
  Name,
  Plus,
  PlusMinus,
  Price,
  TextToken,
  To,
  Turn,
  UnitLike,
  blankToken,
  endOf,
  figureToken,
  goingOnToken,
  nameToken,
  touching,
  unitOnlyToken,
  vocabulary,
} from "./tokens.ts";
import type { Detail, Entry, Fault, Figure as FigureNode, LetBack, Money, Name as NameNode, Quantity, Range, Span } from "./tree.ts";
import { TableParser } from "./table-parser.ts";
import { actionShapes } from "./words/action-words.ts";

const fitCode = /^(?:[A-HJ-NP-Z]{1,2}|[a-hj-np-z]{1,2})\d{1,2}$/;

/** A line's fields while they are filled in. */
export type Filling<K extends (Detail | Entry)["kind"]> = {
  -readonly [F in keyof Extract<Detail | Entry, { readonly kind: K }>]?: Extract<Detail | Entry, { readonly kind: K }>[F] | undefined;
};
const beforeNames = /^(?:the|old|both|all|every|each|either)$/;

export abstract class FigureGrammar extends TableParser {
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

  /** `remove the hub`, `finding both hubs` would be a thing called both, at a place called hubs. */
  protected wordBeforeName(): void {
    const [first, word, name, more] = this.input;
    if (!this.live || first === undefined || word === undefined) return;
    const number = numberOf(word.image);
    const count = number !== undefined && (this.verb === "" || actionShapes.get(this.verb)?.counts !== undefined) ? number : undefined;
    if (count !== undefined && name !== undefined && nameToken(name) && !goingOnToken(name) && !usualPlaces.has(name.image)) {
      const written = `${name.image} ${count}`;
      return this.complain(spanOf(word), `The count goes after the name: ${written}.`, [
        fixOf(`Write ${written}`, { from: word.startOffset, to: endOf(name) }, written),
      ]);
    }
    if (!beforeNames.test(word.image) && !(word.image === "with" && first.image === "fill")) return;
    if (name === undefined || !nameToken(name) || goingOnToken(name)) return;
    if (usualPlaces.has(name.image) && more !== undefined && nameToken(more) && !goingOnToken(more)) {
      const written = `${more.image} ${name.image}`;
      const at = { from: word.startOffset, to: endOf(more) };
      this.complain(at, `The name comes first, then its place: ${first.image} ${written}.`, [fixOf(`Write ${written}`, at, written)]);
      return;
    }
    const all = /^(?:the|old|with)$/.test(word.image) ? "" : " where no place is named, all of them are meant.";
    this.complain(spanOf(word), `Leave \`${word.image}\` out${all === "" ? `: ${first.image} ${name.image}.` : `:${all}`}`, [
      fixOf(`Leave \`${word.image}\` out`, { from: word.startOffset, to: name.startOffset }, ""),
    ]);
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
