import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { CheckField, type FormFields, InputField, RadioField, SelectField } from '../../parts/fields.tsx';
import type { Choice } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface FoodAdvice {
  readonly key: string;
  readonly food: string;
  /** `Keep`, `Refreeze`, `Cook or refreeze`, `Discard` */
  readonly verdict: string;
  readonly text: string;
  readonly source: string;
}

export interface PowerCutPageProps {
  readonly frame: Frame;
  readonly form: FormFields<
    Readonly<
      Record<'appliance' | 'startedAt' | 'endedAt' | 'seen' | 'warmest', string> &
        Record<'doorKeptShut', boolean>
    >
  >;
  /** What a reading is typed in: °F or °C. */
  readonly unit: string;
  readonly appliances: readonly Choice[];
  readonly sights: readonly Choice[];
  /** `Without power for 9 h.`; null before start and end are known. */
  readonly lasted: string | null;
  readonly advice: readonly FoodAdvice[];
}

/** What to keep, refreeze, cook or throw away after the power was gone. */
export const PowerCutPage = ({
  frame,
  form,
  unit,
  appliances,
  sights,
  lasted,
  advice,
}: PowerCutPageProps) => (
  <Page
    frame={frame}
    title="After a power outage"
    section="safety"
    about="What to keep, refreeze, cook or discard after a power outage."
  >
    <p class="page-back">
      <a href="/safety">{pageNames.safety}</a>
    </p>
    <h1 class="page-title">After a power outage</h1>
    <p class="page-line">
      Enter when the power went out and when it came back. Never taste food to find out.
    </p>
    <form method="get" action="/power-cut#advice" class="form" aria-label="The power outage">
      <SelectField form={form} name="appliance" label="What was without power" choices={appliances} />
      <div class="form-row">
        <InputField form={form} name="startedAt" type="datetime-local" label="From" />
        <InputField form={form} name="endedAt" type="datetime-local" label="Until" />
      </div>
      <CheckField form={form} name="doorKeptShut" label="The door stayed shut all that time" />
      <RadioField form={form} name="seen" label="What you see in frozen food" choices={sights} />
      <InputField
        form={form}
        name="warmest"
        label="Warmest reading, if you took one"
        inputMode="decimal"
        width="short"
        unit={unit}
      />
      <p>
        <Button weight="main">What to do</Button>
      </p>
    </form>
    {lasted === null ? null : (
      <Part title={lasted} id="advice">
        <ul class="plain-list verdicts">
          {advice.map((one) => (
            <li key={one.key}>
              <p>
                <strong class="verdict stamp">{one.verdict}</strong> {one.food}
              </p>
              <p>{one.text}</p>
              <p class="quiet small">{one.source}</p>
            </li>
          ))}
        </ul>
      </Part>
    )}
  </Page>
);
