// Pitch and threads an inch, module and diametral pitch: `20 tpi in mm`, `pitch 1.5 mm in tpi`, `module 2 in DP`, `DP 10 in module`.
import { type Exact, compare, exact, figure, ratio } from "../../quantities/exact.ts";
import { type Answer, known, notKnown, shown, value } from "./answer.ts";
import { type Question, take, takeAll } from "./question.ts";
import { takeQuantity } from "./words.ts";

const inch = figure("25.4");
const number = "(\\d+-\\d+/\\d+|\\d+/\\d+|\\d+(?:\\.\\d+)?|\\.\\d+)";
const tpiWord = "(?:t\\.?p\\.?i\\.?|threads?(?: |-)?(?:per|to the|an|to an) inch)";

export function pitchFigure(q: Question): Answer | undefined {
  const module = take(q, new RegExp(`\\b(?:mod(?:ule)?) ?${number}(?: mm)?(?![\\d./])|(?<![\\d./-])${number} ?mod(?:ule)?\\b`, "i"));
  if (module !== undefined) {
    takeAll(q, /\b(?:gears?|DP|D\.P\.|diametral pitch|circular pitch|teeth)\b/i);
    const m = exact((module[1] ?? module[2]) as string);
    return m === undefined || m.n === 0n ? notKnown("A module is above nothing.", "module 2 in DP") : gear(inch.div(m), m, `Module ${shown(m)} mm`);
  }
  const dp = take(
    q,
    new RegExp(`\\b(?:DP|D\\.P\\.|diametral pitch) ?${number}(?![\\d./])|(?<![\\d./-])${number} ?(?:DP|D\\.P\\.?|diametral pitch)(?![\\p{L}])`, "iu"),
  );
  if (dp !== undefined) {
    takeAll(q, /\b(?:gears?|mod(?:ule)?|circular pitch|teeth)\b/i);
    const p = exact((dp[1] ?? dp[2]) as string);
    return p === undefined || p.n === 0n
      ? notKnown("A diametral pitch is above nothing.", "DP 10 in module")
      : gear(p, inch.div(p), `Diametral pitch ${shown(p)}`);
  }
  const tpi = take(q, new RegExp(`(?<![\\p{L}\\d./-])${number} ?${tpiWord}(?![\\p{L}])`, "iu"));
  if (tpi !== undefined) {
    takeAll(q, /\b(?:pitch|in mm|mm|metric|threads?)\b/i);
    const n = exact(tpi[1] as string);
    return n === undefined || n.n === 0n || compare(n, ratio(1000)) > 0
      ? notKnown("Say how many threads an inch, above nothing.", "20 tpi in mm")
      : pitch(n, inch.div(n));
  }
  if (!/\bpitch\b/i.test(q.left) || !/\b(?:tpi|t\.p\.i|threads? (?:per|to the|an) inch)\b/i.test(q.left)) return undefined;
  const own = takeQuantity(q, "length");
  takeAll(q, new RegExp(`\\b(?:pitch|${tpiWord})(?![\\p{L}])`, "iu"));
  if (own === undefined || own.value.n === 0n || own.value.s < 0n) return notKnown("Say a pitch above nothing.", "pitch 1.5 mm in tpi");
  return pitch(inch.div(own.value), own.value);
}

function pitch(tpi: Exact, mm: Exact): Answer {
  return known(
    `${shown(tpi)} threads an inch is a pitch of ${shown(mm)} mm (${shown(mm.div(inch))} in).`,
    [value("pitch", mm, "mm", 8), value("pitch", mm.div(inch), "in", 8), value("threads per inch", tpi, "", 8)],
    [{ source: "inch = 25.4 mm exactly (1959)", mark: "computed" }],
  );
}

function gear(dp: Exact, module: Exact, said: string): Answer {
  const circular = module.mul(figure("3.14159265358979"));
  return known(
    `${said}: diametral pitch ${shown(dp)}, module ${shown(module)} mm, circular pitch ${shown(circular)} mm (${shown(circular.div(inch))} in).`,
    [
      value("diametral pitch", dp, "", 8),
      value("module", module, "mm", 8),
      value("circular pitch", circular, "mm", 8),
      value("circular pitch", circular.div(inch), "in", 8),
    ],
    [{ source: "module = 25.4/DP", mark: "computed" }],
    ["Wheels of a module and of a diametral pitch that are near one another don't run together."],
  );
}
