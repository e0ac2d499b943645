// Every rule, in the order of the rules page. Written by .ci/generate-rules.mjs; a test fails where it is stale.
import { rule as admitUnsuited } from "./writing/admit-unsuited.ts";
import { rule as detailQuoted } from "./writing/detail-quoted.ts";
import { rule as figureReplaced } from "./writing/figure-replaced.ts";
import { rule as leftBlank } from "./writing/left-blank.ts";
import { rule as nameKind } from "./writing/name-kind.ts";
import { rule as nameTwice } from "./writing/name-twice.ts";
import { rule as nameUnknown } from "./writing/name-unknown.ts";
import { rule as placeTwice } from "./writing/place-twice.ts";
import { rule as placeUnknown } from "./writing/place-unknown.ts";
import { rule as positionSlip } from "./writing/position-slip.ts";
import { rule as syntax } from "./writing/syntax.ts";
import { rule as unused } from "./writing/unused.ts";
import { rule as useMissing } from "./writing/use-missing.ts";
import { rule as wordAmbiguous } from "./writing/word-ambiguous.ts";
import { rule as workUnread } from "./writing/work-unread.ts";
import { rule as decimalComma } from "./units/decimal-comma.ts";
import { rule as figureSlip } from "./units/figure-slip.ts";
import { rule as figureTooFine } from "./units/figure-too-fine.ts";
import { rule as heatSlip } from "./units/heat-slip.ts";
import { rule as packAmbiguous } from "./units/pack-ambiguous.ts";
import { rule as rangeBare } from "./units/range-bare.ts";
import { rule as rangeReversed } from "./units/range-reversed.ts";
import { rule as threadUnknown } from "./units/thread-unknown.ts";
import { rule as unitAmbiguous } from "./units/unit-ambiguous.ts";
import { rule as unitKind } from "./units/unit-kind.ts";
import { rule as unitMissing } from "./units/unit-missing.ts";
import { rule as unitUnknown } from "./units/unit-unknown.ts";
import { rule as lockingAbsent } from "./locking/locking-absent.ts";
import { rule as lockingBeforeTorque } from "./locking/locking-before-torque.ts";
import { rule as lockingByFriction } from "./locking/locking-by-friction.ts";
import { rule as lockingDiffers } from "./locking/locking-differs.ts";
import { rule as lockingLeftOff } from "./locking/locking-left-off.ts";
import { rule as lockingReused } from "./locking/locking-reused.ts";
import { rule as lockingSize } from "./locking/locking-size.ts";
import { rule as lockingUndeclared } from "./locking/locking-undeclared.ts";
import { rule as slackenedToLock } from "./locking/slackened-to-lock.ts";
import { rule as foundLoose } from "./tightness/found-loose.ts";
import { rule as gaugeRange } from "./tightness/gauge-range.ts";
import { rule as leftSlack } from "./tightness/left-slack.ts";
import { rule as threadUnlike } from "./tightness/thread-unlike.ts";
import { rule as torqueDoubt } from "./tightness/torque-doubt.ts";
import { rule as torqueOiled } from "./tightness/torque-oiled.ts";
import { rule as torqueOutside } from "./tightness/torque-outside.ts";
import { rule as torqueOverProof } from "./tightness/torque-over-proof.ts";
import { rule as torqueUnstated } from "./tightness/torque-unstated.ts";
import { rule as checkBad } from "./limits/check-bad.ts";
import { rule as gaugeCannotTell } from "./limits/gauge-cannot-tell.ts";
import { rule as gaugeDue } from "./limits/gauge-due.ts";
import { rule as limitCircle } from "./limits/limit-circle.ts";
import { rule as limitContradicts } from "./limits/limit-contradicts.ts";
import { rule as limitDoubt } from "./limits/limit-doubt.ts";
import { rule as limitNotNew } from "./limits/limit-not-new.ts";
import { rule as limitNotSet } from "./limits/limit-not-set.ts";
import { rule as limitUnsourced } from "./limits/limit-unsourced.ts";
import { rule as limitWorn } from "./limits/limit-worn.ts";
import { rule as outOfRound } from "./limits/out-of-round.ts";
import { rule as readingContradicts } from "./limits/reading-contradicts.ts";
import { rule as readingDoubled } from "./limits/reading-doubled.ts";
import { rule as readingImpossible } from "./limits/reading-impossible.ts";
import { rule as readingMissing } from "./limits/reading-missing.ts";
import { rule as readingStale } from "./limits/reading-stale.ts";
import { rule as readingsScatter } from "./limits/readings-scatter.ts";
import { rule as spreadOver } from "./limits/spread-over.ts";
import { rule as tapered } from "./limits/tapered.ts";
import { rule as debrisUnexplained } from "./parts/debris-unexplained.ts";
import { rule as decisionUnsafe } from "./parts/decision-unsafe.ts";
import { rule as drainedTwice } from "./parts/drained-twice.ts";
import { rule as fellowUnchecked } from "./parts/fellow-unchecked.ts";
import { rule as fluidWrong } from "./parts/fluid-wrong.ts";
import { rule as frictionOiled } from "./parts/friction-oiled.ts";
import { rule as markMissing } from "./parts/mark-missing.ts";
import { rule as partAway } from "./parts/part-away.ts";
import { rule as partCondemned } from "./parts/part-condemned.ts";
import { rule as partCount } from "./parts/part-count.ts";
import { rule as partFailed } from "./parts/part-failed.ts";
import { rule as partLeaking } from "./parts/part-leaking.ts";
import { rule as partLeftOver } from "./parts/part-left-over.ts";
import { rule as partMissing } from "./parts/part-missing.ts";
import { rule as partRenewable } from "./parts/part-renewable.ts";
import { rule as partStillHeld } from "./parts/part-still-held.ts";
import { rule as partUndecided } from "./parts/part-undecided.ts";
import { rule as partWrong } from "./parts/part-wrong.ts";
import { rule as placeChanged } from "./parts/place-changed.ts";
import { rule as receivedUnfitted } from "./parts/received-unfitted.ts";
import { rule as repairUnchecked } from "./parts/repair-unchecked.ts";
import { rule as runDry } from "./parts/run-dry.ts";
import { rule as setSplit } from "./parts/set-split.ts";
import { rule as shimsShort } from "./parts/shims-short.ts";
import { rule as stillForNow } from "./parts/still-for-now.ts";
import { rule as wordsAgainst } from "./parts/words-against.ts";
import { rule as chocksMissing } from "./energy/chocks-missing.ts";
import { rule as fluidLeftOut } from "./energy/fluid-left-out.ts";
import { rule as hazardLeftSafe } from "./energy/hazard-left-safe.ts";
import { rule as hazardLive } from "./energy/hazard-live.ts";
import { rule as jackOnly } from "./energy/jack-only.ts";
import { rule as leftHanging } from "./energy/left-hanging.ts";
import { rule as loadUnsupported } from "./energy/load-unsupported.ts";
import { rule as loweredOpen } from "./energy/lowered-open.ts";
import { rule as notBled } from "./energy/not-bled.ts";
import { rule as restoredOpen } from "./energy/restored-open.ts";
import { rule as stillRaised } from "./energy/still-raised.ts";
import { rule as supportOverloaded } from "./energy/support-overloaded.ts";
import { rule as supportRemoved } from "./energy/support-removed.ts";
import { rule as underWhileMoved } from "./energy/under-while-moved.ts";
import { rule as fitOrder } from "./steps/fit-order.ts";
import { rule as questionOpen } from "./steps/question-open.ts";
import { rule as stepCircle } from "./steps/step-circle.ts";
import { rule as stepOneSide } from "./steps/step-one-side.ts";
import { rule as stepTooEarly } from "./steps/step-too-early.ts";
import { rule as arrivesLate } from "./supply/arrives-late.ts";
import { rule as currencyUnknown } from "./supply/currency-unknown.ts";
import { rule as orderShort } from "./supply/order-short.ts";
import { rule as orderSurplus } from "./supply/order-surplus.ts";
import { rule as orderUnclear } from "./supply/order-unclear.ts";
import { rule as priceRow } from "./supply/price-row.ts";
import { rule as priceStale } from "./supply/price-stale.ts";
import { rule as concessionUnsafe } from "./release/concession-unsafe.ts";
import { rule as criticalUnread } from "./release/critical-unread.ts";
import { rule as otherSheetOpen } from "./release/other-sheet-open.ts";
import { rule as proofLoadLow } from "./release/proof-load-low.ts";
import { rule as proofLoadMissing } from "./release/proof-load-missing.ts";
import { rule as ratedUnder } from "./release/rated-under.ts";
import { rule as recheckDue } from "./release/recheck-due.ts";
import { rule as releaseBlocked } from "./release/release-blocked.ts";
import { rule as testMissing } from "./release/test-missing.ts";
import type { Rule, WrittenRule } from "./rule.ts";

