import { relative } from 'node:path';
import type { Checker, CheckResult } from '@stryker-mutator/api/check';
import { CheckStatus } from '@stryker-mutator/api/check';
import type { Mutant } from '@stryker-mutator/api/core';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { isDrawn } from './mutants-protocol.ts';

/** What a mutant outside the sample is called in the report: it is not tried, and counts neither way. */
class Sample implements Checker {
  private readonly share = Number(process.env.MUTANTS_SHARE ?? '1');
  private readonly seed = process.env.MUTANTS_SEED ?? '1';

  async init(): Promise<void> {}

  async check(mutants: Mutant[]): Promise<Record<string, CheckResult>> {
    return Object.fromEntries(
      mutants.map((mutant): [string, CheckResult] => [
        mutant.id,
        isDrawn(this.nameOf(mutant), this.seed, this.share)
          ? { status: CheckStatus.Passed }
          : { status: CheckStatus.CompileError, reason: 'outside the sample' },
      ]),
    );
  }

  private nameOf({ fileName, location: { start, end }, replacement }: Mutant): string {
    const place = relative(process.cwd(), fileName);
    return [place, start.line, start.column, end.line, end.column, replacement].join(':');
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.Checker, 'sample', Sample)];
