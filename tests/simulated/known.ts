// Kinds that the gate gets wrong today, each with what it does. The list only shrinks: a kind that is right in all its stories may not stand here.

export const known: Readonly<Record<string, string>> = {
  // Dangerous, and released.
  "worn-cured-by-a-reading": "A later figure inside the limit wipes the wear that condemned the part.",
  "condemned-one-to-the-other-side": "A condemned part is free of its fault where it is fitted at another place.",
  "one-new-nut-of-four": "One new self-locking nut makes three used ones new.",
  "two-found-one-new": "One new one cures two that were condemned.",
  "rollers-one-short": "One of many is missing, and the others that go back pass for it.",
  "wrong-hand-thread": "A nut of the wrong hand is not compared with the thread of its place.",
  "new-over-the-old": "A new one is taken as fitted where the old one never came off.",
  "one-too-many": "Old and new together are never more than there is room for.",
  "seal-disturbed-again": "A seal that is renewed with its part passes when that part comes off again in the same step.",
  "old-beside-new-at-one-place": "A pair is compared across places and not at one.",
  "leaking-one-back": "A leak is cured by coming off and going back.",
  "setting-read-with-a-part-off": "A setting counts though what it is of was on the bench.",
  "final-of-the-one-that-went": "A final reading dated before the new part went in counts for it.",
  "leak-check-before-the-fluid": "A leak check counts though the fluid was filled and bled after it.",
  "critical-check-of-nothing": "A critical check that is `of` nothing is never asked for.",
  "fellow-never-looked-at": "The fellow of a broken critical part is spoken of, and does not hold the release back.",
  "pardoned-by-the-doer": "He who does the job may excuse a critical part past its wear.",
  "still-on-its-stands": "A machine that was raised is released on its stands.",
  "chocked-after-the-jack": "Chocks count whenever they come.",
  "heavy-without-a-fastener": "The weight of a part that no fastener holds is not spoken of.",
  "days-the-wrong-way-round": "Days are not compared along `behind`.",

  // Harmless, and held back.
  "measured-on-the-bench": "A new part that was measured before it went in is to be measured again.",
  "spring-washers-say-nothing": "A screw that tightening locks, by its spring washer, is to be locked by a line.",
  "wheel-on-its-studs": "A wheel on its studs is taken to fall when its nuts come off.",
  "trial-with-what-is-condemned": "A condemned part fitted for now, and off again, stands for ever.",
  "trial-with-the-old-bolts": "Condemned bolts tightened for now, and renewed after, stand for ever.",
  "old-gasket-for-a-trial": "An old gasket fitted for now, and off again, stands for ever.",
  "one-missing-decided-renew": "A decision about the one that is missing condemns all the others.",
  "names-in-one-line": "The order of names within one `fit` is taken for an order of work.",
  "cracked-welded-and-seen": "`serviceable` after a repair is not taken for the look at it.",
  "stands-under-what-comes-off-later": "What stands bear on counts as off when something before it comes off.",
};
