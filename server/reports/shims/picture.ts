// The picture of a stack of shims: what is in now and what goes in, one slab a shim, as thick as it is beside the others.
// Invariant: floats draw and decide nothing; each slab carries its thickness in words.
import { type Markup, html } from "../draw/html.ts";
import { stackPictureWords } from "./words.ts";
import type { ShimShown, StackShown } from "./shims.ts";

const wide = 120;
const right = 62;
/** More slabs than a picture can hold are told in the words beside it. */
const mostSlabs = 24;

export function stackPicture(stack: StackShown): Markup | undefined {
  const now = slabs(stack.now);
  const then = slabs(stack.then);
  const all = [...now, ...then];
  if (all.length === 0 || now.length > mostSlabs || then.length > mostSlabs) return undefined;
  const thickest = Math.max(...all.map((it) => Number(it.thickness)));
  // The thickest is 34 high; none is so thin that its figure would not fit.
  const high = (it: ShimShown) => Math.max(15, Math.round((Number(it.thickness) / thickest) * 34));
  const tall = (list: readonly ShimShown[]) => list.reduce((sum, it) => sum + high(it), 0);
  const most = Math.max(tall(now), tall(then));
  const floor = most + 26;
  return html`<svg class="stack" viewBox="0 0 ${2 * (wide + right)} ${floor + 24}" role="img" aria-label="${stackPictureWords(stack)}">
${column("now", now, 0, floor, high, stack.nowTotal)}${column("then", then, wide + right, floor, high, stack.thenTotal)}</svg>`;
}

function slabs(list: readonly ShimShown[]): ShimShown[] {
  return list.flatMap((it) => Array.from({ length: Math.min(it.count, mostSlabs + 1) }, () => it));
}

/** Built up from the seat: the thickest lies lowest. */
function column(title: string, list: readonly ShimShown[], x: number, floor: number, high: (it: ShimShown) => number, total: string): Markup {
  let y = floor;
  const drawn = list.map((it) => {
    const h = high(it);
    y -= h;
    return html`<rect class="slab" x="${x + 4}" y="${y}" width="${wide - 8}" height="${h}"/><text x="${x + wide / 2}" y="${y + h / 2 + 4}" text-anchor="middle">${it.text}</text>`;
  });
  return html`<text class="strong" x="${x + 4}" y="12">${title}</text>${drawn}<line class="wall" x1="${x}" y1="${floor + 2}" x2="${x + wide}" y2="${floor + 2}"/><text x="${x + 4}" y="${floor + 18}">${total} in all</text>
`;
}
