/** How something is kept without a canner, as a guide has it. */
export interface WayStepsProps {
  readonly steps: readonly string[];
  /** `Dry at 140 °F, 6 to 18 hours.` */
  readonly figures: readonly string[];
  readonly note: string | null;
  readonly source: string;
}

export const WaySteps = ({ way }: { way: WayStepsProps }) => (
  <div class="way-steps">
    <ol class="numbered">
      {way.steps.map((step) => (
        <li key={step}>{step}</li>
      ))}
    </ol>
    {way.figures.length === 0 ? null : (
      <ul class="bullets">
        {way.figures.map((figure) => (
          <li key={figure}>{figure}</li>
        ))}
      </ul>
    )}
    {way.note === null ? null : <p>{way.note}</p>}
    <p class="small quiet">{way.source}</p>
  </div>
);
