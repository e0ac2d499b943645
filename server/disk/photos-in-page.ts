// The photos of a page, each as a `data:` address inside it.
// Invariant: a page holds so much of photos and no more; what does not fit is said.
import type { Files, PhotoAnswer } from "../model/files.ts";

/** More than a browser likes to hold, or a letter to carry. */
export const mostPhotos = 40 * 1024 * 1024;

/** Gives each photo of one page in turn: its address, or why it is not shown. */
export function photosInPage(files: Files): (inside: string) => { readonly src: string } | { readonly whyNot: string } {
  let held = 0;
  return (inside) => {
    const answer = files.photo?.(inside);
    if (answer?.kind !== "photo") return { whyNot: answer?.why ?? "can't be had here" };
    const src = addressOf(answer);
    if (src === undefined) return { whyNot: "could not be read" };
    if (held + src.length > mostPhotos) return { whyNot: `is not in this page, which holds ${mostPhotos / 1024 / 1024} MB of photos already` };
    held += src.length;
    return { src };
  };
}

/** `data:image/png;base64,…`; undefined where the file became another meanwhile. */
export function addressOf(answer: Extract<PhotoAnswer, { kind: "photo" }>): string | undefined {
  const base64 = answer.base64();
  return base64 === "" ? undefined : `data:${answer.type};base64,${base64}`;
}
