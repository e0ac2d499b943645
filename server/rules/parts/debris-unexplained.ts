// Metal in a fluid, and nothing that accounts for it.
import { hasCondition } from "../../model/has.ts";
import { relationsOf } from "../../model/relations.ts";
import type { JobRule } from "../rule.ts";
import { isElsewhere } from "../../story/cells.ts";
import { refilledSince } from "../../story/put-right.ts";
import type { FluidCell, Found, PartCell, PartMoment } from "../../story/story.ts";
import { agreeing, called, midSentence, placeFoundName } from "../wording.ts";
import type { ConditionKind } from "../../../grammar/tree.ts";

export const rule: JobRule = {
  id: "debris-unexplained",
  group: "Parts",
  severity: "warning; error at release where critical parts run in that fluid",
  safety: false,
  title: "Metal in a fluid, and nothing that accounts for it",
  why: "Metal in the oil was part of something that is still in there. Find what it came from, and write `fragments from …` or a finding on the part.",
  wrong: `part pinion "Pinion"
fluid oil "Axle oil"
  in pinion
finding oil
  is metallic
#    ^^^^^^^^ warning debris-unexplained
`,
  right: `part pinion "Pinion"
fluid oil "Axle oil"
  in pinion
finding oil
  is fragments from pinion
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasCondition(job, "metallic", "fragments")) return;
    const { story, judged } = context;
    for (const found of story.findings) {
      const fluid = found.thing;
      shed(found);
      if (fluid.kind !== "fluid") continue;
      const metal = found.conditions.find(({ condition }) => (condition.kind === "metallic" || condition.kind === "fragments") && condition.from === undefined);
      if (metal === undefined || found.conditions.some(({ condition }) => condition.from !== undefined)) continue;
      const parts = withBehind(fluid.in.map((name) => name.text));
      if (isAccountedFor(found, parts)) continue;
      const critical = [...parts].some((name) => {
        const part = job.things.get(name);
        return part?.kind === "part" && part.critical;
      });
      report({
        where: metal.where,
        severity: story.release !== undefined && critical ? "error" : "warning",
        message: `${called(fluid, placeFoundName(found.places))} holds ${metal.condition.kind === "metallic" ? "metal" : "fragments"}, and the sheet doesn't say from what. Find where it came from, and write \`fragments from …\` or a finding on it.`,
      });
    }

    /** Some part that the fluid runs in has shed it, by a finding or by its figure. */
    function isAccountedFor(found: Found, parts: ReadonlySet<string>, byItself = false): boolean {
      return (
        story.findings.some(
          (it) =>
            (parts.size === 0 || parts.has(it.thing.name)) &&
            it.thing.kind === "part" &&
            it.places.some((place) => isHere(found, it.thing, place)) &&
            it.conditions.some(({ condition }) => sheds.has(condition.kind)),
        ) ||
        judged.verdicts.some(
          (it) =>
            it.outcome === "out" &&
            it.band !== "new" &&
            it.band !== "set" &&
            isHere(found, it.limit, it.place) &&
            it.limit.of.some((name) => parts.has(name.text)) &&
            (!byItself || it.limit.of.length === 1),
        )
      );
    }

    /**
     * At the release: a fluid that holds metal is drained and filled anew, and the part that it is from is looked at, or put right. Fragments that lay in a filter or a pan were shed
     * by it as well.
     */
    function shed(found: Found): void {
      const holder = found.thing;
      if (story.release === undefined || (holder.kind !== "fluid" && holder.kind !== "part")) return;
      const metal = found.conditions.filter(({ condition }) => condition.kind === "metallic" || condition.kind === "fragments");
      const [first] = metal;
      if (first === undefined) return;
      const kind = first.condition.kind === "metallic" ? "metal" : "fragments";
      const named = metal.flatMap(({ condition, where }) => (condition.from === undefined ? [] : [{ name: condition.from.text, where }]));
      const runsIn = withBehind(holder.kind === "fluid" ? holder.in.map((name) => name.text) : []);
      const grave = [...runsIn, ...named.map((it) => it.name)].some((name) => {
        const part = job.things.get(name);
        return part?.kind === "part" && part.critical;
      });
      const severity = grave ? "error" : "warning";
      for (const { name, where } of named) {
        const part = job.things.get(name);
        if (part?.kind !== "part" || part === holder) continue;
        const from = `${called(holder, placeFoundName(found.places))} holds ${kind} from the ${midSentence(part)}`;
        const sound = soundAndBack(name, found, kind);
        if (sound !== undefined) {
          // Of a dust nobody sees whose it is, and what else is worn in there accounts for it. Fragments were known by their shape.
          const others = kind === "metal" ? runsIn : [];
          // A play between three pieces is not of the one that is called good.
          if (!isAccountedFor(found, new Set([...others, ...named.map((it) => it.name)]), kind === "fragments"))
            report({
              where,
              severity,
              open: true,
              message: `${from}, which is found serviceable and goes back. Write \`because\` under that with what it lost, or find what the ${kind === "metal" ? "metal is" : "fragments are"} from.`,
              related: [{ where: sound.where, message: "Found serviceable here." }],
            });
          continue;
        }
        if (isAnswered(name, found)) continue;
        report({
          where,
          severity,
          open: true,
          message: `${from}, and nothing says since what that is like. Look at it and write a finding, or renew it.`,
        });
      }
      if (holder.kind !== "fluid") return;
      const cells = story.cells(holder.name).filter((cell): cell is FluidCell => cell.kind === "fluid" && found.places.includes(cell.place));
      if (cells.some((cell) => !cell.unsure && refilledSince(cell, found.seq) === undefined))
        report({
          where: first.where,
          severity,
          open: true,
          message: `${called(holder, placeFoundName(found.places))} ${agreeing(holder, "was")} found with ${kind} in it, and is still the same. Drain it, and fill it anew.`,
        });
    }

    /** The last word on it is that it is sound, with nothing of what it lost, and it was neither mended nor renewed. */
    function soundAndBack(name: string, found: Found, kind: string): Found | undefined {
      const last = story.findings.findLast((it) => it.thing.name === name && it.places.some((place) => isHere(found, it.thing, place)));
      // What sheds a dust may be looked at before its oil; a piece that is missing is missed then.
      if (last === undefined || (kind === "metal" && last.seq < found.seq) || !last.conditions.every(({ condition }) => condition.kind === "serviceable"))
        return undefined;
      if (last.decision !== undefined && last.decision.detail.decision !== "reuse") return undefined;
      if (last.entry.details.some((it) => (it.kind === "because" || it.kind === "note") && lost.test((it.text?.value ?? "").replace(whole, " "))))
        return undefined;
      const cells = story.cells(name).filter((cell): cell is PartCell => cell.kind === "part" && isHere(found, cell.thing, cell.place));
      // What nobody took out is in it still.
      const isAsItWas = ({ unsure, history, now }: PartCell) =>
        !unsure && now.on > 0 && !history.some((it) => it.phase === "done" && (it.verb === "repair" || (it.verb === "fit" && it.isNew)));
      return cells.some(isAsItWas) ? last : undefined;
    }

    /** Something was found of it, or done to it, behind that; or it was found before, and has not gone back since. */
    function isAnswered(name: string, found: Found): boolean {
      const cells = story.cells(name).filter((cell): cell is PartCell => cell.kind === "part" && isHere(found, cell.thing, cell.place));
      if (cells.some((cell) => cell.unsure)) return true;
      const last = story.findings.findLast((it) => it.thing.name === name && it.places.some((place) => isHere(found, it.thing, place)));
      if (last !== undefined && last.seq > found.seq) return true;
      const done = (is: (it: PartMoment) => boolean) => cells.some((cell) => cell.history.some((it) => it.phase === "done" && is(it)));
      if (done((it) => it.seq > found.seq && (it.verb === "repair" || (it.verb === "fit" && it.isNew)))) return true;
      const since =
        last?.seq ?? judged.verdicts.findLast((it) => it.outcome === "out" && it.seq < found.seq && it.limit.of.some((of) => of.text === name))?.seq;
      return since !== undefined && !done((it) => it.verb === "fit" && it.seq > since && it.seq < found.seq);
    }

    /** Of the place where the metal was found: what is worn in the right hub sheds nothing into the left. */
    function isHere(found: Found, thing: Found["thing"], place: string): boolean {
      return found.places.some((at) => !isElsewhere(job, thing, place, at));
    }

    /** The parts that a fluid is in, and those behind them. */
    function withBehind(names: readonly string[]): Set<string> {
      const all = new Set(names);
      for (const name of all) for (const part of relationsOf(job).behind.get(name) ?? []) all.add(part.name);
      return all;
    }
  },
};

/** That it lost nothing: “white metal whole”, “no edge lifting”. */
const whole =
  /\b(white[- ]?)?(metal|face|faces|edges?)( (is|was|are|all|still|quite))* (whole|sound|bright|good|tight|fast|smooth|unbroken|firm|clean|perfect|holds|held)\b|\b(no|not|nothing|never|without)( \w+){0,2} (worn|wear|lifting|lifted|chip\w*|flak\w*|edges?|scuff\w*|missing|lost|shed)\b|\bnothing lost\b/giu;

/** What it lost, in words, or that it was none of its own. */
const lost =
  /\b(metal|fragments?|swarf|flak(e|es|ed|ing)|chip(s|ped|ping)?|burrs?|filings|shavings|slivers?|debris|bits?|pieces?|shed|lost|wear|worn|rub(bed|s)?|scuff(ed|s)?|edges?|bedd(ed|ing)|scraped|lapped|bored|running[- ]in|run[- ]in|(not|came) from|another|other)\b/i;

const sheds: ReadonlySet<ConditionKind> = new Set([
  "worn",
  "cracked",
  "broken",
  "pitted",
  "scored",
  "corroded",
  "seized",
  "damaged",
  "missing",
  "stripped",
  "sheared",
]);
