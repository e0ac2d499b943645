// The day that it is where the program runs, for the doors: nothing further in knows a clock.

/** ISO 8601, by the clock and the time zone of the machine. */
export function today(now = new Date()): string {
  const two = (figure: number) => String(figure).padStart(2, "0");
  return `${String(now.getFullYear()).padStart(4, "0")}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
