// The grammar of what is bought, sent and priced: places, rates, suppliers, offers, orders and what was received.
// Invariant: as of every line: no rule knows of another.
// biome-ignore-all lint/suspicious/noAssignInExpressions: a node is filled field by field inside the alternatives, so that a broken line keeps what was read.
// biome-ignore-all lint/complexity/noCommaOperator: an alternative is several tokens in a row, and each would else be a block of its own.
import { dateOf, figureOf, nameOf, spanOf, textOf } from "./line-nodes.ts";
import {
  A,
  Comma,
  DateToken,
  Each,
  EqualsSign,
  Figure,
  Free,
  From,
  Name,
  On,
  OrderWord,
  Over,
  Pack,
  Price,
  TextToken,
  Times,
  To,
  X,
  blankToken,
  figureToken,
} from "./tokens.ts";
import type { Name as NameNode, ReceivedItem, ShimCount } from "./tree.ts";
import { statuses } from "./words.ts";
import { ActionGrammar } from "./action-grammar.ts";

export abstract class SupplyGrammar extends ActionGrammar {
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
    node.item = this.SUBRULE(this.threadedItem);
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
    this.OPTION(() => {
      this.CONSUME(To);
      node.to = nameOf(this.CONSUME1(Name));
    });
  });

  readonly needLine = this.RULE("needLine", () => {
    const node = this.filling<"need">();
    this.CONSUME(Name);
    node.item = this.SUBRULE(this.threadedItem);
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
    node.item = this.SUBRULE(this.threadedItem);
    node.amount = this.SUBRULE(this.quantity);
    this.OPTION(() => (this.CONSUME(Price), void (node.price = this.SUBRULE(this.money))));
  });

  readonly workLine = this.RULE("workLine", () => {
    const node = this.filling<"work">();
    const places = this.list<NameNode>("places");
    this.CONSUME(Name);
    node.part = nameOf(this.CONSUME1(Name));
    this.OPTION2({
      GATE: () => figureToken(this.LA(1)) && !(blankToken(this.LA(1)) && this.LA(2).tokenType !== TextToken),
      DEF: () => void (node.count = figureOf(this.CONSUME(Figure))),
    });
    this.OPTION({ GATE: () => this.placeBeforeText(), DEF: () => void this.SUBRULE(this.names, { ARGS: [places] }) });
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
        const item = this.SUBRULE(this.threadedItem);
        list.push({ item });
        list[list.length - 1] = { item, amount: this.SUBRULE(this.quantity) };
      },
    });
    this.OPTION(() => void this.CONSUME(On));
    this.OPTION1(() => void (node.date = dateOf(this.CONSUME(DateToken))));
  });
}

const statusWords: ReadonlySet<string> = new Set(statuses);
