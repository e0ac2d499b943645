// The way back of small jobs, each with one trap in it: what is written, line by line, as a mechanic would do it, put down by hand from the facts of each sheet.
import { describe, expect, test } from "vitest";
import { checkFile } from "../../server/rules/check.ts";
import { filesFrom } from "./sheets.ts";
import { wayBack } from "../in-one-go.ts";

const closed = `sheet "Lid"
  opened 2026-03-01
part lid "Lid"
  held by screw
part gasket "Lid gasket"
  behind lid
  renew with lid
fastener screw "Lid screw"
  qty 6
  torque 10 .. 12 N.m
  locked by nothing "x"
  source "Book"
fluid oil "Oil"
  in lid
  capacity 1 l
step a
  undo screw
  remove lid, gasket
  done 2026-03-02
step b
  fit lid
  tighten screw to 11 N.m
  done 2026-03-03
`;

const leak = `sheet "Brake pipe"
  opened 2026-03-01
part cyl "Wheel cylinder"
  held by cyl-nut
  critical "brakes"
fastener cyl-nut "Cylinder nut"
  torque 10 .. 12 N.m
  locked by nothing "x"
  source "Book"
part pipe "Pipe"
  held by union
  critical "brakes"
fastener union "Union"
  torque 10 .. 12 N.m
  locked by nothing "x"
  source "Book"
fluid brake-fluid "Brake fluid"
  in cyl, pipe
  capacity 400 ml
  bleed
check no-leak "Dry with the pedal held"
  of cyl, pipe
  critical "brakes"
step a
  undo union
  remove pipe
  undo cyl-nut
  remove cyl
  done 2026-03-02
`;

const liveSpring = `sheet "U-bolt"
  opened 2026-03-01
part axle "Axle"
  held by u-nut
  critical "the axle"
fastener u-nut "U-bolt nut"
  qty 4
  torque 45 .. 55 lbf.ft
  locked by lock nut
  critical "the axle"
  source "Handbook"
hazard spring "Road spring"
  safe before u-nut
  restore after u-nut
  caution "Take the weight off the spring first."
finding u-nut 1
  is loose
  decision renew
`;

const oldKey = `sheet "Key"
  opened 2026-09-14
part key "Propeller key"
  critical "drive"
step off
  remove key
  done 2026-09-14
finding key
  is worn
  decision make "from key steel"
`;

const behindTheDrum = `sheet "Band"
  opened 2026-11-02
part wheel "Wheel"
  held by nut
part drum "Drum"
  behind wheel
  held by drum-nut
part band "Band"
  behind drum
  held by pin
fastener nut "Wheel nut"
  torque by feel "x"
  locked by nothing "x"
fastener drum-nut "Drum nut"
  torque by feel "x"
  locked by nothing "x"
fastener pin "Anchor pin"
  torque none
  locked by split pin 1/8 x 1 in
hazard spring "Return spring, behind the drum"
  safe before pin
  restore after pin
step off
  undo nut
  remove wheel
  undo drum-nut
  remove drum
  safe spring "let down"
  undo pin
  remove band
  done 2026-11-02
`;

const shoes = `sheet "Shoes"
  opened 2026-03-01
part shoe "Shoe"
  qty 2
  behind drum
part spring "Pull-off spring"
  qty 2
  behind drum
part cylinder "Cylinder"
  behind shoe
part hose "Hose"
  held by hose-union
fastener hose-union "Hose end in the cylinder"
  torque 10 .. 12 N.m
  locked by nothing "x"
  source "Book"
part drum "Drum"
step off
  remove drum
  remove spring
  remove shoe
  undo hose-union
  remove hose
  remove cylinder
  done 2026-03-02
`;

const stack = `sheet "Stack"
  opened 2026-03-01
part box "Gearbox"
  held by bell-bolt
fastener bell-bolt "Bell bolt"
  torque 25 .. 30 N.m
  locked by nothing "x"
  source "Book"
part shaft "Mainshaft"
  behind box
part spacer "Spacer, selective"
  behind shaft
  held by shaft-nut
fastener shaft-nut "Mainshaft nut"
  torque 80 .. 100 N.m
  locked by tab washer
  source "Book"
limit stack "Stack float"
  set 0.000 .. 0.002 in by spacer
  source "Book"
step off
  undo bell-bolt
  remove box
  undo shaft-nut
  remove shaft
  remove spacer
  done 2026-03-02
`;

const toe = `sheet "Toe-in"
  opened 2026-03-01
places side left, right
part end "Track rod end"
  each side
  held by clamp
  behind rod
part rod "Track rod"
  held by ball-nut
  critical "steering"
fastener clamp "Clamp"
  each side
  torque 18 .. 22 N.m
  locked by tab washer
  source "Book"
fastener ball-nut "Ball nut"
  each side
  torque 45 .. 55 N.m
  locked by split pin 1/8 x 1-1/2 in
  critical "steering"
  source "Book"
limit toe-in "Toe-in"
  set 1/16 .. 1/8 in by clamp
  of rod
  critical "steering"
  source "Book"
step off
  undo ball-nut
  remove rod
  undo clamp
  remove end
  done 2026-03-02
`;

