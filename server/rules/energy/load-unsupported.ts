// A heavy part loses its last fastener and nothing holds it.
import { isSamePlace } from "../../model/same-place.ts";
import { allWords } from "../../model/titles.ts";
import { hasAction, hasLine } from "../../model/has.ts";
import { grouped } from "../../model/grouped.ts";
import { relationsOf } from "../../model/relations.ts";
import { measured, quantityText } from "../../model/values.ts";
import { type Exact, exact, zero } from "../../quantities/exact.ts";
import type { Part } from "../../model/things.ts";
import type { Where } from "../../model/where.ts";
import { onAt } from "../../story/in-place.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { byHand, hangsOnStuds, standsOnStuds } from "../../model/carries.ts";
import type { JobRule } from "../rule.ts";
import { called, calledAt, listed, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "load-unsupported",
  group: "Energy and support",
  severity: "warning; error with somebody `under`",
  safety: true,
  title:
    "A heavy part (`mass` 20 kg and over, by itself, with what the same fasteners let go, or as a crane bore it) loses its last fastener and nothing holds it; one over 60 kg that hung on a crane goes on with nothing",
  why: "Twenty kilograms on the last bolt comes down on hands or feet. Take its weight on a jack, a cradle or a crane first, and write `support PART on …`. (20 kg is a rule of this tool, not a limit for lifting: local rules may ask for less.)",
  wrong: `part gearbox "Gearbox"
  held by gearbox-bolt
  mass 45 kg
fastener gearbox-bolt "Gearbox bolt"
step strip "Gearbox out"
  undo gearbox-bolt
#      ^^^^^^^^^^^^ warning load-unsupported
  done
`,
  right: `part gearbox "Gearbox"
  held by gearbox-bolt
  mass 45 kg
fastener gearbox-bolt "Gearbox bolt"
step strip "Gearbox out"
  support gearbox on cradle
  undo gearbox-bolt
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasLine(job, "mass") && !hasAction(job, "support")) return;
    const { story } = context;
    const { holds } = relationsOf(job);
    const loads = loadsSaid(story);
    const stays = (part: Part) => staysByItself(part, loads.get(part.name)?.mass);
    const isHeavy = (part: Part) => isHeavyTogether([part]) || loads.has(part.name);
    // One line that lets a part go at several places is one mistake.
    const dropped = new Map<object, Map<string, Dropped>>();
    const drop = (it: FastenerMoment | PartMoment, { thing, place }: PartCell, together: readonly Part[]) => {
      const ofLine = dropped.get(it.action ?? it) ?? new Map<string, Dropped>();
      dropped.set(it.action ?? it, ofLine);
      const known = ofLine.get(thing.name);
      if (known === undefined) ofLine.set(thing.name, { part: thing, it, places: [place], with: together });
      else if (!known.places.includes(place)) known.places.push(place);
    };
    // What nothing holds is let go where it comes off.
    for (const cell of story.parts) {
      if (cell.thing.heldBy.length > 0 || !isHeavy(cell.thing) || stays(cell.thing)) continue;
      for (const it of cell.history) {
        if (it.verb !== "remove" || it.before.on === 0 || it.support.unclear?.hold || it.support.supports.some((by) => by.part === cell.thing.name)) continue;
        drop(it, cell, []);
      }
    }
    for (const cell of story.fasteners) {
      const parts = (holds.get(cell.thing.name) ?? []).filter((part) => (grams(part) !== undefined || loads.has(part.name)) && !stays(part));
      if (parts.length === 0) continue;
      for (const it of cell.history) {
        if (it.verb !== "undo" || it.before.on === 0 || it.after.on > 0) continue;
        const falling = parts.flatMap((part) =>
          story
            .cells(part.name)
            .filter((other): other is PartCell => other.kind === "part" && isSamePlace(other.place, cell.place))
            .filter((held) => !it.support.unclear?.hold && onAt(held, it.seq) > 0 && lastOff(held, it.seq) && !isBorne(it, part))
            // On its studs with its nuts off, and slung before it is drawn off them.
            .filter((held) => !(hangsOnStuds(part) && isBorneAsItComesOff(held, it.seq))),
        );
        for (const held of falling) if (isHeavy(held.thing)) drop(it, held, []);
        // What the same fasteners let go comes down as one, and weighs what it weighs together.
        for (const [first, ...others] of grouped(
          falling.filter((held) => !isHeavy(held.thing)),
          (held) => held.place,
        ).values())
          if (first !== undefined && isHeavyTogether([first, ...others].map((held) => held.thing)))
            drop(
              it,
              first,
              others.map((held) => held.thing),
            );
      }

      /** Every fastener that holds the part is off once this one is. */
      function lastOff(held: PartCell, seq: number): boolean {
        return held.thing.heldBy.every((name) => {
          const cells = story.cells(name.text).filter((other): other is FastenerCell => other.kind === "fastener");
          const here = cells.filter((other) => other.place === held.place);
          const asked = here.length > 0 ? here : cells;
          return asked.length > 0 && asked.every((other) => lastBefore(other, seq)?.after.on === 0);
        });
      }
    }
    // What hung on a crane as it came off, and is more than two people lift, weighs as much as it goes on.
    const said = new Set<object>();
    for (const cell of story.parts) {
      const mass = measured(cell.thing.mass);
      if (mass === undefined || !isHeavy(cell.thing) || mass.value.compare(byHand) <= 0 || stays(cell.thing)) continue;
      const borne = (it: PartMoment) => it.support.supports.some((by) => by.part === cell.thing.name);
      const hung = (it: PartMoment) => it.support.supports.some((by) => by.part === cell.thing.name && by.on === "crane");
      const off = cell.history.find((it) => it.verb === "remove" && it.before.on > 0 && hung(it));
      if (off === undefined) continue;
      // Where it was set down when it was off lifts it nowhere: what bears it as it goes on was put under it in that step.
      const lies = (it: PartMoment) => {
        const last = it.support.supports.findLast((by) => by.part === cell.thing.name);
        return last?.on === "cradle" && last.moment.seq > off.seq && last.moment.visit === off.visit && it.visit !== off.visit;
      };
      for (const it of cell.history) {
        if (
          it.verb !== "fit" ||
          it.phase !== "done" ||
          it.seq < off.seq ||
          it.count === 0 ||
          (borne(it) && !lies(it)) ||
          it.support.unclear?.hold ||
          said.has(it.action ?? it)
        )
          continue;
        said.add(it.action ?? it);
        report({
          where: it.where,
          severity: "warning",
          message: `${called(cell.thing, cell.place)} weighs ${cell.thing.mass === undefined ? "" : quantityText(cell.thing.mass)} and goes on here; nothing bears it, as something did when it came off. Write \`support ${cell.thing.name} on …\` before it.`,
          related: [{ where: off.where, message: "Borne here." }],
        });
      }
    }
    const weighs = (part: Part) => {
      const said = isHeavyTogether([part]) ? undefined : loads.get(part.name);
      if (said !== undefined && part.mass === undefined) return `weighs ${said.load} (line ${context.line(said.where)})`;
      if (said === undefined) return `weighs ${part.mass === undefined ? "" : quantityText(part.mass)}`;
      return `weighs ${said.load} with what is joined to it (line ${context.line(said.where)})`;
    };
    for (const ofLine of dropped.values()) {
      for (const { part, it, places, with: together } of ofLine.values()) {
        report({
          where: it.where,
          severity: it.support.under === undefined ? "warning" : "error",
          message:
            together.length > 0
              ? asOne([part, ...together], places, part.name)
              : `${calledAt(part, places)} ${weighs(part)}${places.length > 1 ? " each" : ""} ${part.heldBy.length === 0 ? "and comes off here" : "and loses its last fastener here"}; nothing holds it. Take its weight first: \`support ${part.name} on …\`${mayLie(part) ? ', or say so: `fits "lies on its joint"`' : ""}.`,
        });
      }
    }
  },
};

