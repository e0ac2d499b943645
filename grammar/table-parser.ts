// A parser of one token of look-ahead that chooses by a table: see first-tokens.ts. Chevrotain runs the rules; this gives it the functions by which it chooses.
// Invariant: the table says for each place of each rule what Chevrotain's own look-ahead would.
import {
  Alternation,
  EarlyExitException,
  EmbeddedActionsParser,
  type IOrAlt,
  type IProduction,
  type IToken,
  type LookaheadProductionType,
  NoViableAltException,
  NonTerminal,
  Option,
  Repetition,
  RepetitionMandatory,
  RepetitionMandatoryWithSeparator,
  RepetitionWithSeparator,
  type Rule,
  type TokenType,
  getLookaheadPaths,
} from "chevrotain";
import { noteFailure } from "./failure.ts";
import { type Beginning, type Choice, type Choices, anything, broughtAlong } from "./first-tokens.ts";

/** Parts of Chevrotain's parser that its types don't tell. */
interface Inside {
  selfAnalysisDone: boolean;
  readonly fullRuleNameToShort: Readonly<Record<string, number>>;
  setLaFuncCache(rule: number, key: number, choose: (this: Inside, alternatives: readonly IOrAlt<unknown>[]) => unknown): void;
  LA_FAST(at: 1): IToken;
  getCurrRuleFullName(): string;
  SAVE_ERROR(error: Error): Error;
}

/** A parser of one token of look-ahead that chooses by a table. */
export abstract class TableParser extends EmbeddedActionsParser {
  private readonly types: readonly TokenType[];
  private table: Choices = {};

  protected constructor(types: TokenType[]) {
    super(types, { maxLookahead: 1, recoveryEnabled: false, errorMessageProvider: noteFailure });
    this.types = types;
  }

  protected override performSelfAnalysis(): void {
    const inside = this as unknown as Inside;
    if (broughtAlong === undefined) {
      super.performSelfAnalysis();
      this.table = choicesOf(Object.values(this.getGAstProductions()), this.types);
    } else {
      inside.selfAnalysisDone = true;
      this.table = broughtAlong.choices;
    }
    for (const [rule, choices] of Object.entries(this.table)) {
      for (const choice of choices) {
        inside.setLaFuncCache(inside.fullRuleNameToShort[rule] as number, choice[0], this.chooserOf(choice));
      }
    }
  }

  /** What the parser chooses by, to be brought along. */
  get choices(): Choices {
    return this.table;
  }

  /** The number of the alternative to take, undefined where none fits; of what has no alternatives, whether it is there. */
  private chooserOf([key, gated, alternatives]: Choice): (this: Inside, given: readonly IOrAlt<unknown>[]) => unknown {
    const fits = alternatives.map((it) => new Lookup(this.types, [it]));
    if (key >> bitsOfOccurrence !== ways.Alternation) {
      const [only] = fits as [Lookup];
      return function () {
        return only.of(this.LA_FAST(1)) !== undefined;
      };
    }
    if (!gated) {
      const all = new Lookup(this.types, alternatives);
      return function () {
        return all.of(this.LA_FAST(1));
      };
    }
    return function (given) {
      const next = this.LA_FAST(1);
      for (let i = 0; i < fits.length; i++) {
        const gate = (given[i] as IOrAlt<unknown>).GATE;
        if (gate !== undefined && gate.call(this) === false) continue;
        if ((fits[i] as Lookup).of(next) !== undefined) return i;
      }
      return undefined;
    };
  }

  // Both stand in for methods of Chevrotain, which would look up what it recorded of the rule for a sentence that nobody reads.

  protected raiseNoAltException(_occurrence: number, choice: string | undefined): never {
    const [actual, previous] = [this.LA(1), this.LA(0)];
    const inside = this as unknown as Inside;
    const ruleName = inside.getCurrRuleFullName();
    const description = choice === undefined ? {} : { customUserDescription: choice };
    noteFailure.buildNoViableAltMessage({ expectedPathsPerAlt: [], actual: [actual], previous, ruleName, ...description });
    throw inside.SAVE_ERROR(new NoViableAltException("", actual, previous));
  }