const mains = `sheet "Lathe spindle"
  opened 2026-01-01
part guard "Belt guard"
  held by guard-screw
fastener guard-screw "Guard screw"
hazard mains "Mains to the motor"
  safe before guard-screw
  restore after guard-screw
  caution "Isolator off, locked, key in the pocket."
step strip "Guard off"
  safe mains "isolator locked"
  undo guard-screw
  remove guard
  done
`;

const heavyBox = `sheet "Box"
  opened 2026-01-01
part box "Gearbox"
  held by box-bolt
  mass 45 kg
fastener box-bolt "Box bolt"
  qty 4
  torque 25 .. 30 N.m
  locked by nothing "x"
step off
  support box on cradle
  undo box-bolt
  remove box
  done 2026-01-01
`;

const bush = `sheet "Bush"
  opened 2026-01-01
part bush "Bush"
  behind cover
limit bore "Bush bore"
  new 10.00 .. 10.10 mm
  of bush
  source "Book"
part cover "Cover"
step off
  remove cover
  remove bush
  done 2026-01-01
finding bush
  is worn
  decision renew
`;

/** Grease is packed while the hub is open; a plate under the nut comes with its lock; a wheel that one person rolls is not slung. */
const packed = `sheet "Hub"
  opened 2026-03-01
part wheel "Road wheel"
  held by hub-nut
  mass 21 kg
part hub "Hub"
  held by hub-nut
  behind wheel
part outer "Outer bearing"
  held by hub-nut
part plate "Lock plate"
fastener hub-nut "Hub nut"
  torque 30 .. 34 N.m
  locked by part plate
  source "Book"
fluid hub-grease "Hub grease"
  in hub
  capacity 90 ml
step off
  undo hub-nut
  remove wheel
  remove outer
  remove hub
  done 2026-03-02
`;

/** The coupling is on and its nut is not; what came off before is not the next thing. */
const begun = `sheet "Coupling"
  opened 2026-03-01
part coupling "Coupling"
  held by nut
part cover "Cover"
part rope "Rope"
  held by anchor
fastener nut "Coupling nut"
  torque 80 .. 90 N.m
  locked by split pin 3 x 30 mm
  source "Book"
fastener anchor "Rope anchor"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
hazard mains "Mains"
  safe before nut
  restore after nut, anchor
hazard car "Car on the ropes"
  safe before nut
  restore after nut, anchor
step off
  safe mains "off"
  safe car "slung"
  undo nut
  remove coupling
  undo anchor
  remove rope
  remove cover
  done 2026-03-02
step on
  fit coupling
  done 2026-03-03
`;

/** The arm stays where it is and is dyed while the wheel is off; the stub was looked at on the bench, and so is the next. */
const bare = `sheet "Arms"
  opened 2026-03-01
part wheel "Wheel"
  held by nut
part arm "Axle arm"
  behind wheel
part stub "Stub"
fastener nut "Nut"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
check arm-dye "No line at the collar, dye"
  of arm
check whole "Whole at the root, by the glass"
  of stub
step off
  undo nut
  remove wheel
  remove stub
  done 2026-03-02
seen arm-dye found bad "A line"
seen whole found bad "Rust"
finding arm
  is scored
  decision repair "Stoned"
finding stub
  is pitted
  decision repair "Polished"
`;

/** The same, and the stub seen on the bench already. */
const seenAhead = `${bare}step mended
  repair stub "Polished"
  done 2026-03-03
seen whole final good "Whole" by "A. Moor" 2026-03-03
`;

/** Read at the sheave, which is in front; the cover came off after that. */
const atTheSheave = `sheet "Worm box"
  opened 2026-03-01
part worm-wheel "Worm wheel"
  held by rim-bolt
  behind sheave, cover
part cover "Cover"
part sheave "Drive sheave"
part rope "Rope"
fastener rim-bolt "Rim bolt"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
limit lash "Backlash at the sheave"
  set 0.2 .. 0.4 mm by rim-bolt
  source "Book"
step off
  remove rope
  remove sheave
  remove cover
  undo rim-bolt
  remove worm-wheel
  done 2026-03-02
`;

/** Tried with the wheel in for now and the cover off: read again so, when the wheel is in for good. */
const tried = `sheet "Bevel box"
  opened 2026-03-01
part cover "Cover"
part casing "Casing"
part gear "Crown wheel"
  held by bolt
fastener bolt "Crown bolt"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
shims pack "Shims"
  have 0.1 mm x 4
  fitted 0.1 mm x 2
limit lash "Backlash"
  worn max 0.4 mm
  set 0.1 .. 0.3 mm by pack
  critical "the drive"
  source "Book"
measure lash found
  0.5 mm
step off
  remove cover
  undo bolt
  remove gear
  remove casing
  done 2026-03-02
step try
  fit casing for now "to try the teeth"
  fit gear for now "to try the teeth"
  tighten bolt to 22 N.m for now "to try the teeth"
  done 2026-03-03
measure lash trial
  0.2 mm
`;

