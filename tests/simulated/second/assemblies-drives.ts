// Templates: what turns and drives. Machines, makers and figures are invented.
import { fastener, fluid, limit, part, sizes, type Template } from "./parts-list.ts";

export const bevelBox: Template = (c) => {
  const s = sizes(c);
  const critical = "drive that also brakes";
  return {
    key: "bevel-box",
    machine: "Castrel inspection trolley, 1938",
    trouble: "whines on the overrun",
    stance: "bench",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("box-cover", "Bevel box cover", { held: ["cover-nut"] }),
      part("cover-gasket", "Cover gasket", { behind: ["box-cover"], renewWith: "box-cover" }),
      part("crown-wheel", "Crown wheel", { held: ["crown-bolt"], behind: ["box-cover"], matched: "bevel-pinion", critical, material: "steel" }),
      part("bevel-pinion", "Bevel pinion", { held: ["pinion-nut"], behind: ["crown-wheel"], matched: "crown-wheel", critical }),
      part("pinion-race", "Pinion bearing", { n: 2, behind: ["bevel-pinion"], critical, runs: true }),
    ],
    fasteners: [
      fastener("cover-nut", "Cover nut", "M8", { n: c.whole(5, 9), torque: s.t(16, 22), locking: "spring washer" }),
      fastener("crown-bolt", "Crown wheel bolt", c.one(["M10x1.25", "3/8-24 UNF"]), {
        n: c.one([6, 8]),
        torque: s.t(60, 70),
        ...(c.yes(0.5) ? { locking: "lock wire 1.2 mm x 300 mm", serves: 2 } : { locking: "lock plate", serves: 2 }),
        critical,
      }),
      fastener("pinion-nut", "Pinion nut", c.one(["M22x1.5", "7/8-14 UNF"]), {
        torque: s.t(150, 180),
        locking: c.one(["staking", "tab washer 36 mm", "split pin 5 x 45 mm"]),
        critical,
      }),
    ],
    fluids: [fluid("bevel-oil", "Bevel oil", 900, { in: ["box-cover"] })],
    limits: [
      limit("backlash", "Crown wheel backlash", "dial", {
        set: s.range(0.12, 0.24),
        by: ["bevel-shims"],
        wornMax: s.l(0.5),
        of: "crown-wheel",
        critical: true,
      }),
      limit("pinion-float", "Pinion end float", "dial", { wornMax: s.l(0.1), fresh: s.range(0, 0.06), of: "pinion-race", together: true }),
    ],
    checks: [
      {
        name: "tooth-contact",
        title: "Contact over the middle third of the teeth",
        each: false,
        by: "bevel-shims",
        critical,
        good: "Middle third, drive and overrun",
        bad: "Heavy at the toe",
      },
    ],
    hazards: [],
    shims: [
      {
        name: "bevel-shims",
        title: "Crown wheel shims",
        limit: "backlash",
        stack: [
          [s.l(0.1), 10, 2],
          [s.l(0.25), 6, 1],
        ],
      },
    ],
  };
};

