/** What the published guide says to do with a jar found swollen, leaking or unsealed on the shelf. */
export interface SuspectJarProps {
  readonly title: string;
  /** One for each way the jar may be found; a single one without a title when all are handled alike. */
  readonly cases: readonly { readonly title: string | null; readonly steps: readonly string[] }[];
  readonly source: string;
}

export const SuspectJar = ({ title, cases, source }: SuspectJarProps) => (
  <section class="suspect-jar" role="alert" aria-label={title}>
    <h2>{title}</h2>
    {cases.map((found) => (
      <div key={found.title ?? title}>
        {found.title === null ? null : <h3>{found.title}</h3>}
        <ol>
          {found.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      </div>
    ))}
    <p class="quiet">{source}</p>
  </section>
);