/** The union is tight and the drum on; the pedal is hard when it has been bled. */
const pedal = `sheet "Brakes"
  opened 2026-03-01
part hose "Hose"
  held by union
fastener union "Union"
  torque 10 .. 12 N.m
  locked by nothing "x"
  source "Book"
fluid brake-fluid "Brake fluid"
  in hose
  capacity 400 ml
  bleed
check hard "Hard at a third, does not sink"
  set by union
step off
  drain brake-fluid
  undo union
  remove hose
  done 2026-03-02
step on
  fit hose
  tighten union to 11 N.m
  done 2026-03-03
`;

// What is written, without notes; a reading stands for all of its lines.
const plug = `sheet "Sump"
  opened 2026-03-01
part sump "Sump"
  held by sump-bolt
part washer "Plug washer"
  held by plug
  renew
fastener sump-bolt "Sump bolt"
  torque 10 .. 12 N.m
  locked by nothing "x"
fastener plug "Drain plug"
  torque 30 .. 34 N.m
  locked by nothing "x"
fluid oil "Oil"
  in sump
  capacity 1 l
check no-leak "Dry at the plug"
  of plug
step a
  undo plug
  drain oil 1 l
  remove washer
  undo sump-bolt
  remove sump
  done 2026-03-02
`;

/** The near side was stripped further than the off side, and later. */
const twoDepths = `sheet "Trailer"
  opened 2026-03-01
places side near, off
part drum "Drum"
  each side
part shoe "Shoe"
  each side 2
  behind drum
part outer "Outer bearing"
  each side
step off-side
  remove outer off
  remove drum off
  done 2026-03-02
step near-side
  remove outer near
  remove drum near
  remove shoe near
  done 2026-03-03
`;

const owing = `sheet "Van"
  opened 2026-03-01
part hub "Hub"
  critical "the wheel"
limit ride "Ride height, to the wing"
  new 400 .. 420 mm
  critical "steering"
  source "Book"
check pedal "Pedal hard at half its travel"
  critical "brakes"
step a
  remove hub
  done 2026-03-02
`;

/** The bush wore and is renewed; of the two that the clearance is worked out from, it alone is another. */
const operand = `sheet "Fork"
  opened 2026-03-01
places leg left, right
part tube "Tube"
  each leg
part bush "Bush"
  each leg
limit tube-size "Tube diameter"
  each leg
  worn min 34.90 mm
  of tube
  source "Book"
limit bush-bore "Bush bore"
  each leg
  worn max 35.15 mm
  of bush
  source "Book"
limit gap "Bush on tube"
  each leg
  = bush-bore - tube-size
  worn max 0.20 mm
  of bush
  source "Book"
step a
  remove tube, bush
  done 2026-03-02
measure tube-size found
  left 34.95 mm
  right 34.95 mm
measure bush-bore found
  left 35.21 mm
  right 35.05 mm
finding bush left
  is worn
  decision renew
`;

const whereTaken = `sheet "Drawbar"
  opened 2026-03-01
part bush "Slide bush"
  behind bar
part bar "Drawbar"
  behind damper
part damper "Damper"
part screw "Propeller"
limit play "Drawbar play in its bushes"
  worn max 1.5 mm
  of bush
  source "Book"
check blue "Blue over three quarters of the taper"
  of screw
  critical "the propeller"
check holds "Holds on the overrun"
  of damper
measure play found
  1.9 mm
step a
  remove damper
  remove bar
  remove bush
  remove screw
  done 2026-03-02
finding bush
  is worn
  decision renew
`;

const oneSeal = `sheet "Box"
  opened 2026-03-01
places end front, rear
part flange "Tail flange"
part seal "Oil seal"
  each end
  renew with flange
step a
  remove flange
  remove seal rear
  done 2026-03-02
`;

const bled = `sheet "Brakes"
  opened 2026-03-01
part drum "Drum"
part hose "Hose"
fluid brake-fluid "Brake fluid"
  in hose
  capacity 400 ml
  bleed
step a
  remove drum
  remove hose
  drain brake-fluid
  done 2026-03-02
`;

const stub = `sheet "Stub axle"
  opened 2026-03-01
part pin "King pin"
  held by cotter-nut
part stub "Stub axle"
  behind pin
part thrust "Thrust washer"
  behind stub
fastener cotter-nut "Cotter nut"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
part arm "Steering arm"
limit pin-dia "King pin diameter"
  new 24.98 .. 25.00 mm
  of pin
  source "Book"
limit lift "Lift of the stub axle"
  set 0.05 .. 0.15 mm by thrust
  of thrust
  source "Book"
step off
  remove arm
  undo cotter-nut
  remove pin
  remove stub
  remove thrust
  done 2026-03-02
finding pin
  is worn
  decision renew
measure pin-dia final
  24.99 mm
`;

