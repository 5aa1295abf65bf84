import { RadioField } from './form.tsx';

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
  readonly form: string;
  readonly asked: AskedName;
  readonly value: string;
  readonly problem: string | undefined;
}

/** Asks what is in the jar; the name and the food stand with the answer, so that it holds for nothing else. */
export const NameQuestion = ({ form, asked, value, problem }: NameQuestionProps) => (
  <>
    <input type="hidden" name="askedName" value={asked.name} />
    <input type="hidden" name="askedFood" value={asked.otherFood} />
    <RadioField
      form={form}
      name="inIt"
      label={asked.question}
      value={value}
      choices={[
        { value: 'no', words: asked.no },
        { value: 'yes', words: 'Yes' },
      ]}
      problem={problem}
    />
  </>
);
