// All templates, and a plant of one of them.
import { bevelBox, bigEnds, chainDrive, flange, headstock, hoist } from "./assemblies-drives.ts";
import { dropArm, drumBrake, hub, kingPin, leafSpring } from "./assemblies-wheels.ts";
import type { Template } from "./parts-list.ts";

export const templates: Template[] = [hub, kingPin, dropArm, drumBrake, leafSpring, bevelBox, bigEnds, chainDrive, hoist, headstock, flange];
