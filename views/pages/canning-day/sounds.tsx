/** What this device does when a time is up; asked where the day is begun, kept on the device, shown where script runs. */
export const Sounds = () => (
  <fieldset class="sounds" data-sounds hidden>
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
        It rings while a page of this program is open and was touched once; where the browser lets it, the
        screen stays awake meanwhile. A locked phone may stay silent, and one that is closed does. The time
        itself is counted by the server and is right when you come back. Set a kitchen timer beside it.
      </p>
    </details>
  </fieldset>
);
