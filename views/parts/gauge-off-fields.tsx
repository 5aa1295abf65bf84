import { type FormFields, InputField } from './fields.tsx';

const gaugePoints = [
  { name: 'gaugeOffAt5', label: 'At 5 psi' },
  { name: 'gaugeOffAt10', label: 'At 10 psi' },
  { name: 'gaugeOffAt15', label: 'At 15 psi' },
] as const;

interface GaugeOffProps {
  readonly form: FormFields<Readonly<Record<(typeof gaugePoints)[number]['name'], string>>>;
}

/** What the check of a dial gauge found, asked wherever its date is. */
export const GaugeOffFields = ({ form }: GaugeOffProps) => (
  <fieldset>
    <legend>How many psi was the dial off at that check?</legend>
    <p class="quiet">
      0 where it read true, 1 where it read 1 psi too high, −1 where it read 1 psi too low. Dial gauges only.
    </p>
    <div class="form-row">
      {gaugePoints.map(({ name, label }) => (
        <InputField key={name} form={form} name={name} label={label} width="short" />
      ))}
    </div>
  </fieldset>
);
