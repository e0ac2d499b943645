// Raised and never chocked.
import { hasAction } from "../../model/has.ts";
import { allWords } from "../../model/titles.ts";
import type { Where } from "../../model/where.ts";
import { rollsOrCarries } from "../../model/carries.ts";
import { type FastenerCell, type FastenerMoment, type PartCell, type PartMoment, type Story, standsByItself } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "chocks-missing",
  group: "Energy and support",
  severity: "warning; error with somebody `under`",
  safety: true,
  title: "Raised and never chocked, or chocked only afterwards, or at the end that is raised, or by the brake that comes off",
  why: "A machine on two wheels and a jack rolls off the jack. Chock the wheels that stay down and put the brake on before it goes up (UK HSE, motor vehicle repair).",
  wrong: `step up "Up"
  raise on jack
# ^^^^^ warning chocks-missing (fix)
  support on 2 stands under "frame"
  done
`,
  right: `step up "Up"
  chock
  raise on jack
  support on 2 stands under "frame"
  done
`,
  fixed: `step up "Up"
  chock
  raise on jack
  note "___"
  support on 2 stands under "frame"
  done
`,
  scope: "job",
  check(context) {
    const { job, report } = context;
    if (!hasAction(job, "raise")) return;
    const { story } = context;
    const wrong = atTheRaisedEnd(story);
    if (wrong !== undefined)
      report({
        where: wrong.where,
        severity: "warning",
        message: `The ${wrong.end} wheels are chocked, and the ${wrong.end} end is what is raised: nothing stops the others rolling. Chock the wheels that stay down.`,
      });
    const hold = holdLetGo(story);
    if (hold !== undefined)
      report({
        where: hold.chock.where,
        severity: "warning",
        message: `What keeps it from rolling is ${hold.by}, and that is let go by this job while it is up (${midSentence(hold.cell.thing, hold.cell.place)}, line ${context.line(hold.moment.where)}). Chock the wheels that stay down.`,
        related: [{ where: hold.moment.where, message: "Let go here." }],
      });
    let chocked = false;
    let planned: Where | undefined;
    let raise: (typeof story.support)[number] | undefined;
    let under = false;
    let late: Where | undefined;
    for (const it of story.support) {
      // What is only planned keeps nothing from rolling that is up already. A line that can't be read may have been that.
      if (it.verb === "chock") {
        if (it.phase === "planned" && raise?.phase === "done") planned ??= it.where;
        else {
          chocked = true;
          if (raise !== undefined) late ??= it.where;
        }
      } else if (it.before.unclear?.chock) chocked = true;
      // A crane lifts a thing off the floor, and a stand of its own or a bench holds all of it; nothing rolls.
      if (it.verb === "raise" && it.action.on?.text !== "crane" && !standsByItself(it.action.on?.text) && !chocked) raise ??= it;
      // Chocks that come when somebody has been underneath already came too late for them.
      if (it.verb === "under" && raise !== undefined && !chocked && planned === undefined) under = true;
    }
    if (raise === undefined || (chocked && !under && late === undefined)) return;
    const column = raise.action.at.from;
    report({
      where: raise.where,
      severity: under ? "error" : "warning",
      message:
        under && chocked
          ? "It is raised, and chocked only after somebody was underneath. Chock the wheels that stay down first."
          : chocked && late !== undefined
            ? `It is raised, and chocked only afterwards (line ${context.line(late)}). Chock the wheels that stay down first.`
            : `It is raised and nothing stops it rolling. Chock the wheels that stay down first, and write \`chock\`.${planned === undefined ? "" : ` It is planned at line ${context.line(planned)}, not done.`}`,
      related: planned === undefined ? [] : [{ where: planned, message: "Planned here, not done." }],
      fixes: [{ title: "Write `chock` above", edits: [{ where: { ...raise.where, at: { from: column, to: column } }, text: "chock\n  " }] }],
    });
  },
};