interface Dropped {
  readonly part: Part;
  readonly it: FastenerMoment | PartMoment;
  readonly places: string[];
  /** What comes down with it, none of it heavy by itself. */
  readonly with: readonly Part[];
}

function asOne(parts: readonly Part[], places: readonly string[], name: string): string {
  const weights = parts.map((it) => (it.mass === undefined ? "" : quantityText(it.mass)));
  const [first, ...others] = parts as [Part, ...Part[]];
  return `${listed([calledAt(first, places), ...others.map((it) => midSentence(it))])} weigh ${listed(weights)}, and lose their last fastener here together; nothing holds them. Take their weight first: \`support ${name} on …\`.`;
}

/**
 * By part, the first line that says that so much as is heavy hangs on a crane with it alone: what is joined to it hangs there too. A jack, stands and slings of several
 * lines may bear a share of the machine.
 */
function loadsSaid({ support }: Story): ReadonlyMap<string, { readonly load: string; readonly mass: Exact; readonly where: Where }> {
  const out = new Map<string, { load: string; mass: Exact; where: Where }>();
  for (const { verb, action, where } of support) {
    const { on, load, things, count } = { ...action, count: action.standCount };
    const [thing] = things;
    const mass = measured(load);
    if (verb !== "support" || on?.text !== "crane" || count !== undefined || thing === undefined || things.length !== 1 || load === undefined) continue;
    if (mass?.unit.dimension !== "mass" || mass.value.compare(heavy) < 0 || out.has(thing.name.text)) continue;
    out.set(thing.name.text, { load: quantityText(load), mass: mass.value, where });
  }
  return out;
}

