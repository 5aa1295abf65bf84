// Counts the running clocks of a canning day down, second by second. The page is right without it: it names the time due.
// Two clocks of the device count: one that is never set but may stand still while the device sleeps, and the time of day, which
// may be set. Where they disagree the longer wait is shown, with why; never "time is up" by the one alone.
(() => {
  const agreeWithinMs = 5000;
  const seen = new WeakMap();
  let ringing = null;

  const shown = (milliseconds) => {
    const seconds = Math.max(0, Math.ceil(milliseconds / 1000));
    const rest = String(seconds % 60).padStart(2, '0');
    return `${Math.floor(seconds / 60)}:${rest}`;
  };

  const ring = () => {
    if (ringing === null) return;
    const tone = ringing.createOscillator();
    const volume = ringing.createGain();
    volume.gain.value = 0.25;
    tone.frequency.value = 880;
    tone.connect(volume).connect(ringing.destination);
    tone.start();
    tone.stop(ringing.currentTime + 1.2);
    navigator.vibrate?.(600);
  };

  const offerRing = (clock) => {
    if (typeof AudioContext === 'undefined' || clock.nextElementSibling?.matches('.ring')) return;
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'button button-quiet ring';
    button.textContent = ringing === null ? 'Ring when it is time' : 'Will ring';
    button.addEventListener('click', () => {
      ringing ??= new AudioContext();
      button.textContent = 'Will ring';
      navigator.wakeLock?.request('screen').catch(() => undefined);
    });
    clock.after(button);
  };

  const doubtWords = (aheadMs) => {
    const by = Math.max(1, Math.round(Math.abs(aheadMs) / 60_000));
    const minutes = by === 1 ? '1 minute' : `${by} minutes`;
    const what =
      aheadMs > 0
        ? `The time of day on this device went ${minutes} further than its counting: it slept, or its clock was set forward.`
        : `The time of day on this device was set back by ${minutes}.`;
    return `${what} The longer wait is shown. Load the page again to hear what the server counted.`;
  };

  /** Says once beside a clock why it is doubted; takes it back when the clocks agree again. */
  const sayDoubt = (clock, aheadMs) => {
    const said = clock.parentElement?.querySelector('.clock-left-doubt');
    if (Math.abs(aheadMs) <= agreeWithinMs) {
      said?.remove();
      return;
    }
    const words = doubtWords(aheadMs);
    if (said?.textContent === words) return;
    const line = said ?? document.createElement('span');
    line.className = 'clock-left-doubt';
    line.textContent = words;
    if (said === null || said === undefined) clock.after(line);
  };

  const tick = () => {
    for (const clock of document.querySelectorAll('[data-remaining-ms]')) {
      let state = seen.get(clock);
      if (state === undefined) {
        state = {
          remaining: Number(clock.dataset.remainingMs),
          steady: performance.now(),
          wall: Date.now(),
          rang: false,
        };
        seen.set(clock, state);
        offerRing(clock);
      }
      const steady = performance.now() - state.steady;
      const wall = Date.now() - state.wall;
      const left = state.remaining - Math.max(0, Math.min(steady, wall));
      sayDoubt(clock, wall - steady);
      const words = left > 0 ? shown(left) : 'Time is up';
      if (clock.textContent !== words) clock.textContent = words;
      if (left <= 0 && !state.rang) {
        state.rang = true;
        ring();
      }
    }
  };

  tick();
  setInterval(tick, 500);
})();