/** The wheels of one end are chocked, by the words of the line, and that is the end which is raised: by what the stands are under, or by the wheels that come off. */
function atTheRaisedEnd(story: Story): { readonly where: Where; readonly end: string } | undefined {
  const chocks = story.support.filter((it) => it.verb === "chock");
  const [chock] = chocks;
  const raises = story.support.filter((it) => it.verb === "raise");
  const [raise] = raises;
  const text = chock?.action.text?.value ?? "";
  if (chock === undefined || chocks.length > 1 || raise?.action.on?.text !== "jack" || raises.length > 1 || otherHold.test(text)) return undefined;
  const end = endIn(text);
  const bears = story.support.filter((it) => it.verb === "support" && it.action.things.length === 0);
  const under = bears.map((it) => endIn((it.action.underText?.value ?? "").replace(endOfSpring, " ")) ?? "");
  const off = story.parts
    .filter((cell) => rollsOrCarries(cell.thing) && cell.history.some((it) => it.verb === "remove" && it.seq > raise.seq && it.after.on < it.before.on))
    .map(({ thing, place }) => endIn(`${place} ${thing.title ?? thing.name}`))
    .filter((it) => it !== undefined);
  const said = under.some((it) => it !== "") ? under : off;
  // A title tells of the other end, whatever stands there are of: “back brakes”, on stands at the spring front eyes.
  const titles = [story.job.sheet?.title?.value, raise.visit?.entry.title?.value].map((it) => endIn(it ?? ""));
  if (titles.some((it) => it !== undefined && it !== end)) return undefined;
  return end !== undefined && said.length > 0 && [...said, ...off].every((it) => it === end) ? { where: chock.where, end } : undefined;
}

interface Hold {
  readonly chock: Story["support"][number];
  /** The brake, or a gear, as it is called. */
  readonly by: string;
  readonly cell: PartCell | FastenerCell;
  readonly moment: PartMoment | FastenerMoment;
}

/** By the words of the line a brake or a gear is all that holds it, and something of that is undone or comes off while it is up. */
function holdLetGo(story: Story): Hold | undefined {
  const chocks = story.support.filter((it) => it.verb === "chock");
  const [chock] = chocks;
  const text = chock?.action.text?.value ?? "";
  if (chock === undefined || chocks.length > 1 || chock.phase !== "done" || underWheels.test(text)) return undefined;
  const raise = story.support.find((it) => it.verb === "raise" && it.phase === "done");
  const down = story.support.find((it) => it.verb === "lower" && it.phase === "done")?.seq ?? Number.POSITIVE_INFINITY;
  const kind = holds.find(({ said }) => said.test(text));
  if (raise === undefined || kind === undefined) return undefined;
  for (const cell of [...story.parts, ...story.fasteners]) {
    if (!kind.of.test(`${allWords(cell.thing)} ${cell.thing.criticalWhat ?? ""}`)) continue;
    const moment = (cell.history as readonly (PartMoment | FastenerMoment)[]).find(
      (it) => it.phase === "done" && it.seq > chock.seq && it.seq < down && (it.after.on < it.before.on || it.verb === "undo"),
    );
    if (moment !== undefined) return { chock, by: kind.by, cell, moment };
  }
  return undefined;
}

/** What is laid under a wheel, tied to something or stood against a wall holds by itself. */
const underWheels =
  /\b(wheels?|tyres?|tires?|chock\w*|block\w*|brick\w*|wood\w*|wedg\w*|baulks?|scotch\w*|sleepers?|wall|tied|rope\w*|strap\w*|chain\w*|ways)\b/iu;

/** Common practice: a gear holds by all that lies between the engine and the wheels. */
const holds = [
  { said: /\b(hand|parking|transmission)[- ]?brake\b/iu, by: "the hand brake", of: /\b(hand|parking|transmission)[- ]?brakes?\b/iu },
  {
    said: /\bin (gear|first|bottom|low|reverse)\b|\bgear (in|engaged|left in)\b/iu,
    by: "a gear",
    of: /\b(prop(eller)?[- ]?shaft|half[- ]?shaft|drive[- ]?shaft|cardan|gear[- ]?box|crown wheel|differential|clutch|drive chain)\b/iu,
  },
];

/** “Both rear wheels, front and back” are the rear ones. Undefined where neither end is told, or both are. */
function endIn(text: string): "front" | "rear" | undefined {
  const words = text.replace(/\b(front|fore) (and|to|or|&) (back|rear|aft)\b|\bback and front\b/giu, " ");
  const [front, rear] = [/\bfront\b/iu.test(words), /\b(rear|hind|back)\b/iu.test(words)];
  return front === rear ? undefined : front ? "front" : "rear";
}

/** “The spring front eyes”, “front shackles”: of a spring that has an eye at either end, wherever on the machine that is. */
const endOfSpring = /\b(front|rear|back) ((spring )?(eyes?|shackles?)\b|(ends?|pins?|bolts?|hangers?)\b(?= of (the |each |both )?(\w+ )?springs?\b))/giu;

const otherHold = /\b(until|brake|gear|tied|strap\w*|all|every|clamp|vice|wall|ring)\b/iu;
