// Assemblies of a vehicle, got at from underneath. Figures are invented, and near no maker's.
import { act, check, fastener, fill, fit, fitNew, fluid, gauge, hazard, limit, lock, lockNew, part, q, remove, said, tighten, undo } from "./things.ts";
import { assembly, bought, type Builder, finding, measure, seen, sentOut, step } from "./build.ts";

const sides = { side: ["left", "right"] };
const sort = (r: { pick<T>(list: readonly T[]): T }): [string, string] => r.pick([["left", "right"], ["right", "left"]] as const) as [string, string];

export const hub: Builder = (r) => {
  const [bad, good] = sort(r);
  const worn = r.pick([9.071, 9.075, 9.088]);
  return assembly("hub", true, sides, [
    part("wheel", "Road wheel", { each: "side", heldBy: ["wheel-nut"], critical: "a wheel" }),
    part("drum", "Brake drum", { each: "side", heldBy: ["drum-screw"], behind: ["wheel"], critical: "brakes", keepsPlace: true }),
    part("hub", "Front hub", { each: "side", heldBy: ["hub-nut"], behind: ["drum"], critical: "a wheel" }),
    part("hub-bearing", "Hub bearing", { each: "side", behind: ["hub"], critical: "a wheel" }),
    part("hub-seal", "Hub oil seal", { each: "side", behind: ["hub"], renew: ["hub"], fits: "lip inward" }),
    part("cylinder", "Wheel cylinder", { each: "side", heldBy: ["cylinder-bolt"], behind: ["drum"], critical: "brakes" }),
    fastener("wheel-nut", "Wheel nut", { each: "side", per: 5, thread: "1/2-20 UNF", torque: { lo: 60, hi: 70, unit: "lbf.ft" }, lock: { text: 'nothing "Conical seat"', use: "nothing" }, critical: "a wheel" }),
    fastener("drum-screw", "Drum screw", { each: "side", per: 2, thread: "1/4-28 UNF", torque: "feel", lock: { text: 'nothing "The wheel holds the drum"', use: "nothing" } }),
    fastener("hub-nut", "Hub nut, castellated", { each: "side", threadAt: { left: "3/4-16 UNF LH", right: "3/4-16 UNF" }, lock: { text: "split pin 5/32 x 1-1/2 in", use: "once" }, critical: "a wheel" }),
    fastener("cylinder-bolt", "Wheel cylinder bolt", { each: "side", per: 2, thread: "M8x1", torque: { lo: 20, hi: 24, unit: "N.m" }, lock: { text: "tab washer 8 mm", use: "once" }, critical: "brakes" }),
    fastener("backplate-bolt", "Backplate bolt", { each: "side", per: 4, thread: "3/8-24 UNF", torque: { lo: 28, hi: 32, unit: "lbf.ft" }, lock: { text: "split pin 3/32 x 1 in", use: "once" }, critical: "brakes" }),
    fluid("brake-fluid", "Brake fluid", ["cylinder"], q(400, "ml"), { bleed: true }),
    fluid("hub-grease", "Hub grease", ["hub"], q(150, "ml"), { each: "side" }),
    limit("drum-bore", "Drum bore", "in", 3, { each: "side", fresh: [9, 9.008], worn: { max: 9.06 }, of: ["drum"], critical: "brakes" }),
    limit("hub-float", "Hub end float", "in", 4, { each: "side", set: { lo: 0.002, hi: 0.006, by: ["hub-nut"] }, critical: "a wheel" }),
    check("no-leak", "Dry with the pedal held down", ["cylinder"], { critical: "brakes" }),
    gauge("drum-gauge", "Drum gauge", { uncertainty: q(0.002, "in", 3) }),
    gauge("dial", "Dial gauge", { uncertainty: q(0.0005, "in", 4) }),
    gauge("hub-wrench", "Torque wrench", { range: { lo: 20, hi: 120, unit: "lbf.ft" } }),
  ], [
    step("wheel-off", "Wheels and drums off", 2, [undo("wheel-nut"), remove("wheel"), undo("drum-screw"), said("mark", "drum", "dots, one left, two right"), remove("drum")]),
    step("hub-off", "Hubs and cylinders off", 2, [undo("hub-nut"), remove("hub", "hub-bearing", "hub-seal"), undo("cylinder-bolt"), remove("cylinder")]),
    finding("hub-bearing", 3, ["pitted"], { place: bad, decision: "renew" }),
    finding("hub-bearing", 3, ["serviceable"], { place: good }),
    finding("cylinder", 3, ["leaking"], { place: good, decision: "renew" }),
    finding("cylinder", 3, ["serviceable"], { place: bad }),
    measure("drum-bore", "found", 3, "in", 3, { [bad]: [worn], [good]: [9.014] }, "drum-gauge"),
    finding("drum", 3, ["worn"], { place: bad, decision: "renew" }),
    ...bought("P-201", { drum: 1, "hub-bearing": 1, "hub-seal": 2, cylinder: 1 }),
    step("hub-on", "Hubs on", 6, [act("clean", "hub"), fitNew(`hub-bearing @${bad}`), fit(`hub-bearing @${good}`), act("grease", "hub-bearing"), fitNew("hub-seal"), fit("hub"), fill("hub-grease", q(150, "ml")), tighten("hub-nut"), lockNew("hub-nut")]),
    measure("hub-float", "final", 6, "in", 4, { left: [0.0035], right: [r.pick([0.003, 0.004, 0.005])] }, "dial"),
    step("cylinder-on", "Cylinders on", 6, [fitNew(`cylinder @${good}`), fit(`cylinder @${bad}`), tighten("cylinder-bolt", q(22, "N.m")), lockNew("cylinder-bolt")]),
    step("brakes-filled", "Filled and bled", 7, [fill("brake-fluid", q(400, "ml")), act("bleed", "brake-fluid")]),
    step("wheel-on", "Drums and wheels on", 7, [fitNew(`drum @${bad}`), fit(`drum @${good}`), tighten("drum-screw"), fit("wheel"), tighten("wheel-nut", q(65, "lbf.ft"), "hub-wrench")]),
    measure("drum-bore", "final", 7, "in", 3, { [bad]: [9.004], [good]: [9.014] }, "drum-gauge"),
    seen("no-leak", "final", 7),
  ], "Eight stops from 30 mph, straight, nothing hot");
};