const lining = `sheet "Brake"
  opened 2026-03-01
part drum "Drum"
part shoe "Shoe"
  qty 2
  behind drum
limit lining "Lining"
  worn min 2 mm
  of shoe
  source "Book"
step off
  remove drum
  done 2026-03-02
measure lining found
  1.5 mm
`;

const fourCorners = `sheet "Brakes all round"
  opened 2026-03-01
places side left, right
part wheel "Road wheel"
  each side
part drum "Brake drum"
  each side
  behind wheel
part shoe "Shoe"
  each side
  behind drum, spring
part spring "Return spring"
  each side
  behind drum
part cylinder "Wheel cylinder"
  each side
  held by union
  behind shoe
fastener union "Union"
  each side
  torque 10 .. 12 N.m
  locked by nothing "x"
  source "Book"
fluid brake-fluid "Brake fluid"
  in cylinder
  capacity 400 ml
  bleed
hazard springs "Return springs"
  safe before spring
  restore after spring
hazard dust "Lining dust"
  safe before drum
check dry "Dry under a hard pedal"
  of cylinder
step left-off
  at left
  safe dust "wetted"
  remove wheel
  remove drum
  safe springs "hook tool"
  remove spring
  remove shoe
  done 2026-03-02
step right-off
  at right
  remove wheel
  remove drum
  remove spring
  remove shoe
  done 2026-03-03
step wet
  undo union left
  remove cylinder left
  done 2026-03-03
`;

const mesh = `sheet "Worm box"
  opened 2026-03-01
part wheel "Worm wheel"
  held by rim-bolt
  matched with worm
part worm "Worm"
fastener rim-bolt "Rim bolt"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
limit lash "Backlash"
  set 0.1 .. 0.3 mm by rim-bolt
  of wheel
  source "Book"
step off
  remove worm
  undo rim-bolt
  remove wheel
  done 2026-03-02
`;

const battery = `sheet "Box out"
  opened 2026-03-01
part shaft "Propeller shaft"
part box "Gearbox"
  behind shaft
  held by bell-bolt
fastener bell-bolt "Bell bolt"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
hazard lead "Battery"
  safe before bell-bolt
  restore after bell-bolt
step off
  safe lead "strap off"
  remove shaft
  undo bell-bolt
  remove box
  done 2026-03-02
`;

const letBack = `sheet "Hub"
  opened 2026-03-01
part hub "Hub"
  held by nut
fastener nut "Axle nut"
  qty 2
  torque 20 .. 24 N.m
  let back 1 flat
  locked by split pin 3 x 30 mm
  source "Book"
step off
  undo nut
  remove hub
  done 2026-03-02
finding nut 1
  is stripped
  decision make "from bar"
`;

const allMade = `sheet "Hub"
  opened 2026-03-01
part hub "Hub"
  held by nut
fastener nut "Axle nut"
  torque max 24 N.m
  let back 1 flat
  locked by split pin 3 x 30 mm
  source "Book"
step off
  undo nut
  remove hub
  done 2026-03-02
finding nut
  is stripped
  decision make "from bar"
`;

const leftBlank = `sheet "Hub"
  opened 2026-03-01
part hub "Hub"
  held by nut
fastener nut "Axle nut"
  torque ___
  let back ___ flats
  locked by ___
  source "Book"
step off
  undo nut
  remove hub
  done 2026-03-02
`;

const onePlate = `sheet "Brg"
  opened 2026-03-01
part cap "Cap"
  held by bolt
  critical "the wheel"
fastener bolt "Cap bolt"
  qty 4
  torque 20 .. 24 N.m
  locked by lock plate for 2
  critical "the wheel"
  source "Book"
step off
  undo bolt
  remove cap
  done 2026-03-02
finding bolt 1
  is stripped
  decision make "from bar"
`;

const discarded = `sheet "Axle"
  opened 2026-03-01
part cover "Cover"
  held by screw
fastener screw "Screw"
  torque 8 .. 10 N.m
  locked by nothing "x"
  source "Book"
part damper "Damper"
  critical "the wheel"
  held by bolt
  behind cover
fastener bolt "Damper bolt"
  torque 20 .. 24 N.m
  locked by self-locking nut
  critical "the wheel"
  source "Book"
step look
  note "looked"
  done 2026-03-02
finding damper
  is cracked
  decision discard
`;

