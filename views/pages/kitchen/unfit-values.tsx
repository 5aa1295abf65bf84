import { Part } from '../../parts/part.tsx';

export interface UnfitValueProps {
  readonly words: string;
  /** Where it is mended. */
  readonly where: { readonly href: string; readonly words: string };
}

/** Stored values that no form takes: from a file of another version, or changed by hand. */
export const UnfitValues = ({ values }: { values: readonly UnfitValueProps[] }) =>
  values.length === 0 ? null : (
    <Part
      id="unfit"
      title="Stored, but unfit"
      line="No form takes these values, so nothing is worked out from them."
    >
      <ul class="untested">
        {values.map(({ words, where }) => (
          <li key={words}>
            <p class="problem">{words}</p>
            <p>
              <a href={where.href}>{where.words}</a>
            </p>
          </li>
        ))}
      </ul>
    </Part>
  );
