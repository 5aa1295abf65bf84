import type { sessionSettingForm } from '../../../shared/schemas/canning-session.ts';
import { Button } from '../../parts/button.tsx';
import { InputField, RadioField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import { Sounds } from './sounds.tsx';

export interface DaySettingProps {
  readonly action: string;
  readonly form: StateOf<typeof sessionSettingForm>;
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
  <PostForm action={setting.action} keys={setting.form.keys} class="begin-day" label="Begin">
    {[...Object.entries(setting.form.values), ...setting.rows.map(({ name, value }) => [name, value])].map(
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
  const { form } = setting;
  return (
    <PostForm action={setting.action} form={form} label="How the day is laid out">
      {setting.rows.map(({ name, value }) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <div class="form-row">
        <RadioField form={form} name="by" label="The day should" choices={counted} />
        <InputField form={form} name="time" type="time" label="Time" width="short" />
      </div>
      <div class="form-row">
        <InputField form={form} name="people" label="People at work" inputMode="numeric" width="short" />
        <InputField
          form={form}
          name="who"
          label="Who is there"
          hint="Names, with commas between: each gets a list of their own."
        />
        <InputField
          form={form}
          name="burners"
          label="Burners free that day"
          inputMode="numeric"
          width="short"
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
