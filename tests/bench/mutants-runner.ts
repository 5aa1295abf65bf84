import { test } from 'vitest';
import { VitestTestRunner } from 'vitest/runners';

/**
 * A test file that a change keeps from loading has no test that could fail, and would count as one that noticed nothing: here it
 * has one, which fails.
 */
export default class Noticing extends VitestTestRunner {
  override async importFile(...asked: Parameters<VitestTestRunner['importFile']>): Promise<unknown> {
    try {
      return await super.importFile(...asked);
    } catch (error) {
      const [, source] = asked;
      if (source !== 'collect') throw error;
      test('the file is loaded', () => {
        throw error;
      });
      return undefined;
    }
  }
}
