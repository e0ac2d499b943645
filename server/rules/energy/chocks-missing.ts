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
  severity: "warning, which holds where the wheels that are chocked are those that go up; error with somebody `under`",
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
    const lifts = liftsOf(story);
    for (const lift of lifts) {
      const wrong = atTheRaisedEnd(story, lift, lifts.length === 1);
      if (wrong !== undefined)
        report({
          where: wrong.where,
          severity: lift.under ? "error" : "warning",
          open: true,
          message: `The ${wrong.end} wheels are chocked, and the ${wrong.end} end is what is raised: nothing stops the others rolling. Chock the wheels that stay down.`,
        });
      const hold = holdLetGo(story, lift);
      if (hold === undefined) continue;
      report({
        where: hold.chock.where,
        severity: "warning",
        message: `What keeps it from rolling is ${hold.by}, and that is let go by this job while it is up (${midSentence(hold.cell.thing, hold.cell.place)}, line ${context.line(hold.moment.where)}). Chock the wheels that stay down.`,
        related: [{ where: hold.moment.where, message: "Let go here." }],
      });
    }
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

type Support = Story["support"][number];

/** What was done from one time that it stood on the ground to the next: an end goes up, is worked at and let down. */
interface Lift {
  /** All of it, but for the last line by which it was let down. */
  readonly own: readonly Support[];
  readonly chocks: readonly Support[];
  readonly raise: Support;
  readonly down: number;
  readonly under: boolean;
}

/** Not those in which it was raised more than once: which chocks are for which end cannot be told. */
function liftsOf(story: Story): readonly Lift[] {
  const lifts: Lift[] = [];
  let own: Support[] = [];
  const end = (down: number) => {
    const [raise, ...others] = own.filter((it) => it.verb === "raise");
    if (raise !== undefined && others.length === 0)
      lifts.push({ own, chocks: own.filter((it) => it.verb === "chock"), raise, down, under: own.some((it) => it.verb === "under" && it.seq > raise.seq) });
    own = [];
  };
  for (const it of story.support) {
    if (it.phase !== "done") continue;
    if (it.verb === "lower" && it.action.things.length === 0) end(it.seq);
    else own.push(it);
  }
  end(Number.POSITIVE_INFINITY);
  return lifts;
}

/** The wheels of one end are chocked, by the words of the line, and that is the end which is raised: by what the stands are under, or by the wheels that come off. */
function atTheRaisedEnd(story: Story, { own, chocks, raise, down }: Lift, isOnly: boolean): { readonly where: Where; readonly end: string } | undefined {
  const ends = new Set(chocks.map((it) => endIn(it.action.text?.value ?? "")));
  const [end] = ends;
  if (raise.action.on?.text !== "jack" || end === undefined || ends.size > 1 || chocks.some((it) => otherHold.test(it.action.text?.value ?? "")))
    return undefined;
  const bears = own.filter((it) => it.verb === "support" && it.action.things.length === 0 && it.seq > raise.seq);
  const under = bears.map((it) => endIn((it.action.underText?.value ?? "").replace(endOfSpring, " ")) ?? "");
  const off = story.parts
    .filter(
      (cell) =>
        rollsOrCarries(cell.thing) && cell.history.some((it) => it.verb === "remove" && it.seq > raise.seq && it.seq < down && it.after.on < it.before.on),
    )
    .map(({ thing, place }) => endIn(`${place} ${thing.title ?? thing.name}`))
    .filter((it) => it !== undefined);
  const said = under.some((it) => it !== "") ? under : off;
  // A title tells of the other end, whatever stands there are of: “back brakes”, on stands at the spring front eyes. Where an end is raised after the other it tells of one of them.
  const titles = [isOnly ? story.job.sheet?.title?.value : undefined, raise.visit?.entry.title?.value].map((it) => endIn(it ?? ""));
  if (titles.some((it) => it !== undefined && it !== end)) return undefined;
  return said.length > 0 && [...said, ...off].every((it) => it === end) ? { where: (chocks[0] as Support).where, end } : undefined;
}

