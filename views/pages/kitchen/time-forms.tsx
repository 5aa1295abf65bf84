import { Button } from '../../parts/button.tsx';
import { CheckField, type Choice, type FormKeys, InputField, SelectField } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { type FormState, hasProblems } from './form-state.ts';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export type KitchenTimeValues = Readonly<
  Record<
    'sessionsPerWeek' | 'hoursPerSession' | 'setUpMinutes' | 'stoveBurners' | 'sessionWeekday' | 'who',
    string
  >
>;
export type WeekTimeValues = Readonly<
  Record<'dayInWeek' | 'sessions' | 'hoursPerSession' | 'reason', string>
>;
export type DaysOffValues = Readonly<Record<'fromOn' | 'lastOn', string>>;

export type SessionRuleValues = Readonly<Record<'weekday' | 'which' | 'hours' | 'who', string>>;
export type SessionPauseValues = Readonly<Record<'fromOn' | 'lastOn' | 'eachYear', string>>;

export interface TimeProps {
  readonly usual: FormState<KitchenTimeValues>;
  /** Session days by rule; none where the usual day alone counts. */
  readonly rules: readonly RemovableLine[];
  readonly rule: FormState<SessionRuleValues>;
  readonly whiches: readonly Choice[];
  readonly pauses: readonly RemovableLine[];
  readonly pause: FormState<SessionPauseValues>;
  /** `Sat, Aug 22, 5 h`: the next sessions all of it comes to. */
  readonly next: readonly string[];
  readonly weekdays: readonly Choice[];
  readonly namedWeeks: readonly RemovableLine[];
  readonly week: FormState<WeekTimeValues>;
  readonly away: DaysOffProps;
  readonly schoolHolidays: DaysOffProps;
}

export interface DaysOffProps {
  readonly lines: readonly RemovableLine[];
  readonly form: FormState<DaysOffValues>;
}

/** Something dated that can be taken back. */
export interface RemovableLine {
  readonly id: string;
  readonly words: string;
  readonly remove: string;
  readonly keys: FormKeys;
}

/** When the household cans: usual weeks, named weeks, and weeks away. */
export const Time = (props: TimeProps & Said) => {
  const { usual, weekdays, namedWeeks, week, away, schoolHolidays, said } = props;
  return (
    <Part
      id="time"
      title="Time for canning"
      said={said}
      folded={{
        words: props.next[0] === undefined ? 'No canning day is coming' : `Next: ${props.next[0]}`,
        open: hasProblems(usual, props.rule, props.pause, week, away.form, schoolHolidays.form),
      }}
    >
      <UsualTime weekdays={weekdays} {...usual} isRuled={props.rules.length > 0} />
      <SessionDays {...props} />
      <h3>Weeks that differ</h3>
      <RemovableList part="time" lines={namedWeeks} none="Every week is a usual one." />
      <WeekTimeForm {...week} />
      <div class="two-columns">
        <div>
          <h3>Away</h3>
          <p class="quiet">Nobody cans and nobody eats; these days don’t count.</p>
          <RemovableList part="time" lines={away.lines} none="No days away are written down." />
          <DaysOffForm kind="away" add="Add days away" {...away.form} />
        </div>
        <div>
          <h3>School holidays</h3>
          <p class="quiet">Only for what is eaten in school weeks.</p>
          <RemovableList
            part="time"
            lines={schoolHolidays.lines}
            none="No school holidays are written down."
          />
          <DaysOffForm kind="school-holidays" add="Add school holidays" {...schoolHolidays.form} />
        </div>
      </div>
    </Part>
  );
};

interface RemovableListProps {
  /** Part of the page the list stands in. */
  readonly part: string;
  readonly lines: readonly RemovableLine[];
  readonly none: string;
}

export const RemovableList = ({ part, lines, none }: RemovableListProps) =>
  lines.length === 0 ? (
    <EmptyState text={none} />
  ) : (
    <ul class="removable">
      {lines.map((line) => (
        <li key={line.id}>
          <span>{line.words}</span>
          <KitchenForm part={part} class="inline-form" action={line.remove} keys={line.keys}>
            <Button weight="quiet" label={`Remove: ${line.words}`}>
              Remove
            </Button>
          </KitchenForm>
        </li>
      ))}
    </ul>
  );

