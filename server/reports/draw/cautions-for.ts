// Which cautions a job calls for: first those that its own sheet gives, then the usual ones, by what is done in it, to what, and on what kind of machine.
// Invariant: reminders, told by the words of the sheet's own names; a word that is not there brings none, so they are never all that there is to know.
import type { Job } from "../../model/job.ts";
import type { Hazard } from "../../model/things.ts";
import { midSentence } from "../../model/titles.ts";
import { capital } from "../../rules/wording.ts";
import { type Caution, cautions } from "../../trade/cautions.ts";
import { type KindOfMachine, kindOfMachine } from "../../trade/kind-of-machine.ts";
import type { Story } from "../../story/story.ts";

/** The sheet's own first. Brakes, steering, suspension, an axle or a wheel of what goes on the road, touched, always bring the one about licensed people. */
export function cautionsFor(story: Story): Caution[] {
  const about = new Set<Caution["about"]>();
  const { job } = story;
  const kind = kindOf(job);
  const machine = wordsOfMachine(job);
  const isDiesel = /diesel|compression.?ignition/iu.test(machine);
  // Of a steam engine an injector is what feeds the boiler.
  const fuels = /steam|boiler/iu.test(machine) ? /\b(fuel|petrol|lift pump)\b/iu : /\b(carburett?or|fuel|petrol|lift pump|injector|float chamber)\b/iu;
  const fuelled = (words: string) => about.add(/diesel/iu.test(words) || (isDiesel && !/petrol|vapour|carburett?or/iu.test(words)) ? "jet" : "fuel");
  supportCautions(story, kind, about);
  for (const cell of [...story.parts, ...story.fasteners]) {
    if (cell.history.length === 0) continue;
    const { thing } = cell;
    const words = `${thing.name} ${thing.title ?? ""}`;
    if (/\b(lining|brake shoe|brake pad|friction (?:disc|plate)|clutch (?:plate|disc))/iu.test(words) || (kind.road && /brak|clutch|lining|shoe/iu.test(words)))
      about.add("asbestos");
    if (/gasket|packing|joint ring/iu.test(words)) about.add("gaskets");
    if (
      kind.road &&
      /brak|steer|suspens|axle|(?<!fly|crown |gear |hand|worm )wheel|king.?pin|track rod|drag link/iu.test(`${words} ${thing.criticalWhat ?? ""}`)
    )
      about.add("licence");
    if (kind.lifts && (thing.critical || /brake|hook|chain|rope|pawl|load/iu.test(words))) about.add("examined");
    if (kind.driven && /guard|belt|pulley|spindle|chuck|gear|shaft|clutch/iu.test(words)) about.add("rotating");
    if (/spring(?![ -]?(?:washer|steel|pin))/iu.test(words)) about.add("spring").add("eyes");
    if (thing.kind === "part" && thing.material === "white-metal") about.add("heat");
    if (fuels.test(words)) fuelled(words);
    if (/radiator|thermostat|exhaust|steam|boiler/iu.test(words)) about.add("hot");
    const locking = thing.kind === "fastener" ? thing.locking?.locking.kind : undefined;
    if (locking === "split pin" || locking === "tab washer" || locking === "lock wire") about.add("single-use");
    if (locking === "split pin" || locking === "roll pin" || locking === "taper pin" || locking === "circlip") about.add("eyes");
  }
  for (const cell of story.fluids) {
    if (cell.history.length === 0) continue;
    const words = `${cell.thing.name} ${cell.thing.title ?? ""}`;
    if (/brake|clutch fluid|hydraulic fluid|\bdot ?[345]/iu.test(words)) about.add("brake-fluid");
    else if (/fuel|petrol|diesel|paraffin|kerosene|two-?stroke/iu.test(words)) fuelled(words);
    else if (/coolant|water|antifreeze/iu.test(words)) about.add("hot");
    else if (/oil|grease|fluid/iu.test(words)) about.add("oil");
  }
  for (const thing of job.things.values()) {
    if (thing.kind !== "hazard" || !met(story, thing)) continue;
    const words = `${thing.name} ${thing.title ?? ""}`;
    if (/spring/iu.test(words)) about.add("spring");
    if (electric.test(words)) about.add("mains");
    if (/fuel|petrol|vapour|inject|diesel/iu.test(words)) fuelled(words);
    if (/\bhot\b|heat|steam|coolant|boil/iu.test(words)) about.add("hot");
    if (/belt|running|rotat|turning|line ?shaft|flywheel/iu.test(words)) about.add("rotating");
  }
  for (const { entry } of story.visits) {
    for (const detail of entry.details) {
      if (detail.kind !== "action") continue;
      const words = `${detail.verb} ${detail.text?.value ?? ""}`;
      if (/solvent|brake cleaner|degreas/iu.test(words)) about.add("solvent");
      if (/\b(heat|warm|oven|hot|torch)/iu.test(words)) about.add("hot");
    }
  }
  return [...ownCautions(story), ...cautions.filter((it) => about.has(it.about))];
}

