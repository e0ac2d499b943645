// What goes round and keeps its balance by its own weight, drilled, welded or filed here, and nothing since says that it was balanced or weighed.
// Invariant: asked of what is critical and is called a weight of balance, and of a wheel that was made lighter or heavier on purpose; any word of balance, of weight or of how it ran is enough.
import { allWords, wordsIn } from "../model/titles.ts";
import type { Entry } from "../../grammar/tree.ts";
import type { PartCell, PartMoment, Story } from "../story/story.ts";

export interface Unbalanced {
  readonly cell: PartCell;
  readonly repair: PartMoment;
}

export function unbalanced(story: Story): Unbalanced[] {
  const out: Unbalanced[] = [];
  for (const cell of story.parts) {
    const { thing } = cell;
    if (!thing.critical || thing.implied || cell.unsure) continue;
    const repair = cell.history.findLast((it) => it.phase === "done" && it.verb === "repair" && shiftsWeight(allWords(thing), it.action?.text?.value ?? ""));
    if (repair === undefined || cell.history.some((it) => it.seq > repair.seq && it.phase === "done" && it.verb === "fit" && it.isNew)) continue;
    if (!isToldSince(story, repair)) out.push({ cell, repair });
  }
  return out;
}

function shiftsWeight(called: string, work: string): boolean {
  if (ofBalance.test(work.replace(weightOfBalance, " "))) return false;
  return (weightOfBalance.test(called) && cutOrBuilt.test(work)) || (goesRound.test(called) && onPurpose.test(work));
}

/** In the words of what comes behind it, and of the orders, which may stand anywhere; `balance weight` is only its name. */
function isToldSince({ job, seen, readings }: Story, { where: { entry: at }, seq }: PartMoment): boolean {
  const { entries } = job.own.sheet;
  const later = entries.filter((entry, i) => entry.kind === "order" || (i >= entries.indexOf(at) && tells.has(entry.kind)));
  const said = [
    ...later.flatMap((it) => wordsIn(it)),
    ...seen.filter((it) => it.seq > seq).map(({ check }) => allWords(check)),
    ...readings.filter((it) => it.seq > seq && it.stage !== "found").map(({ limit }) => allWords(limit)),
  ];
  return said.some((text) => ofBalance.test(text.replace(weightOfBalance, " ")));
}

const tells: ReadonlySet<Entry["kind"]> = new Set<Entry["kind"]>(["step", "finding", "measure", "seen", "question", "pause", "release"]);
const weightOfBalance = /\b(balance|balancing|counter|bob)[- ]?weights?\b|\bcounterbalance\w*/giu;
const cutOrBuilt =
  /\b(drill\w*|lighten\w*|weld\w*|braz\w*|built up|build up|fil(ed|ing)|ground|grind\w*|turned|machined|milled|cut (off|away|down|back)|shorten\w*|lead(ed)?|plugg?ed)\b/iu;
const goesRound = /\b(flywheel|crank ?shaft|crank|rotor|propeller|fan|impeller|grind(ing )?stone|grinding wheel|drum|wheel)\b/iu;
const onPurpose = /\b(lighten\w*|make it lighter|weight (off|on|added|welded|riveted|bolted)|(lump|lug|piece|plate) (welded|brazed|riveted|bolted) on)\b/iu;
const ofBalance =
  /\bbalanc\w*|\bweigh(s|ed|ing)?\b|\bweights? (of|to|against|match\w*|equal\w*|same|again)\b|\b(same|equal|of one) weight\b|\bscales?\b|\bgram(me)?s?\b|\d ?(g|kg|oz|lb)\b|\bknife[- ]?edges?\b|\bvibrat\w*|\bshak(e|es|ing)\b|\btrembl\w*|\b(runs?|ran|spins?|turns?|turned) (up |quite |very )?(smooth|steady|quiet|sweet|true|even)\w*/iu;