export const linkage: Builder = (r) => {
  const [bad, good] = sort(r);
  return assembly("linkage", true, sides, [
    part("track-rod", "Track rod", { heldBy: ["ball-nut"], critical: "steering" }),
    part("rod-end", "Track rod end", { each: "side", behind: ["track-rod"], critical: "steering" }),
    part("drop-arm", "Drop arm", { heldBy: ["arm-nut"], critical: "steering" }),
    part("box-plate", "Steering box lock plate", { per: 2, renew: [] }),
    fastener("ball-nut", "Ball pin nut, castellated", { each: "side", thread: "1/2-20 UNF", torque: { lo: 45, hi: 55, unit: "lbf.ft" }, lock: { text: "split pin 1/8 x 1-1/4 in", use: "once" }, critical: "steering" }),
    fastener("arm-nut", "Drop arm nut", { thread: "3/4-16 UNF", torque: { lo: 100, hi: 120, unit: "lbf.ft" }, lock: { text: "tab washer 20 mm", use: "once" }, critical: "steering" }),
    fastener("clamp-bolt", "Track rod clamp bolt", { each: "side", thread: "M8x1.25", torque: { lo: 18, hi: 22, unit: "N.m" }, lock: { text: "tab washer 8 mm", use: "once" }, critical: "steering" }),
    fastener("box-bolt", "Steering box bolt", { per: 4, thread: "7/16-20 UNF", torque: { lo: 40, hi: 50, unit: "lbf.ft" }, lock: { text: "part box-plate", use: "part", part: "box-plate", serves: 2 }, critical: "steering" }),
    fastener("idler-bolt", "Idler bracket bolt", { per: 3, thread: "3/8-24 UNF", torque: { lo: 28, hi: 32, unit: "lbf.ft" }, lock: { text: "split pin 3/32 x 1 in", use: "once" }, critical: "steering" }),
    limit("ball-play", "Track rod end play", "mm", 2, { each: "side", fresh: [0, 0.2], worn: { max: 0.5 }, of: ["rod-end"], critical: "steering" }),
    limit("toe-in", "Toe-in at the rims", "mm", 1, { set: { lo: 1, hi: 4, by: ["clamp-bolt"] }, of: ["track-rod"], critical: "steering" }),
    check("lock-to-lock", "Full lock both ways, nothing touches", ["track-rod", "drop-arm"], { critical: "steering" }),
    gauge("feeler", "Dial on a magnet", { uncertainty: q(0.02, "mm", 2) }),
    gauge("trammel", "Trammel", { uncertainty: q(0.5, "mm", 1) }),
    gauge("rod-wrench", "Torque wrench", { range: { lo: 20, hi: 150, unit: "lbf.ft" } }),
  ], [
    measure("ball-play", "found", 1, "mm", 2, { [bad]: [r.pick([0.7, 0.85, 1.1])], [good]: [0.15] }, "feeler"),
    finding("ball-nut", 1, r.chance(0.5) ? ["loose"] : ["loose", "unlocked"], { place: bad, decision: "reuse" }),
    step("rod-off", "Track rod and drop arm off", 2, [undo("ball-nut"), act("slacken", "clamp-bolt"), remove("track-rod", "rod-end"), undo("arm-nut"), said("mark", "drop-arm", "centre pop on arm and shaft"), remove("drop-arm"), undo("box-bolt")]),
    finding("rod-end", 3, ["worn"], { place: bad, decision: "renew" }),
    finding("track-rod", 3, ["bent"], { decision: 'repair "straightened cold"' }),
    finding("drop-arm", 3, ["serviceable"]),
    ...bought("P-202", { "rod-end": 1, "box-plate": 2 }),
    step("rod-straightened", "Track rod straightened", 5, [said("repair", "track-rod", "straightened cold, rolled on the plate")]),
    finding("track-rod", 5, ["serviceable"], { because: "Straight on the plate, no crack under dye" }),
    step("rod-on", "Track rod and drop arm on", 6, [fitNew(`rod-end @${bad}`), fit(`rod-end @${good}`), fit("track-rod"), tighten("ball-nut", q(50, "lbf.ft"), "rod-wrench"), lockNew("ball-nut"), fit("drop-arm"), tighten("arm-nut", q(110, "lbf.ft"), "rod-wrench"), lockNew("arm-nut"), fitNew("box-plate 2"), tighten("box-bolt", q(45, "lbf.ft"), "rod-wrench"), lock("box-bolt")]),
    step("clamps-up", "Clamps tight", 7, [tighten("clamp-bolt", q(20, "N.m")), lockNew("clamp-bolt")]),
    measure("toe-in", "final", 7, "mm", 1, { "": [2.5] }, "trammel"),
    measure("ball-play", "final", 7, "mm", 2, { [bad]: [0.1], [good]: [0.15] }, "feeler"),
    seen("lock-to-lock", "final", 7),
  ], "Five miles, no wander");
};

