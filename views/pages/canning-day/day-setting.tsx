import { Button } from '../../parts/button.tsx';
import {
  type Choice,
  type FieldProblems,
  type FormKeys,
  InputField,
  PostForm,
  RadioField,
} from '../../parts/form.tsx';
import { Sounds } from './sounds.tsx';

export interface DaySettingProps {
  readonly action: string;
  readonly keys: FormKeys;
  readonly values: {
    readonly by: string;
    readonly time: string;
    readonly people: string;
    readonly who: string;
    readonly burners: string;
  };
  readonly problems: FieldProblems;
  /** Printed schedules that were chosen, by field name; sent along. */
  readonly rows: readonly { readonly name: string; readonly value: string }[];
  /** Set while the day is not begun: the form looks ahead, and the other button begins. */
  readonly isAhead: boolean;
}

const counted: readonly Choice[] = [
  { value: 'start', words: 'start at' },
  { value: 'end', words: 'be done by' },
];

/** The one large press of a day ahead; how it is laid out goes along. */
export const BeginDay = ({ setting }: { setting: DaySettingProps }) => (
  <PostForm action={setting.action} keys={setting.keys} class="begin-day" label="Begin">
    {[...Object.entries(setting.values), ...setting.rows.map(({ name, value }) => [name, value])].map(
      ([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ),
    )}
    <Sounds />
    <Button weight="main" big name="ask" value="begin">
      Begin this canning day
    </Button>
  </PostForm>
);

/** From when or until when, with how many people and burners. */
export const DaySetting = ({ setting }: { setting: DaySettingProps }) => {
  const { values, problems } = setting;
  return (
    <PostForm action={setting.action} keys={setting.keys} problems={problems} label="How the day is laid out">
      {setting.rows.map(({ name, value }) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <div class="form-row">
        <RadioField form="setting" name="by" label="The day should" value={values.by} choices={counted} />
        <InputField
          form="setting"
          name="time"
          type="time"
          label="Time"
          value={values.time}
          width="short"
          problem={problems.time}
        />
      </div>
      <div class="form-row">
        <InputField
          form="setting"
          name="people"
          label="People at work"
          value={values.people}
          inputMode="numeric"
          width="short"
          problem={problems.people}
        />
        <InputField
          form="setting"
          name="who"
          label="Who is there"
          hint="Names, with commas between: each gets a list of their own."
          value={values.who}
          problem={problems.who}
        />
        <InputField
          form="setting"
          name="burners"
          label="Burners free that day"
          value={values.burners}
          inputMode="numeric"
          width="short"
          problem={problems.burners}
        />
      </div>
      <p class="page-actions">
        {setting.isAhead ? (
          <>
            <Button name="ask" value="look">
              Update the schedule
            </Button>
            <Button name="ask" value="begin">
              Begin with this
            </Button>
          </>
        ) : (
          <Button name="ask" value="begin">
            Update the schedule
          </Button>
        )}
      </p>
    </PostForm>
  );
};

/** A day that was begun by mistake, while nothing has happened on it. */
export const Withdraw = ({ action, keys }: { action: string; keys: FormKeys }) => (
  <PostForm action={action} keys={keys} label="Begun by mistake">
    <p>
      <Button weight="quiet">Begun by mistake: take it back</Button>
    </p>
  </PostForm>
);
