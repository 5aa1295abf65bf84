import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { AltitudeForm, type AltitudeFormProps } from './altitude-form.tsx';
import { Canners, type CannersProps } from './canner-forms.tsx';
import type { FormState } from './form-state.ts';
import { HouseholdForm, type HouseholdValues } from './household-form.tsx';
import { Jars, type JarsProps } from './jars-forms.tsx';
import { SeasonFundForm, type SeasonFundValues, Storage, type StorageProps } from './money-storage-forms.tsx';
import { Pins, type PinsProps } from './pins-form.tsx';
import { Time, type TimeProps } from './time-forms.tsx';

export interface KitchenPageProps {
  readonly frame: Frame;
  /** "18 of 20 recipes can be processed here." */
  readonly line: string;
  readonly untested: readonly UntestedRecipe[];
  readonly household: FormState<HouseholdValues>;
  readonly altitude: AltitudeFormProps;
  readonly canners: CannersProps;
  readonly jars: JarsProps;
  readonly time: TimeProps;
  readonly fund: FormState<SeasonFundValues>;
  readonly storage: StorageProps;
  readonly pins: PinsProps;
}

/** A recipe that cannot be canned here: the rules in its way, each with what is possible instead. */
export interface UntestedRecipe {
  readonly id: string;
  readonly name: string;
  readonly why: readonly string[];
}

const places = [
  ['household', 'People'],
  ['altitude', 'Altitude'],
  ['canners', 'Canners'],
  ['jars', 'Jars and lids'],
  ['time', 'Time'],
  ['fund', 'Money'],
  ['storage', 'Storage'],
  ['pins', 'Kept in the plan'],
] as const;

/** What the household cans with. */
export const KitchenPage = (props: KitchenPageProps) => (
  <Page
    frame={props.frame}
    title="Kitchen"
    section="kitchen"
    about="What the household cans with, when and where."
  >
    <h1 class="page-title">Kitchen</h1>
    <p class="page-line">{props.line}</p>
    <nav class="page-jump" aria-label="On this page">
      <ul>
        {places.map(([id, words]) => (
          <li key={id}>
            <a href={`#${id}`}>{words}</a>
          </li>
        ))}
      </ul>
    </nav>
    <Untested recipes={props.untested} />
    <AltitudeForm {...props.altitude} />
    <Canners {...props.canners} />
    <Time {...props.time} />
    <Jars {...props.jars} />
    <SeasonFundForm {...props.fund} />
    <Storage {...props.storage} />
    <Pins {...props.pins} />
    <HouseholdForm {...props.household} />
    <p class="more">
      <a href="/people">Who may look at this household</a>
      {' · '}
      <a href="/jobs">What runs at night</a>
    </p>
    <p class="more">
      <a href="/start">
        {props.frame.isDemo ? 'Set up your own household' : 'Another household of this file'}
      </a>
    </p>
  </Page>
);

const Untested = ({ recipes }: { recipes: readonly UntestedRecipe[] }) => (
  <Part
    id="tested"
    title="Tested here"
    line="Processed only by a published row for this food, jar, canner and altitude."
  >
    {recipes.length === 0 ? (
      <EmptyState text="Every recipe has a tested process here." />
    ) : (
      <ul class="untested">
        {recipes.map((recipe) => (
          <li key={recipe.id}>
            <p>
              <strong>{`${recipe.name}: not planned here.`}</strong>
            </p>
            {recipe.why.map((reason) => (
              <p key={reason}>{reason}</p>
            ))}
          </li>
        ))}
      </ul>
    )}
    <p class="more">
      <a href="/process-times">Look up a processing time</a> · <a href="/power-cut">After a power cut</a>
    </p>
  </Part>
);