const plugs = `sheet "Box"
  opened 2026-03-01
part lid "Lid"
  held by screw
part gear "Gear"
  behind lid
fastener screw "Lid screw"
  qty 6
  torque 8 .. 10 N.m
  locked by nothing "x"
  source "Book"
part cap "Filler cap"
fastener drain-plug "Drain plug"
  torque 30 .. 35 N.m
  locked by nothing "x"
  source "Book"
fastener level-plug "Level plug"
  torque 30 .. 35 N.m
  locked by nothing "x"
  source "Book"
fluid oil "Gear oil"
  in gear
  capacity 1 l
step off
  undo drain-plug
  drain oil
  remove cap
  undo level-plug
  undo screw
  remove lid
  remove gear
  done 2026-03-02
`;

const ranDry = `sheet "Brg"
  opened 2026-03-01
part cap "Cap"
  held by bolt
part bearing "Bearing"
  behind cap
  critical "the wheel"
fastener bolt "Cap bolt"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
step off
  undo bolt
  remove cap
  remove bearing
  done 2026-03-02
finding bearing
  is dry
  decision reuse
`;

const blockedWay = `sheet "Pump"
  opened 2026-03-01
part strainer "Oil strainer"
step off
  remove strainer
  done 2026-03-02
finding strainer
  is blocked "with white metal"
  decision reuse
`;

const frontAxle = `sheet "Front axle"
  opened 2026-03-01
part arm "Steering arm"
part rod "Track rod"
part stub "Stub axle"
  held by cotter
  behind arm
part race "Thrust race"
  behind stub
part rod-end "Ball end"
  behind rod
  held by clamp
fastener cotter "Cotter"
  torque 18 .. 22 N.m
  locked by nothing "x"
  source "Book"
fastener clamp "Clamp bolt"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
shims lift-shims "Lift shims"
  have 0.1 mm x 4
  fitted 0.1 mm x 2
limit lift "Lift of the stub axle"
  set 0.05 .. 0.25 mm by lift-shims
  with race
  source "Book"
limit pull "Pull to turn it, no track rod"
  set 2 .. 6 lbf by lift-shims
  source "Book"
limit toe-in "Toe-in at the rims"
  set 2 .. 5 mm by rod-end, clamp
  source "Book"
step off
  remove rod
  remove arm
  undo cotter
  remove stub, lift-shims, race
  undo clamp
  remove rod-end
  done 2026-03-02
`;

const slackFoot = `sheet "Lift"
  opened 2026-03-01
part rail "Rail"
  mass 48 kg
part motor "Motor"
fastener foot "Foundation bolt"
  torque 20 .. 24 N.m
  locked by nothing "x"
  source "Book"
hazard mains "Mains"
  safe before motor
  restore after motor
step off
  safe mains "locked off"
  remove motor
  remove rail
  done 2026-03-02
finding foot
  is loose
  decision reuse
`;