/** On which days sessions are held, when none are, and what that comes to. */
const SessionDays = ({ rules, rule, whiches, weekdays, pauses, pause, next }: TimeProps) => (
  <>
    <h3>Canning days</h3>
    <p class="quiet">
      The days on which you can, and for how long. Once you add some, nothing is planned on other days.
    </p>
    <RemovableList part="time" lines={rules} none="None yet: the usual day above counts." />
    <details class="fold" open={Object.keys(rule.problems).length > 0}>
      <summary>Add canning days</summary>
      <KitchenForm
        part="time"
        action="/kitchen/session-days"
        keys={rule.keys}
        problems={rule.problems}
        label="Add canning days"
      >
        <div class="form-row">
          <SelectField
            form="session-days"
            name="weekday"
            label="Day"
            value={rule.values.weekday}
            choices={weekdays}
            problem={rule.problems.weekday}
          />
          <SelectField
            form="session-days"
            name="which"
            label="Which"
            value={rule.values.which}
            choices={whiches}
            problem={rule.problems.which}
          />
          <InputField
            form="session-days"
            name="hours"
            label="Hours"
            value={rule.values.hours}
            inputMode="decimal"
            width="short"
            unit="h"
            problem={rule.problems.hours}
          />
          <InputField
            form="session-days"
            name="who"
            label="Who is there"
            hint="Leave blank if it is as usual."
            value={rule.values.who}
            problem={rule.problems.who}
          />
          <Button weight="main">Add</Button>
        </div>
      </KitchenForm>
    </details>
    <h3>Times without canning</h3>
    <RemovableList part="time" lines={pauses} none="None. You can all year round." />
    <details class="fold" open={Object.keys(pause.problems).length > 0}>
      <summary>Add days without canning</summary>
      <KitchenForm
        part="time"
        action="/kitchen/session-pauses"
        keys={pause.keys}
        problems={pause.problems}
        label="Add days without canning"
      >
        <div class="form-row">
          <InputField
            form="session-pauses"
            name="fromOn"
            type="date"
            label="First day"
            value={pause.values.fromOn}
            problem={pause.problems.fromOn}
          />
          <InputField
            form="session-pauses"
            name="lastOn"
            type="date"
            label="Last day"
            value={pause.values.lastOn}
            problem={pause.problems.lastOn}
          />
        </div>
        <CheckField
          form="session-pauses"
          name="eachYear"
          label="Each year"
          checked={pause.values.eachYear === 'yes'}
        />
        <p>
          <Button weight="main">Save</Button>
        </p>
      </KitchenForm>
    </details>
    <h3>Your next canning days</h3>
    {next.length === 0 ? (
      <EmptyState text="No session is coming: say on which days you can." />
    ) : (
      <ul class="next-sessions">
        {next.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    )}
  </>
);

const UsualTime = ({
  weekdays,
  isRuled,
  keys,
  values,
  problems,
}: FormState<KitchenTimeValues> & { weekdays: readonly Choice[]; isRuled: boolean }) => (
  <KitchenForm part="time" action="/kitchen/time" keys={keys} problems={problems} label="Usual canning time">
    <div class="form-row">
      <InputField
        form="time"
        name="sessionsPerWeek"
        label="Canning days a week"
        {...(isRuled ? { hint: 'Besides the days you set below.' } : {})}
        value={values.sessionsPerWeek}
        inputMode="numeric"
        width="short"
        problem={problems.sessionsPerWeek}
      />
      <InputField
        form="time"
        name="hoursPerSession"
        label="Hours each"
        value={values.hoursPerSession}
        inputMode="decimal"
        width="short"
        unit="h"
        problem={problems.hoursPerSession}
      />
      <InputField
        form="time"
        name="setUpMinutes"
        label="Of these, setting up and washing up"
        value={values.setUpMinutes}
        inputMode="numeric"
        width="short"
        unit="min"
        problem={problems.setUpMinutes}
      />
      <InputField
        form="time"
        name="stoveBurners"
        label="Burners on the stove"
        value={values.stoveBurners}
        inputMode="numeric"
        width="short"
        problem={problems.stoveBurners}
      />
      <SelectField
        form="time"
        name="sessionWeekday"
        label="Usually on"
        value={values.sessionWeekday}
        choices={weekdays}
        problem={problems.sessionWeekday}
      />
      <InputField
        form="time"
        name="who"
        label="Who is there"
        hint="Names, with commas between. Two work side by side; a canner takes as long as ever."
        value={values.who}
        problem={problems.who}
      />
      <Button weight="main">Save</Button>
    </div>
  </KitchenForm>
);

const WeekTimeForm = ({ keys, values, problems }: FormState<WeekTimeValues>) => (
  <details class="fold" open={Object.keys(problems).length > 0}>
    <summary>Add a week that differs</summary>
    <KitchenForm
      part="time"
      action="/kitchen/weeks"
      keys={keys}
      problems={problems}
      label="A week that differs"
    >
      <InputField
        form="week"
        name="dayInWeek"
        type="date"
        label="Any day of the week"
        value={values.dayInWeek}
        problem={problems.dayInWeek}
      />
      <div class="form-row">
        <InputField
          form="week"
          name="sessions"
          label="Canning days"
          value={values.sessions}
          inputMode="numeric"
          width="short"
          problem={problems.sessions}
        />
        <InputField
          form="week"
          name="hoursPerSession"
          label="Hours each"
          hint="Leave blank if as usual."
          value={values.hoursPerSession}
          inputMode="decimal"
          width="short"
          unit="h"
          problem={problems.hoursPerSession}
        />
      </div>
      <InputField form="week" name="reason" label="Why" value={values.reason} problem={problems.reason} />
      <p>
        <Button weight="main">Save</Button>
      </p>
    </KitchenForm>
  </details>
);

const DaysOffForm = ({
  kind,
  add,
  keys,
  values,
  problems,
}: FormState<DaysOffValues> & { kind: 'away' | 'school-holidays'; add: string }) => (
  <details class="fold" open={Object.keys(problems).length > 0}>
    <summary>{add}</summary>
    <KitchenForm part="time" action={`/kitchen/${kind}`} keys={keys} problems={problems} label={add}>
      <div class="form-row">
        <InputField
          form={kind}
          name="fromOn"
          type="date"
          label="First day"
          value={values.fromOn}
          problem={problems.fromOn}
        />
        <InputField
          form={kind}
          name="lastOn"
          type="date"
          label="Last day"
          value={values.lastOn}
          problem={problems.lastOn}
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </KitchenForm>
  </details>
);