/** With their pages, which are in pages.ts for whoever shows them. */
export const written: readonly WrittenRule[] = [
  admitUnsuited,
  detailQuoted,
  figureReplaced,
  leftBlank,
  nameKind,
  nameTwice,
  nameUnknown,
  placeTwice,
  placeUnknown,
  positionSlip,
  syntax,
  unused,
  useMissing,
  wordAmbiguous,
  workUnread,
  decimalComma,
  figureSlip,
  figureTooFine,
  heatSlip,
  packAmbiguous,
  rangeBare,
  rangeReversed,
  threadUnknown,
  unitAmbiguous,
  unitKind,
  unitMissing,
  unitUnknown,
  lockingAbsent,
  lockingBeforeTorque,
  lockingByFriction,
  lockingDiffers,
  lockingLeftOff,
  lockingReused,
  lockingSize,
  lockingUndeclared,
  slackenedToLock,
  foundLoose,
  gaugeRange,
  leftSlack,
  threadUnlike,
  torqueDoubt,
  torqueOiled,
  torqueOutside,
  torqueOverProof,
  torqueUnstated,
  checkBad,
  gaugeCannotTell,
  gaugeDue,
  limitCircle,
  limitContradicts,
  limitDoubt,
  limitNotNew,
  limitNotSet,
  limitUnsourced,
  limitWorn,
  outOfRound,
  readingContradicts,
  readingDoubled,
  readingImpossible,
  readingMissing,
  readingStale,
  readingsScatter,
  spreadOver,
  tapered,
  debrisUnexplained,
  decisionUnsafe,
  drainedTwice,
  fellowUnchecked,
  fluidWrong,
  frictionOiled,
  markMissing,
  partAway,
  partCondemned,
  partCount,
  partFailed,
  partLeaking,
  partLeftOver,
  partMissing,
  partRenewable,
  partStillHeld,
  partUndecided,
  partWrong,
  placeChanged,
  receivedUnfitted,
  repairUnchecked,
  runDry,
  setSplit,
  shimsShort,
  stillForNow,
  wordsAgainst,
  chocksMissing,
  fluidLeftOut,
  hazardLeftSafe,
  hazardLive,
  jackOnly,
  leftHanging,
  loadUnsupported,
  loweredOpen,
  notBled,
  restoredOpen,
  stillRaised,
  supportOverloaded,
  supportRemoved,
  underWhileMoved,
  fitOrder,
  questionOpen,
  stepCircle,
  stepOneSide,
  stepTooEarly,
  arrivesLate,
  currencyUnknown,
  orderShort,
  orderSurplus,
  orderUnclear,
  priceRow,
  priceStale,
  concessionUnsafe,
  criticalUnread,
  otherSheetOpen,
  proofLoadLow,
  proofLoadMissing,
  ratedUnder,
  recheckDue,
  releaseBlocked,
  testMissing,
];

export const rules: readonly Rule[] = written;
