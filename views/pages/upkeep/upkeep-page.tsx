import type { upkeepDoneForm, upkeepTaskForm } from '../../../shared/schemas/upkeep.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { hasProblems, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

export interface UpkeepTaskProps {
  readonly key: string;
  readonly name: string;
  /** `last done Mar 3, 2026, due by Mar 3, 2027` */
  readonly state: string;
  readonly isDue: boolean;
  /** What a guide asks for, with its source; how often the household does it. */
  readonly how: string | null;
  /** The page on which it is written down, where that is another. */
  readonly writtenAt: { readonly href: string; readonly words: string } | null;
  readonly writing: {
    readonly kind: string;
    readonly of: string;
    readonly form: StateOf<typeof upkeepDoneForm, 'kind' | 'of'>;
  } | null;
  readonly history: readonly {
    readonly key: string;
    readonly words: string;
    readonly undoKeys: FormKeys | null;
  }[];
  readonly removal: { readonly action: string; readonly keys: FormKeys } | null;
}

export interface UpkeepPageProps {
  readonly frame: Frame;
  readonly line: string;
  readonly devices: readonly {
    readonly key: string;
    readonly name: string;
    readonly line: string | null;
    readonly tasks: readonly UpkeepTaskProps[];
  }[];
  /** Null for who may not change the kitchen. */
  readonly adding: {
    readonly form: StateOf<typeof upkeepTaskForm>;
    readonly canners: readonly Choice[];
    /** Devices that are named already. */
    readonly devices: readonly string[];
  } | null;
}

/** What was done to canners and other devices, and what is due. */
export const UpkeepPage = ({ frame, line, devices, adding }: UpkeepPageProps) => (
  <Page
    frame={frame}
    title="Upkeep"
    section="kitchen"
    about="What is done to canners and other devices, and when it is due."
  >
    <h1 class="page-title">Upkeep</h1>
    <p class="page-line">{line}</p>
    {devices.length === 0 ? (
      <EmptyState
        text="There is no canner yet, and no other device."
        action={{ words: 'Add a canner', href: '/kitchen#canners' }}
      />
    ) : null}
    {devices.map((device) => (
      <Part
        key={device.key}
        id={device.key}
        title={device.name}
        {...(device.line === null ? {} : { line: device.line })}
      >
        {device.tasks.length === 0 ? <EmptyState text="Nothing to do has a date." /> : null}
        {device.tasks.map((task) => (
          <Task {...task} key={task.key} />
        ))}
      </Part>
    ))}
    {adding === null ? null : <Adding {...adding} />}
    <p class="more">
      <a href="/kitchen#canners">Canners and gauges</a>
    </p>
  </Page>
);

const Task = (task: UpkeepTaskProps) => (
  <details class="fold" open={task.writing !== null && hasProblems(task.writing.form)}>
    <summary>
      <strong>{task.name}</strong>
      {task.isDue ? ` ${task.state}` : <span class="quiet">{` ${task.state}`}</span>}
    </summary>
    {task.how === null ? null : <p>{task.how}</p>}
    {task.writtenAt === null ? null : (
      <p>
        <ButtonLink href={task.writtenAt.href}>{task.writtenAt.words}</ButtonLink>
      </p>
    )}
    {task.writing === null ? null : <Writing name={task.name} {...task.writing} />}
    <History name={task.name} history={task.history} />
    {task.removal === null ? null : (
      <PostForm action={task.removal.action} keys={task.removal.keys} class="inline-form">
        <Button weight="quiet" label={`Remove this task: ${task.name}`}>
          Remove this task
        </Button>
      </PostForm>
    )}
  </details>
);

const Writing = ({ name, form, kind, of }: { name: string } & NonNullable<UpkeepTaskProps['writing']>) => (
  <PostForm action="/upkeep/done" form={form} label={`${name}: done`}>
    <input type="hidden" name="kind" value={kind} />
    <input type="hidden" name="of" value={of} />
    <div class="form-row">
      <InputField form={form} name="doneOn" label="Done on" type="date" />
      <InputField form={form} name="note" label="Note" />
    </div>
    <p>
      <Button weight="main" label={`Write it down: ${name}`}>
        Write it down
      </Button>
    </p>
  </PostForm>
);

const History = ({ name, history }: Pick<UpkeepTaskProps, 'name' | 'history'>) =>
  history.length === 0 ? null : (
    <ul class="removable">
      {history.map(({ key, words, undoKeys }) => (
        <li key={key}>
          <span>{words}</span>
          {undoKeys === null ? null : (
            <PostForm action="/upkeep/undone" keys={undoKeys} class="inline-form">
              <input type="hidden" name="event" value={key} />
              <Button weight="quiet" label={`Undo ${name}, ${words}`}>
                Undo
              </Button>
            </PostForm>
          )}
        </li>
      ))}
    </ul>
  );

const Adding = ({ form, canners, devices }: NonNullable<UpkeepPageProps['adding']>) => (
  <Part
    title="Something else you do"
    id="new"
    line="Put in another gasket, check the scale with a known weight, the thermometer in ice water: as often as you say."
  >
    <PostForm action="/upkeep/tasks" form={form} label="Something else you do">
      <div class="form-row">
        <SelectField
          form={form}
          name="cannerId"
          label="Device"
          choices={[...canners, { value: '', words: 'another device' }]}
        />
        <InputField form={form} name="device" label="Name of another device" suggestions={devices} />
      </div>
      <InputField form={form} name="name" label="What you do" />
      <InputField
        form={form}
        name="everyMonths"
        label="Every so many months"
        hint="Leave it blank to do it when it is needed."
        inputMode="numeric"
        width="short"
      />
      <p>
        <Button weight="main">Add it</Button>
      </p>
    </PostForm>
  </Part>
);
