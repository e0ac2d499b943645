// Templates: what a machine stands and steers on. Machines, makers and figures are invented.
import { fastener, fluid, limit, part, sizes, type Template } from "./parts-list.ts";

export const hub: Template = (c) => {
  const s = sizes(c);
  const names = c.one([
    ["left", "right"],
    ["nearside", "offside"],
    ["port", "starboard"],
  ]);
  const letBack = c.yes(0.5);
  const matched = c.yes(0.5);
  const studs = c.whole(3, 8);
  const locking = c.one(["split pin 4 x 40 mm", "tab washer 34 mm", "lock plate"]);
  return {
    key: "hub",
    machine: "Orrin two-wheel trailer, 1956",
    trouble: "wheels knock",
    places: { kind: c.one(["side", "end"]), names },
    stance: "jack",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("wheel", "Road wheel", { each: true, held: ["wheel-nut"], critical: "a wheel" }),
      part("grease-cap", "Grease cap", { each: true, behind: ["wheel"] }),
      part("hub", "Hub", { each: true, held: ["axle-nut"], behind: ["grease-cap", "wheel"], critical: "a wheel" }),
      part("outer-race", "Outer taper bearing", {
        each: true,
        runs: true,
        behind: ["hub"],
        critical: "a wheel",
        ...(matched ? { matched: "inner-race" } : {}),
      }),
      part("hub-seal", "Hub seal", { each: true, behind: ["hub"], renewWith: "hub", fits: "lip inward" }),
      part("inner-race", "Inner taper bearing", {
        each: true,
        runs: true,
        behind: ["hub-seal"],
        critical: "a wheel",
        ...(matched ? { matched: "outer-race" } : {}),
      }),
    ],
    fasteners: [
      fastener("wheel-nut", "Wheel nut, conical", c.one(["M14x1.5", "1/2-20 UNF", "9/16 BSF"]), {
        each: true,
        n: studs,
        torque: s.t(90, 120),
        critical: "a wheel",
        recheck: true,
        ...(c.yes(0.4) ? { leftHandAt: names[0] as string } : {}),
      }),
      fastener("axle-nut", "Axle nut, slotted", c.one(["M24x1.5", "7/8-14 UNF"]), {
        each: true,
        locking,
        critical: "a wheel",
        ...(letBack ? { torque: s.t(30, 40), letBack: c.one([1, 2]) } : {}),
      }),
    ],
    fluids: [fluid("hub-grease", "Hub grease", c.one([60, 80, 120]), { each: true, in: ["hub"] })],
    limits: [
      limit("end-float", "Hub end float", "dial", { each: true, set: s.range(0.05, 0.15), by: ["axle-nut"], wornMax: s.l(0.3), critical: true }),
      limit("spindle", "Spindle where the inner bearing sits", "mic", { each: true, fresh: s.range(39.98, 40.0), wornMin: s.l(39.94), of: "inner-race" }),
    ],
    checks: [
      {
        name: "hub-turns",
        title: "Turns freely by hand, no rumble",
        each: true,
        of: "hub",
        critical: "a wheel",
        good: "Turns sweetly",
        bad: "A rumble twice a turn",
      },
    ],
    hazards: [],
    shims: [],
  };
};