function wordsOfMachine({ sheet }: Job): string {
  const named = (sheet?.details ?? []).flatMap((it) => (it.kind === "machine" ? [it.text?.value ?? ""] : []));
  return [sheet?.title?.value ?? "", ...named].join(" ");
}

const electric = /mains|electric|isolator|three-?phase|single-?phase|\bvolt|\b(?:230|240|400|415) ?v\b/iu;

/** The kind of machine that a job is on, by what its sheet calls it. */
export function kindOf(job: Job): KindOfMachine {
  const parts: string[] = [];
  for (const thing of job.things.values())
    if (!thing.implied && (thing.kind === "part" || thing.kind === "fastener")) parts.push(thing.title ?? thing.name, thing.criticalWhat ?? "");
  return kindOfMachine(wordsOfMachine(job), parts.join("\n"));
}

function supportCautions(story: Story, kind: KindOfMachine, about: Set<Caution["about"]>): void {
  for (const it of story.support) {
    if (it.verb !== "raise" && it.verb !== "support") continue;
    const on = it.action?.on?.text ?? "";
    if (/crane|hoist|sling|chain|lift|tackle/iu.test(on)) about.add("lifting");
    else if (it.verb === "raise") about.add("jack");
    about.add(kind.road ? "support" : "held");
  }
}

/** Does the job come near it: it was made safe or live again, or what it must be safe before was touched? A data file of the whole machine names others. */
function met(story: Story, hazard: Hazard): boolean {
  const near = [hazard.name, ...[...hazard.safeBefore, ...hazard.restoreAfter].map((it) => it.text)];
  return near.some((name) => story.cells(name).some((cell) => cell.history.length > 0));
}

/** Those of several jobs, each once, in the same order. */
export function cautionsForAll(stories: readonly Story[]): Caution[] {
  const all = stories.flatMap(cautionsFor);
  const told = new Map(all.map((it) => [it.words, it]));
  const usual = cautions.filter((it) => told.get(it.words) === it);
  return [...[...told.values()].filter((it) => it.about === "own"), ...usual];
}

/** What the sheet says of its hazards, and in the steps that are still to be done. The same words are told once. */
function ownCautions(story: Story): Caution[] {
  const said = new Map<string, string>();
  const put = (words: string | undefined, of: string) => {
    const text = words?.trim() ?? "";
    if (text !== "" && !said.has(text)) said.set(text, of);
  };
  for (const thing of story.job.things.values()) {
    if (thing.kind !== "hazard" || thing.implied || !met(story, thing)) continue;
    for (const { detail } of thing.lines) if (detail.kind === "caution") put(detail.text?.value, capital(midSentence(thing)));
  }
  for (const visit of story.visits) {
    if (visit.phase !== "planned") continue;
    const step = visit.entry.title?.value ?? visit.entry.name?.text ?? "a step";
    for (const detail of visit.entry.details) if (detail.kind === "caution" && detail.fault === undefined) put(detail.text?.value, step);
  }
  // A title with a colon of its own is told from what is to be done by a dash.
  return [...said].map(([words, of]) => ({ about: "own", words: `${of}${of.includes(":") ? " \u2013" : ":"} ${words}`, source: "this sheet" }));
}
