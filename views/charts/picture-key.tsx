/** What the marks of the year's picture mean, each beside its own drawing. */
export const PictureKey = ({ hatch }: { hatch: string }) => (
  <ul class="picture-key" aria-label="What the marks mean">
    <li>
      <svg viewBox="0 0 34 20" aria-hidden="true" class="family-tomatoes">
        <path class="stock stock-high" d="M0,2L34,12V17H0Z" />
        <path class="stock stock-likely" d="M0,4L34,14V17H0Z" />
        <path class="stock stock-low" d="M0,6L34,17H0Z" />
        <rect class="board-wood" y="17" width="34" height="2.5" />
      </svg>
      stock, soft where unsure
    </li>
    <li>
      <svg viewBox="0 0 34 20" aria-hidden="true">
        <rect class="board-wood" y="10" width="34" height="2.5" />
        <rect x="6" y="12.5" width="22" height="5" fill={`url(#${hatch})`} />
      </svg>
      harvest is open
    </li>
    <li>
      <svg viewBox="0 0 34 20" aria-hidden="true">
        <rect class="jar-glass" x="13" y="8" width="8" height="9" rx="1.5" />
        <rect class="jar-lid" x="13.5" y="6" width="7" height="2" />
      </svg>
      put up, with the count
    </li>
    <li>
      <svg viewBox="0 0 34 20" aria-hidden="true">
        <circle class="bought" cx="17" cy="10" r="3.4" />
      </svg>
      bought
    </li>
    <li>
      <svg viewBox="0 0 34 20" aria-hidden="true">
        <line class="bare-edge" x1="3" x2="3" y1="4" y2="18" />
        <line class="bare-line" x1="3" x2="34" y1="12" y2="12" />
      </svg>
      likely none left
    </li>
    <li>
      <svg viewBox="0 0 34 20" aria-hidden="true">
        <rect class="board-wood" y="8" width="34" height="2.5" />
        <path class="notch" d="M13,16L17,7L21,16Z" />
      </svg>
      jars pass best quality
    </li>
  </ul>
);
