// Runs each test as it is, and then again under each mutant that it reached and that nothing has noticed yet: a test that fails then has noticed it.
import type { Test } from "@vitest/runner";
import { TestRunner } from "vitest";
import { forget } from "./forgetful.ts";
import { type Mutant, readMutants, writeMutants } from "./mutants.ts";

interface Switches {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  hitCount?: number | undefined;
  hitLimit?: number | undefined;
  mutantCoverage?: { static: Record<string, number>; perTest: Record<string, Record<string, number>> };
}

const most = Number(process.env.SPLITPIN_MUTANT_SECONDS) || 20;

export default class extends TestRunner {
  readonly mutants = new Map<string, Mutant>(readMutants().map((it) => [it.id, it]));

  async runTask(test: Test): Promise<void> {
    const run = TestRunner.getTestFn(test);
    const switches = switchesOfAll();
    forget();
    switches.currentTestId = test.id;
    try {
      await run();
    } finally {
      switches.currentTestId = undefined;
    }
    const hits = switches.mutantCoverage?.perTest[test.id] ?? {};
    if (switches.mutantCoverage !== undefined) switches.mutantCoverage.perTest = {};
    for (const [id, times] of Object.entries(hits)) {
      const mutant = this.mutants.get(id);
      if (mutant === undefined) continue;
      mutant.reached++;
      if (mutant.noticedBy !== undefined || mutant.seconds > most) continue;
      const before = process.cpuUsage();
      forget();
      // A loop that no longer ends is noticed too.
      Object.assign(switches, { activeMutant: id, hitCount: 0, hitLimit: times * 100 + 10_000 });
      try {
        await run();
      } catch {
        mutant.noticedBy = `${test.file.name}: ${test.name}`;
      } finally {
        Object.assign(switches, { activeMutant: undefined, hitCount: undefined, hitLimit: undefined });
      }
      const { user, system } = process.cpuUsage(before);
      mutant.seconds += (user + system) / 1e6;
    }
    forget();
  }

  override onAfterRunFiles(): void {
    super.onAfterRunFiles();
    const atStart = switchesOfAll().mutantCoverage?.static ?? {};
    for (const it of this.mutants.values()) if (it.reached === 0 && atStart[it.id] !== undefined) it.static = true;
    writeMutants([...this.mutants.values()]);
  }
}

/** Where the compiled-in mutants look which of them is the one. */
function switchesOfAll(): Switches {
  const all = globalThis as { __stryker__?: Switches };
  all.__stryker__ ??= {};
  return all.__stryker__;
}