export const spring: Builder = (r) => {
  const [bad] = sort(r);
  return assembly("spring", true, sides, [
    part("leaf-spring", "Leaf spring", { each: "side", heldBy: ["u-nut", "shackle-nut"], critical: "the axle", inPairs: true, mass: 18 }),
    part("axle-pad", "Axle pad", { each: "side", behind: ["leaf-spring"], keepsPlace: true }),
    part("bump-rubber", "Bump rubber", { each: "side" }),
    fastener("u-nut", "U-bolt nut", { each: "side", per: 4, thread: "1/2-20 UNF", torque: { lo: 60, hi: 70, unit: "lbf.ft" }, lock: { text: "self-locking nut", use: "nut" }, critical: "the axle" }),
    fastener("shackle-nut", "Shackle nut, castellated", { each: "side", per: 2, thread: "1/2-20 UNF", torque: { lo: 40, hi: 48, unit: "lbf.ft" }, lock: { text: "split pin 1/8 x 1 in", use: "once" }, critical: "the axle" }),
    fastener("hanger-bolt", "Hanger bolt", { each: "side", per: 2, thread: "7/16-20 UNF", torque: { lo: 38, hi: 46, unit: "lbf.ft" }, lock: { text: "split pin 3/32 x 1 in", use: "once" }, critical: "the axle" }),
    hazard("spring-load", "Spring under load", ["u-nut"], ["u-nut", "leaf-spring"], "Take the load on a bottle jack before the last nut"),
    limit("free-camber", "Spring camber, free", "mm", 0, { each: "side", worn: { min: 95 }, of: ["leaf-spring"] }),
    gauge("spring-wrench", "Torque wrench", { range: { lo: 20, hi: 120, unit: "lbf.ft" } }),
  ], [
    finding("leaf-spring", 1, ["broken"], { place: bad, because: "Second leaf gone at the eye", decision: "renew" }),
    finding("leaf-spring", 1, ["serviceable"], { place: bad === "left" ? "right" : "left", because: "Renewed with its fellow all the same" }),
    step("spring-off", "Springs off", 2, [said("safe", "spring-load", "load taken on the bottle jack"), undo("u-nut", "shackle-nut"), said("mark", "axle-pad", "L and R"), remove("leaf-spring", "axle-pad")]),
    ...bought("P-203", { "leaf-spring": 2, "u-nut": 8 }),
    step("spring-on", "Springs on", 6, [fit("axle-pad"), fitNew("leaf-spring"), fitNew("u-nut 4"), tighten("u-nut", q(65, "lbf.ft"), "spring-wrench"), lock("u-nut"), tighten("shackle-nut", q(44, "lbf.ft"), "spring-wrench"), lockNew("shackle-nut"), said("restore", "spring-load", "bottle jack let down")]),
    measure("free-camber", "final", 6, "mm", 0, { left: [110], right: [111] }),
  ], "Loaded with 300 kg, sits level");
};

