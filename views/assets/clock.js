// Counts the running clocks of a canning day down, second by second. The page is right without it: it names the time due.
// Two clocks of the device count: one that is never set but may stand still while the device sleeps, and the time of day, which
// may be set. Where they disagree the longer wait is shown, with why; never "time is up" by the one alone.
(() => {
  const agreeWithinMs = 5000;
  /** Until somebody touches the page, and no longer than this. */
  const ringsForMs = 180_000;
  const ringsEveryMs = 4000;
  const seen = new WeakMap();
  const title = document.title;
  let sound = null;
  let ringsUntil = 0;
  let rangAt = 0;
  let spoken = '';

  const shown = (milliseconds) => {
    const seconds = Math.max(0, Math.ceil(milliseconds / 1000));
    const rest = String(seconds % 60).padStart(2, '0');
    return `${Math.floor(seconds / 60)}:${rest}`;
  };

  /** What this device was asked to do; it rings unless somebody said no. */
  const kept = (name) => {
    try {
      return localStorage.getItem(name);
    } catch {
      return null;
    }
  };
  const wants = (name) => (name === 'ring' ? kept(name) !== 'no' : kept(name) === 'yes');

  /** A browser lets a page sound once it was touched. */
  const arm = () => {
    ringsUntil = 0;
    if (typeof AudioContext === 'undefined' || !wants('ring')) return;
    sound ??= new AudioContext();
    sound.resume?.();
    stayAwake();
  };

  const stayAwake = () => {
    if (sound === null || document.querySelector('[data-remaining-ms]') === null) return;
    navigator.wakeLock?.request('screen').catch(() => undefined);
  };

  const ring = () => {
    if (sound === null || !wants('ring')) return;
    const tone = sound.createOscillator();
    const volume = sound.createGain();
    volume.gain.value = 0.25;
    tone.frequency.value = 880;
    tone.connect(volume).connect(sound.destination);
    tone.start();
    tone.stop(sound.currentTime + 1.2);
    navigator.vibrate?.(600);
  };

  /** Reads the first of the next steps of the open load, once, through the platform's own voice. */
  const speak = () => {
    if (!wants('voice') || typeof speechSynthesis === 'undefined') return;
    const step = document.querySelector('.load-fold[open] > .ticks .tick-words')?.textContent ?? '';
    if (step === spoken) return;
    spoken = step;
    speechSynthesis.cancel();
    if (step !== '') speechSynthesis.speak(new SpeechSynthesisUtterance(step));
  };

  const offerSounds = () => {
    for (const asks of document.querySelectorAll('[data-sounds]')) {
      for (const box of asks.querySelectorAll('[data-sound]')) {
        const { sound: name } = box.dataset;
        box.checked = wants(name);
        if (name === 'voice') box.parentElement.hidden = typeof speechSynthesis === 'undefined';
        box.addEventListener('change', () => {
          try {
            localStorage.setItem(name, box.checked ? 'yes' : 'no');
          } catch {
            // A device that keeps nothing does as it is asked on this page alone.
          }
          spoken = '';
          speak();
        });
      }
    }
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
    let first = null;
    for (const clock of document.querySelectorAll('[data-remaining-ms]')) {
      let state = seen.get(clock);
      if (state === undefined) {
        state = {
          remaining: Number(clock.dataset.remainingMs),
          steady: performance.now(),
          wall: Date.now(),
          rang: Number(clock.dataset.remainingMs) === 0,
        };
        seen.set(clock, state);
      }
      const steady = performance.now() - state.steady;
      const wall = Date.now() - state.wall;
      const left = state.remaining - Math.max(0, Math.min(steady, wall));
      sayDoubt(clock, wall - steady);
      const words = left > 0 ? shown(left) : 'Time is up';
      first ??= words;
      if (clock.textContent !== words) clock.textContent = words;
      if (left <= 0 && !state.rang) {
        state.rang = true;
        ringsUntil = Date.now() + ringsForMs;
      }
    }
    document.title = first === null ? title : `${first} · ${title}`;
    if (Date.now() < ringsUntil && Date.now() - rangAt >= ringsEveryMs) {
      rangAt = Date.now();
      ring();
    }
  };

  offerSounds();
  for (const touch of ['pointerdown', 'keydown']) document.addEventListener?.(touch, arm);
  document.addEventListener?.('htmx:afterSettle', () => {
    speak();
    stayAwake();
  });
  document.addEventListener?.('visibilitychange', () => {
    if (document.visibilityState === 'visible' && sound !== null) arm();
  });
  tick();
  setInterval(tick, 500);
})();
