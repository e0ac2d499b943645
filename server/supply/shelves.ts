// What lies there of one item, over all its shelves: each as it was counted last, and what came and was used since, of which no line says into or from which of them.
// Invariant: a newer count takes the place of the older ones of its shelf and of no other; what is held is never below nothing.
import { type Exact, compare, zero } from "../quantities/exact.ts";

interface Counted {
  readonly shelf: string;
  readonly beginnings: readonly string[];
  readonly day: string;
  readonly amount: Exact;
  /** Its place among all that happened. */
  readonly at: number;
}

/** What came or was used, and has not shown in a count yet. */
interface Moved {
  readonly at: number;
  amount: Exact;
}

export class Shelves {
  /** By shelf; the one that was counted longest ago first. */
  readonly #counts = new Map<string, Counted>();
  /** The shelves whose words begin so. */
  readonly #beginning = new Map<string, Set<string>>();
  readonly #came: Moved[] = [];
  readonly #used: Moved[] = [];
  #day: string | undefined;
  #at = 0;
  held = zero;
  /** By how much more was used than was there, since the last count. */
  lacking = zero;

  comes(amount: Exact): void {
    this.#came.push({ at: ++this.#at, amount });
    this.held = this.held.add(amount);
  }

  isUsed(amount: Exact): void {
    const taken = lesser(this.held, amount);
    this.#used.push({ at: ++this.#at, amount: taken });
    this.held = this.held.sub(taken);
    this.lacking = this.lacking.add(amount.sub(taken));
  }

  /** `where` as written: without it the count is of all that there is. Two counts of one day are two drawers, and add up. */
  isCounted(amount: Exact, where: string | undefined, day: string): void {
    const beginnings = beginningsOf(where);
    const shelf = beginnings[beginnings.length - 1] as string;
    let before = zero;
    for (const name of this.#alike(beginnings, shelf)) {
      const older = this.#counts.get(name);
      if (older === undefined || older.day === day) continue;
      before = before.add(older.amount);
      this.#forget(older);
    }
    const drawer = this.#counts.get(shelf);
    this.#keep({ shelf, beginnings, day, amount: drawer === undefined ? amount : drawer.amount.add(amount), at: drawer?.at ?? ++this.#at });
    this.held = this.held.add(amount);
    if (before.n !== 0n) this.held = this.held.sub(before);
    // What a shelf holds more than before is of what came, and what it holds less was used: neither is to be reckoned twice.
    if (shelf !== "" && this.#came.length > 0) this.held = this.held.sub(deducted(this.#came, amount.sub(before)));
    if (shelf !== "" && this.#used.length > 0) this.held = this.held.add(deducted(this.#used, before.sub(amount)));
    // Since all shelves were counted anew, what came and went before that is in the counts.
    if (this.#came.length > 0 || this.#used.length > 0) {
      const [oldest] = this.#counts.values();
      if (oldest !== undefined) this.held = this.held.sub(until(this.#came, oldest.at)).add(until(this.#used, oldest.at));
    }
    // What was counted just now is there.
    if (compare(this.held, amount) < 0) this.held = amount;
    // Whatever was used before, this is what is there.
    if (day !== this.#day) this.lacking = zero;
    this.#day = day;
  }

  /** The same shelf, or what may be the same: one's words are the beginning of the other's ("Tin", "Tin, what is left"). */
  #alike(beginnings: readonly string[], shelf: string): readonly string[] {
    const longer = this.#beginning.get(shelf);
    return longer === undefined ? beginnings : [...beginnings, ...longer];
  }

  #keep(count: Counted): void {
    this.#counts.set(count.shelf, count);
    for (const words of count.beginnings) {
      const shelves = this.#beginning.get(words);
      if (shelves === undefined) this.#beginning.set(words, new Set([count.shelf]));
      else shelves.add(count.shelf);
    }
  }

  #forget({ shelf, beginnings }: Counted): void {
    this.#counts.delete(shelf);
    for (const words of beginnings) this.#beginning.get(words)?.delete(shelf);
  }
}

/** What tells two shelves apart stands in the first words. */
const wordsThatTell = 6;

/** What is said of where a shelf is, in small letters: from no word of it to all of them. */
function beginningsOf(where: string | undefined): readonly string[] {
  const out = [""];
  for (const word of (where ?? "")
    .normalize("NFC")
    .toLowerCase()
    .match(/[\p{L}\p{N}]+/gu)
    ?.slice(0, wordsThatTell) ?? [])
    out.push(out.length === 1 ? word : `${out[out.length - 1]} ${word}`);
  return out;
}

/** Takes so much at most off what moved, the oldest first, and gives how much that was. */
function deducted(moves: Moved[], amount: Exact): Exact {
  let rest = amount;
  let gone = 0;
  for (const move of moves) {
    if (compare(rest, zero) <= 0) break;
    const part = lesser(move.amount, rest);
    rest = rest.sub(part);
    move.amount = move.amount.sub(part);
    if (move.amount.n === 0n) gone += 1;
  }
  moves.splice(0, gone);
  return compare(amount, zero) <= 0 ? zero : amount.sub(rest);
}

/** Takes off what moved before this, and gives how much that was. */
function until(moves: Moved[], at: number): Exact {
  const end = moves.findIndex((it) => it.at > at);
  const sum = (all: Exact, it: Moved) => all.add(it.amount);
  return moves.splice(0, end === -1 ? moves.length : end).reduce(sum, zero);
}

function lesser(a: Exact, b: Exact): Exact {
  return compare(a, b) < 0 ? a : b;
}
