// Which cautions a job calls for, by what is done in it and to what.
// Invariant: reminders, told by the words of the sheet's own names; a word that is not there brings none, so they are never all that there is to know.
import { type Caution, cautions } from "../../trade/cautions.ts";
import type { Story } from "../../story/story.ts";

/** In the order of the list. Brakes, steering, suspension, an axle or a wheel touched always bring the one about licensed people. */
export function cautionsFor(story: Story): Caution[] {
  const about = new Set<Caution["about"]>();
  const { job } = story;
  if (story.support.some((it) => it.verb === "raise" || it.verb === "support")) about.add("support").add("jack");
  for (const cell of [...story.parts, ...story.fasteners]) {
    if (cell.history.length === 0) continue;
    const { thing } = cell;
    const words = `${thing.name} ${thing.title ?? ""} ${thing.criticalWhat ?? ""}`;
    if (/brak|clutch|lining|shoe|gasket/iu.test(words)) about.add("asbestos");
    if (/brak|steer|suspens|axle|(?<!fly|crown |gear )wheel|king.?pin|track rod|drag link/iu.test(words)) about.add("licence");
    if (/brak/iu.test(words)) about.add("solvent");
    if (/spring|circlip/iu.test(words)) about.add("spring").add("eyes");
    if (thing.kind === "part" && thing.material === "white-metal") about.add("heat");
    const locking = thing.kind === "fastener" ? thing.locking?.locking.kind : undefined;
    if (locking === "split pin" || locking === "tab washer" || locking === "lock wire") about.add("single-use");
    if (locking === "split pin" || locking === "roll pin" || locking === "taper pin" || locking === "circlip") about.add("eyes");
  }
  for (const cell of story.fluids) if (cell.history.length > 0 && /oil|grease|fluid/iu.test(`${cell.thing.name} ${cell.thing.title ?? ""}`)) about.add("oil");
  for (const thing of job.things.values()) if (thing.kind === "hazard" && /spring/iu.test(`${thing.name} ${thing.title ?? ""}`)) about.add("spring");
  return cautions.filter((it) => about.has(it.about));
}