const cases: readonly (readonly [name: string, text: string, expected: readonly string[]])[] = [
  [
    "the lid that was closed over a gasket left out is opened first",
    closed,
    ["undo screw", "remove lid", "fit gasket new", "fit lid", "tighten screw to 11 N.m", "fill oil 1 l"],
  ],
  [
    "a leak is looked for when all is tight, filled and bled",
    leak,
    [
      "fit cyl",
      "tighten cyl-nut to 11 N.m",
      "fit pipe",
      "tighten union to 11 N.m",
      "fill brake-fluid 400 ml",
      "bleed brake-fluid",
      'seen no-leak final good|bad "…" by "…"',
    ],
  ],
  [
    "nothing comes undone under a live spring, and the sound nuts stay as they are",
    liveSpring,
    ['safe spring "___"', "undo u-nut 1", "fit u-nut 1 new", "tighten u-nut 1 to 50 lbf.ft", "lock u-nut 1", "restore spring"],
  ],
  ["what is to be made is a blank, never the old one", oldKey, ["fit ___"]],
  [
    "the spring behind the drum is restored before the drum goes on",
    behindTheDrum,
    ["fit band", "fit pin", "lock pin new", "restore spring", "fit drum", "tighten drum-nut", "fit wheel", "tighten nut"],
  ],
  [
    "shoes before the springs that pull on them: the mirror of the strip",
    shoes,
    ["fit cylinder", "fit hose", "tighten hose-union to 11 N.m", "fit shoe", "fit spring", "fit drum"],
  ],
  [
    "the stack float is read before the box goes back",
    stack,
    ["fit spacer", "fit shaft", "tighten shaft-nut to 90 N.m", "lock shaft-nut new", "measure stack final", "fit box", "tighten bell-bolt to 27.5 N.m"],
  ],
  [
    "toe-in is tried with the ball nuts tight, then the clamps are done up, then it is read for good",
    toe,
    [
      "fit end",
      "fit clamp",
      "fit rod",
      "tighten ball-nut to 50 N.m",
      "lock ball-nut new",
      "measure toe-in trial",
      "tighten clamp to 20 N.m",
      "lock clamp new",
      "measure toe-in final",
    ],
  ],
  ["mains comes back last", mains, ["fit guard", "tighten guard-screw", "restore mains"]],
  [
    "the weight is taken before what is heavy goes on",
    heavyBox.replace("support box on cradle\n", 'note "two of us"\n'),
    ["support box on crane", "fit box", "tighten box-bolt to 27.5 N.m"],
  ],
  ["what is in its cradle needs no crane to say so", heavyBox, ["fit box", "tighten box-bolt to 27.5 N.m"]],
  [
    "what was undone to let the oil out is shut before it is filled, and whether it leaks is seen after",
    plug,
    ["fit sump", "tighten sump-bolt to 11 N.m", "fit washer new", "tighten plug to 32 N.m", "fill oil 1 l", 'seen no-leak final good|bad "\u2026" by "\u2026"'],
  ],
  [
    "at each side the mirror, though one was stripped further than the other: the drum before the bearing that goes on over it",
    twoDepths,
    ["fit shoe near", "fit drum", "fit outer"],
  ],
  [
    "what is critical and of nothing that is named is asked for when the work is done",
    owing,
    ["fit hub", "measure ride final", 'seen pedal final good|bad "\u2026" by "\u2026"'],
  ],
  [
    "of what a clearance is worked out from, that is read again whose piece is new",
    operand,
    ["measure bush-bore final", "fit bush left new", "fit bush right", "fit tube"],
  ],
  [
    "play is read where it was: in its place, with what came off in that step back on; blue before the piece goes in; how it runs when it runs",
    whereTaken,
    [
      'seen blue final good|bad "\u2026" by "\u2026"',
      "fit screw",
      "fit bush new",
      "fit bar",
      "fit damper",
      "measure play final",
      'seen holds final good|bad "\u2026" by "\u2026"',
    ],
  ],
  ["of a seal at each end, the one that came off", oneSeal, ["fit seal rear new", "fit flange"]],
  ["brakes are bled when the drum is on", bled, ["fit hose", "fit drum", "fill brake-fluid 400 ml", "bleed brake-fluid"]],
  [
    "what has no fastener of its own is read when what is in front keeps it there; what was measured on the bench is not asked for again",
    stub,
    ["fit thrust", "fit stub", "fit pin new", "tighten cotter-nut to 22 N.m", "measure lift final", "fit arm"],
  ],
  [
    "a new one is measured before it goes in, though the old one was read in its place",
    lining,
    ["remove shoe", "measure lining final", "fit shoe new", "fit drum"],
  ],
  [
    "nothing is bled with a piston bare, and a leak is looked for then; springs are live again when they are on, at both sides; dust is not put back",
    fourCorners,
    [
      "fit cylinder left",
      "tighten union left to 11 N.m",
      "fit shoe",
      "fit spring",
      "restore springs",
      "fit drum",
      "fill brake-fluid 400 ml",
      "bleed brake-fluid",
      'seen dry final good|bad "\u2026" by "\u2026"',
      "fit wheel",
    ],
  ],
  ["backlash is read when both are in that run together", mesh, ["fit wheel", "tighten rim-bolt to 22 N.m", "fit worm", "measure lash final"]],
  ["a battery comes back last, as it was made safe first", battery, ["fit box", "tighten bell-bolt to 22 N.m", "fit shaft", "restore lead"]],
  [
    "grease is packed before what closes the hub, a plate comes with the lock that it is, and no crane for a wheel that rolls",
    packed,
    ["fit hub", "fill hub-grease 90 ml", "fit outer", "fit wheel", "tighten hub-nut to 32 N.m", "lock hub-nut new"],
  ],
  [
    "what is half on is finished first; of two hazards that which was made safe last comes back first",
    begun,
    ["tighten nut to 85 N.m", "lock nut new", "fit cover", "fit rope", "tighten anchor to 22 N.m", "restore car", "restore mains"],
  ],
  [
    "dye on what stays on is looked at while it is bare; what was looked at on the bench is seen there again",
    bare,
    [
      'repair stub "Polished"',
      'repair arm "Stoned"',
      'seen arm-dye final good|bad "\u2026" by "\u2026"',
      'seen whole final good|bad "\u2026" by "\u2026"',
      "fit stub",
      "fit wheel",
      "tighten nut to 22 N.m",
    ],
  ],
  [
    "what was seen on the bench before it goes in is not asked for again",
    seenAhead,
    ['repair arm "Stoned"', 'seen arm-dye final good|bad "\u2026" by "\u2026"', "fit stub", "fit wheel", "tighten nut to 22 N.m"],
  ],
  [
    "what is read at a piece is read when that is on, and before what comes next",
    atTheSheave,
    ["fit worm-wheel", "tighten rim-bolt to 22 N.m", "fit cover", "fit sheave", "measure lash final", "fit rope"],
  ],
  [
    "what was tried with some of it in for now is read when that is in for good, with the same still off",
    tried,
    ["fit casing", "fit gear", "tighten bolt to 22 N.m", "measure lash final", "fit cover"],
  ],
  [
    "what its unions hold is bled before the pedal is tried",
    pedal,
    ["fill brake-fluid 400 ml", "bleed brake-fluid", 'seen hard final good|bad "\u2026" by "\u2026"'],
  ],
  [
    "a bolt that is to be made is let back and locked in blanks too",
    letBack,
    [
      "fit hub",
      "fit ___",
      "fit nut 1",
      "tighten ___",
      "tighten nut 1 to 22 N.m",
      "let back ___ by 1 flat",
      "let back nut 1 by 1 flat",
      "lock ___",
      "lock nut 1 new",
    ],
  ],
  [
    "where all of them are to be made, all that is done to them waits in blanks",
    allMade,
    ["fit hub", "fit ___", "tighten ___", "let back ___ by 1 flat", "lock ___"],
  ],
  [
    "what the sheet leaves blank of a nut is blank in the line that wants it",
    leftBlank,
    ["fit hub", "tighten nut to ___", "let back nut by ___ flats", "lock nut with ___"],
  ],
  [
    "of several that share a plate the one that waits is locked in a blank",
    onePlate,
    ["fit cap", "fit ___", "fit bolt 3", "tighten ___", "tighten bolt 3 to 22 N.m", "lock ___", "lock bolt 3 new"],
  ],
  [
    "a critical piece that was discarded and is still on comes off, with the way in, and a new one goes on",
    discarded,
    [
      "undo screw",
      "remove cover",
      "undo bolt",
      "remove damper",
      "fit damper new",
      "tighten bolt to 22 N.m",
      "lock bolt new",
      "fit cover",
      "tighten screw to 9 N.m",
    ],
  ],
  [
    "it is filled with the drain plug in, and the level plug and the filler cap are shut behind it",
    plugs,
    ["fit gear", "fit lid", "tighten screw to 9 N.m", "tighten drain-plug to 32.5 N.m", "fill oil 1 l", "tighten level-plug to 32.5 N.m", "fit cap"],
  ],
  ["what was found dry is greased as it goes on", ranDry, ["fit bearing", "grease bearing", "fit cap", "tighten bolt to 22 N.m"]],
  ["what was found blocked is cleaned before it goes back", blockedWay, ["clean strainer", "fit strainer"]],
  [
    "of the shims' settings each is read when the stub is fast and nothing is before it; toe-in is tried when all is together, then its clamps are done up",
    frontAxle,
    [
      "fit rod-end",
      "fit clamp",
      "fit race",
      "fit lift-shims",
      "fit stub",
      "tighten cotter to 20 N.m",
      "measure lift final",
      "measure pull final",
      "fit arm",
      "fit rod",
      "measure toe-in trial",
      "tighten clamp to 22 N.m",
      "measure toe-in final",
    ],
  ],
  [
    "what was found slack is done up before anything is built on it",
    slackFoot,
    ["tighten foot to 22 N.m", "support rail on crane", "fit rail", "lower rail", "fit motor", "restore mains"],
  ],
  ["a size is read before its piece goes in", bush, ["measure bore final", "fit bush new", "fit cover"]],
];

