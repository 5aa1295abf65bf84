import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { AltitudeFields } from '../../parts/altitude-fields.tsx';
import { Button } from '../../parts/button.tsx';
import {
  CheckField,
  type Choice,
  type FieldProblems,
  type FormKeys,
  InputField,
  PostForm,
  RadioField,
  SelectField,
} from '../../parts/form.tsx';
import { type GaugeOffField, GaugeOffFields } from '../../parts/gauge-off-fields.tsx';
import { pageNames } from '../../words/page-names.ts';
import { dateChoices } from '../kitchen/household-form.tsx';
import { FirstOwner } from './first-owner.tsx';
import { type LikedPreserve, LikedPreserves } from './liked-preserves.tsx';
import { OtherHouseholds, type OtherHouseholdsProps } from './other-households.tsx';

/** Fields of the folded part about the gauge. */
const gaugeFields = ['gauge', 'gaugeCheckedOn', 'gaugeOffAt5', 'gaugeOffAt10', 'gaugeOffAt15'] as const;

export type FirstHourValues = Readonly<
  Record<
    | 'name'
    | 'people'
    | 'units'
    | 'weekStartsOn'
    | 'timeZone'
    | 'locale'
    | 'currency'
    | 'region'
    | 'town'
    | 'station'
    | 'lastFrost'
    | 'firstFrost'
    | 'altitude'
    | 'altitudeUnit'
    | 'boilingWater'
    | 'potSize'
    | 'pressure'
    | 'pressureSize'
    | 'gauge'
    | 'gaugeCheckedOn'
    | GaugeOffField
    | 'halfPints'
    | 'pints'
    | 'quarts'
    | 'lids'
    | 'sourceKind'
    | 'sessionsPerWeek'
    | 'hoursPerSession'
    | 'fundNow'
    | 'fundWeekly',
    string
  >
>;

interface FirstHourForm {
  readonly values: FirstHourValues;
  readonly problems: FieldProblems;
}

export interface FirstHourPageProps extends FirstHourForm, OtherHouseholdsProps {
  readonly frame: Frame;
  readonly keys: FormKeys;
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
  /** The owner's name as typed; null where somebody is signed in, who then is the owner. */
  readonly owner: string | null;
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
    <PostForm
      action="/start"
      keys={props.keys}
      problems={props.problems}
      class="first-hour"
      label="Your household"
    >
      <Where {...props} />
      <Kitchen {...props} />
      <LikedPreserves preserves={props.preserves} often={props.often} problem={props.problems.eats} />
      <TimeAndMoney {...props} />
      <WhoAndHow {...props} />
      {props.owner === null ? null : <FirstOwner form={form} owner={props.owner} problems={props.problems} />}
      <p class="first-hour-end">
        <Button weight="main" big>
          Set up and plan the year
        </Button>
      </p>
    </PostForm>
  </Page>
);

const form = 'start';

const Where = ({
  values,
  problems,
  regions,
  stations,
  altitudeSeen,
}: FirstHourForm & Pick<FirstHourPageProps, 'regions' | 'stations' | 'altitudeSeen'>) => (
  <fieldset class="part">
    <legend>Where you are</legend>
    <InputField
      form={form}
      name="town"
      label="Nearest town, with its state"
      hint="“Boulder, CO”, or the state alone. We guess when crops are ripe from the freezes at its weather station."
      value={values.town}
      width="medium"
      problem={problems.town}
    />
    {stations.length === 0 ? null : (
      <RadioField
        form={form}
        name="station"
        label="Which one"
        value={values.station}
        choices={stations}
        problem={problems.station}
      />
    )}
    <details
      open={
        [problems.region, problems.lastFrost, problems.firstFrost].some((problem) => problem !== undefined) ||
        [values.region, values.lastFrost, values.firstFrost].some((value) => value !== '')
      }
    >
      <summary>Outside the United States, or frosts you know better</summary>
      <div class="form-row">
        <InputField
          form={form}
          name="lastFrost"
          type="date"
          label="Last frost of spring, about"
          hint="Of any year. Without a town, seasons are guessed from it."
          value={values.lastFrost}
          problem={problems.lastFrost}
        />
        <InputField
          form={form}
          name="firstFrost"
          type="date"
          label="First frost of fall, about"
          value={values.firstFrost}
          problem={problems.firstFrost}
        />
      </div>
      <SelectField
        form={form}
        name="region"
        label="Region"
        hint="Whose published seasons count. Without a town, a frost or a region you write the dates down yourself, on Harvest."
        value={values.region}
        choices={regions}
        problem={problems.region}
      />
    </details>
    <AltitudeFields
      form={form}
      hint="Every processing time depends on it. You can skip it for now, but nothing can be canned until it’s set."
      value={values.altitude}
      unit={values.altitudeUnit}
      unitName="altitudeUnit"
      echo={altitudeSeen.echo}
      mark={altitudeSeen.mark}
      problem={problems.altitude}
      unitProblem={problems.altitudeUnit}
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
      value={values.sourceKind}
      choices={[
        { value: 'market', words: 'market or stand' },
        { value: 'pick-your-own', words: 'picking it ourselves' },
        { value: 'garden', words: 'our own garden' },
      ]}
      problem={problems.sourceKind}
    />
  </fieldset>
);

