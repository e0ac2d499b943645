// The pieces of the machine at each of their places, touched or not, and those of them that stand beside another.
import type { Name } from "../../../grammar/tree.ts";
import { grouped } from "../../model/grouped.ts";
import { placesOf } from "../../model/job.ts";
import { isSamePlace } from "../../model/same-place.ts";
import { fastenerAsItStands, partAsItStands } from "../../story/cells.ts";
import type { FastenerCell, PartCell, Story } from "../../story/story.ts";

export type Piece = PartCell | FastenerCell;

type PieceOf<K extends Piece["kind"]> = K extends "part" ? PartCell : FastenerCell;

export interface Pieces {
  /** At each of its places, touched or not; the same objects whenever it is asked. */
  of(name: string): readonly Piece[];
  /** Those of the same place; all of them, where its places are of another kind. */
  beside<K extends Piece["kind"]>(names: readonly Name[], place: string, kind: K): PieceOf<K>[];
}

/** `others`: pieces that no line speaks of. */
export function piecesOf(story: Story, others: readonly Piece[]): Pieces {
  const known = grouped<string, Piece>([...story.parts, ...story.fasteners, ...others], (cell) => cell.thing.name);
  const cells = new Map<string, readonly Piece[]>();

  function of(name: string): readonly Piece[] {
    let list = cells.get(name);
    if (list === undefined) {
      list = [...(known.get(name) ?? []), ...untouchedOf(story, name, known.get(name) ?? [])];
      cells.set(name, list);
    }
    return list;
  }

  return {
    of,
    beside: (names, place, kind) =>
      names.flatMap((name) => {
        const all = of(name.text).filter((it): it is PieceOf<typeof kind> => it.kind === kind);
        const here = all.filter((it) => isSamePlace(it.place, place));
        return (here.length > 0 ? here : all).filter((it) => !it.unsure);
      }),
  };
}

/** At those of its places at which it was not touched. */
function untouchedOf({ job }: Story, name: string, touched: readonly Piece[]): Piece[] {
  const thing = job.things.get(name);
  if (thing?.kind !== "part" && thing?.kind !== "fastener") return [];
  const left = placesOf(job, thing).filter((place) => !touched.some((it) => it.place === place) && (place !== "" || touched.length === 0));
  return left.map((place) => (thing.kind === "part" ? partAsItStands(thing, place) : fastenerAsItStands(thing, place)));
}