interface Hold {
  readonly chock: Story["support"][number];
  /** The brake, or a gear, as it is called. */
  readonly by: string;
  readonly cell: PartCell | FastenerCell;
  readonly moment: PartMoment | FastenerMoment;
}

/** By the words of the line a brake or a gear is all that holds it, and something of that is undone or comes off while it is up. */
function holdLetGo(story: Story, { chocks, down }: Lift): Hold | undefined {
  const [chock] = chocks;
  const text = chock?.action.text?.value ?? "";
  if (chock === undefined || chocks.length > 1 || underWheels.test(text)) return undefined;
  const kind = holds.find(({ said }) => said.test(text));
  if (kind === undefined) return undefined;
  for (const cell of [...story.parts, ...story.fasteners]) {
    if (!kind.of.test(`${allWords(cell.thing)} ${cell.thing.criticalWhat ?? ""}`)) continue;
    if (kind.all && (endIn(story.job.sheet?.title?.value ?? "") !== undefined || endIn(`${cell.place} ${allWords(cell.thing)}`) !== undefined)) continue;
    const letGo = ({ history }: PartCell | FastenerCell) =>
      (history as readonly (PartMoment | FastenerMoment)[]).find(
        (it) => it.phase === "done" && it.seq > chock.seq && it.seq < down && (it.after.on < it.before.on || it.verb === "undo"),
      );
    const moment = letGo(cell);
    const others = kind.all ? story.cells(cell.thing.name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener") : [];
    if (moment !== undefined && others.every((it) => letGo(it) !== undefined)) return { chock, by: kind.by, cell, moment };
  }
  return undefined;
}

/** What is laid under a wheel, tied to something or stood against a wall holds by itself. */
const underWheels =
  /\b(wheels?|tyres?|tires?|chock\w*|block\w*|brick\w*|wood\w*|wedg\w*|baulks?|scotch\w*|sleepers?|wall|tied|rope\w*|strap\w*|chain\w*|ways)\b/iu;

/** Common practice: a gear holds by all that lies between the engine and the wheels. */
const holds: readonly { readonly said: RegExp; readonly by: string; readonly of: RegExp; readonly all?: boolean }[] = [
  { said: /\b(hand|parking|transmission)[- ]?brake\b/iu, by: "the hand brake", of: /\b(hand|parking|transmission)[- ]?brakes?\b/iu },
  // Which brake that is nobody says: it is let go where what it works by is off at all places at once, and is of no one end (a foot brake's shoes at the front hold nothing that stands).
  { said: /\bbrakes?\b/iu, by: "the brake", of: /\bbrake[- ](block|band|rod|screw|pole|beam|shaft|shoe)s?\b/iu, all: true },
  {
    said: /\bin (gear|first|bottom|low|reverse)\b|\bgear (in|engaged|left in)\b/iu,
    by: "a gear",
    of: /\b(prop(eller)?[- ]?shaft|half[- ]?shaft|drive[- ]?shaft|cardan|gear[- ]?box|crown wheel|differential|clutch|drive chain)\b/iu,
  },
];

/** “Both rear wheels, front and back” are the rear ones. Undefined where neither end is told, or both are. */
function endIn(text: string): "front" | "rear" | undefined {
  const words = text.replace(/\b(front|fore)[- ](and|to|or|&)[- ](back|rear|aft)\b|\bback and front\b/giu, " ");
  const [front, rear] = [/\b(front|fore)\b/iu.test(words), /\b(rear|hind|back)\b/iu.test(words)];
  return front === rear ? undefined : front ? "front" : "rear";
}

/** “The spring front eyes”, “front shackles”: of a spring that has an eye at either end, wherever on the machine that is. */
const endOfSpring = /\b(front|rear|back) ((spring )?(eyes?|shackles?)\b|(ends?|pins?|bolts?|hangers?)\b(?= of (the |each |both )?(\w+ )?springs?\b))/giu;

const otherHold = /\b(until|brake|gear|tied|strap\w*|all|every|clamp|vice|wall|ring)\b/iu;