const Kitchen = ({ values, problems, sizes }: FirstHourForm & Pick<FirstHourPageProps, 'sizes'>) => (
  <fieldset class="part">
    <legend>What you can with</legend>
    <div class="form-row">
      <CheckField
        form={form}
        name="boilingWater"
        label="Boiling-water canner"
        hint="Any deep pot with a rack and a lid."
        checked={values.boilingWater !== ''}
      />
      <SelectField
        form={form}
        name="potSize"
        label="Size of the pot"
        value={values.potSize}
        choices={sizes.pot}
        problem={problems.potSize}
      />
      <CheckField
        form={form}
        name="pressure"
        label="Pressure canner"
        hint="The only safe way for vegetables, meat and stock."
        checked={values.pressure !== ''}
      />
    </div>
    <details
      class="gauge-fold"
      open={values.pressure !== '' || gaugeFields.some((field) => problems[field] !== undefined)}
    >
      <summary>Size and gauge of the pressure canner</summary>
      <SelectField
        form={form}
        name="pressureSize"
        label="Its size, as sold"
        value={values.pressureSize}
        choices={sizes.pressure}
        problem={problems.pressureSize}
      />
      <RadioField
        form={form}
        name="gauge"
        label="Gauge"
        hint="A dial has a needle and a scale of numbers; a weighted gauge is a weight that rocks or jiggles on the lid. Until it is known, no pressure is given."
        value={values.gauge}
        choices={[
          { value: '', words: 'not sure yet' },
          { value: 'weighted', words: 'weighted' },
          { value: 'dial', words: 'dial' },
        ]}
        problem={problems.gauge}
      />
      <InputField
        form={form}
        name="gaugeCheckedOn"
        label="Dial last checked on"
        hint="A dial counts for a year after its check; extension offices check them. Until its check and what that found are written down, nothing is canned with it."
        value={values.gaugeCheckedOn}
        type="date"
        problem={problems.gaugeCheckedOn}
      />
      <GaugeOffFields form={form} values={values} problems={problems} />
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
        <InputField
          key={name}
          form={form}
          name={name}
          label={label}
          value={values[name]}
          inputMode="numeric"
          width="short"
          problem={problems[name]}
        />
      ))}
    </div>
  </fieldset>
);

const TimeAndMoney = ({
  values,
  problems,
  currencies,
}: FirstHourForm & Pick<FirstHourPageProps, 'currencies'>) => (
  <fieldset class="part">
    <legend>Time and money</legend>
    <div class="form-row">
      <InputField
        form={form}
        name="sessionsPerWeek"
        label="Canning days a week"
        value={values.sessionsPerWeek}
        inputMode="numeric"
        width="short"
        problem={problems.sessionsPerWeek}
      />
      <InputField
        form={form}
        name="hoursPerSession"
        label="Hours each"
        value={values.hoursPerSession}
        inputMode="decimal"
        width="short"
        problem={problems.hoursPerSession}
      />
      <SelectField
        form={form}
        name="currency"
        label="Currency"
        value={values.currency}
        choices={currencies}
        problem={problems.currency}
      />
      <InputField
        form={form}
        name="fundNow"
        label="To spend now"
        value={values.fundNow}
        inputMode="decimal"
        width="short"
        problem={problems.fundNow}
      />
      <InputField
        form={form}
        name="fundWeekly"
        label="Set aside a week"
        value={values.fundWeekly}
        inputMode="decimal"
        width="short"
        problem={problems.fundWeekly}
      />
    </div>
  </fieldset>
);

const WhoAndHow = ({
  values,
  problems,
  timeZones,
}: FirstHourForm & Pick<FirstHourPageProps, 'timeZones'>) => (
  <fieldset class="part">
    <legend>Who you are</legend>
    <div class="form-row">
      <InputField form={form} name="name" label="Name" value={values.name} problem={problems.name} />
      <InputField
        form={form}
        name="people"
        label="People"
        value={values.people}
        inputMode="numeric"
        width="short"
        problem={problems.people}
      />
    </div>
    <details open={problems.timeZone !== undefined}>
      <summary>Units, weeks and clock</summary>
      <div class="form-row">
        <RadioField
          form={form}
          name="units"
          label="Units"
          value={values.units}
          choices={[
            { value: 'us', words: 'pounds' },
            { value: 'metric', words: 'kilograms' },
          ]}
          problem={problems.units}
        />
        <RadioField
          form={form}
          name="weekStartsOn"
          label="The week starts on"
          value={values.weekStartsOn}
          choices={[
            { value: 'sunday', words: 'Sunday' },
            { value: 'monday', words: 'Monday' },
          ]}
          problem={problems.weekStartsOn}
        />
        <SelectField
          form={form}
          name="locale"
          label="Date format"
          value={values.locale}
          choices={dateChoices}
          problem={problems.locale}
        />
        <SelectField
          form={form}
          name="timeZone"
          label="Time zone"
          value={values.timeZone}
          choices={timeZones}
          proposes="time-zone"
          problem={problems.timeZone}
        />
      </div>
    </details>
  </fieldset>
);
