// The machine as it is declared: entries of parts, fasteners, limits and the rest, in the unit of the plant.
import type { Chance } from "./chance.ts";
import type { Manner } from "./deeds.ts";
import type { Fastener, Limit, Part, Plant } from "./plant.ts";

export interface Declared {
  /** What stands before the work, in the sheet or in a file. */
  first: string[];
  /** What a second file has of it. */
  second: string[];
  /** What is looked up after the work. */
  last: string[];
}

export function declared(plant: Plant, manner: Manner, c: Chance): Declared {
  const lines: string[] = [];
  const each = (thing: { each: boolean; n?: number }): string[] => {
    const n = thing.n ?? 1;
    if (thing.each) return [`  each ${plant.places?.kind}${n > 1 ? ` ${n}` : ""}`];
    return n > 1 ? [`  qty ${n}`] : [];
  };
  if (plant.places !== undefined) lines.push(`places ${plant.places.kind} ${plant.places.names.join(", ")}`, "");
  const entries: string[][] = [
    ...plant.parts.map((it) => partEntry(it, each(it), plant)),
    ...plant.fasteners.map((it) => fastenerEntry(it, each(it), plant)),
    ...plant.fluids.map((it) => [
      `fluid ${it.name} "${it.title}"`,
      ...each(it),
      `  in ${it.in.join(", ")}`,
      `  capacity ${it.ml} ml`,
      ...(it.bleed ? ["  bleed"] : []),
      '  grade "As the maker has it"',
    ]),
    ...plant.limits.map((it) => limitEntry(it, each(it), plant)),
    ...plant.checks.map((it) => [
      `check ${it.name} "${it.title}"`,
      ...each(it),
      ...(it.of ? [`  of ${it.of}`] : []),
      ...(it.by ? [`  set by ${it.by}`] : []),
      ...(it.critical ? [`  critical "${it.critical}"`] : []),
    ]),
    ...plant.gauges.map((it) => [
      `gauge ${it.name} "${it.title}"`,
      `  uncertainty ${it.uncertainty} ${plant.length}`,
      ...(it.range ? [`  range ${it.range[0]} .. ${it.range[1]} ${plant.length}`] : []),
      ...(it.name !== "calliper" || it.checked ? [`  checked ${it.checked ?? "2026-01-10"} every 12 months`] : []),
    ]),
    [
      'gauge wrench "Torque wrench"',
      `  range ${plant.wrench[0]} .. ${plant.wrench[1]} ${plant.torque}`,
      ...(plant.wrenchDoubt === undefined ? [] : [`  uncertainty ${plant.wrenchDoubt} %`]),
      `  checked ${plant.wrenchChecked ?? "2025-11-02"} every 12 months`,
    ],
    ...plant.hazards.map((it) => [
      `hazard ${it.name} "${it.title}"`,
      `  safe before ${it.before}`,
      `  restore after ${it.before}`,
      '  caution "Nobody in its way."',
    ]),
    ...plant.shims.map((it) => {
      const have = it.stack.map(([q, n]) => `${q} ${plant.length} x ${n}`).join(", ");
      const places = plant.limits.find((limit) => limit.name === it.limit)?.each ? [`  each ${plant.places?.kind}`] : [];
      return [
        `shims ${it.name} "${it.title}"`,
        ...places,
        `  have ${have}`,
        `  fitted ${it.stack.map(([q, , n]) => `${q} ${plant.length} x ${n}`).join(", ")}`,
      ];
    }),
  ];
  if (c.yes(0.3)) entries.reverse();
  const limit = (entry: string[]): boolean => entry[0]?.startsWith("limit ") === true;
  const gauge = (entry: string[]): boolean => entry[0]?.startsWith("gauge ") === true;
  const isLast = (entry: string[]): boolean => manner.limitsLast && !manner.file && limit(entry);
  const isSecond = (entry: string[]): boolean => manner.twoFiles && (limit(entry) || gauge(entry)) && !isLast(entry);
  const text = (list: string[][]): string[] => list.flatMap((entry) => [...entry, ""]);
  return {
    first: [...lines, ...text(entries.filter((it) => !isLast(it) && !isSecond(it)))],
    second: text(entries.filter(isSecond)),
    last: text(entries.filter(isLast)),
  };
}

