import type { Frame, Message } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';
import { AltitudeForm, type AltitudeFormProps } from './altitude-form.tsx';
import { Canners, type CannersProps } from './canner-forms.tsx';
import { SeasonFundForm, type SeasonFundProps } from './fund-form.tsx';
import { HouseholdForm, type HouseholdFormProps } from './household-form.tsx';
import { Jars, type JarsProps } from './jars-forms.tsx';
import { Pins, type PinsProps } from './pins-form.tsx';
import { Places, type PlacesProps } from './places-forms.tsx';
import { Storage, type StorageProps } from './storage-form.tsx';
import { Time, type TimeProps } from './time-forms.tsx';
import { type UnfitValueProps, UnfitValues } from './unfit-values.tsx';

export interface KitchenPageProps {
  readonly frame: Frame;
  /** "18 of 20 recipes can be processed here." */
  readonly line: string;
  readonly unfit: readonly UnfitValueProps[];
  /** Why one of them was not mended. */
  readonly unfitProblem: string | null;
  readonly untested: readonly UntestedRecipe[];
  /** Part that was just saved, and what is said about it. */
  readonly saved: { readonly part: string; readonly message: Message } | null;
  readonly household: HouseholdFormProps;
  readonly altitude: AltitudeFormProps;
  readonly canners: CannersProps;
  readonly jars: JarsProps;
  readonly time: TimeProps;
  readonly fund: SeasonFundProps;
  readonly storage: StorageProps;
  readonly places: PlacesProps;
  readonly pins: PinsProps;
}

/** A recipe that cannot be canned here: the rules in its way, each with what is possible instead. */
export interface UntestedRecipe {
  readonly id: string;
  readonly name: string;
  readonly why: readonly string[];
}

const parts = [
  ['altitude', 'Altitude'],
  ['canners', 'Canners'],
  ['jars', 'Jars and lids'],
  ['time', 'Time'],
  ['fund', 'Money'],
  ['storage', 'Storage'],
  ['places', 'Places'],
  ['pins', 'Kept in the plan'],
  ['household', 'People, units and dates'],
] as const;

/** What the household cans with. */
export const KitchenPage = (props: KitchenPageProps) => {
  const said = (part: string) => (props.saved?.part === part ? props.saved.message : undefined);
  return (
    <Page
      frame={props.frame}
      title={pageNames.kitchen}
      section="kitchen"
      about="What the household cans with, when and where."
    >
      <h1 class="page-title">{pageNames.kitchen}</h1>
      <p class="page-line" id="kitchen-line">
        {props.line}
      </p>
      <nav class="page-jump" aria-label="On this page">
        <ul>
          {parts.map(([id, words]) => (
            <li key={id}>
              <a href={`#${id}`}>{words}</a>
            </li>
          ))}
        </ul>
      </nav>
      <UnfitValues values={props.unfit} problem={props.unfitProblem} />
      <Untested recipes={props.untested} />
      <AltitudeForm {...props.altitude} said={said('altitude')} />
      <Canners {...props.canners} said={said('canners')} />
      <Time {...props.time} said={said('time')} />
      <Jars {...props.jars} said={said('jars')} />
      <SeasonFundForm {...props.fund} said={said('fund')} />
      <Storage {...props.storage} said={said('storage')} />
      <Places {...props.places} said={said('places')} />
      <Pins {...props.pins} said={said('pins')} />
      <HouseholdForm {...props.household} said={said('household')} />
      <p class="more">
        <a href="/notices/settings">Reminders and letters</a>
        {' · '}
        <a href="/people">{`${pageNames.people}: who can see this household`}</a>
        {' · '}
        <a href="/jobs">{pageNames.jobs}</a>
      </p>
      <p class="more">
        <a href="/start">
          {props.frame.isDemo ? 'Set up your own household' : 'Another household of this file'}
        </a>
      </p>
    </Page>
  );
};

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
      <a href="/process-times">Look up a processing time</a>
    </p>
  </Part>
);
