/** What the published guide says to do with a jar found swollen, leaking or unsealed on the shelf. */
export interface SuspectJarProps {
  readonly title: string;
  readonly steps: readonly string[];
  /** Source of the steps, and whether it was read or is remembered. */
  readonly source: string;
}

export const SuspectJar = ({ title, steps, source }: SuspectJarProps) => (
  <section class="suspect-jar" role="alert" aria-label={title}>
    <h2>{title}</h2>
    <ol>
      {steps.map((step) => (
        <li key={step}>{step}</li>
      ))}
    </ol>
    <p class="quiet">{source}</p>
  </section>
);
