import { readFileSync } from 'node:fs';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';

// The script that counts a load down on the page, with the two clocks of a device in our hands: one that is never set but may
// stand still while the device sleeps, and the time of day, which may be set.

const minute = 60_000;
const script = readFileSync(new URL('../../views/assets/clock.js', import.meta.url), 'utf8');

/** A page with one running load of ten minutes. */
function page() {
  const clocks = { steady: 1000, wall: Date.UTC(2026, 7, 22, 15) };
  let doubt: { className: string; textContent: string; remove: () => void } | null = null;
  let tick = (): void => undefined;
  const load = {
    dataset: { remainingMs: String(10 * minute) },
    textContent: '',
    nextElementSibling: null,
    after: (line: NonNullable<typeof doubt>) => {
      doubt = line;
    },
    parentElement: { querySelector: () => doubt },
  };
  runInNewContext(script, {
    document: {
      querySelectorAll: (which: string) => (which === '[data-remaining-ms]' ? [load] : []),
      createElement: () => ({
        className: '',
        textContent: '',
        remove: () => {
          doubt = null;
        },
      }),
    },
    performance: { now: () => clocks.steady },
    Date: { now: () => clocks.wall },
    navigator: {},
    setInterval: (run: () => void) => {
      tick = run;
    },
  });
  return {
    shown: () => load.textContent,
    doubt: () => doubt?.textContent ?? null,
    pass: ({ steady, wall }: { readonly steady: number; readonly wall: number }) => {
      clocks.steady += steady;
      clocks.wall += wall;
      tick();
    },
  };
}

describe('the countdown of a load on the page', () => {
  it('counts by both clocks and says nothing while they agree', () => {
    const load = page();
    load.pass({ steady: 4 * minute, wall: 4 * minute });

    expect([load.shown(), load.doubt()]).toEqual(['6:00', null]);
    load.pass({ steady: 6 * minute, wall: 6 * minute });
    expect(load.shown()).toBe('Time is up');
  });

  it('is not up when the time of day jumps forward, and says why', () => {
    const load = page();
    load.pass({ steady: 2 * minute, wall: 62 * minute });

    expect(load.shown()).toBe('8:00');
    expect(load.doubt()).toMatch(/^The time of day on this device went 60 minutes further than its counting/);
  });

  it('shows the longer wait when the time of day is set back', () => {
    const load = page();
    load.pass({ steady: 5 * minute, wall: -55 * minute });

    expect(load.shown()).toBe('10:00');
    expect(load.doubt()).toMatch(/^The time of day on this device was set back by 60 minutes\./);
  });

  it('shows the longer wait when the device slept and its counting stood still', () => {
    const load = page();
    load.pass({ steady: minute, wall: 21 * minute });

    expect(load.shown()).toBe('9:00');
    expect(load.doubt()).toContain('it slept, or its clock was set forward');
  });

  it('takes the doubt back when the clock is put right again', () => {
    const load = page();
    load.pass({ steady: minute, wall: 61 * minute });
    load.pass({ steady: minute, wall: -59 * minute });

    expect([load.shown(), load.doubt()]).toEqual(['8:00', null]);
  });
});
