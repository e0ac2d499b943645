export function noticesOf(root: string, inputs: Iterable<string>): string;
