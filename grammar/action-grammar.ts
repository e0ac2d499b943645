// The grammar of what is done in a step: a verb, its things and places, and what belongs to the verb.
// Invariant: what a verb takes stands in its row of `words/action-words.ts`.
// biome-ignore-all lint/suspicious/noAssignInExpressions: a node is filled field by field inside the alternatives, so that a broken line keeps what was read.
// biome-ignore-all lint/complexity/noCommaOperator: an alternative is several tokens in a row, and each would else be a block of its own.
import { EOF, type IToken } from "chevrotain";
import { figureOf, fixOf, nameOf, spanOf, textOf } from "./line-nodes.ts";
import {
  After,
  Back,
  Before,
  By,
  Comma,
  Each,
  Figure,
  For,
  From,
  Load,
  Name,
  New,
  Now,
  On,
  Plus,
  Rated,
  Stand,
  TextToken,
  To,
  Together,
  Under,
  With,
  blankToken,
  endOf,
  figureToken,
  goingOnToken,
  nameToken,
  unitOnlyToken,
} from "./tokens.ts";
import type { Name as NameNode, Quantity, Thing } from "./tree.ts";
import { bearers, lifters, rests } from "./words.ts";
import { type Tail, actionShapes } from "./words/action-words.ts";

import { PieceGrammar } from "./piece-grammar.ts";

export const takesCount = (verb: string): boolean => actionShapes.get(verb)?.counts !== undefined;
/** Whether a word that could be a name reads as a unit of a torque or a turn behind a figure: `tighten cap-nut 45 Nm`. */
export const readsAsTorque = (word: string): boolean => torqueUnit.test(word);
const torqueUnit = /^(?:n?m|ncm|nm|kgf?m|kgf?cm|k?n|lbf?s?|ft|in|oz|ozf|kgf?|(?:ft|in)-?lbf?s?|lbf?s?-?(?:ft|in)|deg|flats?|turns?)$/i;

export abstract class ActionGrammar extends PieceGrammar {
  protected beginAction(verb: IToken): void {
    this.node.kind = "action";
    this.node.verb = verb.image;
    this.node.things = [];
    this.node.places = [];
    this.verb = verb.image;
  }

  protected readonly things = this.RULE("things", () => {
    const things = this.list<Thing>("things");
    const places = this.list<NameNode>("places");
    this.AT_LEAST_ONE_SEP({
      SEP: Comma,
      DEF: () => {
        const name = nameOf(this.CONSUME(Name));
        things.push({ name });
        this.OPTION({ GATE: () => this.countStands(), DEF: () => void (things[things.length - 1] = { name, count: figureOf(this.CONSUME(Figure)) }) });
      },
    });
    this.SUBRULE(this.places, { ARGS: [places] });
  });

  protected countStands(): boolean {
    const counts = actionShapes.get(this.verb)?.counts;
    if (counts !== "often") return counts === "always";
    const behind = this.LA(2);
    // Nothing is undone, slackened or locked to a torque: there the word is a place.
    const torqued = this.verb === "tighten" || this.verb === "let";
    return (
      (/^\d+$/.test(this.LA(1).image) || blankToken(this.LA(1))) && !unitOnlyToken(behind) && !(torqued && nameToken(behind) && readsAsTorque(behind.image))
    );
  }

  /** `lower` of the machine; `lower PART… [on …]` of a part that hangs. */
  readonly lowerLine = this.RULE("lowerLine", () => {
    this.beginAction(this.CONSUME(Name));
    this.OPTION({
      GATE: () => this.LA(1).tokenType !== On,
      DEF: () => {
        if (this.live) this.loweredWhere();
        this.SUBRULE(this.things);
        this.OPTION1(() => {
          this.CONSUME(On);
          this.OR({
            DEF: [
              { ALT: () => void (this.node.text = textOf(this.CONSUME(TextToken))) },
              { GATE: () => this.isWord(restWords), ALT: () => void (this.node.on = nameOf(this.CONSUME1(Name))) },
            ],
            ERR_MSG: "rest",
          });
        });
      },
    });
  });

  /** `lower to ground`, `lower off stands`: read as a part it would leave the machine up. */
  protected loweredWhere(): void {
    // The list may be padded behind its end.
    const line = this.input.filter((it) => it.image !== "");
    const [verb, first] = line;
    const last = line.at(-1);
    if (verb === undefined || first === undefined || last === undefined || !/^(?:to|off|onto|down|from|the|back)$/.test(first.image)) return;
    const words = line.slice(1).map((it) => it.image);
    if (
      words.some((it) => !/^(?:to|off|on|onto|down|from|the|its|own|machine|back|ground|floor|earth|stands?|axle|jack|lift|hoist|ramps?|wheels?|it)$/.test(it))
    )
      return;
    this.complain({ from: first.startOffset, to: endOf(last) }, "`lower` alone says that the machine is back on the ground.", [
      fixOf("Write `lower`", { from: endOf(verb), to: endOf(last) }, ""),
    ]);
  }

  readonly aloneLine = this.RULE("aloneLine", () => this.beginAction(this.CONSUME(Name)));

  readonly chockLine = this.RULE("chockLine", () => {
    this.beginAction(this.CONSUME(Name));
    this.OPTION(() => void (this.node.text = textOf(this.CONSUME(TextToken))));
  });