describe.each(cases)("%s", (_name, text, expected) => {
  const back = wayBack(filesFrom({ "job.jobsheet": text }), "job.jobsheet");
  const sheet = back?.sheet ?? "";
  test("line by line", () => {
    const lines = back?.entries.flatMap((it) => (it.kind === "step" ? it.lines.map((line) => line.text) : it.kind === "reading" ? [it.text] : it.waits));
    expect(lines).toEqual(expected);
  });
  test("adds no error and no warning, and asked again it writes nothing", () => {
    const from = text.split("\n").length;
    const said = checkFile(filesFrom({ "job.jobsheet": `${text}${sheet}` }), "job.jobsheet").filter((it) => it.line >= from - 1 && it.severity !== "hint");
    expect(said.filter((it) => it.severity === "error").map((it) => `${it.line - from} ${it.rule} ${it.message}`)).toEqual([]);
    expect(wayBack(filesFrom({ "job.jobsheet": `${text}${sheet}` }), "job.jobsheet")?.sheet).toBe("");
  });
});

test("a hazard's own caution stands in its row where it is made safe; where it comes back, what that asks for stands before it", () => {
  const notes = (text: string) =>
    wayBack(filesFrom({ "job.jobsheet": text }), "job.jobsheet")?.entries.flatMap((it) =>
      it.kind === "step" ? it.lines.flatMap((line) => (/^(safe|restore) /.test(line.text) ? [line.note] : [])) : [],
    );
  expect(notes(liveSpring)).toEqual([
    "Take the weight off the spring first.",
    "under load again from here on: out of its line, nobody\u2019s hand in it. Its caution: Take the weight off the spring first.",
  ]);
  expect(notes(mains)).toEqual(["live again from here on: everybody clear, guards and covers back. Its caution: Isolator off, locked, key in the pocket."]);
});

