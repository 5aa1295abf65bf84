import type { firstHourForm } from '../../../shared/schemas/first-hour.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { AltitudeFields } from '../../parts/altitude-fields.tsx';
import { Button } from '../../parts/button.tsx';
import { CheckField, InputField, RadioField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { GaugeOffFields } from '../../parts/gauge-off-fields.tsx';
import { pageNames } from '../../words/page-names.ts';
import { dateChoices } from '../kitchen/household-form.tsx';
import { FirstOwner } from './first-owner.tsx';
import { type LikedPreserve, LikedPreserves } from './liked-preserves.tsx';
import { OtherHouseholds, type OtherHouseholdsProps } from './other-households.tsx';

/** Fields of the folded part about the place. */
const moreOfPlace = ['region', 'lastFrost', 'firstFrost'] as const;

/** Fields of the folded part about the gauge. */
const gaugeFields = ['gauge', 'gaugeCheckedOn', 'gaugeOffAt5', 'gaugeOffAt10', 'gaugeOffAt15'] as const;

/** `eats` is the short list as a whole. */
type FirstHourForm = StateOf<typeof firstHourForm, never, 'owner' | 'passphrase' | 'eats'>;

export interface FirstHourPageProps extends OtherHouseholdsProps {
  readonly frame: Frame;
  readonly form: FirstHourForm;
  readonly regions: readonly Choice[];
  /** What the typed town may be; none where it is clear. */
  readonly stations: readonly Choice[];
  /** How the altitude in the field is understood. */
  readonly altitudeSeen: { readonly echo: string | null; readonly mark: string };
  readonly currencies: readonly Choice[];
  readonly timeZones: readonly Choice[];
  /** Canners as they are sold. */
  readonly sizes: { readonly pot: readonly Choice[]; readonly pressure: readonly Choice[] };
  readonly preserves: readonly LikedPreserve[];
  readonly often: readonly Choice[];
  /** Not where somebody is signed in, who then is the owner. */
  readonly asksOwner: boolean;
}

/** From nothing to a first plan on one page: what can be guessed is filled in, and everything can be changed later. */
export const FirstHourPage = (props: FirstHourPageProps) => (
  <Page
    frame={props.frame}
    title="Set up your household"
    section="none"
    about="A few questions, then a first plan for the year."
    moreCss={props.frame.assets.startCss}
  >
    <h1 class="page-title">Set up your household</h1>
    <p class="page-line">
      Two things only you know: where you are and how high. We fill in the rest with guesses for a first year
      of about a hundred jars. Change what is wrong; you can change everything later.
    </p>
    <OtherHouseholds others={props.others} demo={props.demo} />
    <PostForm action="/start" form={props.form} class="first-hour" label="Your household">
      <Where {...props} />
      <Kitchen {...props} />
      <LikedPreserves form={props.form} preserves={props.preserves} often={props.often} />
      <TimeAndMoney {...props} />
      <WhoAndHow {...props} />
      {props.asksOwner ? <FirstOwner form={props.form} /> : null}
      <p class="first-hour-end">
        <Button weight="main" big>
          Set up and plan the year
        </Button>
      </p>
    </PostForm>
  </Page>
);

const Where = ({
  form,
  regions,
  stations,
  altitudeSeen,
}: Pick<FirstHourPageProps, 'form' | 'regions' | 'stations' | 'altitudeSeen'>) => (
  <fieldset class="part">
    <legend>Where you are</legend>
    <InputField
      form={form}
      name="town"
      label="Nearest town, with its state"
      hint="“Boulder, CO”, or the state alone. We guess when crops are ripe from the freezes at its weather station."
      width="medium"
    />
    {stations.length === 0 ? null : (
      <RadioField form={form} name="station" label="Which one" choices={stations} />
    )}
    <details open={moreOfPlace.some((name) => form.problems[name] !== undefined || form.values[name] !== '')}>
      <summary>Outside the United States, or frosts you know better</summary>
      <div class="form-row">
        <InputField
          form={form}
          name="lastFrost"
          type="date"
          label="Last frost of spring, about"
          hint="Of any year. Without a town, seasons are guessed from it."
        />
        <InputField form={form} name="firstFrost" type="date" label="First frost of fall, about" />
      </div>
      <SelectField
        form={form}
        name="region"
        label="Region"
        hint="Whose published seasons count. Without a town, a frost or a region you write the dates down yourself, on Harvest."
        choices={regions}
      />
    </details>
    <AltitudeFields
      form={form}
      unitName="altitudeUnit"
      hint="Every processing time depends on it. You can skip it for now, but nothing can be canned until it’s set."
      echo={altitudeSeen.echo}
      mark={altitudeSeen.mark}
    />
    <details>
      <summary>How to find it</summary>
      <p class="hint">
        Your country’s official map service prints the height of a point; a topographic map shows it by
        contour lines; the town hall or the county extension office knows it. Between two figures, write the
        higher.
      </p>
    </details>
    <RadioField
      form={form}
      name="sourceKind"
      label="Most of the produce comes from"
      choices={[
        { value: 'market', words: 'market or stand' },
        { value: 'pick-your-own', words: 'picking it ourselves' },
        { value: 'garden', words: 'our own garden' },
      ]}
    />
  </fieldset>
);

const Kitchen = ({ form, sizes }: Pick<FirstHourPageProps, 'form' | 'sizes'>) => (
  <fieldset class="part">
    <legend>What you can with</legend>
    <div class="form-row">
      <CheckField
        form={form}
        name="boilingWater"
        label="Boiling-water canner"
        hint="Any deep pot with a rack and a lid."
      />
      <SelectField form={form} name="potSize" label="Size of the pot" choices={sizes.pot} />
      <CheckField
        form={form}
        name="pressure"
        label="Pressure canner"
        hint="The only safe way for vegetables, meat and stock."
      />
    </div>
    <details
      class="gauge-fold"
      open={form.values.pressure || gaugeFields.some((name) => form.problems[name] !== undefined)}
    >
      <summary>Size and gauge of the pressure canner</summary>
      <SelectField form={form} name="pressureSize" label="Its size, as sold" choices={sizes.pressure} />
      <RadioField
        form={form}
        name="gauge"
        label="Gauge"
        hint="A dial has a needle and a scale of numbers; a weighted gauge is a weight that rocks or jiggles on the lid. Until it is known, no pressure is given."
        choices={[
          { value: '', words: 'not sure yet' },
          { value: 'weighted', words: 'weighted' },
          { value: 'dial', words: 'dial' },
        ]}
      />
      <InputField
        form={form}
        name="gaugeCheckedOn"
        label="Dial last checked on"
        hint="A dial counts for a year after its check; extension offices check them. Until its check and what that found are written down, nothing is canned with it."
        type="date"
      />
      <GaugeOffFields form={form} />
      <p class="hint">
        Not at hand now: <a href="/kitchen#canners">{pageNames.kitchen}</a> takes it once this page is kept.
      </p>
    </details>
    <div class="form-row">
      {(
        [
          ['halfPints', 'Half-pint jars'],
          ['pints', 'Pint jars'],
          ['quarts', 'Quart jars'],
          ['lids', 'New lids'],
        ] as const
      ).map(([name, label]) => (
        <InputField key={name} form={form} name={name} label={label} inputMode="numeric" width="short" />
      ))}
    </div>
  </fieldset>
);

const TimeAndMoney = ({ form, currencies }: Pick<FirstHourPageProps, 'form' | 'currencies'>) => (
  <fieldset class="part">
    <legend>Time and money</legend>
    <div class="form-row">
      <InputField
        form={form}
        name="sessionsPerWeek"
        label="Canning days a week"
        inputMode="numeric"
        width="short"
      />
      <InputField form={form} name="hoursPerSession" label="Hours each" inputMode="decimal" width="short" />
      <SelectField form={form} name="currency" label="Currency" choices={currencies} />
      <InputField form={form} name="fundNow" label="To spend now" inputMode="decimal" width="short" />
      <InputField form={form} name="fundWeekly" label="Set aside a week" inputMode="decimal" width="short" />
    </div>
  </fieldset>
);

const WhoAndHow = ({ form, timeZones }: Pick<FirstHourPageProps, 'form' | 'timeZones'>) => (
  <fieldset class="part">
    <legend>Who you are</legend>
    <div class="form-row">
      <InputField form={form} name="name" label="Name" />
      <InputField form={form} name="people" label="People" inputMode="numeric" width="short" />
    </div>
    <details open={form.problems.timeZone !== undefined}>
      <summary>Units, weeks and clock</summary>
      <div class="form-row">
        <RadioField
          form={form}
          name="units"
          label="Units"
          choices={[
            { value: 'us', words: 'pounds' },
            { value: 'metric', words: 'kilograms' },
          ]}
        />
        <RadioField
          form={form}
          name="weekStartsOn"
          label="The week starts on"
          choices={[
            { value: 'sunday', words: 'Sunday' },
            { value: 'monday', words: 'Monday' },
          ]}
        />
        <SelectField form={form} name="locale" label="Date format" choices={dateChoices} />
        <SelectField form={form} name="timeZone" label="Time zone" choices={timeZones} proposes="time-zone" />
      </div>
    </details>
  </fieldset>
);