export const bigEnds: Template = (c) => {
  const s = sizes(c);
  const names = c.one([
    ["one", "two"],
    ["one", "two", "three"],
    ["one", "two", "three", "four"],
  ]);
  const stretch = c.yes(0.5);
  const critical = "the connecting rod";
  return {
    key: "big-ends",
    machine: "Stour pumping engine, 1931",
    trouble: "knocks under load",
    places: { kind: "cyl", names },
    stance: "fixed",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("sump", "Sump", { held: ["sump-bolt"], mass: 14 }),
      part("sump-gasket", "Sump gasket", { behind: ["sump"], renewWith: "sump" }),
      part("rod-cap", "Big end cap", { each: true, held: ["rod-nut"], behind: ["sump"], keeps: true, critical }),
      part("crankshaft", "Crankshaft", { behind: ["rod-cap"], critical: "the crankshaft", material: "steel", mass: 17 }),
      part("shell", "Big end shell", { each: true, n: 2, behind: ["rod-cap"], critical, material: "white-metal", wet: true }),
    ],
    fasteners: [
      fastener("sump-bolt", "Sump bolt", "M8", { n: c.whole(10, 18), torque: s.t(14, 18) }),
      stretch
        ? fastener("rod-nut", "Big end bolt", "M10x1.25", {
            each: true,
            n: 2,
            torque: s.t(40, 46),
            stage: s.t(20, 21)[0],
            angle: c.one([60, 90]),
            renew: true,
            locking: "nothing",
            critical,
          })
        : fastener("rod-nut", "Big end nut, castellated", c.one(["7/16-20 UNF", "M12x1.25"]), {
            each: true,
            n: 2,
            torque: s.t(55, 65),
            locking: c.one(["split pin 3.2 x 25 mm", "split pin 1/8 x 1 in", "lock wire 1 mm x 150 mm"]),
            critical,
          }),
    ],
    fluids: [fluid("engine-oil", "Engine oil", c.one([3000, 4500]), { in: ["sump"], holder: "sump" })],
    limits: [
      limit("crank-pin", "Crank pin", "mic", {
        each: true,
        fresh: s.range(49.95, 49.97),
        wornMin: s.l(49.85),
        positions: ["web-side", "free-side"],
        ovality: s.l(0.04),
        taper: s.l(0.05),
        of: "crankshaft",
      }),
      limit("shell-bore", "Big end bore", "bore-gauge", { each: true, fresh: s.range(50.0, 50.02), wornMax: s.l(50.1), of: "shell" }),
      limit("oil-clearance", "Big end on its pin", "bore-gauge", { each: true, formula: "shell-bore - crank-pin", wornMax: s.l(0.2), of: "shell" }),
      limit("rod-float", "Big end side float", "dial", { each: true, wornMax: s.l(0.4), fresh: s.range(0.1, 0.25), of: "rod-cap", together: true }),
    ],
    checks: [{ name: "rod-free", title: "Rod falls by its own weight", each: true, of: "rod-cap", critical, good: "Falls by itself", bad: "Hangs up" }],
    hazards: [],
    shims: [],
  };
};

export const chainDrive: Template = (c) => {
  const s = sizes(c);
  const critical = "drive that also brakes";
  return {
    key: "chain",
    machine: "Melrose ferry winder, 1935",
    trouble: "jumps a tooth when it takes up",
    stance: "fixed",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("guard", "Chain guard", { held: ["guard-bolt"] }),
      part("chain", "Duplex chain", { held: ["chain-pin"], behind: ["guard"], critical }),
      part("sprocket", "Driven sprocket", { held: ["sprocket-nut"], behind: ["chain"], critical }),
      part("sprocket-key", "Sprocket key", { behind: ["sprocket"], critical, material: "steel" }),
    ],
    fasteners: [
      fastener("guard-bolt", "Guard bolt", "M8", { n: c.whole(4, 6) }),
      fastener("chain-pin", "Chain joining pin", "plain pin, 10 mm", {
        torque: "none",
        locking: c.one(["split pin 2.5 x 20 mm", "R clip", "circlip 10 mm"]),
        critical,
      }),
      fastener("sprocket-nut", "Sprocket nut", "M30x1.5 LH", { torque: s.t(190, 220), locking: c.one(["tab washer 50 mm", "lock plate"]), critical }),
      fastener("slide-bolt", "Motor slide bolt", "M12", { n: 4, torque: s.t(60, 75), locking: "spring washer" }),
    ],
    fluids: [],
    limits: [
      limit("chain-sag", "Chain sag half way", "calliper", { set: s.range(12, 20), by: ["slide-bolt"] }),
      limit("wobble", "Sprocket rim, side to side in a turn", "dial", { spread: s.l(0.5), of: "sprocket" }),
      limit("chain-stretch", "Chain over forty links", "calliper", { fresh: s.range(760.0, 762.0), wornMax: s.l(775.0), of: "chain" }),
    ],
    checks: [
      {
        name: "teeth",
        title: "Teeth not hooked, chain lies at the root",
        each: false,
        of: "sprocket",
        critical,
        good: "Lies at the root",
        bad: "Rides up the teeth",
      },
    ],
    hazards: [{ name: "mains", title: "Mains to the motor", before: "guard-bolt", how: "isolator locked off, key in the pocket" }],
    shims: [],
  };
};

