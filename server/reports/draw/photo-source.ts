// How a page comes by a photo: the address of its bytes, a mark by which an editor brings them after the page, or why it can't be shown.

/** `inside`: the path of the photo in the workspace. */
export type PhotoSource = (inside: string) => { readonly src: string } | { readonly mark: string } | { readonly whyNot: string };
