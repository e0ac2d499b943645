// Words that the language is still to learn: for each a sheet of a few lines that is read once it is built.
import { reads } from "./gate.ts";

const head =
  'sheet "Probe"\n  opened 2026-03-01\npart arm "Arm"\n  held by nut\nfastener nut "Nut"\n  qty 2\n  torque 40 .. 50 N.m\nfluid oil "Oil"\n  in arm\n  capacity 1 l\n';
const step = (...lines: string[]) => `${head}step a "A"\n${lines.map((it) => `  ${it}\n`).join("")}  done 2026-03-01\n`;

const probes: Record<string, string> = {
  blank: `${head}hazard mains "Mains"\n  safe before nut\n  restore after nut\n  caution "Off"\nstep a "A"\n  safe mains ___\n  done 2026-03-01\n`,
  admit: `${step("undo nut")}  admit hazard-live "Forgot" by "A. Roe"\n`,
  counts: step("undo nut 1", "tighten nut 1 to 45 N.m", "lock nut 1"),
  percent: `${head}gauge wrench "Wrench"\n  uncertainty 4 %\n${step("tighten nut to 45 N.m by wrench").slice(head.length)}`,
  "let-back": step("tighten nut to 45 N.m", "let back nut by 30 deg", "lock nut"),
  "lower-part": step("support arm on crane", "undo nut", "remove arm", "lower arm"),
  "torque-angle": head.replace("40 .. 50 N.m", "20 lbf.ft + 90 deg"),
  "condition-text": `${head}finding arm\n  is worn "step of 10 thou"\n`,
  "metallic-from": `${head}finding oil\n  is metallic from arm\n`,
  "shims-off": `${head}shims thin "Thin shims"\n  have 0.1 mm x 2\n  fitted 0.1 mm x 1\n${step("remove thin", "fit thin").slice(head.length)}`,
};

const asked = new Map<string, boolean>();

/** Whether the language reads it today. */
export function speakable(needs: string): boolean {
  const probe = probes[needs];
  if (probe === undefined) throw new Error(`No probe for ${needs}`);
  const known = asked.get(needs) ?? reads(probe);
  asked.set(needs, known);
  return known;
}
