// What a command of the command line is given of the world, and what it ends with.

export interface Desk {
  readonly cwd: string;
  readonly version: string;
  readonly colour: boolean;
  /** Of the terminal, in columns. */
  readonly width: number;
  out(text: string): void;
  err(text: string): void;
}

/** 0: nothing is at error; 1: something is; 2: it could not run. */
export type ExitCode = 0 | 1 | 2;

export interface Given {
  readonly paths: readonly string[];
  readonly values: Readonly<Record<string, string | boolean | undefined>>;
}

export function refuse(desk: Desk, why: string): 2 {
  desk.err(`splitpin: ${why}\n`);
  return 2;
}