export const hoist: Template = (c) => {
  const s = sizes(c);
  const critical = "the load";
  return {
    key: "hoist",
    machine: "Pember hand crab, 1929",
    trouble: "the brake creeps with a load on",
    stance: "fixed",
    rated: c.one([250, 500, 1000]),
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("hook", "Load hook", { held: ["hook-nut"], critical }),
      part("brake-band", "Brake band", { held: ["band-pin"], critical, grips: true }),
      part("brake-drum", "Brake drum", { held: ["drum-nut"], behind: ["brake-band"], critical, material: "cast-iron", grips: true }),
      part("pawl", "Ratchet pawl", { held: ["pawl-bolt"], critical }),
      part("pawl-spring", "Pawl spring", { behind: ["pawl"], critical }),
    ],
    fasteners: [
      fastener("hook-nut", "Hook shank nut", "M24", { torque: "feel", locking: c.one(["roll pin 5 x 40 mm", "split pin 5 x 45 mm"]), critical }),
      fastener("band-pin", "Brake band clevis pin", "plain pin, 12 mm", { n: 2, torque: "none", locking: "split pin 3.2 x 25 mm", critical }),
      fastener("drum-nut", "Brake drum nut", "M20x1.5", { torque: s.t(110, 130), locking: c.one(["tab washer 32 mm", "split pin 4 x 40 mm"]), critical }),
      fastener("pawl-bolt", "Pawl bolt", "M12", { torque: s.t(50, 60), locking: c.one(["self-locking nut", "lock wire 1 mm x 120 mm"]), critical }),
      fastener("band-adjuster", "Band adjusting nut", "M12", { locking: "lock nut", critical }),
    ],
    fluids: [],
    limits: [
      limit("throat", "Hook throat", "calliper", { fresh: s.range(28, 29), wornMax: s.l(31), of: "hook" }),
      limit("band-gap", "Gap between band and drum, off", "calliper", { set: s.range(0.6, 1.6), by: ["band-adjuster"], critical: true }),
      limit("lining-left", "Band lining, thinnest", "calliper", { fresh: s.range(6, 7), wornMin: s.l(3), of: "brake-band" }),
    ],
    checks: [
      {
        name: "pawl-drops",
        title: "Pawl drops into every tooth by itself",
        each: false,
        of: "pawl",
        critical,
        good: "Drops into every tooth",
        bad: "Hangs on the third tooth",
      },
    ],
    hazards: [{ name: "hanging-load", title: "A load on the rope", before: "hook-nut", how: "rope slack, hook on the floor" }],
    shims: [],
  };
};

