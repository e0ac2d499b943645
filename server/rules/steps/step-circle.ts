// Steps that wait for each other.
import { needsBefore } from "../sequence.ts";
import { where } from "../../model/where.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "step-circle",
  group: "Order of work",
  severity: "error",
  safety: false,
  title: "Steps that wait for each other",
  why: "If each waits for the other, none can begin. Take one `after` away, or split a step in two.",
  wrong: `step one "One"
#    ^^^ error step-circle
  after two
step two "Two"
  after one
`,
  right: `step one "One"
step two "Two"
  after one
`,
  scope: "job",
  check({ story, report, line }) {
    const graph = needsBefore(story);
    const state = new Map<string, "open" | "closed">();
    const said = new Set<string>();
    const trail: string[] = [];
    for (const name of graph.keys()) visit(name);

    function visit(name: string): void {
      if (state.get(name) === "closed" || trail.length > 2000) return;
      state.set(name, "open");
      for (const need of graph.get(name) ?? []) {
        if (state.get(need.step) === "closed") continue;
        const at = state.get(need.step) === "open" ? trail.indexOf(need.step) : -1;
        const whole = need.step === name ? [name] : at >= 0 ? [...trail.slice(at), name] : undefined;
        if (whole === undefined) {
          trail.push(name);
          visit(need.step);
          trail.pop();
          continue;
        }
        const key = [...whole].sort().join(" ");
        if (said.has(key)) continue;
        said.add(key);
        const circle = whole.flatMap(
          (step) =>
            graph
              .get(step)
              ?.filter((it) => whole.includes(it.step))
              .slice(0, 1) ?? [],
        );
        const head = story.visits.find((visit) => visit.entry.name !== undefined && whole.includes(visit.entry.name.text));
        const first = circle.find((it) => it.written) ?? need;
        report({
          where: head?.entry.name === undefined ? first.where : where(head.file, head.entry, 0, head.entry.name.at),
          severity: "error",
          message:
            whole.length === 1
              ? `The step \`${name}\` waits for itself.`
              : `These steps wait for each other: ${whole.map((step) => `\`${step}\``).join(", ")}. Take one \`after\` away, or split a step.`,
          related: circle.map((it) => ({ where: it.where, message: `${it.why} (line ${line(it.where)}).` })),
        });
      }
      state.set(name, "closed");
    }
  },
};