  readonly raiseLine = this.RULE("raiseLine", () => {
    this.beginAction(this.CONSUME(Name));
    this.CONSUME(On);
    const word = this.word(lifterWords, "lifter");
    this.node.on = nameOf(word);
    this.OPTION({
      GATE: () => standWords.has(word.image) || word.image === "bench",
      DEF: () => {
        this.CONSUME(Stand);
        if (this.live && word.image !== "bench") this.node.on = { text: `${word.image === "center" ? "centre" : word.image} stand`, at: this.over(word) };
      },
    });
    if (this.live && standWords.has(word.image) && (this.node.on as NameNode).text === word.image)
      this.complain(spanOf(word), `Two words name it: ${word.image} stand.`, [fixOf(`Write ${word.image} stand`, spanOf(word), `${word.image} stand`)]);
  });

  readonly supportLine = this.RULE("supportLine", () => {
    this.beginAction(this.CONSUME(Name));
    this.OPTION({ GATE: () => this.LA(1).tokenType !== On || this.LA(2).tokenType === On, DEF: () => this.SUBRULE(this.things) });
    this.CONSUME(On);
    this.OPTION1(() => void (this.node.standCount = figureOf(this.CONSUME(Figure))));
    const bearer = this.word(bearerWords, "bearer");
    // `1 stand` is `1 stands`: how many there are stands before it.
    if (bearer?.image === "stand" && this.node.standCount === undefined && this.live)
      this.complain(spanOf(bearer), "How many stands? Write 1 stand, 2 stands or how many it was.", [
        fixOf("Write 1 stand", spanOf(bearer), "1 stand"),
        fixOf("Write 2 stands", spanOf(bearer), "2 stands"),
      ]);
    this.node.on = bearer?.image === "stand" ? { text: "stands", at: spanOf(bearer) } : nameOf(bearer);
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
    const tail = actionShapes.get(this.verb)?.takes;
    const takes = (part: Tail) => tail?.includes(part) === true;
    if (this.live && takes("new")) this.newBeforeName();
    this.wordBeforeName();
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
        if (type === To) return (takes("to") || takes("degrees")) && this.node.to === undefined && this.node.temperature === undefined;
        if (type === By) return takes("by") && this.node.by === undefined;
        return takes("amount") && this.node.amount === undefined;
      },
      DEF: () =>
        this.OR([
          { GATE: () => takes("text"), ALT: () => void (this.node.text = textOf(this.CONSUME(TextToken))) },
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
          {
            ALT: () => {
              const stages: Quantity[] = [];
              this.CONSUME(To);
              this.AT_LEAST_ONE_SEP1({ SEP: Comma, DEF: () => void stages.push(this.SUBRULE(this.quantity)) });
              this.node[takes("degrees") ? "temperature" : "to"] = stages[stages.length - 1];
              if (stages.length > 1) this.node.stages = stages;
              this.OPTION2({ GATE: () => takes("to"), DEF: () => (this.CONSUME(Plus), void (this.node.angle = this.SUBRULE2(this.quantity))) });
            },
          },
          { ALT: () => (this.CONSUME(By), void (this.node.by = nameOf(this.CONSUME2(Name)))) },
          { ALT: () => void (this.node.amount = this.SUBRULE1(this.quantity)) },
        ]),
    });
    this.OPTION1({ GATE: () => takes("text") && this.node.text === undefined, DEF: () => void (this.node.text = textOf(this.CONSUME2(TextToken))) });
  });

  /** `fit new hub` would be a thing called new, at a place called hub. */
  protected newBeforeName(): void {
    const [, first, second] = this.input;
    if (first?.tokenType !== New || second === undefined || !nameToken(second) || goingOnToken(second)) return;
    const tail = this.input.findIndex((it, i) => i > 1 && it.tokenType !== Comma && !figureToken(it) && (!nameToken(it) || goingOnToken(it)));
    const end = endOf(this.input[tail === -1 ? this.input.length - 1 : tail - 1] as IToken);
    const edits = [
      { at: { from: first.startOffset, to: second.startOffset }, text: "" },
      { at: { from: end, to: end }, text: " new" },
    ];
    this.complain(spanOf(first), `Write \`new\` after the name: ${this.verb} ${second.image} new.`, [{ title: "Write `new` after the name", edits }]);
  }

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

  /** `let back 1 flat` of a fastener; `let back FASTENER… by 1 flat` in a step. */
  readonly letBackLine = this.RULE("letBackLine", () => {
    const verb = this.CONSUME(Name);
    this.node.kind = "let-back";
    this.CONSUME(Back);
    this.OR({
      IGNORE_AMBIGUITIES: true,
      DEF: [
        // A blank may be either: what is let back has `by` behind it.
        {
          GATE: () => !blankToken(this.LA(1)) || !this.input.some((it) => it.tokenType === By),
          ALT: () => void (this.node.back = this.SUBRULE(this.turned)),
        },
        {
          ALT: () => {
            this.beginAction(verb);
            this.SUBRULE(this.things);
            this.CONSUME(By);
            this.node.back = this.SUBRULE1(this.turned);
          },
        },
      ],
    });
  });

  /** `bleed` of a fluid, `bleed FLUID…` in a step. */
  readonly bleedLine = this.RULE("bleedLine", () => {
    const verb = this.CONSUME(Name);
    this.node.kind = "needs-bleed";
    this.OPTION(() => {
      this.beginAction(verb);
      this.SUBRULE(this.things);
    });
  });
}

const standWords: ReadonlySet<string> = new Set(["centre", "center", "paddock"]);
const lifterWords: ReadonlySet<string> = new Set([...lifters.filter((it) => !it.includes(" ")), ...standWords, "hoist"]);
const restWords: ReadonlySet<string> = new Set(rests);
const bearerWords: ReadonlySet<string> = new Set([...bearers, "stand"]);
