import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Outcome, Problem } from '../../../shared/problems.ts';
import { isTicked, typedValues } from '../../../shared/schemas/form-fields.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { PlainPage } from '../../../views/pages/plain-page.tsx';
import type { FieldValues, FormFields, FormState } from '../../../views/parts/fields.tsx';
import type { FieldProblems, FormKeys } from '../../../views/parts/form.tsx';
import { seeOther, statusOf } from './posting.ts';

/** A form that was refused: which one, what was typed, and what has to be mended. */
export interface SentBack {
  readonly formId: string;
  readonly typed: Readonly<Record<string, string>>;
  readonly problems: readonly Problem[];
  readonly status: number;
}

interface Answer<Done> {
  /** The form on the page, by the id its fields have; left out where it has buttons alone. */
  readonly formId?: string;
  /** Leads from a field of the record to the field a person sees. */
  readonly renamed?: Readonly<Record<string, string>> | undefined;
  /** Where it goes on: the address of the page that shows the change, or the answer itself. */
  readonly done: string | ((value: Done) => string | FastifyReply | Promise<string | FastifyReply>);
  /** The same page again, with what was typed and what has to be mended. */
  readonly again: (sentBack: SentBack) => FastifyReply | Promise<FastifyReply>;
}

/** The one way a form is answered: done, it leads on; refused, its page comes back with all that was typed. */
export async function answerForm<Done>(
  request: FastifyRequest,
  reply: FastifyReply,
  outcome: Outcome<Done>,
  answer: Answer<Done>,
): Promise<FastifyReply> {
  if (!outcome.ok) return answer.again(sentBackOf(request, outcome.problems, answer));
  const next = typeof answer.done === 'string' ? answer.done : await answer.done(outcome.value);
  return typeof next === 'string' ? seeOther(reply, next) : next;
}

/** What a page shows of a form that was refused. */
export const sentBackOf = (
  { body }: Pick<FastifyRequest, 'body'>,
  problems: readonly Problem[],
  { formId = '', renamed = {} }: Pick<Answer<unknown>, 'formId' | 'renamed'>,
): SentBack => ({
  formId,
  typed: typedValues(body),
  problems: problems.map((problem) => {
    const last = String(problem.path.at(-1) ?? '');
    return { ...problem, path: [renamed[last] ?? last] };
  }),
  status: statusOf(problems),
});

/** All that is wrong, said at the head of a page that has no fields for it. */
export const whatIsWrong = ({ problems }: Pick<SentBack, 'problems'>): Message => ({
  tone: 'problem',
  text: problems.map(({ message }) => message).join(' '),
});

/** A page of its own that says what is wrong, where the one that asked may show something else by now. */
export const plainAnswer = async (
  reply: FastifyReply,
  sentBack: SentBack,
  page: Pick<Parameters<typeof PlainPage>[0], 'title' | 'action'>,
): Promise<FastifyReply> =>
  reply.page(
    PlainPage,
    { frame: await reply.frame(), ...page, text: whatIsWrong(sentBack).text },
    sentBack.status,
  );

/**
 * The fields of a form: as kept, or as they were typed when it is the one that was sent back. What is wrong with one of them
 * stands beside it; what belongs to none, or to one that is `notShown`, at the head of the form.
 */
type FieldsOf = <Values extends FieldValues>(
  formId: string,
  kept: Values,
  notShown?: readonly (keyof Values & string)[],
) => FormFields<Values>;

export const fieldsFrom =
  (sentBack: Pick<SentBack, 'formId' | 'typed' | 'problems'> | null): FieldsOf =>
  (formId, kept, notShown = []) => {
    if (sentBack?.formId !== formId) return { formId, values: kept, problems: {} };
    const { typed, problems } = sentBack;
    const names = Object.keys(kept);
    const isTyped = names.some((name) => name in typed);
    // An unticked box is not sent: among what was typed it is not ticked.
    const stands = (name: string, value: string | boolean): string | boolean =>
      typeof value === 'string' ? (typed[name] ?? value) : isTyped ? isTicked(typed[name] ?? '') : value;
    const values = Object.fromEntries(names.map((name) => [name, stands(name, kept[name] ?? '')]));
    const shown = names.filter((name) => !notShown.some((one) => one === name));
    return { formId, values: values as typeof kept, problems: beside(problems, shown) };
  };

/** Messages by the field they stand beside; under the empty name what belongs to none of those that are shown. */
function beside(problems: readonly Problem[], shown: readonly string[]): FieldProblems {
  const messages: Record<string, string> = {};
  for (const { path, message } of problems) {
    const name = String(path.at(-1) ?? '');
    const place = shown.includes(name) ? name : '';
    messages[place] = messages[place] === undefined ? message : `${messages[place]} ${message}`;
  }
  return messages;
}

/** As `FieldsOf`, with the hidden values of a form that changes something. */
export type StateOfForm = <Values extends FieldValues>(
  formId: string,
  kept: Values,
  notShown?: readonly (keyof Values & string)[],
) => FormState<Values>;

export const statesFrom = (newKeys: () => FormKeys, sentBack: SentBack | null): StateOfForm => {
  const fields = fieldsFrom(sentBack);
  return (...form) => ({ ...fields(...form), keys: newKeys() });
};
