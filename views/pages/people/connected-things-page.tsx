import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm, RadioField } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface ConnectedThingLine {
  readonly id: string;
  readonly name: string;
  /** `may read and take; connected by Ida on Aug 17, 2026; last used today` */
  readonly words: string;
  readonly keys: FormKeys;
}

export interface ConnectedThingsPageProps {
  readonly frame: Frame;
  readonly things: readonly ConnectedThingLine[];
  /** An access token that was just made; it is shown this once. */
  readonly made: { readonly name: string; readonly token: string } | null;
  /** Where the interface begins, as the thing has to be told. */
  readonly address: string;
  readonly form: {
    readonly keys: FormKeys;
    readonly asksPassphrase: boolean;
    readonly typed: { readonly name: string; readonly may: string; readonly endsOn: string };
    readonly problems: FieldProblems;
  };
}

/** What reads the shelf besides people: a display, a home server. */
export const ConnectedThingsPage = ({ frame, things, made, address, form }: ConnectedThingsPageProps) => (
  <Page
    frame={frame}
    title="Connected things"
    section="kitchen"
    about="Displays and home servers that read this household’s shelf."
  >
    <h1 class="page-title">Connected things</h1>
    <p class="page-line">
      A display on the fridge, the automations of a home server: what reads the shelf, the week and the
      notices by itself, and takes jars where you let it.
    </p>
    {made === null ? null : (
      <div class="banner banner-done" role="status">
        <p>{`${made.name} is connected. Copy its access token now; it is not shown again:`}</p>
        <p>
          <code class="calendar-address">{made.token}</code>
        </p>
      </div>
    )}
    <Things things={things} />
    <Connect form={form} />
    <Part
      title="How it asks"
      id="how"
      line="Under this address, with “Authorization: Bearer” and its access token."
    >
      <p>
        <code class="calendar-address">{address}</code>
      </p>
      <p class="more">
        <a href={`${address}/openapi.json`}>What it can ask, in OpenAPI 3.1</a>
      </p>
      <p class="more">
        <a href="/people">{pageNames.people}</a>
      </p>
    </Part>
  </Page>
);

const Things = ({ things }: { things: readonly ConnectedThingLine[] }) => (
  <Part
    title="What is connected"
    id="things"
    line="Withdraw what you no longer use, or whose token somebody else may have seen: it opens nothing from then on. What a member connected is withdrawn when the member leaves or is no longer an owner."
  >
    {things.length === 0 ? (
      <EmptyState text="Nothing is connected." />
    ) : (
      <ul class="removable">
        {things.map(({ id, name, words, keys }) => (
          <li key={id}>
            <span>
              <strong>{name}</strong>
              {`, ${words}`}
            </span>
            <PostForm
              action={`/connected-things/${id}/withdrawal`}
              keys={keys}
              class="inline-form"
              label={`Withdraw ${name}`}
            >
              <Button weight="quiet" label={`Withdraw ${name}`}>
                Withdraw
              </Button>
            </PostForm>
          </li>
        ))}
      </ul>
    )}
  </Part>
);

const Connect = ({
  form: { keys, asksPassphrase, typed, problems },
}: {
  form: ConnectedThingsPageProps['form'];
}) => (
  <Part title="Connect a thing" id="connect">
    <PostForm action="/connected-things" keys={keys} problems={problems} label="Connect a thing">
      <InputField
        form="thing"
        name="name"
        label="Name"
        hint="What you call it: Fridge display."
        value={typed.name}
        problem={problems.name}
      />
      <RadioField
        form="thing"
        name="may"
        label="It may"
        value={typed.may}
        choices={[
          { value: 'read', words: 'read only' },
          { value: 'read and take', words: 'read, take from the shelf and undo what was taken' },
        ]}
        problem={problems.may}
      />
      <InputField
        form="thing"
        name="endsOn"
        label="Last day"
        hint="Leave it blank and it goes on until you withdraw it."
        type="date"
        value={typed.endsOn}
        problem={problems.endsOn}
      />
      {asksPassphrase ? (
        <InputField
          form="thing"
          name="present"
          label="Present passphrase"
          type="password"
          value=""
          autocomplete="current-password"
          problem={problems.present}
        />
      ) : null}
      <p>
        <Button weight="main">Connect it</Button>
      </p>
    </PostForm>
  </Part>
);
