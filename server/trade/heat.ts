// Heat for an interference fit: how much warmer the outer part must be to go on, and what must not be heated so far.
// Invariant: an estimate, said to be one, with its cautions; a heat that would ruin white metal is refused, not advised.
import { type Exact, compare, decimalText, figure, ratio } from "../quantities/exact.ts";
import type { Sourced } from "./source.ts";

export type Material = "steel" | "cast-iron" | "bronze" | "brass" | "aluminium" | "white-metal";

export interface Expansion extends Sourced {
  /** Linear expansion in 1e-6 per K: usual, and least and most of what tables give. */
  readonly usual: Exact;
  readonly least: Exact;
  readonly most: Exact;
  readonly of: string;
}

/** Least and most as tables were seen to differ (cast iron, aluminium); else 5 % either way, which is how far handbooks differ (from memory). */
export const expansions: Readonly<Record<Material, Expansion>> = {
  steel: expansion("carbon steel", "12.0", "11.4", "12.6"),
  "cast-iron": expansion("grey cast iron; tables differ", "10.8", "10.0", "11.4"),
  bronze: expansion("bearing bronze C93200", "18.0", "17.1", "18.9"),
  brass: expansion("brass C36000", "20.5", "19.5", "21.5"),
  aluminium: expansion("aluminium alloys, 356 cast to 6061", "23.0", "21.5", "23.6"),
  "white-metal": expansion("tin-base babbitt, grade 2", "21.0", "20.0", "22.0"),
};

/** ASTM B23 white metals, °C: where melting begins and ends, and the pouring heat where it was seen. */
export const whiteMetals: readonly (Sourced & {
  readonly grade: string;
  readonly made: string;
  readonly solidus: number;
  readonly liquidus: number;
  readonly pour?: number;
})[] = [
  { grade: "1", made: "Sn 90\u201392, Sb 4\u20135, Cu 4\u20135", solidus: 223, liquidus: 371, pour: 441, source: "ASTM B23", mark: "memory" },
  { grade: "2", made: "Sn 88\u201390, Sb 7\u20138, Cu 3\u20134", solidus: 241, liquidus: 354, pour: 424, source: "ASTM B23", mark: "table" },
  { grade: "3", made: "Sn 83\u201385, Sb 7.5\u20138.5, Cu 7.5\u20138.5", solidus: 240, liquidus: 422, pour: 491, source: "ASTM B23", mark: "table" },
  { grade: "7", made: "Sn 9.3\u201310.7, Sb 14\u201316, Pb rest", solidus: 240, liquidus: 268, pour: 338, source: "ASTM B23", mark: "table" },
  { grade: "8", made: "Sn 4.5\u20135.5, Sb 14\u201316, Pb rest", solidus: 237, liquidus: 272, pour: 341, source: "ASTM B23", mark: "table" },
  { grade: "15", made: "Sn 0.8\u20131.2, Sb 14.5\u201317.5, As 0.8\u20131.4, Pb rest", solidus: 248, liquidus: 281, source: "ASTM B23", mark: "memory" },
];

/** Above this a white-metal lining has lost half of its strength: grade 2 yields at 6100 psi at 20 °C and at 3000 psi at 100 °C (ASTM B23, appendix). */
const whiteMetalSoft = ratio(100);
/** Melting begins at 223 °C for the lowest grade listed: no part with a lining is heated so near to it. */
const whiteMetalRefused = ratio(220);
/** Makers of rolling bearings: not above about 120 °C (they say 110 to 125). */
const rollingBearingMost = ratio(120);
/** Hardened and tempered steel begins to lose its temper from about here, by its tempering heat. From memory. */
const temperMost = ratio(150);

export interface HeatWanted {
  /** How much larger the inner part is, mm. */
  readonly interference: Exact;
  /** How much room there must be to slide it on, mm. */
  readonly clearance: Exact;
  readonly diameter: Exact;
  /** Of the part that is heated; or its expansion in 1e-6 per K. */
  readonly material: Material | Exact;
  /** °C; 20 where unsaid. */
  readonly ambient?: Exact;
  readonly whiteMetalLining?: boolean;
  readonly rollingBearing?: boolean;
  readonly hardened?: boolean;
}