export const pinion: Builder = (r) => assembly("pinion", true, {}, [
  part("nose", "Nose piece", { heldBy: ["nose-bolt"], critical: "drive", mass: 14 }),
  part("nose-gasket", "Nose gasket", { behind: ["nose"], renew: ["nose"] }),
  part("pinion", "Bevel pinion", { heldBy: ["pinion-nut"], behind: ["nose"], critical: "drive", matched: "crown-wheel" }),
  part("crown-wheel", "Crown wheel", { heldBy: ["crown-bolt"], behind: ["nose"], critical: "drive", matched: "pinion" }),
  part("pinion-bearing", "Pinion bearing", { per: 2, behind: ["pinion"], critical: "drive", inPairs: true }),
  part("crown-plate", "Crown bolt lock plate", { per: 4, renew: [] }),
  fastener("nose-bolt", "Nose bolt", { per: 6, thread: "3/8-24 UNF", torque: { lo: 28, hi: 32, unit: "lbf.ft" }, lock: { text: "lock wire 1.2 mm", use: "once" }, critical: "drive" }),
  fastener("pinion-nut", "Pinion nut", { thread: "7/8-14 UNF", torque: { lo: 90, hi: 110, unit: "lbf.ft" }, lock: { text: "staking", use: "once" }, critical: "drive" }),
  fastener("crown-bolt", "Crown wheel bolt", { per: 8, thread: "3/8-24 UNF", torque: { lo: 38, hi: 44, unit: "lbf.ft" }, lock: { text: "part crown-plate", use: "part", part: "crown-plate", serves: 2 }, critical: "drive" }),
  fastener("carrier-bolt", "Carrier cap bolt", { per: 4, thread: "7/16-20 UNF", torque: { lo: 45, hi: 50, unit: "lbf.ft" }, lock: { text: "lock wire 1.2 mm", use: "once" }, critical: "drive" }),
  fluid("axle-oil", "Axle oil", ["nose"], q(2.5, "imp.pt", 2)),
  limit("pinion-float", "Pinion end float", "in", 4, { set: { lo: 0.001, hi: 0.003, by: ["pinion-nut"] }, of: ["pinion"], critical: "drive" }),
  limit("backlash", "Crown wheel backlash", "in", 4, { set: { lo: 0.005, hi: 0.009, by: ["nose-bolt"] }, of: ["crown-wheel"], critical: "drive" }),
  limit("bearing-seat", "Pinion bearing seat", "in", 4, { fresh: [1.2502, 1.2507], worn: { min: 1.2498 }, of: ["pinion"] }),
  check("mesh", "Contact in the middle of the tooth", ["pinion", "crown-wheel"], { critical: "drive" }),
  gauge("lever-dial", "Lever dial", { uncertainty: q(0.0003, "in", 4) }),
  gauge("axle-wrench", "Torque wrench", { range: { lo: 20, hi: 150, unit: "lbf.ft" } }),
], [
  finding("axle-oil", 1, ["clean"]),
  step("nose-off", "Oil out, nose piece off", 2, [{ ...act("drain", "axle-oil"), amount: q(2.25, "imp.pt", 2) }, undo("nose-bolt"), remove("nose", "nose-gasket")]),
  step("pinion-out", "Pinion and crown wheel out", 2, [undo("pinion-nut"), remove("pinion"), remove("pinion-bearing 2"), undo("crown-bolt"), remove("crown-wheel")]),
  finding("pinion", 3, [r.pick(["broken", "pitted", "scored"])], { because: "Two teeth", decision: "renew" }),
  finding("crown-wheel", 3, ["serviceable"], { because: "Renewed with the pinion" }),
  finding("pinion-bearing", 3, ["pitted"], { decision: "renew" }),
  ...bought("P-204", { pinion: 1, "crown-wheel": 1, "pinion-bearing": 2, "crown-plate": 4, "nose-gasket": 1 }),
  step("pinion-in", "Pinion and crown wheel in", 6, [fitNew("pinion-bearing 2"), fitNew("pinion"), tighten("pinion-nut", q(100, "lbf.ft"), "axle-wrench"), lockNew("pinion-nut"), fitNew("crown-wheel"), fitNew("crown-plate 4"), tighten("crown-bolt", q(40, "lbf.ft"), "axle-wrench"), lock("crown-bolt")]),
  measure("bearing-seat", "final", 6, "in", 4, { "": [1.2504] }),
  measure("pinion-float", "final", 6, "in", 4, { "": [0.002] }, "lever-dial"),
  step("nose-on", "Nose piece on", 6, [fitNew("nose-gasket"), fit("nose"), tighten("nose-bolt", q(30, "lbf.ft"), "axle-wrench"), lockNew("nose-bolt")]),
  measure("backlash", "final", 7, "in", 4, { "": [0.0065, 0.007, 0.006, 0.0065] }, "lever-dial"),
  seen("mesh", "final", 7),
  step("axle-filled", "Axle filled", 7, [fill("axle-oil", q(2.5, "imp.pt", 2))]),
], "Ten miles, quiet on drive and overrun");