export const headstock: Template = (c) => {
  const s = sizes(c);
  const critical = "the spindle";
  return {
    key: "headstock",
    machine: "Tamsin 6 in lathe, 1924",
    trouble: "chatters and runs hot",
    places: { kind: "journal", names: ["chuck-end", "tail-end"] },
    stance: "fixed",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("belt-guard", "Belt guard", { held: ["guard-screw"] }),
      part("oil-wick", "Oil wick", { each: true, behind: ["belt-guard"] }),
      part("cap", "Bearing cap", { each: true, held: ["cap-nut"], behind: ["oil-wick"], keeps: true, critical, material: "cast-iron" }),
      part("top-shell", "Top shell, scraped", { each: true, behind: ["cap"], keeps: true, critical, material: "bronze" }),
      part("spindle", "Lathe spindle", { behind: ["cap"], critical, material: "steel" }),
      part("bottom-shell", "Bottom shell, scraped", { each: true, behind: ["spindle"], keeps: true, critical, material: "bronze" }),
    ],
    fasteners: [
      fastener("guard-screw", "Guard screw", "1/4 BSW", { n: 4 }),
      fastener("cap-nut", "Cap nut", c.one(["1/2 BSF", "M12"]), {
        each: true,
        n: c.one([2, 4]),
        torque: s.t(38, 46),
        locking: c.one(["lock nut", "tab washer 22 mm"]),
        critical,
      }),
    ],
    fluids: [fluid("wick-oil", "Spindle oil", 100, { each: true, in: ["cap"] })],
    limits: [
      limit("lift-clearance", "Spindle lift in its bearing", "dial", {
        each: true,
        set: s.range(0.02, 0.08),
        by: ["cap-shims"],
        wornMax: s.l(0.2),
        critical: true,
      }),
      limit("journal-size", "Spindle journal", "mic", { each: true, fresh: s.range(44.96, 44.98), wornMin: s.l(44.85), of: "spindle", ovality: s.l(0.03) }),
    ],
    checks: [
      { name: "blue", title: "Blue on two thirds of the shell", each: true, of: "bottom-shell", critical, good: "Two thirds, even", bad: "At the edges only" },
    ],
    hazards: [{ name: "mains", title: "Mains to the motor", before: "guard-screw", how: "plug out, hung in sight" }],
    shims: [
      {
        name: "cap-shims",
        title: "Shims under the cap",
        limit: "lift-clearance",
        stack: [
          [s.l(0.05), 24, 2],
          [s.l(0.1), 16, 1],
        ],
      },
    ],
  };
};

export const flange: Template = (c) => {
  const s = sizes(c);
  const names = c.one([
    ["front", "rear"],
    ["pump", "motor"],
  ]);
  const critical = "drive";
  return {
    key: "flange",
    machine: "Garron land drainage pump, 1944",
    trouble: "vibrates above 900 rpm",
    places: { kind: "joint", names },
    stance: "fixed",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("guard", "Coupling guard", { held: ["guard-screw"] }),
      part("spacer", "Coupling spacer", { held: ["flange-bolt"], behind: ["guard"], keeps: true, critical, mass: 24 }),
      part("half", "Coupling half", { each: true, held: ["half-nut"], behind: ["spacer"], critical }),
      part("half-key", "Coupling key", { each: true, behind: ["half"], critical }),
    ],
    fasteners: [
      fastener("guard-screw", "Guard screw", "M6", { n: c.whole(4, 8) }),
      fastener("flange-bolt", "Coupling bolt", "M12 class 10.9", {
        each: true,
        n: c.one([4, 6, 8]),
        torque: s.t(95, 110),
        locking: "self-locking nut",
        critical,
        recheck: true,
      }),
      fastener("half-nut", "Coupling half nut", "M30x1.5", { each: true, torque: s.t(200, 240), locking: c.one(["tab washer 45 mm", "lock plate"]), critical }),
    ],
    fluids: [],
    limits: [
      limit("face-run", "Coupling face, side to side in a turn", "dial", { each: true, spread: s.l(0.1), of: "half" }),
      limit("half-bore", "Coupling half bore", "bore-gauge", { each: true, fresh: s.range(38.0, 38.025), wornMax: s.l(38.08), of: "half" }),
    ],
    checks: [
      {
        name: "key-fit",
        title: "Key tight on its sides, clear on top",
        each: true,
        of: "half-key",
        critical,
        good: "Tight on its sides",
        bad: "Rocks in the shaft",
      },
    ],
    hazards: [{ name: "mains", title: "Mains to the pump motor", before: "guard-screw", how: "isolator locked off" }],
    shims: [],
  };
};
