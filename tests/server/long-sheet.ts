// A long job sheet for measuring: many stations of one invented machine, each taken down, measured, judged and put back.

/** About `lines` lines; the same for the same number. */
export function longSheet(lines: number): string {
  const out = [
    'sheet "Carding engine: all stations"',
    '  machine "Hollin Bank 60 in carding engine"',
    "  currency GBP",
    "places side left, right",
    "",
    'gauge dial "Dial gauge"',
    "  resolution 0.0005 in",
    "  uncertainty 0.0004 in",
    "",
  ];
  for (let i = 1; out.length < lines - 30; i++) out.push(...station(i));
  out.push('supplier bolt-store "Bolt store"', "  currency GBP", "  freight 4.50 GBP", "");
  return `${out.join("\n")}\n`;
}

function station(i: number): string[] {
  const [hub, nut, float] = [`roller-${i}`, `roller-${i}-nut`, `float-${i}`];
  return [
    `# station ${i}`,
    `part ${hub} "Roller ${i}"`,
    "  each side",
    `  held by ${nut}`,
    `fastener ${nut} "Roller ${i} nut"`,
    "  each side",
    "  thread 5/8-18 UNF",
    "  torque 60 .. 70 lbf.ft dry",
    "  locked by split pin 1/8 x 1-1/4 in",
    '  source "Maker\'s card 4"',
    `limit ${float} "End float, roller ${i}"`,
    "  each side",
    "  new 0.002 .. 0.006 in",
    "  worn max 0.012 in",
    `  of ${hub}`,
    '  source "Maker\'s card 7"',
    `step strip-${i} "Strip roller ${i}"`,
    `  undo ${nut}`,
    `  remove ${hub}`,
    "  done 2026-03-02",
    `measure ${float} found by dial 2026-03-02`,
    `  left 0.0${String(31 + (i % 60)).padStart(2, "0")}, 0.0035 in`,
    "  right 0.0045, 0.0050 in",
    `finding ${hub} left 2026-03-02`,
    "  is worn",
    `  because "tracks of station ${i} run dry"`,
    "  decision renew",
    '  note "seen again under the lamp"',
    `step refit-${i} "Put roller ${i} back"`,
    `  fit ${hub} left new`,
    `  fit ${hub} right`,
    `  tighten ${nut} to 65 lbf.ft`,
    i % 3 === 0 ? "  # its pins are still to come" : `  lock ${nut} new`,
    "  done 2026-03-09",
    "",
  ];
}
