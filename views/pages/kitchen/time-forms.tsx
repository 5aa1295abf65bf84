import type {
  daysOffForm,
  kitchenTimeForm,
  sessionPauseForm,
  sessionRuleForm,
  weekTimeForm,
} from '../../../shared/schemas/kitchen.ts';
import { Button } from '../../parts/button.tsx';
import { CheckField, hasProblems, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import type { Choice, FormKeys } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export interface TimeProps {
  readonly usual: StateOf<typeof kitchenTimeForm>;
  /** Session days by rule; none where the usual day alone counts. */
  readonly rules: readonly RemovableLine[];
  readonly rule: StateOf<typeof sessionRuleForm>;
  readonly whiches: readonly Choice[];
  readonly pauses: readonly RemovableLine[];
  readonly pause: StateOf<typeof sessionPauseForm>;
  /** `Sat, Aug 22, 5 h`: the next sessions all of it comes to. */
  readonly next: readonly string[];
  readonly weekdays: readonly Choice[];
  readonly namedWeeks: readonly RemovableLine[];
  readonly week: StateOf<typeof weekTimeForm, 'week', 'dayInWeek'>;
  readonly away: DaysOffProps;
  readonly schoolHolidays: DaysOffProps;
}

export interface DaysOffProps {
  readonly lines: readonly RemovableLine[];
  readonly form: StateOf<typeof daysOffForm>;
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
          <DaysOffForm add="Add days away" {...away.form} />
        </div>
        <div>
          <h3>School holidays</h3>
          <p class="quiet">Only for what is eaten in school weeks.</p>
          <RemovableList
            part="time"
            lines={schoolHolidays.lines}
            none="No school holidays are written down."
          />
          <DaysOffForm add="Add school holidays" {...schoolHolidays.form} />
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
    <details class="fold" open={hasProblems(rule)}>
      <summary>Add canning days</summary>
      <KitchenForm part="time" action="/kitchen/session-days" form={rule} label="Add canning days">
        <div class="form-row">
          <SelectField form={rule} name="weekday" label="Day" choices={weekdays} />
          <SelectField form={rule} name="which" label="Which" choices={whiches} />
          <InputField form={rule} name="hours" label="Hours" inputMode="decimal" width="short" unit="h" />
          <InputField form={rule} name="who" label="Who is there" hint="Leave blank if it is as usual." />
          <Button weight="main">Add</Button>
        </div>
      </KitchenForm>
    </details>
    <h3>Times without canning</h3>
    <RemovableList part="time" lines={pauses} none="None. You can all year round." />
    <details class="fold" open={hasProblems(pause)}>
      <summary>Add days without canning</summary>
      <KitchenForm part="time" action="/kitchen/session-pauses" form={pause} label="Add days without canning">
        <div class="form-row">
          <InputField form={pause} name="fromOn" type="date" label="First day" />
          <InputField form={pause} name="lastOn" type="date" label="Last day" />
        </div>
        <CheckField form={pause} name="eachYear" label="Each year" />
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
  ...form
}: StateOf<typeof kitchenTimeForm> & { weekdays: readonly Choice[]; isRuled: boolean }) => (
  <KitchenForm part="time" action="/kitchen/time" form={form} label="Usual canning time">
    <div class="form-row">
      <InputField
        form={form}
        name="sessionsPerWeek"
        label="Canning days a week"
        {...(isRuled ? { hint: 'Besides the days you set below.' } : {})}
        inputMode="numeric"
        width="short"
      />
      <InputField
        form={form}
        name="hoursPerSession"
        label="Hours each"
        inputMode="decimal"
        width="short"
        unit="h"
      />
      <InputField
        form={form}
        name="setUpMinutes"
        label="Of these, setting up and washing up"
        inputMode="numeric"
        width="short"
        unit="min"
      />
      <InputField
        form={form}
        name="stoveBurners"
        label="Burners on the stove"
        inputMode="numeric"
        width="short"
      />
      <SelectField form={form} name="sessionWeekday" label="Usually on" choices={weekdays} />
      <InputField
        form={form}
        name="who"
        label="Who is there"
        hint="Names, with commas between. Two work side by side; a canner takes as long as ever."
      />
      <Button weight="main">Save</Button>
    </div>
  </KitchenForm>
);

const WeekTimeForm = (form: StateOf<typeof weekTimeForm, 'week', 'dayInWeek'>) => (
  <details class="fold" open={hasProblems(form)}>
    <summary>Add a week that differs</summary>
    <KitchenForm part="time" action="/kitchen/weeks" form={form} label="A week that differs">
      <InputField form={form} name="dayInWeek" type="date" label="Any day of the week" />
      <div class="form-row">
        <InputField form={form} name="sessions" label="Canning days" inputMode="numeric" width="short" />
        <InputField
          form={form}
          name="hoursPerSession"
          label="Hours each"
          hint="Leave blank if as usual."
          inputMode="decimal"
          width="short"
          unit="h"
        />
      </div>
      <InputField form={form} name="reason" label="Why" />
      <p>
        <Button weight="main">Save</Button>
      </p>
    </KitchenForm>
  </details>
);

const DaysOffForm = ({ add, ...form }: StateOf<typeof daysOffForm> & { add: string }) => (
  <details class="fold" open={hasProblems(form)}>
    <summary>{add}</summary>
    <KitchenForm part="time" action={`/kitchen/${form.formId}`} form={form} label={add}>
      <div class="form-row">
        <InputField form={form} name="fromOn" type="date" label="First day" />
        <InputField form={form} name="lastOn" type="date" label="Last day" />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </KitchenForm>
  </details>
);