export const kingPin: Template = (c) => {
  const s = sizes(c);
  return {
    key: "king-pin",
    machine: "Ferrow light van, 1949",
    trouble: "wanders on the crown of the road",
    places: { kind: "side", names: ["left", "right"] },
    stance: "jack",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("steering-arm", "Steering arm", { each: true, held: ["arm-nut"], critical: "steering" }),
      part("stub-axle", "Stub axle", { each: true, held: ["pin-bolt"], behind: ["steering-arm"], critical: "steering", material: "steel" }),
      part("king-pin", "King pin", { each: true, behind: ["stub-axle"], critical: "steering", pairs: c.yes(0.4), runs: true }),
      part("pin-bush", "King pin bush", { each: true, n: 2, behind: ["king-pin"], critical: "steering", material: "bronze", runs: true }),
      part("thrust-washer", "Thrust washer", { each: true, behind: ["stub-axle"], fits: "oil grooves down" }),
    ],
    fasteners: [
      fastener("arm-nut", "Steering arm nut, castellated", c.one(["5/8-18 UNF", "M16x1.5"]), {
        each: true,
        torque: s.t(95, 115),
        locking: c.one(["split pin 4 x 32 mm", "split pin 5/32 x 1-1/4 in"]),
        critical: "steering",
        recheck: true,
      }),
      fastener("pin-bolt", "King pin pinch bolt", c.one(["M10x1.25", "3/8-24 UNF"]), {
        each: true,
        n: c.whole(1, 2),
        torque: s.t(34, 42),
        locking: c.one(["lock wire 1 mm x 200 mm", "self-locking nut", "tab washer 14 mm"]),
        critical: "steering",
      }),
    ],
    fluids: [],
    limits: [
      limit("pin-diameter", "King pin diameter", "mic", {
        each: true,
        fresh: s.range(22.0, 22.02),
        wornMin: s.l(21.9),
        of: "king-pin",
        positions: ["top", "bottom"],
        ovality: s.l(0.04),
        taper: s.l(0.05),
      }),
      limit("bush-bore", "King pin bush bore", "bore-gauge", { each: true, fresh: s.range(22.04, 22.07), wornMax: s.l(22.2), of: "pin-bush" }),
      limit("pin-clearance", "King pin in its bush", "bore-gauge", { each: true, formula: "bush-bore - pin-diameter", wornMax: s.l(0.26), of: "pin-bush" }),
      limit("lift", "Stub axle lift", "dial", { each: true, set: s.range(0.1, 0.3), by: ["lift-shims"], wornMax: s.l(0.6), critical: true }),
    ],
    checks: [
      {
        name: "lock-to-lock",
        title: "Swings lock to lock, no tight spot",
        each: true,
        of: "stub-axle",
        critical: "steering",
        good: "No tight spot",
        bad: "Tight half way",
      },
    ],
    hazards: [],
    shims: [
      {
        name: "lift-shims",
        title: "Shims above the stub axle",
        limit: "lift",
        stack: [
          [s.l(0.1), 12, 1],
          [s.l(0.25), 8, 1],
        ],
      },
    ],
  };
};

export const dropArm: Template = (c) => {
  const s = sizes(c);
  return {
    key: "drop-arm",
    machine: "Brackwell 22 tractor, 1951",
    trouble: "a hand's breadth of play at the wheel",
    stance: "jack",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("drag-link", "Drag link", { held: ["ball-nut"], critical: "steering" }),
      part("drop-arm", "Drop arm", { held: ["drop-arm-nut"], behind: ["drag-link"], keeps: true, critical: "steering" }),
      part("rocker-seal", "Rocker shaft seal", { behind: ["drop-arm"], renewWith: "drop-arm", fits: "lip to the oil" }),
      part("side-cover", "Steering box side cover", { held: ["cover-bolt"] }),
      part("side-gasket", "Side cover gasket", { behind: ["side-cover"], renewWith: "side-cover" }),
      part("rocker-shaft", "Rocker shaft", { behind: ["drop-arm", "side-cover"], critical: "steering", material: "steel" }),
    ],
    fasteners: [
      fastener("ball-nut", "Ball pin nut, castellated", c.one(["1/2-20 UNF", "M12x1.25"]), {
        n: 2,
        torque: s.t(55, 65),
        locking: c.one(["split pin 3.2 x 25 mm", "split pin 1/8 x 1 in"]),
        critical: "steering",
      }),
      fastener("drop-arm-nut", "Drop arm nut", c.one(["M24x1.5", "7/8-14 UNF"]), {
        torque: s.t(180, 210),
        locking: c.one(["tab washer 36 mm", "self-locking nut", "lock plate"]),
        critical: "steering",
        recheck: true,
      }),
      fastener("cover-bolt", "Side cover bolt", "M8", { n: c.whole(4, 7), torque: s.t(18, 24) }),
      fastener("rocker-adjuster", "Rocker shaft adjusting screw", "M12", { locking: "lock nut", critical: "steering" }),
    ],
    fluids: [fluid("box-oil", "Steering box oil", c.one([400, 600]), { in: ["side-cover"] })],
    limits: [
      limit("rocker-play", "Rocker shaft end play", "dial", { set: s.range(0.04, 0.16), by: ["rocker-adjuster"], wornMax: s.l(0.5), critical: true }),
      limit("rocker-diameter", "Rocker shaft diameter", "mic", { fresh: s.range(31.96, 31.98), wornMin: s.l(31.9), of: "rocker-shaft", ovality: s.l(0.05) }),
    ],
    checks: [
      {
        name: "arm-seat",
        title: "Drop arm hard up its taper splines",
        each: false,
        of: "drop-arm",
        critical: "steering",
        good: "Hard up, marks in line",
        bad: "Rocks on its splines",
      },
    ],
    hazards: [],
    shims: [],
  };
};

