// A machine in one line, as reports of several sheets head what they say of it.

/** “Porter 3-ton, BP3 20918, at 71240 mi”. */
export function machineLine(it: { readonly machine: string; readonly serial: string | null; readonly counter: string | null }): string {
  return `${it.machine}${it.serial === null ? "" : `, ${it.serial}`}${it.counter === null ? "" : `, at ${it.counter}`}`;
}