  protected raiseEarlyExitException(occurrence: number, kind: number, choice: string | undefined): never {
    const [actual, previous] = [this.LA(1), this.LA(0)];
    const inside = this as unknown as Inside;
    const ruleName = inside.getCurrRuleFullName();
    // Chevrotain counts the kinds of repetition that want at least one by 2 and 3 here.
    const way = kind === 3 ? ways.RepetitionMandatoryWithSeparator : ways.RepetitionMandatory;
    const [, , [beginning = []] = []] = this.table[ruleName]?.find(([key]) => key === ((way << bitsOfOccurrence) | occurrence)) ?? [];
    const expectedIterationPaths = beginning.map((it) => [this.types[it] as TokenType]);
    const description = choice === undefined ? {} : { customUserDescription: choice };
    noteFailure.buildEarlyExitMessage({ expectedIterationPaths, actual: [actual], previous, ruleName, ...description });
    throw inside.SAVE_ERROR(new EarlyExitException("", actual, previous));
  }
}

/** Which of several alternatives a token begins, the first of them first. Made when it is first asked: most lines of the language stand in no one sheet. */
class Lookup {
  private found: number[] | undefined;
  /** The first that may be empty: what begins none before it is for that one. */
  private otherwise: number | undefined;

  constructor(
    private readonly types: readonly TokenType[],
    private readonly alternatives: readonly Beginning[],
  ) {}

  of({ tokenTypeIdx }: IToken): number | undefined {
    this.found ??= this.made();
    return this.found[tokenTypeIdx] ?? this.otherwise;
  }

  private made(): number[] {
    const found: number[] = [];
    for (const [i, beginning] of this.alternatives.entries()) {
      for (const index of beginning) {
        if (index === anything) {
          this.otherwise = i;
          continue;
        }
        const type = this.types[index] as TokenType;
        for (const it of [type.tokenTypeIdx as number, ...(type.categoryMatches ?? [])]) found[it] ??= i;
      }
      if (this.otherwise !== undefined) break;
    }
    return found;
  }
}

// ---------------------------------------------------------------- finding it out

/** Chevrotain's numbers for the ways in which a rule may go on; below them stands which of its kind it is in its rule. */
const ways = {
  Alternation: 1,
  Option: 2,
  Repetition: 3,
  RepetitionMandatory: 4,
  RepetitionWithSeparator: 5,
  RepetitionMandatoryWithSeparator: 6,
} as const satisfies Record<LookaheadProductionType, number>;
const bitsOfOccurrence = 8;

const kinds = [
  [Alternation, "Alternation"],
  [Option, "Option"],
  [RepetitionMandatoryWithSeparator, "RepetitionMandatoryWithSeparator"],
  [RepetitionMandatory, "RepetitionMandatory"],
  [RepetitionWithSeparator, "RepetitionWithSeparator"],
  [Repetition, "Repetition"],
] as const;

function choicesOf(rules: readonly Rule[], types: readonly TokenType[]): Choices {
  const out: Record<string, Choice[]> = {};
  for (const rule of rules) {
    const own: Choice[] = [];
    collect(rule, rule.definition, own);
    if (own.length > 0) out[rule.name] = own;
  }
  return out;

  function collect(rule: Rule, list: readonly IProduction[], into: Choice[]): void {
    for (const it of list) {
      // What another rule holds is found there.
      if (it instanceof NonTerminal) continue;
      const kind = kinds.find(([type]) => it instanceof type)?.[1];
      if (kind !== undefined) {
        const occurrence = (it as Option).idx;
        const paths = getLookaheadPaths({ occurrence, rule, prodType: kind, maxLookahead: 1 });
        const alternatives = (kind === "Alternation" ? paths : paths.slice(0, 1)).map((alternative) => alternative.map(([type]) => indexOf(type)));
        into.push([(ways[kind] << bitsOfOccurrence) | occurrence, (it as { hasPredicates?: boolean }).hasPredicates === true, alternatives]);
      }
      collect(rule, (it as { definition?: readonly IProduction[] }).definition ?? [], into);
    }
  }

  function indexOf(type: TokenType | undefined): number {
    if (type === undefined) return anything;
    const index = types.indexOf(type);
    if (index === -1) throw new Error(`The vocabulary does not hold ${type.name}.`);
    return index;
  }
}
