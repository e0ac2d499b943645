import type { Plugin } from "vitest/config";

export function bundledTests(): Plugin;
