// The few units that the stories are written in, with the factors of NIST SP 811, appendix B: the model reckons by itself.

const factors: Record<string, number> = {
  in: 25.4,
  thou: 0.0254,
  mm: 1,
  um: 0.001,
  cm: 10,
  "N.m": 1,
  "lbf.ft": 1.3558179483314,
  "lbf.in": 0.1129848290276167,
  "kgf.m": 9.80665,
  ml: 1,
  l: 1000,
  "imp.pt": 568.26125,
  "us.qt": 946.352946,
  N: 1,
  kg: 1,
  "%": 1,
};

/** In millimetres, newton metres, millilitres. Throws for a unit that no story uses. */
export function plain(n: number, unit: string): number {
  const factor = factors[unit];
  if (factor === undefined) throw new Error(`No factor for ${unit}`);
  return n * factor;
}
