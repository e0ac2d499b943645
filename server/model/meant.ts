// What an undeclared name is a slip for. The slip is said where it stands; all else goes on as if the near name stood there, so that one cause makes one error.
// Invariant: a name that is declared, or that a head which can't be read may have declared, is no slip.
import type { Job, Undeclared } from "./job.ts";
import { nearestNames } from "./near.ts";
import type { Thing, ThingKind } from "./things.ts";

/** The declared names nearest to each undeclared one, of the kinds that may stand where it stands; at most three where none is nearest. */
export type Slips = ReadonlyMap<string, readonly string[]>;

const none: Slips = new Map();

export function slipsOf(undeclared: readonly Undeclared[], things: ReadonlyMap<string, Thing>, unreadNames: ReadonlySet<string>): Slips {
  if (undeclared.length === 0) return none;
  const slips = new Map<string, readonly string[]>();
  const lists = new Map<string, readonly string[]>();
  for (const { reference } of undeclared) {
    const { name, wants } = reference;
    if (unreadNames.has(name.text)) continue;
    const key = wants.join();
    let names = lists.get(key);
    if (names === undefined) {
      names = namesDeclared(things, wants);
      lists.set(key, names);
    }
    const near = nearOf(name.text, key, names);
    if (near.length === 0) continue;
    const known = slips.get(name.text);
    slips.set(name.text, known === undefined || known === near ? near : [...new Set([...known, ...near])]);
  }
  return slips;
}

/** The name that was meant: where one declared name alone is near to an undeclared one, that one; else the name as it is written. */
export function meant(job: Pick<Job, "slips">, name: string): string {
  if (job.slips.size === 0) return name;
  const near = job.slips.get(name);
  return near?.length === 1 ? (near[0] as string) : name;
}

/** Names that are declared, by what they may be. */
export function namesDeclared(things: ReadonlyMap<string, Thing>, wants: readonly ThingKind[]): readonly string[] {
  const names: string[] = [];
  for (const thing of things.values()) if (!thing.implied && wants.includes(thing.kind)) names.push(thing.name);
  return names;
}

const remembered = new Map<string, { readonly names: readonly string[]; readonly near: Map<string, readonly string[]> }>();

/** The nearest of the declared names; looked for again only where another name is declared than were when it was last looked for. */
export function nearOf(written: string, wants: string, names: readonly string[]): readonly string[] {
  let known = remembered.get(wants);
  if (known === undefined || !same(known.names, names)) {
    known = { names, near: new Map() };
    remembered.set(wants, known);
  }
  let near = known.near.get(written);
  if (near === undefined) {
    near = nearestNames(written, names);
    if (known.near.size > 2000) known.near.clear();
    known.near.set(written, near);
  }
  return near;
}

function same(a: readonly string[], b: readonly string[]): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
