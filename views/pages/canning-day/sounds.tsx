/** What this device does when a time is up; asked where the day is begun, kept on the device; not there where no script runs. */
export const Sounds = () => (
  <fieldset class="sounds" data-sounds>
    <legend class="heard-only">Sounds of this device</legend>
    <label class="choice">
      <input type="checkbox" data-sound="ring" checked />
      <span>Ring when a time is up</span>
    </label>
    <label class="choice">
      <input type="checkbox" data-sound="voice" />
      <span>Read the next step aloud</span>
    </label>
    <details>
      <summary>What a phone does not do</summary>
      <p class="hint">
        It rings while one of these pages is open and you have touched it once; where the browser allows, the
        screen stays on meanwhile. A locked phone may stay silent. The time itself is kept on the server and
        is right when you come back. Set a kitchen timer as well.
      </p>
    </details>
  </fieldset>
);
