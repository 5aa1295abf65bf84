import { type FormFields, RadioField } from './fields.tsx';

/** A name that names a food its process was not tested for, and what may be answered. */
export interface AskedName {
  readonly name: string;
  readonly otherFood: string;
  /** "This process was tested for apple butter. Is there pumpkin in it?" */
  readonly question: string;
  /** "No, there is no pumpkin in it" */
  readonly no: string;
}

interface NameQuestionProps {
  readonly form: FormFields<Readonly<Record<'inIt', string>>>;
  readonly asked: AskedName;
}

/** Asks what is in the jar; the name and the food stand with the answer, so that it holds for nothing else. */
export const NameQuestion = ({ form, asked }: NameQuestionProps) => (
  <>
    <input type="hidden" name="askedName" value={asked.name} />
    <input type="hidden" name="askedFood" value={asked.otherFood} />
    <RadioField
      form={form}
      name="inIt"
      label={asked.question}
      choices={[
        { value: 'no', words: asked.no },
        { value: 'yes', words: 'Yes' },
      ]}
    />
  </>
);
