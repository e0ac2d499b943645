// What an editor's settings say, from its first message or a later one.
// Invariant: whatever it sends, a setting that is not understood is as usual.
import { type HintKind, hintKinds, usualHints } from "../service.ts";

export interface Settings {
  readonly hints: readonly HintKind[];
  /** The editor shows the pictures of a Markdown text that lie on the disk. */
  readonly pictures: boolean;
  /** It has the commands of the extension, which lenses may run. */
  readonly commands: boolean;
}

/** `{ hints: { verdicts: false, otherSystem: true }, pictures: true, commands: true }`, or the same under `splitpin`. */
export function settingsFrom(told: unknown): Settings {
  const all = fields(told);
  const hints = fields(fields(all.splitpin).hints ?? all.hints);
  return {
    pictures: (fields(all.splitpin).pictures ?? all.pictures) === true,
    commands: (fields(all.splitpin).commands ?? all.commands) === true,
    hints: hintKinds.filter((it) => (typeof hints[it] === "boolean" ? hints[it] : usualHints.includes(it))),
  };
}

function fields(it: unknown): Readonly<Record<string, unknown>> {
  return typeof it === "object" && it !== null && !Array.isArray(it) ? (it as Readonly<Record<string, unknown>>) : {};
}