export interface HeatAnswer extends Sourced {
  /** K above the inner part. */
  readonly rise: Exact;
  /** Of the outer part, °C. */
  readonly temperature: Exact;
  /** The same where expansion is the most and the least that tables give. */
  readonly riseBetween: readonly [least: Exact, most: Exact];
  readonly expansion: Expansion;
  /** It must not be done so: the white metal would melt, or the bearing be ruined. */
  readonly refused: boolean;
  readonly cautions: readonly string[];
}

/** ΔT = (δ + c)/(α·D). Undefined where there is no diameter or no expansion, or nothing is wanted. */
export function heatFor(wanted: HeatWanted): HeatAnswer | undefined {
  const given = typeof wanted.material === "string" ? expansions[wanted.material] : stated(wanted.material);
  const grow = wanted.interference.add(wanted.clearance);
  const zero = ratio(0);
  if (compare(wanted.diameter, zero) <= 0 || compare(given.least, zero) <= 0 || compare(grow, zero) <= 0) return undefined;
  const rise = riseBy(grow, wanted.diameter, given.usual);
  const temperature = (wanted.ambient ?? ratio(20)).add(rise);
  const white = wanted.whiteMetalLining === true || wanted.material === "white-metal";
  const tooHotForWhite = white && compare(temperature, whiteMetalRefused) >= 0;
  const tooHotForBearing = wanted.rollingBearing === true && compare(temperature, rollingBearingMost) > 0;
  return {
    rise,
    temperature,
    riseBetween: [riseBy(grow, wanted.diameter, given.most), riseBy(grow, wanted.diameter, given.least)],
    expansion: given,
    refused: tooHotForWhite || tooHotForBearing,
    cautions: cautionsFor(wanted, temperature, white, tooHotForWhite, tooHotForBearing),
    source: `\u0394T = (\u03b4 + c)/(\u03b1\u00b7D); \u03b1 ${decimalText(given.usual, 1)}e-6 per K, ${given.source}`,
    mark: "computed",
  };
}

function cautionsFor(wanted: HeatWanted, temperature: Exact, white: boolean, tooHotForWhite: boolean, tooHotForBearing: boolean): string[] {
  const said = ["An estimate: the maker's figure rules. Heat evenly, measure the heat, wear gloves and eye protection, and keep oil, solvent and fuel away."];
  if (tooHotForWhite)
    said.push(
      "Do not heat it so far: the white metal would soften or melt (from about 223 to 248 \u00b0C by its grade). Cool the inner part instead, or part the lining first.",
    );
  else if (white && compare(temperature, whiteMetalSoft) > 0)
    said.push("Past 100 \u00b0C a white-metal lining has lost half of its strength (ASTM B23, appendix). Ask the maker before it is heated so far.");
  if (tooHotForBearing)
    said.push(
      "Do not heat a rolling bearing above about 120 \u00b0C: it loses its hardness and its size. Cool the shaft as well, or press it with the right tool.",
    );
  else if (wanted.rollingBearing) said.push("Heat a rolling bearing in oil, on a plate or by induction, never with a flame, and not above about 120 \u00b0C.");
  if (wanted.hardened && compare(temperature, temperMost) > 0)
    said.push("Hardened steel may lose its temper at this heat (from about 150 \u00b0C, from memory): ask the maker.");
  else if (wanted.material === "steel" && compare(temperature, ratio(200)) > 0)
    said.push("At this heat a hardened or tempered part loses its temper: make sure that it is neither.");
  if (compare(temperature, ratio(200)) > 0 || white)
    said.push("Lead and cadmium, in white metal and in plating, give off poisonous fume when they are heated: look for them first (from memory).");
  return said;
}

function riseBy(grow: Exact, diameter: Exact, alpha: Exact): Exact {
  return grow.mul(1000000).div(alpha.mul(diameter));
}

function stated(alpha: Exact): Expansion {
  return { usual: alpha, least: alpha, most: alpha, of: "as given", source: "as given", mark: "computed" };
}

function expansion(of: string, usual: string, least: string, most: string): Expansion {
  return { of, usual: figure(usual), least: figure(least), most: figure(most), source: "handbook tables", mark: "table" };
}
