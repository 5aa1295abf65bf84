// Counts the running clocks of a canning day down, second by second. The page is right without it: it names the time due.
(() => {
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

  const tick = () => {
    for (const clock of document.querySelectorAll('[data-remaining-ms]')) {
      let state = seen.get(clock);
      if (state === undefined) {
        state = { due: performance.now() + Number(clock.dataset.remainingMs), rang: false };
        seen.set(clock, state);
        offerRing(clock);
      }
      const left = state.due - performance.now();
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
