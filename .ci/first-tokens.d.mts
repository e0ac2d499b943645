import type { FirstTokens } from "../grammar/first-tokens.ts";

export function firstTokensOf(root: string, known?: FirstTokens): Promise<FirstTokens>;