function partEntry(it: Part, each: string[], plant: Plant): string[] {
  return [
    `part ${it.name} "${it.title}"`,
    ...each,
    ...(it.held.length > 0 ? [`  held by ${it.held.join(", ")}`] : []),
    ...(it.behind.length > 0 ? [`  behind ${it.behind.join(", ")}`] : []),
    ...(it.critical ? [`  critical "${it.critical}"`] : []),
    ...(it.renewWith ? [`  renew with ${it.renewWith}`] : []),
    ...(it.pairs ? ["  renew in pairs"] : []),
    ...(it.matched ? [`  matched with ${it.matched}`] : []),
    ...(it.keeps ? ["  keeps its place"] : []),
    ...(it.fits ? [`  fits "${it.fits}"`] : []),
    ...(it.material ? [`  material ${it.material}`] : []),
    ...(it.mass ? [`  mass ${it.mass} kg`] : []),
    ...plant.fluids.filter((fluid) => fluid.holder === it.name).map((fluid) => `  holds ${fluid.name}`),
  ];
}

function fastenerEntry(it: Fastener, each: string[], plant: Plant): string[] {
  const thread = /^(M\d|No\.|[\d/-]+ (UN|BS)|[\d/-]+-\d+ UN)/.test(it.thread) ? it.thread : `"${it.thread}"`;
  const torque = it.torque === "none" ? ["  torque none"] : it.torque === "feel" ? ['  torque by feel "Hard up by hand, then the pin"'] : [];
  if (Array.isArray(it.torque)) {
    const range = `${it.torque[0]} .. ${it.torque[1]}`;
    torque.push(`  torque ${it.stage === undefined ? "" : `${it.stage}, `}${range} ${plant.torque}${it.angle === undefined ? "" : ` + ${it.angle} deg`}`);
  }
  const locked = it.torque === "none" ? "retained by" : "locked by";
  return [
    `fastener ${it.name} "${it.title}"`,
    ...each,
    `  thread ${thread}`,
    ...(it.leftHandAt ? [`  thread ${thread} LH at ${it.leftHandAt}`] : []),
    ...torque,
    ...(it.letBack === undefined ? [] : [`  let back ${it.letBack} ${it.letBack === 1 ? "flat" : "flats"}`]),
    ...(it.locking === "nothing" || (it.locking === undefined && it.critical) ? [`  locked by nothing "The maker locks it by its stretch and its seat"`] : []),
    ...(it.locking === undefined || it.locking === "nothing"
      ? []
      : [`  ${locked} ${it.locking}${it.serves !== undefined && it.serves > 1 ? ` for ${it.serves}` : ""}`]),
    ...(it.critical ? [`  critical "${it.critical}"`] : []),
    ...(it.renew ? ["  renew"] : []),
    ...(it.recheck ? ["  recheck after 50 mi"] : []),
    '  source "Maker\'s fitting notes, sheet 4"',
  ];
}

function limitEntry(it: Limit, each: string[], plant: Plant): string[] {
  const u = plant.length;
  return [
    `limit ${it.name} "${it.title}"`,
    ...each,
    ...(it.formula ? [`  = ${it.formula}`] : []),
    ...(it.fresh ? [`  new ${it.fresh[0]} .. ${it.fresh[1]} ${u}`] : []),
    ...(it.set ? [`  set ${it.set[0]} .. ${it.set[1]} ${u} by ${it.by?.join(", ")}`] : []),
    ...(it.wornMax !== undefined ? [`  worn max ${it.wornMax} ${u}`] : []),
    ...(it.wornMin !== undefined ? [`  worn min ${it.wornMin} ${u}`] : []),
    ...(it.spread !== undefined ? [`  spread max ${it.spread} ${u}`] : []),
    ...(it.positions ? [`  read at ${it.positions.join(", ")}`] : []),
    ...(it.ovality !== undefined ? [`  ovality max ${it.ovality} ${u}`] : []),
    ...(it.taper !== undefined ? [`  taper max ${it.taper} ${u}`] : []),
    ...(it.of ? [`  of ${it.of}`] : []),
    ...(it.critical ? ["  critical"] : []),
    '  source "Maker\'s fitting notes, sheet 5"',
  ];
}