export const drumBrake: Template = (c) => {
  const s = sizes(c);
  const names = c.one([
    ["left", "right"],
    ["front-left", "front-right", "rear-left", "rear-right"],
  ]);
  return {
    key: "brake",
    machine: "Vardo pickup, 1953",
    trouble: "pulls to one side when it stops",
    places: { kind: c.one(["corner", "wheel-end"]), names },
    stance: "jack",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("wheel", "Wheel", { each: true, held: ["wheel-bolt"], critical: "a wheel" }),
      part("drum", "Brake drum", { each: true, held: ["drum-screw"], behind: ["wheel"], critical: "brakes", material: "cast-iron", grips: true }),
      part("shoe", "Brake shoe", { each: true, n: 2, held: ["shoe-pin"], behind: ["drum"], pairs: true, critical: "brakes", grips: true }),
      part("cylinder", "Wheel cylinder", { each: true, held: ["cylinder-bolt"], behind: ["shoe"], critical: "brakes" }),
    ],
    fasteners: [
      fastener("wheel-bolt", "Wheel bolt", "M12x1.5", { each: true, n: c.whole(4, 5), torque: s.t(80, 100), critical: "a wheel", recheck: true }),
      fastener("drum-screw", "Drum screw", "M6", { each: true, n: c.whole(1, 2) }),
      fastener("shoe-pin", "Shoe steady pin", "plain pin, 5 mm", {
        each: true,
        n: 2,
        torque: "none",
        locking: c.one(["R clip", "split pin 2 x 16 mm"]),
        critical: "brakes",
      }),
      fastener("cylinder-bolt", "Wheel cylinder bolt", "M8", {
        each: true,
        n: 2,
        torque: s.t(20, 26),
        locking: c.one(["tab washer 14 mm", "lock wire 0.8 mm x 150 mm"]),
        serves: c.one([1, 2]),
        critical: "brakes",
      }),
    ],
    fluids: [fluid("brake-fluid", "Brake fluid", 500, { in: ["cylinder"], bleed: true })],
    limits: [
      limit("drum-bore", "Drum bore", "calliper", { each: true, fresh: s.range(229.5, 230.5), wornMax: s.l(232.0), of: "drum", ovality: s.l(0.3) }),
      limit("lining", "Lining above the rivets", "calliper", {
        each: true,
        fresh: s.range(4.0, 5.0),
        wornMin: s.l(1.5),
        of: "shoe",
        positions: ["leading", "trailing"],
      }),
    ],
    checks: [
      {
        name: "no-leak",
        title: "Dry at the cylinder with the pedal held down a minute",
        each: true,
        of: "cylinder",
        critical: "brakes",
        good: "Dry",
        bad: "A bead at the union",
      },
    ],
    hazards: [{ name: "shoe-spring", title: "Shoe springs, stretched", before: "shoe-pin", how: "unhooked with the spring pliers" }],
    shims: [],
  };
};

export const leafSpring: Template = (c) => {
  const s = sizes(c);
  return {
    key: "leaf-spring",
    machine: "Hollis 30 cwt lorry, 1947",
    trouble: "sits down at one corner",
    places: { kind: "side", names: ["left", "right"] },
    stance: "jack",
    length: s.length,
    torque: s.torque,
    gauges: s.gauges,
    wrench: s.wrench,
    parts: [
      part("shackle", "Spring shackle", { each: true, held: ["shackle-nut"], critical: "the axle" }),
      part("spring", "Road spring", { each: true, held: ["u-nut"], behind: ["shackle"], critical: "the axle", mass: 32, pairs: true }),
      part("spring-bush", "Spring eye bush", { each: true, n: 2, behind: ["spring"], material: "bronze" }),
    ],
    fasteners: [
      fastener("shackle-nut", "Shackle nut", c.one(["M14x1.5", "9/16 BSF"]), {
        each: true,
        n: 2,
        torque: s.t(60, 75),
        locking: c.one(["split pin 3.2 x 28 mm", "self-locking nut"]),
        critical: "the axle",
      }),
      fastener("u-nut", "U-bolt nut", c.one(["M16x1.5", "5/8-18 UNF"]), {
        each: true,
        n: 4,
        torque: s.t(130, 150),
        stage: s.t(60, 61)[0],
        locking: c.one(["lock nut", "self-locking nut"]),
        critical: "the axle",
        recheck: true,
      }),
    ],
    fluids: [],
    limits: [
      limit("camber", "Spring camber, off the machine", "calliper", { each: true, fresh: s.range(118, 124), wornMin: s.l(105), of: "spring" }),
      limit("eye-bore", "Spring eye bush bore", "bore-gauge", { each: true, fresh: s.range(20.02, 20.06), wornMax: s.l(20.3), of: "spring-bush" }),
    ],
    checks: [
      {
        name: "leaves",
        title: "No leaf cracked, centre bolt whole",
        each: true,
        of: "spring",
        critical: "the axle",
        good: "Leaves whole",
        bad: "Second leaf cracked",
      },
    ],
    hazards: [{ name: "spring-load", title: "Road springs, bearing on the axle", before: "u-nut", how: "axle on its own stands, springs hanging" }],
    shims: [],
  };
};