function isBorne({ support }: FastenerMoment, { name }: Part): boolean {
  return support.supports.some((by) => by.part === name || by.underPart === name);
}

/** Behind that line it comes off, and something bears it then. */
function isBorneAsItComesOff({ history, thing }: PartCell, seq: number): boolean {
  const off = history.find((it) => it.seq > seq && it.verb === "remove");
  return off?.support.supports.some((by) => by.part === thing.name || by.underPart === thing.name) === true;
}

function isHeavyTogether(parts: readonly Part[]): boolean {
  return parts.reduce((sum, part) => sum.add(grams(part) ?? zero), zero).compare(heavy) >= 0;
}

/** Undefined where nobody says it. */
function grams(part: Part): Exact | undefined {
  const mass = measured(part.mass);
  return mass?.unit.dimension === "mass" ? mass.value : undefined;
}

/** Its fasteners out, it stays where it is until it is pulled off: on its studs, on its hub, or on hooks of its own, as its `fits` says. */
function staysByItself(part: Part, load: Exact | undefined): boolean {
  const words = allWords(part);
  return (
    standsOnStuds(part, load) ||
    (/\bdrum\b/i.test(words) && /brake/i.test(`${words} ${part.criticalWhat ?? ""}`)) ||
    /\b(hooks?|hung|hangs|spigot)\b|\b(lies|rests|sits) (\w+ )?(on|upon|in)\b/i.test(part.fits ?? "")
  );
}

/** Where it is on top it lies on its joint with its nuts off, which no sheet needs to say of it but here. */
function mayLie(part: Part): boolean {
  return /\b(covers?|lids?|heads?|tops?|caps?|bonnets?|hoods?)$/i.test((part.title ?? part.name).replace(/,.*$/, "").trim());
}

/** 20 kg in grams. */
const heavy = exact("20000") as Exact;

function lastBefore(cell: FastenerCell, seq: number): FastenerMoment | undefined {
  return cell.history.findLast((it) => it.seq <= seq);
}
