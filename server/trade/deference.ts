// Who is to look at a machine of some kind before it is used again. Common practice.
import type { KindOfMachine } from "./kind-of-machine.ts";

/** Who is to look at it before it is used again, besides whoever worked on it; empty where the kind says nothing. */
export function deferenceTo(kind: KindOfMachine): string {
  return [
    kind.road ? "Brakes, steering and wheels are to be passed by somebody licensed where the law asks it." : "",
    kind.lifts ? "Lifting gear is to be examined by a competent person before it lifts." : "",
    kind.driven ? "Guards, stops and wiring are to be passed by somebody competent before it runs." : "",
    kind.boat ? "Fastenings below the water, the stern gland and the controls are to be looked at afloat, before it leaves." : "",
    kind.ride ? "What carries the public is to be examined by a competent person before it runs." : "",
    kind.flies ? "What flies is released by somebody licensed for it, and by nobody else." : "",
    kind.rails ? "What runs on rails is to be passed by the line's own competent person before it leaves the shed." : "",
  ]
    .filter((it) => it !== "")
    .join(" ");
}