test("a size of what only a planned step fits is told to be taken before that step", () => {
  const back = wayBack(filesFrom({ "job.jobsheet": `${bush}step bush-in "Bush in"\n  fit bush new\n` }), "job.jobsheet");
  expect(back?.entries[0]).toMatchObject({ kind: "reading", text: "measure bore final", before: "\u201cBush in\u201d" });
  expect(back?.sheet).toContain("measure bore final\n  # Before \u201cBush in\u201d: measure the piece, then fit it.\n  # \u2026");
  // Fitted and done, it is measured where it is.
  const done = wayBack(filesFrom({ "job.jobsheet": `${bush}step bush-in "Bush in"\n  fit bush new\n  done 2026-01-02\n` }), "job.jobsheet");
  expect(done?.entries.find((it) => it.kind === "reading")).not.toHaveProperty("before");
});

test.each(["spread", "ovality", "taper"])("a critical %s that is of nothing named is read when all is together, and once", (difference) => {
  const text = `sheet "Coupling"
  opened 2026-03-01
part cap "Thrust cap"
  held by cap-nut
  critical "the shaft"
fastener cap-nut "Cap nut"
  torque 10 .. 12 N.m
  locked by nothing "x"
  critical "the shaft"
  source "Book"
limit faces "Coupling faces"
  ${difference} max 0.05 mm
  with cap
  critical "the shaft"
  source "Book"
step a
  undo cap-nut
  remove cap
  done 2026-03-02
`;
  const back = wayBack(filesFrom({ "job.jobsheet": text }), "job.jobsheet");
  expect(back?.entries.map((it) => (it.kind === "reading" ? it.text : it.kind))).toEqual(["step", "measure faces final"]);
  expect(wayBack(filesFrom({ "job.jobsheet": `${text}${back?.sheet ?? ""}` }), "job.jobsheet")?.sheet).toBe("");
});

test("several things that wait for one order are one row", () => {
  const text = `sheet "Bearing"
  opened 2026-03-01
part cap "Cap"
part bearing "Bearing"
step off
  remove cap
  remove bearing
  done 2026-03-02
finding bearing
  is worn
  decision renew
finding cap
  is cracked
  decision renew
supplier moor "Moor"
order "X-1" to moor
  status placed 2026-03-03
  item bearing 1
  item cap 1
`;
  const back = wayBack(filesFrom({ "job.jobsheet": text }), "job.jobsheet");
  expect(back?.unsettled.map((it) => it.text)).toEqual(["a new cap and a new bearing wait for order X-1"]);
});

test("what was past its wear and is set right at the end is not wanted new", () => {
  const text = `sheet "Pump"
  opened 2026-03-01
part body "Body"
part gears "Gears"
  behind body
limit lift "Gears below the face"
  set 0.03 .. 0.08 mm by body
  worn max 0.12 mm
  of gears
  source "Book"
step off
  remove body
  remove gears
  done 2026-03-02
measure lift found
  0.14 mm
finding gears
  is serviceable
  because "It is the face of the body; lapped"
step on
  repair body "lapped on glass"
  fit gears
  fit body
  done 2026-03-03
measure lift final
  0.05 mm
`;
  expect(wayBack(filesFrom({ "job.jobsheet": text }), "job.jobsheet")?.sheet).toBe("");
});

const joint = (before: string, after: string) => `sheet "Cover"
  opened 2026-03-01
part cover "Cover"
  held by cover-nut
part joint "Joint"
  behind cover
fastener cover-nut "Cover nut"
  torque 10 .. 12 N.m
  source "Book"
step off
  undo cover-nut
  remove cover, joint
  done 2026-03-02
${before}step on
  fit joint new
  fit cover
  tighten cover-nut to 11 N.m
  done 2026-03-03
${after}release by "A. Wick" 2026-03-04
  test "Ran an hour, dry"
`;

test.each([
  ["below what went on", joint("", 'need joint 1 "one more"\n')],
  ["above what went on", joint('need joint 1 "one more"\n', "")],
])("what a need asks for is bought, and takes nothing off that is on: %s", (_where, text) => {
  const files = filesFrom({ "job.jobsheet": text });
  expect(checkFile(files, "job.jobsheet").filter(({ severity }) => severity === "error")).toEqual([]);
  expect(wayBack(files, "job.jobsheet")?.sheet).toBe("");
});

test("what a need asks for goes in where its place is empty", () => {
  const text = joint("", 'need joint 1 "one more"\n')
    .replace(/step on.*?(?=need)/s, "")
    .replace(/release.*/s, "");
  expect(wayBack(filesFrom({ "job.jobsheet": text }), "job.jobsheet")?.sheet).toContain("  fit joint new");
});

test("the weight of what is heavy and held by nothing is taken before it goes on, and let down with it", () => {
  const back = wayBack(filesFrom({ "job.jobsheet": slackFoot }), "job.jobsheet");
  expect(back?.sheet).toContain("  support rail on crane  # 48 kg: lifting gear rated for more; until it is down\n  fit rail\n  lower rail  #");
});