export const steeringBox: Builder = (r) => assembly("steering-box", true, {}, [
  part("end-cover", "Steering box end cover", { heldBy: ["end-bolt"], critical: "steering" }),
  part("end-gasket", "End cover gasket", { behind: ["end-cover"], renew: ["end-cover"] }),
  part("worm", "Steering worm", { behind: ["end-cover"], critical: "steering" }),
  part("worm-ball", "Worm ball", { per: 14, behind: ["end-cover"], critical: "steering" }),
  part("sector", "Sector shaft", { behind: ["end-cover"], critical: "steering" }),
  fastener("end-bolt", "End cover bolt", { per: 4, thread: "5/16-24 UNF", torque: { lo: 12, hi: 16, unit: "lbf.ft" }, lock: { text: "lock wire 1 mm", use: "once" }, critical: "steering" }),
  fastener("adjuster-nut", "Sector adjuster nut", { thread: "7/16-20 UNF", lock: { text: "tab washer 12 mm", use: "once" }, critical: "steering" }),
  fastener("bracket-bolt", "Column bracket bolt", { per: 2, thread: "5/16-24 UNF", torque: { lo: 14, hi: 18, unit: "lbf.ft" }, lock: { text: "split pin 1/16 x 3/4 in", use: "once" }, critical: "steering" }),
  fluid("box-oil", "Steering box oil", ["end-cover"], q(300, "ml")),
  limit("sector-dia", "Sector shaft diameter", "mm", 3, { fresh: [28.56, 28.575], worn: { min: 28.52 }, of: ["sector"], critical: "steering" }),
  limit("rim-play", "Play at the rim", "mm", 0, { set: { lo: 5, hi: 20, by: ["adjuster-nut"] }, of: ["worm", "sector"], critical: "steering" }),
  check("worm-track", "Worm track smooth all along", ["worm"], { critical: "steering" }),
  gauge("mic", "Micrometer 25-50 mm", { uncertainty: q(0.004, "mm", 3), range: { lo: 25, hi: 50, unit: "mm" } }),
], [
  finding("adjuster-nut", 1, ["loose"], { decision: "reuse" }),
  step("box-open", "Steering box open", 2, [{ ...act("drain", "box-oil"), amount: q(280, "ml") }, undo("end-bolt"), remove("end-cover", "end-gasket", "worm", "sector"), remove("worm-ball 13"), undo("adjuster-nut")]),
  finding("worm-ball", 3, ["missing"], { n: 1 }),
  finding("worm", 3, ["serviceable"]),
  measure("sector-dia", "found", 3, "mm", 3, { "": [r.pick([28.488, 28.495, 28.47])] }, "mic"),
  finding("sector", 3, ["worn"], { decision: 'repair "ground and plated"' }),
  ...sentOut("W-11", "sector", undefined, "grind, plate, grind to 28.57 mm"),
  ...bought("P-205", { "worm-ball": 1, "end-gasket": 1 }),
  measure("sector-dia", "final", 5, "mm", 3, { "": [28.568] }, "mic"),
  step("box-shut", "Steering box built", 6, [fit("worm"), fit("worm-ball 13"), fitNew("worm-ball 1"), act("oil", "worm"), fit("sector"), fitNew("end-gasket"), fit("end-cover"), tighten("end-bolt", q(14, "lbf.ft")), lockNew("end-bolt"), tighten("adjuster-nut"), lockNew("adjuster-nut"), fill("box-oil", q(300, "ml"))]),
  measure("rim-play", "final", 7, "mm", 0, { "": [12] }),
  seen("worm-track", "final", 7),
], "Round the yard both ways, free of lock to lock");
